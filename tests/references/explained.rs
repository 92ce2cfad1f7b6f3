//! Explains readings for another program to compare: one JSON object a line in, one a line out. `cargo xtask prove references`
//! starts it.
use provenohm_api::headless::{ExplainAsked, LimitAsked, SetAsked, explain};
use provenohm_assess::circuit::{Current, Loads, Stage};
use provenohm_assess::limits::MeasureName;
use provenohm_assess::policy::ValuePolicy;
use provenohm_assess::quantity::{Accuracy, Ohms, Shown, Volts};
use serde::Deserialize;
use std::error::Error;
use std::io::{BufRead, Write};

/// What a person would type.
#[derive(Deserialize)]
struct Asked {
    reading: String,
    set: String,
    nominal: String,
    measure: MeasureName,
    supply: Option<String>,
    accuracy: Option<String>,
    resolution: String,
    policy: ValuePolicy,
}

impl Asked {
    fn read(&self) -> Result<ExplainAsked, Box<dyn Error>> {
        Ok(ExplainAsked {
            pair: None,
            shown: Shown::parse(&self.reading)?,
            limit: LimitAsked {
                stage: Stage::Before,
                set: SetAsked::Shipped(self.set.clone()),
                nominal_v: Volts::parse(&self.nominal)?,
                measure: self.measure,
                current: Current::Ac,
                to_earth_v: None,
                supply_v: self.supply.as_deref().map(Volts::parse).transpose()?,
                loads: Loads::Out,
                item: None,
                conductors: None,
            },
            accuracy: self.accuracy.as_deref().map(Accuracy::parse).transpose()?,
            resolution: Some(Ohms::parse(&self.resolution)?),
            policy: self.policy,
            taken_v: None,
            reduced: None,
        })
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        let asked: Asked = serde_json::from_str(&line?)?;
        let told = explain(&asked.read()?)?;
        serde_json::to_writer(&mut out, &told)?;
        out.write_all(b"\n")?;
    }
    Ok(out.flush()?)
}
