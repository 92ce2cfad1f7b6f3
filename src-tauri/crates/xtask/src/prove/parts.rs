//! The parts of `prove`, and what each of them is to show.
use crate::trouble::Trouble;
use crate::{mobile, node, pdf, run};

use super::{checks, fuzz, mutants, references, tools};

/// One check that can be run by its name.
pub(crate) struct Part {
    pub(crate) name: String,
    /// What the product promises.
    pub(crate) promise: &'static str,
    /// How that is tried.
    pub(crate) how: &'static str,
    pub(crate) run: fn(&Self) -> Result<Told, Trouble>,
    pub(crate) extent: Extent,
}

/// How far the tries go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Extent {
    /// As long as closing a piece of work may take.
    Usual,
    /// A night.
    Long,
}

impl Extent {
    pub(crate) const fn of(self, usual: u64, long: u64) -> u64 {
        match self {
            Self::Usual => usual,
            Self::Long => long,
        }
    }
}

/// What a part that held tells.
pub(crate) struct Told {
    /// How many cases, and of what.
    pub(crate) cases: String,
    /// The command that runs the same cases again.
    pub(crate) replay: String,
}

impl Part {
    /// Whether this name means the part: its own, or that of its group (`fuzz` means `fuzz-entry`).
    pub(crate) fn is_meant_by(&self, name: &str) -> bool {
        self.name.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    }

    /// Whether it is run where no part was named.
    pub(crate) fn is_usual(&self) -> bool {
        self.extent == Extent::Long || self.name != MUTANTS
    }

    pub(crate) fn told(&self, cases: impl Into<String>) -> Told {
        Told { cases: cases.into(), replay: format!("cargo xtask prove {}", self.name) }
    }

    pub(crate) fn told_with_seed(&self, cases: impl Into<String>, seed: u64) -> Told {
        Told { cases: cases.into(), replay: format!("PROVENOHM_SEED={seed} cargo xtask prove {}", self.name) }
    }
}

/// Takes a night by itself.
const MUTANTS: &str = "mutants";

const SURVIVES: &str = "a reading shown as saved survives a killed process";
const DISK: &str = "what was acknowledged survives any fault of the disk, what failed is told, and work goes on";
const SAME: &str = "the same entries and rules show the same record, whatever the order";
const NO_CRASH: &str = "no input can crash it, block it, or make it lose a record";
const ARITHMETIC: &str = "limits, guards and uncertainties are right to the last digit shown";
const FOR_ALL: &str = "every screen can be read and used, in every theme, width and text size";
const PAPER: &str = "what is on paper is archivable as it says";
const KEPT_UP: &str = "what it is built of is known, allowed and used";
const TESTS_BITE: &str = "a change of the judgement or of the record's core is noticed by a test";
const PHONES: &str = "it is written for phones too";

pub(crate) fn all(extent: Extent) -> Result<Vec<Part>, Trouble> {
    let part = |name: &str, promise, how, run| Part { name: name.to_owned(), promise, how, run, extent };
    let mut parts = vec![
        part(
            "kills",
            SURVIVES,
            "the process killed while it saves, takes in, settles, signs or hands over; the record opened again",
            checks::kills,
        ),
        part(
            "kills-hub",
            SURVIVES,
            "a hub, and instances over one database, killed while phones send; the store held against what was acknowledged",
            checks::kills_of_hubs,
        ),
        part(
            "faults",
            DISK,
            "every call of SQLite to the disk failing or half done, a full disk, the power cut at every change; earlier records brought to today in the same way",
            checks::faults,
        ),
        part(
            "schedules",
            SAME,
            "two devices work and exchange; arrival shuffled, the record rebuilt",
            checks::schedules,
        ),
        part(
            "devices",
            SAME,
            "devices that work, exchange, break, are copied and set back, and meet in the end",
            checks::devices,
        ),
        part(
            "references-guards",
            ARITHMETIC,
            "random readings judged in exact fractions by another program",
            references::guards,
        ),
        part(
            "references-budgets",
            ARITHMETIC,
            "random uncertainty budgets combined by the GUM library GTC",
            references::budgets,
        ),
    ];
    for target in fuzz::targets()? {
        parts.push(part(
            &format!("fuzz-{target}"),
            NO_CRASH,
            "inputs grown by coverage, from the kept ones",
            fuzz::live,
        ));
    }
    parts.extend([
        part(
            "api",
            NO_CRASH,
            "requests to a running hub, made from its own description, each answered as that says",
            checks::api,
        ),
        part("axe", FOR_ALL, "every screen in real windows, asked by axe", every_look),
        part(
            "pdf",
            PAPER,
            "an independent validator of PDF/A-3a, and a spoiled document that it must refuse",
            validated,
        ),
        part("deny", KEPT_UP, "licences, sources and bans of every package, by cargo-deny", tools::deny),
        part("unused", KEPT_UP, "dependencies that nothing uses, by cargo-machete", tools::unused),
        part(
            "mobile-check",
            PHONES,
            "the Rust code type-checked for Android and iOS; no C, Kotlin, Swift, no link",
            phones,
        ),
        part(
            MUTANTS,
            TESTS_BITE,
            "judgement and the core of the record changed in one place at a time, by cargo-mutants",
            mutants::mutants,
        ),
        part(
            "coverage",
            "told, not promised",
            "lines and branches that the tests of each crate reach",
            tools::coverage,
        ),
    ]);
    Ok(parts)
}

/// The seed asked for, or a new one.
pub(crate) fn seed() -> Result<u64, Trouble> {
    number_from("PROVENOHM_SEED").map(|asked| asked.unwrap_or_else(now))
}

/// A number from the environment.
pub(crate) fn number_from(name: &str) -> Result<Option<u64>, Trouble> {
    let Ok(text) = std::env::var(name) else { return Ok(None) };
    text.parse().map(Some).map_err(|_| {
        Trouble::new(
            format!("{name} is {text:?}, which is no whole number."),
            format!("set {name} to one, or unset it"),
        )
    })
}

/// Seconds of the wall clock.
#[expect(clippy::disallowed_methods, reason = "a mark in a log and a seed that is printed, nothing of the record")]
pub(crate) fn now() -> u64 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).map_or(0, |since| since.as_secs())
}

fn every_look(part: &Part) -> Result<Told, Trouble> {
    node::ensure()?;
    node::packages()?;
    node::build()?;
    crate::command::shown(&mut crate::command::cargo(&run::BUILD))?;
    let words = ["test", "--workspace", "--locked", "--test", "windows", "--", "screens::", "--include-ignored"];
    let passed = checks::tests(crate::command::cargo(&words).env_remove("PROVENOHM_PICTURES"))?;
    Ok(part.told(format!("{passed} walks through all screens")))
}

fn validated(part: &Part) -> Result<Told, Trouble> {
    let documents = pdf::conforms()?;
    Ok(part.told(format!("{documents} documents and a spoiled one")))
}

fn phones(part: &Part) -> Result<Told, Trouble> {
    mobile::check()?;
    Ok(part.told("2 systems"))
}
