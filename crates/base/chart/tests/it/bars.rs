//! A plan as bars: everything in sight, nothing outside the paper.

use chart::{Bar, BarPlan, bars};

fn plan() -> BarPlan {
    let bar = |label: &str, work, slips, cures| Bar {
        label: label.into(),
        work,
        slips,
        cures,
        running: label == "Close",
    };
    BarPlan {
        title: "Steps over time".into(),
        range: (0.0, 30.0),
        ticks: vec![(6.0, "18:00".into()), (18.0, "Thu 06:00".into())],
        now: 0.0,
        away: vec![(2.0, 14.0), (40.0, 50.0)],
        rows: vec![
            bar("Close", (-1.0, 0.1), Some(0.2), Some(24.0)),
            bar("Launch <now>", (24.0, 24.5), None, None),
            bar("Recheck", (29.99, 48.0), None, None),
        ],
    }
}

/// Every number of the attributes `x`, `width`.
fn numbers(svg: &str, attribute: &str) -> Vec<f64> {
    let key = format!(" {attribute}=\"");
    let pieces = svg.split(&key).skip(1);
    pieces
        .filter_map(|piece| piece.split('"').next()?.parse().ok())
        .collect()
}

#[test]
fn law_bars_are_seen_and_stay_on_the_paper() {
    let svg = bars(&plan()).into_string();
    assert!(numbers(&svg, "width").iter().all(|width| *width >= 2.99));
    assert!(numbers(&svg, "x").iter().all(|x| (0.0..=340.0).contains(x)));
    assert!(svg.contains("Launch &lt;now&gt;"));
    // A stretch off the paper is not drawn, a cure is hatched and not only coloured.
    assert_eq!(svg.matches("shade-2 away").count(), 1);
    assert_eq!(svg.matches("stroke-soft fine cure").count(), 1);
}

#[test]
fn regress_a_plan_as_bars() {
    insta::assert_snapshot!(bars(&plan()).into_string().replace("><", ">\n<"));
}
