//! The job as the record has it now, as a job file.

use crate::job_file::{
    Accepted, AcceptedOf, Board, CautionsRead, Circuit, Circumstances, Corrected, Fate, Job, JobFile, LiveValue, Made,
    NotTested, Note, Past, Person, RecordedCard, RecordedCheck, RecordedDamage, RecordedQuickCheck,
    RecordedVerification, ReplacedWhy, Requested, Resolved, Rules, Taken, Tester, ToSettle,
};
use crate::renewed::not_tested_of;
use provenohm_assess::circuit::Pair;
use provenohm_assess::ids::{CircuitId, JobId, PersonId, ReadingId, TesterId};
use provenohm_assess::judge::MOST_COMBINATIONS;
use provenohm_assess::moment::Moment;
use provenohm_logbook::entry::body::{self, Origin};
use provenohm_logbook::entry::{EntryRef, Noun, Role};
use provenohm_logbook::view::{self, Circumstance, Claim, Facet, ReadError, ReadingOnRecord, Stated, View};
use std::collections::{BTreeMap, BTreeSet};

/// Why a job has no snapshot.
#[derive(Debug, thiserror::Error)]
pub enum NoSnapshot {
    /// The record has no such job, or not enough of it to be judged.
    #[error("the job is not in this record")]
    NoSuchJob,
    /// The record cannot be read.
    #[error(transparent)]
    Unreadable(#[from] ReadError),
}

/// The job with everything its judgement rests on, and the testers of `also` beside those its readings rely on.
///
/// # Errors
/// [`NoSnapshot`].
pub fn snapshot(view: &View<'_>, job: JobId, also: &[TesterId], made: Made) -> Result<JobFile, NoSnapshot> {
    let on_record = view.job(job)?;
    let (Some(names), Some(rules)) = (on_record.names.first(), on_record.rules.first()) else {
        return Err(NoSnapshot::NoSuchJob);
    };
    if !on_record.stands {
        return Err(NoSnapshot::NoSuchJob);
    }
    let from_file = on_record.opened.iter().any(|one| matches!(one.value.origin, Origin::FromFile { .. }));
    let (format, version) = JobFile::format();
    let mut to_settle = Vec::new();
    settle(&mut to_settle, "names", job.0, &on_record.names, |it| it.name.clone());
    settle(&mut to_settle, "rules", job.0, &on_record.rules, |it| it.set.id.0.clone());
    let readings = view.readings(job)?;
    let beyond = view.beyond(job)?;
    let mut testers: BTreeSet<TesterId> = view.testers_of(job)?.into_iter().collect();
    testers.extend(also);
    let testers = testers.into_iter().map(|id| tester(view, id, &mut to_settle)).collect::<Result<_, _>>()?;
    let people = people(view, &on_record)?;
    let not_tested = not_tested_of(view, job)?;
    let requested: Vec<_> = view.requests(job)?.into_iter().filter(Stated::is_live).map(requested).collect();
    let accepted: Vec<_> = view.accepted(job)?.into_iter().filter(Stated::is_live).map(accepted).collect();
    let pairs = readings.iter().map(|one| &one.taken.value.reading.pair);
    let pairs = pairs.chain(not_tested.iter().map(|it| &it.pair)).chain(requested.iter().map(|it| &it.pair));
    let pairs = pairs.chain(accepted.iter().filter_map(|it| match &it.of {
        AcceptedOf::NotTested { pair, .. } => Some(pair),
        AcceptedOf::Reading { .. } => None,
    }));
    let named = pairs.flat_map(Pair::circuits).collect();
    let boards = boards(view, job, &named, &people, &mut to_settle)?;
    let mut file = JobFile {
        format,
        version,
        made,
        job: Job {
            id: job,
            name: names.name.clone(),
            place: names.place.clone(),
            started_at: on_record.opened.first().map(|one| one.recorded),
            invented: on_record.is_invented(),
            from_file,
            limit_set: rules.set.clone(),
            limit_set_text: String::from_utf8_lossy(&rules.bytes.0).into_owned(),
            policies: rules.policies,
            rules_also: on_record.rules.live.iter().skip(1).map(rules_of).collect(),
            needs_newer_version: beyond.job,
        },
        people,
        cautions_read: on_record.cautions.iter().filter(|one| one.is_live()).map(cautions).collect(),
        testers,
        boards,
        readings: taken(&readings, &beyond.readings),
        not_tested,
        recall_resolved: view.recall_resolved(job)?.into_iter().filter(Stated::is_live).map(resolved).collect(),
        requested,
        accepted,
        to_settle,
    };
    name_all(&mut file);
    Ok(file)
}

/// Lists whoever the file names and nobody here has a name for: their card was erased, or has not come.
fn name_all(file: &mut JobFile) {
    let mut named: BTreeSet<PersonId> = file.readings.iter().map(|taken| taken.reading.person).collect();
    named.extend(file.not_tested.iter().map(|it| it.person));
    named.extend(file.recall_resolved.iter().map(|it| it.person));
    named.extend(file.requested.iter().map(|it| it.person));
    named.extend(file.accepted.iter().map(|it| it.person));
    named.extend(file.boards.iter().flat_map(|board| &board.people));
    for id in named {
        if file.people.iter().all(|person| person.id != id) {
            file.people.push(Person { id, name: String::new(), role: String::new() });
        }
    }
}

/// One tester with everything on record of it.
///
/// # Errors
/// [`ReadError`].
pub fn tester(view: &View<'_>, id: TesterId, to_settle: &mut Vec<ToSettle>) -> Result<Tester, ReadError> {
    let on_record = view.tester(id)?;
    settle(to_settle, "identity", id.0, &on_record.identity, |it| format!("{} {}", it.name, it.serial));
    settle(to_settle, "card", id.0, &on_record.card, |it| it.card.voltages.len().to_string());
    let identity = on_record.identity.first();
    let mut cards = on_record.card.live.iter().map(|one| RecordedCard {
        card: one.value.card.clone(),
        recorded_at: one.recorded,
        recorded_by: one.by,
    });
    Ok(Tester {
        id,
        name: identity.map(|it| it.name.clone()).unwrap_or_default(),
        model: identity.map(|it| it.model.clone()).unwrap_or_default(),
        serial: identity.map(|it| it.serial.clone()).unwrap_or_default(),
        card: cards.next(),
        card_also: cards.collect(),
        needs_newer_version: on_record.needs_newer == Some(true),
        verifications: live(&on_record.verifications, |one| RecordedVerification {
            verification: one.value.clone().recorded(one.recorded),
            recorded_at: one.recorded,
            recorded_by: one.by,
        }),
        lead_checks: live(&on_record.lead_checks, |one| RecordedCheck {
            check: one.value.clone(),
            recorded_at: one.recorded,
            recorded_by: one.by,
        }),
        quick_checks: live(&on_record.quick_checks, |one| RecordedQuickCheck {
            check: one.value.clone(),
            recorded_at: one.recorded,
            recorded_by: one.by,
        }),
        damages: live(&on_record.damage, |one| RecordedDamage {
            damage: one.value.clone(),
            recorded_at: one.recorded,
            recorded_by: one.by,
        }),
    })
}

fn rules_of(one: &Stated<body::JobRules>) -> Rules {
    Rules {
        limit_set: one.value.set.clone(),
        limit_set_text: String::from_utf8_lossy(&one.value.bytes.0).into_owned(),
        policies: one.value.policies,
        recorded_at: one.recorded,
    }
}

fn live<T, U>(all: &[Stated<T>], make: impl Fn(&Stated<T>) -> U) -> Vec<U> {
    all.iter().filter(|one| one.is_live()).map(make).collect()
}

/// Names a facet with two live values: `facet:object`.
fn settle<T: PartialEq>(
    all: &mut Vec<ToSettle>,
    facet: &str,
    of: uuid::Uuid,
    values: &Facet<T>,
    say: impl Fn(&T) -> String,
) {
    if values.is_unsettled() {
        let value = |one: &Stated<T>| LiveValue { entry: one.entry.to_string(), value: say(&one.value) };
        all.push(ToSettle { facet: format!("{facet}:{of}"), values: values.live.iter().map(value).collect() });
    }
}

fn people(view: &View<'_>, job: &view::Job) -> Result<Vec<Person>, ReadError> {
    let mut people = Vec::new();
    let listed: BTreeMap<PersonId, String> =
        job.people.live.iter().flat_map(|one| one.value.people.iter().map(|it| (it.person, it.part.clone()))).collect();
    let named = view.people()?;
    for known in named {
        // What the books say is the same on every device.
        let card = known.card.first().or(known.local.as_ref());
        let role = listed.get(&known.person).cloned().or_else(|| card.map(|it| it.role.clone()));
        people.push(Person {
            id: known.person,
            name: card.map(|it| it.name.clone()).unwrap_or_default(),
            role: role.unwrap_or_default(),
        });
    }
    Ok(people)
}

fn name_of(people: &[Person], id: PersonId) -> &str {
    people.iter().find(|person| person.id == id).map_or("", |person| &person.name)
}

fn cautions(read: &Stated<body::CautionsRead>) -> CautionsRead {
    CautionsRead { person: read.value.person, version: read.value.version, at: read.recorded }
}

fn boards(
    view: &View<'_>,
    job: JobId,
    named: &BTreeSet<CircuitId>,
    people: &[Person],
    to_settle: &mut Vec<ToSettle>,
) -> Result<Vec<Board>, ReadError> {
    let mut boards: Vec<Board> = Vec::new();
    for board in view.boards(job)? {
        let taken_away = !board.is_present();
        if !taken_away {
            settle(to_settle, "board", board.board.0, &board.names, |it| it.name.clone());
            settle(to_settle, "board-people", board.board.0, &board.people, |it| {
                it.people.iter().map(|id| name_of(people, *id)).collect::<Vec<_>>().join(", ")
            });
        }
        let names = board.names.first();
        boards.push(Board {
            id: board.board,
            name: names.map(|it| it.name.clone()).unwrap_or_default(),
            place: names.map(|it| it.place.clone()).unwrap_or_default(),
            taken_away,
            people: board.people.first().map(|it| it.people.clone()).unwrap_or_default(),
            circuits: Vec::new(),
            removed: Vec::new(),
        });
    }
    for circuit in view.circuits(job)? {
        let of = circuit.place.first().and_then(|place| boards.iter_mut().find(|board| board.id == place.board));
        let (Some(board), Some(electrical)) = (of, circuit.electrical.first()) else { continue };
        if !board.taken_away {
            settle(to_settle, "label", circuit.circuit.0, &circuit.label, |it| it.reference.clone());
            settle(to_settle, "electrical", circuit.circuit.0, &circuit.electrical, |it| {
                it.electrical.nominal.volts.0.to_string()
            });
        }
        let label = circuit.label.first();
        let notes = view.circuit_notes(job, circuit.circuit)?;
        let made = Circuit {
            id: circuit.circuit,
            reference: label.map(|it| it.reference.clone()).unwrap_or_default(),
            description: label.map(|it| it.description.clone()).unwrap_or_default(),
            electrical: electrical.electrical.clone(),
            electrical_also: circuit.electrical.live.iter().skip(1).map(|one| one.value.electrical.clone()).collect(),
            needs_newer_version: circuit.needs_newer == Some(true),
            notes: live(&notes, |one| Note {
                id: one.value.note,
                text: one.value.text.clone(),
                person: one.value.person.or(one.by),
                at: one.value.at.unwrap_or(one.recorded),
            }),
        };
        // Between two circuits that were said to be one nothing can be read: such a reading names the other id still.
        let other = |id: &CircuitId| Circuit { id: *id, notes: Vec::new(), ..made.clone() };
        board.removed.extend(circuit.same.iter().filter(|id| named.contains(*id)).map(other));
        if circuit.is_present() { board.circuits.push(made) } else { board.removed.push(made) }
    }
    // A board that was taken away stands for what was read, asked for or accepted on it, and for nothing else.
    boards.retain(|board| {
        !board.taken_away || board.circuits.iter().chain(&board.removed).any(|one| named.contains(&one.id))
    });
    Ok(boards)
}

pub(crate) fn not_tested(said: Stated<body::NotTested>) -> NotTested {
    let body::NotTested { job: _, pair, stage, reason, words, person, at, beside } = said.value;
    let (words, recorded_at) = (words.unwrap_or_default(), said.recorded);
    NotTested { pair, stage, reason, words, person, at, recorded_at, beside }
}

fn resolved(said: Stated<body::RecallResolved>) -> Resolved {
    let body::RecallResolved { job: _, reading, entry, person, at } = said.value;
    let reason = said.reason.unwrap_or_default();
    Resolved { reading, entry, reason, person, at, recorded_at: said.recorded }
}

fn requested(asked: Stated<body::Request>) -> Requested {
    let body::Request { job: _, pair, stage, readings, not_tested, person, at } = asked.value;
    let reason = asked.reason.unwrap_or_default();
    Requested { pair, stage, readings, not_tested, reason, person, at, recorded_at: asked.recorded }
}

fn accepted(said: Stated<body::Accepted>) -> Accepted {
    let body::Accepted { job: _, of, codes, person, at } = said.value;
    let of = match of {
        body::AcceptedOf::Reading { reading } => AcceptedOf::Reading { reading },
        body::AcceptedOf::NotTested { pair, stage, at } => AcceptedOf::NotTested { pair, stage, at },
    };
    Accepted { of, codes, reason: said.reason.unwrap_or_default(), person, at, recorded_at: said.recorded }
}

fn taken(readings: &[ReadingOnRecord], beyond: &BTreeSet<ReadingId>) -> Vec<Taken> {
    let by_entry: BTreeMap<EntryRef, &ReadingOnRecord> = readings.iter().map(|one| (one.taken.entry, one)).collect();
    readings
        .iter()
        .map(|one| {
            let newer = beyond.contains(&one.taken.value.reading.id);
            taken_beside(one, newer, |entry| by_entry.get(&entry).copied())
        })
        .collect()
}

/// One reading with what became of it.
pub(crate) fn taken_of(view: &View<'_>, job: JobId, one: &ReadingOnRecord) -> Result<Taken, ReadError> {
    let mut others = Vec::new();
    for acting in one.acting.iter().filter(|acting| acting.role == Role::Replaces) {
        for object in view.objects_of(acting.entry)?.into_iter().filter(|object| object.noun == Noun::Reading) {
            others.extend(view.reading(ReadingId(object.id.0))?);
        }
    }
    let newer = view.beyond(job)?.readings.contains(&one.taken.value.reading.id);
    Ok(taken_beside(one, newer, |entry| others.iter().find(|other| other.taken.entry == entry)))
}

fn taken_beside<'a>(
    one: &ReadingOnRecord,
    needs_newer_version: bool,
    by_entry: impl Fn(EntryRef) -> Option<&'a ReadingOnRecord>,
) -> Taken {
    Taken {
        reading: one.taken.value.reading.clone(),
        recorded_at: one.taken.recorded,
        doubtful_clock: one.has_doubtful_clock(),
        needs_newer_version,
        why: one.taken.value.why.map(why),
        device: one.taken.device,
        corrections: corrections(one),
        live: every(one),
        kept_at: one.acting.iter().find(|acting| acting.role == Role::Keeps).map(|acting| acting.recorded),
        past: past(one, by_entry),
    }
}

fn why(why: body::ReplacedWhy) -> ReplacedWhy {
    match why {
        body::ReplacedWhy::Mistyped => ReplacedWhy::Mistyped,
        body::ReplacedWhy::Repaired => ReplacedWhy::Repaired,
        body::ReplacedWhy::Repeated => ReplacedWhy::Repeated,
    }
}

/// One line an act: the circumstances it corrected, oldest act first.
fn corrections(one: &ReadingOnRecord) -> Vec<Corrected> {
    let of = |entry: EntryRef| {
        let tester = one.tester.claims.iter().find(|claim| claim.entry == entry).and_then(|claim| claim.value);
        let volts = one.test_voltage_v.claims.iter().find(|claim| claim.entry == entry).map(|claim| claim.value);
        let at = one.at.claims.iter().find(|claim| claim.entry == entry).map(|claim| claim.value);
        let conditions = one.conditions.claims.iter().find(|claim| claim.entry == entry).map(|claim| claim.value);
        (tester, volts, at, conditions)
    };
    one.acting
        .iter()
        .filter(|acting| acting.role == Role::Corrects)
        .map(|acting| {
            let (tester, test_voltage_v, at, conditions) = of(acting.entry);
            let reason = acting.reason.clone().unwrap_or_default();
            Corrected {
                tester,
                test_voltage_v,
                at,
                conditions,
                reason,
                person: acting.by,
                recorded_at: acting.recorded,
            }
        })
        .collect()
}

/// The combinations of live circumstances, where there is more than one. More than can be judged are not listed.
fn every(one: &ReadingOnRecord) -> Vec<Circumstances> {
    let recorded: BTreeMap<EntryRef, Moment> =
        one.acting.iter().map(|acting| (acting.entry, acting.recorded)).collect();
    let when = |entry: EntryRef| recorded.get(&entry).copied().unwrap_or(one.taken.recorded);
    let mut all = Vec::new();
    for tester in live_claims(&one.tester) {
        for volts in live_claims(&one.test_voltage_v) {
            for at in live_claims(&one.at) {
                for conditions in live_claims(&one.conditions) {
                    if all.len() > MOST_COMBINATIONS {
                        return all;
                    }
                    let entries = [tester.entry, volts.entry, at.entry, conditions.entry];
                    all.push(Circumstances {
                        tester: tester.value,
                        test_voltage_v: volts.value,
                        at: at.value,
                        conditions: conditions.value,
                        recorded_at: entries.map(when).into_iter().max().unwrap_or(one.taken.recorded),
                    });
                }
            }
        }
    }
    if all.len() > 1 { all } else { Vec::new() }
}

/// The live claims of a circumstance, each value once.
fn live_claims<T: PartialEq>(of: &Circumstance<T>) -> Vec<&Claim<T>> {
    let mut live: Vec<&Claim<T>> = Vec::new();
    for claim in of.claims.iter().filter(|claim| claim.live) {
        if !live.iter().any(|other| other.value == claim.value) {
            live.push(claim);
        }
    }
    live
}

fn past<'a>(one: &ReadingOnRecord, by_entry: impl Fn(EntryRef) -> Option<&'a ReadingOnRecord>) -> Option<Past> {
    if one.is_live() {
        return None;
    }
    let ended =
        one.acting.iter().find(|acting| matches!(acting.role, Role::Withdraws | Role::Replaces | Role::SetsAside))?;
    let replaced = (ended.role == Role::Replaces).then(|| by_entry(ended.entry)).flatten();
    let fate = match replaced {
        Some(by) => {
            Fate::Replaced { by: by.taken.value.reading.id, why: by.taken.value.why.map_or(ReplacedWhy::Repeated, why) }
        }
        None if ended.role == Role::SetsAside => Fate::NotChosen,
        None => Fate::Withdrawn,
    };
    Some(Past { fate, reason: ended.reason.clone().unwrap_or_default(), person: ended.by, recorded_at: ended.recorded })
}

/// The latest instant the file knows of: what is "as of" on papers made of a file alone. A record knows of more, as who
/// renamed what when.
#[must_use]
pub fn as_of(file: &JobFile) -> Option<Moment> {
    let readings = file.readings.iter().flat_map(|taken| {
        let corrections = taken.corrections.iter().map(|it| it.recorded_at);
        let chosen = taken.past.iter().map(|it| it.recorded_at).chain(taken.kept_at);
        corrections.chain(chosen).chain([taken.recorded_at])
    });
    // A tester that only lies at hand, or is used elsewhere, says nothing of this job.
    let used: BTreeSet<TesterId> = file
        .readings
        .iter()
        .flat_map(|taken| {
            let corrected = taken.corrections.iter().filter_map(|it| it.tester);
            corrected.chain(taken.live.iter().filter_map(|it| it.tester)).chain(taken.reading.tester)
        })
        .collect();
    let proofs = file.testers.iter().filter(|tester| used.contains(&tester.id)).flat_map(|tester| {
        let cards = tester.card.iter().chain(&tester.card_also).map(|it| it.recorded_at);
        let verifications = tester.verifications.iter().map(|it| it.recorded_at);
        let leads = tester.lead_checks.iter().map(|it| it.recorded_at);
        let between = tester.quick_checks.iter().map(|it| it.recorded_at);
        cards.chain(verifications).chain(leads).chain(between).chain(tester.damages.iter().map(|it| it.recorded_at))
    });
    let circuits = file.boards.iter().flat_map(|board| board.circuits.iter().chain(&board.removed));
    let notes = circuits.flat_map(|circuit| circuit.notes.iter().map(|it| it.at));
    let rules = file.job.rules_also.iter().map(|it| it.recorded_at);
    let resolved = file.recall_resolved.iter().map(|it| it.recorded_at);

    let rest = file.not_tested.iter().map(|it| it.recorded_at).chain(file.cautions_read.iter().map(|it| it.at));
    let review = file.requested.iter().map(|it| it.recorded_at).chain(file.accepted.iter().map(|it| it.recorded_at));
    readings.chain(proofs).chain(rest).chain(review).chain(notes).chain(rules).chain(resolved).max()
}

/// The entries of a reading's id: what a withdrawal, replacement or correction names.
///
/// # Errors
/// [`ReadError`].
pub fn entries_of(view: &View<'_>, reading: ReadingId) -> Result<Vec<EntryRef>, ReadError> {
    Ok(view.reading(reading)?.into_iter().map(|one| one.taken.entry).collect())
}
