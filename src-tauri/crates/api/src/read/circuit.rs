//! A circuit as typed.

use super::Fields;
use crate::views::CircuitForm;
use provenohm_assess::circuit::{CircuitComplaint, Electrical, Measure, Nominal};
use provenohm_assess::limits::MeasureName;
use provenohm_assess::quantity::Volts;
use provenohm_exchange::job_file::Circuit;
use provenohm_words::Words;

/// What decides limit and pairs, if the form can be a circuit.
pub(crate) fn read_circuit(fields: &mut Fields<'_>, form: &CircuitForm) -> Option<Electrical> {
    let volts = fields.volts("nominal", &form.nominal);
    let to_earth = if form.to_earth.trim().is_empty() { None } else { fields.volts("to_earth", &form.to_earth) };
    let measure = match form.measure {
        MeasureName::None => Some(Measure::None),
        MeasureName::Selv => Some(Measure::Selv),
        MeasureName::Pelv => Some(Measure::Pelv),
        MeasureName::Separation => Some(Measure::Separation),
        MeasureName::Felv if form.felv_supply.trim().is_empty() => {
            fields.complain("felv_supply", "complaint-felv-supply-needed", &[]);
            None
        }
        MeasureName::Felv => fields.volts("felv_supply", &form.felv_supply).map(|volts| {
            let supply = Nominal { volts, current: provenohm_assess::circuit::Current::Ac, to_earth: None };
            Measure::Felv { supply }
        }),
    };
    let (volts, measure) = volts.zip(measure)?;
    let electrical = Electrical {
        nominal: Nominal { volts, current: form.current, to_earth },
        measure,
        conductors: form.conductors,
        loads: form.loads,
        joined_to_earth: form.joined_to_earth,
        spd_stays: form.spd_stays,
        item: form.item,
        location: form.location,
    };
    let complaints = electrical.complaints();
    for complaint in &complaints {
        let (field, said) = circuit_complaint(fields.words, *complaint);
        fields.said(field, said);
    }
    complaints.is_empty().then_some(electrical)
}

/// The field a complaint belongs to, and the complaint in words.
pub(crate) fn circuit_complaint(words: &Words, complaint: CircuitComplaint) -> (&'static str, String) {
    match complaint {
        CircuitComplaint::NotAboveZero => ("nominal", words.text("complaint-above-zero")),
        CircuitComplaint::AboveBound { measure, bound } => {
            let args = [("measure", words.measure_name(measure).into()), ("bound", words.volts(bound).into())];
            ("nominal", words.text_with("complaint-extra-low-bound", &args))
        }
        CircuitComplaint::AboveLowVoltage { bound } => {
            ("nominal", words.text_with("complaint-above-low-voltage", &[("bound", words.volts(bound).into())]))
        }
        CircuitComplaint::ToEarthAbove => ("to_earth", words.text("complaint-to-earth-above")),
        CircuitComplaint::OtherCurrent => ("conductors", words.text("complaint-dc-conductors")),
        CircuitComplaint::Pen { measure } => {
            let args = [("measure", words.measure_name(measure).into())];
            ("conductors", words.text_with("complaint-pen-kept-apart", &args))
        }
    }
}

/// The form a circuit was typed as.
pub(crate) fn circuit_form(circuit: &Circuit) -> CircuitForm {
    let Electrical { nominal, measure, conductors, loads, joined_to_earth, spd_stays, item, location } =
        circuit.electrical.clone();
    let plain = |volts: Volts| volts.0.normalize().to_string();
    CircuitForm {
        reference: circuit.reference.clone(),
        description: circuit.description.clone(),
        nominal: plain(nominal.volts),
        current: nominal.current,
        to_earth: nominal.to_earth.map(plain).unwrap_or_default(),
        measure: measure.name(),
        felv_supply: match measure {
            Measure::Felv { supply } => plain(supply.volts),
            _ => String::new(),
        },
        conductors,
        loads,
        joined_to_earth,
        spd_stays,
        item,
        location,
        notes: circuit.notes.iter().map(|note| note.text.as_str()).collect::<Vec<_>>().join("\n"),
    }
}
