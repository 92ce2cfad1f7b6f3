//! Quantities: digits as shown, and exact decimals as mantissa and scale.

use crate::entry::coded::{coded_enum, coded_map};
use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Percent, Shown, Unit, Volts};
use rust_decimal::Decimal;

coded_enum!(Comparator { 0 = Exact, 1 = MoreThan, 2 = LessThan });
// The number is the power of ten.
coded_enum!(Unit { 0 = Ohm, 3 = KiloOhm, 6 = MegaOhm, 9 = GigaOhm });
coded_map!(Shown { 0: comparator, 1: digits, 2: unit });
coded_newtype!(Ohms, Volts, Percent);

/// `[mantissa, decimals]`: `1.20` is `[120, 2]`.
impl Coded for Digits {
    fn to_value(&self) -> Value {
        Value::Array(vec![self.mantissa().to_value(), self.decimals().to_value()])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let (mantissa, decimals) = two(value)?;
        Self::new(u32::from_value(mantissa)?, u8::from_value(decimals)?).ok_or(Malformed::OutOfBounds("digits"))
    }
}

/// `[mantissa, scale]`, the scale as written: `1.0` and `1.00` are equal and keep their own bytes.
/// A mantissa beyond 64 bits is 16 bytes, most significant first.
impl Coded for Decimal {
    fn to_value(&self) -> Value {
        let mantissa = self.mantissa();
        let mantissa = i64::try_from(mantissa).map_or(Value::Bytes(mantissa.to_be_bytes().to_vec()), Value::Int);
        Value::Array(vec![mantissa, self.scale().to_value()])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let (mantissa, scale) = two(value)?;
        let mantissa = match mantissa {
            Value::Int(small) => i128::from(small),
            large => i128::from_be_bytes(<[u8; 16]>::from_value(large)?),
        };
        Self::try_from_i128_with_scale(mantissa, u32::from_value(scale)?)
            .map_err(|_| Malformed::OutOfBounds("a decimal"))
    }
}

fn two(value: Value) -> Result<(Value, Value), Malformed> {
    let Value::Array(items) = value else { return Err(Malformed::Expected("[mantissa, decimals]")) };
    let [mantissa, decimals] =
        <[Value; 2]>::try_from(items).map_err(|_| Malformed::Expected("[mantissa, decimals]"))?;
    Ok((mantissa, decimals))
}
