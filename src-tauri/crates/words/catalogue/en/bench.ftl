### What is said of a bench run. Figures are printed with their units.

## The two answers per test voltage.

said-bench-holds = { $volts }: indications hold { $intervals }
said-bench-holds-nowhere = { $volts }: indications hold nowhere that was tested
said-bench-interval = from { $from } to { $to }
said-bench-interval-on-condition = from { $from } to { $to } (on condition)
said-bench-conforms = Conforms to { $edition }
said-bench-conforms-not = Does not conform to { $edition }: { $requirements }
said-bench-conforms-open = { $count ->
    [one] Conforms to { $edition }: not all tested, { $count } open
   *[other] Conforms to { $edition }: not all tested, { $count } open
}

## Requirements of the tester standard.

said-bench-requirement = { $requirement ->
    [operating-uncertainty] operating uncertainty
    [open-circuit-voltage] open-circuit voltage
    [rated-current] rated current
   *[short-circuit-current] measuring current
}
said-bench-at-most = { $requirement }: { $found }, at most { $asked } asked
said-bench-at-least = { $requirement }: { $found }, at least { $asked } asked
said-bench-open = { $requirement }: not tested, { $why }
said-bench-why-not-measured = nothing was measured
said-bench-why-too-close = the limit lies within the uncertainty
said-bench-part = { $part ->
    [intrinsic] no point under reference conditions
    [position] not turned both ways
    [supply] not at the lowest battery voltage
   *[temperature] not near both ends of the rated temperature
}

## One point.

said-bench-point = { $known }: { $shown } shown, { $error }, permitted ±{ $permitted }
said-bench-point-undecided = { $known }: { $shown } shown, not decided: { $why }
said-bench-outcome = { $decision ->
    [conforms] conforms
    [conditional-pass] conforms, by less than the guard
    [on-condition] conforms, on the condition remarked
    [conditional-fail] conditional fail
   *[does-not-conform] does not conform
}

## Why something measured decides nothing.

said-bench-unknown-reference = its reference is not among those of this run
said-bench-unknown-resistance = { $reference } has no value of { $nominal }
said-bench-no-uncertainty = { $reference } states no uncertainty
said-bench-above-rating = { $reference }: { $nominal } is rated for { $rated }
said-bench-not-a-voltmeter = { $reference } is no voltmeter of known input resistance
said-bench-not-a-current-meter = { $reference } is no current meter
said-bench-above-meter = above the ranges of { $reference }
said-bench-nothing-known = neither a known resistor nor a meter was connected
said-bench-nothing-read = nothing was read at this load
said-bench-no-stated-accuracy = the card states no accuracy there
said-bench-outside-card = outside every range of the card
said-bench-mixed-repeats = some repeats were exact and some were not
said-bench-load-too-heavy = { $load } is too heavy a load, at least { $least } asked
said-bench-load-not-rated = { $load } is too far from the rated load, { $rated }
said-bench-beyond-arithmetic = its figures cannot be reckoned with

## Remarks.

said-bench-lapsed = { $reference }: its certificate lapsed on { $until }
said-bench-lapsed-no-date = { $reference }: its certificate has no last day
said-bench-low-ratio = Permitted deviation only { $ratio } times U: certain to { $probability }
said-bench-no-voltage-coefficient = { $reference }: { $nominal } states no voltage coefficient
said-bench-no-repeats = Nothing was repeated at this test voltage
said-bench-fewer-than-planned = Read { $taken } of { $planned } planned times
said-bench-repeat-outside = One of the repeats lies outside what is permitted
said-bench-temperature = Taken at { $temperature }, outside reference conditions

## Where indications hold, and why an interval ends there.

said-bench-end-nothing-tested = nothing was tested beyond
said-bench-end-not-conforming = { $known } does not conform
said-bench-end-outcome-conditional = { $known } is a conditional fail
said-bench-end-undecided = { $known } could not be decided
said-bench-end-range = no point conforms in the range { $from } to { $to }
said-bench-end-shown-low = { $known } was shown as { $shown }
said-bench-ends = From { $from }: { $below }. To { $to }: { $above }
said-bench-ends-on-condition = From { $from }: { $below }. To { $to }: { $above }. On condition at a point between
said-bench-shown-high = Not from { $from }: { $known } was shown as { $shown }
said-bench-leads-shown-high = Not from { $from }: shorted leads were shown as { $shown }
said-bench-single-point = { $known } stands alone and spans nothing
said-bench-ends-cross = What was shown at { $from } is above that at { $to }
said-bench-no-point = No point conforms
said-bench-no-indication = No indication was taken

## Lines of a budget.

said-bench-line-reference = { $reference }, { $nominal }, certificate
said-bench-line-drift = { $reference }, change since its certificate
said-bench-line-voltage = { $reference }, { $nominal }, voltage coefficient
said-bench-line-temperature = { $reference }, { $nominal }, temperature coefficient
said-bench-line-loading = { $reference }, input resistance
said-bench-line-meter = { $reference }, certificate
said-bench-line-meter-resolution = { $reference }, half a step of the display
said-bench-line-resolution = tester, half a step of the display
said-bench-line-repeatability = tester, scatter of the repeats
said-bench-line-pooled = tester, scatter of other points' repeats
