//! Readings over time: what is drawn stays on the paper and is told in words. All numbers are invented.

use chart::{Foreseen, Reading, TrendChart, trend};

fn wear() -> TrendChart {
    let reading = |at, low, high| Reading { at, low, high };
    let foreseen = |at: f64| Foreseen {
        at,
        low: 11.5 + 0.01 * at,
        middle: 12.0 + 0.015 * at,
        high: 12.5 + 0.02 * at,
    };
    TrendChart {
        title: "mean gap over the engine hours".to_owned(),
        along: "engine hours".to_owned(),
        up: "mean gap, thou".to_owned(),
        decimals: 1,
        readings: vec![
            reading(12.0, 12.0, 13.0),
            reading(61.0, 13.0, 14.0),
            reading(143.0, 14.2, 14.2),
        ],
        line: [12.0, 60.0, 143.0, 250.0, 400.0].map(foreseen).to_vec(),
        greatest: Some(18.0),
    }
}

/// Every place of every path.
fn places(svg: &str) -> Vec<(f64, f64)> {
    let paths = svg.split(" d=\"").skip(1);
    let paths = paths.filter_map(|rest| rest.split('"').next());
    let points = paths.flat_map(|d| d.split(['M', 'L', 'Z']));
    points
        .filter_map(|point| point.split_once(' '))
        .map(|(x, y)| (x.parse().unwrap(), y.parse().unwrap()))
        .collect()
}

#[test]
fn law_a_trend_stays_on_its_paper() {
    let bare = TrendChart {
        line: Vec::new(),
        greatest: None,
        ..wear()
    };
    let one = TrendChart {
        readings: wear().readings[2..].to_vec(),
        ..bare.clone()
    };
    for chart in [wear(), bare, one] {
        let svg = trend(&chart).into_string();
        let places = places(&svg);
        assert!(places.len() > 10, "{svg}");
        for (x, y) in places {
            assert!(
                (0.0..=340.0).contains(&x) && (0.0..=250.0).contains(&y),
                "{x} {y}"
            );
        }
    }
}

#[test]
fn law_a_trend_says_all_it_draws() {
    let svg = trend(&wear()).into_string();
    for words in [
        "At 12: 12.0 to 13.0.",
        "At 143: 14.2 to 14.2.",
        "The line at 400: 18.0, 15.5 to 20.5.",
        "Greatest 18.0.",
    ] {
        assert!(svg.contains(words), "{words}");
    }
}

#[test]
fn law_what_is_no_number_is_not_drawn() {
    let mut chart = wear();
    chart.readings[0].low = f64::NAN;
    chart.line[1].high = f64::INFINITY;
    chart.greatest = Some(f64::NAN);
    let svg = trend(&chart).into_string();
    let drawn = svg.split("</desc>").nth(1).unwrap();
    assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{drawn}");
    assert!(svg.contains("At 12: not a number to 13.0."));
}

#[test]
fn regress_a_trend_with_its_limit() {
    insta::assert_snapshot!(trend(&wear()).into_string().replace("><", ">\n<"));
}
