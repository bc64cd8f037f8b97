//! The gallery of charts, and what must hold of each. All numbers are invented.

use chart::{Category, Interval, IntervalChart, intervals};

fn interval(label: &str, median: f64) -> Interval {
    Interval {
        label: label.to_owned(),
        low: median - 0.6,
        median,
        high: median + 0.7,
    }
}

fn category(label: &str, medians: &[f64]) -> Category {
    let letters = ["A", "B", "C", "D"];
    Category {
        label: label.to_owned(),
        intervals: std::iter::zip(letters, medians)
            .map(|(letter, median)| interval(letter, *median))
            .collect(),
    }
}

fn every_blade() -> IntervalChart {
    IntervalChart {
        title: "Tip clearance by clock position".to_owned(),
        axis: "gap, thou".to_owned(),
        decimals: 1,
        least: Some(12.0),
        greatest: Some(16.0),
        categories: vec![
            category("12", &[13.3, 13.4, 13.1, 13.3]),
            category("1:30", &[13.6, 13.4, 13.5, 13.4]),
            category("3", &[13.1, 13.2, 13.1, 13.4]),
            category("4:30", &[10.5, 10.7, 10.4, 10.6]),
            category("6", &[13.0, 13.1]),
            category("7:30", &[]),
            category("9", &[13.2, 13.4, 13.1, 13.3]),
            category("10:30", &[13.4, 13.5, 13.4, 15.9]),
        ],
    }
}

fn one_a_position() -> IntervalChart {
    let mut chart = every_blade();
    for category in &mut chart.categories {
        category.intervals.truncate(1);
    }
    chart
}

fn only_least() -> IntervalChart {
    IntervalChart {
        greatest: None,
        axis: "gap, mm".to_owned(),
        decimals: 2,
        least: Some(0.3),
        categories: ["12", "3", "6", "9"]
            .into_iter()
            .map(|label| Category {
                label: label.to_owned(),
                intervals: vec![Interval {
                    label: "B".to_owned(),
                    low: 0.312,
                    median: 0.33,
                    high: 0.351,
                }],
            })
            .collect(),
        ..every_blade()
    }
}

fn nothing() -> IntervalChart {
    IntervalChart {
        least: None,
        greatest: None,
        categories: vec![category("12", &[]), category("6", &[])],
        ..every_blade()
    }
}

/// Numbers no chart can show, and words that would break careless markup.
fn hostile() -> IntervalChart {
    let mut chart = one_a_position();
    "<b> & \"quoted\"".clone_into(&mut chart.title);
    chart.greatest = Some(f64::INFINITY);
    chart.categories[0].intervals = vec![interval("A", f64::NAN)];
    chart.categories[1].intervals = vec![interval("<", f64::NEG_INFINITY), interval("B", 13.0)];
    chart.categories[2].intervals[0].high = f64::INFINITY;
    chart
}

fn samples() -> Vec<(&'static str, IntervalChart)> {
    vec![
        ("every_blade", every_blade()),
        ("one_a_position", one_a_position()),
        ("only_least", only_least()),
        ("nothing", nothing()),
        ("hostile", hostile()),
    ]
}

/// One element a line, so that a change can be read.
fn text(chart: &IntervalChart) -> String {
    intervals(chart).0.replace("><", ">\n<")
}

#[test]
fn regress_gallery() {
    for (name, sample) in samples() {
        insta::assert_snapshot!(format!("chart_{name}"), text(&sample));
    }
}

#[test]
fn law_every_mark_is_inside_the_picture() {
    for (name, sample) in samples() {
        let svg = text(&sample);
        let width: f64 = attribute(&svg, "width").next().unwrap().parse().unwrap();
        let height: f64 = attribute(&svg, "height").next().unwrap().parse().unwrap();
        for (key, most) in [("x", width), ("y", height)] {
            for written in attribute(&svg, key) {
                let value: f64 = written.parse().unwrap();
                assert!((0.0..=most).contains(&value), "{name}: {key} {value}");
            }
        }
    }
}

#[test]
fn law_nothing_is_drawn_that_is_no_number() {
    let svg = text(&hostile());
    for word in ["NaN", "inf", "style=", "<b>", "-0.00\""] {
        assert!(!svg.contains(word), "{word}");
    }
    assert!(svg.contains("12: A left out, not a number."));
    assert!(svg.contains("Greatest not a number."));
    assert!(svg.contains("aria-label=\"&lt;b&gt; &amp; &quot;quoted&quot;\""));
}

#[test]
fn law_more_is_drawn_higher() {
    let middle = |median: f64| {
        let mut chart = every_blade();
        chart.categories[0] = category("12", &[median]);
        let svg = text(&chart);
        let rest = svg.split("stroke-ink heavy\" d=\"M").nth(1).unwrap();
        let y = rest.split([' ', 'L']).nth(1).unwrap();
        y.parse::<f64>().unwrap()
    };
    assert!(middle(14.0) < middle(13.0));
}

/// The values of an attribute in order.
fn attribute<'a>(svg: &'a str, key: &str) -> impl Iterator<Item = &'a str> {
    let start = format!(" {key}=\"");
    svg.split(&start)
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect::<Vec<_>>()
        .into_iter()
}
