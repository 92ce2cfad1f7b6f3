//! What is to be looked at, with its places brought together by board and circuit, so that page 1 can name them all.

use std::collections::{BTreeMap, BTreeSet};

use provenohm_assess::ids::ReadingId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Finding, FindingPlace, Sign, cut};

/// Up to so many places are written out, with the circuit's description and the pair.
const WRITTEN_OUT: usize = 2;
/// Circuits of one finding that page 1 lists; what is left is counted, and marked in the schedule.
const CIRCUITS_LISTED: usize = 60;
/// Characters of a reason on page 1; it stands whole beside its line.
const REASON_MOST: usize = 100;

#[derive(Serialize)]
pub(super) struct FindingView {
    sign: Sign,
    sentence: String,
    places: Vec<String>,
}

/// The circuit of a board with the lines found on it, or none where a line has no reading.
struct Spot<'a> {
    board: &'a str,
    circuit: &'a str,
    reason: Option<&'a str>,
    lines: BTreeSet<u32>,
    places: usize,
}

pub(super) fn view(finding: &Finding, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> FindingView {
    let number = |place: &FindingPlace| place.reading.and_then(|id| numbers.get(&id)).copied();
    let places = if finding.places.len() <= WRITTEN_OUT {
        let said = finding.places.iter().map(|place| {
            let line = number(place).map(|number| BTreeSet::from([number])).unwrap_or_default();
            beside(&place.place, &line, place.reason.as_deref(), fixed)
        });
        said.collect()
    } else {
        listed(&spots(finding, number), fixed)
    };
    FindingView { sign: finding.sign, sentence: finding.sentence.clone(), places }
}

fn spots<'a>(finding: &'a Finding, number: impl Fn(&FindingPlace) -> Option<u32>) -> Vec<Spot<'a>> {
    let mut spots: Vec<Spot<'a>> = Vec::new();
    for place in &finding.places {
        let lines = number(place);
        let reason = place.reason.as_deref();
        let here =
            |spot: &&mut Spot<'_>| (spot.board, spot.circuit, spot.reason) == (&place.board, &place.circuit, reason);
        match spots.last_mut().filter(here) {
            Some(spot) => {
                spot.lines.extend(lines);
                spot.places += 1;
            }
            None => spots.push(Spot {
                board: &place.board,
                circuit: &place.circuit,
                reason,
                lines: lines.into_iter().collect(),
                places: 1,
            }),
        }
    }
    spots
}

/// "7 (No. 197–202; no access)": a place, and in brackets its lines and why.
fn beside(place: &str, lines: &BTreeSet<u32>, reason: Option<&str>, fixed: &Fixed<'_>) -> String {
    let lines = (!lines.is_empty()).then(|| fixed.numbers(lines));
    let said: Vec<String> = lines.into_iter().chain(reason.map(|reason| cut(reason, REASON_MOST))).collect();
    if said.is_empty() { place.to_owned() } else { format!("{place} ({})", said.join("; ")) }
}

/// One entry a board: "DB-3, circuits 7 (No. 197–202), 8 (No. 203–212)".
fn listed(spots: &[Spot<'_>], fixed: &Fixed<'_>) -> Vec<String> {
    let (shown, left) = spots.split_at(spots.len().min(CIRCUITS_LISTED));
    let boards = shown.chunk_by(|one, other| one.board == other.board).map(|spots| {
        let circuits = spots.iter().map(|spot| beside(spot.circuit, &spot.lines, spot.reason, fixed));
        let circuits = circuits.collect::<Vec<_>>().join(", ");
        let board = spots.first().map_or("", |spot| spot.board);
        fixed.counted("finding-board", spots.len(), &[("board", board), ("circuits", &circuits)])
    });
    let more: usize = left.iter().map(|spot| spot.places).sum();
    boards.chain((more > 0).then(|| fixed.counted("finding-more", more, &[]))).collect()
}
