//! Closing a run: what it comes to becomes a verification on the tester's record. Before it somebody has looked at the
//! tester itself, and one without a serial number bears a mark of our own: each is answered, none is taken for granted.

use super::run::Run;
use super::say;
use crate::failure::Failure;
use crate::ops::verifications::changing;
use crate::read::{Fields, NAME_MOST};
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{Issued, LookedAt};
use provenohm_assess::ids::VerificationId;
use provenohm_assess::moment::When;
use provenohm_logbook::entry::body::VerificationMade;
use provenohm_logbook::entry::{Fact, Role};

pub(crate) fn close_bench(state: &mut State, asked: CloseBench) -> Result<TesterView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let result = run.result();
    // When the last thing was measured: what was found was so then, whenever the run is closed.
    let made = run.live().map(|one| one.value.measured.at).max().ok_or_else(|| Failure::of("nothing_measured"))?;
    if result.voltages.is_empty() {
        return Err(Failure::of("nothing_measured"));
    }
    let mut fields = Fields::new(&state.words);
    let until = asked.valid_until.trim();
    let valid_until = if until.is_empty() { None } else { fields.date("valid_until", until) };
    if valid_until.is_some_and(|day| !When::At(made).can_last_until(day)) {
        fields.complain("valid_until", "complaint-last-day-before", &[]);
    }
    let number = fields.optional("certificate", &asked.certificate, NAME_MOST);
    let former: Vec<_> = run.bench.verifications.iter().filter(|one| one.is_live()).map(|one| one.entry).collect();
    let reason = fields.optional("reason", &asked.reason, NAME_MOST);
    if !former.is_empty() && reason.is_empty() {
        fields.complain("reason", "complaint-reason-needed", &[]);
    }
    for line in say::look(&state.words, &run.run().look) {
        if line.answer == LookedAt::NotLooked {
            fields.complain(line.item.field(), "complaint-look-needed", &[]);
        }
    }
    if run.needs_mark() && run.run().mark.is_none() {
        fields.complain("mark", "complaint-mark-needed", &[]);
    }
    fields.settle(Some(()))?;
    let issued = Issued {
        id: VerificationId(state.host.id()?),
        made: When::At(made),
        valid_until,
        by: run.run().by.clone(),
        number: (!number.is_empty()).then_some(number),
        recorded_at: state.host.now(),
    };
    let verification = VerificationMade::of(result.verification(issued)).from_bench(asked.bench);
    let said = state.words.text_with("answer-verification-recorded", &[("made", state.words.date_time(made).into())]);
    changing(state, run.tester(), said, |state| {
        let person = state.anyone()?;
        state.write(person, |writer| {
            let mut fact = Fact::naming(verification, Role::Replaces, former);
            fact.reason = (!reason.is_empty()).then_some(reason);
            Ok(writer.append(fact)?)
        })?;
        Ok(())
    })
}
