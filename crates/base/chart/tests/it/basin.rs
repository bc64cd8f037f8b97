//! What replacing costs over age. All numbers are invented.

use chart::{Basin, BasinChart, Foreseen, basin};

use crate::paper::{assert_apart, assert_on_paper, circles, lines, strokes, words};

/// Costs that fall with the share of a fixed cost and rise with wear.
fn cost(fixed: f64, wear: f64, age: f64) -> f64 {
    fixed / age + wear * age
}

fn part(name: &str, (fixed, wear): (f64, f64), flat: (f64, Option<f64>)) -> Basin {
    let ages = (2..=50).map(|n| 5.0 * f64::from(n));
    let point = |age| {
        let middle = cost(fixed, wear, age);
        Foreseen {
            at: age,
            low: 0.85 * middle,
            middle,
            high: 1.2 * middle,
        }
    };
    Basin {
        name: name.to_owned(),
        points: ages.map(point).collect(),
        least: flat.1.map(|_| (fixed / wear).sqrt()),
        flat: Some(flat),
    }
}

/// Of `f / t + w t` the ages within 5 % of the least are `t* (r ± sqrt(r² − 1))`, `r` = 1.05.
fn within(least: f64) -> (f64, Option<f64>) {
    let spread = (1.05_f64.powi(2) - 1.0).sqrt();
    (least * (1.05 - spread), Some(least * (1.05 + spread)))
}

fn chart(basins: Vec<Basin>) -> BasinChart {
    BasinChart {
        title: "Cost over the age of replacement".to_owned(),
        along: "replaced at, engine hours".to_owned(),
        up: "cost, $ an hour".to_owned(),
        decimals: 2,
        age_decimals: 0,
        basins,
    }
}

fn three() -> BasinChart {
    chart(vec![
        part("wear ring", (180.0, 0.0125), within(120.0)),
        part("impeller", (320.0, 0.0142), within(150.0)),
        part("thrust bearing <old>", (140.0, 0.0005), (140.0, None)),
    ])
}

fn six() -> Vec<Basin> {
    [three().basins, three().basins].concat()
}

fn svg(chart: &BasinChart) -> String {
    basin(chart).into_string()
}

/// The three curves lie in a field from x 52 to 296 with ages 0 to 250.
fn age(x: f64) -> f64 {
    (x - 52.0) / (296.0 - 52.0) * 250.0
}

#[test]
fn law_the_dot_is_where_the_curve_is_least() {
    let svg = svg(&three());
    let curve = strokes(&svg, "stroke-ink bold");
    let lowest = curve[0].iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    let dot = circles(&svg)[0];
    assert!((age(dot.0) - 120.0).abs() < 0.1, "{dot:?}");
    assert!((dot.0 - lowest.0).abs() < 0.1 && (dot.1 - lowest.1).abs() < 0.1);
}

#[test]
fn law_a_bar_ends_at_its_ages_and_is_open_where_failure_is_among_them() {
    let svg = svg(&three());
    let bars = strokes(&svg, "stroke-ink heavy");
    let along: Vec<_> = bars
        .iter()
        .filter(|bar| bar[0].1.total_cmp(&bar[bar.len() - 1].1).is_eq() && bar.len() == 2)
        .collect();
    let (low, high) = within(120.0);
    assert!((age(along[0][0].0) - low).abs() < 0.1);
    assert!((age(along[0][1].0) - high.unwrap()).abs() < 0.1);
    // To the edge of the field, with an arrow and one number.
    assert!((age(along[2][1].0) - 250.0).abs() < 0.1);
    assert_eq!(bars.iter().filter(|bar| bar.len() == 3).count(), 1);
    let numbers = words(&svg)
        .into_iter()
        .filter(|words| words.class.starts_with("figure"));
    assert_eq!(
        numbers.map(|words| words.said).collect::<Vec<_>>(),
        ["88", "164", "109", "206", "140"]
    );
}

#[test]
fn law_names_lie_on_no_other_and_curves_differ_by_stroke() {
    // Curves on one another, and apart by ever more: names find places or are left to the rows.
    for step in 0..40 {
        let more = 1.0 + f64::from(step) / 20.0;
        let name = "part with a name that is long";
        let parts = (0..3).map(|n| part(name, (180.0 * more.powi(n), 0.0125), within(120.0)));
        let svg = svg(&chart(parts.collect()));
        assert_apart(&svg, "label start strong text-ink halo");
        assert_on_paper(&svg);
        for stroke in [
            "stroke-ink bold",
            "stroke-ink bold dash-short",
            "stroke-ink bold dash-long",
        ] {
            assert!(strokes(&svg, stroke).len() >= 2, "a curve and its sample");
        }
    }
}

#[test]
fn law_costs_far_above_the_least_are_cut_off_at_the_top_and_said() {
    let mut steep = three();
    for basin in &mut steep.basins {
        basin.points.insert(
            0,
            Foreseen {
                at: 0.01,
                low: 1e4,
                middle: 2e4,
                high: 3e4,
            },
        );
    }
    let svg = svg(&steep);
    assert_on_paper(&svg);
    // The bottom of the basin still has a third of the field to lie in: field from y 34 to 206.
    assert!(circles(&svg)[0].1 < 206.0 - 30.0, "{:?}", circles(&svg)[0]);
    assert!(svg.contains("Cut off above"));
    let highest = strokes(&svg, "stroke-ink bold").into_iter().flatten();
    assert!(highest.map(|point| point.1).all(|y| y >= 33.99));
}

#[test]
fn law_the_description_holds_the_numbers() {
    let svg = svg(&three());
    // 2 sqrt(180 × 0.0125) = 3.00, its band 2.55 to 3.60.
    assert!(
        svg.contains("wear ring: least 3.00 (2.55 to 3.60) at 120. Hardly more from 88 to 164."),
        "{svg}"
    );
    assert!(svg.contains("thrust bearing &lt;old&gt;: least where it runs to failure. Hardly more from 140 on, to failure."));
}

#[test]
fn law_a_bar_that_goes_on_has_an_arrow_and_its_number() {
    let mut far = three();
    far.basins[0].flat = Some((88.0, Some(12_345.0)));
    far.basins[1].flat = Some((9000.0, None));
    let svg = svg(&far);
    assert_on_paper(&svg);
    let bars = strokes(&svg, "stroke-ink heavy");
    assert_eq!(bars.iter().filter(|bar| bar.len() == 3).count(), 3);
    let numbers = words(&svg)
        .into_iter()
        .filter(|words| words.class.starts_with("figure"));
    let numbers: Vec<_> = numbers.map(|words| words.said).collect();
    assert_eq!(numbers, ["88", "12345", "9000", "140"]);
    assert_apart(&svg, "figure end text-ink halo");
}

#[test]
fn law_what_is_no_number_is_left_out_and_said() {
    let mut spoilt = three();
    spoilt.basins[0].points[3].high = f64::NAN;
    spoilt.basins[0].least = Some(f64::INFINITY);
    spoilt.basins[1].flat = Some((f64::NAN, None));
    spoilt.basins[1].least = Some(9000.0);
    spoilt.basins[2].points.truncate(1);
    let drawn = svg(&spoilt);
    assert_on_paper(&drawn);
    for said in [
        "A point is no number.",
        "least at not a number, which is not drawn",
        "Between which ages it is hardly more is no number.",
        "least at 9000, which is not drawn",
    ] {
        assert!(drawn.contains(said), "{said}: {drawn}");
    }
    spoilt.basins[0].points.clear();
    assert_on_paper(&svg(&spoilt));
    for basins in [vec![], six()] {
        assert_on_paper(&svg(&chart(basins)));
    }
    assert!(svg(&chart(six())).contains("3 more are not drawn."));
    let flat_out = Basin {
        points: vec![
            Foreseen {
                at: 10.0,
                low: 0.0,
                middle: 0.0,
                high: 0.0
            };
            3
        ],
        ..three().basins.remove(0)
    };
    assert_on_paper(&svg(&chart(vec![flat_out])));
}

#[test]
fn regress_costs_of_three_parts() {
    insta::assert_snapshot!(lines(&svg(&three())));
}

#[test]
fn regress_costs_of_one_part_with_a_long_name() {
    let name = "reduction nozzle with the steering nozzle and both of its pivots";
    let mut one = chart(vec![part(name, (180.0, 0.0125), (87.0, Some(12_345.0)))]);
    one.basins[0].points.insert(
        0,
        Foreseen {
            at: 0.1,
            low: 900.0,
            middle: 1800.0,
            high: 2500.0,
        },
    );
    insta::assert_snapshot!(lines(&svg(&one)));
}
