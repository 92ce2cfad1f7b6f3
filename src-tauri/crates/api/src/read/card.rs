//! A tester's card as typed.

use super::Fields;
use crate::views::{CardForm, RangeForm, VoltageForm};
use provenohm_assess::quantity::{Comparator, Ohms, Shown, Volts};
use provenohm_assess::tester::{Card, CardComplaint, Range, VoltageCard};
use provenohm_words::Words;
use std::collections::BTreeSet;

/// The card, if the form can be one.
pub(crate) fn read_card(fields: &mut Fields<'_>, form: &CardForm) -> Option<Card> {
    let mut seen = BTreeSet::new();
    let mut voltages = Vec::new();
    for (index, voltage) in form.voltages.iter().enumerate() {
        let read = read_voltage(fields, index, voltage);
        if let Some(read) = read {
            if !seen.insert(read.test_voltage_v) {
                let volts = fields.words.volts(read.test_voltage_v);
                fields.complain(
                    &format!("voltages.{index}.volts"),
                    "complaint-voltage-twice",
                    &[("volts", volts.into())],
                );
            }
            voltages.push(read);
        }
    }
    let shorted = form.shorted_up_to.trim();
    let shorted_up_to = if shorted.is_empty() { None } else { fields.shown("shorted_up_to", shorted) };
    voltages.sort_by_key(|one| one.test_voltage_v);
    let interval_months = fields.whole("interval_months", &form.interval_months);
    if interval_months == Some(0) {
        fields.complain("interval_months", "complaint-above-zero", &[]);
    }
    Some(Card { voltages, conforms_iec_61557_2: form.conforms, shorted_up_to, interval_months, ranging: form.ranging })
}

fn read_voltage(fields: &mut Fields<'_>, index: usize, form: &VoltageForm) -> Option<VoltageCard> {
    let at = |field: &str| format!("voltages.{index}.{field}");
    let volts = fields.volts(&at("volts"), &form.volts);
    let over = form.over_range.trim().trim_start_matches('>').trim();
    let over_range = if over.is_empty() { None } else { fields.shown(&at("over_range"), over) };
    let mut ranges: Vec<Range> = Vec::new();
    for (place, range) in form.ranges.iter().enumerate() {
        let read = read_range(fields, &at(&format!("ranges.{place}")), range);
        if let (Some(read), Some(before)) = (&read, ranges.last())
            && read.from_ohm < before.to_ohm
        {
            fields.complain(&at(&format!("ranges.{place}.from")), "complaint-ranges-overlap", &[]);
        }
        ranges.extend(read);
    }
    Some(VoltageCard {
        test_voltage_v: volts?,
        ranges,
        over_range: over_range.map(|shown| Shown { comparator: Comparator::MoreThan, ..shown }),
        operating_uncertainty_percent: fields.percent(&at("operating_percent"), &form.operating_percent),
    })
}

fn read_range(fields: &mut Fields<'_>, at: &str, form: &RangeForm) -> Option<Range> {
    let from = fields.ohms(&format!("{at}.from"), &form.from);
    let to = fields.ohms(&format!("{at}.to"), &form.to);
    let resolution = fields.ohms(&format!("{at}.resolution"), &form.resolution);
    let percent = fields.percent(&format!("{at}.percent"), &form.percent);
    let digits = fields.whole(&format!("{at}.digits"), &form.digits);
    // p % without digits is p % + 0.
    let accuracy_digits = digits.or_else(|| percent.map(|_| 0));
    let (from_ohm, to_ohm, resolution_ohm) = (from?, to?, resolution?);
    let range = Range { from_ohm, to_ohm, resolution_ohm, accuracy_percent: percent, accuracy_digits };
    let (field, key) = match range.complaint() {
        None => return Some(range),
        Some(CardComplaint::Step) => ("resolution", "complaint-above-zero"),
        Some(CardComplaint::StepTooLarge) => ("resolution", "complaint-step-too-large"),
        Some(CardComplaint::Accuracy) => ("percent", "complaint-above-zero"),
        // Of one range alone nothing else is complained of.
        Some(_) => ("to", "complaint-ends-turned"),
    };
    fields.complain(&format!("{at}.{field}"), key, &[]);
    None
}

/// The form a card was typed as.
pub(crate) fn card_form(words: &Words, card: Option<&Card>) -> CardForm {
    let Some(card) = card else {
        return CardForm {
            voltages: Vec::new(),
            conforms: false,
            shorted_up_to: String::new(),
            interval_months: String::new(),
            ranging: None,
        };
    };
    let ohms = |ohms: Ohms| words.ohms(ohms);
    let number = |volts: Volts| volts.0.normalize().to_string();
    let voltage = |one: &VoltageCard| VoltageForm {
        volts: number(one.test_voltage_v),
        over_range: one.over_range.map(|shown| words.reading(&shown)).unwrap_or_default(),
        operating_percent: one
            .operating_uncertainty_percent
            .map(|percent| percent.0.normalize().to_string())
            .unwrap_or_default(),
        ranges: one
            .ranges
            .iter()
            .map(|range| RangeForm {
                from: ohms(range.from_ohm),
                to: ohms(range.to_ohm),
                resolution: ohms(range.resolution_ohm),
                percent: range.accuracy_percent.map(|it| it.0.normalize().to_string()).unwrap_or_default(),
                digits: range.accuracy_digits.map(|it| it.to_string()).unwrap_or_default(),
            })
            .collect(),
    };
    CardForm {
        voltages: card.voltages.iter().map(voltage).collect(),
        conforms: card.conforms_iec_61557_2,
        shorted_up_to: card.shorted_up_to.map(|shown| words.reading(&shown)).unwrap_or_default(),
        interval_months: card.interval_months.map(|months| months.to_string()).unwrap_or_default(),
        ranging: card.ranging,
    }
}
