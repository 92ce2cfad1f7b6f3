use crate::scene::{Scene, mega, newest, sound};
use provenohm_assess::bench::plot::{DriftPoint, decades, error_plot, fitted, load_plot};
use provenohm_assess::bench::{LoadKind, LoadRole};
use provenohm_assess::ids::VerificationId;
use uuid::Uuid;

fn close(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9 * b.abs().max(1.0), "{a} is not {b}");
}

#[test]
fn one_tick_a_decade_around_everything() {
    let logs = |from, to| decades([mega(from), mega(to)]).iter().map(|t| t.log).collect::<Vec<_>>();
    assert_eq!(logs("0.05", "1000"), [4.0, 5.0, 6.0, 7.0, 8.0, 9.0]);
    assert_eq!(logs("1", "1"), [6.0, 7.0]);
    assert!(decades([]).is_empty());
}

/// ±(3 % + 2 digits) of 0.01 MΩ: 3.02 % at 100 MΩ would be wrong, at 0.1 MΩ it is 23 %.
#[test]
fn the_band_widens_where_the_digits_dominate() {
    let scene = sound();
    let plot = error_plot(&scene.at_500(), scene.card.voltages.first(), &[]);
    assert_eq!(plot.bands.len(), 2);
    assert!(plot.bands.iter().all(|band| band.len() >= 64));
    let lowest = plot.bands[0].iter().find(|at| at.log >= 5.0).unwrap();
    close(lowest.percent, 3.0 + 0.02 / 10_f64.powf(lowest.log - 6.0) * 100.0);
    close(plot.bands[0].last().unwrap().percent, 3.0 + 0.02 / 20.0 * 100.0);
    assert!(plot.span_percent > 40.0 && plot.span_percent < 50.0, "{}", plot.span_percent);
}

#[test]
fn a_point_can_be_left_out_of_the_view_and_not_of_the_judgement() {
    let scene = sound();
    let voltage = scene.at_500();
    let all = error_plot(&voltage, scene.card.voltages.first(), &[]);
    let fewer = error_plot(&voltage, scene.card.voltages.first(), &[scene.measured[0].id]);
    assert_eq!(fewer.points.len() + 1, all.points.len());
    assert!(fewer.span_percent < all.span_percent);
    let one = fewer.points.iter().find(|p| p.known_ohm == mega("1000")).unwrap();
    close(one.error_percent, -1.0);
    assert!(one.expanded_percent > 0.0);
}

#[test]
fn voltage_against_load_with_its_bounds() {
    let mut scene = Scene::new();
    scene.open_circuit("560");
    scene.at_load(LoadRole::Rated, "0.5", "420");
    let plot = load_plot(&scene.at_500(), newest());
    assert_eq!(plot.most_v, Some(625.0));
    close(plot.rated_log.unwrap(), 500_000_f64.log10());
    assert_eq!(plot.points.iter().map(|p| p.kind).collect::<Vec<_>>(), [LoadKind::Rated, LoadKind::OpenCircuit]);
    assert!(plot.top_v >= 625.0);
}

/// y = 1 + 0.01·x without scatter; then three points about a level, fitted by hand: slope 0, s = √(6/1), at the mean
/// t·s/√3 with t = 13.97 for one degree of freedom.
#[test]
fn a_line_is_fitted_between_adjustments() {
    let point = |id: u128, day: f64, error_percent: f64, adjusted_after: bool| DriftPoint {
        verification: VerificationId(Uuid::from_u128(id)),
        day,
        error_percent,
        expanded_percent: 0.2,
        adjusted_after,
    };
    let mut points = vec![point(1, 0.0, 1.0, false), point(2, 100.0, 2.0, false), point(3, 300.0, 4.0, true)];
    let plot = fitted(points.clone());
    assert_eq!(plot.lines.len(), 1);
    close(plot.lines[0][0].percent, 1.0);
    assert!(plot.lines[0].iter().all(|at| at.expanded_percent < 1e-9));

    points.extend([point(4, 400.0, -1.0, false), point(5, 500.0, 2.0, false), point(6, 600.0, -1.0, false)]);
    let plot = fitted(points);
    assert_eq!(plot.lines.len(), 2);
    let end = plot.lines[1].first().unwrap();
    close(end.percent, 0.0);
    let t = 13.967_4;
    let expected = t * 6_f64.sqrt() * (1.0_f64 / 3.0 + 1.0 / 2.0).sqrt();
    assert!((end.expanded_percent - expected).abs() < 1e-2, "{} {expected}", end.expanded_percent);
    assert!(fitted(vec![point(1, 0.0, 1.0, false), point(2, 1.0, 1.0, false)]).lines.is_empty());
}
