//! The scale and its ticks.

use chart::{Scale, num};

fn ticks(low: f64, high: f64) -> Vec<String> {
    let scale = Scale {
        values: (low, high),
        places: (0.0, 1.0),
    };
    let decimals = scale.decimals(5);
    let written = scale.ticks(5).into_iter().map(|tick| num(tick, decimals));
    written.map(Option::unwrap).collect()
}

#[test]
fn practice_ticks_are_round() {
    let cases: [(f64, f64, &[&str]); 6] = [
        (0.0, 10.0, &["0", "2", "4", "6", "8", "10"]),
        (9.9, 16.2, &["10", "12", "14", "16"]),
        (0.28, 0.43, &["0.30", "0.35", "0.40"]),
        (-1.0, 1.0, &["-1.0", "-0.5", "0.0", "0.5", "1.0"]),
        (0.0, 0.3, &["0.0", "0.1", "0.2", "0.3"]),
        (5.0, 5.0, &[]),
    ];
    for (low, high, expected) in cases {
        assert_eq!(ticks(low, high), expected, "{low} to {high}");
    }
    assert!(ticks(f64::NAN, 1.0).is_empty());
    assert!(ticks(0.0, f64::INFINITY).is_empty());
    assert!(ticks(2.0, 1.0).is_empty());
}

#[test]
fn law_ends_go_to_ends_and_order_is_kept() {
    let scale = Scale {
        values: (9.0, 17.0),
        places: (200.0, 40.0),
    };
    let written = |value| num(scale.place(value), 6).unwrap();
    assert_eq!(written(9.0), "200.000000");
    assert_eq!(written(17.0), "40.000000");
    assert_eq!(written(13.0), "120.000000");
    assert!(scale.place(10.0) > scale.place(11.0), "up is more");
}

#[test]
fn law_a_nice_scale_holds_all_it_held() {
    for (low, high) in [(9.9, 16.2), (0.28, 0.43), (-3.2, 7.7), (1e-7, 9e-7)] {
        let scale = Scale {
            values: (low, high),
            places: (0.0, 1.0),
        }
        .nice(5);
        assert!(scale.values.0 <= low && high <= scale.values.1);
        let ticks = scale.ticks(5);
        // Twice the wanted number is the most that steps of 1, 2, 5 and widening can give.
        assert!(
            (3..=10).contains(&ticks.len()),
            "{low} to {high}: {ticks:?}"
        );
    }
}
