//! How long parts last. All numbers are invented.

use chart::{Ahead, Lasting, LastingChart, lasting};

use crate::paper::{assert_on_paper, lines, strokes, words};

fn row(label: &str, [most, half, few]: [f64; 3], now: Option<(f64, Option<f64>)>) -> Lasting {
    Lasting {
        label: label.to_owned(),
        note: format!("9 of 10 last {most:.0} h"),
        most,
        half,
        few,
        now: now.map(|(age, season)| Ahead { age, season }),
    }
}

fn chart(rows: Vec<Lasting>) -> LastingChart {
    LastingChart {
        title: "How long parts last".to_owned(),
        along: "engine hours since fitted".to_owned(),
        decimals: 0,
        until: None,
        rows,
    }
}

fn bench() -> LastingChart {
    chart(vec![
        row("wear ring", [60.0, 140.0, 230.0], Some((88.0, Some(45.0)))),
        row(
            "impeller <spare>",
            [150.0, 310.0, 480.0],
            Some((0.0, Some(45.0))),
        ),
        row("seal", [90.0, 170.0, 250.0], Some((212.0, None))),
        row("thrust bearing", [200.0, 400.0, 600.0], None),
    ])
}

fn svg(chart: &LastingChart) -> String {
    lasting(chart).into_string()
}

/// Ages 0 to 600 from x 8 to 326.
fn age(x: f64) -> f64 {
    (x - 8.0) / (326.0 - 8.0) * 600.0
}

#[test]
fn law_ticks_stand_at_the_ages() {
    let svg = svg(&bench());
    let ticks = strokes(&svg, "stroke-ink bold");
    let ticks: Vec<f64> = ticks
        .iter()
        .filter(|tick| tick.len() == 2)
        .map(|tick| age(tick[0].0))
        .collect();
    for (tick, expected) in ticks.iter().zip([60.0, 140.0, 230.0, 150.0, 310.0, 480.0]) {
        assert!((tick - expected).abs() < 0.1, "{tick} for {expected}");
    }
}

#[test]
fn law_the_triangle_stands_under_its_age_and_the_bracket_ends_with_the_season() {
    let svg = svg(&bench());
    let tips = strokes(&svg, "fill-ink stroke-card hair");
    // Three are fitted, and the key has one.
    assert_eq!(tips.len(), 4);
    for (tip, expected) in tips.iter().zip([88.0, 0.0, 212.0]) {
        assert!((age(tip[0].0) - expected).abs() < 0.1);
    }
    let brackets: Vec<_> = strokes(&svg, "stroke-ink bold")
        .into_iter()
        .filter(|path| path.len() == 3)
        .collect();
    assert_eq!(brackets.len(), 3);
    assert!((age(brackets[0][0].0) - 88.0).abs() < 0.1);
    assert!((age(brackets[0][2].0) - 133.0).abs() < 0.1);
    let said: Vec<_> = words(&svg)
        .into_iter()
        .filter(|words| words.class.starts_with("figure"))
        .map(|words| words.said)
        .collect();
    assert_eq!(said, ["88 to 133", "0 to 45", "212"]);
}

#[test]
fn law_what_lasts_beyond_the_last_age_drawn_ends_in_an_arrow() {
    let mut short = bench();
    short.until = Some(250.0);
    short.rows[3].now = Some(Ahead {
        age: 5000.0,
        season: Some(45.0),
    });
    let svg = svg(&short);
    assert_on_paper(&svg);
    // The right corner of an arrow lies beyond the axis.
    let arrows = strokes(&svg, "stroke-ink bold")
        .into_iter()
        .filter(|path| path.iter().any(|point| point.0 > 326.5));
    assert_eq!(arrows.count(), 2);
    assert!(svg.contains("Drawn up to 250.") && svg.contains("5000 to 5045"));
}

#[test]
fn law_the_description_holds_the_numbers() {
    let svg = svg(&bench());
    assert!(svg.contains("wear ring: 9 of 10 are left at 60, half at 140, 1 of 10 at 230; the fitted one stands at 88, at the end of the season at 133."), "{svg}");
}

#[test]
fn law_what_is_no_number_is_left_out_and_said() {
    let rows = vec![
        row("a", [10.0, f64::NAN, 30.0], Some((5.0, None))),
        row("b", [10.0, 20.0, f64::INFINITY], None),
        row("c", [30.0, 20.0, 40.0], Some((f64::NAN, Some(1.0)))),
        row("d", [0.0, 0.0, 0.0], Some((1.0, Some(f64::NAN)))),
    ];
    let drawn = svg(&chart(rows));
    assert_on_paper(&drawn);
    assert!(drawn.contains("Left out: 3 bars."), "{drawn}");
    assert!(drawn.contains("the age of the fitted one is no number"));
    assert_eq!(drawn.matches(">not known</text>").count(), 3);
    for rows in [vec![], vec![row("", [0.0; 3], Some((0.0, Some(0.0))))]] {
        assert_on_paper(&svg(&chart(rows)));
    }
}

#[test]
fn law_a_dozen_with_long_names_stay_on_the_paper() {
    let rows = (0..12).map(|n| {
        let half = 30.0 * f64::from(n + 1);
        let name = "MMMMMM reduction nozzle with the steering nozzle and both of its pivots";
        row(
            name,
            [half / 2.0, half, 2.0 * half],
            Some((half * 3.0, Some(half))),
        )
    });
    assert_on_paper(&svg(&chart(rows.collect())));
}

#[test]
fn regress_how_long_parts_last() {
    insta::assert_snapshot!(lines(&svg(&bench())));
}

#[test]
fn regress_how_long_parts_last_cut_short() {
    let mut short = bench();
    short.until = Some(250.0);
    short.rows[0].label =
        "reduction nozzle with the steering nozzle and both of its pivots".to_owned();
    short.rows[2].half = f64::NAN;
    insta::assert_snapshot!(lines(&svg(&short)));
}
