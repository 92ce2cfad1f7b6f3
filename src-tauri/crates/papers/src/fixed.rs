//! The fixed words of the papers, each by its key in the catalogue without the prefix they share.

use std::collections::BTreeSet;

use provenohm_assess::moment::Moment;
use provenohm_words::{Arg, Words};

use crate::report::{Accepted, Circuit, Digest, FindingPlace, Fingerprint};

/// The catalogue, seen from the papers.
pub(crate) struct Fixed<'a> {
    words: &'a Words,
}

impl<'a> Fixed<'a> {
    pub(crate) fn new(words: &'a Words) -> Self {
        Self { words }
    }

    /// The words themselves, for quantities and dates.
    pub(crate) fn words(&self) -> &Words {
        self.words
    }

    pub(crate) fn text(&self, key: &str) -> String {
        self.words.text(&format!("papers-{key}"))
    }

    pub(crate) fn with(&self, key: &str, places: &[(&str, &str)]) -> String {
        let places: Vec<(&str, Arg<'_>)> = places.iter().map(|(name, text)| (*name, Arg::from(*text))).collect();
        self.words.text_with(&format!("papers-{key}"), &places)
    }

    /// A serial number, or that there is none.
    pub(crate) fn serial(&self, serial: &str) -> String {
        if serial.trim().is_empty() { self.text("serial-none") } else { self.with("serial", &[("serial", serial)]) }
    }

    /// A message that counts something, in the plural its number asks for.
    pub(crate) fn counted(&self, key: &str, count: usize, places: &[(&str, &str)]) -> String {
        let places = places.iter().map(|(name, text)| (*name, Arg::from(*text)));
        let places: Vec<(&str, Arg<'_>)> = places.chain([("count", count.into())]).collect();
        self.words.text_with(&format!("papers-{key}"), &places)
    }

    /// "No. 17", "No. 17–19, 23".
    pub(crate) fn numbers(&self, numbers: &BTreeSet<u32>) -> String {
        let sorted: Vec<u32> = numbers.iter().copied().collect();
        let runs = sorted.chunk_by(|one, next| one + 1 == *next).filter_map(|run| match run {
            [] => None,
            [one] => Some(one.to_string()),
            [first, .., last] => Some(format!("{first}–{last}")),
        });
        self.with("line-numbers", &[("numbers", &runs.collect::<Vec<_>>().join(", "))])
    }

    pub(crate) fn date_time(&self, at: Moment) -> String {
        self.words.date_time(at)
    }

    /// What every foot carries: the fingerprint of the record; of a paper made from a file alone its own digest, called so.
    pub(crate) fn fingerprint(&self, record: Option<Fingerprint>, own: &Digest) -> String {
        match record {
            Some(it) => self.with("fingerprint", &[("fingerprint", &it.to_string())]),
            None => self.with("own-fingerprint", &[("fingerprint", &own.fingerprint().to_string())]),
        }
    }

    /// A digest in groups of sixteen.
    pub(crate) fn grouped(digest: &Digest) -> String {
        let groups = digest.as_str().as_bytes().chunks(16);
        groups.map(String::from_utf8_lossy).collect::<Vec<_>>().join(" ")
    }

    /// Who and when, on two lines.
    pub(crate) fn by(&self, at: Moment, person: &str) -> [String; 2] {
        [self.date_time(at), person.to_owned()]
    }

    /// "Accepted by B. Reviewer, 26 Nov 2026, 09:12: an old heating cable".
    pub(crate) fn accepted(&self, said: &Accepted) -> String {
        let time = self.date_time(said.at);
        self.with("accepted", &[("person", &said.person), ("time", &time), ("reason", &said.reason)])
    }

    /// "DB-1 · 7 Sockets · L–PE", with the reason of that place, if it has one.
    pub(crate) fn finding_place(&self, place: &FindingPlace) -> String {
        match &place.reason {
            None => place.place.clone(),
            Some(reason) => self.with("finding-why", &[("place", &place.place), ("reason", reason)]),
        }
    }

    /// The protective measure; of FELV with the supply that decides its limit.
    pub(crate) fn measure(&self, circuit: &Circuit) -> String {
        match &circuit.supply {
            None => circuit.measure.clone(),
            Some(supply) => self.with("measure-supply", &[("measure", &circuit.measure), ("supply", supply)]),
        }
    }

    /// "DB-1, circuit 7, L–PE".
    pub(crate) fn place(&self, board: &str, circuit: &str, pair: &str) -> String {
        self.with("where", &[("board", board), ("circuit", circuit), ("pair", pair)])
    }
}
