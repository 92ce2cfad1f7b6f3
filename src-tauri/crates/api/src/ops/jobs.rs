//! Jobs, their names, people and boards.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard};
use crate::ops::bundle::whereabouts;
use crate::ops::recall::in_doubt_words;
use crate::ops::rules::set_line;
use crate::ops::settle::how_many;
use crate::ops::sign_off::signed_lines;
use crate::ops::undo::token;
use crate::read::Fields;
use crate::recalled::{Doubt, doubts};
use crate::signed::standing;
use crate::state::State;
use crate::tally::{JobTally, Tally, tallies};
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::{BoardId, JobId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_assess::limits::{SHIPPED_FILES, shipped};
use provenohm_assess::policy::Policies;
use provenohm_logbook::entry::body::{
    BoardNames, BoardPeople, BoardPresent, JobNames, JobOpened, JobPeople, JobPerson, JobRules, Origin,
};
use provenohm_logbook::entry::{Bytes, Fact, Role};
use provenohm_words::Words;

pub(crate) fn jobs(state: &mut State, _: NoInput) -> Result<JobsView, Failure> {
    let tallies = tallies(state)?;
    let words = &state.words;
    let line = |one: JobTally| JobLine {
        summary: with_asked(
            words,
            &one.tally,
            words.text_with(
                "answer-job-summary",
                &[
                    ("boards", one.boards.into()),
                    ("circuits", one.tally.circuits.into()),
                    ("done", one.tally.done.into()),
                    ("readings", one.tally.of.into()),
                ],
            ),
        ),
        look: one.tally.look,
        stop: one.tally.stop,
        in_doubt: in_doubt_words(words, one.in_doubt(), one.in_doubt_open()),
        id: one.job,
        name: one.name,
        place: one.place,
        demo: one.invented,
    };
    Ok(JobsView { jobs: tallies.into_iter().rev().map(line).collect() })
}

pub(crate) fn start_job(state: &mut State, asked: StartJob) -> Result<JobView, Failure> {
    let job = open_job(state, &asked, Origin::Started)?;
    job_view(state, job)
}

/// Puts a new job into the record: names, the default set, one person.
pub(crate) fn open_job(state: &mut State, asked: &StartJob, origin: Origin) -> Result<JobId, Failure> {
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", &asked.name, "complaint-name-needed");
    // Whoever logged in begins it, whatever name stands there.
    let (person, role) = state.seat.as_ref().map_or((&asked.person, &asked.role), |seat| (&seat.name, &seat.role));
    let person_name = fields.needed("person", person, "complaint-name-needed");
    let place = fields.optional("place", &asked.place, crate::read::NAME_MOST);
    let role = fields.optional("role", role, crate::read::NAME_MOST);
    fields.settle(Some(()))?;
    let sets = shipped().map_err(|complaint| Failure::of("unexpected").because(complaint))?;
    let (Some(set), Some(bytes)) = (sets.first(), SHIPPED_FILES.first()) else {
        return Err(Failure::of("set_not_here"));
    };
    let job = JobId(state.host.id()?);
    let person = state.person_named(&person_name, &role)?;
    state.write(person, |writer| {
        writer.append(JobOpened { job, origin })?;
        writer.append(JobNames { job, name, place })?;
        let rules =
            JobRules { job, set: set.name.clone(), bytes: Bytes(bytes.to_vec()), policies: Policies::default() };
        writer.append(rules)?;
        writer.append(JobPeople { job, people: vec![JobPerson { person, part: role }] })?;
        Ok(())
    })?;
    state.be(job, person)?;
    Ok(job)
}

pub(crate) fn job(state: &mut State, asked: OfJob) -> Result<JobView, Failure> {
    job_view(state, asked.job)
}

pub(crate) fn make_demo(state: &mut State, _: NoInput) -> Result<JobView, Failure> {
    let job = crate::demo::make(state)?;
    job_view(state, job)
}

pub(crate) fn set_job_names(state: &mut State, asked: SetJobNames) -> Result<JobView, Failure> {
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", &asked.name, "complaint-name-needed");
    let place = fields.optional("place", &asked.place, crate::read::NAME_MOST);
    fields.settle(Some(()))?;
    let (job, person) = (asked.job, state.person(asked.job)?);
    let current = state.record.view().job(job)?.names.current();
    state.write(person, |writer| {
        Ok(writer.append(Fact::naming(JobNames { job, name, place }, Role::Replaces, current))?)
    })?;
    job_view(state, job)
}

pub(crate) fn add_person(state: &mut State, asked: AddPerson) -> Result<JobView, Failure> {
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", &asked.name, "complaint-name-needed");
    let role = fields.optional("role", &asked.role, crate::read::NAME_MOST);
    fields.settle(Some(()))?;
    let job = asked.job;
    let added = state.person_named(&name, &role)?;
    let by = state.me(job)?.unwrap_or(added);
    list_person(state, job, by, JobPerson { person: added, part: role })?;
    if state.me(job)?.is_none() {
        state.be(job, added)?;
    }
    job_view(state, job)
}

/// Adds a person to the people of a job, once.
fn list_person(state: &mut State, job: JobId, by: PersonId, one: JobPerson) -> Result<(), Failure> {
    let facet = state.record.view().job(job)?.people;
    let mut people: Vec<JobPerson> = facet.live.iter().flat_map(|live| live.value.people.clone()).collect();
    people.retain(|other| other.person != one.person);
    people.push(one);
    let current = facet.current();
    state.write(by, |writer| Ok(writer.append(Fact::naming(JobPeople { job, people }, Role::Replaces, current))?))?;
    Ok(())
}

pub(crate) fn be_person(state: &mut State, asked: BePerson) -> Result<JobView, Failure> {
    state.is_seated(asked.person)?;
    let known = state.judged(asked.job)?.file.people.iter().any(|person| person.id == asked.person);
    if !known {
        return Err(Failure::of("not_found"));
    }
    state.be(asked.job, asked.person)?;
    job_view(state, asked.job)
}

pub(crate) fn add_board(state: &mut State, asked: AddBoard) -> Result<JobView, Failure> {
    put_board(state, asked.job, &asked.name)?;
    job_view(state, asked.job)
}

/// Adds a board.
pub(crate) fn put_board(state: &mut State, job: JobId, name: &str) -> Result<BoardId, Failure> {
    let name = board_name(state, job, None, name)?;
    let (board, person) = (BoardId(state.host.id()?), state.person(job)?);
    state.write(person, |writer| Ok(writer.append(BoardNames { job, board, name, place: String::new() })?))?;
    Ok(board)
}

pub(crate) fn rename_board(state: &mut State, asked: RenameBoard) -> Result<JobView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let name = board_name(state, job, Some(asked.board), &asked.name)?;
    let person = state.person(job)?;
    let boards = state.record.view().boards(job)?;
    let names = boards.into_iter().find(|one| one.board == asked.board).map(|one| one.names).unwrap_or_default();
    let place = names.first().map(|it| it.place.clone()).unwrap_or_default();
    state.write(person, |writer| {
        let body = BoardNames { job, board: asked.board, name, place };
        Ok(writer.append(Fact::naming(body, Role::Replaces, names.current()))?)
    })?;
    job_view(state, job)
}

pub(crate) fn set_board_people(state: &mut State, asked: SetBoardPeople) -> Result<JobView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let known = |id: &PersonId| judged.file.people.iter().any(|person| person.id == *id);
    if !asked.people.iter().all(known) {
        return Err(Failure::of("not_found"));
    }
    let person = state.person(job)?;
    let boards = state.record.view().boards(job)?;
    let former = boards.into_iter().find(|one| one.board == asked.board).map(|one| one.people).unwrap_or_default();
    state.write(person, |writer| {
        // Whoever has not acted yet is known to this device alone: their name goes along.
        for id in &asked.people {
            let mut named = false;
            for card in writer.view().person(*id)?.card.current() {
                named |= writer.view().book_of(card.log)? == Some(job.into());
            }
            if let Some(card) = writer.view().card(*id)?.filter(|_| !named) {
                writer.append_in(job.into(), card)?;
            }
        }
        let body = BoardPeople { job, board: asked.board, people: asked.people };
        Ok(writer.append(Fact::naming(body, Role::Replaces, former.current()))?)
    })?;
    job_view(state, job)
}

fn board_name(state: &mut State, job: JobId, own: Option<BoardId>, name: &str) -> Result<String, Failure> {
    let judged = state.judged(job)?;
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", name, "complaint-name-needed");
    if judged.boards.iter().any(|board| board.name == name && Some(board.id) != own) {
        fields.complain("name", "complaint-name-taken", &[]);
    }
    fields.settle(Some(name))
}

pub(crate) fn remove_board(state: &mut State, asked: OfBoard) -> Result<Done, Failure> {
    let job = state.job_of_board(asked.board)?;
    let person = state.person(job)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let slots = board.circuits.iter().flat_map(|one| &one.slots);
    let readings = slots.map(|slot| slot.readings.len()).sum::<usize>();
    let boards = state.record.view().boards(job)?;
    let present = boards.into_iter().find(|one| one.board == asked.board).map(|one| one.present).unwrap_or_default();
    let receipt = state.write(person, |writer| {
        let body = BoardPresent { job, board: asked.board, present: false, known: writer.known(job)? };
        Ok(writer.append(Fact::naming(body, Role::Replaces, present.current()))?)
    })?;
    let args = [("board", board.name.as_str().into()), ("readings", readings.into())];
    Ok(Done { words: state.words.text_with("answer-board-removed", &args), undo: token(&receipt) })
}

/// Everything the job screen shows.
pub(crate) fn job_view(state: &mut State, job: JobId) -> Result<JobView, Failure> {
    let standing = standing(state, job)?;
    let judged = state.judged(job)?;
    let now = state.host.now();
    let me = state.me(job)?;
    let testers = judged.file.testers.iter().map(|one| one.id).collect();
    let to_settle = how_many(&state.record.view(), job, &testers)?;
    let words = &state.words;
    let tally = Tally::of_job(&judged);
    let file = &judged.file;
    let used: std::collections::BTreeSet<_> = judged.readings.iter().filter_map(|one| one.reading.tester).collect();
    let mut known_by_another = std::collections::BTreeSet::new();
    for tester in &used {
        let same = state.record.view().tester(*tester)?.same;
        known_by_another.extend(same.into_iter().filter(|other| other > tester));
    }
    let policies = file.job.policies;
    let in_doubt = doubts(&state.record.view(), &judged)?;
    let limit_set = set_line(words, judged.set(), &file.job.limit_set);
    Ok(JobView {
        id: job,
        name: file.job.name.clone(),
        place: file.job.place.clone(),
        demo: file.job.invented,
        from_file: file.job.from_file,
        rules_words: rules_words(words, &judged),
        quick_check_days: policies.quick_check_days,
        limit_set,
        value_policy: policies.value,
        tester_policy: policies.tester,
        people: file
            .people
            .iter()
            .filter(|one| !one.name.is_empty())
            .map(|one| PersonView { id: one.id, name: one.name.clone(), role: one.role.clone() })
            .collect(),
        me,
        cautions_confirmed: file.cautions_read.iter().any(|read| Some(read.person) == me),
        boards: judged.boards.iter().map(|board| board_line(state, &judged, board)).collect(),
        testers: file
            .testers
            .iter()
            .filter(|tester| used.contains(&tester.id) && !known_by_another.contains(&tester.id))
            .map(|tester| tell::tester_line(words, tester, policies, now))
            .collect(),
        signed: standing.iter().flat_map(|one| signed_lines(words, &one.counted())).collect(),
        in_doubt: in_doubt.iter().filter_map(|one| doubt_line(words, &judged, one)).collect(),
        look: tally.look,
        stop: tally.stop,
        look_words: tell::review_sum(words, &tally),
        whereabouts: whereabouts(state, job)?,
        to_settle,
        to_settle_words: words.text_with("answer-to-settle", &[("count", to_settle.into())]),
    })
}

/// What one tester puts in doubt in a job, with the way to its recall list.
fn doubt_line(words: &Words, judged: &Judged, one: &Doubt) -> Option<DoubtLine> {
    let tester = judged.tester(one.tester)?;
    let args = [("count", one.all.into()), ("open", one.open.into()), ("tester", tester.name.as_str().into())];
    let key = if one.open == 0 { "answer-job-in-doubt" } else { "answer-job-in-doubt-open" };
    let level = if one.open == 0 { Level::Remark } else { Level::Look };
    Some(DoubtLine { tester: one.tester, said: Sentence { level, words: words.text_with(key, &args) } })
}

fn board_line(state: &State, judged: &Judged, board: &JudgedBoard) -> BoardLine {
    let tally = Tally::of(judged, std::iter::once(board));
    BoardLine {
        id: board.id,
        name: board.name.clone(),
        summary: with_asked(
            &state.words,
            &tally,
            state.words.text_with(
                "answer-board-summary",
                &[("circuits", tally.circuits.into()), ("done", tally.done.into()), ("readings", tally.of.into())],
            ),
        ),
        sign: tally.sign(),
        look: tally.look,
        stop: tally.stop,
        done: tally.done,
        of: tally.of,
        people: board.people.clone(),
        people_words: people_words(&state.words, judged, &board.people),
    }
}

/// Who does a board; nothing where it is left open.
fn people_words(words: &Words, judged: &Judged, people: &[PersonId]) -> Option<String> {
    let names: Vec<&str> = people.iter().map(|id| judged.person(*id)).collect();
    (!names.is_empty()).then(|| words.text_with("answer-board-for", &[("people", names.join(", ").into())]))
}

/// A sum, and how many new readings are asked for.
fn with_asked(words: &Words, tally: &Tally, sum: String) -> String {
    [Some(sum), tell::asked_for(words, tally)].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// Set and policies in a sentence, and the quick check where one is asked for.
fn rules_words(words: &Words, judged: &Judged) -> String {
    rules_said(words, &judged.set().title, judged.file.job.policies)
}

/// A set, named by its title, and policies in a sentence.
pub(crate) fn rules_said(words: &Words, title: &str, policies: Policies) -> String {
    let rules = words.text_with(
        "answer-rules",
        &[
            ("set", title.into()),
            ("value", words.value_policy(policies.value).into()),
            ("tester", words.tester_policy(policies.tester).into()),
        ],
    );
    match policies.quick_check_days {
        None => rules,
        Some(days) => format!("{rules} · {}", words.text_with("answer-policy-quick-check", &[("days", days.into())])),
    }
}
