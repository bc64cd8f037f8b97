//! A recording over time: what is drawn stays on the paper, and no peak is lost. All of it is invented.

use chart::{Part, TraceChart, trace};

/// Two runs, six minutes and ten a second, with a gap and one spike of a single sample.
fn runs() -> TraceChart {
    let speed = |n: u32| match n {
        600..=1200 | 2000..=2600 => 48.0 + f64::from(n % 7) / 10.0,
        1500 => 63.0,
        _ => 6.0 + f64::from(n % 11) / 10.0,
    };
    let sample = |n: u32| (f64::from(n) / 600.0, speed(n));
    let part = |from: u32, until: u32, mark: &str, counts| Part {
        from: f64::from(from) / 600.0,
        until: f64::from(until) / 600.0,
        mark: mark.to_owned(),
        counts,
        words: "48.3 mph".to_owned(),
    };
    TraceChart {
        title: "speed over time".to_owned(),
        along: "minutes".to_owned(),
        up: "speed, mph".to_owned(),
        decimals: 1,
        stretches: vec![
            (0..1700).map(sample).collect(),
            (1900..3600).map(sample).collect(),
        ],
        parts: vec![
            part(600, 1200, "1 ↑", true),
            part(1210, 1240, "a", false),
            part(2000, 2600, "2 ↓", true),
        ],
    }
}

/// Every place of the line.
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
fn law_a_recording_stays_on_its_paper_and_is_short() {
    let svg = trace(&runs()).into_string();
    let places = places(&svg);
    assert!(places.len() < 1300, "{}", places.len());
    for (x, y) in places {
        assert!((0.0..=340.0).contains(&x) && (0.0..=230.0).contains(&y));
    }
}

#[test]
fn law_a_peak_of_one_sample_is_drawn() {
    let least = |chart: &TraceChart| {
        let svg = trace(chart).into_string();
        let line = svg.split("class=\"stroke-ink bold\"").nth(1).unwrap();
        let places = places(line.split("/>").next().unwrap());
        places.iter().map(|(_, y)| *y).fold(f64::MAX, f64::min)
    };
    let mut flat = runs();
    flat.stretches[0][1500].1 = 6.0;
    // The same axis, so that the places can be compared: 63 mph gives one up to 80.
    flat.stretches[0][0].1 = 63.0;
    assert!((least(&runs()) - least(&flat)).abs() < 0.02);
}

#[test]
fn law_a_hostile_recording_is_drawn_without_what_is_no_number() {
    let hostile = TraceChart {
        stretches: vec![
            vec![(f64::NAN, 1.0), (0.0, f64::INFINITY), (1.0, 2.0)],
            Vec::new(),
        ],
        parts: vec![Part {
            from: f64::NAN,
            ..runs().parts[0].clone()
        }],
        ..runs()
    };
    let svg = trace(&hostile).into_string();
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    let nothing = TraceChart {
        stretches: Vec::new(),
        parts: Vec::new(),
        ..runs()
    };
    let svg = trace(&nothing).into_string();
    assert!(svg.contains("nothing recorded"), "{svg}");
}

#[test]
fn regress_a_trace_in_words() {
    let svg = trace(&runs()).into_string();
    let words = svg.split("<desc>").nth(1).unwrap();
    assert_eq!(
        words.split("</desc>").next().unwrap(),
        "speed, mph over 0.0 to 6.0 minutes, at most 63.0. 1 ↑, 1.0 to 2.0: 48.3 mph. a, 2.0 to \
         2.1: 48.3 mph. 2 ↓, 3.3 to 4.3: 48.3 mph."
    );
}
