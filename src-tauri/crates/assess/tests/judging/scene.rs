//! One reading of 1.0 MΩ asked at 500 V, taken on 1 June 2026 at noon with a tester that is proved for everything,
//! unless a case says otherwise.

use chrono::{DateTime, NaiveDate};
use provenohm_assess::circuit::{Conductor, End, Pair, Stage, Terminal};
use provenohm_assess::ids::{CheckId, CircuitId, DamageId, PersonId, ReadingId, TesterId, VerificationId};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::judgement::{Judgement, Level, TesterState, Value};
use provenohm_assess::limits::{Limit, ReducedReason, Source, Tag};
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::{Ohms, Percent, Shown, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_assess::tester::{
    Card, Damage, Holds, Interval, LeadCheck, LeadEnd, Outcome, Point, Prepared, ProofEvent, ProofKind, QuickCheck,
    Range, Requirement, RequirementName, RequirementResult, Statement, TesterHistory, Verification, VoltageCard,
    VoltageFinding,
};
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use uuid::Uuid;

pub const TESTER: TesterId = TesterId(Uuid::from_u128(1));

pub fn dec(text: &str) -> Decimal {
    text.parse().unwrap_or_else(|e| panic!("{text}: {e}"))
}

pub fn mega(text: &str) -> Ohms {
    Ohms((dec(text) * dec("1000000")).normalize())
}

pub fn volts(v: u32) -> Volts {
    Volts(v.into())
}

/// `"1.20"`, `"> 999"`: in MΩ.
pub fn shown(text: &str) -> Shown {
    Shown::parse(&format!("{text} MΩ")).unwrap_or_else(|e| panic!("{text}: {e}"))
}

pub fn moment(text: &str) -> Moment {
    DateTime::parse_from_rfc3339(&format!("{text}:00Z")).unwrap_or_else(|e| panic!("{text}: {e}"))
}

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap_or_else(|e| panic!("{text}: {e}"))
}

pub fn on(text: &str) -> When {
    When::Day { date: day(text), offset_minutes: 0 }
}

pub fn limit(mega_ohms: &str, v: u32) -> Limit {
    Limit {
        minimum_ohm: mega(mega_ohms),
        test_voltage_v: Some(volts(v)),
        set: "a set".to_owned(),
        source: Source { title: "a set".to_owned(), place: String::new(), tag: Tag::User },
    }
}

/// Good in these intervals, in MΩ.
pub fn holds(intervals: &[(&str, &str)]) -> Statement {
    let interval = |(from, to): &(&str, &str)| Interval { from_ohm: mega(from), to_ohm: mega(to), conditional: false };
    Statement {
        outcome: Outcome::Good,
        holds: Holds::In(intervals.iter().map(interval).collect()),
        ..Statement::default()
    }
}

/// Good everywhere.
pub fn everywhere() -> Statement {
    holds(&[("0", "1000000")])
}

pub fn outcome(outcome: Outcome) -> Statement {
    Statement { outcome, ..Statement::default() }
}

/// Adds a point: what it showed at a known resistance, in MΩ, and whether that was good.
pub fn point(mut s: Statement, reference: &str, indicated: &str, good: bool) -> Statement {
    s.points.push(Point {
        reference_ohm: mega(reference),
        indicated: shown(indicated),
        good,
        error_uncertainty_percent: None,
    });
    s
}

pub fn requirement(mut s: Statement, name: RequirementName, result: RequirementResult, tag: Tag) -> Statement {
    s.requirements.push(Requirement { name, result, tag });
    s
}

/// A calibration or bench check at 500 V, made on a day, valid to another.
pub struct Proof(pub Verification);

impl Proof {
    pub fn new(id: u128, kind: ProofKind, made: When, valid_until: &str) -> Self {
        Self(Verification {
            id: VerificationId(Uuid::from_u128(id)),
            tester: TESTER,
            kind,
            made,
            valid_until: Some(day(valid_until)),
            by: "a bench".to_owned(),
            certificate: None,
            adjusted: false,
            overall: Outcome::NotStated,
            findings: Vec::new(),
            recorded_at: moment("2026-01-02T00:00"),
        })
    }

    pub fn laboratory(id: u128, made: &str, valid_until: &str) -> Self {
        Self::new(id, ProofKind::Calibration, on(made), valid_until)
    }

    pub fn bench(id: u128, made: &str, valid_until: &str) -> Self {
        Self::new(id, ProofKind::Bench, on(made), valid_until)
    }

    pub fn with(mut self, change: impl FnOnce(&mut Verification)) -> Self {
        change(&mut self.0);
        self
    }

    pub fn adjusted(self) -> Self {
        self.with(|v| v.adjusted = true)
    }

    fn finding(mut self, v: u32, as_found: Option<Statement>, as_left: Option<Statement>) -> Self {
        self.0.findings.push(VoltageFinding { test_voltage_v: volts(v), as_found, as_left });
        self
    }

    pub fn found(self, s: Statement) -> Self {
        self.finding(500, Some(s), None)
    }

    pub fn found_and_left(self, found: Statement, left: Statement) -> Self {
        self.finding(500, Some(found), Some(left))
    }

    pub fn left(self, s: Statement) -> Self {
        self.finding(500, None, Some(s))
    }

    pub fn left_at(self, v: u32, s: Statement) -> Self {
        self.finding(v, None, Some(s))
    }
}

#[derive(Clone, Debug)]
pub struct Scene {
    pub reading: Reading,
    pub wanted: Wanted,
    pub history: TesterHistory,
    pub policies: Policies,
    pub known: Known,
}

impl Scene {
    pub fn new(text: &str) -> Self {
        let live = Terminal::Live { circuit: CircuitId(Uuid::from_u128(7)), conductor: Conductor::L };
        let reading = Reading {
            id: ReadingId(Uuid::from_u128(100)),
            shown: shown(text),
            pair: Pair { a: End(BTreeSet::from([live])), b: End(BTreeSet::from([Terminal::Earth])) },
            stage: Stage::Before,
            test_voltage_v: volts(500),
            tester: Some(TESTER),
            person: PersonId(Uuid::from_u128(3)),
            at: moment("2026-06-01T12:00"),
            conditions: Conditions::default(),
        };
        let wanted = Wanted { limit: Some(limit("1", 500)), ..Wanted::default() };
        let history = TesterHistory { tester: TESTER, card: None, events: Vec::new(), lead_checks: Vec::new() };
        let scene = Self { reading, wanted, history, policies: Policies::default(), known: Known::default() };
        let proof = [100, 250, 1000]
            .into_iter()
            .fold(Proof::laboratory(10, "2026-01-01", "2026-12-31").left(everywhere()), |p, v| {
                p.left_at(v, everywhere())
            });
        scene.proof(proof)
    }

    /// Nothing on record of the tester but what the case adds.
    pub fn bare(text: &str) -> Self {
        let mut scene = Self::new(text);
        scene.history.events.clear();
        scene
    }

    pub fn with(mut self, change: impl FnOnce(&mut Self)) -> Self {
        change(&mut self);
        self
    }

    pub fn proof(mut self, proof: Proof) -> Self {
        self.history.events.push(ProofEvent::Verification(proof.0));
        self
    }

    pub fn at(self, time: &str) -> Self {
        self.with(|s| s.reading.at = moment(time))
    }

    pub fn volts(self, v: u32) -> Self {
        self.with(|s| s.reading.test_voltage_v = volts(v))
    }

    pub fn guarded(self) -> Self {
        self.with(|s| s.policies.value = ValuePolicy::Guarded)
    }

    pub fn policy(self, policy: TesterPolicy) -> Self {
        self.with(|s| s.policies.tester = policy)
    }

    pub fn card(&mut self) -> &mut Card {
        self.history.card.get_or_insert_default()
    }

    /// A card of one range at 500 V, 0 to 999 MΩ, steps of 0.01 MΩ, ±(3 % + 2 digits).
    pub fn with_accuracy(mut self) -> Self {
        self.card().voltages.push(VoltageCard {
            test_voltage_v: volts(500),
            ranges: vec![range("0", "999", "0.01", Some(("3", 2)))],
            over_range: Some(shown("> 999")),
            operating_uncertainty_percent: None,
        });
        self
    }

    pub fn conforming(mut self) -> Self {
        self.card().conforms_iec_61557_2 = true;
        self
    }

    /// The set allows 250 V with 1 MΩ for surge protectors.
    pub fn reduced_rule(self) -> Self {
        self.with(|s| s.wanted.reduced = Some((limit("1", 250), vec![ReducedReason::SurgeProtector])))
    }

    pub fn leads(mut self, id: u128, leads: LeadEnd, time: &str, good: bool) -> Self {
        let text = if leads == LeadEnd::Open { "> 999" } else { "0.00" };
        self.history.lead_checks.push(LeadCheck {
            id: CheckId(Uuid::from_u128(id)),
            tester: TESTER,
            leads,
            shown: shown(text),
            good,
            person: PersonId(Uuid::from_u128(3)),
            at: moment(time),
            job_started: None,
        });
        self
    }

    pub fn quick(mut self, id: u128, from: &str, to: &str, time: &str, good: bool) -> Self {
        self.history.events.push(ProofEvent::QuickCheck(QuickCheck {
            id: CheckId(Uuid::from_u128(id)),
            tester: TESTER,
            test_voltage_v: volts(500),
            from_ohm: mega(from),
            to_ohm: mega(to),
            good,
            at: moment(time),
            points: Vec::new(),
        }));
        self
    }

    pub fn damage(mut self, id: u128, happened: Option<&str>, found: &str) -> Self {
        self.history.events.push(ProofEvent::Damage(Damage {
            id: DamageId(Uuid::from_u128(id)),
            tester: TESTER,
            happened: happened.map(moment),
            found: moment(found),
            what: "dropped".to_owned(),
        }));
        self
    }

    pub fn judge(&self) -> Judgement {
        let prepared = Prepared::new(&self.history);
        judge(&self.asked(&prepared))
    }

    pub fn asked<'a>(&'a self, prepared: &'a Prepared) -> Asked<'a> {
        Asked {
            reading: &self.reading,
            wanted: &self.wanted,
            tester: Some(prepared),
            policies: self.policies,
            known: self.known,
        }
    }
}

pub fn range(from: &str, to: &str, step: &str, accuracy: Option<(&str, u32)>) -> Range {
    Range {
        from_ohm: mega(from),
        to_ohm: mega(to),
        resolution_ohm: mega(step),
        accuracy_percent: accuracy.map(|(p, _)| Percent(dec(p))),
        accuracy_digits: accuracy.map(|(_, n)| n),
    }
}

/// One line of a table.
pub struct Case {
    pub name: &'static str,
    pub why: &'static str,
    pub scene: Scene,
    pub says: (Value, TesterState, Level),
    /// What else must hold of the judgement.
    pub and: fn(&Judgement) -> bool,
}

pub fn case(name: &'static str, why: &'static str, scene: Scene, says: (Value, TesterState, Level)) -> Case {
    Case { name, why, scene, says, and: |_| true }
}

impl Case {
    pub fn and(mut self, and: fn(&Judgement) -> bool) -> Self {
        self.and = and;
        self
    }
}

/// Judges every line and reports all that came out otherwise.
pub fn check(table: &[Case]) {
    let wrong: Vec<String> = table
        .iter()
        .filter_map(|c| {
            let j = c.scene.judge();
            let said = (j.value.value, j.tester.state, j.level);
            let right = said == c.says && (c.and)(&j);
            (!right).then(|| format!("{} ({})\n  expected {:?}\n  said {said:?}\n  {j:#?}", c.name, c.why, c.says))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
