//! The budget against published examples.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::standard::{OperatingParts, operating_uncertainty, shipped_editions};
use provenohm_assess::uncertainty::{Budget, Input};

fn close(a: f64, b: f64, relative: f64) {
    assert!((a - b).abs() <= relative * b.abs(), "{a} is not {b}");
}

/// EA-4/02 S3, calibration of a 10 kΩ resistor by substitution. Result seen, inputs memory, reproduced to all digits.
#[test]
fn ea_4_02_s3_ten_kilohm_resistor() {
    let ratios = [1.000_010_4, 1.000_010_7, 1.000_010_6, 1.000_010_3, 1.000_010_5];
    let ratio = Input::repeated("r", &ratios).unwrap();
    let r = ratio.estimate;
    let rs = 10_000.053 + 0.020;
    let budget = Budget::combine(vec![
        Input::normal("R_S", 10_000.053, 0.005, 2.0).with_sensitivity(r),
        Input::rectangular("δR_D", 0.020, 0.010).with_sensitivity(r),
        Input::rectangular("δR_TS", 0.0, 0.002_75).with_sensitivity(r),
        Input::rectangular("δR_TX", 0.0, 0.0055).with_sensitivity(-1.0),
        Input::triangular("r_C", 1.0, 1.0e-6).with_sensitivity(rs * r),
        ratio.with_sensitivity(rs),
    ]);
    close(rs * r, 10_000.178_000_766_5, 1e-14);
    close(budget.standard, 0.008_328_004_052_59, 1e-9);
    assert!(!budget.dominated);
    assert_eq!(format!("{:.3}", 2.0 * budget.standard), "0.017");
}

/// EA-4/02 S9, a hand-held multimeter at 100 V: one rectangular input dominates (memory-H, calc).
#[test]
fn ea_4_02_s9_hand_held_multimeter() {
    let budget = Budget::combine(vec![
        Input::rectangular("indication", 100.1, 0.05),
        Input::normal("reference", 100.0, 0.002, 2.0).with_sensitivity(-1.0),
        Input::rectangular("reference, drift and the like", 0.0, 0.011).with_sensitivity(-1.0),
    ]);
    assert!(budget.dominated);
    assert_eq!(format!("{:.2}", budget.k), "1.65");
    assert_eq!(format!("{:.2}", budget.expanded), "0.05");
}

/// GUM H.1, end gauge, first order (seen, calc): u 31.66 nm, effective degrees of freedom 16.75.
#[test]
fn gum_h_1_end_gauge() {
    let (ls, alpha, theta) = (50_000_623.0, 11.5e-6, -0.1);
    let d_alpha = Input::rectangular("δα", 0.0, 1e-6).with_dof(50.0).with_sensitivity(-ls * theta);
    let d_theta = Input::rectangular("δθ", 0.0, 0.05).with_dof(2.0).with_sensitivity(-ls * alpha);
    let budget = Budget::combine(vec![
        Input::normal("l_S", ls, 25.0, 1.0).with_dof(18.0),
        Input::normal("d, repeats", 215.0, 5.8, 1.0).with_dof(24.0),
        Input::normal("d, random of the comparator", 0.0, 3.9, 1.0).with_dof(5.0),
        Input::normal("d, systematic of the comparator", 0.0, 6.7, 1.0).with_dof(8.0),
        // Without effect to first order, since the differences are zero.
        Input::rectangular("α_S", alpha, 2e-6).with_sensitivity(0.0),
        d_alpha,
        d_theta,
        Input::normal("θ, mean", theta, 0.2, 1.0).with_sensitivity(0.0),
        Input::arcsine("θ, cycle", 0.0, 0.5).with_sensitivity(0.0),
    ]);
    assert_eq!(ls + 215.0, 50_000_838.0);
    assert_eq!(format!("{:.2}", budget.standard), "31.66");
    assert_eq!(format!("{:.2}", budget.dof.unwrap()), "16.75");
    // t for 16 degrees of freedom and 95.45 % (GUM Table G.2, seen: 2.17)
    assert_eq!(format!("{:.2}", budget.k), "2.17");
}

/// GUM Table G.2, p = 95.45 % (memory-H).
#[test]
fn k_is_students_t_for_95_45_percent() {
    let table = [(1.0, "13.97"), (2.0, "4.53"), (3.0, "3.31"), (5.0, "2.65"), (10.0, "2.28"), (50.0, "2.05")];
    for (dof, k) in table {
        let inputs = vec![Input::normal((), 0.0, 1.0, 1.0).with_dof(dof)];
        assert_eq!(format!("{:.2}", Budget::combine(inputs).k), k, "{dof}");
    }
    assert_eq!(Budget::combine(vec![Input::normal((), 0.0, 1.0, 1.0)]).k, 2.0);
}

/// IEC 61557-1, B = |A| + 1.15·√(E1² + E2² + E3²): rows calculated by hand.
#[test]
fn operating_uncertainty_rows() {
    let rows = [([5.0, 0.0, 2.0, 3.0], "9.1464"), ([3.0, 0.0, 2.5, 5.0], "9.4287"), ([-2.0, 0.0, 0.0, 0.0], "2.0000")];
    let newest = &shipped_editions().unwrap()[0];
    for ([intrinsic, position, supply, temperature], b) in rows {
        let parts = OperatingParts { intrinsic, position, supply, temperature };
        assert_eq!(format!("{:.4}", operating_uncertainty(parts, newest)), b);
    }
}

/// Inputs of one size and ν degrees of freedom each have n·ν together, whatever the last bit of the arithmetic says.
#[test]
fn whole_degrees_of_freedom_stay_whole() {
    let k = |inputs| Budget::combine(inputs).k;
    for tenths in 1..200 {
        for (count, dof) in [(1, 3.0), (2, 4.0), (3, 1.0), (5, 2.0), (6, 9.0)] {
            let one = Input::normal((), 0.0, f64::from(tenths) / 10.0, 1.0).with_dof(dof);
            let together = Input::normal((), 0.0, 1.0, 1.0).with_dof(f64::from(count) * dof);
            let inputs = (0..count).map(|_| one.clone()).collect();
            assert!((k(inputs) - k(vec![together])).abs() < 1e-9, "{count} of {tenths} tenths, {dof} each");
        }
    }
}

/// t falls towards 2 and never below, however many the degrees of freedom. Figures of another library.
#[test]
fn k_falls_towards_two_and_never_below() {
    let k = |dof| Budget::combine(vec![Input::normal((), 0.0, 1.0, 1.0).with_dof(dof)]).k;
    for (dof, figure) in [
        (999.0, 2.002_505_574_006_524_7),
        (1_000.0, 2.002_503_065_361_22),
        (335_109.0, 2.000_007_460_286_47),
        (1e9, 2.000_000_002_5),
    ] {
        assert!((k(dof) - figure).abs() < 1e-8, "{dof}: {}", k(dof));
    }
}
