//! Combines uncertainty budgets for another program to compare: a JSON list of inputs a line in, a budget a line out.
//! `cargo xtask prove references` starts it.
use provenohm_assess::uncertainty::{Budget, Input};
use serde::Deserialize;
use std::error::Error;
use std::io::{BufRead, Write};

/// An input as it is stated.
#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
enum Stated {
    Normal { estimate: f64, expanded: f64, k: f64, dof: Option<f64>, sensitivity: f64 },
    Rectangular { estimate: f64, half_width: f64, sensitivity: f64 },
    Triangular { estimate: f64, half_width: f64, sensitivity: f64 },
    Arcsine { estimate: f64, half_width: f64, sensitivity: f64 },
    Repeated { values: Vec<f64>, sensitivity: f64 },
}

impl Stated {
    fn input(self, number: usize) -> Result<Input<usize>, Box<dyn Error>> {
        Ok(match self {
            Self::Normal { estimate, expanded, k, dof, sensitivity } => {
                let input = Input::normal(number, estimate, expanded, k).with_sensitivity(sensitivity);
                dof.map_or(input.clone(), |dof| input.with_dof(dof))
            }
            Self::Rectangular { estimate, half_width, sensitivity } => {
                Input::rectangular(number, estimate, half_width).with_sensitivity(sensitivity)
            }
            Self::Triangular { estimate, half_width, sensitivity } => {
                Input::triangular(number, estimate, half_width).with_sensitivity(sensitivity)
            }
            Self::Arcsine { estimate, half_width, sensitivity } => {
                Input::arcsine(number, estimate, half_width).with_sensitivity(sensitivity)
            }
            Self::Repeated { values, sensitivity } => {
                Input::repeated(number, &values).ok_or("fewer than two values")?.with_sensitivity(sensitivity)
            }
        })
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        let stated: Vec<Stated> = serde_json::from_str(&line?)?;
        let inputs = stated.into_iter().enumerate().map(|(number, stated)| stated.input(number));
        let budget = Budget::combine(inputs.collect::<Result<_, _>>()?);
        serde_json::to_writer(&mut out, &budget)?;
        out.write_all(b"\n")?;
    }
    Ok(out.flush()?)
}
