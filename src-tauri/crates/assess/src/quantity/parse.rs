//! Reading quantities from text: every unambiguous form, nothing guessed.

use super::{Amps, Celsius, Comparator, Digits, Farads, Ohms, Percent, Refusal, Shown, Unit, Volts};
use rust_decimal::Decimal;

/// Stated accuracy of a tester: ±(p % of the reading + n steps of the display).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Accuracy {
    /// p.
    pub percent: Percent,
    /// n.
    pub digits: u32,
}

impl Accuracy {
    /// Whether the reading may be as far off as it is high: then no indication proves anything.
    #[must_use]
    pub fn proves_nothing(self) -> bool {
        self.percent.0 >= Decimal::ONE_HUNDRED
    }
}

impl Shown {
    /// Reads `1.20 MΩ`, `> 999 MΩ`, `0,5 Mohm`, `487 k`. Point and comma both mean the decimal sign.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one comparator at most, one to five digits and a unit.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let (comparator, rest) = comparator(text.trim());
        let (digits, unit) = digits(rest)?;
        Ok(Self { comparator, digits, unit: unit_of(unit)? })
    }
}

impl Ohms {
    /// Reads an exact resistance: `0.01 MΩ`.
    ///
    /// # Errors
    /// As [`Shown::parse`], and [`Refusal::NotExact`] for a comparator.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let shown = Shown::parse(text)?;
        if shown.comparator == Comparator::Exact { Ok(shown.ohms()) } else { Err(Refusal::NotExact) }
    }
}

impl Volts {
    /// Reads `230`, `230 V`, `0,5 kV`.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one to five digits, alone or with V or kV.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let (digits, unit) = digits(text.trim())?;
        match unit {
            "" | "V" | "v" => Ok(Self(digits.value())),
            "kV" | "kv" | "KV" => Ok(Self((digits.value() * Unit::KiloOhm.ohms()).normalize())),
            _ => Err(Refusal::UnknownUnit),
        }
    }
}

impl Amps {
    /// Reads `1.02 mA`, `980 µA`, `0,001 A`. The unit decides a factor of a thousand and is never guessed.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one to five digits with A, mA or µA.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let (digits, unit) = digits(text.trim())?;
        let decimals = match unit {
            "" => return Err(Refusal::NoUnit),
            "A" => 0,
            "mA" => 3,
            // U+00B5 is the micro sign of keyboards, U+03BC the Greek letter it is normalised to.
            "µA" | "\u{3bc}A" | "uA" => 6,
            _ => return Err(Refusal::UnknownUnit),
        };
        Ok(Self(digits.value() * Decimal::new(1, decimals)))
    }
}

impl Farads {
    /// Reads `0.3 µF`, `300 nF`, `0,001 F`. The unit decides a factor of a thousand and is never guessed.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one to five digits with F, µF or nF.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let (digits, unit) = digits(text.trim())?;
        let decimals = match unit {
            "" => return Err(Refusal::NoUnit),
            "F" => 0,
            "µF" | "\u{3bc}F" | "uF" => 6,
            "nF" => 9,
            _ => return Err(Refusal::UnknownUnit),
        };
        Ok(Self(digits.value() * Decimal::new(1, decimals)))
    }
}

impl Celsius {
    /// Reads `23`, `-5 °C`, `23,5 °C`.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one to five digits, with a minus or not, alone or with °C.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let text = text.trim();
        let below_zero = ["-", "−"].iter().find_map(|minus| text.strip_prefix(minus));
        let (digits, unit) = digits(below_zero.unwrap_or(text).trim_start())?;
        if !matches!(unit, "" | "°C" | "C") {
            return Err(Refusal::UnknownUnit);
        }
        Ok(Self(if below_zero.is_some() { -digits.value() } else { digits.value() }))
    }
}

impl Percent {
    /// Reads `3`, `3 %`, `2,5%`.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not one to five digits, alone or with a per cent sign.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let (digits, unit) = digits(text.trim())?;
        if matches!(unit, "" | "%") { Ok(Self(digits.value())) } else { Err(Refusal::UnknownUnit) }
    }
}

impl Accuracy {
    /// Reads `3 % + 2`, `±(2,5 % + 3 digits)`, `30 %`.
    ///
    /// # Errors
    /// A [`Refusal`] for whatever is not a percentage with at most a whole number of digits after a plus.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let text = text.trim().trim_start_matches('±').trim_start();
        let text = text.strip_prefix('(').and_then(|t| t.strip_suffix(')')).unwrap_or(text);
        let (percent, steps) = text.split_once('+').map_or((text, None), |(p, n)| (p, Some(n)));
        let steps = steps.map_or(Ok(0), |steps| {
            let (count, unit) = digits(steps.trim())?;
            let whole = count.decimals() == 0;
            let named = matches!(unit, "" | "digit" | "digits" | "dgt" | "d");
            if whole && named { Ok(count.mantissa()) } else { Err(Refusal::NotANumber) }
        })?;
        // A bare figure could as well be steps of the display.
        let percent = if percent.contains('%') { Percent::parse(percent)? } else { return Err(Refusal::NoUnit) };
        Ok(Self { percent, digits: steps })
    }
}

fn comparator(text: &str) -> (Comparator, &str) {
    match text.chars().next() {
        Some('>') => (Comparator::MoreThan, text[1..].trim_start()),
        Some('<') => (Comparator::LessThan, text[1..].trim_start()),
        _ => (Comparator::Exact, text),
    }
}

/// The digits at the head of a text, and the rest of it.
fn digits(text: &str) -> Result<(Digits, &str), Refusal> {
    let is_number = |c: char| c.is_ascii_digit() || is_sign(c) || is_separator(c);
    let end = text.find(|c| !is_number(c)).unwrap_or(text.len());
    let (number, rest) = text.split_at(end);
    let number = number.trim();
    if number.is_empty() {
        let missing = rest.is_empty() || unit_of(rest.trim()).is_ok();
        return Err(if missing { Refusal::NoDigits } else { Refusal::NotANumber });
    }
    let signs = |sign| number.matches(sign).count();
    if number.contains(is_separator) || (signs('.') > 0 && signs(',') > 0) {
        return Err(Refusal::Grouping);
    }
    Ok((Digits::read(&number.replace(',', "."))?, rest.trim()))
}

const fn is_sign(c: char) -> bool {
    matches!(c, '.' | ',')
}

fn is_separator(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\'' | '’' | '_')
}

fn unit_of(text: &str) -> Result<Unit, Refusal> {
    // U+2126 is the ohm sign that Unicode normalisation (NFC) turns into a capital omega.
    let text = text.replace('\u{2126}', "Ω");
    let lower = text.to_ascii_lowercase();
    if matches!(lower.as_str(), "megohm" | "megohms") {
        return Ok(Unit::MegaOhm);
    }
    let prefix = ["ohms", "ohm", "Ω"].iter().find_map(|name| lower.strip_suffix(name));
    let named = prefix.is_some();
    let prefix = &text[..prefix.map_or(text.len(), str::len)];
    match prefix.trim_end() {
        "" if named => Ok(Unit::Ohm),
        "" => Err(Refusal::NoUnit),
        "k" | "K" => Ok(Unit::KiloOhm),
        "M" => Ok(Unit::MegaOhm),
        "G" | "g" => Ok(Unit::GigaOhm),
        "m" => Err(Refusal::Milliohm),
        _ => Err(Refusal::UnknownUnit),
    }
}
