### What is said of how a reading was taken, or of why there is none.

method-lower-voltage = taken at { $taken }, this set asks for { $asked }
method-higher-voltage = taken at { $taken }, more than the { $asked } this set asks for
method-reduced-surge-protector = taken at { $taken } instead of { $asked }: surge protectors cannot practicably be disconnected
method-reduced-equipment = taken at { $taken } instead of { $asked }: equipment cannot practicably be disconnected
method-reduced-equipment-connected = taken at { $taken } instead of { $asked }: tested after equipment was connected
method-forbidden-pair = this pair is not to be tested with electronics connected
method-leads-not-checked = over-range, and no good leads-shorted check that day
method-leads-in-doubt = leads in doubt: the check with leads shorted at { $at } did not hold
method-leads-may-read-low = the leads may have read low: the check with leads open at { $at } did not hold
method-neutral-not-isolated = N was not isolated from PE
method-loads-connected = loads were connected
method-fewer-digits = fewer digits than this tester shows: one step is { $resolution }
method-above-tester-limit = above this tester's limit of { $limit }: check the unit
method-far-below-others = far below { $median }, the median of { $readings } like pairs on this board
method-doubtful-clock = the clock of this device was in doubt
method-two-live-values = rests on something that has two values to settle
method-at-reference-conditions = judged at reference conditions
method-needs-newer-version = rests on an entry that needs a newer version

## Why a lower test voltage was used.

reduced-surge-protector = surge protectors cannot practicably be disconnected
reduced-equipment = equipment cannot practicably be disconnected
reduced-equipment-connected = tested after equipment was connected

## Why a pair was not tested.

not-tested-live = circuit live
not-tested-no-access = no access
not-tested-load-connected = load connected
not-tested-joined = joined with others
not-tested-not-present = not present
not-tested-other = other

not-tested = not tested: { $reason }
