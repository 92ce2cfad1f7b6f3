//! A tester's history sorted once, to be asked about many readings.

use super::failed::FailedPoints;
use super::leads::Leads;
use super::proof::Proof;
use super::{Card, Damage, LeadEnd, ProofEvent, QuickCheck, TesterHistory, VoltageCard};
use crate::ids::{CheckId, TesterId};
use crate::moment::{Instant, Moment};
use crate::quantity::{Comparator, Ohms, Volts};
use chrono::TimeDelta;

/// A tester's history, sorted once. The same events in any order prepare to the same answers.
#[derive(Clone, Debug)]
pub struct Prepared {
    pub(super) tester: TesterId,
    card: Option<Card>,
    pub(super) proofs: Vec<Proof>,
    pub(super) failed_checks: Vec<FailedCheck>,
    good_checks: Vec<GoodCheck>,
    pub(super) damages: Vec<Damage>,
    shorted: Leads,
    open: Leads,
}

/// A failed quick check with the points it was made at.
#[derive(Clone, Debug)]
pub(super) struct FailedCheck {
    pub(super) check: QuickCheck,
    pub(super) points: FailedPoints,
}

impl FailedCheck {
    fn new(check: &QuickCheck) -> Self {
        Self { check: check.clone(), points: FailedPoints::new(&check.points, []) }
    }

    /// Within the span it touched, or where one of its failed points speaks as that of a verification does.
    pub(super) fn speaks_for(&self, comparator: Comparator, ohms: Ohms) -> bool {
        let touched = self.check.from_ohm <= ohms && ohms <= self.check.to_ohm;
        touched || self.points.at(comparator, ohms).or_else(|| self.points.shown_here(comparator, ohms)).is_some()
    }
}

/// A good quick check, for ending a look back.
#[derive(Clone, Copy, Debug)]
struct GoodCheck {
    instant: Instant,
    volts: Volts,
    from: Ohms,
    to: Ohms,
}

impl Prepared {
    /// Sorts a history.
    #[must_use]
    pub fn new(history: &TesterHistory) -> Self {
        let card = history.card.as_ref();
        let mut prepared = Self {
            tester: history.tester,
            card: history.card.clone(),
            proofs: Vec::new(),
            failed_checks: Vec::new(),
            good_checks: Vec::new(),
            damages: Vec::new(),
            shorted: Leads::new(&history.lead_checks, LeadEnd::Shorted),
            open: Leads::new(&history.lead_checks, LeadEnd::Open),
        };
        for event in &history.events {
            match event {
                ProofEvent::Verification(v) => prepared.proofs.push(Proof::new(v, card)),
                ProofEvent::QuickCheck(q) if !q.good => prepared.failed_checks.push(FailedCheck::new(q)),
                ProofEvent::QuickCheck(q) if history.is_good(q) => prepared.good_checks.push(GoodCheck {
                    instant: q.at.to_utc(),
                    volts: q.test_voltage_v,
                    from: q.from_ohm,
                    to: q.to_ohm,
                }),
                ProofEvent::QuickCheck(_) => {}
                ProofEvent::Damage(d) => prepared.damages.push(d.clone()),
            }
        }
        prepared.proofs.sort_by_key(|p| (p.failure_from, p.id));
        prepared.failed_checks.sort_by_key(|q| (q.check.at.to_utc(), q.check.id));
        prepared.good_checks.sort_by_key(|q| (q.instant, q.volts, q.from, q.to));
        prepared.damages.sort_by_key(|d| (d.found.to_utc(), d.id));
        prepared
    }

    /// A tester of which nothing is on record.
    #[must_use]
    pub fn unknown(tester: TesterId) -> Self {
        Self::new(&TesterHistory { tester, card: None, events: Vec::new(), lead_checks: Vec::new() })
    }

    /// The tester.
    #[must_use]
    pub const fn tester(&self) -> TesterId {
        self.tester
    }

    /// Its card, if there is one.
    #[must_use]
    pub const fn card(&self) -> Option<&Card> {
        self.card.as_ref()
    }

    /// What the card says for a test voltage.
    pub(crate) fn voltage_card(&self, volts: Volts) -> Option<&VoltageCard> {
        self.card.as_ref()?.voltages.iter().find(|v| v.test_voltage_v == volts)
    }

    /// Whether a good quick check at that voltage and resistance lies strictly between two instants.
    pub(super) fn checked_good_between(&self, after: Instant, before: Instant, volts: Volts, ohms: Ohms) -> bool {
        let from = self.good_checks.partition_point(|c| c.instant <= after);
        let between = self.good_checks.iter().skip(from).take_while(|c| c.instant < before);
        between.into_iter().any(|c| c.volts == volts && c.from <= ohms && ohms <= c.to)
    }

    /// Whether a good quick check at that voltage, or a verification that names it, was made within so many days
    /// before a reading.
    pub(crate) fn checked_within(&self, at: Moment, days: u32, volts: Volts) -> bool {
        let until = at.to_utc();
        let from = until.checked_sub_signed(TimeDelta::days(days.into())).unwrap_or(Instant::MIN_UTC);
        let within = |instant: Instant| from <= instant && instant <= until;
        self.good_checks.iter().any(|c| c.volts == volts && within(c.instant))
            || self.proofs.iter().any(|p| p.names(volts) && within(p.good_from))
    }

    /// The failed leads-shorted check that puts a reading in doubt.
    pub(crate) fn shorted_doubt(&self, at: Moment) -> Option<(CheckId, Moment)> {
        self.shorted.doubted_by(at)
    }

    /// The failed leads-open check that a reading may have read low by.
    pub(crate) fn open_doubt(&self, at: Moment) -> Option<(CheckId, Moment)> {
        self.open.doubted_by(at)
    }

    /// Whether the leads were shorted and good on the day of a reading.
    pub(crate) fn leads_checked(&self, at: Moment) -> bool {
        self.shorted.good_that_day(at)
    }
}
