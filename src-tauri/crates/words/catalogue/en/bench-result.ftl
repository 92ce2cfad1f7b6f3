### What a bench run comes to: tables, budgets and plots.

answer-result-with-uncertainty = { $figure } ± { $expanded }
answer-result-standard = Combined standard uncertainty u
answer-result-dof = Effective degrees of freedom
answer-result-k = k for 95.45 %
answer-result-k-rectangular = k for 95.45 %, one rectangular input dominates
answer-result-expanded = U = k · u
answer-result-normal = normal
answer-result-rectangular = rectangular
answer-result-triangular = triangular
answer-result-arcsine = arcsine
answer-result-lapsed = The certificate of { $reference } had lapsed: what rests on it is conditional at most
answer-result-no-temperature = No temperature was read for some indications: they are taken as at reference conditions
answer-result-no-drift = { $reference } states no change since its certificate: no budget has it
answer-result-no-temperature-coefficient = { $reference } states no temperature coefficient and was used away from the reference temperature, or at one nobody read
answer-result-read-too-seldom = At { $volts } { $known } was read { $taken } of at least { $asked } times: it lies beside the limit of { $limit }
answer-result-card-of-then = Worked out with the card as it stood when the run was closed; closing it again takes the card of today
answer-result-unusable = { $count ->
    [one] One figure is beyond all arithmetic and left out
   *[other] { $count } figures are beyond all arithmetic and left out
}
answer-result-look = { $item }: { $answer }
answer-result-at = { $volts }: { $what }
answer-result-untouched = { $volts }: nothing was measured
answer-result-suggestion = { $months ->
    [one] By its interval of one month: { $until }
   *[other] By its interval of { $months } months: { $until }
}
answer-result-requirement = { $said } ({ $source }, { $tag })
answer-result-leads-shorted = Leads together: { $shown }
answer-result-leads-shorted-not-tested = Leads together: not tested
answer-result-leads-open-not-tested = Leads apart: not tested
answer-result-leads-open = Leads apart: { $shown }
answer-result-polarity = Polarity: { $polarity }; recorded, not judged
answer-result-part-not-tested = not tested
answer-result-operating = { $known }: A { $intrinsic }, E1 { $position }, E2 { $supply }, E3 { $temperature }: B = |A| + { $factor }·√(E1² + E2² + E3²) = { $operating }
answer-result-operating-at-least = { $known }: A { $intrinsic }, E1 { $position }, E2 { $supply }, E3 { $temperature }: B is { $operating } at least

## Plots.

answer-plot-known = Known resistance
answer-plot-load = Load, the meter included
answer-plot-error = Error, % of the known resistance
answer-plot-voltage = Output voltage
answer-plot-day = Day
answer-plot-over-range = over-range
answer-plot-under-range = under-range
answer-plot-error-title = Error at { $volts }, with U; the band is what the card permits
answer-plot-load-title = Output voltage at { $volts } against load, with U
answer-plot-error-point = { $known }: error { $error }, U { $expanded }
answer-plot-open-circuit = Open circuit, { $load }: { $voltage } ± { $expanded }
answer-plot-rated = Rated load, { $load }: { $voltage } ± { $expanded }
answer-plot-further = Further load, { $load }: { $voltage } ± { $expanded }
answer-plot-most = most, open circuit
answer-plot-least = least, from the rated load on
answer-plot-fitted = fitted line, with its uncertainty
answer-plot-drift-point = { $when }: error { $error }, U { $expanded }
answer-drift-title = { $volts }, { $known }
answer-drift-plot-title = Error at { $volts }, { $known }, over the verifications
answer-drift-line = A straight line by least squares, with its uncertainty for 95.45 %; never across an adjustment
answer-drift-no-line = No line: fewer than three verifications on different days since an adjustment
answer-drift-adjusted = adjusted afterwards
answer-compare-run = { $tester }, { $when }
answer-compare-cell = { $error } ± { $expanded }, { $decision }
answer-compare-answer = { $letter }: { $said }
