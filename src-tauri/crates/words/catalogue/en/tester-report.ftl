### The tester report: headings and column heads of the paper, and the sentences made for it.

papers-tester-title = Verification of an insulation tester
papers-tester-scope = What was measured on one tester, how it was worked out, and what follows. It is no certificate of any installation.
papers-tester-invented = Invented data
papers-tester-run = Bench run
papers-tester-answers = The two answers for each test voltage
papers-tester-card = What the tester is stated to do
papers-tester-look = The look at the tester
papers-tester-references = References it was proved by
papers-tester-remarks = Remarks
papers-tester-requirements = What the tester standard asks
papers-tester-intervals = Where indications hold, and why no further
papers-tester-points = Indications at known resistances
papers-tester-points-none = No indication was taken at this test voltage.
papers-tester-loads = Output voltage and currents
papers-tester-leads = Leads and polarity
papers-tester-operating = Operating uncertainty, % of the indication
papers-tester-budgets = Budgets, line by line
papers-tester-drift = Error over the tester's verifications
papers-tester-methods = How the figures are worked out
papers-tester-sources = What the edition says, and how sure each figure is
papers-tester-measured = Everything that was measured
papers-tester-done-means = A disc says only that nothing odd was found about the line beside it.
papers-tester-attached = Report this document was made from, with everything measured and every step unrounded
papers-tester-column-no = No.
papers-tester-column-resistor = Resistor
papers-tester-column-known = Known resistance R
papers-tester-column-shown = Shown
papers-tester-column-mean = Mean I
papers-tester-column-error = Error I − R
papers-tester-column-error-percent = Error, % of R
papers-tester-column-expanded = U
papers-tester-column-permitted = Permitted
papers-tester-column-permitted-from = Permitted, made of
papers-tester-column-ratio = Ratio
papers-tester-column-decision = Decision
papers-tester-column-load = Load, the meter included
papers-tester-column-output = Voltage ± U
papers-tester-column-current = Current ± U
papers-tester-column-input = Input
papers-tester-column-estimate = Estimate
papers-tester-column-distribution = Distribution
papers-tester-column-half-width = Half-width or U
papers-tester-column-divisor = Divisor
papers-tester-column-standard = u
papers-tester-column-sensitivity = c
papers-tester-column-contribution = |c| · u
papers-tester-column-dof = Degrees of freedom
papers-tester-column-meter = Meter
papers-tester-column-conditions = Conditions
papers-tester-column-at = When
papers-tester-column-volts = Test voltage d.c.
papers-tester-column-what = What
papers-tester-column-adjusted = Adjusted
papers-tester-column-read = Read
papers-tester-sheet-about = About
papers-tester-sheet-points = Points
papers-tester-sheet-loads = Voltages and currents
papers-tester-sheet-budgets = Budgets
papers-tester-sheet-measured = Measured

## Made for the report.

answer-tester-report-mark = tester without a serial number, marked { $mark }
answer-tester-report-unnamed = tester without a serial number and without a mark
answer-tester-report-tester = Tester
answer-tester-report-model = Type
answer-tester-report-by = Made by
answer-tester-report-begun = Begun
answer-tester-report-edition = Judged by
answer-tester-report-rule = Decision rule
answer-tester-report-series = Series
answer-tester-report-adjusted = Adjusted: what was measured before is as found, after it as left
answer-tester-report-no-card = The tester has no card: nothing is known of what it permits itself
answer-tester-report-loaded = { $resistor }: { $loaded }
answer-tester-report-permitted-from = { $percent } of { $indicated } + { $digits } × { $resolution }
answer-tester-report-budget-point = Point { $number }, { $known }: budget of the error, in ohms
answer-tester-report-budget-load = No. { $number }, { $title }: budget in { $unit ->
    [volts] volts
   *[amps] amperes
}
answer-tester-report-written = Tester report written

## How the figures are worked out.

answer-tester-method-known = Known resistance
answer-tester-method-known-says = The value its certificate states. With a voltmeter of input resistance Rm across it: R · Rm / (R + Rm), as that is what the tester sees.
answer-tester-method-error = Error
answer-tester-method-error-says = Mean of the indications minus the known resistance. Over-range, the error is at least the bound shown minus the known resistance.
answer-tester-method-permitted = Permitted error
answer-tester-method-permitted-says = ±(p % of the indication + n digits), p and n of the range on the tester's card that holds the point, the digit its resolution. Read in a maker's published manual.
answer-tester-method-budget = Budget
answer-tester-method-budget-says = Each input: u = U / k where a certificate states U and k; half-width / √3 for a tolerance, a drift or half a step of a display (rectangular); s / √n for n repeats, with n − 1 degrees of freedom. A point that was not repeated takes the relative scatter of the repeated ones. u = √Σ(c · u)². JCGM 100:2008 (GUM) 4.2, 4.3, 5.1.2; each resolution once.
answer-tester-method-k = k and U
answer-tester-method-k-says = Effective degrees of freedom by Welch and Satterthwaite (GUM G.4.1), rounded down; k is Student's t for 95.45 %, 2 without end. Where one rectangular input outweighs all others, which together are at most 0.3 of it, k is 1.65 (EA-4/02 S9, from memory). U = k · u.
answer-tester-method-current = Rated current
answer-tester-method-current-says = The lower of the current measured through the load and the voltage there divided by the rated load. A tester's voltage does not fall when the load gets lighter, nor its current when it gets heavier.
answer-tester-method-decision = Decision
answer-tester-method-decision-says = With the guard w of the decision rule: conforms up to permitted − w; conditional up to permitted; conditional fail up to permitted + w; beyond, it does not conform. What conforms by a reference whose certificate had lapsed, or with w = 0 at a ratio below 4, conforms on that condition. ILAC-G8:09/2019, its four-way statement read, its mirror here for a bound on both sides.
answer-tester-method-ratio = Ratio
answer-tester-method-ratio-says = Permitted error over U (k = 2) of the reference at that point. Below 4 it is remarked, as 4 to 1 is the usual ratio (Z540.3, read).
answer-tester-method-operating = Operating uncertainty
answer-tester-method-operating-says = B = |A| + f · √(E1² + E2² + E3²), with the factor f listed below: A the error under reference conditions, E1 by position, E2 by supply voltage, E3 by temperature, each a signed change against the reference point in % of the indication. Formula recalled from IEC 61557, its meanings read. A part that was not tested is named and never taken as zero for the answer.
answer-tester-method-holds = Where indications hold
answer-tester-method-holds-says = Contiguous conforming points; the ends are the inner of reference and indication. Never across a range of the tester without a conforming point in it, and only if nothing lower was shown higher. Rule of this program.

## What an edition asks.

answer-tester-asks-open-circuit = Open-circuit voltage, most, as a multiple of the nominal one
answer-tester-asks-open-circuit-load = Load at which it is checked, at least, for each volt
answer-tester-asks-rated-current = Current through the rated load, at least
answer-tester-asks-rated-load = Rated load for each volt
answer-tester-asks-most-current = Measuring current, at most, peak
answer-tester-asks-ripple = Its a.c. part, at most, peak
answer-tester-asks-operating = Operating uncertainty, at most
answer-tester-asks-variation = Factor of the changes in it
answer-tester-asks-reference-temperature = Reference temperature
answer-tester-asks-reference-within = Reference conditions, within
answer-tester-asks-coldest = Rated temperature, lowest
answer-tester-asks-warmest = Rated temperature, highest
answer-tester-asks-figure = { $figure }: { $source }, { $tag }
