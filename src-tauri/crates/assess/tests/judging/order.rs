//! Worst first.

use crate::scene::*;
use provenohm_assess::judge::to_look_at;
use provenohm_assess::judgement::Judgement;

#[test]
fn the_list_has_the_worst_first_and_leaves_out_what_asks_for_nothing() {
    let judged: Vec<(&str, Judgement)> = vec![
        ("meets, proved", Scene::new("2.0").judge()),
        ("not proved", Scene::bare("2.0").judge()),
        ("b below", Scene::new("0.4").judge()),
        ("a below", Scene::new("0.4").judge()),
        ("over-range, a remark", Scene::new("> 999").judge()),
        ("cannot be judged", Scene::new("> 0.5").judge()),
        ("no tester", Scene::new("2.0").with(|s| s.reading.tester = None).judge()),
    ];
    let list: Vec<&str> = to_look_at(judged.iter().map(|(place, j)| (*place, j))).into_iter().map(|(p, _)| p).collect();
    assert_eq!(list, ["no tester", "a below", "b below", "cannot be judged", "not proved"]);
}
