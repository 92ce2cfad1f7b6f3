use crate::scene::{Scene, mega, newest, sound};
use provenohm_assess::bench::plot::{Adjustment, DriftPlot, DriftPoint, decades, error_plot, fitted, load_plot};
use provenohm_assess::bench::{Decision, LoadKind, LoadRole, Series};
use provenohm_assess::ids::VerificationId;
use provenohm_assess::moment::When;
use provenohm_assess::quantity::Percent;
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
    // |I − R| = 0.03·I + 0.02 MΩ: I = (R + 0.02)/0.97 above, (R − 0.02)/1.03 below (calc).
    let known = 10_f64.powf(lowest.log - 6.0);
    close(lowest.high_percent, ((known + 0.02) / 0.97 / known - 1.0) * 100.0);
    close(lowest.low_percent, ((known - 0.02) / 1.03 / known - 1.0) * 100.0);
    close(plot.bands[0].last().unwrap().high_percent, (3.0 + 0.02 / 20.0 * 100.0) / 0.97);
    assert!(plot.span_percent > 40.0 && plot.span_percent < 50.0, "{}", plot.span_percent);
}

/// ±(10 % + 3 digits) of 0.01 MΩ: 0.88 is 0.12 off 1 MΩ and 0.118 is permitted, 1.14 is 0.14 off and 0.144 is permitted
/// (calc). The picture says what is decided.
#[test]
fn what_lies_in_the_band_is_what_is_within() {
    for (shown, within) in [("0.88", false), ("0.89", true), ("1.14", true), ("1.15", false)] {
        let mut scene = Scene::new();
        for range in &mut scene.card.voltages[0].ranges {
            (range.accuracy_percent, range.accuracy_digits) = (Some(Percent(10.into())), Some(3));
        }
        scene.shows("1", shown);
        let voltage = scene.at_500();
        let plot = error_plot(&voltage, scene.card.voltages.first(), &[]);
        let point = &plot.points[0];
        let band = plot.bands[0].iter().min_by(|a, b| (a.log - point.log).abs().total_cmp(&(b.log - point.log).abs()));
        let band = band.unwrap();
        let drawn = band.low_percent <= point.error_percent && point.error_percent <= band.high_percent;
        assert_eq!(drawn, within, "{shown}: {} in {} to {}", point.error_percent, band.low_percent, band.high_percent);
        assert_eq!(
            voltage.points[0].decision,
            Some(if within { Decision::Conforms } else { Decision::DoesNotConform })
        );
    }
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
    let mut points = vec![drift_point(1, 0, 1.0), drift_point(2, 100, 2.0), drift_point(3, 300, 4.0)];
    let adjusted = [Adjustment { verification: VerificationId(Uuid::from_u128(3)), made: on_day(300) }];
    let plot = fitted(points.clone(), &adjusted);
    assert_eq!(plot.lines.len(), 1);
    close(plot.lines[0][0].percent, 1.0);
    assert!(plot.lines[0].iter().all(|at| at.expanded_percent < 1e-9));

    points.extend([drift_point(4, 400, -1.0), drift_point(5, 500, 2.0), drift_point(6, 600, -1.0)]);
    let plot = fitted(points, &adjusted);
    assert_eq!(plot.lines.len(), 2);
    let end = plot.lines[1].first().unwrap();
    close(end.percent, 0.0);
    let t = 13.967_4;
    let expected = t * 6_f64.sqrt() * (1.0_f64 / 3.0 + 1.0 / 2.0).sqrt();
    assert!((end.expanded_percent - expected).abs() < 1e-2, "{} {expected}", end.expanded_percent);
    assert!(fitted(vec![drift_point(1, 0, 1.0), drift_point(2, 1, 1.0)], &[]).lines.is_empty());
}

/// Wherever the tester was adjusted: by a laboratory between two runs of our own, and at a run where this resistance was
/// read only as it left, or not at all.
#[test]
fn no_line_goes_on_beyond_an_adjustment_made_elsewhere() {
    let points: Vec<DriftPoint> = (1..=6_u32).map(|n| drift_point(n.into(), n * 100, 0.0)).collect();
    let days = |plot: &DriftPlot| {
        plot.stretches.iter().map(|all| all.iter().map(|one| one.day).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    let by_a_laboratory = Adjustment { verification: VerificationId(Uuid::from_u128(99)), made: on_day(350) };
    let plot = fitted(points.clone(), &[by_a_laboratory]);
    assert_eq!(days(&plot), [vec![0.0, 100.0, 200.0], vec![300.0, 400.0, 500.0]]);
    assert_eq!(plot.lines.len(), 2);

    let mut left = points.clone();
    left[3].series = Series::AsLeft;
    let at_the_run = Adjustment { verification: VerificationId(Uuid::from_u128(4)), made: on_day(400) };
    assert_eq!(days(&fitted(left, &[at_the_run])), [vec![0.0, 100.0, 200.0], vec![300.0, 400.0, 500.0]]);

    let twice = [Adjustment { made: on_day(250), ..by_a_laboratory }, at_the_run];
    assert_eq!(days(&fitted(points, &twice)), [vec![0.0, 100.0], vec![200.0, 300.0], vec![400.0, 500.0]]);
}

fn on_day(day: u32) -> When {
    let date = chrono::NaiveDate::from_ymd_opt(2024, 1, 1).unwrap() + chrono::Days::new(day.into());
    When::Day { date, offset_minutes: 60 }
}

fn drift_point(id: u128, day: u32, error_percent: f64) -> DriftPoint {
    DriftPoint {
        verification: VerificationId(Uuid::from_u128(id)),
        made: on_day(day),
        series: Series::AsFound,
        day: 0.0,
        error_percent,
        expanded_percent: 0.2,
    }
}
