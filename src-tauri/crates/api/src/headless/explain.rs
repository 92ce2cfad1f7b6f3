//! One reading judged against one limit, with every figure used. The tester's state is not asked here.

use super::{LimitAsked, Refused, exact, set, words};
use crate::tell::imagined;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::circuit::Stage;
use provenohm_assess::guard::Figures;
use provenohm_assess::ids::{CircuitId, TesterId};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::judgement::{Guard, Value, ValueReason};
use provenohm_assess::limits::Source;
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::{Accuracy, Ohms, Shown, Volts};
use provenohm_assess::tester::{Card, Prepared, Range, TesterHistory, VoltageCard};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A reading to be explained.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExplainAsked {
    /// What the display showed.
    pub shown: Shown,
    /// The circuit and the set.
    pub limit: LimitAsked,
    /// Stated accuracy of the tester; absent: not known.
    pub accuracy: Option<Accuracy>,
    /// Step of its display there, Ω; absent: the last digit shown.
    pub resolution: Option<Ohms>,
    /// How the value is compared.
    pub policy: ValuePolicy,
    /// Test voltage it was taken at, V; absent: the one the set asks for.
    pub taken_v: Option<Volts>,
}

/// The judgement of the value with every figure used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Explained {
    /// What the display showed.
    pub reading: Shown,
    /// The same in ohms.
    pub indicated_ohm: Ohms,
    /// Test voltage it is taken at, V.
    pub test_voltage_v: Volts,
    /// What is said of the value.
    pub value: Value,
    /// Why.
    pub reason: ValueReason,
    /// The policy it was judged by.
    pub policy: ValuePolicy,
    /// L, Ω.
    pub minimum_ohm: Ohms,
    /// w, Ω; null under *simple*, and where no figure is known.
    pub guard_ohm: Option<Ohms>,
    /// L + w, Ω.
    pub acceptance_ohm: Option<Ohms>,
    /// The smallest indication from which every larger one proves L, Ω.
    pub smallest_indication_ohm: Option<Ohms>,
    /// Where the limit stands, and how sure that is.
    pub source: Source,
    /// Version of the rules.
    pub rules_version: u32,
    /// What a person reads.
    pub lines: Vec<String>,
}

/// Judges one reading against one limit.
///
/// # Errors
/// [`Refused`] for what cannot be asked.
pub fn explain(asked: &ExplainAsked) -> Result<Explained, Refused> {
    let set = set(&asked.limit.set)?;
    let electrical = asked.limit.electrical()?;
    let circuit = CircuitId(uuid::Uuid::nil());
    let demand = set
        .demand(circuit, &electrical, Stage::Before)
        .map_err(|why| Refused(format!("{} has no limit for this circuit: {why}", set.title)))?;
    let strictest = demand.pairs.iter().max_by_key(|pair| pair.limit.minimum_ohm);
    let limit = strictest.map(|pair| pair.limit.clone()).ok_or_else(|| Refused("the set requires no pair".into()))?;
    let volts = asked.taken_v.or(limit.test_voltage_v).unwrap_or(Volts(Decimal::from(500)));
    let step = asked.resolution.unwrap_or_else(|| last_digit(asked.shown));
    if step.0 <= Decimal::ZERO {
        return Err(Refused("the resolution is above zero".into()));
    }
    let card = VoltageCard {
        test_voltage_v: volts,
        ranges: vec![Range {
            from_ohm: Ohms(Decimal::ZERO),
            to_ohm: Ohms(Decimal::from(100_000_000_000_000u64)),
            resolution_ohm: step,
            accuracy_percent: asked.accuracy.map(|accuracy| accuracy.percent),
            accuracy_digits: asked.accuracy.map(|accuracy| accuracy.digits),
        }],
        over_range: None,
        operating_uncertainty_percent: None,
    };
    let figures = Figures { card: Some(&card), ..Figures::default() };
    let smallest = figures.smallest(asked.policy, limit.minimum_ohm, step);
    let tester = TesterId(uuid::Uuid::nil());
    let history = TesterHistory {
        tester,
        card: Some(Card { voltages: vec![card.clone()], ..Card::default() }),
        events: Vec::new(),
        lead_checks: Vec::new(),
    };
    // The instant bears on nothing here: there is no history to place it in.
    let reading = imagined(tester, asked.shown, volts, chrono::DateTime::UNIX_EPOCH.fixed_offset());
    let wanted = Wanted { limit: Some(limit.clone()), ..Wanted::default() };
    let policies = Policies { value: asked.policy, tester: TesterPolicy::default(), quick_check_days: None };
    let prepared = Prepared::new(&history);
    let judgement = judge(&Asked {
        reading: &reading,
        wanted: &wanted,
        tester: Some(&prepared),
        policies,
        known: Known::default(),
    });
    let words = words();
    let guard = judgement.value.guard.clone().map(|guard| Guard { smallest_ohm: smallest, ..guard });
    let mut lines = vec![
        format!("{}: {}", words.reading(&asked.shown), words.value_sentence(&judgement, &reading)),
        words.demand(&limit),
    ];
    match (&guard, smallest) {
        (Some(guard), _) => lines.extend(words.guard_lines(guard, &limit, &asked.shown)),
        (None, Some(smallest)) => lines.push(words.proves_from(&limit, smallest)),
        (None, None) => {}
    }
    Ok(Explained {
        reading: asked.shown,
        indicated_ohm: exact(asked.shown.ohms()),
        test_voltage_v: volts,
        value: judgement.value.value,
        reason: judgement.value.reason,
        policy: asked.policy,
        minimum_ohm: exact(limit.minimum_ohm),
        guard_ohm: guard.as_ref().map(|guard| exact(guard.w_ohm)),
        acceptance_ohm: guard.as_ref().map(|guard| exact(guard.acceptance_ohm)),
        smallest_indication_ohm: smallest.map(exact),
        source: limit.source,
        rules_version: RULES_VERSION,
        lines,
    })
}

/// One step of the last digit shown.
fn last_digit(shown: Shown) -> Ohms {
    Ohms(shown.unit.ohms() * Decimal::new(1, shown.digits.decimals().into()))
}
