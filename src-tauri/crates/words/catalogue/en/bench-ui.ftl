### Labels of the bench: references, runs, results, testers side by side.

references = References
references-none = No references yet. Add the resistors and meters that testers are proved with
reference-new = New reference
reference-edit = Change
reference-remove = Remove
reference-kind = What it is
reference-name = What people call it
reference-input = Loads the tester with
reference-input-hint = For example 10 MΩ
value-resistance = Known resistance
value-range = Range of the meter
value-nominal = As marked
value-nominal-ohms = For example 1 MΩ
value-nominal-volts = For example 600 V
value-nominal-amps = For example 2 mA
value-stated = As the certificate states
value-stated-hint = Empty means as marked
value-as = Uncertainty is stated as
value-percent = Uncertainty, %
value-within = Plus a fixed part
value-within-hint = With its unit, for example 10 Ω
value-k = k
value-k-hint = Empty means 2
value-rated = May be used up to, V
value-more = Change with time, voltage and temperature; step
value-drift = Changed at most since, %
value-per-volt = Change per volt, ppm
value-stated-at = Stated at, V
value-per-kelvin = Change per kelvin, ppm
value-step = One step of its display
value-add = Another value
value-remove = Remove this value

## Runs.

bench = Bench
bench-runs = Runs at the bench
bench-new = A new run
bench-no-references = No references yet. Add them first: a tester is proved with known resistors and meters
bench-edition = Edition of the tester standard
bench-rule = How it is decided
bench-by-hint = Empty means the person of this device
bench-usual = Choose the usual points
bench-start = Begin
plan-decisions = Around the limits { $limits }
plan-points = { $count ->
    [one] One point
   *[other] { $count } points
}
plan-drop = Take { $point } out
plan-drop-face = Take out
plan-drop-last = Take the last point out
bench-steps = Steps
bench-setup = As found, as left, temperature
bench-look = Look at the tester
bench-plan = Plan
bench-plan-words = { $count ->
    [one] One point is planned
   *[other] { $count } points are planned
}
bench-result = Result
bench-skip = Skip
bench-meter-none = No meter there
bench-meter-choose = Choose the meter
bench-no-step = No step is open
bench-no-step-words = What was skipped stays not tested. Any step can be opened again from the list
bench-refused-enter = Press one of the keys below
bench-temperature = Temperature, °C
bench-temperature-hint = Empty means not measured
bench-mark = Mark put on it
bench-mark-hint = Where it has no serial number
bench-nothing-measured = Nothing was measured yet
series-as-found = As found
series-as-left = As left: the tester was adjusted
step-count = { $done } of { $of }
measured-withdraw = Withdraw { $shown }
own-volts = Test voltage
own-what = What
own-resistor = Resistor
own-repeats = How many times
own-repeats-complaint = Write a number from 1 to 99
own-supply = Supply
own-position = Position
own-warmth = Temperature
own-meter-alone = The meter alone
own-add = Add this point

## The result.

plot-magnified = Magnify the error
plot-times = { $count ->
    [1] All of it
   *[other] { $count } times
}
plot-left-out-words = A point can be left out of the plot in its row below. It stays in the judgement
result-points = Indications at known resistances
result-loads = Voltages and currents
result-operating = Operating uncertainty
column-known = Known
column-shown = Shown
column-error = Error
column-expanded = U
column-permitted = Permitted
column-decision = Decision
column-in-plot = In the plot
column-what = What
column-load = Load
column-voltage = Voltage
column-current = Current
column-when = Day
column-adjusted = Adjusted
in-plot = { $known } in the plot
budget = Budget
budget-of = Budget of { $name }
budget-input = Input
budget-estimate = Estimate
budget-shape = Distribution
budget-standard = u
budget-sensitivity = c
budget-contribution = c · u
budget-dof = ν
tester-report = Tester report
tester-report-pdf = As PDF
tester-report-xlsx = As XLSX
tester-report-json = As JSON
bench-close = Record it as a verification
close-not-tested = { $count ->
    [one] One requirement is not tested
   *[other] { $count } requirements are not tested
}
close-look = The look at the tester
close-number = Number of the report
close-reason = Why it is recorded again
close-record = Record the verification

## Drift, and testers side by side.

drift = Drift
drift-none = No run at the bench became a verification yet
compare = Side by side
compare-about = Choose verifications at the bench to see them on the same axes and in one table.
compare-none = No runs at the bench yet
compare-column = { $letter } · { $name }
compare-table = { $volts }, side by side
compare-not-tested = not tested
