//! One reading judged against one limit, with every figure used. The tester's state is not asked here.

use super::limit::{Asks, asks, name, unsure};
use super::{LimitAsked, Refused, exact, words};
use crate::tell::imagined;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::guard::Figures;
use provenohm_assess::ids::TesterId;
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::judgement::{Guard, GuardSource, Level, MethodReason, Value, ValueReason};
use provenohm_assess::limits::{ReducedReason, Source};
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::{Accuracy, Ohms, Shown, Volts};
use provenohm_assess::tester::{Card, Prepared, Range, TesterHistory, VoltageCard};
use provenohm_words::Words;
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
    /// The pair, `L–PE`; absent: the one with the highest minimum.
    pub pair: Option<String>,
    /// Stated accuracy of the tester; absent: not known.
    pub accuracy: Option<Accuracy>,
    /// Step of its display there, Ω; absent: the last digit shown.
    pub resolution: Option<Ohms>,
    /// How the value is compared.
    pub policy: ValuePolicy,
    /// Test voltage it was taken at, V; absent: the one the set asks for.
    pub taken_v: Option<Volts>,
    /// Why a lower test voltage was used; absent: for no reason a set could allow.
    pub reduced: Option<ReducedReason>,
}

/// The judgement of the value with every figure used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Explained {
    /// The pair it is judged for, `L–PE`: the one asked for, or the one with the highest minimum.
    pub pair: String,
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
    /// What is said of the method, the gravest first.
    pub method: Vec<MethodReason>,
    /// The higher level of the two.
    pub level: Level,
    /// The policy it was judged by.
    pub policy: ValuePolicy,
    /// L, Ω.
    pub minimum_ohm: Ohms,
    /// Where w comes from, with its p, n and resolution; null where there is none.
    pub guard: Option<GuardSource>,
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
    let set = asked.limit.set.set()?;
    let electrical = asked.limit.electrical()?;
    let Asks { demand, pair, limit, reduced } = asks(&set, &electrical, asked.limit.stage, asked.pair.as_deref())?;
    let words = words();
    let volts = asked.taken_v.or(limit.test_voltage_v);
    let volts = volts.ok_or_else(|| Refused(words.text("office-taken-needed")))?;
    if let Some(reason) = asked.reduced
        && reduced.as_ref().is_none_or(|(_, reasons)| !reasons.contains(&reason))
    {
        return Err(Refused(words.text("office-reduced-not-here")));
    }
    let step = step(&words, asked)?;
    let card = imagined_card(asked, volts, step);
    let figures = Figures { card: Some(&card), ..Figures::default() };
    let tester = TesterId(uuid::Uuid::nil());
    let history = TesterHistory {
        tester,
        card: Some(Card { voltages: vec![card.clone()], ..Card::default() }),
        events: Vec::new(),
        lead_checks: Vec::new(),
    };
    // The instant bears on nothing here: there is no history to place it in.
    let mut reading = imagined(tester, asked.shown, volts, chrono::DateTime::UNIX_EPOCH.fixed_offset());
    reading.conditions.reduced = asked.reduced;
    reading.conditions.loads = asked.limit.loads;
    (reading.pair, reading.stage) = (pair.pair.clone(), asked.limit.stage);
    let wanted = Wanted { limit: Some(limit), reduced, ..Wanted::default() };
    let policies = Policies { value: asked.policy, tester: TesterPolicy::default(), quick_check_days: None };
    let prepared = Prepared::new(&history);
    let judgement = judge(&Asked {
        reading: &reading,
        wanted: &wanted,
        tester: Some(&prepared),
        policies,
        known: Known::default(),
    });
    // The lower minimum counts at an allowed lower voltage.
    let limit = judgement.value.limit.clone().or(wanted.limit).ok_or_else(|| Refused(words.failure("unexpected")))?;
    let smallest = figures.smallest(asked.policy, limit.minimum_ohm, step);
    let guard = judgement.value.guard.clone().map(|guard| Guard { smallest_ohm: smallest, ..guard });
    // Nothing is known of leads here, and why the value cannot be judged is said by the value.
    let of_value = matches!(judgement.value.reason, ValueReason::LowerVoltage { .. });
    let told = |reason: &&MethodReason| match reason {
        MethodReason::LeadsNotChecked | MethodReason::AtReferenceConditions => false,
        MethodReason::LowerVoltage { .. } => !of_value,
        _ => true,
    };
    let mut method: Vec<MethodReason> = judgement.method.iter().filter(told).cloned().collect();
    method.sort_by_key(|reason| std::cmp::Reverse(reason.level()));
    let one_of_many = demand.pairs.iter().any(|other| other.limit.minimum_ohm != pair.limit.minimum_ohm);
    let name = name(&words, &electrical, &pair);
    let shown = words.reading(&asked.shown);
    let shown = if one_of_many || asked.pair.is_some() { format!("{name}  {shown}") } else { shown };
    let mut lines = vec![format!("{shown}: {}", words.value_sentence(&judgement, &reading)), words.demand(&limit)];
    lines.extend(unsure(&words, &limit));
    lines.extend(method.iter().map(|reason| words.method_sentence(reason)));
    match (&guard, smallest.filter(|smallest| *smallest > limit.minimum_ohm)) {
        (Some(guard), _) => lines.extend(words.guard_lines(guard, &limit, &asked.shown)),
        (None, Some(smallest)) => lines.push(words.proves_from(&limit, smallest, None)),
        (None, None) => {}
    }
    Ok(Explained {
        pair: name,
        reading: asked.shown,
        indicated_ohm: exact(asked.shown.ohms()),
        test_voltage_v: volts,
        value: judgement.value.value,
        reason: judgement.value.reason,
        level: judgement.value.value.level().max(method.first().map_or(Level::Done, MethodReason::level)),
        method,
        policy: asked.policy,
        minimum_ohm: exact(limit.minimum_ohm),
        guard: guard.as_ref().map(|guard| guard.source.clone()),
        guard_ohm: guard.as_ref().map(|guard| exact(guard.w_ohm)),
        acceptance_ohm: guard.as_ref().map(|guard| exact(guard.acceptance_ohm)),
        smallest_indication_ohm: smallest.map(exact),
        source: limit.source,
        rules_version: RULES_VERSION,
        lines,
    })
}

/// A card of one range without end, with what is known of the tester.
fn imagined_card(asked: &ExplainAsked, volts: Volts, step: Ohms) -> VoltageCard {
    VoltageCard {
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
    }
}

/// One step of the display, which must be able to show the reading.
fn step(words: &Words, asked: &ExplainAsked) -> Result<Ohms, Refused> {
    if let Some(accuracy) = asked.accuracy.filter(|it| it.proves_nothing()) {
        let args = [("percent", words.percent(accuracy.percent).into())];
        return Err(Refused(words.text_with("office-accuracy-whole", &args)));
    }
    let step = asked.resolution.unwrap_or_else(|| asked.shown.last_digit());
    if step.0 <= Decimal::ZERO {
        return Err(Refused(words.text("complaint-above-zero")));
    }
    if asked.shown.is_in_steps_of(step) {
        return Ok(step);
    }
    let args = [("step", words.step(step, asked.shown.unit).into()), ("reading", words.reading(&asked.shown).into())];
    Err(Refused(words.text_with("office-between-steps", &args)))
}
