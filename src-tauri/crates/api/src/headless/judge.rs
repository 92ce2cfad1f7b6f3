//! Every circuit and pair of a job file, judged with what was known at a time.

use super::{Refused, exact, job_file, words};
use crate::judged::{Judged, JudgedCircuit, JudgedReading, Slot};
use crate::tell;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId};
use provenohm_assess::judgement::{Level, MethodReason, TesterState, Value};
use provenohm_assess::limits::{SetName, Source};
use provenohm_assess::moment::Moment;
use provenohm_assess::policy::Policies;
use provenohm_assess::quantity::{Ohms, Shown, Volts};
use provenohm_assess::reading::NotTestedReason;
use provenohm_words::Words;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A job as judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobJudged {
    /// Always `provenohm-judgement`.
    pub format: String,
    /// Version of this form.
    pub version: u32,
    /// The job.
    pub job: JobId,
    /// Its name.
    pub name: String,
    /// True for invented demonstration data.
    pub invented: bool,
    /// What was recorded later was left out; null: nothing was.
    pub known_at: Option<Moment>,
    /// The limit set.
    pub limit_set: SetName,
    /// The policies.
    pub policies: Policies,
    /// Version of the rules.
    pub rules_version: u32,
    /// Boards in order.
    pub boards: Vec<BoardJudged>,
    /// Everything counted.
    pub sums: Sums,
    /// At least one pair is required, and every required pair meets, is proved, and has no fault of method.
    pub strict: bool,
}

/// Counts over a job. The first five add up to the required pairs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sums {
    /// Pairs the set requires.
    pub required: u32,
    /// Required pairs that meet.
    pub meets: u32,
    /// Required pairs below.
    pub below: u32,
    /// Required pairs too close to call.
    pub too_close: u32,
    /// Required pairs that cannot be judged.
    pub cannot_be_judged: u32,
    /// Required pairs without a reading.
    pub without_reading: u32,
    /// States of the testers of required pairs with a reading.
    pub testers: TesterSums,
    /// Required pairs with a fault of method.
    pub method: u32,
    /// Pairs, required or not, that cannot stand like this: of these alone a sign-off is blocked.
    pub stop: u32,
    /// Readings of joined conductors or of pairs not required that do not meet.
    pub beside_not_meeting: u32,
    /// Readings after equipment was connected that do not meet.
    pub after_not_meeting: u32,
}

/// Required pairs by the state of the tester of the reading that speaks for them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TesterSums {
    /// Proved.
    pub proved: u32,
    /// Verified once, out of date then.
    pub lapsed: u32,
    /// Nothing on record covers the reading.
    pub not_proved: u32,
    /// Found good by the next verification.
    pub found_good_afterwards: u32,
    /// Found failed by the next verification.
    pub in_doubt: u32,
    /// Known to fail when the reading was taken.
    pub barred: u32,
    /// None was chosen.
    pub not_chosen: u32,
}

impl TesterSums {
    /// Each state with its count, the most favourable first.
    #[must_use]
    pub const fn counted(&self) -> [(TesterState, u32); 7] {
        [
            (TesterState::Proved, self.proved),
            (TesterState::Lapsed, self.lapsed),
            (TesterState::NotProved, self.not_proved),
            (TesterState::FoundGoodAfterwards, self.found_good_afterwards),
            (TesterState::InDoubt, self.in_doubt),
            (TesterState::Barred, self.barred),
            (TesterState::NotChosen, self.not_chosen),
        ]
    }

    const fn of(&mut self, state: TesterState) -> &mut u32 {
        match state {
            TesterState::Proved => &mut self.proved,
            TesterState::Lapsed => &mut self.lapsed,
            TesterState::NotProved => &mut self.not_proved,
            TesterState::FoundGoodAfterwards => &mut self.found_good_afterwards,
            TesterState::InDoubt => &mut self.in_doubt,
            TesterState::Barred => &mut self.barred,
            TesterState::NotChosen => &mut self.not_chosen,
        }
    }
}

/// A board as judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoardJudged {
    /// Id.
    pub id: BoardId,
    /// Name.
    pub name: String,
    /// Circuits in order.
    pub circuits: Vec<CircuitJudged>,
}

/// A circuit as judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CircuitJudged {
    /// Id.
    pub id: CircuitId,
    /// Reference at the board.
    pub reference: String,
    /// What it feeds.
    pub description: String,
    /// Its pairs.
    pub pairs: Vec<PairJudged>,
}

/// A pair as judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PairJudged {
    /// Its two ends, `L1–PE`.
    pub pair: String,
    /// Before or after equipment.
    pub stage: Stage,
    /// The set requires it.
    pub required: bool,
    /// Its minimum, Ω; null where the set has none.
    pub minimum_ohm: Option<Ohms>,
    /// The test voltage asked, V d.c.; null where the set states none.
    pub test_voltage_v: Option<Volts>,
    /// Where the minimum stands, and how sure that is; null where the set has none.
    pub source: Option<Source>,
    /// The readings that stand for it.
    pub readings: Vec<ReadingJudged>,
    /// The reading that stands for it is of joined conductors.
    pub by_joined: bool,
    /// Why it was not tested.
    pub not_tested: Option<NotTestedReason>,
}

/// A reading as judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingJudged {
    /// Id.
    pub id: ReadingId,
    /// What the display showed.
    pub shown: Shown,
    /// The same in ohms.
    pub indicated_ohm: Ohms,
    /// Test voltage it was taken at, V d.c.
    pub test_voltage_v: Volts,
    /// When.
    pub at: Moment,
    /// What is said of the value.
    pub value: Value,
    /// State of the tester.
    pub tester: TesterState,
    /// What is said of the method, the gravest first.
    pub method: Vec<MethodReason>,
    /// The highest level of the three.
    pub level: Level,
    /// w, Ω, under *guarded*.
    pub guard_ohm: Option<Ohms>,
    /// L + w, Ω, under *guarded*.
    pub acceptance_ohm: Option<Ohms>,
    /// All of it in sentences, the gravest first.
    pub sentences: Vec<String>,
}

/// Judges a job file with what was recorded until `at`, or with all of it.
///
/// # Errors
/// [`Refused`] with place and reason.
pub fn judge(text: &str, at: Option<Moment>) -> Result<JobJudged, Refused> {
    let file = job_file(text)?;
    let file = match at {
        Some(at) => file.known_at(at),
        None => file,
    };
    let judged = Judged::of(file)?;
    let words = words();
    let boards = judged
        .boards
        .iter()
        .map(|board| BoardJudged {
            id: board.id,
            name: board.name.clone(),
            circuits: board.circuits.iter().map(|one| circuit(&words, &judged, one)).collect(),
        })
        .collect();
    let sums = sums(&judged);
    let job = &judged.file.job;
    let holds = sums.meets == sums.required && sums.testers.proved == sums.required && sums.method == 0;
    let strict = sums.required > 0 && holds && sums.stop == 0 && sums.after_not_meeting == 0 && settled(&judged);
    Ok(JobJudged {
        format: "provenohm-judgement".to_owned(),
        version: 1,
        job: job.id,
        name: job.name.clone(),
        invented: job.invented,
        known_at: at,
        limit_set: job.limit_set.clone(),
        policies: job.policies,
        rules_version: RULES_VERSION,
        boards,
        sums,
        strict,
    })
}

/// A circuit without a limit has no required pair, and yet it is not judged: it must not count as if it met.
fn settled(judged: &Judged) -> bool {
    judged.boards.iter().flat_map(|board| &board.circuits).all(|one| one.demand.is_ok())
        && judged.file.to_settle.is_empty()
}

fn circuit(words: &Words, judged: &Judged, one: &JudgedCircuit) -> CircuitJudged {
    CircuitJudged {
        id: one.circuit.id,
        reference: one.circuit.reference.clone(),
        description: one.circuit.description.clone(),
        pairs: one.slots.iter().map(|slot| pair(words, judged, one, slot)).collect(),
    }
}

fn pair(words: &Words, judged: &Judged, one: &JudgedCircuit, slot: &Slot) -> PairJudged {
    let readings = slot.readings.iter().chain(&slot.covered_by).filter_map(|index| judged.readings.get(*index));
    PairJudged {
        pair: tell::pair_name(words, judged, one.circuit.id, &slot.pair),
        stage: slot.stage,
        required: slot.required,
        minimum_ohm: slot.limit.as_ref().map(|limit| exact(limit.minimum_ohm)),
        test_voltage_v: slot.limit.as_ref().and_then(|limit| limit.test_voltage_v),
        source: slot.limit.as_ref().map(|limit| limit.source.clone()),
        readings: readings.map(|it| reading(words, judged, it)).collect(),
        by_joined: slot.covered_by.is_some(),
        not_tested: slot.not_tested.last().map(|said| said.reason),
    }
}

fn reading(words: &Words, judged: &Judged, one: &JudgedReading) -> ReadingJudged {
    let JudgedReading { reading, judgement, .. } = one;
    let guard = judgement.value.guard.as_ref();
    ReadingJudged {
        id: reading.id,
        shown: reading.shown,
        indicated_ohm: exact(reading.shown.ohms()),
        test_voltage_v: reading.test_voltage_v,
        at: reading.at,
        value: judgement.value.value,
        tester: judgement.tester.state,
        method: judgement.method.clone(),
        level: judgement.level,
        guard_ohm: guard.map(|guard| exact(guard.w_ohm)),
        acceptance_ohm: guard.map(|guard| exact(guard.acceptance_ohm)),
        sentences: tell::sentences(words, judged, one, None).into_iter().map(|sentence| sentence.words).collect(),
    }
}

fn sums(judged: &Judged) -> Sums {
    let mut sums = Sums { stop: count(judged.stops_taken_away()), ..Sums::default() };
    for (_, _, slot) in judged.slots() {
        let spoken = slot.reading(judged).map(|one| &one.judgement);
        sums.stop += u32::from(spoken.is_some_and(|one| one.level == Level::Stop));
        if !slot.required {
            let own = slot.readings.iter().filter_map(|at| judged.readings.get(*at));
            let not_meeting = count(own.filter(|one| one.judgement.value.value != Value::Meets));
            *match slot.stage {
                Stage::Before => &mut sums.beside_not_meeting,
                Stage::After => &mut sums.after_not_meeting,
            } += not_meeting;
            continue;
        }
        sums.required += 1;
        let Some(judgement) = spoken else {
            sums.without_reading += 1;
            continue;
        };
        *match judgement.value.value {
            Value::Meets => &mut sums.meets,
            Value::Below => &mut sums.below,
            Value::TooClose => &mut sums.too_close,
            Value::CannotBeJudged => &mut sums.cannot_be_judged,
        } += 1;
        *sums.testers.of(judgement.tester.state) += 1;
        sums.method += u32::from(judgement.method.iter().any(MethodReason::is_fault));
    }
    sums
}

fn count(found: impl Iterator) -> u32 {
    u32::try_from(found.count()).unwrap_or(u32::MAX)
}
