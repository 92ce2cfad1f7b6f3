//! One test voltage in one series, from the facts to the statement.

use super::group::groups;
use super::interval::intervals;
use super::known::Used;
use super::operating::operating;
use super::point::{point, pooled};
use super::require::requirements;
use super::statement::{Found, conforms};
use super::{BenchFacts, Decision, LeadsFound, LoadKind, LoadResult, PointRemark, PointResult, VoltageResult, load};
use crate::bench::{Measured, MeasuredWhat, PlannedPoint, PlannedWhat, Series, Supply, TesterPosition, Warmth};
use crate::quantity::{Comparator, Ohms, Percent, Volts};
use crate::reference::Reference;
use crate::standard::Edition;
use crate::tester::{Card, LeadEnd, VoltageAtLoad, VoltageCard};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

pub(super) fn result(
    facts: &BenchFacts<'_>,
    references: &[Reference],
    (volts, series): (Volts, Series),
    measured: &[&Measured],
) -> VoltageResult {
    let rule = facts.run.rule;
    let card = facts.card.and_then(|card| card.voltages.iter().find(|v| v.test_voltage_v == volts));
    let used = |at, temperature| Used { references, edition: facts.edition, volts, temperature, at };
    let of_one = |one: &Measured| used(one.at, one.conditions.temperature_c);

    let points = points(facts, card, measured, &used);
    let mut loads: Vec<LoadResult> = measured.iter().filter_map(|one| load::load(one, &of_one(one), rule)).collect();
    loads.sort_by_key(|l| (std::cmp::Reverse(l.load_ohm), l.measured));
    let (mut currents, mut undecided) = (Vec::new(), Vec::new());
    for current in measured.iter().filter_map(|one| load::current(one, &of_one(one), rule)) {
        match current {
            Ok(current) => currents.push(current),
            Err(why) => undecided.push(why),
        }
    }
    let leads_shorted = shorted(measured, facts.card);
    let leads_open = open(measured, card);
    let operating = operating(&points, facts.edition, card.is_some_and(|card| !card.ranges.is_empty()));
    let under = used(facts.run.started, None);
    let requirements = requirements(&under, rule, &operating, &loads, &currents, &undecided);
    let (intervals, no_intervals) = intervals(&points, leads_shorted, card);
    let statement = Found {
        edition: &facts.edition.title,
        points: &points,
        intervals: &intervals,
        requirements: &requirements,
        operating: &operating.at,
        shorted: leads_shorted,
        voltages: at_loads(&loads, volts, facts.edition),
    }
    .statement();
    VoltageResult {
        test_voltage_v: volts,
        series,
        voltage_holds_from_ohm: holds_from(&loads, volts),
        conforms: conforms(&requirements),
        points,
        loads,
        currents,
        leads_shorted,
        leads_open,
        polarity: measured.iter().rev().find_map(|one| match one.item {
            MeasuredWhat::Polarity { positive } => Some(positive),
            _ => None,
        }),
        operating: operating.at,
        requirements,
        intervals,
        no_intervals,
        statement,
    }
}

/// Points, lowest resistance first, the reference point of each resistance marked.
fn points<'a>(
    facts: &BenchFacts<'a>,
    card: Option<&VoltageCard>,
    measured: &[&'a Measured],
    used: &impl Fn(crate::moment::Moment, Option<crate::quantity::Celsius>) -> Used<'a>,
) -> Vec<PointResult>
where
{
    let groups = groups(measured, facts.edition);
    let at_rest: Vec<_> = groups.iter().filter(|g| g.is_at_rest()).cloned().collect();
    let scatter = pooled(&at_rest);
    let mut points: Vec<PointResult> = groups
        .iter()
        .filter_map(|group| {
            let used = used(group.last()?, group.temperature(facts.edition));
            Some(point(group, &used, card, facts.run.rule, scatter))
        })
        .collect();
    points.sort_by_key(|p| {
        let c = p.conditions;
        (
            p.known_ohm,
            p.resistor.nominal_ohm,
            p.resistor.reference,
            p.across,
            c.supply,
            c.position,
            p.measured.first().copied(),
        )
    });
    mark_bases(&mut points, facts);
    let most = Percent(facts.edition.operating_uncertainty_percent.value.0);
    points.iter_mut().for_each(|point| point.look_at_use(most));
    if let Some(volts) = measured.first().map(|one| one.test_voltage_v) {
        points.iter_mut().filter(|point| point.base).for_each(|point| compare_with_plan(point, &facts.run.plan, volts));
    }
    points
}

/// Remarks that a reference point was read less often than planned.
fn compare_with_plan(point: &mut PointResult, plan: &[PlannedPoint], volts: Volts) {
    let wanted = PlannedWhat::Indication { resistor: point.resistor };
    let at_rest =
        |it: &PlannedPoint| (it.supply, it.position, it.warmth) == <(Supply, TesterPosition, Warmth)>::default();
    let of_point = plan.iter().filter(|it| it.test_voltage_v == volts && it.item == wanted && at_rest(it));
    let planned = of_point.map(|it| it.repeats).fold(0_u32, u32::saturating_add);
    let taken = u32::try_from(point.shown.len()).unwrap_or(u32::MAX);
    if taken < planned {
        point.remarks.push(PointRemark::FewerThanPlanned { taken, planned });
    }
}

/// The reference point of a resistance is the one at nominal supply in the reference position at reference temperature;
/// for want of that, the one nearest to reference temperature.
fn mark_bases(points: &mut [PointResult], facts: &BenchFacts<'_>) {
    let reference = facts.edition.reference_temperature_c.value.0;
    let away = |p: &PointResult| match Warmth::of(p.conditions.temperature_c, facts.edition) {
        Warmth::Reference => Decimal::ZERO,
        _ => p.conditions.temperature_c.map_or(Decimal::ZERO, |t| (t.0 - reference).abs()),
    };
    let at_rest =
        |p: &PointResult| p.conditions.supply == Supply::Nominal && p.conditions.position == TesterPosition::Reference;
    let bases: Vec<usize> = (0..points.len())
        .filter(|&i| {
            let this = &points[i];
            let same = points
                .iter()
                .enumerate()
                .filter(|(_, p)| at_rest(p) && (p.resistor, p.across) == (this.resistor, this.across));
            at_rest(this) && same.min_by_key(|(j, p)| (away(p), *j)).is_some_and(|(j, _)| j == i)
        })
        .collect();
    for i in bases {
        points[i].base = true;
    }
}

/// Leads shorted: near zero, or what the card says. The highest of several counts.
fn shorted(measured: &[&Measured], card: Option<&Card>) -> Option<LeadsFound> {
    let all = measured.iter().filter_map(|one| match one.item {
        MeasuredWhat::LeadsShorted { shown } => Some(shown),
        _ => None,
    });
    let shown = all.max_by_key(|s| (s.comparator == Comparator::MoreThan, s.ohms()))?;
    let stated = card.and_then(|card| card.shorted_up_to);
    Some(LeadsFound { shown, good: LeadEnd::Shorted.is_as_expected(shown, stated, None) })
}

/// Leads open: over-range. The lowest of several counts.
fn open(measured: &[&Measured], card: Option<&VoltageCard>) -> Option<LeadsFound> {
    let all = measured.iter().filter_map(|one| match one.item {
        MeasuredWhat::LeadsOpen { shown } => Some(shown),
        _ => None,
    });
    let shown = all.min_by_key(|s| (s.comparator == Comparator::MoreThan, s.ohms()))?;
    let limit = card.and_then(|card| card.over_range);
    Some(LeadsFound { shown, good: LeadEnd::Open.is_as_expected(shown, None, limit) })
}

/// The output voltage at every load the standard asks the nominal voltage of: the rated one and lighter ones. At a
/// heavier one a tester may lower its voltage.
fn at_loads(loads: &[LoadResult], volts: Volts, edition: &Edition) -> Vec<VoltageAtLoad> {
    let rated = edition.rated_load_ohm_per_volt.value.0.checked_mul(volts.0);
    let lighter = |load: &LoadResult| load.load_ohm.zip(rated).is_some_and(|(ohms, rated)| ohms.0 >= rated);
    let asked = loads.iter().filter(|load| load.voltage_measured && (load.kind == LoadKind::Rated || lighter(load)));
    let each = asked.filter_map(|load| {
        let measured_v = Volts(Decimal::from_f64(load.voltage_v.as_ref()?.value)?.round_dp(1));
        let decided = load.decision.filter(|_| load.kind == LoadKind::Rated).map(Decision::is_within);
        let held = decided.unwrap_or(measured_v >= volts);
        Some(VoltageAtLoad { load_ohm: load.load_ohm?, measured_v, held })
    });
    each.collect()
}

/// The smallest load at which, and at every lighter one, the voltage was at least the nominal one.
fn holds_from(loads: &[LoadResult], volts: Volts) -> Option<Ohms> {
    let nominal = super::known::float(volts.0);
    let measured = loads.iter().filter_map(|l| Some((l.load_ohm?, l.voltage_v.as_ref()?.value)));
    let mut lightest_first: Vec<(Ohms, f64)> = measured.collect();
    // At one load the lower voltage counts.
    lightest_first.sort_by(|a, b| b.0.cmp(&a.0).then(b.1.total_cmp(&a.1)));
    let fell = lightest_first.iter().find(|(_, v)| *v < nominal).map(|(load, _)| *load);
    lightest_first.iter().take_while(|(_, v)| *v >= nominal).map(|(load, _)| *load).filter(|l| Some(*l) != fell).last()
}
