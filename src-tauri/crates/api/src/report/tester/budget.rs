//! A budget line by line, each with what its standard uncertainty was made from.

use super::{Telling, figure};
use crate::ops::bench::figures::{In, number, shape_key, unit_of};
use provenohm_assess::bench::Influence;
use provenohm_assess::reference::{ReferenceKind, Stated};
use provenohm_assess::uncertainty::{Budget, Input, Shape};
use provenohm_papers::report::Fact;
use provenohm_papers::tester_report::{BudgetLine, BudgetTable};
use rust_decimal::prelude::ToPrimitive;

impl Telling<'_> {
    pub(super) fn budget(&self, title: String, budget: &Budget<Influence>, unit: In) -> BudgetTable {
        let words = self.words;
        let dof = |dof: Option<f64>| dof.map_or_else(|| "∞".to_owned(), |dof| number(words, dof));
        let lines = budget.lines.iter().map(|line| {
            let input = &line.input;
            let of = unit_of(input.what, &self.about);
            let (half_width, divisor) = self.made_from(input, of);
            BudgetLine {
                input: words.bench_influence(input.what, &self.about),
                estimate: figure::value(words, input.estimate, of),
                distribution: words.text(shape_key(input.shape)),
                half_width,
                divisor,
                standard: figure::uncertainty(words, input.standard, of),
                sensitivity: figure::factor(words, input.sensitivity),
                contribution: figure::uncertainty(words, line.contribution, unit),
                dof: dof(input.dof),
            }
        });
        let sum = |key: &str, text: String| Fact { label: words.text(key), text };
        let k = if budget.dominated { "answer-result-k-rectangular" } else { "answer-result-k" };
        BudgetTable {
            title,
            lines: lines.collect(),
            sums: vec![
                sum("answer-result-standard", figure::uncertainty(words, budget.standard, unit)),
                sum("answer-result-dof", dof(budget.dof)),
                sum(k, number(words, budget.k)),
                sum("answer-result-expanded", figure::uncertainty(words, budget.expanded, unit)),
            ],
        }
    }

    /// Half-width or U, and what it was divided by to get u; nothing where u was found directly.
    fn made_from(&self, input: &Input<Influence>, unit: In) -> (String, String) {
        let (by, sign) = match input.shape {
            Shape::Rectangular => (3_f64.sqrt(), "√3".to_owned()),
            Shape::Triangular => (6_f64.sqrt(), "√6".to_owned()),
            Shape::Arcsine => (2_f64.sqrt(), "√2".to_owned()),
            Shape::Normal => match self.stated_k(input.what) {
                Some(k) => (k, number(self.words, k)),
                None => return (String::new(), String::new()),
            },
        };
        (figure::uncertainty(self.words, input.standard * by, unit), sign)
    }

    /// The k of a certificate, where all it says of that figure has the same.
    fn stated_k(&self, influence: Influence) -> Option<f64> {
        let reference = |id| self.about.references.iter().find(|one| one.id == id);
        let stated: Vec<Stated> = match influence {
            Influence::Reference { resistor } => {
                vec![reference(resistor.reference)?.resistance(resistor.nominal_ohm)?.stated]
            }
            Influence::Meter { reference: id } => match &reference(id)?.what {
                ReferenceKind::Voltmeter { ranges, .. } | ReferenceKind::HighVoltageProbe { ranges, .. } => {
                    ranges.iter().map(|range| range.stated).collect()
                }
                ReferenceKind::CurrentMeter { ranges } => ranges.iter().map(|range| range.stated).collect(),
                _ => return None,
            },
            _ => return None,
        };
        let first = *stated.first()?;
        match first {
            Stated::Expanded { k } if stated.iter().all(|it| *it == first) => k.0.to_f64(),
            _ => None,
        }
    }
}
