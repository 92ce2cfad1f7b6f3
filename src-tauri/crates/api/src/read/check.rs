//! A quick check as typed.

use super::Fields;
use crate::views::{QuickCheckForm, QuickPointForm};
use provenohm_assess::quantity::{Shown, Volts};
use provenohm_assess::tester::{Card, Point, VoltageCard, check_uncertainty};

/// What a quick check showed.
pub(crate) struct QuickCheckRead {
    /// What the box was read at.
    pub(crate) volts: Option<Volts>,
    /// What was shown at the box's resistances, judged against the card.
    pub(crate) points: Vec<Point>,
    /// With the leads open.
    pub(crate) open: Option<Shown>,
    /// With the leads shorted.
    pub(crate) shorted: Option<Shown>,
}

/// The quick check, if the form can be one. Resistances of the box that were not read are left out.
pub(crate) fn read_quick_check(fields: &mut Fields<'_>, form: &QuickCheckForm, card: &Card) -> Option<QuickCheckRead> {
    let open = shown(fields, "open", &form.open);
    let shorted = shown(fields, "shorted", &form.shorted);
    let read: Vec<(usize, &QuickPointForm)> =
        form.points.iter().enumerate().filter(|(_, point)| !point.shown.trim().is_empty()).collect();
    if read.is_empty() && open.is_none() && shorted.is_none() {
        fields.complain("points", "complaint-nothing-checked", &[]);
        return None;
    }
    if read.is_empty() {
        return Some(QuickCheckRead { volts: None, points: Vec::new(), open, shorted });
    }
    let volts = fields.volts("volts", &form.volts)?;
    let Some(at_voltage) = card.voltages.iter().find(|one| one.test_voltage_v == volts) else {
        fields.complain("volts", "complaint-not-on-card", &[("volts", fields.words.volts(volts).into())]);
        return None;
    };
    let points: Vec<Option<Point>> =
        read.into_iter().map(|(index, point)| read_point(fields, index, point, at_voltage)).collect();
    let points = points.into_iter().collect::<Option<_>>()?;
    Some(QuickCheckRead { volts: Some(volts), points, open, shorted })
}

fn read_point(fields: &mut Fields<'_>, index: usize, form: &QuickPointForm, card: &VoltageCard) -> Option<Point> {
    let at = |field: &str| format!("points.{index}.{field}");
    let reference_ohm = fields.ohms(&at("known"), &form.known);
    let indicated = fields.shown(&at("shown"), &form.shown);
    let known_percent = fields.percent(&at("uncertainty_percent"), &form.uncertainty_percent);
    let (reference_ohm, indicated) = reference_ohm.zip(indicated)?;
    let error_uncertainty_percent = known_percent.and_then(|known| check_uncertainty(known, reference_ohm, indicated));
    let Some(good) = card.permits(reference_ohm, indicated) else {
        fields.complain(&at("shown"), "complaint-no-accuracy-there", &[]);
        return None;
    };
    Some(Point { reference_ohm, indicated, good, error_uncertainty_percent })
}

/// An indication; nothing where the field is empty.
fn shown(fields: &mut Fields<'_>, field: &str, text: &str) -> Option<Shown> {
    if text.trim().is_empty() { None } else { fields.shown(field, text) }
}
