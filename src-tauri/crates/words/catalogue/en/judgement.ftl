### What is said of a reading's value, and of limits and guards.
### A sentence about the value follows the reading it stands beside: "487 MΩ" / "meets 1.0 MΩ at 500 V".

## One word or phrase for the value.

value-meets = meets
value-below = below
value-too-close = too close to call
value-cannot-be-judged = cannot be judged

## The whole sentence. { $volts } is always the test voltage the reading was taken at.

meets-limit = meets { $limit } at { $volts }
below-limit = below { $limit } at { $volts }, the limit set for this job
below-limit-higher-voltage = below { $limit } at { $volts }. Test again at { $asked }
too-close = too close to call: { $reading } at { $volts }, acceptance from { $acceptance }
too-close-claim-cut = too close to call at { $volts }: backed only up to { $top }
judged-without-limit = taken at { $volts }, compared with no limit
open-towards-limit = cannot be judged: { $reading } at { $volts } leaves { $limit } open
no-uncertainty = cannot be judged at { $volts }: no uncertainty known for this tester
lower-voltage = taken at { $volts }, this set asks for { $asked }
claim-cut = cannot be judged at { $volts }: backed only up to { $top }
no-limit = cannot be judged at { $volts }: this set has no limit for this circuit
members-differ = cannot be judged at { $volts }: the joined circuits ask for different test voltages
too-many-live-values = cannot be judged at { $volts }: more than eight combinations to settle

## The guard, figure by figure.

guard-accuracy = w = p·R + n·resolution = { $percent } × { $reading } + { $digits } × { $resolution } = { $w }, at reference conditions
guard-budget = w = U = { $percent } × { $reading } = { $w }, from the budget of a verification
guard-operating = w = B = { $percent } × { $reading } = { $w }, the operating uncertainty found at a verification
guard-stated-operating = w = { $percent } × { $reading } = { $w }, the operating uncertainty its maker states
guard-conforming = w = { $percent } × { $reading } = { $w }, for a tester that conforms to IEC 61557-2 and states no figures
guard-acceptance = Acceptance limit L + w = { $limit } + { $w } = { $acceptance }
guard-smallest = Smallest indication that proves { $limit }: { $smallest }
guard-smallest-unknown = No indication of this tester proves { $limit }
guard-lapsed = These figures rest on a verification that has lapsed

## Short lines for the entry.

hint-smallest = Proves { $limit } from { $smallest }
