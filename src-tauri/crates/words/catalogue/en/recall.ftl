### Readings that a failed tester put in doubt: what is left of each, and what became of it.

said-recall-class-still-clears = still clears the limit
said-recall-class-cannot-be-judged = cannot be judged
said-recall-class-test-again = test again

said-recall-still-clears = still clears { $limit }: stands for at least { $lowest }
said-recall-still-clears-with-error = still clears { $limit }: at least { $lowest } with the error found
said-recall-found-on = with the error found on { $found }; it may have differed before
said-recall-may-be-below = no longer certain, test again: may be as low as { $lowest }
said-recall-voltage-fell = no longer certain, test again: the voltage held only from { $load }
said-recall-did-not-meet = test again: did not meet its limit as read
said-recall-nothing-measured = cannot be judged: no known resistance was measured at that voltage
said-recall-below-lowest-point = cannot be judged: below the lowest resistance that was measured
said-recall-uncertainty-not-known = cannot be judged: the uncertainty of the error is not known
said-recall-load-not-known = cannot be judged: no load is known at which the voltage held
said-recall-not-said-in-what = cannot be judged: what did not hold is not said
said-recall-no-limit = cannot be judged: the set has no limit for it
said-recall-not-judged-before = cannot be judged, and could not be before

## The list.

answer-recall-signed = { $count ->
    [one] Signed: number { $number }, { $name }, { $time }. { $count } reading of the job is put in doubt
   *[other] Signed: number { $number }, { $name }, { $time }. { $count } readings of the job are put in doubt
}
answer-recall-sum = { $all ->
    [0] { $tester } puts no reading in doubt
    [one] { $all } reading in doubt, { $resolved } resolved
   *[other] { $all } readings in doubt, { $resolved } resolved
}
answer-recall-several = { $count } testers have the serial number { $serial }: choose one
answer-recall-person = { $part ->
    [none] { $name }
   *[other] { $name }, { $part }
}
answer-recall-tested-again = Tested again on { $at }: { $reading }
answer-recall-stated = { $person } on { $at }: { $reason }
answer-recall-resolved = { $reading } resolved
answer-recall-in-doubt = { $count ->
    [one] { $count } reading in doubt
   *[other] { $count } readings in doubt
}
answer-recall-in-doubt-open = { $count ->
    [one] { $count } reading in doubt, { $open } not resolved
   *[other] { $count } readings in doubt, { $open } not resolved
}

answer-job-in-doubt = { $count ->
    [one] { $count } reading with { $tester } in doubt, resolved
   *[other] { $count } readings with { $tester } in doubt, all resolved
}
answer-job-in-doubt-open = { $count ->
    [one] { $count } reading with { $tester } in doubt, { $open } not resolved
   *[other] { $count } readings with { $tester } in doubt, { $open } not resolved
}

## The quick check and damage.

answer-quick-check-open = Leads apart, press test: over-range is expected
answer-quick-check-shorted = Leads together, press test: near zero is expected
answer-quick-check-box = Each resistance of the check box, press test: within the accuracy of the card is expected
answer-quick-check-none = No quick check on record
answer-quick-check-last-good = Last quick check { $at } at { $volts }: as expected
answer-quick-check-last-not-good = Last quick check { $at } at { $volts }: not as expected
answer-quick-check-leads-not-good = The leads it was made with were not as expected: it ends no doubt and is not counted as a quick check
answer-quick-check-good = Quick check recorded: as expected
answer-quick-check-not-good = Quick check recorded: not as expected
answer-quick-check-title-good = Quick check of { $at } at { $volts }: as expected
answer-quick-check-title-not-good = Quick check of { $at } at { $volts }: not as expected
answer-quick-check-point-good = { $known } shown as { $shown }
answer-quick-check-point-not-good = { $known } shown as { $shown }, beyond the accuracy of the card
answer-damage-since = Damage recorded: barred from { $at }
answer-damage-since-proof = Damage recorded at { $at }: readings since the last good proof are in doubt
answer-damage-title-at = Damaged at { $at }
answer-damage-title-found = Found damaged at { $at }
answer-check-withdrawn = Withdrawn: { $reason }

## When a tester is due, and what its own history proposes.

answer-interval = { $months ->
    [one] Verified every { $months } month
   *[other] Verified every { $months } months
}
answer-due-later = Next verification by { $until }
answer-due-soon = { $days ->
    [0] Next verification due today
    [one] Next verification due in { $days } day, by { $until }
   *[other] Next verification due in { $days } days, by { $until }
}
answer-due-now = A verification is due now: at some test voltage nothing on record proves it
answer-due-never = Never verified
answer-due-past = Verification was due by { $until }
answer-proposal = { $months ->
    [one] Its own history proposes { $months } month, as advice
   *[other] Its own history proposes { $months } months, as advice
}
answer-proposal-step = { $change ->
    [longer] { $made }: { $share } of what is permitted, longer: { $months } months
    [shorter] { $made }: { $share } of what is permitted, shorter: { $months } months
   *[kept] { $made }: { $share } of what is permitted, kept: { $months } months
}
answer-proposal-step-no-share = { $change ->
    [shorter] { $made }: did not hold, shorter: { $months } months
   *[kept] { $made }: held, no figures, kept: { $months } months
}
answer-proposal-rule = Staircase of ILAC-G24 / OIML D 10 (from memory): longer up to { $share } of what is permitted, shorter beyond all of it, in steps of { $step } months chosen here, { $least } to { $most } months

## Circuits read together.

answer-parallel = { $sign ->
    [more] { $members } read more than { $together } together
    [less] { $members } read less than { $together } together
   *[exact] { $members } read { $together } together
}
answer-parallel-open = Members that are more than and less than a figure leave the whole open both ways
answer-parallel-uncertainty = Known to ±{ $whole } together, where each is known to ±{ $each } independently of the others
answer-parallel-uncertainty-open = With a member that is open on a side no uncertainty of the whole can be stated
answer-discharge = { $capacitance } through { $through } falls from { $from } to { $to } in { $time }: a figure to plan with, no proof
answer-discharge-open = Give a resistance and a capacitance above zero
answer-own-of = { $circuit }: { $own } ({ $with } with it, { $without } without it, { $by })
answer-own-unknown = { $circuit }: what it has by itself cannot be worked out, nothing is known of the tester's uncertainty there
answer-own-at-least = By itself it has at least { $least }; the two readings do not differ enough for an upper figure
answer-own-between = By itself it has { $least } to { $most }
answer-own-no-lower-end = A reading of zero or less than a figure says nothing of one circuit
answer-own-contradictory = The group reads more with the circuit than without it: read both again
answer-own-beyond = These figures are beyond all arithmetic

## The list on paper.

papers-recall-title = Readings put in doubt
papers-recall-causes = What was found
papers-recall-call = Call:
papers-recall-column-circuit = Circuit and pair
papers-recall-column-shown = Reading
papers-recall-column-taken = Taken
papers-recall-column-left = What is left of it
papers-recall-column-because = In doubt because
papers-recall-column-resolved = What became of it
answer-recall-written = Recall list written
