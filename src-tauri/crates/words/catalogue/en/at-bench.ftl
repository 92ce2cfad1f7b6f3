### The bench while it is worked on: points, steps, what to connect and what is read.

answer-bench-resistor = { $nominal } of { $reference }
answer-bench-open-circuit = Open-circuit voltage
answer-bench-open-circuit-with = Open-circuit voltage with { $resistor }
answer-bench-rated-load = Rated load, { $resistor }
answer-bench-rated-load-none = Rated load
answer-bench-further-load = Further load, { $resistor }
answer-bench-short-circuit = Short-circuit current
answer-bench-leads-open = Leads apart
answer-bench-leads-shorted = Leads together
answer-bench-ripple = A.c. part of the current
answer-bench-polarity = Polarity at the terminals
answer-bench-what-indication = Indication at a known resistance
answer-bench-what-rated-load = Rated load
answer-bench-what-further-load = Further load
answer-bench-volts-at = { $item }, voltage
answer-bench-current-at = { $item }, current
answer-bench-supply-nominal = Nominal supply
answer-bench-supply-lowest = Lowest battery voltage
answer-bench-position-reference = Reference position
answer-bench-position-left = Turned left by 90°
answer-bench-position-right = Turned right by 90°
answer-bench-warmth-cold = Cold end of the rated temperature
answer-bench-warmth-warm = Warm end of the rated temperature
answer-bench-warmth-other = Beside the reference temperature
answer-bench-choice-reference = Reference temperature, { $temperature }
answer-bench-choice-cold = Cold end of the rated temperature, { $temperature }
answer-bench-choice-warm = Warm end of the rated temperature, { $temperature }
answer-bench-line-positive = Line positive
answer-bench-earth-positive = Earth positive
answer-bench-not-adjusted = As found; the tester is not adjusted in this run
answer-bench-as-found = As found, before the adjustment
answer-bench-as-left = As left, after the adjustment
answer-bench-edition = Judged by { $edition }
answer-bench-rule-simple = Simple acceptance: up to what is permitted conforms
answer-bench-rule-guard-u = Guard band w = U: up to U below what is permitted conforms
answer-bench-rule-guard-part-u = Guard band w = 0.83 U: up to 0.83 U below what is permitted conforms
answer-bench-choice-simple = Simple acceptance
answer-bench-choice-guard-u = Guard band w = U
answer-bench-choice-guard-part-u = Guard band w = 0.83 U
answer-bench-by = By { $by }, begun { $at }
answer-bench-marked = Marked { $mark } by us
answer-bench-run = { $at }, { $by }
answer-bench-closed = { $verification }
answer-bench-progress = { $done } of { $of }
answer-bench-repeat = { $now } of { $of }
answer-bench-times = { $count } times
answer-bench-decision = { $limit } at { $volts }
answer-bench-look-case = Case whole
answer-bench-look-leads = Leads and probes whole
answer-bench-look-category = Measurement category marked
answer-bench-look-standard = Standard marked
answer-bench-look-battery = Battery good by the tester's own test, or it has none
answer-bench-looked-yes = Yes
answer-bench-looked-no = No
answer-bench-looked-not = Not looked
answer-bench-withdrawn = withdrawn: { $reason }
answer-bench-taken-back = taken back

## What is missing.

answer-bench-no-voltmeter = No voltmeter at hand: output voltages are not tested
answer-bench-meter-too-heavy = No meter at hand is light enough for the open-circuit voltage at { $volts }: a voltmeter or probe of at least { $least } is needed, else it is not tested
answer-bench-no-ammeter = No current meter at hand: currents are not tested
answer-bench-no-resistor = No known resistance at hand: indications are not tested
answer-bench-no-rated-load = No resistor at hand is the rated load at { $volts } and may be used there: the rated current is not tested

## What to connect, and what is read.

answer-bench-connect = Tester at { $volts }: connect { $resistor }
answer-bench-connect-load = Tester at { $volts }: connect { $resistor } and the meter
answer-bench-connect-no-load = Tester at { $volts }: no rated load at hand
answer-bench-connect-meter = Tester at { $volts }: connect the meter alone
answer-bench-connect-current = Tester at { $volts }: connect the current meter across the leads
answer-bench-connect-open = Tester at { $volts }: hold the leads apart
answer-bench-connect-shorted = Tester at { $volts }: hold the leads together
answer-bench-set-range = range { $from } to { $to }
answer-bench-connect-polarity = Tester at { $volts }: find the positive terminal
answer-bench-asks-indication = What does the tester show?
answer-bench-nothing-below = At { $volts } nothing at or below { $limit } is at hand: where the limit is judged, only the leads shorted are tested
answer-bench-asks-volts = { $meter ->
    [none] Choose the meter first
   *[other] Volts on { $meter }
}
answer-bench-asks-current = { $meter ->
    [none] Choose the meter first
   *[other] Current on { $meter }
}
answer-bench-asks-ripple = { $meter ->
    [none] Choose the meter first
   *[other] Peak of the a.c. part on { $meter }
}
answer-bench-asks-polarity = Which terminal is positive?
answer-bench-meter-read = Read on
answer-bench-meter-across = Across the resistor
