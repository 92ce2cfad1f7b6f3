// Generated from the operations by `cargo run -p provenohm-api --example types`. Change them there.

export type AddBoard = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Name.
 */
name: string, };

export type AddManyCircuits = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * How many, as typed.
 */
count: string, 
/**
 * Their kind; reference and description are left out.
 */
form: CircuitForm, };

export type AddPerson = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Name.
 */
name: string, 
/**
 * Role.
 */
role: string, };

export type AfterSignOff = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Which sign-off.
 */
entry: string, };

export type AfterSignOffView = { 
/**
 * One line an entry.
 */
lines: Array<string>, };

export type AskVolts = { 
/**
 * `Tester set to 250 V`.
 */
words: string, 
/**
 * What it saves, V.
 */
volts: number, 
/**
 * The other test voltages.
 */
others: Array<VoltsChoice>, };

export type BandAt = { 
/**
 * x.
 */
x: number, 
/**
 * Lower edge.
 */
low: number, 
/**
 * Upper edge.
 */
high: number, };

export type BePerson = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The person.
 */
person: PersonId, };

export type BenchAsk = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * Jump to this step.
 */
step?: StepId | null, };

export type BenchDraft = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The step they are for.
 */
step: StepId, 
/**
 * As typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, };

export type BenchId = string;

export type BenchKey = "k" | "m" | "g" | "over_range" | "v" | "milli_a" | "micro_a" | "line_positive" | "earth_positive";

export type BenchKeyView = { 
/**
 * Which.
 */
key: BenchKey, 
/**
 * `kΩ`.
 */
label: string, };

export type BenchLine = { 
/**
 * Which.
 */
id: BenchId, 
/**
 * When it was begun and by whom.
 */
title: string, 
/**
 * How far it is, or which verification it became.
 */
state: Sentence, };

export type BenchPad = { 
/**
 * What to connect and how the tester is set, in a sentence.
 */
heading: string, 
/**
 * What is read.
 */
asks: string, 
/**
 * The keys that save.
 */
keys: Array<BenchKeyView>, 
/**
 * The most digits that can be typed; absent where none are.
 */
most_digits: number | null, 
/**
 * The over-range key, for an indication.
 */
over_range: OverRangeKey | null, 
/**
 * Notches of the ruler for them.
 */
ruler_notches: Array<Notch>, 
/**
 * The typed digits.
 */
draft: DraftView, 
/**
 * Meters this figure can be read on, or that can stand across the resistor.
 */
meters: Array<Choice>, 
/**
 * The chosen one.
 */
meter: ReferenceId | null, 
/**
 * What the meters are for; empty: none is needed.
 */
meter_words: string, 
/**
 * What the known resistance becomes, or why nothing can be measured here.
 */
hint: string | null, };

export type BenchReadBack = { 
/**
 * The step it belongs to.
 */
title: string, 
/**
 * `0.88 MΩ`.
 */
shown: string, 
/**
 * Where it stands against what is permitted, where one figure can say that; else which repeat it was.
 */
said: Sentence, 
/**
 * Both in one announcement.
 */
announce: string, };

export type BenchResultAsk = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * Left out of the plots. The judgement knows nothing of it.
 */
left_out: Array<MeasuredId>, 
/**
 * How many times the vertical axis of the error plots is magnified; 1: all of it.
 */
magnified?: number | null, };

export type BenchResultView = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Its name and serial number.
 */
title: string, 
/**
 * Edition, rule, who and since when.
 */
lines: Array<string>, 
/**
 * Lapsed references, figures that cannot be reckoned with, what the look found.
 */
remarks: Array<Sentence>, 
/**
 * Per test voltage and series.
 */
voltages: Array<VoltageResultView>, 
/**
 * What closing offers.
 */
close: CloseView, };

export type BenchStep = { 
/**
 * Which.
 */
id: StepId, 
/**
 * `500 V`.
 */
group: string, 
/**
 * `1.0 MΩ of Box 1`.
 */
title: string, 
/**
 * Conditions; empty: reference conditions.
 */
detail: string, 
/**
 * Open ring: to do; disc: measured as often as planned.
 */
sign: Sign, 
/**
 * How many times it was measured.
 */
done: number, 
/**
 * How many times it is planned; 0: not planned (any more).
 */
of: number, 
/**
 * What was measured.
 */
shown: Array<MeasuredLine>, };

export type BenchView = { 
/**
 * Which.
 */
id: BenchId, 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Its name and serial number.
 */
title: string, 
/**
 * Edition, rule, who and since when, a line each.
 */
lines: Array<string>, 
/**
 * The verification it became; absent: none yet.
 */
closed: Sentence | null, 
/**
 * What is measured now is as found or as left.
 */
series: Series, 
/**
 * That in words, and what switching it would mean.
 */
series_words: string, 
/**
 * Whether the tester was adjusted in this run.
 */
adjusted: boolean, 
/**
 * The look at the tester.
 */
look: Array<TesterPartLine>, 
/**
 * Answers to each.
 */
answers: Array<Choice>, 
/**
 * The mark put on a tester without a serial number.
 */
mark: string, 
/**
 * Temperature of tester and references, as typed; empty: not measured.
 */
temperature: string, 
/**
 * The plan as it stands.
 */
plan: Array<PlannedPoint>, 
/**
 * What points of one's own are made of.
 */
choices: PlanChoices, 
/**
 * Steps in their order.
 */
steps: Array<BenchStep>, 
/**
 * `12 of 45`.
 */
progress: string, 
/**
 * The step now; absent: none is open.
 */
current: StepId | null, 
/**
 * The pad for it.
 */
pad: BenchPad | null, 
/**
 * The last thing measured, read back.
 */
last: BenchReadBack | null, 
/**
 * Whether this person can take something back.
 */
can_undo: boolean, };

export type BenchesView = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Its name and serial number.
 */
title: string, 
/**
 * Its runs, newest first.
 */
runs: Array<BenchLine>, 
/**
 * The references on this device.
 */
references: Array<ReferenceLine>, 
/**
 * Editions of the tester standard, the newest first.
 */
editions: Array<Choice>, 
/**
 * How an error can be decided.
 */
rules: Array<Choice>, };

export type BoardCell = { 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * Name of the pair: the column it stands in.
 */
pair: string, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * What was read, or that it was not tested.
 */
shown: string | null, 
/**
 * It asks for a look and was accepted with a reason.
 */
accepted: boolean, 
/**
 * A new reading of it is asked for.
 */
asked: boolean, };

export type BoardId = string;

export type BoardLine = { 
/**
 * The board.
 */
id: BoardId, 
/**
 * Name.
 */
name: string, 
/**
 * For example `12 circuits, 30 of 54 readings`.
 */
summary: string, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * Things to look at.
 */
look: number, 
/**
 * Things that block a sign-off.
 */
stop: number, 
/**
 * Slots with a reading or a reason.
 */
done: number, 
/**
 * Slots in all.
 */
of: number, 
/**
 * Who does it.
 */
people: Array<PersonId>, 
/**
 * The same in words: `for A. Recorder`; absent: left open.
 */
people_words: string | null, };

export type BoardRow = { 
/**
 * The circuit.
 */
circuit: CircuitId, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * Its cells, in the order of its pairs.
 */
cells: Array<BoardCell>, };

export type BoardTable = { 
/**
 * The board.
 */
id: BoardId, 
/**
 * Its name.
 */
name: string, 
/**
 * What is to look at, counted in words.
 */
words: string, 
/**
 * Column heads: names of pairs.
 */
pairs: Array<string>, 
/**
 * One row a circuit.
 */
rows: Array<BoardRow>, };

export type BudgetRow = { 
/**
 * The input.
 */
input: string, 
/**
 * Its estimate.
 */
estimate: string, 
/**
 * How it scatters.
 */
shape: string, 
/**
 * Its standard uncertainty.
 */
standard: string, 
/**
 * Its sensitivity.
 */
sensitivity: string, 
/**
 * What it adds.
 */
contribution: string, 
/**
 * Degrees of freedom; ∞ without end.
 */
dof: string, };

export type BundleFile = { 
/**
 * Its bytes, base64.
 */
base64: string, };

export type BundleView = { 
/**
 * The job it carries.
 */
job: JobId | null, 
/**
 * The sum in a sentence.
 */
words: string, 
/**
 * What it holds, what is missing, and what needs attention.
 */
lines: Array<string>, 
/**
 * Entries that came.
 */
came: number, 
/**
 * New ones.
 */
joined: number, 
/**
 * Ones that were here already.
 */
same: number, 
/**
 * New ones that stand beside another value.
 */
to_settle: number, };

export type CardForm = { 
/**
 * Per test voltage.
 */
voltages: Array<VoltageForm>, 
/**
 * Its papers say it conforms to IEC 61557-2.
 */
conforms: boolean, 
/**
 * The most it shows with the leads shorted, for example `0.05 MΩ`; empty: near zero.
 */
shorted_up_to: string, 
/**
 * Months from one verification to the next; empty: 12.
 */
interval_months: string, 
/**
 * Who chooses its ranges; absent: not stated.
 */
ranging: Ranging | null, };

export type CatalogueAsk = { 
/**
 * A locale such as `en`; absent: the one of the settings.
 */
locale?: string | null, };

export type CatalogueView = { 
/**
 * The locale it is for.
 */
locale: string, 
/**
 * Fluent source.
 */
ftl: string, };

export type CautionsView = { 
/**
 * Title.
 */
title: string, 
/**
 * One sentence or two each.
 */
points: Array<string>, 
/**
 * Who confirmed them and when, if this person has for this job.
 */
confirmed: string | null, };

export type CheckCircuit = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The form.
 */
form: CircuitForm, };

export type CheckId = string;

export type CheckView = { 
/**
 * Which.
 */
entry: FailingEntry, 
/**
 * Date and what it is.
 */
title: string, 
/**
 * What it says.
 */
lines: Array<string>, 
/**
 * How much attention it asks for.
 */
level: Level, 
/**
 * Why it was withdrawn, if it was.
 */
withdrawn: string | null, };

export type Choice = { 
/**
 * Sent back.
 */
id: string, 
/**
 * Shown.
 */
words: string, };

export type ChooseTester = { 
/**
 * The board of the run.
 */
board: BoardId, 
/**
 * The tester.
 */
tester: TesterId, };

export type CircuitChecked = { 
/**
 * What is wrong.
 */
complaints: Array<Complaint>, 
/**
 * What follows, when nothing is wrong.
 */
follows: Follows | null, };

export type CircuitChoices = { 
/**
 * Protective measures.
 */
measures: Array<Choice>, 
/**
 * Arrangements of conductors.
 */
conductors: Array<Choice>, 
/**
 * Kinds of current.
 */
currents: Array<Choice>, 
/**
 * Loads.
 */
loads: Array<Choice>, 
/**
 * Special items.
 */
items: Array<Choice>, 
/**
 * Special locations.
 */
locations: Array<Choice>, };

export type CircuitForm = { 
/**
 * Reference on the board.
 */
reference: string, 
/**
 * What it feeds.
 */
description: string, 
/**
 * Nominal voltage as typed, V.
 */
nominal: string, 
/**
 * Kind of current.
 */
current: Current, 
/**
 * Voltage to earth as typed, V; empty: not stated.
 */
to_earth: string, 
/**
 * Protective measure.
 */
measure: MeasureName, 
/**
 * FELV: the supply's nominal voltage as typed, V.
 */
felv_supply: string, 
/**
 * Live conductors.
 */
conductors: Conductors, 
/**
 * Loads while testing.
 */
loads: Loads, 
/**
 * Lives joined for the test to earth.
 */
joined_to_earth: boolean, 
/**
 * A surge protector that cannot be disconnected.
 */
spd_stays: boolean, 
/**
 * Special item.
 */
item: Item | null, 
/**
 * Special location.
 */
location: Location | null, 
/**
 * Notes.
 */
notes: string, };

export type CircuitId = string;

export type CircuitTable = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The text.
 */
text: string, 
/**
 * How its fields are parted.
 */
format: TableFormat, };

export type CircuitView = { 
/**
 * The circuit.
 */
id: CircuitId, 
/**
 * Its reference on the board.
 */
reference: string, 
/**
 * What it feeds.
 */
description: string, 
/**
 * What can be edited, as typed.
 */
form: CircuitForm, 
/**
 * Its electrical facet in one line.
 */
electrical: string, 
/**
 * What the set asks of it.
 */
follows: Follows, 
/**
 * Slots with a reading or a reason.
 */
done: number, 
/**
 * Slots in all.
 */
of: number, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * Two live values, in words.
 */
conflict: string | null, };

export type CircuitsChanged = { 
/**
 * The board's circuits now.
 */
view: CircuitsView, 
/**
 * What was done, in words.
 */
words: string, 
/**
 * Takes it back.
 */
undo: UndoToken | null, };

export type CircuitsPreview = { 
/**
 * Its rows.
 */
rows: Array<PreviewRow>, 
/**
 * What is wrong, by line; a table with complaints is not taken.
 */
complaints: Array<LineComplaint>, 
/**
 * The sum in words.
 */
sum: string, };

export type CircuitsView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The board.
 */
board: BoardId, 
/**
 * Its name.
 */
name: string, 
/**
 * For example `54 readings for 12 circuits`.
 */
sum: string, 
/**
 * Circuits in the order they are read in.
 */
circuits: Array<CircuitView>, 
/**
 * Circuits taken away, which can be brought back.
 */
removed: Array<RemovedCircuit>, 
/**
 * What a form offers.
 */
choices: CircuitChoices, 
/**
 * A form with what the last circuit has, for the next one.
 */
next: CircuitForm, };

export type CloseBench = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * Its last day; empty: none is set.
 */
valid_until: string, 
/**
 * Number of the report.
 */
certificate: string, 
/**
 * Why, where it was closed before.
 */
reason: string, };

export type CloseView = { 
/**
 * The verification it became; absent: none yet.
 */
closed: Sentence | null, 
/**
 * The last day by the tester's interval, to be taken by a tap; nothing is filled in.
 */
suggested: string, 
/**
 * That in words.
 */
suggestion: string, 
/**
 * What was not tested, as it will stand.
 */
not_tested: Array<string>, 
/**
 * The look at the tester, item by item: answered before it is closed.
 */
look: Array<TesterPartLine>, 
/**
 * Answers to each.
 */
answers: Array<Choice>, 
/**
 * The mark put on it.
 */
mark: string, 
/**
 * It has no serial number: the mark is asked for.
 */
mark_needed: boolean, };

export type Comparator = "exact" | "more_than" | "less_than";

export type CompareAsk = { 
/**
 * The runs, in the order of their letters.
 */
benches: Array<BenchId>, 
/**
 * Left out of the plots. The judgement knows nothing of it.
 */
left_out: Array<MeasuredId>, 
/**
 * How many times the vertical axis of the error plots is magnified; 1: all of it.
 */
magnified?: number | null, };

export type CompareView = { 
/**
 * Every run there is to choose from.
 */
runs: Array<Choice>, 
/**
 * The chosen ones, each with its letter.
 */
chosen: Array<Choice>, 
/**
 * Per test voltage that any of them has.
 */
voltages: Array<ComparedVoltage>, };

export type ComparedCell = { 
/**
 * Error with U, and the decision.
 */
words: string, 
/**
 * How much attention it asks for; absent: not tested there.
 */
level: Level | null, };

export type ComparedRow = { 
/**
 * The resistance as marked.
 */
known: string, 
/**
 * What was measured there, to leave it out of the view by.
 */
measured: Array<MeasuredId>, 
/**
 * Whether it is in the plot.
 */
in_view: boolean, 
/**
 * Of each, in the order of the letters; empty: not tested there.
 */
cells: Array<ComparedCell>, };

export type ComparedVoltage = { 
/**
 * `500 V`.
 */
title: string, 
/**
 * Errors, all on the same axes; absent: none to plot.
 */
plot: PlotView | null, 
/**
 * Output voltage against load, all on the same axes; absent: none to plot.
 */
load_plot: PlotView | null, 
/**
 * One row a known resistance.
 */
rows: Array<ComparedRow>, 
/**
 * The two answers of each, in the order of the letters.
 */
answers: Array<Sentence>, };

export type Complaint = { 
/**
 * The field, for example `nominal` or `voltages.0.ranges.1.to`.
 */
field: string, 
/**
 * What is wrong and what to do.
 */
words: string, };

export type ConditionsView = { 
/**
 * Loads: as the circuit has them, unless said otherwise here.
 */
loads: Loads, 
/**
 * N isolated from PE; absent: not stated.
 */
n_isolated: boolean | null, 
/**
 * Why the reduced voltage is used.
 */
reduced: ReducedReason | null, 
/**
 * In words.
 */
words: string, 
/**
 * Reasons the set allows for a reduced voltage.
 */
reduced_reasons: Array<Choice>, };

export type Conductors = "single_phase" | "single_phase_pen" | "two_phase" | "two_phase_n" | "three_phase" | "three_phase_n" | "three_phase_pen" | "dc" | "dc_midpoint";

export type Conforms = "yes" | "no" | "not_all_tested" | "not_stated";

export type CopiedOut = { 
/**
 * The text.
 */
text: string, };

export type CopiedWhat = "circuits" | "readings";

export type CopyOut = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * What of it.
 */
what: CopiedWhat, };

export type CorrectReadings = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The readings.
 */
readings: Array<ReadingId>, 
/**
 * The tester that took them.
 */
tester?: TesterId | null, 
/**
 * The test voltage they were taken at, V.
 */
volts?: number | null, 
/**
 * The day they were taken, as typed; times of day stay.
 */
date?: string | null, 
/**
 * Minutes the device clock was ahead; taken off every time.
 */
clock_ahead_minutes?: number | null, 
/**
 * Loads while they were taken.
 */
loads?: Loads | null, 
/**
 * Why.
 */
reason: string, };

export type Current = "ac" | "dc";

export type DamageId = string;

export type DecisionRule = "simple" | "guard_u" | "guard_part_u";

export type DeviceLine = { 
/**
 * Its id.
 */
device: string, 
/**
 * Its public key, hexadecimal. Another key under the same id is another device.
 */
key: string, 
/**
 * Its short name, who recorded on it, how much.
 */
words: string, 
/**
 * Whether it is known to this job, and by whose word.
 */
said: Sentence, 
/**
 * It is.
 */
known: boolean, };

export type DevicesView = { 
/**
 * One line a device.
 */
lines: Array<DeviceLine>, 
/**
 * Takes back what was just vouched for.
 */
undo: UndoToken | null, };

export type Done = { 
/**
 * What was done, in words.
 */
words: string, 
/**
 * Hand it to `undo` to take the act back.
 */
undo: UndoToken | null, };

export type DoubtLine = { 
/**
 * The tester, whose recall list has them.
 */
tester: TesterId, 
/**
 * How many readings, in words.
 */
said: Sentence, };

export type Draft = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The slot they are for.
 */
slot: SlotId, 
/**
 * As typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, };

export type DraftView = { 
/**
 * As typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, 
/**
 * The digits with the decimal sign of the language, without the comparator's sign or word: they are set apart.
 */
shown: string, 
/**
 * Why a unit key would be refused now; absent: it would not.
 */
refused: string | null, 
/**
 * The ruler's marks: one for each unit key.
 */
ruler: Array<RulerMark>, };

export type DriftPlotView = { 
/**
 * `500 V, 1.0 MΩ`.
 */
title: string, 
/**
 * The picture.
 */
plot: PlotView, 
/**
 * The same as a table.
 */
rows: Array<DriftRow>, 
/**
 * What the line says, or why there is none.
 */
said: string, };

export type DriftRow = { 
/**
 * When.
 */
when: string, 
/**
 * Error, %.
 */
error: string, 
/**
 * U, %.
 */
expanded: string, 
/**
 * That the tester was adjusted afterwards; empty: it was not.
 */
adjusted: string, };

export type DriftView = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Its name and serial number.
 */
title: string, 
/**
 * Per test voltage and known resistance.
 */
plots: Array<DriftPlotView>, };

export type EditionId = string;

export type EndCard = { 
/**
 * In a sentence.
 */
words: string, 
/**
 * What was done and what is left.
 */
lines: Array<Sentence>, };

export type Enrol = { 
/**
 * Name or address of the hub, with its port.
 */
address: string, 
/**
 * The code that the office shows.
 */
code: string, 
/**
 * What this device is called there.
 */
name: string, };

export type FailingEntry = { "kind": "verification", 
/**
 * Which.
 */
id: VerificationId, } | { "kind": "quick_check", 
/**
 * Which.
 */
id: CheckId, } | { "kind": "damage", 
/**
 * Which.
 */
id: DamageId, };

export type Failure = { 
/**
 * Stable, snake_case: `form` (see the complaints), `refused` (cannot be a reading), `unknown_operation`, …
 */
code: string, 
/**
 * One sentence for the person.
 */
words: string, 
/**
 * What is wrong with which field; empty unless the code is `form`.
 */
complaints: Array<Complaint>, 
/**
 * Technical text to copy, where something broke.
 */
detail: string | null, };

export type FilesFolder = { 
/**
 * The folder's path.
 */
folder: string, 
/**
 * It is the usual one, not one that a person chose.
 */
usual: boolean, };

export type FindingForm = { 
/**
 * V d.c.
 */
volts: string, 
/**
 * Before any adjustment.
 */
as_found: Outcome, 
/**
 * After the adjustment, or the one result where nothing was adjusted.
 */
as_left: Outcome, 
/**
 * Against the tester standard.
 */
conforms: Conforms, 
/**
 * Edition of the tester standard.
 */
edition: string, 
/**
 * Where indications hold; empty: the certificate does not say.
 */
holds: Array<HoldsForm>, 
/**
 * Operating uncertainty, %; empty: not known.
 */
operating_percent: string, };

export type Follows = { 
/**
 * For example `500 V`, or that the set states none.
 */
test_voltage: string, 
/**
 * For example `1.0 MΩ`.
 */
minimum: string, 
/**
 * Where the figure stands and how sure it is.
 */
source: string, 
/**
 * Names of the required pairs, for example `L1–PE`.
 */
pairs: Array<string>, 
/**
 * How many readings.
 */
readings: number, 
/**
 * All of it in a sentence.
 */
words: string, };

export type GridCell = { 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * Name of the pair: the column it stands in.
 */
pair: string, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * What was read, or that it was not tested.
 */
shown: string | null, 
/**
 * A new reading of it is asked for.
 */
asked: boolean, 
/**
 * A reading of it is waited for.
 */
open: boolean, 
/**
 * The reading that stands in it: another takes its place with a reason.
 */
holds: GridHeld | null, 
/**
 * Why nothing is typed here, if it is so.
 */
closed: string | null, };

export type GridHeld = { 
/**
 * The reading.
 */
reading: ReadingId, 
/**
 * Its digits, as typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, };

export type GridRow = { 
/**
 * The circuit.
 */
circuit: CircuitId, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * Its cells, in the order of its pairs.
 */
cells: Array<GridCell>, };

export type GridView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The board.
 */
board: BoardId, 
/**
 * Its name.
 */
name: string, 
/**
 * Counted in words.
 */
words: string, 
/**
 * The stage it shows.
 */
stage: Stage, 
/**
 * The stage in words.
 */
stage_words: string, 
/**
 * Column heads: names of pairs.
 */
pairs: Array<string>, 
/**
 * One row a circuit.
 */
rows: Array<GridRow>, };

export type GroupAsk = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The circuits chosen so far.
 */
circuits: Array<CircuitId>, };

export type GroupForm = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * Its circuits, in their order.
 */
circuits: Array<GroupMember>, 
/**
 * Whether the chosen ones can be tested together.
 */
ready: boolean, 
/**
 * The pair and what is asked of it, or what is missing.
 */
words: string, 
/**
 * What circuits have by themselves, from groups read with them and without them.
 */
own: Array<string>, };

export type GroupMember = { 
/**
 * The circuit.
 */
id: CircuitId, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * Chosen.
 */
chosen: boolean, 
/**
 * Why it cannot be tested together with the first one chosen, or with any; absent: it can.
 */
why_not: string | null, };

export type Hand = "left" | "right";

export type HandOverAsk = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Testers that go with it beside those its readings rely on.
 */
testers: Array<TesterId>, };

export type HandedView = { 
/**
 * When it was handed over, how many readings of this device were not, when something was received.
 */
lines: Array<string>, };

export type HoldsForm = { 
/**
 * Lower end, for example `0.1 MΩ`.
 */
from: string, 
/**
 * Upper end.
 */
to: string, };

export type Imported = { 
/**
 * The new job.
 */
job: JobId, 
/**
 * What came, and how to take it back while nobody has worked on it.
 */
done: Done, };

export type Indication = { "typed": Typed } | "over_range";

export type Item = "heating_element" | "functional_earth";

export type JobFilePreview = { 
/**
 * In a sentence.
 */
words: string, 
/**
 * What it holds.
 */
lines: Array<string>, };

export type JobFileText = { 
/**
 * JSON.
 */
text: string, };

export type JobId = string;

export type JobLine = { 
/**
 * The job.
 */
id: JobId, 
/**
 * Name.
 */
name: string, 
/**
 * Place.
 */
place: string, 
/**
 * Invented: screens and papers say so.
 */
demo: boolean, 
/**
 * For example `3 boards, 61 circuits, 120 of 160 readings`.
 */
summary: string, 
/**
 * Things to look at.
 */
look: number, 
/**
 * Things that block a sign-off.
 */
stop: number, 
/**
 * How many of its readings are in doubt, whatever tester they were taken with; absent: none is.
 */
in_doubt: Sentence | null, };

export type JobView = { 
/**
 * The job.
 */
id: JobId, 
/**
 * Name.
 */
name: string, 
/**
 * Place.
 */
place: string, 
/**
 * Invented: screens and papers say so.
 */
demo: boolean, 
/**
 * Made from a job file.
 */
from_file: boolean, 
/**
 * The set it is judged by.
 */
limit_set: SetLine, 
/**
 * How values are compared.
 */
value_policy: ValuePolicy, 
/**
 * What proves a tester.
 */
tester_policy: TesterPolicy, 
/**
 * A quick check of the tester is asked for within so many days before a reading; absent: none is.
 */
quick_check_days: number | null, 
/**
 * Set and policies in a sentence.
 */
rules_words: string, 
/**
 * People.
 */
people: Array<PersonView>, 
/**
 * Who records on this device; absent: not said yet.
 */
me: PersonId | null, 
/**
 * Whether that person has read and confirmed the cautions for this job.
 */
cautions_confirmed: boolean, 
/**
 * Boards in order.
 */
boards: Array<BoardLine>, 
/**
 * Testers this job's readings rely on.
 */
testers: Array<TesterLine>, 
/**
 * What failed testers put in doubt here, a line a tester.
 */
in_doubt: Array<DoubtLine>, 
/**
 * Who signed it and what has come since; empty: nobody.
 */
signed: Array<Sentence>, 
/**
 * Things to look at.
 */
look: number, 
/**
 * Things that block a sign-off.
 */
stop: number, 
/**
 * Both in words.
 */
look_words: string, 
/**
 * Where the record is, in words.
 */
whereabouts: string, 
/**
 * How many things wait for a person to settle them.
 */
to_settle: number, 
/**
 * The same in words.
 */
to_settle_words: string, };

export type JobsView = { 
/**
 * Newest first.
 */
jobs: Array<JobLine>, };

export type LastDay = { 
/**
 * As it would be typed.
 */
date: string, 
/**
 * Where it comes from.
 */
words: string, };

export type LeadCheckAsk = { 
/**
 * The board of the run.
 */
board: BoardId, 
/**
 * Shorted or open.
 */
leads: LeadEnd, 
/**
 * What it shows.
 */
indication: LeadIndication, };

export type LeadChecked = { 
/**
 * What it says.
 */
said: Sentence, 
/**
 * The screen now.
 */
run: RunView, };

export type LeadEnd = "shorted" | "open";

export type LeadIndication = "near_zero" | "over_range" | { "typed": Typed };

export type Level = "done" | "remark" | "look" | "stop";

export type Line = { 
/**
 * What it is.
 */
label: string, 
/**
 * Its value, ready to show.
 */
value: string, };

export type LineComplaint = { 
/**
 * Line, from 1.
 */
line: number, 
/**
 * What is wrong and what to do.
 */
words: string, };

export type LoadRow = { 
/**
 * What it was measured for.
 */
title: string, 
/**
 * Conditions; empty: reference conditions.
 */
detail: string, 
/**
 * The load, the meter included.
 */
load: string, 
/**
 * Voltage with U.
 */
voltage: string, 
/**
 * Current with U.
 */
current: string, 
/**
 * The decision, or why there is none; absent: nothing is asked of it.
 */
decision: Sentence | null, 
/**
 * Remarks.
 */
remarks: Array<string>, 
/**
 * The budget, line by line.
 */
budget: Array<BudgetRow>, 
/**
 * What the budget adds up to.
 */
sum: Array<Line>, };

export type LoadSet = { 
/**
 * JSON.
 */
text: string, };

export type Loads = "out" | "connected" | "electronics";

export type Location = "wet" | "fire_risk";

export type LongWorkView = { 
/**
 * Entries done.
 */
done: number, 
/**
 * Entries in all; zero while that is not known.
 */
of: number, };

export type LookItem = { 
/**
 * Unlike every other item's.
 */
key: string, 
/**
 * The board; absent for what concerns the whole job.
 */
board: BoardId | null, 
/**
 * The circuit.
 */
circuit: CircuitId | null, 
/**
 * The slot.
 */
slot: SlotId | null, 
/**
 * The reading.
 */
reading: ReadingId | null, 
/**
 * `DB-2 · 7 Sockets · L1–PE`.
 */
place: string, 
/**
 * What was read, if something was.
 */
shown: string | null, 
/**
 * How much attention.
 */
level: Level, 
/**
 * Why, the gravest first.
 */
sentences: Array<Sentence>, 
/**
 * Who accepted it, when and why, as long as that holds.
 */
accepted: string | null, 
/**
 * What was accepted of it before something graver was found.
 */
accepted_before: string | null, 
/**
 * Who asks for a new reading, and why, as long as it is not there.
 */
asked: string | null, };

export type LookView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * In a sentence.
 */
words: string, 
/**
 * As of when the record says so, and its fingerprint: equal on every device that holds the same.
 */
as_of: string, 
/**
 * What of the job is not here or cannot be read, a line each.
 */
lacking: Array<string>, 
/**
 * Things that block a sign-off.
 */
stop: number, 
/**
 * Things to look at.
 */
look: number, 
/**
 * Things to look at that were accepted with a reason; none of them is counted as one to look at.
 */
accepted: number, 
/**
 * New readings that are asked for.
 */
asked: number, 
/**
 * Slots marked *not tested*.
 */
not_tested: number, 
/**
 * Readings that stand.
 */
all: number, 
/**
 * The things, worst first, those accepted among them.
 */
items: Array<LookItem>, 
/**
 * Boards at a glance.
 */
boards: Array<BoardTable>, };

export type LookedAt = "yes" | "no" | "not_looked";

export type MakeRecall = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Of which kind.
 */
format: RecallFormat, };

export type MakeSchedule = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Format.
 */
format: ScheduleFormat, 
/**
 * As it was signed by this sign-off; absent: as it is now.
 */
as_signed: string | null, };

export type MakeTesterReport = { 
/**
 * The bench run.
 */
bench: BenchId, 
/**
 * Format.
 */
format: TesterReportFormat, };

export type MarkNotTested = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * Why.
 */
reason: NotTestedReason, 
/**
 * In words, for *other*.
 */
words: string, };

export type Measure = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The step.
 */
step: StepId, 
/**
 * The key that saves it.
 */
key: BenchKey, 
/**
 * Digits as typed; empty where none are.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, };

export type MeasureName = "none" | "selv" | "pelv" | "felv" | "separation";

export type MeasuredId = string;

export type MeasuredLine = { 
/**
 * Which.
 */
id: MeasuredId, 
/**
 * `0.88 MΩ`.
 */
words: string, 
/**
 * Why it was taken back, if it was.
 */
withdrawn: string | null, };

export type MoveCircuit = { 
/**
 * The circuit.
 */
circuit: CircuitId, 
/**
 * By how many places: less than 0 up, more than 0 down; at an end it stops.
 */
by: number, };

export type Moved = "pair" | "circuit" | "end";

export type NoInput = Record<symbol, never>;

export type NotTestedReason = "live" | "no_access" | "load_connected" | "joined" | "not_present" | "other";

export type Notch = { 
/**
 * 0 at its left end, 1 at its right end.
 */
at: number, 
/**
 * `1 kΩ`.
 */
label: string, };

export type Nothing = Record<symbol, never>;

export type OfBench = { 
/**
 * The run.
 */
bench: BenchId, };

export type OfBoard = { 
/**
 * The board.
 */
board: BoardId, };

export type OfCircuit = { 
/**
 * The circuit.
 */
circuit: CircuitId, };

export type OfJob = { 
/**
 * The job.
 */
job: JobId, };

export type OfReference = { 
/**
 * Which.
 */
reference: ReferenceId, };

export type OfSlot = { 
/**
 * The board it is on.
 */
board: BoardId, 
/**
 * The slot.
 */
slot: SlotId, };

export type OfStep = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The step.
 */
step: StepId, };

export type OfTester = { 
/**
 * The tester.
 */
tester: TesterId, };

export type OfficeJob = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name and place.
 */
words: string, 
/**
 * It was asked for and comes.
 */
coming: boolean, };

export type OfficeStep = "none" | "asking" | "in_step" | "waiting" | "refused";

export type OfficeView = { 
/**
 * Where it is; absent if this device is at none.
 */
address: string | null, 
/**
 * How it stands.
 */
step: OfficeStep, 
/**
 * The same in words.
 */
words: string, 
/**
 * What waits here to go there.
 */
waits: string | null, 
/**
 * Jobs that are there and not here.
 */
there: Array<OfficeJob>, };

export type Ohms = string;

export type OriginReading = { 
/**
 * The reading.
 */
id: ReadingId, 
/**
 * `487 MΩ`.
 */
shown: string, 
/**
 * What became of it, if it no longer stands.
 */
what: string | null, 
/**
 * Value, tester, method.
 */
judgement: Array<Sentence>, 
/**
 * Who, device, tester, when, test voltage, conditions; old values of what was corrected.
 */
lines: Array<Line>, 
/**
 * It stands, and the person at this device may replace or withdraw it: theirs, or another asked for it anew.
 */
changeable: boolean, };

export type OriginView = { 
/**
 * `DB-2 · 7 Sockets · L1–PE`.
 */
place: string, 
/**
 * Readings that stand: one, or several to settle.
 */
current: Array<OriginReading>, 
/**
 * Readings that were replaced or withdrawn, newest first.
 */
earlier: Array<OriginReading>, 
/**
 * Why it was not tested, if that stands.
 */
not_tested: string | null, 
/**
 * Something here asks for a look and nothing stops a sign-off: it can be accepted.
 */
acceptable: boolean, 
/**
 * What reviewers said of it and did not withdraw.
 */
review: Array<ReviewLine>, 
/**
 * The limit.
 */
limit: string, 
/**
 * Where the limit stands and how sure it is.
 */
source: string, 
/**
 * This visit beside each earlier one at the same place, the latest first.
 */
visits: Array<string>, 
/**
 * The note on it.
 */
note: string | null, };

export type Outcome = "good" | "failed" | "conditional_fail" | "not_stated";

export type OverRangeKey = { 
/**
 * `> 999 MΩ`, or that the limit is not set.
 */
label: string, 
/**
 * Whether it can save.
 */
ready: boolean, };

export type OverviewJob = { 
/**
 * The job.
 */
id: JobId, 
/**
 * Name.
 */
name: string, 
/**
 * Place.
 */
place: string, 
/**
 * Invented, and says so.
 */
demo: boolean, 
/**
 * Circuits.
 */
circuits: number, 
/**
 * Slots that hold something.
 */
done: number, 
/**
 * Slots in all.
 */
of: number, 
/**
 * Both in words: `120 of 160`.
 */
progress: string, 
/**
 * Things that block a sign-off.
 */
stop: number, 
/**
 * Things to look at.
 */
look: number, 
/**
 * New readings that are asked for.
 */
asked: number, 
/**
 * Things that wait to be settled.
 */
to_settle: number, 
/**
 * Required pairs without a reading, on boards that were begun.
 */
missing: number, 
/**
 * What it lacks, the gravest first; empty: nothing.
 */
lacks: Array<Sentence>, 
/**
 * Readings that stand and whose tester was not proved.
 */
unproved: number, 
/**
 * How many of them by the state of the tester, the gravest first.
 */
unproved_words: Array<Sentence>, 
/**
 * Readings in doubt.
 */
in_doubt: number, 
/**
 * Those of them that were resolved.
 */
resolved: number, 
/**
 * How far its recall is; absent: no reading of it is in doubt.
 */
recall: Sentence | null, 
/**
 * A sign-off of it stands.
 */
is_signed: boolean, 
/**
 * Who signed it and what has come since, or that nobody did.
 */
signed: Array<Sentence>, };

export type OverviewView = { 
/**
 * In a sentence.
 */
words: string, 
/**
 * Jobs, newest first.
 */
jobs: Array<OverviewJob>, 
/**
 * Testers, those that are due first.
 */
testers: Array<TesterDue>, 
/**
 * Testers that put readings in doubt, those with readings that nobody has resolved first.
 */
recalls: Array<RecallProgress>, };

export type PageAsk = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Page, from 1.
 */
page: number, 
/**
 * As it was signed by this sign-off; absent: as it is now.
 */
as_signed: string | null, };

export type PageView = { 
/**
 * Page, from 1.
 */
page: number, 
/**
 * Pages in all.
 */
pages: number, 
/**
 * PNG, base64.
 */
png_base64: string, 
/**
 * What the picture shows, in words.
 */
alt: string, };

export type PersonId = string;

export type PersonView = { 
/**
 * Their id.
 */
id: PersonId, 
/**
 * Name.
 */
name: string, 
/**
 * Role in the job, in their own words.
 */
role: string, };

export type Place = { 
/**
 * The UI's own address of a screen; absent: the start.
 */
hash?: string | null, };

export type PlanAsk = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * The references at hand.
 */
references: Array<ReferenceId>, 
/**
 * Edition of the tester standard.
 */
edition: EditionId, };

export type PlanChoices = { 
/**
 * Test voltages of the card; the id is the voltage in V.
 */
volts: Array<Choice>, 
/**
 * What can be measured.
 */
what: Array<Choice>, 
/**
 * Known resistances.
 */
resistors: Array<ResistorChoice>, 
/**
 * Supplies.
 */
supplies: Array<Choice>, 
/**
 * Positions.
 */
positions: Array<Choice>, 
/**
 * Temperatures.
 */
warmths: Array<Choice>, };

export type PlanPointView = { 
/**
 * The point.
 */
point: PlannedPoint, 
/**
 * `500 V`.
 */
group: string, 
/**
 * `1.0 MΩ of Box 1`.
 */
title: string, 
/**
 * Repeats and conditions; empty: once, under reference conditions.
 */
detail: string, };

export type PlanView = { 
/**
 * The points.
 */
points: Array<PlanPointView>, 
/**
 * The limits they are chosen around, in words.
 */
decisions: Array<string>, 
/**
 * What cannot be tested with these references.
 */
missing: Array<string>, 
/**
 * What points of one's own are made of.
 */
choices: PlanChoices, };

export type PlannedPoint = { 
/**
 * Test voltage, V d.c.
 */
test_voltage_v: Volts, 
/**
 * What.
 */
item: PlannedWhat, 
/**
 * How many times.
 */
repeats: number, 
/**
 * Supply.
 */
supply: Supply, 
/**
 * Position.
 */
position: TesterPosition, 
/**
 * Temperature.
 */
warmth?: Warmth, };

export type PlannedWhat = { "what": "indication", 
/**
 * The resistor.
 */
resistor: Resistor, } | { "what": "open_circuit", 
/**
 * The resistor; absent: only the meter.
 */
load?: Resistor, } | { "what": "rated_load", 
/**
 * The resistor; absent: none at hand has that value.
 */
load?: Resistor, } | { "what": "further_load", 
/**
 * The resistor.
 */
load: Resistor, } | { "what": "short_circuit" } | { "what": "leads_open" } | { "what": "leads_shorted" } | { "what": "ripple" } | { "what": "polarity" };

export type PlotAxis = { 
/**
 * What it is, with its unit.
 */
words: string, 
/**
 * Its lower end.
 */
from: number, 
/**
 * Its upper end.
 */
to: number, 
/**
 * Its ticks.
 */
ticks: Array<PlotTick>, };

export type PlotBand = { 
/**
 * The series it belongs to.
 */
series: number, 
/**
 * Samples in the order of x.
 */
samples: Array<BandAt>, };

export type PlotCorner = { 
/**
 * x.
 */
x: number, 
/**
 * y.
 */
y: number, };

export type PlotLine = { 
/**
 * What it is; empty: it needs no label.
 */
words: string, 
/**
 * Its corners.
 */
corners: Array<PlotCorner>, };

export type PlotPoint = { 
/**
 * The facts it rests on.
 */
measured: Array<MeasuredId>, 
/**
 * x.
 */
x: number, 
/**
 * y.
 */
y: number, 
/**
 * Half the uncertainty bar.
 */
half: number, 
/**
 * Over-range or under-range: an arrow with this word; absent: an exact figure.
 */
beyond: string | null, 
/**
 * How much attention it asks for.
 */
level: Level, 
/**
 * It in a sentence.
 */
words: string, };

export type PlotSeries = { 
/**
 * `A`, `B` …: beside the shape, so that no colour is needed.
 */
letter: string, 
/**
 * Whose it is.
 */
words: string, 
/**
 * Points in the order of x.
 */
points: Array<PlotPoint>, };

export type PlotTick = { 
/**
 * Where.
 */
at: number, 
/**
 * Its label.
 */
words: string, };

export type PlotView = { 
/**
 * What it shows, in a sentence.
 */
title: string, 
/**
 * The horizontal axis.
 */
x: PlotAxis, 
/**
 * The vertical axis.
 */
y: PlotAxis, 
/**
 * What is permitted: areas between two lines.
 */
bands: Array<PlotBand>, 
/**
 * Bounds of the standard and fitted lines.
 */
lines: Array<PlotLine>, 
/**
 * What was measured, one series a tester.
 */
series: Array<PlotSeries>, };

export type PointRow = { 
/**
 * The facts.
 */
measured: Array<MeasuredId>, 
/**
 * Known resistance at the terminals.
 */
known: string, 
/**
 * Conditions; empty: reference conditions.
 */
detail: string, 
/**
 * Each indication.
 */
shown: Array<string>, 
/**
 * Error in ohms and in per cent.
 */
error: string, 
/**
 * The same in per cent of the known resistance.
 */
error_percent: string, 
/**
 * U.
 */
expanded: string, 
/**
 * Permitted error.
 */
permitted: string, 
/**
 * The decision, or why there is none.
 */
decision: Sentence, 
/**
 * Remarks.
 */
remarks: Array<string>, 
/**
 * The budget, line by line.
 */
budget: Array<BudgetRow>, 
/**
 * What the budget adds up to.
 */
sum: Array<Line>, 
/**
 * Whether it is in the plot; absent: it never is.
 */
in_view: boolean | null, };

export type PreviewRow = { 
/**
 * Line, from 1.
 */
line: number, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * Electrical facet in one line.
 */
electrical: string, 
/**
 * What follows.
 */
follows: string, };

export type ProofKind = "calibration" | "bench";

export type Pulse = { 
/**
 * Another number than before: something came.
 */
at: number, 
/**
 * When to ask again, in milliseconds: seldom where nothing comes by itself.
 */
again: number, };

export type QuickCheckForm = { 
/**
 * V d.c. the box was read at; empty: the box was not used.
 */
volts: string, 
/**
 * The resistances of the box.
 */
points: Array<QuickPointForm>, 
/**
 * What was shown with the leads open; empty: not done.
 */
open: string, 
/**
 * What was shown with the leads shorted; empty: not done.
 */
shorted: string, };

export type QuickCheckView = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * What to connect, step by step.
 */
steps: Array<string>, 
/**
 * Test voltages of its card.
 */
volts: Array<Choice>, 
/**
 * The form it starts with: the resistances of the box last used on this device, nothing shown.
 */
form: QuickCheckForm, 
/**
 * When it was last checked, in words.
 */
last: Sentence, };

export type QuickPointForm = { 
/**
 * The known resistance.
 */
known: string, 
/**
 * Its uncertainty, %; empty: not known.
 */
uncertainty_percent: string, 
/**
 * What was shown; empty: not read.
 */
shown: string, };

export type RangeForm = { 
/**
 * Lower end, for example `0.05 MΩ`.
 */
from: string, 
/**
 * Upper end.
 */
to: string, 
/**
 * Step of the display.
 */
resolution: string, 
/**
 * Accuracy, % of the reading; empty: not stated.
 */
percent: string, 
/**
 * Accuracy, digits; empty: none.
 */
digits: string, };

export type Ranging = "automatic" | "manual";

export type ReadBack = { 
/**
 * The reading; absent for *not tested*.
 */
reading: ReadingId | null, 
/**
 * Its slot.
 */
slot: SlotId, 
/**
 * `L2–N`.
 */
pair: string, 
/**
 * `487 MΩ`.
 */
shown: string, 
/**
 * The whole, said once.
 */
announce: string, 
/**
 * The judgement in one sentence, at its level.
 */
judgement: Sentence, 
/**
 * Its parts: value, tester, method, the gravest first.
 */
sentences: Array<Sentence>, };

export type ReadingId = string;

export type ReadingPreviewRow = { 
/**
 * Line, from 1.
 */
line: number, 
/**
 * `DB-2 · 7 Sockets · L1–PE`.
 */
place: string, 
/**
 * What was read.
 */
shown: string, 
/**
 * Test voltage.
 */
volts: string, 
/**
 * The tester, or that there was none.
 */
tester: string, 
/**
 * When it was taken.
 */
time: string, 
/**
 * Who took it.
 */
person: string, 
/**
 * Whether it is new, in words.
 */
what: string, };

export type ReadingRow = { 
/**
 * The reading.
 */
reading: ReadingId, 
/**
 * Its board.
 */
board: BoardId, 
/**
 * Its slot.
 */
slot: SlotId, 
/**
 * `DB-2 · 7 Sockets · L1–PE`.
 */
place: string, 
/**
 * `487 MΩ`.
 */
shown: string, 
/**
 * Its tester.
 */
tester: string, 
/**
 * Its test voltage.
 */
volts: string, 
/**
 * When.
 */
time: string, 
/**
 * Its level.
 */
level: Level, };

export type ReadingTable = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The text.
 */
text: string, 
/**
 * How its fields are parted.
 */
format: TableFormat, };

export type ReadingsAsk = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The board; absent: all.
 */
board?: BoardId | null, };

export type ReadingsPreview = { 
/**
 * The lines that would be new readings or are here already.
 */
rows: Array<ReadingPreviewRow>, 
/**
 * What is wrong, by line; a table with complaints is not taken.
 */
complaints: Array<LineComplaint>, 
/**
 * The sum in words.
 */
sum: string, 
/**
 * Lines with a reading.
 */
lines: number, 
/**
 * Those that would be new readings.
 */
new: number, 
/**
 * Those that are here already as they stand.
 */
same: number, 
/**
 * Those that cannot be taken.
 */
not_taken: number, };

export type ReadingsView = { 
/**
 * One row a reading that stands.
 */
rows: Array<ReadingRow>, 
/**
 * Testers to choose from.
 */
testers: Array<Choice>, 
/**
 * Test voltages to choose from.
 */
volts: Array<VoltsChoice>, };

export type ReadyLine = { 
/**
 * What it says.
 */
said: Sentence, 
/**
 * Where to go.
 */
to: ReadyPlace | null, };

export type ReadyPlace = { "kind": "look" } | { "kind": "run", 
/**
 * The board.
 */
board: BoardId, } | { "kind": "testers" } | { "kind": "job" } | { "kind": "sign_off" };

export type RecallAsk = { 
/**
 * Id or serial number.
 */
tester: string, };

export type RecallBoard = { 
/**
 * The board; absent where the circuit is on none.
 */
board: BoardId | null, 
/**
 * Its name.
 */
name: string, 
/**
 * By circuit, the one with the most urgent line first; of a circuit, the most urgent first.
 */
lines: Array<RecallLine>, };

export type RecallCause = { 
/**
 * `Bench verification of 3 Mar 2026 by …`.
 */
title: string, 
/**
 * What it says.
 */
lines: Array<string>, 
/**
 * How many readings it puts in doubt.
 */
readings: number, };

export type RecallClass = "test_again" | "cannot_be_judged" | "still_clears";

export type RecallCounts = { 
/**
 * All.
 */
all: number, 
/**
 * Resolved: tested again, or by a reasoned statement.
 */
resolved: number, 
/**
 * To be tested again.
 */
test_again: number, 
/**
 * Cannot be judged.
 */
cannot_be_judged: number, 
/**
 * Still clear the limit.
 */
still_clears: number, };

export type RecallFormat = "pdf" | "csv";

export type RecallJob = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name.
 */
name: string, 
/**
 * Its place.
 */
place: string, 
/**
 * Invented, and says so.
 */
invented: boolean, 
/**
 * Who to call: name and part, as the job has them.
 */
people: Array<string>, 
/**
 * Each sign-off of it that stands, and how many of its readings are here.
 */
signed: Array<string>, 
/**
 * How many of its readings.
 */
counts: RecallCounts, 
/**
 * By board, the one with the most urgent line first.
 */
boards: Array<RecallBoard>, };

export type RecallLine = { 
/**
 * The reading.
 */
reading: ReadingId, 
/**
 * Its circuit.
 */
circuit: CircuitId | null, 
/**
 * Its slot.
 */
slot: SlotId, 
/**
 * `7 Sockets`.
 */
circuit_name: string, 
/**
 * `L1–PE`.
 */
pair: string, 
/**
 * `487 MΩ`.
 */
shown: string, 
/**
 * Test voltage.
 */
volts: string, 
/**
 * When it was taken.
 */
time: string, 
/**
 * How it is sorted.
 */
class: RecallClass, 
/**
 * That in a word or two.
 */
class_words: string, 
/**
 * What is left of it, and with which figure.
 */
words: string, 
/**
 * What is said beside a figure that rests on an error found later.
 */
remark: string | null, 
/**
 * What put it in doubt.
 */
because: Sentence, 
/**
 * What became of it; absent: nothing yet.
 */
resolved: string | null, };

export type RecallProgress = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * What people call it.
 */
name: string, 
/**
 * Serial number.
 */
serial: string, 
/**
 * Jobs with readings in doubt.
 */
jobs: number, 
/**
 * Readings in doubt.
 */
all: number, 
/**
 * Those of them that were resolved.
 */
resolved: number, 
/**
 * All of that in words.
 */
said: Sentence, };

export type RecallView = { 
/**
 * The tester; absent where more than one has that serial number.
 */
tester: TesterId | null, 
/**
 * What people call it.
 */
name: string, 
/**
 * Its serial number.
 */
serial: string, 
/**
 * The testers of that serial number, where there is more than one: choose.
 */
candidates: Array<TesterLine>, 
/**
 * In a sentence.
 */
words: string, 
/**
 * How many readings, sorted and resolved.
 */
counts: RecallCounts, 
/**
 * What found it failed, or its damage, the earliest first.
 */
causes: Array<RecallCause>, 
/**
 * By job, the one with the most urgent line first.
 */
jobs: Array<RecallJob>, 
/**
 * What the last act did, in words.
 */
said: string | null, 
/**
 * Takes the last act back.
 */
undo: UndoToken | null, };

export type RecordQuickCheck = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * What was shown.
 */
form: QuickCheckForm, };

export type RecordVerification = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * What the paper says.
 */
form: VerificationForm, 
/**
 * The verification it replaces, if it corrects one.
 */
replaces?: VerificationId | null, 
/**
 * Why it is replaced.
 */
reason: string, };

export type ReducedReason = "surge_protector" | "equipment" | "equipment_connected";

export type ReferenceForm = { 
/**
 * What it is.
 */
kind: ReferenceKindName, 
/**
 * What people call it.
 */
name: string, 
/**
 * Serial number.
 */
serial: string, 
/**
 * Certificate number.
 */
certificate: string, 
/**
 * Last day of the certificate; empty: none was set.
 */
valid_until: string, 
/**
 * What a voltmeter or probe loads the tester with, for example `10 MΩ`.
 */
input_resistance: string, 
/**
 * Its values or ranges.
 */
values: Array<ReferenceValueForm>, };

export type ReferenceId = string;

export type ReferenceKindName = "resistor" | "decade_box" | "voltmeter" | "high_voltage_probe" | "current_meter";

export type ReferenceLine = { 
/**
 * Which.
 */
id: ReferenceId, 
/**
 * Name, kind and serial number.
 */
title: string, 
/**
 * Its certificate and each value, in words.
 */
lines: Array<string>, 
/**
 * Whether its certificate is in date today.
 */
state: Sentence, 
/**
 * What can be edited, as typed.
 */
form: ReferenceForm, };

export type ReferenceValueForm = { 
/**
 * As marked: `1 MΩ`, `600 V`, `2 mA`.
 */
nominal: string, 
/**
 * What the certificate states, in the same form; empty: as marked.
 */
stated: string, 
/**
 * Uncertainty or tolerance, % of the stated value.
 */
within_percent: string, 
/**
 * Uncertainty or tolerance with its unit, added to the per cent.
 */
within: string, 
/**
 * How it is stated.
 */
stated_as: StatedAs, 
/**
 * k of an expanded uncertainty; empty: 2.
 */
k: string, 
/**
 * Most change since the certificate, %; empty: not known.
 */
drift_percent: string, 
/**
 * Voltage coefficient, ppm/V; empty: not known. Resistors alone.
 */
voltage_coefficient: string, 
/**
 * The voltage it was stated at, V. Resistors alone.
 */
stated_at: string, 
/**
 * Temperature coefficient, ppm/K; empty: not known. Resistors alone.
 */
temperature_coefficient: string, 
/**
 * The most voltage it may be used at, V; empty: not stated. Resistors alone.
 */
rated_voltage: string, 
/**
 * Step of the display, with its unit; empty: not known. Meters alone.
 */
resolution: string, };

export type ReferencesView = { 
/**
 * By name.
 */
references: Array<ReferenceLine>, 
/**
 * What a reference can be.
 */
kinds: Array<Choice>, 
/**
 * How an uncertainty can be stated.
 */
stated_as: Array<Choice>, 
/**
 * An empty form with one empty value.
 */
fresh: ReferenceForm, 
/**
 * What the last act did, and how it is taken back.
 */
done: Done | null, };

export type RemovedCircuit = { 
/**
 * The circuit.
 */
id: CircuitId, 
/**
 * Reference and description.
 */
words: string, };

export type RenameBoard = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * Name.
 */
name: string, };

export type ReplaceReading = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The reading replaced.
 */
reading: ReadingId, 
/**
 * As typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, 
/**
 * The unit key.
 */
unit: UnitKey, 
/**
 * Why.
 */
why: ReplaceReason, };

export type ReplaceReason = "mistyped" | "repaired" | "repeated";

export type ReportDamage = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * What happened, in words.
 */
what: string, 
/**
 * The day it happened; empty: at some time since its last good proof.
 */
date: string, 
/**
 * The time of that day.
 */
time: string, };

export type Resistor = { 
/**
 * The reference.
 */
reference: ReferenceId, 
/**
 * Which of its values, by what is marked on it, Ω.
 */
nominal_ohm: Ohms, };

export type ResistorChoice = { 
/**
 * Sent back in a point.
 */
resistor: Resistor, 
/**
 * `1.0 MΩ of Box 1`.
 */
words: string, };

export type ResolveRecall = { 
/**
 * Its tester.
 */
tester: TesterId, 
/**
 * Its job.
 */
job: JobId, 
/**
 * The reading.
 */
reading: ReadingId, 
/**
 * Why.
 */
reason: string, };

export type ReviewAsk = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * Why.
 */
reason: string, };

export type ReviewLine = { 
/**
 * Sent back to withdraw it.
 */
entry: string, 
/**
 * Asked for, or accepted.
 */
what: ReviewWhat, 
/**
 * Who, when and why.
 */
words: string, 
/**
 * A request that is open, an acceptance that holds.
 */
holds: boolean, };

export type ReviewWhat = "request" | "accepted";

export type RulerMark = { 
/**
 * The unit key.
 */
unit: UnitKey, 
/**
 * 0 at its left end, 1 at its right end.
 */
at: number, };

export type RunAsk = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * Jump to this slot.
 */
slot?: SlotId | null, 
/**
 * Jump to this circuit's first open slot.
 */
circuit?: CircuitId | null, };

export type RunCircuit = { 
/**
 * The circuit.
 */
id: CircuitId, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * `7 of 12`.
 */
position: string, 
/**
 * Notes on it.
 */
notes: string, };

export type RunCircuitLine = { 
/**
 * The circuit.
 */
id: CircuitId, 
/**
 * Reference.
 */
reference: string, 
/**
 * Description.
 */
description: string, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * Its first open slot, or its first one.
 */
slot: SlotId | null, 
/**
 * `3 of 5`.
 */
progress: string, 
/**
 * A new reading is asked for on it.
 */
asked: boolean, };

export type RunGroup = { 
/**
 * The circuits.
 */
circuits: Array<CircuitId>, 
/**
 * The slot of their reading.
 */
slot: SlotId, 
/**
 * `all lives of 3, 4, 5 – PE`.
 */
words: string, };

export type RunTester = { 
/**
 * The tester; absent: none chosen.
 */
id: TesterId | null, 
/**
 * `Tester A · proved to 3 Mar 2027`.
 */
words: string, 
/**
 * How much attention.
 */
level: Level, };

export type RunView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name.
 */
job_name: string, 
/**
 * Whether this person has read and confirmed the cautions for this job.
 */
cautions_confirmed: boolean, 
/**
 * The board.
 */
board: BoardId, 
/**
 * Its name.
 */
board_name: string, 
/**
 * Before or after equipment is connected.
 */
stage: Stage, 
/**
 * The stage in words.
 */
stage_words: string, 
/**
 * The circuit now; absent on the end card.
 */
circuit: RunCircuit | null, 
/**
 * All circuits, for the jump list.
 */
circuits: Array<RunCircuitLine>, 
/**
 * Test voltage in words, for the header.
 */
voltage: string, 
/**
 * Set on the tester, V; absent: not said yet.
 */
volts: number | null, 
/**
 * What the tester in hand can be set to, for a change by hand.
 */
volts_choices: Array<VoltsChoice>, 
/**
 * `Now circuit 8 · Oven`, after moving on to it.
 */
announce: string | null, 
/**
 * `1000 V from circuit 8 on`, while the circuit now is recorded: the next one asks for another test voltage.
 */
ahead: string | null, 
/**
 * The tester and its state.
 */
tester: RunTester, 
/**
 * Pairs of this circuit.
 */
slots: Array<SlotView>, 
/**
 * The slot now.
 */
slot: SlotId | null, 
/**
 * `3 of 5`.
 */
progress: string, 
/**
 * Half-typed digits.
 */
draft: DraftView, 
/**
 * The one-tap key.
 */
over_range: OverRangeKey, 
/**
 * The next circuit asks for another voltage: the pad shows only this until answered.
 */
ask_volts: AskVolts | null, 
/**
 * Who asks for a new reading of the slot now, and why.
 */
asked: string | null, 
/**
 * The smallest indication that proves the limit with this tester, under *guarded*.
 */
hint: string | null, 
/**
 * The last saved reading.
 */
read_back: ReadBack | null, 
/**
 * Whether undo has something to take back.
 */
can_undo: boolean, 
/**
 * Reasons for *not tested*.
 */
not_tested_reasons: Array<Choice>, 
/**
 * Where the lead check stands.
 */
lead_check: Sentence, 
/**
 * Whether lives of this circuit are joined for the test to earth.
 */
joined: boolean, 
/**
 * Circuits that are tested together; absent: each alone.
 */
group: RunGroup | null, 
/**
 * Under which conditions the next readings are taken.
 */
conditions: ConditionsView, 
/**
 * The note on this circuit, if there is one.
 */
note: string | null, 
/**
 * The end card, when no slot is open.
 */
ended: EndCard | null, 
/**
 * Notches of the ruler, one a decade.
 */
ruler_notches: Array<Notch>, };

export type SaveCircuit = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The circuit; absent: a new one.
 */
circuit?: CircuitId | null, 
/**
 * The form.
 */
form: CircuitForm, };

export type SaveReading = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * What the tester shows.
 */
indication: Indication, };

export type SaveReference = { 
/**
 * Which; absent: a new one.
 */
reference?: ReferenceId | null, 
/**
 * As typed.
 */
form: ReferenceForm, };

export type SaveTester = { 
/**
 * The tester; absent: a new one.
 */
tester?: TesterId | null, 
/**
 * Who it is.
 */
identity: TesterIdentity, 
/**
 * Its card.
 */
card: CardForm, };

export type Saved = { 
/**
 * Read back.
 */
saved: ReadBack, 
/**
 * What moving on crossed.
 */
moved: Moved, 
/**
 * The screen now.
 */
run: RunView, };

export type ScheduleFormat = "pdf" | "xlsx" | "csv";

export type ScheduleView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Title of the paper.
 */
title: string, 
/**
 * What is missing, to look at, unproved or unsigned. Never blocks a draft.
 */
ready: Array<ReadyLine>, 
/**
 * The sign-offs whose paper is another than that of now; none: there is one paper only.
 */
as_signed: Array<Choice>, 
/**
 * Formats to choose from.
 */
formats: Array<Choice>, };

export type Sentence = { 
/**
 * How much attention.
 */
level: Level, 
/**
 * The sentence.
 */
words: string, };

export type Series = "as_found" | "as_left";

export type SetAside = { 
/**
 * Where it lies now, in a sentence.
 */
words: string, 
/**
 * What came back, what did not, and what to do next.
 */
lines: Array<string>, 
/**
 * The paths of the files set aside.
 */
files: Array<string>, };

export type SetBoardPeople = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * People of the job; empty leaves it open.
 */
people: Array<PersonId>, };

export type SetConditions = { 
/**
 * The board of the run.
 */
board: BoardId, 
/**
 * Loads on the circuit now.
 */
loads: Loads, 
/**
 * N isolated from PE.
 */
n_isolated: boolean | null, 
/**
 * Why the reduced voltage is used.
 */
reduced: ReducedReason | null, };

export type SetFilesFolder = { 
/**
 * Its whole path; absent: the usual one.
 */
folder: string | null, };

export type SetId = string;

export type SetJobNames = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Name.
 */
name: string, 
/**
 * Place.
 */
place: string, };

export type SetJobRules = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The set.
 */
limit_set: SetName, 
/**
 * How values are compared.
 */
value_policy: ValuePolicy, 
/**
 * What proves a tester.
 */
tester_policy: TesterPolicy, 
/**
 * A quick check of the tester is asked for within so many days; 0: none is; absent: as before.
 */
quick_check_days?: number | null, 
/**
 * Why. Needed once the job has readings.
 */
reason: string, };

export type SetJoined = { 
/**
 * The circuit.
 */
circuit: CircuitId, 
/**
 * Joined.
 */
joined: boolean, };

export type SetLine = { 
/**
 * Sent back to choose it.
 */
name: SetName, 
/**
 * Title.
 */
title: string, 
/**
 * Where it is meant for.
 */
scope: string, 
/**
 * The publication and how sure its figures are, in words.
 */
source: string, 
/**
 * First digits of its hash, as papers print it.
 */
hash_short: string, 
/**
 * Entered by the user.
 */
own: boolean, };

export type SetLook = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The answers.
 */
look: TesterLook, 
/**
 * The mark put on a tester without a serial number; empty: none.
 */
mark: string, };

export type SetMeter = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * The step whose pad was asked.
 */
step: StepId, 
/**
 * The meter; absent: none.
 */
meter?: ReferenceId | null, };

export type SetName = { 
/**
 * Which set.
 */
id: SetId, 
/**
 * Which version of it.
 */
version: number, 
/**
 * SHA-256 of its bytes, 64 lower-case hexadecimal digits.
 */
sha256: string, };

export type SetNote = { 
/**
 * The board.
 */
board: BoardId, 
/**
 * The slot.
 */
slot: SlotId, 
/**
 * The note.
 */
text: string, };

export type SetPlan = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * What is to be measured.
 */
plan: Array<PlannedPoint>, };

export type SetSeries = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * Which.
 */
series: Series, };

export type SetStage = { 
/**
 * The board of the run.
 */
board: BoardId, 
/**
 * The stage.
 */
stage: Stage, };

export type SetTemperature = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * °C as typed; empty: not measured.
 */
temperature: string, };

export type SetVolts = { 
/**
 * The board of the run.
 */
board: BoardId, 
/**
 * V d.c.
 */
volts: number, };

export type SetsView = { 
/**
 * Shipped ones first.
 */
sets: Array<SetLine>, };

export type Settings = { 
/**
 * Colours.
 */
theme: Theme, 
/**
 * The side the pad docks to.
 */
hand: Hand, 
/**
 * Larger keys.
 */
gloves: boolean, 
/**
 * Language, for example `en`.
 */
locale: string, };

export type SettingsView = { 
/**
 * The settings.
 */
settings: Settings, 
/**
 * Languages there are.
 */
locales: Array<Choice>, };

export type Settle = { 
/**
 * The job it is in.
 */
job: JobId, 
/**
 * The question's id.
 */
question: string, 
/**
 * The id of a choice, or `both`.
 */
choice: string, };

export type SettleChoice = { 
/**
 * Sent back to `settle`.
 */
id: string, 
/**
 * The value.
 */
words: string, 
/**
 * Who recorded it, on which device, when, and with which tester.
 */
lines: Array<string>, };

export type SettleQuestion = { 
/**
 * Sent back to `settle`. It names what was shown: once that is another, it is refused.
 */
id: string, 
/**
 * What is asked, for example `Two readings of one pair`.
 */
asks: string, 
/**
 * Whose it is, in words.
 */
place: string, 
/**
 * What a choice does.
 */
says: string, 
/**
 * What can be chosen, in the order of their keys 1, 2, …
 */
choices: Array<SettleChoice>, 
/**
 * Keeping all of them side by side, where that can be chosen: what it does.
 */
both: string | null, };

export type Settled = { 
/**
 * What now stands, and what takes the choice back.
 */
done: Done, 
/**
 * What still waits.
 */
view: SettlingView, };

export type SettledLine = { 
/**
 * Where, and what was chosen.
 */
words: string, 
/**
 * By whom, on which device, when.
 */
by: string, 
/**
 * What takes it back; absent: it was made elsewhere or by somebody else.
 */
undo: UndoToken | null, };

export type SettlingView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name.
 */
name: string, 
/**
 * How many things wait, in words.
 */
words: string, 
/**
 * One thing after the other, in the one order that holds on every device.
 */
questions: Array<SettleQuestion>, 
/**
 * What was settled and not taken back, the newest first.
 */
made: Array<SettledLine>, };

export type SheetText = { 
/**
 * As text parted by tabs.
 */
text: string, };

export type Sign = "todo" | "done" | "look" | "stop";

export type SignOffAsk = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The name of who signs, as typed.
 */
name: string, };

export type SignOffTester = { 
/**
 * Its name and serial number.
 */
words: string, 
/**
 * Its state for the readings taken with it.
 */
state: Sentence, 
/**
 * Its verifications, a sentence each.
 */
verifications: Array<string>, };

export type SignOffView = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name.
 */
title: string, 
/**
 * What there is, counted in words.
 */
counts: Array<string>, 
/**
 * Why it cannot be signed now; absent: it can.
 */
blocked: Sentence | null, 
/**
 * The testers used, each with the verifications on record.
 */
testers: Array<SignOffTester>, 
/**
 * What is open: looked at and signed with.
 */
open: Array<ReadyLine>, 
/**
 * Which sign-off it would be, and over what.
 */
covers: string, 
/**
 * What the one button says.
 */
button: string, 
/**
 * Sign-offs of the job, the newest first.
 */
signed: Array<SignedLine>, };

export type SignedLine = { 
/**
 * Sent back to withdraw it.
 */
entry: string, 
/**
 * Who signed, when, under which number.
 */
words: string, 
/**
 * What has come since, or why it was withdrawn.
 */
since: Array<Sentence>, 
/**
 * What has come since, one line an entry; the first ones.
 */
later: Array<string>, 
/**
 * How many more there are.
 */
more: number, 
/**
 * Not withdrawn.
 */
stands: boolean, };

export type SlotId = string;

export type SlotView = { 
/**
 * The slot.
 */
id: SlotId, 
/**
 * `L1–PE`.
 */
name: string, 
/**
 * The two ends in full, for a reader of the screen.
 */
spoken: string, 
/**
 * Its sign.
 */
sign: Sign, 
/**
 * What was read, or that it was not tested.
 */
shown: string | null, 
/**
 * A new reading of it is asked for.
 */
asked: boolean, };

export type SpreadsheetFile = { 
/**
 * Its bytes, base64.
 */
base64: string, };

export type Stage = "before" | "after";

export type StartBench = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * The references at hand.
 */
references: Array<ReferenceId>, 
/**
 * Edition of the tester standard.
 */
edition: EditionId, 
/**
 * How an error is decided.
 */
rule: DecisionRule, 
/**
 * Who makes it; empty: the person of this device.
 */
by: string, 
/**
 * What is to be measured.
 */
plan: Array<PlannedPoint>, };

export type StartJob = { 
/**
 * Name.
 */
name: string, 
/**
 * Place.
 */
place: string, 
/**
 * Name of the person who records on this device.
 */
person: string, 
/**
 * Their role.
 */
role: string, };

export type StatedAs = "expanded" | "tolerance";

export type StepId = string;

export type SuggestLastDay = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * The day it was made, as typed.
 */
date: string, };

export type Supply = "nominal" | "lowest_battery";

export type TableFormat = "tsv" | "csv";

export type TesterDue = { 
/**
 * The tester.
 */
id: TesterId, 
/**
 * What people call it.
 */
name: string, 
/**
 * Serial number.
 */
serial: string, 
/**
 * Invented, and says so.
 */
invented: boolean, 
/**
 * Its state today.
 */
state: Sentence, 
/**
 * The last day of the verification relied on; absent: nothing sets one.
 */
last_day: string | null, 
/**
 * The same in ISO 8601.
 */
day: string | null, 
/**
 * When the next verification is due.
 */
due: Sentence, };

export type TesterId = string;

export type TesterIdentity = { 
/**
 * What people call it.
 */
name: string, 
/**
 * Serial number.
 */
serial: string, 
/**
 * Its type as marked.
 */
model: string, };

export type TesterLine = { 
/**
 * The tester.
 */
id: TesterId, 
/**
 * What people call it.
 */
name: string, 
/**
 * Serial number.
 */
serial: string, 
/**
 * Its state today.
 */
state: Sentence, 
/**
 * Invented, to try the program with; told where the testers of this device are listed.
 */
invented: boolean, };

export type TesterLook = { 
/**
 * The case is whole.
 */
case: LookedAt, 
/**
 * Leads and probes are whole.
 */
leads: LookedAt, 
/**
 * The measurement category is marked.
 */
marked_category: LookedAt, 
/**
 * The standard is marked.
 */
marked_standard: LookedAt, 
/**
 * The battery is good by the tester's own test.
 */
battery: LookedAt, };

export type TesterPart = "case" | "leads" | "marked_category" | "marked_standard" | "battery";

export type TesterPartLine = { 
/**
 * What.
 */
item: TesterPart, 
/**
 * In words.
 */
words: string, 
/**
 * The answer.
 */
answer: LookedAt, };

export type TesterPolicy = "full" | "usual" | "indications_only";

export type TesterPosition = "reference" | "turned_left" | "turned_right";

export type TesterReportFormat = "pdf" | "xlsx" | "json";

export type TesterState = "proved" | "lapsed" | "not_proved" | "found_good_afterwards" | "in_doubt" | "barred" | "not_chosen";

export type TesterView = { 
/**
 * The tester.
 */
id: TesterId, 
/**
 * Who it is.
 */
identity: TesterIdentity, 
/**
 * Its card, as typed.
 */
card: CardForm, 
/**
 * The card in words, a line a test voltage.
 */
card_words: Array<string>, 
/**
 * Its state today, a line a test voltage.
 */
state: Array<Sentence>, 
/**
 * Verifications, newest first.
 */
verifications: Array<VerificationView>, 
/**
 * Quick checks and damage, newest first.
 */
checks: Array<CheckView>, 
/**
 * When it is due, in words; absent where nothing sets a last day.
 */
due: Sentence | null, 
/**
 * What its own history proposes for its interval, with every figure; none: nothing was found yet.
 */
proposal: Array<string>, 
/**
 * From one verification to the next, in words.
 */
interval: string, 
/**
 * How many readings it puts in doubt; none: nothing of it failed.
 */
in_doubt: Sentence | null, 
/**
 * Invented, to try the program with.
 */
invented: boolean, 
/**
 * The form a new verification starts with: the card's test voltages, nothing stated.
 */
fresh: VerificationForm, 
/**
 * What a verification form offers.
 */
choices: VerificationChoices, 
/**
 * What the last act changed, in words.
 */
words: string | null, };

export type TestersView = { 
/**
 * By name.
 */
testers: Array<TesterLine>, };

export type Theme = "system" | "light" | "dark" | "sun";

export type Typed = { 
/**
 * As typed.
 */
text: string, 
/**
 * Exact, more than, less than.
 */
comparator: Comparator, 
/**
 * The unit key.
 */
unit: UnitKey, };

export type UndoAsk = { 
/**
 * As told by the act.
 */
token: UndoToken, };

export type UndoToken = string;

export type Undone = { 
/**
 * In words.
 */
words: string, 
/**
 * The screen now, with the old digits in the entry line.
 */
run: RunView, };

export type UnitKey = "k" | "m" | "g";

export type UnprovedAsk = { 
/**
 * Of one job; absent: of every one.
 */
job?: JobId | null, };

export type UnprovedGroup = { 
/**
 * The tester; absent: none was chosen.
 */
tester: TesterId | null, 
/**
 * What people call it, with its serial number.
 */
name: string, 
/**
 * The state it was in.
 */
state: TesterState, 
/**
 * How many readings.
 */
count: number, 
/**
 * That in words.
 */
words: string, 
/**
 * Why it was not proved.
 */
said: Sentence, 
/**
 * What to do.
 */
todo: string, 
/**
 * Where they are, a line a circuit, as one walks.
 */
places: Array<UnprovedPlace>, };

export type UnprovedJob = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Its name.
 */
name: string, 
/**
 * Its place.
 */
place: string, 
/**
 * How many.
 */
count: number, 
/**
 * That in words.
 */
words: string, 
/**
 * Its readings by tester and reason, the gravest first.
 */
groups: Array<UnprovedGroup>, };

export type UnprovedPlace = { 
/**
 * Its board; absent where the circuit is on none.
 */
board: BoardId | null, 
/**
 * The circuit.
 */
circuit: CircuitId | null, 
/**
 * `DB-2 · 7 Sockets · L1–PE, L2–PE`.
 */
words: string, };

export type UnprovedView = { 
/**
 * In a sentence.
 */
words: string, 
/**
 * Jobs, newest first.
 */
jobs: Array<UnprovedJob>, };

export type ValuePolicy = "simple" | "guarded";

export type VerificationChoices = { 
/**
 * Laboratory or bench.
 */
kinds: Array<Choice>, 
/**
 * Results as found and as left.
 */
outcomes: Array<Choice>, 
/**
 * Against the tester standard.
 */
conforms: Array<Choice>, };

export type VerificationForm = { 
/**
 * The day it was made.
 */
date: string, 
/**
 * The time, if the paper gives one.
 */
time: string, 
/**
 * Its last day; empty: none was set.
 */
valid_until: string, 
/**
 * Laboratory or bench.
 */
kind: ProofKind, 
/**
 * Who made it.
 */
by: string, 
/**
 * Certificate number.
 */
certificate: string, 
/**
 * Whether the tester was adjusted.
 */
adjusted: boolean, 
/**
 * The paper says *failed* without saying where.
 */
failed_on_the_whole: boolean, 
/**
 * Per test voltage.
 */
findings: Array<FindingForm>, };

export type VerificationId = string;

export type VerificationView = { 
/**
 * Its id.
 */
id: VerificationId, 
/**
 * Date, kind and who.
 */
title: string, 
/**
 * What it says, a line a test voltage.
 */
lines: Array<string>, 
/**
 * How much attention it asks for.
 */
level: Level, 
/**
 * When it was entered, in words.
 */
recorded: string, 
/**
 * Why it was withdrawn, if it was.
 */
withdrawn: string | null, 
/**
 * What can be edited, as typed, to replace it.
 */
form: VerificationForm, };

export type VerifyAsk = { 
/**
 * Each file's bytes, as Base64.
 */
files: Array<string>, };

export type VerifyView = { 
/**
 * Nothing was found that is not as it was written or signed.
 */
holds: boolean, 
/**
 * The first thing that is not; or that all is.
 */
words: string, 
/**
 * Who signed what and when, and everything else found.
 */
lines: Array<Sentence>, };

export type VoltageForm = { 
/**
 * V d.c.
 */
volts: string, 
/**
 * `999 MΩ`; empty: not set.
 */
over_range: string, 
/**
 * Stated operating uncertainty, %; empty: not stated.
 */
operating_percent: string, 
/**
 * Ranges, lowest first.
 */
ranges: Array<RangeForm>, };

export type VoltageResultView = { 
/**
 * Test voltage.
 */
volts: Volts, 
/**
 * Series.
 */
series: Series, 
/**
 * `500 V`, with the series where the tester was adjusted.
 */
title: string, 
/**
 * In which intervals indications hold.
 */
holds: Sentence, 
/**
 * Why each interval ends where it does, or why there is none.
 */
intervals: Array<string>, 
/**
 * Whether it conforms to the tester standard.
 */
conforms: Sentence, 
/**
 * Each requirement with its reason and source.
 */
requirements: Array<Sentence>, 
/**
 * Indications at known resistances.
 */
points: Array<PointRow>, 
/**
 * Voltages and currents.
 */
loads: Array<LoadRow>, 
/**
 * Leads and polarity.
 */
leads: Array<Sentence>, 
/**
 * Operating uncertainty, part by part.
 */
operating: Array<string>, 
/**
 * Error against known resistance; absent: nothing to plot.
 */
error_plot: PlotView | null, 
/**
 * Voltage against load; absent: nothing to plot.
 */
load_plot: PlotView | null, };

export type Volts = string;

export type VoltsChoice = { 
/**
 * V.
 */
volts: number, 
/**
 * `500 V`.
 */
words: string, };

export type VouchForDevice = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The device.
 */
device: string, 
/**
 * Its key.
 */
key: string, 
/**
 * Why, where this device is not known to the job itself.
 */
reason: string, };

export type Warmth = "reference" | "cold" | "warm" | "other";

export type WithdrawCheck = { 
/**
 * The tester.
 */
tester: TesterId, 
/**
 * Which.
 */
entry: FailingEntry, 
/**
 * Why.
 */
reason: string, };

export type WithdrawMeasured = { 
/**
 * The run.
 */
bench: BenchId, 
/**
 * What.
 */
measured: MeasuredId, 
/**
 * Why.
 */
reason: string, };

export type WithdrawReading = { 
/**
 * The job.
 */
job: JobId, 
/**
 * The reading.
 */
reading: ReadingId, 
/**
 * Why.
 */
reason: string, };

export type WithdrawReview = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Which.
 */
entry: string, 
/**
 * Why.
 */
reason: string, };

export type WithdrawSignOff = { 
/**
 * The job.
 */
job: JobId, 
/**
 * Which sign-off.
 */
entry: string, 
/**
 * The name of who withdraws it, as typed.
 */
name: string, 
/**
 * Why.
 */
reason: string, };

export type WithdrawVerification = { 
/**
 * Its tester.
 */
tester: TesterId, 
/**
 * The verification.
 */
verification: VerificationId, 
/**
 * Why.
 */
reason: string, };

export type Written = { 
/**
 * The path of each.
 */
files: Array<string>, 
/**
 * In words.
 */
words: string, };

export type WrittenFile = { 
/**
 * Its name, without a folder.
 */
name: string, 
/**
 * Media type.
 */
media_type: string, 
/**
 * The bytes, base64.
 */
base64: string, };

export type WrittenFileAsk = { 
/**
 * Its path, as it was told.
 */
path: string, };

export type WrittenFilesAsk = { 
/**
 * Their paths, as they were told.
 */
paths: Array<string>, };

/** Every operation with what it asks and what it tells. */
export interface Operations {
  /** The catalogue of a language, as Fluent source. */
  catalogue: { input: CatalogueAsk; output: CatalogueView };
  /** Settings of this device. */
  settings: { input: NoInput; output: SettingsView };
  /** Keeps settings of this device. */
  set_settings: { input: Settings; output: SettingsView };
  /** Where the person was. */
  place: { input: NoInput; output: Place };
  /** Keeps where the person is. */
  set_place: { input: Place; output: Nothing };
  /** The jobs on this device. */
  jobs: { input: NoInput; output: JobsView };
  /** Every job at a glance with what it lacks, the testers by when they are due, and the recalls. */
  overview: { input: NoInput; output: OverviewView };
  /** The readings whose tester was not proved, job by job: of which tester, why, where, and what to do. */
  unproved: { input: UnprovedAsk; output: UnprovedView };
  /** Starts a job. */
  start_job: { input: StartJob; output: JobView };
  /** Puts the invented demo job into the record. */
  make_demo: { input: NoInput; output: JobView };
  /** One job. */
  job: { input: OfJob; output: JobView };
  /** Another name or place. */
  set_job_names: { input: SetJobNames; output: JobView };
  /** Another limit set or other policies. */
  set_job_rules: { input: SetJobRules; output: JobView };
  /** A person more. */
  add_person: { input: AddPerson; output: JobView };
  /** Says who records on this device. */
  be_person: { input: BePerson; output: JobView };
  /** The devices a job is recorded on, and which of them it knows. */
  devices: { input: OfJob; output: DevicesView };
  /** Vouches for a device. */
  vouch_for_device: { input: VouchForDevice; output: DevicesView };
  /** A board more. */
  add_board: { input: AddBoard; output: JobView };
  /** Another name for a board. */
  rename_board: { input: RenameBoard; output: JobView };
  /** Says who does a board; anybody may still record on it. */
  set_board_people: { input: SetBoardPeople; output: JobView };
  /** Takes a board away; its readings stay in the record. */
  remove_board: { input: OfBoard; output: Done };
  /** What waits to be settled in a job. */
  settling: { input: OfJob; output: SettlingView };
  /** Chooses between what stands side by side; all of it stays in the record. */
  settle: { input: Settle; output: Settled };
  /** The limit sets there are. */
  limit_sets: { input: NoInput; output: SetsView };
  /** Takes a limit set of one's own. */
  load_set: { input: LoadSet; output: SetsView };
  /** A board's circuits with what follows from each. */
  circuits: { input: OfBoard; output: CircuitsView };
  /** What follows from a form, or what is wrong with it. */
  check_circuit: { input: CheckCircuit; output: CircuitChecked };
  /** A new circuit, or a change to one. */
  save_circuit: { input: SaveCircuit; output: CircuitsChanged };
  /** Many numbered circuits of one kind. */
  add_many_circuits: { input: AddManyCircuits; output: CircuitsChanged };
  /** What a pasted or imported table would make. */
  preview_circuits: { input: CircuitTable; output: CircuitsPreview };
  /** Takes a pasted or imported table, whole or not at all. */
  import_circuits: { input: CircuitTable; output: CircuitsChanged };
  /** The first sheet of a spreadsheet file as the text of a table. */
  read_spreadsheet: { input: SpreadsheetFile; output: SheetText };
  /** What a pasted or imported table of readings would make. */
  preview_readings: { input: ReadingTable; output: ReadingsPreview };
  /** Takes a pasted or imported table of readings, whole or not at all. */
  import_readings: { input: ReadingTable; output: Done };
  /** A board as a grid to record in. */
  grid: { input: OfBoard; output: GridView };
  /** Moves a circuit up or down by some places. */
  move_circuit: { input: MoveCircuit; output: CircuitsView };
  /** A board's circuits or readings as a table to paste elsewhere. */
  copy_out: { input: CopyOut; output: CopiedOut };
  /** Takes a circuit away; its readings stay in the record. */
  remove_circuit: { input: OfCircuit; output: CircuitsChanged };
  /** Brings a circuit back. */
  restore_circuit: { input: OfCircuit; output: CircuitsChanged };
  /** Takes an act back. */
  undo: { input: UndoAsk; output: Done };
  /** Opens Run, or jumps in it. */
  run: { input: RunAsk; output: RunView };
  /** Keeps half-typed digits; told at each key. */
  draft: { input: Draft; output: DraftView };
  /** Saves a reading and moves on. */
  save_reading: { input: SaveReading; output: Saved };
  /** Marks a pair *not tested* and moves on. */
  mark_not_tested: { input: MarkNotTested; output: Saved };
  /** Takes back this person's last act on this board; without end. */
  undo_reading: { input: OfBoard; output: Undone };
  /** A note on a slot. */
  set_note: { input: SetNote; output: RunView };
  /** The tester in hand. */
  choose_tester: { input: ChooseTester; output: RunView };
  /** The tester is set to this test voltage. */
  set_volts: { input: SetVolts; output: RunView };
  /** Before or after equipment is connected. */
  set_stage: { input: SetStage; output: RunView };
  /** Conditions from now on. */
  set_conditions: { input: SetConditions; output: RunView };
  /** Lives joined for the test to earth, or singly. */
  set_joined: { input: SetJoined; output: RunView };
  /** Which circuits of a board one reading can serve, and why others cannot be among them. */
  group_form: { input: GroupAsk; output: GroupForm };
  /** Tests circuits together: all their live conductors joined, against earth. */
  start_group: { input: GroupAsk; output: RunView };
  /** Tests each circuit alone again. */
  stop_group: { input: OfBoard; output: RunView };
  /** Leads shorted or open. */
  record_lead_check: { input: LeadCheckAsk; output: LeadChecked };
  /** The testers on this device. */
  testers: { input: NoInput; output: TestersView };
  /** One tester. */
  tester: { input: OfTester; output: TesterView };
  /** A new tester, or a change to one. */
  save_tester: { input: SaveTester; output: TesterView };
  /** Records a verification. */
  record_verification: { input: RecordVerification; output: TesterView };
  /** The last day that the tester's interval gives a verification of a day; nothing is filled in by it. */
  suggest_last_day: { input: SuggestLastDay; output: LastDay };
  /** Withdraws a verification. */
  withdraw_verification: { input: WithdrawVerification; output: TesterView };
  /** What the quick check of a tester asks to connect, and what each is judged by. */
  quick_check: { input: OfTester; output: QuickCheckView };
  /** Records a quick check: leads open and shorted, and the check box. */
  record_quick_check: { input: RecordQuickCheck; output: TesterView };
  /** Reports damage to a tester: at a known instant, or at some time since its last good proof. */
  report_damage: { input: ReportDamage; output: TesterView };
  /** Withdraws a quick check or a report of damage. */
  withdraw_check: { input: WithdrawCheck; output: TesterView };
  /** The readings a failed tester puts in doubt, on every job. */
  recall: { input: RecallAsk; output: RecallView };
  /** Says that nothing more has to be done about a reading put in doubt, and why. */
  resolve_recall: { input: ResolveRecall; output: RecallView };
  /** Writes the recall list to a file. */
  make_recall: { input: MakeRecall; output: Written };
  /** Whether something came that a screen does not show yet. */
  pulse: { input: NoInput; output: Pulse };
  /** How it stands with the office this device is kept in step with. */
  office: { input: NoInput; output: OfficeView };
  /** Asks to be enrolled at an office, with a code from there. */
  enrol: { input: Enrol; output: OfficeView };
  /** Asks to be brought in step now. */
  keep_in_step: { input: NoInput; output: OfficeView };
  /** Wants a job that is at the office. */
  fetch_job: { input: OfJob; output: OfficeView };
  /** Leaves the office; everything stays here. */
  leave_office: { input: NoInput; output: OfficeView };
  /** The references on this device: known resistors and meters. */
  references: { input: NoInput; output: ReferencesView };
  /** A new reference, or a change to one. */
  save_reference: { input: SaveReference; output: ReferencesView };
  /** Takes a reference away; what it proved stays. */
  remove_reference: { input: OfReference; output: ReferencesView };
  /** The bench runs of a tester, and what a new one can start with. */
  benches: { input: OfTester; output: BenchesView };
  /** The usual points of a tester with the references at hand. */
  plan_bench: { input: PlanAsk; output: PlanView };
  /** Begins a run. */
  start_bench: { input: StartBench; output: BenchView };
  /** Opens a run where it was left, or jumps in it. */
  bench: { input: BenchAsk; output: BenchView };
  /** Keeps half-typed digits; told at each key. */
  bench_draft: { input: BenchDraft; output: DraftView };
  /** Saves what was measured and moves on. */
  measure: { input: Measure; output: BenchView };
  /** Moves on without measuring; the point stays not tested. */
  skip_step: { input: OfStep; output: BenchView };
  /** Takes back this person's last act of a run; without end. */
  undo_measured: { input: OfBench; output: BenchView };
  /** Withdraws something measured, with a reason. */
  withdraw_measured: { input: WithdrawMeasured; output: BenchView };
  /** The meter a figure is read on, or that stands across the resistor. */
  set_meter: { input: SetMeter; output: BenchView };
  /** As found, or as left after an adjustment. */
  set_series: { input: SetSeries; output: BenchView };
  /** Temperature of tester and references from now on. */
  set_temperature: { input: SetTemperature; output: BenchView };
  /** What a look at the tester found. */
  set_bench_look: { input: SetLook; output: BenchView };
  /** Another plan; what was measured stays. */
  set_plan: { input: SetPlan; output: BenchView };
  /** What a run comes to, step by step. */
  bench_result: { input: BenchResultAsk; output: BenchResultView };
  /** Records what a run comes to as a verification of its tester. */
  close_bench: { input: CloseBench; output: TesterView };
  /** Drift of a tester over its runs. */
  drift: { input: OfTester; output: DriftView };
  /** Testers side by side. */
  compare: { input: CompareAsk; output: CompareView };
  /** Writes the report of a bench run to a file. */
  make_tester_report: { input: MakeTesterReport; output: Written };
  /** Things to look at, worst first, and the boards at a glance. */
  look: { input: OfJob; output: LookView };
  /** Where a slot's readings come from. */
  origin: { input: OfSlot; output: OriginView };
  /** Asks for a new reading of a slot, with a reason. */
  ask_reading: { input: ReviewAsk; output: Done };
  /** Accepts what asks for a look, with a reason. */
  accept: { input: ReviewAsk; output: Done };
  /** Takes a request or an acceptance back, with a reason. */
  withdraw_review: { input: WithdrawReview; output: Done };
  /** Readings to choose from for a correction. */
  readings: { input: ReadingsAsk; output: ReadingsView };
  /** Corrects tester, test voltage, time or conditions of many readings. */
  correct_readings: { input: CorrectReadings; output: Done };
  /** A reading in place of another. */
  replace_reading: { input: ReplaceReading; output: Done };
  /** Withdraws a reading. */
  withdraw_reading: { input: WithdrawReading; output: Done };
  /** What the schedule will say, as a list. */
  schedule: { input: OfJob; output: ScheduleView };
  /** A page of the schedule as a picture. */
  preview_page: { input: PageAsk; output: PageView };
  /** Writes the schedule to a file. */
  make_schedule: { input: MakeSchedule; output: Written };
  /** Where files go. */
  files_folder: { input: NoInput; output: FilesFolder };
  /** Lets files go to another folder. */
  set_files_folder: { input: SetFilesFolder; output: FilesFolder };
  /** A file that was written, whole, to be sent on by the system. */
  written_file: { input: WrittenFileAsk; output: WrittenFile };
  /** Several files that were written, in one archive. */
  written_files: { input: WrittenFilesAsk; output: WrittenFile };
  /** What would be signed, what stops it, and what was signed before. */
  sign_off_view: { input: OfJob; output: SignOffView };
  /** Signs off all that is here of a job, under a name. */
  sign_off: { input: SignOffAsk; output: SignOffView };
  /** Everything that came after a sign-off. */
  after_sign_off: { input: AfterSignOff; output: AfterSignOffView };
  /** Takes a sign-off back, with a name and a reason; it stays on record. */
  withdraw_sign_off: { input: WithdrawSignOff; output: SignOffView };
  /** Writes a job file. */
  export_job: { input: OfJob; output: Written };
  /** What a job file holds. */
  preview_job_file: { input: JobFileText; output: JobFilePreview };
  /** Makes a new job from a job file. */
  import_job_file: { input: JobFileText; output: Imported };
  /** Writes a job with its testers as a bundle, for another device to take in. */
  hand_over: { input: HandOverAsk; output: Written };
  /** Whether a job was handed over, and what of this device was not. */
  handed: { input: OfJob; output: HandedView };
  /** What a bundle holds, and what taking it in would do. */
  preview_bundle: { input: BundleFile; output: BundleView };
  /** Takes a bundle in, whole or not at all. */
  take_in_bundle: { input: BundleFile; output: BundleView };
  /** Sets a damaged record aside, and goes on with what of it is as it was written. */
  set_record_aside: { input: NoInput; output: SetAside };
  /** How far the work in hand is; answered while it goes on. */
  long_work: { input: NoInput; output: LongWorkView };
  /** Stops the work in hand; then nothing of it was kept. */
  stop_long_work: { input: NoInput; output: LongWorkView };
  /** Whether a schedule's PDF or a bundle is what was signed. */
  verify_file: { input: VerifyAsk; output: VerifyView };
  /** The cautions. */
  cautions: { input: OfJob; output: CautionsView };
  /** This person has read the cautions for this job. */
  confirm_cautions: { input: OfJob; output: CautionsView };
}
