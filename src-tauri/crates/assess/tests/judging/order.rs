//! Worst first: by level, then value, then tester.

use crate::scene::*;
use provenohm_assess::judgement::Judgement;
use provenohm_assess::tester::Outcome;

#[test]
fn the_worst_comes_first() {
    let lapsed = Proof::laboratory(10, "2025-01-01", "2025-12-31").left(everywhere());
    let fails_later = Proof::bench(11, "2026-08-01", "2027-07-31").found(outcome(Outcome::Failed));
    let mut judged: Vec<(&str, Judgement)> = vec![
        ("meets, proved", Scene::new("2.0").judge()),
        ("over-range, a remark", Scene::new("> 999").judge()),
        ("lapsed", Scene::bare("2.0").proof(lapsed).judge()),
        ("not proved", Scene::bare("2.0").judge()),
        ("in doubt", Scene::new("2.0").proof(fails_later).judge()),
        ("too close", Scene::new("1.05").guarded().with_accuracy().judge()),
        ("cannot be judged", Scene::new("> 0.5").judge()),
        ("below", Scene::new("0.4").judge()),
        ("below, not proved", Scene::bare("0.4").judge()),
        ("no tester", Scene::new("2.0").with(|s| s.reading.tester = None).judge()),
    ];
    let expected: Vec<&str> = judged.iter().rev().map(|(name, _)| *name).collect();
    judged.reverse();
    judged.rotate_left(4);
    judged.sort_by_key(|(_, j)| std::cmp::Reverse(j.severity()));
    assert_eq!(judged.iter().map(|(name, _)| *name).collect::<Vec<_>>(), expected);
}
