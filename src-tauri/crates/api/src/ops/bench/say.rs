//! Points, steps and what was measured, in words.

use super::run::Run;
use super::step::{Figure, Key};
use crate::views::{Choice, Sentence, TesterPart, TesterPartLine};
use provenohm_assess::bench::{
    BenchResult, DecisionPoint, DecisionRule, LoadReading, LookedAt, Measured, MeasuredWhat, PlannedWhat, Polarity,
    RequirementFound, Resistor, Series, Supply, TesterLook, TesterPosition, Untold, VoltageResult, Warmth,
    read_too_seldom,
};
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::Celsius;
use provenohm_assess::reference::Reference;
use provenohm_assess::standard::Edition;
use provenohm_words::{AboutBench, Words};

/// `1.0 MΩ of Box 1`.
pub(crate) fn resistor(words: &Words, resistor: &Resistor, references: &[Reference]) -> String {
    let name = references.iter().find(|one| one.id == resistor.reference).map_or("?", |one| &one.name);
    let args = [("nominal", words.ohms(resistor.nominal_ohm).into()), ("reference", name.into())];
    words.text_with("answer-bench-resistor", &args)
}

/// What a planned point is: `1.0 MΩ of Box 1`, `Rated load, 500 kΩ of Box 1`.
pub(crate) fn item(words: &Words, item: &PlannedWhat, references: &[Reference]) -> String {
    let with =
        |key: &str, load: &Resistor| words.text_with(key, &[("resistor", resistor(words, load, references).into())]);
    match item {
        PlannedWhat::Indication { resistor: one } => resistor(words, one, references),
        PlannedWhat::OpenCircuit { load: None } => words.text("answer-bench-open-circuit"),
        PlannedWhat::OpenCircuit { load: Some(load) } => with("answer-bench-open-circuit-with", load),
        PlannedWhat::RatedLoad { load: None } => words.text("answer-bench-rated-load-none"),
        PlannedWhat::RatedLoad { load: Some(load) } => with("answer-bench-rated-load", load),
        PlannedWhat::FurtherLoad { load } => with("answer-bench-further-load", load),
        PlannedWhat::ShortCircuit => words.text("answer-bench-short-circuit"),
        PlannedWhat::LeadsOpen => words.text("answer-bench-leads-open"),
        PlannedWhat::LeadsShorted => words.text("answer-bench-leads-shorted"),
        PlannedWhat::Ripple => words.text("answer-bench-ripple"),
        PlannedWhat::Polarity => words.text("answer-bench-polarity"),
    }
}

/// A step by name: the point, and which figure where a point has two.
pub(crate) fn step(words: &Words, key: &Key, references: &[Reference]) -> String {
    let item = item(words, &key.item, references);
    let figure = match (key.item, key.figure) {
        (PlannedWhat::RatedLoad { .. } | PlannedWhat::FurtherLoad { .. }, Figure::Voltage) => "answer-bench-volts-at",
        (PlannedWhat::RatedLoad { .. } | PlannedWhat::FurtherLoad { .. }, Figure::Current) => "answer-bench-current-at",
        _ => return item,
    };
    words.text_with(figure, &[("item", item.into())])
}

/// Supply, position and temperature, where they are not those of reference conditions.
pub(crate) fn conditions(words: &Words, supply: Supply, position: TesterPosition, warmth: Warmth) -> String {
    let mut parts = Vec::new();
    if supply != Supply::Nominal {
        parts.push(words.text(supply_key(supply)));
    }
    if position != TesterPosition::Reference {
        parts.push(words.text(position_key(position)));
    }
    parts.extend(warmth_key(warmth).map(|key| words.text(key)));
    parts.join(", ")
}

/// What was shown with the leads together and apart, or that it was not tested; the polarity as it was found, which is
/// recorded and not judged.
pub(crate) fn leads(words: &Words, voltage: &VoltageResult) -> Vec<Sentence> {
    let leads = [
        ("answer-result-leads-shorted", "answer-result-leads-shorted-not-tested", voltage.leads_shorted),
        ("answer-result-leads-open", "answer-result-leads-open-not-tested", voltage.leads_open),
    ];
    let found = leads.into_iter().map(|(key, not_tested, found)| match found {
        None => Sentence { level: Level::Look, words: words.text(not_tested) },
        Some(found) => Sentence {
            level: if found.good { Level::Done } else { Level::Look },
            words: words.text_with(key, &[("shown", words.reading(&found.shown).into())]),
        },
    });
    let polarity = voltage.polarity.map(|polarity| {
        let key = match polarity {
            Polarity::LinePositive => "answer-bench-line-positive",
            Polarity::EarthPositive => "answer-bench-earth-positive",
        };
        let args = [("polarity", words.text(key).into())];
        Sentence { level: Level::Done, words: words.text_with("answer-result-polarity", &args) }
    });
    found.chain(polarity).collect()
}

/// How much attention it asks for where indications hold: nowhere, a look; on condition, a remark.
pub(crate) fn holds_level(voltage: &VoltageResult) -> Level {
    match &voltage.intervals[..] {
        [] => Level::Look,
        intervals if intervals.iter().any(|it| it.conditional) => Level::Remark,
        _ => Level::Done,
    }
}

const fn supply_key(supply: Supply) -> &'static str {
    match supply {
        Supply::Nominal => "answer-bench-supply-nominal",
        Supply::LowestBattery => "answer-bench-supply-lowest",
    }
}

const fn warmth_key(warmth: Warmth) -> Option<&'static str> {
    match warmth {
        Warmth::Reference => None,
        Warmth::Cold => Some("answer-bench-warmth-cold"),
        Warmth::Warm => Some("answer-bench-warmth-warm"),
        Warmth::Other => Some("answer-bench-warmth-other"),
    }
}

const fn position_key(position: TesterPosition) -> &'static str {
    match position {
        TesterPosition::Reference => "answer-bench-position-reference",
        TesterPosition::TurnedLeft => "answer-bench-position-left",
        TesterPosition::TurnedRight => "answer-bench-position-right",
    }
}

/// What was measured: `0.88 MΩ`, `510 V`.
pub(crate) fn shown(words: &Words, one: &Measured, figure: Figure) -> String {
    let amps = |amps: provenohm_assess::quantity::Amps| amps.print(words.numbers());
    match one.item {
        MeasuredWhat::Indication { shown, .. }
        | MeasuredWhat::LeadsOpen { shown }
        | MeasuredWhat::LeadsShorted { shown } => words.reading(&shown),
        MeasuredWhat::OpenCircuit { voltage, .. } => words.volts(voltage.shown),
        MeasuredWhat::AtLoad(LoadReading { voltage: Some(voltage), .. }) if figure == Figure::Voltage => {
            words.volts(voltage.shown)
        }
        MeasuredWhat::AtLoad(LoadReading { current, .. }) => current.map(|it| amps(it.shown)).unwrap_or_default(),
        MeasuredWhat::ShortCircuit { current } | MeasuredWhat::Ripple { current } => amps(current.shown),
        MeasuredWhat::Polarity { positive: Polarity::LinePositive } => words.text("answer-bench-line-positive"),
        MeasuredWhat::Polarity { positive: Polarity::EarthPositive } => words.text("answer-bench-earth-positive"),
    }
}

/// As found, or as left.
pub(crate) fn series(words: &Words, series: Series, adjusted: bool) -> String {
    words.text(match (series, adjusted) {
        (Series::AsFound, false) => "answer-bench-not-adjusted",
        (Series::AsFound, true) => "answer-bench-as-found",
        (Series::AsLeft, _) => "answer-bench-as-left",
    })
}

/// Edition, rule, who and since when, the mark put on the tester, a line each.
pub(crate) fn lines(words: &Words, run: &Run) -> Vec<String> {
    let one = run.run();
    let mut lines = vec![
        words.text_with("answer-bench-edition", &[("edition", run.edition.title.as_str().into())]),
        words.text(rule_key(one.rule)),
        words.text_with(
            "answer-bench-by",
            &[("by", one.by.as_str().into()), ("at", words.date_time(one.started).into())],
        ),
    ];
    lines.extend(one.mark.as_ref().map(|mark| words.text_with("answer-bench-marked", &[("mark", mark.into())])));
    lines
}

/// The words of a decision rule.
pub(crate) const fn rule_key(rule: DecisionRule) -> &'static str {
    match rule {
        DecisionRule::Simple => "answer-bench-rule-simple",
        DecisionRule::GuardU => "answer-bench-rule-guard-u",
        DecisionRule::GuardPartU => "answer-bench-rule-guard-part-u",
    }
}

/// How an error can be decided.
pub(crate) fn rules(words: &Words) -> Vec<Choice> {
    vec![
        choice(words, "simple", "answer-bench-choice-simple"),
        choice(words, "guard_u", "answer-bench-choice-guard-u"),
        choice(words, "guard_part_u", "answer-bench-choice-guard-part-u"),
    ]
}

/// A choice with the catalogue's words.
pub(crate) fn choice(words: &Words, id: &str, key: &str) -> Choice {
    Choice { id: id.to_owned(), words: words.text(key) }
}

/// Supplies to choose.
pub(crate) fn supplies(words: &Words) -> Vec<Choice> {
    vec![
        choice(words, "nominal", supply_key(Supply::Nominal)),
        choice(words, "lowest_battery", supply_key(Supply::LowestBattery)),
    ]
}

/// Positions to choose.
pub(crate) fn positions(words: &Words) -> Vec<Choice> {
    vec![
        choice(words, "reference", position_key(TesterPosition::Reference)),
        choice(words, "turned_left", position_key(TesterPosition::TurnedLeft)),
        choice(words, "turned_right", position_key(TesterPosition::TurnedRight)),
    ]
}

/// Temperatures to choose, with what the edition asks.
pub(crate) fn warmths(words: &Words, edition: &Edition) -> Vec<Choice> {
    let of = |id: &str, key: &str, at: Celsius| {
        let words = words.text_with(key, &[("temperature", at.print(words.numbers()).into())]);
        Choice { id: id.to_owned(), words }
    };
    vec![
        of("reference", "answer-bench-choice-reference", edition.reference_temperature_c.value),
        of("cold", "answer-bench-choice-cold", edition.coldest_c.value),
        of("warm", "answer-bench-choice-warm", edition.warmest_c.value),
    ]
}

/// What can be measured.
pub(crate) fn what(words: &Words) -> Vec<Choice> {
    [
        ("indication", "answer-bench-what-indication"),
        ("open_circuit", "answer-bench-open-circuit"),
        ("rated_load", "answer-bench-what-rated-load"),
        ("further_load", "answer-bench-what-further-load"),
        ("short_circuit", "answer-bench-short-circuit"),
        ("leads_open", "answer-bench-leads-open"),
        ("leads_shorted", "answer-bench-leads-shorted"),
        ("ripple", "answer-bench-ripple"),
        ("polarity", "answer-bench-polarity"),
    ]
    .map(|(id, key)| choice(words, id, key))
    .into()
}

/// A requirement with what was found and asked, where that stands and how sure it is.
pub(crate) fn requirement(words: &Words, found: &RequirementFound, about: &AboutBench<'_>) -> String {
    let args = [
        ("said", words.bench_requirement(found, about).into()),
        ("source", words.source(&found.source).into()),
        ("tag", words.tag(found.source.tag).into()),
    ];
    words.text_with("answer-result-requirement", &args)
}

/// What lapsed references cost the decision, what no budget could take in, and what was read too seldom beside a limit.
pub(crate) fn shortcomings(
    words: &Words,
    result: &BenchResult,
    about: &AboutBench<'_>,
    decisions: &[DecisionPoint],
) -> Vec<Sentence> {
    let of = |key, id: ReferenceId| words.text_with(key, &[("reference", about.name(id).into())]);
    let lapsed = result.lapsed.iter().map(|id| of("answer-result-lapsed", *id));
    let untold = result.untold.iter().map(|one| match one {
        Untold::Temperature => words.text("answer-result-no-temperature"),
        Untold::Drift { reference } => of("answer-result-no-drift", *reference),
        Untold::TemperatureCoefficient { reference } => of("answer-result-no-temperature-coefficient", *reference),
    });
    let seldom = read_too_seldom(result, decisions).into_iter().map(|one| {
        let args = [
            ("volts", words.volts(one.test_voltage_v).into()),
            ("known", words.ohms(one.nominal_ohm).into()),
            ("limit", words.ohms(one.limit_ohm).into()),
            ("taken", one.taken.into()),
            ("asked", one.asked.into()),
        ];
        words.text_with("answer-result-read-too-seldom", &args)
    });
    let said = |level| move |words| Sentence { level, words };
    lapsed.map(said(Level::Look)).chain(untold.chain(seldom).map(said(Level::Remark))).collect()
}

/// The look at the tester, item by item.
pub(crate) fn look(words: &Words, look: &TesterLook) -> Vec<TesterPartLine> {
    [
        (TesterPart::Case, "answer-bench-look-case", look.case),
        (TesterPart::Leads, "answer-bench-look-leads", look.leads),
        (TesterPart::MarkedCategory, "answer-bench-look-category", look.marked_category),
        (TesterPart::MarkedStandard, "answer-bench-look-standard", look.marked_standard),
        (TesterPart::Battery, "answer-bench-look-battery", look.battery),
    ]
    .map(|(item, key, answer)| TesterPartLine { item, words: words.text(key), answer })
    .into()
}

/// The look at the tester in sentences, what nobody looked at among them.
pub(crate) fn looked(words: &Words, found: &TesterLook) -> Vec<Sentence> {
    let said = |line: TesterPartLine| {
        let (level, key) = match line.answer {
            LookedAt::Yes => (Level::Done, "answer-bench-looked-yes"),
            LookedAt::No => (Level::Look, "answer-bench-looked-no"),
            LookedAt::NotLooked => (Level::Remark, "answer-bench-looked-not"),
        };
        let args = [("item", line.words.into()), ("answer", words.text(key).into())];
        Sentence { level, words: words.text_with("answer-result-look", &args) }
    };
    look(words, found).into_iter().map(said).collect()
}

/// What each look can be answered with.
pub(crate) fn answers(words: &Words) -> Vec<Choice> {
    vec![
        choice(words, "yes", "answer-bench-looked-yes"),
        choice(words, "no", "answer-bench-looked-no"),
        choice(words, "not_looked", "answer-bench-looked-not"),
    ]
}
