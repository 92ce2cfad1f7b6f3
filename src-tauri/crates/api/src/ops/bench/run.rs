//! A run as it stands in the record, with what is needed to work on it.

use crate::failure::Failure;
use crate::state::State;
use provenohm_assess::bench::{BenchFacts, BenchResult, BenchRun, EditionId, Measured, compute};
use provenohm_assess::ids::{BenchId, ReferenceId, TesterId};
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::standard::{Edition, shipped_editions};
use provenohm_assess::tester::Card;
use provenohm_logbook::entry::body::{BenchOpened, MeasuredAt, TesterIdentity, VerificationMade};
use provenohm_logbook::view::{Bench, Stated};
use provenohm_words::{AboutBench, Words};

/// A run as it stands.
pub(crate) struct Run {
    /// What the record says of it.
    pub(crate) bench: Bench,
    /// It, with its references as they stood.
    pub(crate) opened: BenchOpened,
    /// The tester.
    pub(crate) identity: TesterIdentity,
    /// Its card.
    pub(crate) card: Option<Card>,
    /// The edition it is judged by.
    pub(crate) edition: &'static Edition,
}

/// The verification a run became.
pub(crate) fn closed(bench: &Bench) -> Option<&Stated<VerificationMade>> {
    bench.verifications.iter().rfind(|one| one.is_live())
}

impl Run {
    /// Reads it from the record, with the tester's card of today.
    pub(crate) fn of(state: &State, id: BenchId) -> Result<Self, Failure> {
        let bench = state.record.view().bench(id)?;
        let opened = bench.opened.first().cloned().ok_or_else(|| Failure::of("not_found"))?;
        let tester = state.record.view().tester(opened.run.tester)?;
        let identity = tester.identity.first().cloned().ok_or_else(|| Failure::of("not_found"))?;
        let card = tester.card.first().map(|it| it.card.clone());
        let edition = edition(&opened.run.edition)?;
        Ok(Self { bench, opened, identity, card, edition })
    }

    /// The same with the card as it stood when the run became a verification: what was found then stays what it was
    /// when the card is changed.
    pub(crate) fn as_closed(state: &State, id: BenchId) -> Result<Self, Failure> {
        let run = Self::of(state, id)?;
        let Some(closed) = closed(&run.bench).map(|one| one.recorded) else { return Ok(run) };
        let facet = state.record.view().tester(run.tester())?.card;
        let then = facet.live.iter().chain(&facet.earlier).filter(|one| one.recorded <= closed);
        let then = then.max_by_key(|one| one.recorded).map(|one| one.value.card.clone());
        Ok(Self { card: then.or(run.card), ..run })
    }

    pub(crate) fn run(&self) -> &BenchRun {
        &self.opened.run
    }

    pub(crate) fn tester(&self) -> TesterId {
        self.opened.run.tester
    }

    /// The reference of that id among those of the run.
    pub(crate) fn reference(&self, id: ReferenceId) -> Option<&Reference> {
        self.opened.references.iter().find(|one| one.id == id)
    }

    /// What was measured and stands, in the order it was recorded.
    pub(crate) fn live(&self) -> impl Iterator<Item = &Stated<MeasuredAt>> {
        self.bench.measured.iter().filter(|one| one.is_live())
    }

    /// Voltmeters and probes among the references.
    pub(crate) fn voltmeters(&self) -> impl Iterator<Item = &Reference> {
        self.opened.references.iter().filter(|one| one.input_resistance().is_some())
    }

    /// Current meters among the references.
    pub(crate) fn ammeters(&self) -> impl Iterator<Item = &Reference> {
        self.opened.references.iter().filter(|one| matches!(one.what, ReferenceKind::CurrentMeter { .. }))
    }

    /// What it comes to.
    pub(crate) fn result(&self) -> BenchResult {
        let measured: Vec<Measured> = self.live().map(|one| one.value.measured).collect();
        compute(&BenchFacts {
            run: self.run(),
            measured: &measured,
            card: self.card.as_ref(),
            references: &self.opened.references,
            edition: self.edition,
        })
    }

    /// What sentences need of it.
    pub(crate) fn about(&self) -> AboutBench<'_> {
        AboutBench { references: &self.opened.references, edition: &self.edition.title }
    }

    /// Whether the tester has no serial number, and so needs a mark of our own.
    pub(crate) fn needs_mark(&self) -> bool {
        self.identity.serial.trim().is_empty()
    }

    /// Name and serial number of the tester.
    pub(crate) fn title(&self, words: &Words) -> String {
        tester_title(words, &self.identity)
    }
}

/// Name and serial number of a tester, or that it has none.
pub(crate) fn tester_title(words: &Words, identity: &TesterIdentity) -> String {
    words.tester_named(&identity.name, &identity.serial)
}

/// Editions of the tester standard, the newest first.
pub(crate) fn editions() -> Result<Vec<&'static Edition>, Failure> {
    let all = shipped_editions().map_err(|complaint| Failure::of("unexpected").because(complaint))?;
    let mut all: Vec<&Edition> = all.iter().collect();
    all.sort_by(|one, other| other.id.cmp(&one.id));
    Ok(all)
}

/// The edition of that id.
pub(crate) fn edition(id: &EditionId) -> Result<&'static Edition, Failure> {
    let found = provenohm_assess::standard::edition(id).map_err(|it| Failure::of("unexpected").because(it))?;
    found.ok_or_else(|| Failure::of("no_edition"))
}
