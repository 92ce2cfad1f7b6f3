//! Things to look at, worst first, and the boards at a glance.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedReading};
use crate::ops::run::shown;
use crate::signed::Said;
use crate::state::State;
use crate::tally::Tally;
use crate::tell;
use crate::views::*;
use chrono::NaiveDate;
use provenohm_assess::circuit::Stage;
use provenohm_assess::judge::Severity;
use provenohm_assess::judgement::Level;
use provenohm_exchange::job_file::{Board, Circuit, NotTested};
use provenohm_words::Words;

pub(crate) fn look(state: &mut State, asked: OfJob) -> Result<LookView, Failure> {
    let judged = state.judged(asked.job)?;
    let today = state.host.now().date_naive();
    let said = Said::of(&state.record.view(), asked.job)?;
    let words = &state.words;
    let mut items = to_look_at(words, &judged, Some(today));
    items.splice(0..0, taken_away(words, &judged, today));
    items.extend(missing(words, &judged));
    let tally = Tally::of_job(&judged);
    let all = judged.readings.iter().filter(|one| one.taken.stands()).count();
    let not_tested = items.iter().filter(|item| item.slot.is_some() && item.reading.is_none()).count();
    Ok(LookView {
        job: asked.job,
        words: tell::review_sum(words, &tally),
        as_of: said.stamp(words),
        lacking: said.lacking(words),
        stop: tally.stop,
        look: tally.look,
        accepted: tally.accepted,
        asked: tally.asked,
        not_tested: u32::try_from(not_tested).unwrap_or(u32::MAX),
        all: u32::try_from(all).unwrap_or(u32::MAX),
        items,
        boards: judged.boards.iter().map(|board| board_table(words, &judged, board)).collect(),
    })
}

/// Slots that ask for a look, worst first, then as one walks; those accepted among them.
fn to_look_at(words: &Words, judged: &Judged, today: Option<NaiveDate>) -> Vec<LookItem> {
    let mut items: Vec<(Level, Option<Severity>, LookItem)> = Vec::new();
    for (board, circuit, slot) in judged.slots().filter(|(_, _, slot)| slot.covered_by.is_none()) {
        let place = tell::place(words, judged, &board.name, &circuit.circuit, &slot.pair);
        let item = |reading, shown, level, sentences| LookItem {
            key: slot.id().0,
            board: Some(board.id),
            circuit: Some(circuit.circuit.id),
            slot: Some(slot.id()),
            reading,
            place: place.clone(),
            shown,
            level,
            sentences,
            accepted: slot.accepted(judged).map(|said| tell::accepted(words, judged, said)),
            accepted_before: slot.accepted_before(judged).map(|said| tell::accepted_before(words, judged, said)),
            asked: tell::asked(words, judged, &slot.requests),
        };
        match (slot.reading(judged), &slot.not_tested[..]) {
            (Some(one), _) if one.judgement.level >= Level::Look => {
                let mut sentences = tell::sentences(words, judged, one, today);
                sentences.retain(|sentence| sentence.level >= Level::Look);
                let shown = Some(words.reading(&one.reading.shown));
                let level = one.judgement.level;
                let severity = Some(one.judgement.severity());
                items.push((level, severity, item(Some(one.reading.id), shown, level, sentences)));
            }
            (None, [_, ..]) => {
                let sentence = |said: &NotTested| {
                    let own = (!said.words.is_empty()).then_some(said.words.as_str());
                    Sentence { level: Level::Look, words: words.not_tested(said.reason, own) }
                };
                let sentences = slot.not_tested.iter().map(sentence).collect();
                items.push((Level::Look, None, item(None, None, Level::Look, sentences)));
            }
            _ => {}
        }
    }
    // A stable sort keeps the order one walks among equals.
    items.sort_by(|(a, b, _), (c, d, _)| c.cmp(a).then_with(|| d.cmp(b)));
    items.into_iter().map(|(_, _, item)| item).collect()
}

/// What stops a sign-off on circuits that were taken away. There is no slot to go to: the list of readings to correct
/// has them.
fn taken_away(words: &Words, judged: &Judged, today: NaiveDate) -> Vec<LookItem> {
    let item = |(board, circuit, one): (&Board, &Circuit, &JudgedReading)| {
        let mut sentences = tell::sentences(words, judged, one, Some(today));
        sentences.retain(|sentence| sentence.level >= Level::Look);
        sentences.push(Sentence { level: Level::Remark, words: words.text("answer-circuit-taken-away") });
        LookItem {
            key: format!("gone~{}", one.reading.id),
            board: None,
            circuit: None,
            slot: None,
            reading: Some(one.reading.id),
            place: tell::place(words, judged, &board.name, circuit, &one.reading.pair),
            shown: Some(words.reading(&one.reading.shown)),
            level: Level::Stop,
            sentences,
            accepted: None,
            accepted_before: None,
            asked: None,
        }
    };
    judged.stops_taken_away().map(item).collect()
}

/// Required pairs without a reading, one line a board that was begun.
fn missing(words: &Words, judged: &Judged) -> Vec<LookItem> {
    let of = |board: &JudgedBoard| {
        let open = board.lacking();
        (open > 0).then(|| LookItem {
            key: format!("missing~{}", board.id),
            board: Some(board.id),
            circuit: None,
            slot: None,
            reading: None,
            place: board.name.clone(),
            shown: None,
            level: Level::Look,
            sentences: vec![Sentence {
                level: Level::Look,
                words: words.text_with("answer-missing-readings", &[("count", open.into())]),
            }],
            accepted: None,
            accepted_before: None,
            asked: None,
        })
    };
    judged.boards.iter().filter_map(of).collect()
}

fn board_table(words: &Words, judged: &Judged, board: &JudgedBoard) -> BoardTable {
    let mut pairs: Vec<String> = Vec::new();
    let mut rows = Vec::new();
    for circuit in &board.circuits {
        let mut cells = Vec::new();
        for slot in circuit.slots.iter().filter(|slot| slot.stage == Stage::Before) {
            let pair = tell::pair_name(words, judged, circuit.circuit.id, &slot.pair);
            if !pairs.contains(&pair) {
                pairs.push(pair.clone());
            }
            let shown = shown(words, judged, slot);
            let accepted = slot.accepted(judged).is_some();
            let asked = !slot.requests.is_empty();
            cells.push(BoardCell { slot: slot.id(), pair, sign: slot.sign(judged), shown, accepted, asked });
        }
        rows.push(BoardRow {
            circuit: circuit.circuit.id,
            reference: circuit.circuit.reference.clone(),
            description: circuit.circuit.description.clone(),
            cells,
        });
    }
    let words = tell::review_sum(words, &Tally::of(judged, std::iter::once(board)));
    BoardTable { id: board.id, name: board.name.clone(), words, pairs, rows }
}
