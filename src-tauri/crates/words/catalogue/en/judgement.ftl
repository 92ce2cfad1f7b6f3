### What is said of a reading's value, and of limits and guards.
### A sentence about the value follows the reading it stands beside: "487 MΩ" / "meets 1.0 MΩ at 500 V".

## One word or phrase for the value.

said-value-meets = meets
said-value-below = below
said-value-too-close = too close to call
said-value-cannot-be-judged = cannot be judged

## The whole sentence. { $volts } is always the test voltage the reading was taken at.

said-meets-limit = meets { $limit } at { $volts }
said-below-limit = below { $limit } at { $volts }, the limit set for this job
said-below-limit-higher-voltage = below { $limit } at { $volts }. Test again at { $asked }
said-too-close = too close to call: { $reading } at { $volts }, acceptance from { $acceptance }
said-too-close-claim-cut = too close to call at { $volts }: backed only up to { $top }
said-judged-without-limit = taken at { $volts }, compared with no limit
said-open-towards-limit = cannot be judged: { $reading } at { $volts } leaves { $limit } open
said-no-uncertainty = cannot be judged at { $volts }: no uncertainty known for this tester
said-lower-voltage = cannot be judged at { $volts }: this set asks for { $asked }
said-claim-cut = cannot be judged at { $volts }: backed only up to { $top }
said-no-limit = cannot be judged at { $volts }: this set has no limit here
said-members-differ = cannot be judged at { $volts }: joined circuits ask for different test voltages
said-too-many-live-values = cannot be judged at { $volts }: more than eight combinations to settle

## The guard, figure by figure.

said-guard-accuracy = w = p·R + n·resolution = { $percent } × { $reading } + { $digits } × { $resolution } = { $w }, at reference conditions
said-guard-budget = w = U = { $percent } × { $reading } = { $w }, from the budget of a verification
said-guard-operating = w = B = { $percent } × { $reading } = { $w }, the operating uncertainty found at a verification
said-guard-stated-operating = w = { $percent } × { $reading } = { $w }, the operating uncertainty its maker states
said-guard-conforming = w = { $percent } × { $reading } = { $w }, for a tester that conforms to IEC 61557-2 and states no figures
said-guard-acceptance = Acceptance limit L + w = { $limit } + { $w } = { $acceptance }
said-guard-smallest = Smallest indication that proves { $limit }: { $smallest }
said-guard-smallest-unknown = No indication of this tester proves { $limit }
said-guard-lapsed = These figures rest on a verification that has lapsed

## Short lines for the entry.

said-hint-smallest = Proves { $limit } from { $smallest }
said-hint-smallest-by = Proves { $limit } from { $smallest }, { $by }
said-made-by = { $by ->
    [budget] by U = { $percent } of its verification
    [operating] by B = { $percent } of its verification
    [stated] by its stated operating uncertainty { $percent }
    [accuracy] by ±({ $percent } + { $digits } digits)
   *[conforming] by { $percent } of IEC 61557-2
}
