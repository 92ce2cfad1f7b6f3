//! The readings of one job that are put in doubt.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading};
use crate::signed::latest;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{CircuitId, PersonId, ReadingId, TesterId};
use provenohm_assess::judgement::TesterState;
use provenohm_assess::moment::Moment;
use provenohm_assess::reading::Reading;
use provenohm_assess::recall::{Cause, Class, Recall};
use provenohm_exchange::job_file::{Board, Fate, ReplacedWhy};
use provenohm_logbook::entry::body::{RecallResolved, SignOff};
use provenohm_logbook::view::{Stated, View};
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A job with readings put in doubt.
pub(crate) struct RecalledJob {
    pub(crate) judged: Arc<Judged>,
    /// By board and circuit, each group by the most urgent line in it, groups alike as one walks.
    pub(crate) lines: Vec<RecalledLine>,
    /// People of the job, as it lists them: who, and their part in it.
    pub(crate) people: Vec<(PersonId, String)>,
    /// The sign-offs of it that stand: readings of a signed job are put in doubt like others.
    pub(crate) signed: Vec<Stated<SignOff>>,
}

/// A reading put in doubt.
pub(crate) struct RecalledLine {
    /// Index of the reading in the job.
    index: usize,
    /// Place of its board in the job; past all of them where its circuit is on none.
    pub(crate) board: usize,
    /// What put it in doubt, the most urgent first; never empty.
    pub(crate) causes: Vec<Cause>,
    /// What became of it.
    pub(crate) resolution: Option<Resolution>,
}

/// What became of a reading put in doubt.
pub(crate) enum Resolution {
    /// Tested again with a proved tester.
    Tested(ReadingId),
    /// A person says why nothing more has to be done.
    Stated { reason: String, person: PersonId, at: Moment },
}

impl RecalledJob {
    pub(super) fn of(
        view: &View<'_>,
        judged: Arc<Judged>,
        testers: &BTreeSet<TesterId>,
        recall: &Recall<'_>,
    ) -> Result<Self, Failure> {
        let job = judged.file.job.id;
        let stated = view.recall_resolved(job)?;
        let people = view
            .job(job)?
            .people
            .first()
            .map_or_else(Vec::new, |it| it.people.iter().map(|one| (one.person, one.part.clone())).collect());
        let doubted = |one: &JudgedReading| {
            one.reading.tester.is_some_and(|tester| testers.contains(&tester))
                && matches!(one.judgement.tester.state, TesterState::InDoubt | TesterState::Barred)
        };
        let proved = Proved::of(&judged.readings);
        let places = Places::of(&judged.file.boards);
        let on_list: BTreeSet<ReadingId> =
            judged.readings.iter().filter(|one| one.taken.stands() && doubted(one)).map(|one| one.reading.id).collect();
        let mut lines: Vec<((usize, usize), u8, RecalledLine)> = Vec::new();
        for (index, one) in judged.readings.iter().enumerate() {
            if !doubted(one) || !(one.taken.stands() || was_tested_again(&judged, one, &on_list)) {
                continue;
            }
            let causes = recall.causes(&one.reading, &one.judgement);
            let Some(first) = causes.first() else { continue };
            let (board, at) = places.of_pair(&one.reading.pair);
            let resolution = proved.after(&judged.readings, one).or_else(|| said(&stated, one, &causes));
            lines.push(((board, at), urgency(&first.class), RecalledLine { index, board, causes, resolution }));
        }
        let (mut boards, mut circuits) = (BTreeMap::new(), BTreeMap::new());
        for (place, urgency, _) in &lines {
            gravest(boards.entry(place.0), *urgency);
            gravest(circuits.entry(*place), *urgency);
        }
        lines.sort_by_key(|(place, urgency, _)| {
            (boards.get(&place.0).copied(), place.0, circuits.get(place).copied(), place.1, *urgency)
        });
        let signed = latest(view, job)?;
        Ok(Self { lines: lines.into_iter().map(|(.., line)| line).collect(), judged, people, signed })
    }

    /// How urgent its most urgent line is, 0 the most.
    pub(super) fn urgency(&self) -> u8 {
        self.lines
            .iter()
            .filter_map(|line| line.causes.first())
            .map(|cause| urgency(&cause.class))
            .min()
            .unwrap_or(u8::MAX)
    }

    /// The reading of a line.
    pub(crate) fn reading(&self, line: &RecalledLine) -> Option<&JudgedReading> {
        self.judged.readings.get(line.index)
    }
}

/// Keeps the most urgent line of a group.
fn gravest<G: Ord>(group: Entry<'_, G, u8>, urgency: u8) {
    let most = group.or_insert(urgency);
    *most = urgency.min(*most);
}

/// The most urgent first.
const fn urgency(class: &Class) -> u8 {
    match class {
        Class::TestAgain { .. } => 0,
        Class::CannotBeJudged { .. } => 1,
        Class::StillClears { .. } => 2,
    }
}

/// A reading that no longer stands, because the pair was tested again, stays on the list as long as what took its
/// place is not itself on it. What was mistyped or withdrawn claims nothing.
fn was_tested_again(judged: &Judged, one: &JudgedReading, on_list: &BTreeSet<ReadingId>) -> bool {
    let mut past = one.taken.past.as_ref();
    for _ in 0..judged.readings.len() {
        let Some(Fate::Replaced { by, why: ReplacedWhy::Repaired | ReplacedWhy::Repeated }) = past.map(|it| &it.fate)
        else {
            return false;
        };
        let Some(next) = judged.reading(*by) else { return false };
        past = next.taken.past.as_ref();
        if past.is_none() {
            return !on_list.contains(by);
        }
    }
    false
}

/// A statement for everything that put the reading in doubt; a later failure asks anew.
fn said(stated: &[Stated<RecallResolved>], one: &JudgedReading, causes: &[Cause]) -> Option<Resolution> {
    let of = |cause: &Cause| {
        let own = |it: &&Stated<RecallResolved>| {
            it.is_live() && it.value.reading == one.reading.id && it.value.entry == cause.entry
        };
        stated.iter().rfind(own)
    };
    let all: Option<Vec<_>> = causes.iter().map(of).collect();
    let last = all?.into_iter().max_by_key(|it| it.value.at)?;
    Some(Resolution::Stated {
        reason: last.reason.clone().unwrap_or_default(),
        person: last.value.person,
        at: last.value.at,
    })
}

/// Readings that stand and were taken with a proved tester, by the slots they speak for.
struct Proved(BTreeMap<(Stage, Pair), Vec<usize>>);

impl Proved {
    fn of(readings: &[JudgedReading]) -> Self {
        let mut slots: BTreeMap<(Stage, Pair), Vec<usize>> = BTreeMap::new();
        let standing = readings.iter().enumerate().filter(|(_, one)| one.taken.stands());
        for (index, one) in standing.filter(|(_, one)| one.judgement.tester.state == TesterState::Proved) {
            let (stage, pair) = (one.reading.stage, &one.reading.pair);
            let singles = one.judgement.members_proved(pair).into_iter();
            for pair in singles.chain([pair.clone()]) {
                slots.entry((stage, pair)).or_default().push(index);
            }
        }
        Self(slots)
    }

    /// The latest reading of the same slot that was taken after one; where circuits or conductors were read together, the
    /// latest of those of every single one of them.
    fn after(&self, readings: &[JudgedReading], one: &JudgedReading) -> Option<Resolution> {
        let Reading { stage, ref pair, at, .. } = one.reading;
        let later = |pair: &Pair| {
            let slot = self.0.get(&(stage, pair.clone()))?.iter().filter_map(|index| readings.get(*index));
            slot.map(|it| (it.reading.at, it.reading.id)).filter(|(taken, _)| *taken > at).max()
        };
        let singly = || pair.singles().iter().map(later).collect::<Option<Vec<_>>>()?.into_iter().max();
        later(pair).or_else(singly).map(|(_, reading)| Resolution::Tested(reading))
    }
}

/// Where circuits are: the place of their board, and their own as one walks.
struct Places(BTreeMap<CircuitId, (usize, usize)>);

impl Places {
    fn of(boards: &[Board]) -> Self {
        let on = |(place, board): (usize, &Board)| {
            let circuits = board.circuits.iter().chain(&board.removed).map(|circuit| circuit.id);
            circuits.enumerate().map(|(at, id)| (id, (place, at))).collect::<Vec<_>>()
        };
        Self(boards.iter().enumerate().flat_map(on).collect())
    }

    fn of_pair(&self, pair: &Pair) -> (usize, usize) {
        let first = pair.circuits().into_iter().next();
        first.and_then(|id| self.0.get(&id)).copied().unwrap_or((usize::MAX, usize::MAX))
    }
}
