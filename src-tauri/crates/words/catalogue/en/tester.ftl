### What is said of a tester for one reading. { $tester } is its name.

## One word or phrase for the state.

said-state-proved = proved
said-state-lapsed = lapsed
said-state-not-proved = not proved
said-state-found-good-afterwards = found good afterwards
said-state-in-doubt = in doubt
said-state-barred = barred
said-state-not-chosen = not chosen

## The line of the header: the tester and its state now.

said-header-proved = { $tester } · proved to { $until }
said-header-state = { $tester } · { $state }
said-header-none = Choose a tester

said-header-lapsed-days = { $count ->
    [one] { $tester } · lapsed { $count } day ago
   *[other] { $tester } · lapsed { $count } days ago
}
said-header-lapsed-months = { $count ->
    [one] { $tester } · lapsed { $count } month ago
   *[other] { $tester } · lapsed { $count } months ago
}
said-header-lapsed-years = { $count ->
    [one] { $tester } · lapsed { $count } year ago
   *[other] { $tester } · lapsed { $count } years ago
}

## The state for one reading, with its reason.

said-tester-proved = { $paper ->
    [certificate] { $tester }: proved to { $until } by certificate { $certificate }
    [calibration] { $tester }: proved to { $until } by the calibration of { $made }
   *[bench] { $tester }: proved to { $until } by bench verification of { $made }
}
said-tester-proved-recorded-later = { $paper ->
    [certificate] { $tester }: proved to { $until } by certificate { $certificate }, recorded on { $recorded }
    [calibration] { $tester }: proved to { $until } by the calibration of { $made }, recorded on { $recorded }
   *[bench] { $tester }: proved to { $until } by bench verification of { $made }, recorded on { $recorded }
}

# Beside a graver reason: what its paper said on the day of the reading.
said-tester-proved-then = { $paper ->
    [certificate] { $tester }: on { $taken }, certificate { $certificate } was valid to { $until }
    [calibration] { $tester }: on { $taken }, its calibration of { $made } was valid to { $until }
   *[bench] { $tester }: on { $taken }, its bench verification of { $made } was valid to { $until }
}

said-tester-lapsed-days = { $count ->
    [one] { $tester }: verification lapsed { $count } day ago
   *[other] { $tester }: verification lapsed { $count } days ago
}
said-tester-lapsed-months = { $count ->
    [one] { $tester }: verification lapsed { $count } month ago
   *[other] { $tester }: verification lapsed { $count } months ago
}
said-tester-lapsed-years = { $count ->
    [one] { $tester }: verification lapsed { $count } year ago
   *[other] { $tester }: verification lapsed { $count } years ago
}
said-tester-lapsed-on = { $tester }: verification lapsed on { $until }, before this reading
said-tester-lapsed-no-date = { $tester }: its verification names no last day

said-tester-nothing-on-record = { $tester }: no verification on record at { $volts }
said-tester-voltage-not-covered = { $tester }: verified, but not at { $volts }
said-tester-outside-proved-range = { $tester }: at { $volts } proved only in { $holds }
said-tester-outside-proved-range-nowhere = { $tester }: at { $volts } its indications are proved nowhere
said-tester-adjusted-since = { $tester }: adjusted on { $made }, not proved since
said-tester-not-all-tested = { $tester }: verified, but not for everything the policy asks
said-tester-conditionally-failed = { $tester }: its verification says neither good nor failed
said-tester-no-range-stated = { $tester }: neither its verification nor its card states a range at { $volts }
said-tester-low-end-not-tested = { $tester }: its bench tested nothing near the limit at { $volts }

said-tester-not-good-before = { $tester }: barred, found failed on { $made }
said-tester-not-good-before-point = { $tester }: barred, found failed at { $point } on { $made }
said-tester-not-good-before-requirement = { $requirement ->
    [operating-uncertainty] { $tester }: barred, on { $made } its operating uncertainty was not met
    [open-circuit-voltage] { $tester }: barred, on { $made } its open-circuit voltage was not met
    [rated-current] { $tester }: barred, on { $made } its rated current was not met
   *[short-circuit-current] { $tester }: barred, on { $made } its measuring current was not met
}
said-tester-quick-check-before = { $tester }: barred, the quick check of { $at } did not hold
said-tester-damaged-before = { $tester }: barred, damaged at { $at }

said-tester-not-good-after = { $tester }: in doubt, found failed on { $made }, after this reading
said-tester-not-good-after-point = { $tester }: in doubt, found failed at { $point } on { $made }, after this reading
said-tester-not-good-after-requirement = { $requirement ->
    [operating-uncertainty] { $tester }: in doubt, operating uncertainty not met on { $made }, after this reading
    [open-circuit-voltage] { $tester }: in doubt, open-circuit voltage not met on { $made }, after this reading
    [rated-current] { $tester }: in doubt, rated current not met on { $made }, after this reading
   *[short-circuit-current] { $tester }: in doubt, measuring current not met on { $made }, after this reading
}
said-tester-quick-check-after = { $tester }: in doubt, a later quick check ({ $at }) did not hold
said-tester-damaged-after = { $tester }: in doubt, found damaged at { $at }, after this reading

said-tester-good-after = { $tester }: not proved for this reading, found good afterwards on { $made }
said-tester-not-confirmable = { $tester }: not confirmable, adjusted later with nothing stated as found
said-tester-none = Tester not chosen
said-tester-with-serial = { $tester }, serial number { $serial }
said-tester-without-serial = { $tester }, without a serial number
said-tester-live-values = { $tester }: has two values to settle

said-tester-requirement-not-met = { $requirement ->
    [operating-uncertainty] operating uncertainty not met
    [open-circuit-voltage] open-circuit voltage not met
    [rated-current] rated current not met
   *[short-circuit-current] measuring current not met
}

## A further reason beside the first one.

said-interval = { $from } to { $to }
said-interval-on-condition = { $from } to { $to } (on condition)

## Remarks on the proof.

said-remark-holds-on-condition = a point it rests on conforms with a condition only
said-remark-low-end-not-shown = low end not shown: the proof begins above the limit
said-remark-not-tested = { $requirement ->
    [operating-uncertainty] operating uncertainty not tested
    [open-circuit-voltage] open-circuit voltage not tested
    [rated-current] rated current not tested
   *[short-circuit-current] measuring current not tested
}
said-remark-not-met = { $requirement ->
    [operating-uncertainty] operating uncertainty known not to be met
    [open-circuit-voltage] open-circuit voltage known not to be met
    [rated-current] rated current known not to be met
   *[short-circuit-current] measuring current known not to be met
}
said-remark-card-range-stands-in = certificate gives no intervals: the card's range stands in
said-remark-not-all-tested = not every requirement of the tester standard was tested
said-remark-does-not-conform = its paper says it does not conform to the tester standard
