//! The bench: runs of a tester, what is to be measured, and the pad it is measured with.

use super::{Choice, DraftView, Notch, OverRangeKey, ReferenceLine, Sentence, Sign};
use provenohm_assess::bench::{DecisionRule, EditionId, LookedAt, PlannedPoint, Series, TesterLook};
use provenohm_assess::ids::{BenchId, MeasuredId, ReferenceId, TesterId};
use provenohm_assess::quantity::Comparator;

/// A step of a run: a planned point, and which of its figures. Opaque outside.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(transparent)]
pub struct StepId(pub String);

choice! {
    /// A key that saves what was measured.
    pub enum BenchKey {
        /// kΩ
        K,
        /// MΩ
        M,
        /// GΩ
        G,
        /// The over-range indication of the tester's card.
        OverRange,
        /// V
        V,
        /// mA
        MilliA,
        /// µA
        MicroA,
        /// The line terminal is positive.
        LinePositive,
        /// The earth terminal is positive.
        EarthPositive,
    }

    /// What is looked at on the tester itself.
    pub enum TesterPart {
        /// The case.
        Case,
        /// Leads and probes.
        Leads,
        /// The marked measurement category.
        MarkedCategory,
        /// The marked standard.
        MarkedStandard,
        /// The battery, by the tester's own test.
        Battery,
    }
}

impl TesterPart {
    /// The field of a form that asks for it.
    pub(crate) const fn field(self) -> &'static str {
        match self {
            Self::Case => "look.case",
            Self::Leads => "look.leads",
            Self::MarkedCategory => "look.marked_category",
            Self::MarkedStandard => "look.marked_standard",
            Self::Battery => "look.battery",
        }
    }
}

told! {
    /// The bench runs of a tester, and what a new one can start with.
    pub struct BenchesView {
        /// The tester.
        pub tester: TesterId,
        /// Its name and serial number.
        pub title: String,
        /// Its runs, newest first.
        pub runs: Vec<BenchLine>,
        /// The references on this device.
        pub references: Vec<ReferenceLine>,
        /// Editions of the tester standard, the newest first.
        pub editions: Vec<Choice>,
        /// How an error can be decided.
        pub rules: Vec<Choice>,
    }

    /// One run in a list.
    pub struct BenchLine {
        /// Which.
        pub id: BenchId,
        /// When it was begun and by whom.
        pub title: String,
        /// How far it is, or which verification it became.
        pub state: Sentence,
    }

    /// The usual points of a tester with the references at hand.
    pub struct PlanView {
        /// The points.
        pub points: Vec<PlanPointView>,
        /// The limits they are chosen around, in words.
        pub decisions: Vec<String>,
        /// What cannot be tested with these references.
        pub missing: Vec<String>,
        /// What points of one's own are made of.
        pub choices: PlanChoices,
    }

    /// A point of a plan in words.
    pub struct PlanPointView {
        /// The point.
        pub point: PlannedPoint,
        /// `500 V`.
        pub group: String,
        /// `1.0 MΩ of Box 1`.
        pub title: String,
        /// Repeats and conditions; empty: once, under reference conditions.
        pub detail: String,
    }

    /// What points of one's own are made of.
    pub struct PlanChoices {
        /// Test voltages of the card; the id is the voltage in V.
        pub volts: Vec<Choice>,
        /// What can be measured.
        pub what: Vec<Choice>,
        /// Known resistances.
        pub resistors: Vec<ResistorChoice>,
        /// Supplies.
        pub supplies: Vec<Choice>,
        /// Positions.
        pub positions: Vec<Choice>,
        /// Temperatures.
        pub warmths: Vec<Choice>,
    }

    /// A known resistance to choose.
    pub struct ResistorChoice {
        /// Sent back in a point.
        pub resistor: provenohm_assess::bench::Resistor,
        /// `1.0 MΩ of Box 1`.
        pub words: String,
    }

    /// A run being worked on.
    pub struct BenchView {
        /// Which.
        pub id: BenchId,
        /// The tester.
        pub tester: TesterId,
        /// Its name and serial number.
        pub title: String,
        /// Edition, rule, who and since when, a line each.
        pub lines: Vec<String>,
        /// The verification it became; absent: none yet.
        pub closed: Option<Sentence>,
        /// What is measured now is as found or as left.
        pub series: Series,
        /// That in words, and what switching it would mean.
        pub series_words: String,
        /// Whether the tester was adjusted in this run.
        pub adjusted: bool,
        /// The look at the tester.
        pub look: Vec<TesterPartLine>,
        /// Answers to each.
        pub answers: Vec<Choice>,
        /// The mark put on a tester without a serial number.
        pub mark: String,
        /// Temperature of tester and references, as typed; empty: not measured.
        pub temperature: String,
        /// The plan as it stands.
        pub plan: Vec<PlannedPoint>,
        /// What points of one's own are made of.
        pub choices: PlanChoices,
        /// Steps in their order.
        pub steps: Vec<BenchStep>,
        /// `12 of 45`.
        pub progress: String,
        /// The step now; absent: none is open.
        pub current: Option<StepId>,
        /// The pad for it.
        pub pad: Option<BenchPad>,
        /// The last thing measured, read back.
        pub last: Option<BenchReadBack>,
        /// Whether this person can take something back.
        pub can_undo: bool,
    }

    /// One thing looked at.
    pub struct TesterPartLine {
        /// What.
        pub item: TesterPart,
        /// In words.
        pub words: String,
        /// The answer.
        pub answer: LookedAt,
    }

    /// One step.
    pub struct BenchStep {
        /// Which.
        pub id: StepId,
        /// `500 V`.
        pub group: String,
        /// `1.0 MΩ of Box 1`.
        pub title: String,
        /// Conditions; empty: reference conditions.
        pub detail: String,
        /// Open ring: to do; disc: measured as often as planned.
        pub sign: Sign,
        /// How many times it was measured.
        pub done: u32,
        /// How many times it is planned; 0: not planned (any more).
        pub of: u32,
        /// What was measured.
        pub shown: Vec<MeasuredLine>,
    }

    /// One thing measured.
    pub struct MeasuredLine {
        /// Which.
        pub id: MeasuredId,
        /// `0.88 MΩ`.
        pub words: String,
        /// Why it was taken back, if it was.
        pub withdrawn: Option<String>,
    }

    /// The pad for one step.
    pub struct BenchPad {
        /// What to connect and how the tester is set, in a sentence.
        pub heading: String,
        /// What is read.
        pub asks: String,
        /// The keys that save.
        pub keys: Vec<BenchKeyView>,
        /// The most digits that can be typed; absent where none are.
        pub most_digits: Option<u32>,
        /// The over-range key, for an indication.
        pub over_range: Option<OverRangeKey>,
        /// Notches of the ruler for them.
        pub ruler_notches: Vec<Notch>,
        /// The typed digits.
        pub draft: DraftView,
        /// Meters this figure can be read on, or that can stand across the resistor.
        pub meters: Vec<Choice>,
        /// The chosen one.
        pub meter: Option<ReferenceId>,
        /// What the meters are for; empty: none is needed.
        pub meter_words: String,
        /// What the known resistance becomes, or why nothing can be measured here.
        pub hint: Option<String>,
    }

    /// A key that saves.
    pub struct BenchKeyView {
        /// Which.
        pub key: BenchKey,
        /// `kΩ`.
        pub label: String,
    }

    /// What was measured, read back.
    pub struct BenchReadBack {
        /// The step it belongs to.
        pub title: String,
        /// `0.88 MΩ`.
        pub shown: String,
        /// Where it stands against what is permitted, where one figure can say that; else which repeat it was.
        pub said: Sentence,
        /// Both in one announcement.
        pub announce: String,
    }
}

asked! {
    /// Asks for the usual points.
    pub struct PlanAsk {
        /// The tester.
        pub tester: TesterId,
        /// The references at hand.
        pub references: Vec<ReferenceId>,
        /// Edition of the tester standard.
        pub edition: EditionId,
    }

    /// A new run.
    pub struct StartBench {
        /// The tester.
        pub tester: TesterId,
        /// The references at hand.
        pub references: Vec<ReferenceId>,
        /// Edition of the tester standard.
        pub edition: EditionId,
        /// How an error is decided.
        pub rule: DecisionRule,
        /// Who makes it; empty: the person of this device.
        #[serde(default)]
        pub by: String,
        /// What is to be measured.
        pub plan: Vec<PlannedPoint>,
    }

    /// Opens a run, or jumps in it.
    pub struct BenchAsk {
        /// The run.
        pub bench: BenchId,
        /// Jump to this step.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub step: Option<StepId>,
    }

    /// One run.
    pub struct OfBench {
        /// The run.
        pub bench: BenchId,
    }

    /// Digits so far; told at each key and kept.
    pub struct BenchDraft {
        /// The run.
        pub bench: BenchId,
        /// The step they are for.
        pub step: StepId,
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
    }

    /// Something measured.
    pub struct Measure {
        /// The run.
        pub bench: BenchId,
        /// The step.
        pub step: StepId,
        /// The key that saves it.
        pub key: BenchKey,
        /// Digits as typed; empty where none are.
        #[serde(default)]
        pub text: String,
        /// Exact, more than, less than.
        #[serde(default)]
        pub comparator: Comparator,
    }

    /// One step of a run.
    pub struct OfStep {
        /// The run.
        pub bench: BenchId,
        /// The step.
        pub step: StepId,
    }

    /// Something measured, to be withdrawn.
    pub struct WithdrawMeasured {
        /// The run.
        pub bench: BenchId,
        /// What.
        pub measured: MeasuredId,
        /// Why.
        pub reason: String,
    }

    /// Which meter the figure is read on, or stands across the resistor.
    pub struct SetMeter {
        /// The run.
        pub bench: BenchId,
        /// The step whose pad was asked.
        pub step: StepId,
        /// The meter; absent: none.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub meter: Option<ReferenceId>,
    }

    /// As found, or as left from now on: then the tester was adjusted.
    pub struct SetSeries {
        /// The run.
        pub bench: BenchId,
        /// Which.
        pub series: Series,
    }

    /// Temperature of tester and references from now on.
    pub struct SetTemperature {
        /// The run.
        pub bench: BenchId,
        /// °C as typed; empty: not measured.
        pub temperature: String,
    }

    /// What a look at the tester found.
    pub struct SetLook {
        /// The run.
        pub bench: BenchId,
        /// The answers.
        pub look: TesterLook,
        /// The mark put on a tester without a serial number; empty: none.
        #[serde(default)]
        pub mark: String,
    }

    /// Another plan. What was measured stays.
    pub struct SetPlan {
        /// The run.
        pub bench: BenchId,
        /// What is to be measured.
        pub plan: Vec<PlannedPoint>,
    }
}
