//! How the figures are worked out, and what the edition asks, each with its source.

use provenohm_assess::limits::Source;
use provenohm_assess::standard::Edition;
use provenohm_papers::report::Fact;
use provenohm_words::Words;

/// Each step, by its name and what is done in it.
pub(super) fn methods(words: &Words) -> Vec<Fact> {
    [
        ("answer-tester-method-known", "answer-tester-method-known-says"),
        ("answer-tester-method-error", "answer-tester-method-error-says"),
        ("answer-tester-method-permitted", "answer-tester-method-permitted-says"),
        ("answer-tester-method-budget", "answer-tester-method-budget-says"),
        ("answer-tester-method-k", "answer-tester-method-k-says"),
        ("answer-tester-method-ratio", "answer-tester-method-ratio-says"),
        ("answer-tester-method-current", "answer-tester-method-current-says"),
        ("answer-tester-method-decision", "answer-tester-method-decision-says"),
        ("answer-tester-method-operating", "answer-tester-method-operating-says"),
        ("answer-tester-method-holds", "answer-tester-method-holds-says"),
    ]
    .map(|(name, says)| Fact { label: words.text(name), text: words.text(says) })
    .into()
}

/// Every figure of the edition, with where it stands and how sure it is.
pub(super) fn sources(words: &Words, edition: &Edition) -> Vec<Fact> {
    let numbers = words.numbers();
    let fact = |key: &str, figure: String, source: &Source| {
        let args =
            [("figure", figure.into()), ("source", words.source(source).into()), ("tag", words.tag(source.tag).into())];
        Fact { label: words.text(key), text: words.text_with("answer-tester-asks-figure", &args) }
    };
    let e = edition;
    let kelvin = format!("±{}\u{a0}K", numbers.number(&e.reference_within_k.value.0.normalize().to_string()));
    vec![
        fact(
            "answer-tester-asks-open-circuit",
            numbers.number(&e.open_circuit_factor.value.normalize().to_string()),
            &e.open_circuit_factor.source,
        ),
        fact(
            "answer-tester-asks-open-circuit-load",
            words.ohms(e.open_circuit_load_ohm_per_volt.value),
            &e.open_circuit_load_ohm_per_volt.source,
        ),
        fact("answer-tester-asks-rated-current", e.rated_current_a.value.print(numbers), &e.rated_current_a.source),
        fact(
            "answer-tester-asks-rated-load",
            words.ohms(e.rated_load_ohm_per_volt.value),
            &e.rated_load_ohm_per_volt.source,
        ),
        fact("answer-tester-asks-most-current", e.most_current_a.value.print(numbers), &e.most_current_a.source),
        fact("answer-tester-asks-ripple", e.most_ripple_a.value.print(numbers), &e.most_ripple_a.source),
        fact(
            "answer-tester-asks-operating",
            words.percent(e.operating_uncertainty_percent.value),
            &e.operating_uncertainty_percent.source,
        ),
        fact(
            "answer-tester-asks-variation",
            numbers.number(&e.variation_factor.value.normalize().to_string()),
            &e.variation_factor.source,
        ),
        fact(
            "answer-tester-asks-reference-temperature",
            e.reference_temperature_c.value.print(numbers),
            &e.reference_temperature_c.source,
        ),
        fact("answer-tester-asks-reference-within", kelvin, &e.reference_within_k.source),
        fact("answer-tester-asks-coldest", e.coldest_c.value.print(numbers), &e.coldest_c.source),
        fact("answer-tester-asks-warmest", e.warmest_c.value.print(numbers), &e.warmest_c.source),
    ]
}
