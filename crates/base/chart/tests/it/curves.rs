//! Curves with their bands.

use chart::{Curve, CurveChart, Foreseen, curves};

fn point(at: f64, middle: f64) -> Foreseen {
    Foreseen {
        at,
        low: 0.9 * middle,
        middle,
        high: 1.1 * middle,
    }
}

fn chart() -> CurveChart {
    let falls = (0..20).map(|at| point(f64::from(at), 4000.0 - 50.0 * f64::from(at)));
    let rises = (0..20).map(|at| point(f64::from(at), 8.0 * f64::from(at).powi(2)));
    let curve = |name: &str, points: Vec<Foreseen>| Curve {
        name: name.to_owned(),
        points,
    };
    CurveChart {
        title: "Thrust and drag".to_owned(),
        along: "speed, m/s".to_owned(),
        up: "N".to_owned(),
        decimals: 0,
        curves: vec![
            curve("thrust", falls.collect()),
            curve("drag", rises.collect()),
        ],
    }
}

#[test]
fn law_curves_differ_by_stroke_and_name_not_by_colour() {
    let svg = curves(&chart()).into_string();
    assert!(svg.contains("stroke-ink bold\"") && svg.contains("dash-short"));
    assert!(svg.contains(">thrust</text>") && svg.contains(">drag</text>"));
    assert_eq!(svg.matches("tint-steel").count(), 2);
}

#[test]
fn law_the_description_holds_the_numbers() {
    let svg = curves(&chart()).into_string();
    assert!(svg.contains("thrust: 4000 (3600 to 4400) at 0"), "{svg}");
    assert!(svg.contains("drag: 0 (0 to 0) at 0"), "{svg}");
}

#[test]
fn law_what_is_no_number_is_left_out_and_said() {
    let mut spoilt = chart();
    spoilt.curves[0].points[3].high = f64::NAN;
    let svg = curves(&spoilt).into_string();
    assert!(!svg.contains("NaN"));
    assert!(svg.contains("A point is no number."), "{svg}");
    spoilt.curves.clear();
    assert!(curves(&spoilt).into_string().contains("<svg"));
}
