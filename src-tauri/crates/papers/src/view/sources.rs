//! Where the limits of a board come from. Nearly always it is one source, said once at the head of each page.

use std::collections::BTreeMap;

use crate::fixed::Fixed;
use crate::report::{Circuit, Limit, Line};

/// Marked sources at most: they stand at the head of every page.
const MARKED_MOST: usize = 4;

/// How a line names the source of its limit.
pub(super) enum Named {
    Usual,
    Marked(String),
    InWords(String),
}

/// The sources of a board's limits, the most frequent one first.
pub(super) struct Sources<'a>(Vec<&'a str>);

impl<'a> Sources<'a> {
    pub(super) fn of(circuits: &'a [Circuit]) -> Self {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for limit in circuits.iter().flat_map(limits) {
            *counts.entry(&limit.source).or_default() += 1;
        }
        let mut sources: Vec<&str> = counts.keys().copied().collect();
        sources.sort_by_key(|source| std::cmp::Reverse(counts.get(source)));
        Self(sources)
    }

    /// The usual source, then with its mark each other one that a line is marked with.
    pub(super) fn legend(&self, circuits: &[Circuit], fixed: &Fixed<'_>) -> Vec<String> {
        let mixed = || circuits.iter().filter(|circuit| self.of_circuit(circuit).is_none());
        let marked = |source: &str| mixed().flat_map(limits).any(|limit| limit.source == source);
        let said =
            self.0.iter().take(MARKED_MOST + 1).enumerate().filter_map(|(index, source)| match (index, self.0.len()) {
                (0, 1) => Some(fixed.with("source", &[("source", source)])),
                (0, _) => Some(fixed.with("source-unmarked", &[("source", source)])),
                _ => marked(source).then(|| format!("{} {source}", letter(index))),
            });
        said.collect()
    }

    /// The one source of a circuit's limits, where it is not the usual one.
    pub(super) fn of_circuit<'c>(&self, circuit: &'c Circuit) -> Option<&'c str> {
        let mut sources = limits(circuit).map(|limit| limit.source.as_str());
        let first = sources.next().filter(|first| self.0.first() != Some(first))?;
        sources.all(|source| source == first).then_some(first)
    }

    /// How a line names its source beside its limit; of a source too rare for a mark, a line says it in words.
    pub(super) fn named(&self, source: &str, fixed: &Fixed<'_>) -> Named {
        match self.0.iter().position(|known| *known == source) {
            Some(0) => Named::Usual,
            Some(index) if index <= MARKED_MOST => Named::Marked(letter(index)),
            _ => Named::InWords(fixed.with("source-of-circuit", &[("source", source)])),
        }
    }
}

fn limits(circuit: &Circuit) -> impl Iterator<Item = &Limit> {
    circuit.lines.iter().filter_map(|line: &Line| line.reading()?.limit.as_ref())
}

/// (a), (b), … for the sources after the usual one.
fn letter(index: usize) -> String {
    let letter = ('a'..='z').nth(index.saturating_sub(1));
    letter.map_or_else(|| format!("({index})"), |letter| format!("({letter})"))
}
