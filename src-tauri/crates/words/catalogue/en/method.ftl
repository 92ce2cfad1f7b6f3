### What is said of how a reading was taken, or of why there is none.

said-method-lower-voltage = taken at { $taken }, this set asks for { $asked }
said-method-higher-voltage = taken at { $taken }, more than the { $asked } this set asks for
said-method-reduced-surge-protector = taken at { $taken } instead of { $asked }: surge protectors cannot practicably be disconnected
said-method-reduced-equipment = taken at { $taken } instead of { $asked }: equipment cannot practicably be disconnected
said-method-reduced-equipment-connected = taken at { $taken } instead of { $asked }: tested after equipment was connected
said-method-forbidden-pair = this pair is not to be tested with electronics connected
said-method-leads-not-checked = over-range, and no good leads-shorted check that day
said-method-leads-in-doubt = leads in doubt: leads-shorted check at { $at } did not hold
said-method-leads-may-read-low = the leads may have read low (leads-open check at { $at })
said-method-no-quick-check = { $days ->
    [one] no quick check of the tester within { $days } day before
   *[other] no quick check of the tester within { $days } days before
}
said-method-neutral-not-isolated = N was not isolated from PE
said-method-loads-connected = loads were connected
said-method-fewer-digits = fewer digits than this tester shows: one step is { $resolution }
said-method-more-digits = more digits than this tester shows: one step is { $resolution }
said-method-no-such-conductor = on a conductor that its circuit does not have
said-method-above-tester-limit = above this tester's limit of { $limit }: check the unit
said-method-far-below-others = far below the median of { $readings } like pairs on this board: { $median }
said-method-doubtful-clock = the clock of this device was in doubt
said-method-two-live-values = rests on something that has two values to settle
said-method-at-reference-conditions = judged at reference conditions
said-method-needs-newer-version = rests on an entry that needs a newer version

## Conditions a reading was taken under, beside the loads.

said-n-isolated = N isolated from PE
said-n-not-isolated = N not isolated from PE

## Why a lower test voltage was used.

said-reduced-surge-protector = surge protectors cannot practicably be disconnected
said-reduced-equipment = equipment cannot practicably be disconnected
said-reduced-equipment-connected = tested after equipment was connected

## Why a pair was not tested.

said-not-tested-live = circuit live
said-not-tested-no-access = no access
said-not-tested-load-connected = load connected
said-not-tested-joined = joined with others
said-not-tested-not-present = not present
said-not-tested-other = other

said-not-tested = not tested: { $reason }
