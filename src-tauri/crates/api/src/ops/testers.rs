//! Testers and their cards.

use crate::failure::Failure;
use crate::ops::checks::checks_of;
use crate::ops::interval::{Interval, interval_of};
use crate::ops::recall::in_doubt;
use crate::ops::verifications::{choices, fresh, verification_view};
use crate::read::{Fields, NAME_MOST, card_form, read_card};
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::TesterId;
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::policy::Policies;
use provenohm_assess::quantity::Volts;
use provenohm_exchange::job_file::Tester;
use provenohm_exchange::tester as tester_on_record;
use provenohm_logbook::entry::body::{TesterCard, TesterIdentity as Identity};
use provenohm_logbook::entry::{Fact, Role};
use provenohm_logbook::view::View;

pub(crate) fn testers(state: &mut State, _: NoInput) -> Result<TestersView, Failure> {
    let now = state.host.now();
    let ids: Vec<TesterId> = state.record.view().testers()?.iter().map(|one| one.tester).collect();
    let mut testers = Vec::new();
    for id in ids {
        let tester = tester_on_record(&state.record.view(), id, &mut Vec::new())?;
        let invented = is_invented(&state.record.view(), id)?;
        testers.push(TesterLine { invented, ..tell::tester_line(&state.words, &tester, Policies::default(), now) });
    }
    testers.sort_by(|one, other| one.name.cmp(&other.name).then_with(|| one.serial.cmp(&other.serial)));
    Ok(TestersView { testers })
}

pub(crate) fn tester(state: &mut State, asked: OfTester) -> Result<TesterView, Failure> {
    tester_view(state, asked.tester, None)
}

pub(crate) fn save_tester(state: &mut State, asked: SaveTester) -> Result<TesterView, Failure> {
    save_tester_as(state, asked, None)
}

/// Saves a tester, and of a new one that it is invented.
pub(crate) fn save_tester_as(
    state: &mut State,
    asked: SaveTester,
    invented: Option<bool>,
) -> Result<TesterView, Failure> {
    let TesterIdentity { name, serial, model } = &asked.identity;
    let most = crate::read::NAME_MOST;
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", name, "complaint-name-needed");
    let serial = fields.optional("serial", serial, NAME_MOST);
    let model = fields.optional("model", model, most);
    let card = read_card(&mut fields, &asked.card);
    let card = fields.settle(card)?;
    let tester = match asked.tester {
        Some(tester) => tester,
        None => TesterId(state.host.id()?),
    };
    let on_record = state.record.view().tester(tester)?;
    if asked.tester.is_some() && on_record.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let person = state.anyone()?;
    let said = state.words.text_with("answer-tester-saved", &[("tester", name.as_str().into())]);
    state.write(person, |writer| {
        // What is invented stays so under another name.
        let invented = on_record.is_invented().then_some(true).or(invented);
        let identity = Identity { tester, name, model, serial, invented };
        let card = TesterCard { tester, card };
        // A facet is amended alone, and only when it changed; under every id that means this tester.
        let ids: Vec<TesterId> = std::iter::once(tester).chain(on_record.same.iter().copied()).collect();
        if on_record.identity.one() != Some(&identity) {
            for tester in &ids {
                let identity = Identity { tester: *tester, ..identity.clone() };
                writer.append(Fact::naming(identity, Role::Replaces, on_record.identity.current()))?;
            }
        }
        if on_record.card.one() != Some(&card) {
            for tester in &ids {
                let card = TesterCard { tester: *tester, ..card.clone() };
                writer.append(Fact::naming(card, Role::Replaces, on_record.card.current()))?;
            }
        }
        Ok(())
    })?;
    tester_view(state, tester, Some(said))
}

/// Everything the Testers screen shows of one.
pub(crate) fn tester_view(state: &mut State, id: TesterId, said: Option<String>) -> Result<TesterView, Failure> {
    let on_record = state.record.view().tester(id)?;
    if on_record.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let tester = tester_on_record(&state.record.view(), id, &mut Vec::new())?;
    let now = state.host.now();
    let in_doubt = in_doubt(state, id)?;
    let checks = checks_of(state, id)?;
    let words = &state.words;
    let Interval { interval, due, proposal } = interval_of(words, &tester, now);
    let card = tester.card.as_ref().map(|recorded| &recorded.card);
    let mut verifications: Vec<_> = on_record.verifications.iter().collect();
    verifications.sort_by_key(|one| std::cmp::Reverse(day_of(one.value.made)));
    let reason_of = |entry| -> Result<Option<String>, Failure> {
        let acting = state.record.view().acting_on(entry)?;
        Ok(acting.into_iter().next().map(|one| one.reason.unwrap_or_default()))
    };
    let verifications = verifications
        .into_iter()
        .map(|one| verification_view(words, one, if one.is_live() { None } else { reason_of(one.entry)? }))
        .collect::<Result<_, Failure>>()?;
    Ok(TesterView {
        id,
        identity: TesterIdentity {
            name: tester.name.clone(),
            serial: tester.serial.clone(),
            model: tester.model.clone(),
        },
        card: card_form(words, card),
        card_words: card.map(|card| tell::card_lines(words, card)).unwrap_or_default(),
        state: states(words, &tester, now),
        verifications,
        checks,
        due,
        proposal,
        interval,
        in_doubt,
        fresh: fresh(words, card),
        invented: is_invented(&state.record.view(), id)?,
        choices: choices(words),
        words: said,
    })
}

/// Whether a tester is invented: it says so itself, or an invented job relies on it.
pub(crate) fn is_invented(view: &View<'_>, tester: TesterId) -> Result<bool, Failure> {
    if view.tester(tester)?.is_invented() {
        return Ok(true);
    }
    for job in view.jobs_of(tester)? {
        if view.job(job)?.is_invented() {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The tester's state today at each test voltage of its card.
fn states(words: &provenohm_words::Words, tester: &Tester, now: Moment) -> Vec<Sentence> {
    let card = tester.card.as_ref().map(|recorded| &recorded.card);
    let volts: Vec<Volts> = card.iter().flat_map(|card| &card.voltages).map(|one| one.test_voltage_v).collect();
    volts
        .into_iter()
        .map(|volts| {
            let header = tell::header(words, tester, Some(volts), Policies::default(), now);
            let args = [("volts", words.volts(volts).into()), ("state", header.words.into())];
            Sentence { level: header.level, words: words.text_with("answer-state-at", &args) }
        })
        .collect()
}

/// The day of a verification, and the instant where one is known: for their order.
fn day_of(made: When) -> (chrono::NaiveDate, Option<Moment>) {
    match made {
        When::At(at) => (at.date_naive(), Some(at)),
        When::Day { date, .. } => (date, None),
    }
}
