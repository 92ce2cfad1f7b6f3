//! A reference as typed.

use super::{Fields, NAME_MOST};
use crate::views::{ReferenceForm, ReferenceKindName, ReferenceValueForm, StatedAs};
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::quantity::{Amps, CoverageFactor, NumberStyle, Ohms, Percent, PpmPerKelvin, PpmPerVolt, Volts};
use provenohm_assess::reference::{
    CurrentRange, KnownResistance, Reference, ReferenceKind, Stated, VoltageRange, is_near,
};
use provenohm_words::Words;
use rust_decimal::Decimal;
use std::collections::BTreeSet;

/// More values than a box has settings that are used.
const MOST_VALUES: usize = 200;

/// The reference, if the form can be one.
pub(crate) fn read_reference(fields: &mut Fields<'_>, form: &ReferenceForm, id: ReferenceId) -> Option<Reference> {
    let name = fields.needed("name", &form.name, "complaint-name-needed");
    let serial = fields.needed("serial", &form.serial, "complaint-needed");
    let certificate = fields.optional("certificate", &form.certificate, NAME_MOST);
    let until = form.valid_until.trim();
    let valid_until = if until.is_empty() { None } else { fields.date("valid_until", until) };
    if form.values.is_empty() {
        fields.complain("values", "complaint-value-needed", &[]);
    }
    if form.values.len() > MOST_VALUES {
        fields.complain("values", "complaint-count", &[("most", MOST_VALUES.into())]);
        return None;
    }
    let what = match form.kind {
        ReferenceKindName::Resistor => ReferenceKind::Resistor { values: resistances(fields, form) },
        ReferenceKindName::DecadeBox => ReferenceKind::DecadeBox { values: resistances(fields, form) },
        ReferenceKindName::Voltmeter | ReferenceKindName::HighVoltageProbe => {
            let ranges = each(fields, form, voltage_range);
            let input = fields.ohms("input_resistance", &form.input_resistance);
            if input.is_some_and(|ohms| ohms.0 <= Decimal::ZERO) {
                fields.complain("input_resistance", "complaint-above-zero", &[]);
            }
            let input_resistance_ohm = input?;
            if form.kind == ReferenceKindName::Voltmeter {
                ReferenceKind::Voltmeter { ranges, input_resistance_ohm }
            } else {
                ReferenceKind::HighVoltageProbe { ranges, input_resistance_ohm }
            }
        }
        ReferenceKindName::CurrentMeter => ReferenceKind::CurrentMeter { ranges: each(fields, form, current_range) },
    };
    let certificate = (!certificate.is_empty()).then_some(certificate);
    Some(Reference { id, name, serial, certificate, valid_until, what })
}

type Read<T> = fn(&mut Value<'_, '_>) -> Option<(Decimal, T)>;

/// Each value or range; none may stand there twice.
fn each<T>(fields: &mut Fields<'_>, form: &ReferenceForm, read: Read<T>) -> Vec<T> {
    let mut seen = BTreeSet::new();
    let mut all = Vec::new();
    for (index, value) in form.values.iter().enumerate() {
        let mut value = Value { fields, form: value, index };
        let Some((nominal, one)) = read(&mut value) else { continue };
        if !seen.insert(nominal) {
            value.complain("nominal", "complaint-value-twice");
        }
        all.push(one);
    }
    all
}

fn resistances(fields: &mut Fields<'_>, form: &ReferenceForm) -> Vec<KnownResistance> {
    each(fields, form, resistance)
}

fn resistance(value: &mut Value<'_, '_>) -> Option<(Decimal, KnownResistance)> {
    let (nominal, stated) = value.nominal_and_stated(Value::ohms)?;
    let (within_percent, within) = value.within(Value::ohms);
    Some((
        nominal,
        KnownResistance {
            nominal_ohm: Ohms(nominal),
            stated_ohm: Ohms(stated),
            within_percent,
            within_ohm: within.map(Ohms),
            stated: value.stated_as(),
            drift_percent: value.percent("drift_percent", &value.form.drift_percent),
            voltage_coefficient: value.number("voltage_coefficient", &value.form.voltage_coefficient).map(PpmPerVolt),
            stated_at_v: value.number("stated_at", &value.form.stated_at).map(Volts),
            temperature_coefficient: value
                .number("temperature_coefficient", &value.form.temperature_coefficient)
                .map(PpmPerKelvin),
            rated_voltage_v: value.number("rated_voltage", &value.form.rated_voltage).map(Volts),
        },
    ))
}

fn voltage_range(value: &mut Value<'_, '_>) -> Option<(Decimal, VoltageRange)> {
    let (nominal, stated) = value.nominal_and_stated(Value::volts)?;
    let (within_percent, within) = value.within(Value::volts);
    Some((
        nominal,
        VoltageRange {
            nominal_v: Volts(nominal),
            stated_v: Volts(stated),
            within_percent,
            within_v: within.map(Volts),
            stated: value.stated_as(),
            resolution_v: value.optional("resolution", &value.form.resolution, Value::volts).map(Volts),
            drift_percent: value.percent("drift_percent", &value.form.drift_percent),
        },
    ))
}

fn current_range(value: &mut Value<'_, '_>) -> Option<(Decimal, CurrentRange)> {
    let (nominal, stated) = value.nominal_and_stated(Value::amps)?;
    let (within_percent, within) = value.within(Value::amps);
    Some((
        nominal,
        CurrentRange {
            nominal_a: Amps(nominal),
            stated_a: Amps(stated),
            within_percent,
            within_a: within.map(Amps),
            stated: value.stated_as(),
            resolution_a: value.optional("resolution", &value.form.resolution, Value::amps).map(Amps),
            drift_percent: value.percent("drift_percent", &value.form.drift_percent),
        },
    ))
}

/// One row of the form while it is read.
struct Value<'f, 'w> {
    fields: &'f mut Fields<'w>,
    form: &'f ReferenceValueForm,
    index: usize,
}

type Quantity<'f, 'w> = fn(&mut Value<'f, 'w>, &str, &str) -> Option<Decimal>;

impl<'f, 'w> Value<'f, 'w> {
    fn place(&self, field: &str) -> String {
        format!("values.{}.{field}", self.index)
    }

    fn complain(&mut self, field: &str, key: &str) {
        let place = self.place(field);
        self.fields.complain(&place, key, &[]);
    }

    /// A certificate states more digits than any tester shows.
    fn ohms(&mut self, field: &str, text: &str) -> Option<Decimal> {
        let place = self.place(field);
        number_with_unit(text, &[("GΩ", 9), ("MΩ", 6), ("kΩ", 3), ("Ω", 0)])
            .or_else(|| self.fields.ohms(&place, text).map(|ohms| ohms.0))
    }

    fn volts(&mut self, field: &str, text: &str) -> Option<Decimal> {
        self.with_unit(field, text, &[("mV", -3), ("kV", 3), ("V", 0), ("", 0)], "complaint-volts-with-unit")
    }

    /// A current has to say its unit: mA and µA are a thousand apart.
    fn amps(&mut self, field: &str, text: &str) -> Option<Decimal> {
        self.with_unit(field, text, &[("mA", -3), ("µA", -6), ("μA", -6), ("uA", -6), ("A", 0)], "complaint-amps")
    }

    fn with_unit(&mut self, field: &str, text: &str, units: &[(&str, i32)], key: &str) -> Option<Decimal> {
        let read = number_with_unit(text, units);
        if read.is_none() {
            self.complain(field, key);
        }
        read
    }

    fn optional(&mut self, field: &str, text: &str, read: Quantity<'f, 'w>) -> Option<Decimal> {
        if text.trim().is_empty() { None } else { read(self, field, text) }
    }

    fn nominal_and_stated(&mut self, read: Quantity<'f, 'w>) -> Option<(Decimal, Decimal)> {
        let form = self.form;
        let nominal = read(self, "nominal", &form.nominal);
        let stated = self.optional("stated", &form.stated, read);
        let nominal = nominal?;
        let stated = stated.unwrap_or(nominal);
        if nominal <= Decimal::ZERO || stated <= Decimal::ZERO {
            self.complain("nominal", "complaint-above-zero");
            return None;
        }
        if !is_near(nominal, stated) {
            self.complain("stated", "complaint-far-from-marked");
            return None;
        }
        Some((nominal, stated))
    }

    fn within(&mut self, read: Quantity<'f, 'w>) -> (Option<Percent>, Option<Decimal>) {
        let form = self.form;
        (self.percent("within_percent", &form.within_percent), self.optional("within", &form.within, read))
    }

    fn percent(&mut self, field: &str, text: &str) -> Option<Percent> {
        let place = self.place(field);
        self.fields.percent(&place, text)
    }

    fn stated_as(&mut self) -> Stated {
        if self.form.stated_as == StatedAs::Tolerance {
            return Stated::Tolerance;
        }
        let k = self.number("k", &self.form.k).unwrap_or(Decimal::TWO);
        if k < Decimal::ONE {
            self.complain("k", "complaint-coverage-factor");
        }
        Stated::Expanded { k: CoverageFactor(k) }
    }

    /// A bare number from zero up; nothing where the field is empty.
    fn number(&mut self, field: &str, text: &str) -> Option<Decimal> {
        let text = text.trim();
        if text.is_empty() {
            return None;
        }
        let read = text.replace(',', ".").parse().ok().filter(|number: &Decimal| *number >= Decimal::ZERO);
        if read.is_none() {
            self.complain(field, "complaint-number");
        }
        read
    }
}

/// A number that ends in one of these units, as so many of the unit without a prefix.
fn number_with_unit(text: &str, units: &[(&str, i32)]) -> Option<Decimal> {
    units.iter().find_map(|(unit, power)| {
        let number = text.trim().strip_suffix(unit)?.trim_end();
        scaled(number.replace(',', ".").parse().ok()?, *power)
    })
}

/// A number times a power of ten, if it stays within what can be reckoned with.
fn scaled(number: Decimal, power: i32) -> Option<Decimal> {
    let factor = Decimal::from(10_u64.pow(power.unsigned_abs()));
    let scaled = if power < 0 { number.checked_div(factor) } else { number.checked_mul(factor) };
    scaled.map(|it| it.normalize()).filter(|it| it.is_sign_positive())
}

/// The form a reference was typed as.
pub(crate) fn reference_form(words: &Words, reference: &Reference) -> ReferenceForm {
    let kind = match &reference.what {
        ReferenceKind::Resistor { .. } => ReferenceKindName::Resistor,
        ReferenceKind::DecadeBox { .. } => ReferenceKindName::DecadeBox,
        ReferenceKind::Voltmeter { .. } => ReferenceKindName::Voltmeter,
        ReferenceKind::HighVoltageProbe { .. } => ReferenceKindName::HighVoltageProbe,
        ReferenceKind::CurrentMeter { .. } => ReferenceKindName::CurrentMeter,
    };
    let style = plain(words);
    let volts = |volts: Volts| volts.print(style);
    let amps = |amps: Amps| amps.print(style);
    let values = match &reference.what {
        ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values } => {
            values.iter().map(|value| resistance_form(words, value)).collect()
        }
        ReferenceKind::Voltmeter { ranges, .. } | ReferenceKind::HighVoltageProbe { ranges, .. } => ranges
            .iter()
            .map(|range| ReferenceValueForm {
                nominal: volts(range.nominal_v),
                stated: volts(range.stated_v),
                within: range.within_v.map(volts).unwrap_or_default(),
                resolution: range.resolution_v.map(volts).unwrap_or_default(),
                ..common(range.stated, range.within_percent, range.drift_percent)
            })
            .collect(),
        ReferenceKind::CurrentMeter { ranges } => ranges
            .iter()
            .map(|range| ReferenceValueForm {
                nominal: amps(range.nominal_a),
                stated: amps(range.stated_a),
                within: range.within_a.map(amps).unwrap_or_default(),
                resolution: range.resolution_a.map(amps).unwrap_or_default(),
                ..common(range.stated, range.within_percent, range.drift_percent)
            })
            .collect(),
    };
    ReferenceForm {
        kind,
        name: reference.name.clone(),
        serial: reference.serial.clone(),
        certificate: reference.certificate.clone().unwrap_or_default(),
        valid_until: reference.valid_until.map(|day| words.date(day)).unwrap_or_default(),
        input_resistance: reference.input_resistance().map(|ohms| ohms.print(style)).unwrap_or_default(),
        values,
    }
}

fn resistance_form(words: &Words, value: &KnownResistance) -> ReferenceValueForm {
    let style = plain(words);
    ReferenceValueForm {
        nominal: value.nominal_ohm.print(style),
        stated: value.stated_ohm.print(style),
        within: value.within_ohm.map(|ohms| ohms.print(style)).unwrap_or_default(),
        voltage_coefficient: bare(value.voltage_coefficient.map(|it| it.0)),
        stated_at: bare(value.stated_at_v.map(|it| it.0)),
        temperature_coefficient: bare(value.temperature_coefficient.map(|it| it.0)),
        rated_voltage: bare(value.rated_voltage_v.map(|it| it.0)),
        ..common(value.stated, value.within_percent, value.drift_percent)
    }
}

/// Text that is read back is never grouped.
fn plain(words: &Words) -> NumberStyle {
    NumberStyle::plain(words.numbers().sign)
}

/// What values of every kind have.
fn common(stated: Stated, within: Option<Percent>, drift: Option<Percent>) -> ReferenceValueForm {
    let (stated_as, k) = match stated {
        Stated::Expanded { k } => (StatedAs::Expanded, bare(Some(k.0))),
        Stated::Tolerance => (StatedAs::Tolerance, String::new()),
    };
    ReferenceValueForm {
        within_percent: bare(within.map(|it| it.0)),
        stated_as,
        k,
        drift_percent: bare(drift.map(|it| it.0)),
        ..ReferenceValueForm::empty()
    }
}

fn bare(number: Option<Decimal>) -> String {
    number.map(|it| it.normalize().to_string()).unwrap_or_default()
}

impl ReferenceValueForm {
    /// A row to fill in.
    pub(crate) fn empty() -> Self {
        Self {
            nominal: String::new(),
            stated: String::new(),
            within_percent: String::new(),
            within: String::new(),
            stated_as: StatedAs::Expanded,
            k: String::new(),
            drift_percent: String::new(),
            voltage_coefficient: String::new(),
            stated_at: String::new(),
            temperature_coefficient: String::new(),
            rated_voltage: String::new(),
            resolution: String::new(),
        }
    }
}

impl ReferenceForm {
    /// The form a new reference starts with.
    pub(crate) fn fresh() -> Self {
        Self {
            kind: ReferenceKindName::Resistor,
            name: String::new(),
            serial: String::new(),
            certificate: String::new(),
            valid_until: String::new(),
            input_resistance: String::new(),
            values: vec![ReferenceValueForm::empty()],
        }
    }
}
