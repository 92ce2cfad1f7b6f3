//! What a bench run comes to, step by step; drift over several; testers side by side.

use super::{Choice, Line, PlotView, Sentence, TesterPartLine};
use provenohm_assess::bench::Series;
use provenohm_assess::ids::{BenchId, MeasuredId, TesterId};
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::Volts;

asked! {
    /// What a run comes to, as it is looked at.
    pub struct BenchResultAsk {
        /// The run.
        pub bench: BenchId,
        /// Left out of the plots. The judgement knows nothing of it.
        #[serde(default)]
        pub left_out: Vec<MeasuredId>,
        /// How many times the vertical axis of the error plots is magnified; 1: all of it.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub magnified: Option<u32>,
    }

    /// A run to close into a verification.
    pub struct CloseBench {
        /// The run.
        pub bench: BenchId,
        /// Its last day; empty: none is set.
        #[serde(default)]
        pub valid_until: String,
        /// Number of the report.
        #[serde(default)]
        pub certificate: String,
        /// Why, where it was closed before.
        #[serde(default)]
        pub reason: String,
    }

    /// Runs to put side by side.
    pub struct CompareAsk {
        /// The runs, in the order of their letters.
        pub benches: Vec<BenchId>,
        /// Left out of the plots. The judgement knows nothing of it.
        #[serde(default)]
        pub left_out: Vec<MeasuredId>,
        /// How many times the vertical axis of the error plots is magnified; 1: all of it.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub magnified: Option<u32>,
    }
}

told! {
    /// What a run comes to.
    pub struct BenchResultView {
        /// The run.
        pub bench: BenchId,
        /// The tester.
        pub tester: TesterId,
        /// Its name and serial number.
        pub title: String,
        /// Edition, rule, who and since when.
        pub lines: Vec<String>,
        /// Lapsed references, figures that cannot be reckoned with, what the look found.
        pub remarks: Vec<Sentence>,
        /// Per test voltage and series.
        pub voltages: Vec<VoltageResultView>,
        /// What closing offers.
        pub close: CloseView,
    }

    /// What closing a run offers.
    pub struct CloseView {
        /// The verification it became; absent: none yet.
        pub closed: Option<Sentence>,
        /// The last day by the tester's interval, to be taken by a tap; nothing is filled in.
        pub suggested: String,
        /// That in words.
        pub suggestion: String,
        /// What was not tested, as it will stand.
        pub not_tested: Vec<String>,
        /// The look at the tester, item by item: answered before it is closed.
        pub look: Vec<TesterPartLine>,
        /// Answers to each.
        pub answers: Vec<Choice>,
        /// The mark put on it.
        pub mark: String,
        /// It has no serial number: the mark is asked for.
        pub mark_needed: bool,
    }

    /// One test voltage in one series.
    pub struct VoltageResultView {
        /// Test voltage.
        pub volts: Volts,
        /// Series.
        pub series: Series,
        /// `500 V`, with the series where the tester was adjusted.
        pub title: String,
        /// In which intervals indications hold.
        pub holds: Sentence,
        /// Why each interval ends where it does, or why there is none.
        pub intervals: Vec<String>,
        /// Whether it conforms to the tester standard.
        pub conforms: Sentence,
        /// Each requirement with its reason and source.
        pub requirements: Vec<Sentence>,
        /// Indications at known resistances.
        pub points: Vec<PointRow>,
        /// Voltages and currents.
        pub loads: Vec<LoadRow>,
        /// Leads and polarity.
        pub leads: Vec<Sentence>,
        /// Operating uncertainty, part by part.
        pub operating: Vec<String>,
        /// Error against known resistance; absent: nothing to plot.
        pub error_plot: Option<PlotView>,
        /// Voltage against load; absent: nothing to plot.
        pub load_plot: Option<PlotView>,
    }

    /// One point in the table.
    pub struct PointRow {
        /// The facts.
        pub measured: Vec<MeasuredId>,
        /// Known resistance at the terminals.
        pub known: String,
        /// Conditions; empty: reference conditions.
        pub detail: String,
        /// Each indication.
        pub shown: Vec<String>,
        /// Error in ohms and in per cent.
        pub error: String,
        /// The same in per cent of the known resistance.
        pub error_percent: String,
        /// U.
        pub expanded: String,
        /// Permitted error.
        pub permitted: String,
        /// The decision, or why there is none.
        pub decision: Sentence,
        /// Remarks.
        pub remarks: Vec<String>,
        /// The budget, line by line.
        pub budget: Vec<BudgetRow>,
        /// What the budget adds up to.
        pub sum: Vec<Line>,
        /// Whether it is in the plot; absent: it never is.
        pub in_view: Option<bool>,
    }

    /// One voltage or current in the table.
    pub struct LoadRow {
        /// What it was measured for.
        pub title: String,
        /// Conditions; empty: reference conditions.
        pub detail: String,
        /// The load, the meter included.
        pub load: String,
        /// Voltage with U.
        pub voltage: String,
        /// Current with U.
        pub current: String,
        /// The decision, or why there is none; absent: nothing is asked of it.
        pub decision: Option<Sentence>,
        /// Remarks.
        pub remarks: Vec<String>,
        /// The budget, line by line.
        pub budget: Vec<BudgetRow>,
        /// What the budget adds up to.
        pub sum: Vec<Line>,
    }

    /// One line of a budget.
    pub struct BudgetRow {
        /// The input.
        pub input: String,
        /// Its estimate.
        pub estimate: String,
        /// How it scatters.
        pub shape: String,
        /// Its standard uncertainty.
        pub standard: String,
        /// Its sensitivity.
        pub sensitivity: String,
        /// What it adds.
        pub contribution: String,
        /// Degrees of freedom; ∞ without end.
        pub dof: String,
    }

    /// Drift of a tester over its runs.
    pub struct DriftView {
        /// The tester.
        pub tester: TesterId,
        /// Its name and serial number.
        pub title: String,
        /// Per test voltage and known resistance.
        pub plots: Vec<DriftPlotView>,
    }

    /// Drift at one resistance.
    pub struct DriftPlotView {
        /// `500 V, 1.0 MΩ`.
        pub title: String,
        /// The picture.
        pub plot: PlotView,
        /// The same as a table.
        pub rows: Vec<DriftRow>,
        /// What the line says, or why there is none.
        pub said: String,
    }

    /// One verification in a table of drift.
    pub struct DriftRow {
        /// When.
        pub when: String,
        /// Error, %.
        pub error: String,
        /// U, %.
        pub expanded: String,
        /// That the tester was adjusted afterwards; empty: it was not.
        pub adjusted: String,
    }

    /// Testers side by side.
    pub struct CompareView {
        /// Every run there is to choose from.
        pub runs: Vec<Choice>,
        /// The chosen ones, each with its letter.
        pub chosen: Vec<Choice>,
        /// Per test voltage that any of them has.
        pub voltages: Vec<ComparedVoltage>,
    }

    /// One test voltage of several testers.
    pub struct ComparedVoltage {
        /// `500 V`.
        pub title: String,
        /// Errors, all on the same axes; absent: none to plot.
        pub plot: Option<PlotView>,
        /// Output voltage against load, all on the same axes; absent: none to plot.
        pub load_plot: Option<PlotView>,
        /// One row a known resistance.
        pub rows: Vec<ComparedRow>,
        /// The two answers of each, in the order of the letters.
        pub answers: Vec<Sentence>,
    }

    /// One known resistance of several testers.
    pub struct ComparedRow {
        /// The resistance as marked.
        pub known: String,
        /// What was measured there, to leave it out of the view by.
        pub measured: Vec<MeasuredId>,
        /// Whether it is in the plot.
        pub in_view: bool,
        /// Of each, in the order of the letters; empty: not tested there.
        pub cells: Vec<ComparedCell>,
    }

    /// One tester at one resistance.
    pub struct ComparedCell {
        /// Error with U, and the decision.
        pub words: String,
        /// How much attention it asks for; absent: not tested there.
        pub level: Option<Level>,
    }
}
