//! Which test voltage the slot asks for, and whether the tester has to be set first.

use super::hand::{Hand, Seat};
use crate::judged::{Judged, JudgedCircuit, Slot};
use crate::views::{AskVolts, VoltsChoice};
use provenohm_assess::limits::{ReducedReason, Under};
use provenohm_assess::quantity::Volts;
use provenohm_words::Words;
use rust_decimal::prelude::ToPrimitive;

/// Test voltages to choose from where the tester's card names none (common practice).
const USUAL: [u32; 4] = [100, 250, 500, 1000];

/// A test voltage as people say it.
pub(crate) fn whole(volts: Volts) -> Option<u32> {
    volts.0.to_u32()
}

/// Why the reduced test voltage applies: said for this run, or by the circuit's surge protector that stays.
pub(crate) fn reduced(judged: &Judged, circuit: &JudgedCircuit, slot: &Slot, seat: &Seat) -> Option<ReducedReason> {
    let rule = rule(judged, circuit, slot)?;
    let stays = circuit.circuit.electrical.spd_stays.then_some(ReducedReason::SurgeProtector);
    seat.reduced.or(stays).filter(|reason| rule.1.contains(reason))
}

fn rule(judged: &Judged, circuit: &JudgedCircuit, slot: &Slot) -> Option<(u32, Vec<ReducedReason>)> {
    let under = Under { stage: slot.stage, loads: circuit.circuit.electrical.loads };
    let limit = judged.set().limit_for(&slot.pair, under, |id| judged.electrical(id)).ok()?;
    let (rule, _) = limit.reduced?;
    Some((whole(rule.volts)?, rule.reasons.clone()))
}

/// Reasons the set allows for a reduced voltage here.
pub(crate) fn reduced_reasons(judged: &Judged, circuit: &JudgedCircuit, slot: &Slot) -> Vec<ReducedReason> {
    rule(judged, circuit, slot).map(|(_, reasons)| reasons).unwrap_or_default()
}

/// The test voltage a slot asks for, V; none where the set states none.
pub(crate) fn asked(judged: &Judged, circuit: &JudgedCircuit, slot: &Slot, seat: &Seat) -> Option<u32> {
    let full = slot.limit.as_ref().and_then(|limit| limit.test_voltage_v).and_then(whole);
    match reduced(judged, circuit, slot, seat) {
        Some(_) => rule(judged, circuit, slot).map(|(volts, _)| volts).or(full),
        None => full,
    }
}

/// Whether the tester has to be set before anything is saved.
pub(crate) fn must_set(hand: &Hand, asked: Option<u32>) -> bool {
    match (hand.volts, asked) {
        (None, _) => true,
        (Some(_), None) => false,
        (Some(set), Some(asked)) => set != asked && hand.asked != Some(asked),
    }
}

/// What the pad shows until that is answered.
pub(crate) fn ask(words: &Words, judged: &Judged, hand: &Hand, asked: Option<u32>) -> Option<AskVolts> {
    if !must_set(hand, asked) {
        return None;
    }
    let choices = choices(words, judged, hand);
    let volts = asked.or_else(|| choices.iter().map(|one| one.volts).find(|volts| *volts == 500)).unwrap_or(500);
    let words = words.text_with("answer-tester-set-to", &[("volts", words.volts(Volts(volts.into())).into())]);
    Some(AskVolts { words, volts, others: choices.into_iter().filter(|one| one.volts != volts).collect() })
}

/// The test voltages of the tester in hand.
pub(crate) fn choices(words: &Words, judged: &Judged, hand: &Hand) -> Vec<VoltsChoice> {
    let card = hand.tester.and_then(|id| judged.history(id)).and_then(|history| history.card.as_ref());
    let own: Vec<u32> =
        card.iter().flat_map(|card| &card.voltages).filter_map(|one| whole(one.test_voltage_v)).collect();
    let all = if own.is_empty() { USUAL.to_vec() } else { own };
    all.into_iter().map(|volts| VoltsChoice { volts, words: words.volts(Volts(volts.into())) }).collect()
}
