//! Between verifications: the quick check of a tester, and damage to it.

use crate::failure::Failure;
use crate::ops::verifications::{changing, lines, title};
use crate::read::{Fields, read_quick_check};
use crate::state::State;
use crate::views::*;
use chrono::TimeZone;
use provenohm_assess::ids::{CheckId, DamageId};
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::Moment;
use provenohm_assess::recall::FailingEntry;
use provenohm_assess::tester::{Damage, LeadCheck, LeadEnd, QuickCheck};
use provenohm_exchange::job_file::Tester;
use provenohm_logbook::entry::EntryRef;
use provenohm_words::Words;

/// The resistances of the check box last used on this device.
const BOX: &str = "check_box";

pub(crate) fn quick_check(state: &mut State, asked: OfTester) -> Result<QuickCheckView, Failure> {
    let on_record = state.record.view().tester(asked.tester)?;
    let card = on_record.card.first().map(|it| &it.card).ok_or_else(|| Failure::of("not_found"))?;
    let words = &state.words;
    let volts = card
        .voltages
        .iter()
        .map(|one| Choice { id: one.test_voltage_v.0.normalize().to_string(), words: words.volts(one.test_voltage_v) });
    let live = on_record.quick_checks.iter().filter(|one| one.is_live());
    let last = live.max_by_key(|one| one.value.at).map(|one| &one.value);
    let last = match last {
        None => Sentence { level: Level::Remark, words: words.text("answer-quick-check-none") },
        Some(check) => Sentence {
            level: if stands_good(&on_record, check) { Level::Done } else { Level::Look },
            words: words.text_with(
                if stands_good(&on_record, check) {
                    "answer-quick-check-last-good"
                } else {
                    "answer-quick-check-last-not-good"
                },
                &[("at", words.date_time(check.at).into()), ("volts", words.volts(check.test_voltage_v).into())],
            ),
        },
    };
    let steps = ["answer-quick-check-open", "answer-quick-check-shorted", "answer-quick-check-box"];
    let points = state.setting::<Vec<QuickPointForm>>(&state.own(BOX))?.unwrap_or_default();
    Ok(QuickCheckView {
        tester: asked.tester,
        steps: steps.iter().map(|key| words.text(key)).collect(),
        volts: volts.collect(),
        form: QuickCheckForm { volts: String::new(), points, open: String::new(), shorted: String::new() },
        last,
    })
}

fn stands_good(on_record: &provenohm_logbook::view::Tester, check: &QuickCheck) -> bool {
    on_record.histories().first().is_some_and(|history| history.is_good(check))
}

pub(crate) fn record_quick_check(state: &mut State, asked: RecordQuickCheck) -> Result<TesterView, Failure> {
    let on_record = state.record.view().tester(asked.tester)?;
    let card = on_record.card.first().map(|it| it.card.clone()).ok_or_else(|| Failure::of("not_found"))?;
    let mut fields = Fields::new(&state.words);
    let read = read_quick_check(&mut fields, &asked.form, &card);
    let read = fields.settle(read)?;
    let at = state.host.now();
    let person = state.anyone()?;
    let at_volts = read.volts.and_then(|volts| card.voltages.iter().find(|one| one.test_voltage_v == volts));
    let over_range = at_volts.and_then(|one| one.over_range);
    let mut leads = Vec::new();
    for (end, shown) in [(LeadEnd::Open, read.open), (LeadEnd::Shorted, read.shorted)] {
        let Some(shown) = shown else { continue };
        let good = end.is_as_expected(shown, card.shorted_up_to, over_range);
        let id = CheckId(state.host.id()?);
        leads.push(LeadCheck { id, tester: asked.tester, leads: end, shown, good, person, at, job_started: None });
    }
    let bounds = read
        .points
        .iter()
        .map(|point| point.reference_ohm)
        .min()
        .zip(read.points.iter().map(|p| p.reference_ohm).max());
    let check = match (read.volts, bounds) {
        (Some(test_voltage_v), Some((from_ohm, to_ohm))) => Some(QuickCheck {
            id: CheckId(state.host.id()?),
            tester: asked.tester,
            test_voltage_v,
            from_ohm,
            to_ohm,
            good: read.points.iter().all(|point| point.good),
            at,
            points: read.points,
        }),
        _ => None,
    };
    let good = check.as_ref().is_none_or(|check| check.good) && leads.iter().all(|check| check.good);
    let said = state.words.text(if good { "answer-quick-check-good" } else { "answer-quick-check-not-good" });
    let kept: Vec<QuickPointForm> =
        asked.form.points.iter().map(|point| QuickPointForm { shown: String::new(), ..point.clone() }).collect();
    state.keep_setting(&state.own(BOX), &kept)?;
    changing(state, asked.tester, said, |state| {
        state.write(person, |writer| {
            for check in leads {
                writer.append(check)?;
            }
            if let Some(check) = check {
                writer.append(check)?;
            }
            Ok(())
        })?;
        Ok(())
    })
}

pub(crate) fn report_damage(state: &mut State, asked: ReportDamage) -> Result<TesterView, Failure> {
    if state.record.view().tester(asked.tester)?.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let found = state.host.now();
    let mut fields = Fields::new(&state.words);
    let what = fields.needed("what", &asked.what, "complaint-needed");
    let known = !(asked.date.trim().is_empty() && asked.time.trim().is_empty());
    let happened = if known { instant(&mut fields, &asked, found) } else { None };
    fields.settle(Some(()))?;
    let damage = Damage { id: DamageId(state.host.id()?), tester: asked.tester, happened, found, what };
    let key = if happened.is_some() { "answer-damage-since" } else { "answer-damage-since-proof" };
    let at = state.words.date_time(happened.unwrap_or(found));
    let said = state.words.text_with(key, &[("at", at.into())]);
    changing(state, asked.tester, said, |state| {
        let person = state.anyone()?;
        state.write(person, |writer| Ok(writer.append(damage)?))?;
        Ok(())
    })
}

/// The instant it happened: a day needs its time, since it bars from then on.
fn instant(fields: &mut Fields<'_>, asked: &ReportDamage, now: Moment) -> Option<Moment> {
    let (date, time) = (fields.date("date", &asked.date), fields.time("time", &asked.time));
    let at = now.offset().from_local_datetime(&date?.and_time(time?)).single();
    if at.is_some_and(|at| at > now) {
        fields.complain("date", "complaint-in-the-future", &[]);
    }
    at
}

pub(crate) fn withdraw_check(state: &mut State, asked: WithdrawCheck) -> Result<TesterView, Failure> {
    let on_record = state.record.view().tester(asked.tester)?;
    let entries: Vec<EntryRef> = match asked.entry {
        FailingEntry::QuickCheck { id } => on_record
            .quick_checks
            .iter()
            .filter(|one| one.is_live() && one.value.id == id)
            .map(|one| one.entry)
            .collect(),
        FailingEntry::Damage { id } => {
            on_record.damage.iter().filter(|one| one.is_live() && one.value.id == id).map(|one| one.entry).collect()
        }
        FailingEntry::Verification { .. } => Vec::new(),
    };
    if entries.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    fields.settle(Some(()))?;
    let said = state.words.text_with("answer-check-withdrawn", &[("reason", reason.as_str().into())]);
    changing(state, asked.tester, said, |state| {
        let person = state.anyone()?;
        state.write(person, |writer| Ok(writer.withdraw(&entries, &reason)?))?;
        Ok(())
    })
}

/// Quick checks and damage of a tester, newest first.
pub(crate) fn checks_of(state: &State, id: provenohm_assess::ids::TesterId) -> Result<Vec<CheckView>, Failure> {
    let on_record = state.record.view().tester(id)?;
    let words = &state.words;
    let withdrawn = |entry: EntryRef, live: bool| -> Result<Option<String>, Failure> {
        if live {
            return Ok(None);
        }
        let reason = state.record.view().acting_on(entry)?.into_iter().next().and_then(|one| one.reason);
        let args = [("reason", reason.unwrap_or_default().into())];
        Ok(Some(words.text_with("answer-check-withdrawn", &args)))
    };
    let mut all: Vec<(Moment, CheckView)> = Vec::new();
    for one in &on_record.quick_checks {
        let (title, mut lines) = quick_check_words(words, &one.value);
        let level = match (one.value.good, stands_good(&on_record, &one.value)) {
            (true, true) => Level::Done,
            (true, false) => Level::Look,
            (false, _) => Level::Stop,
        };
        lines.extend((level == Level::Look).then(|| words.text("answer-quick-check-leads-not-good")));
        let entry = FailingEntry::QuickCheck { id: one.value.id };
        let withdrawn = withdrawn(one.entry, one.is_live())?;
        all.push((one.value.at, CheckView { entry, title, lines, level, withdrawn }));
    }
    for one in &on_record.damage {
        let (title, lines) = damage_words(words, &one.value);
        let entry = FailingEntry::Damage { id: one.value.id };
        let withdrawn = withdrawn(one.entry, one.is_live())?;
        all.push((one.value.found, CheckView { entry, title, lines, level: Level::Stop, withdrawn }));
    }
    all.sort_by_key(|(at, _)| std::cmp::Reverse(*at));
    Ok(all.into_iter().map(|(_, view)| view).collect())
}

/// What an entry of a tester says, if it stands there.
pub(crate) fn entry_words(words: &Words, tester: &Tester, entry: FailingEntry) -> Option<(String, Vec<String>)> {
    match entry {
        FailingEntry::Verification { id } => {
            let made = tester.verifications.iter().map(|it| &it.verification).find(|made| made.id == id)?;
            Some((title(words, made), lines(words, made)))
        }
        FailingEntry::QuickCheck { id } => {
            let check = tester.quick_checks.iter().map(|it| &it.check).find(|check| check.id == id)?;
            Some(quick_check_words(words, check))
        }
        FailingEntry::Damage { id } => {
            let damage = tester.damages.iter().map(|it| &it.damage).find(|damage| damage.id == id)?;
            Some(damage_words(words, damage))
        }
    }
}

fn quick_check_words(words: &Words, check: &QuickCheck) -> (String, Vec<String>) {
    let args = [("at", words.date_time(check.at).into()), ("volts", words.volts(check.test_voltage_v).into())];
    let title = words.text_with(
        if check.good { "answer-quick-check-title-good" } else { "answer-quick-check-title-not-good" },
        &args,
    );
    let line = |point: &provenohm_assess::tester::Point| {
        words.text_with(
            if point.good { "answer-quick-check-point-good" } else { "answer-quick-check-point-not-good" },
            &[("known", words.ohms(point.reference_ohm).into()), ("shown", words.reading(&point.indicated).into())],
        )
    };
    (title, check.points.iter().map(line).collect())
}

fn damage_words(words: &Words, damage: &Damage) -> (String, Vec<String>) {
    let title = match damage.happened {
        Some(at) => words.text_with("answer-damage-title-at", &[("at", words.date_time(at).into())]),
        None => words.text_with("answer-damage-title-found", &[("at", words.date_time(damage.found).into())]),
    };
    (title, vec![damage.what.clone()])
}
