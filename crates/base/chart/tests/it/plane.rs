//! Numbers and points as they are written.

use chart::{Frame, Path, Point, Polar, num, px};

#[test]
fn practice_numbers_are_written_plainly() {
    let cases = [
        (13.25, 1, Some("13.2")), // a tie goes to the even digit, as in the standard library
        (13.35, 1, Some("13.3")), // 13.35 is a little less than itself in binary
        (0.33, 3, Some("0.330")),
        (-0.001, 2, Some("0.00")),
        (-0.0, 0, Some("0")),
        (-1.5, 1, Some("-1.5")),
        (1e-300, 2, Some("0.00")),
        (f64::NAN, 2, None),
        (f64::INFINITY, 2, None),
        (f64::NEG_INFINITY, 0, None),
    ];
    for (value, decimals, text) in cases {
        assert_eq!(num(value, decimals).as_deref(), text, "{value} {decimals}");
    }
}

#[test]
fn law_the_clock_runs_from_twelve_to_three() {
    let clock = Polar {
        centre: Point { x: 10.0, y: 10.0 },
    };
    let written = |angle: f64| {
        let Point { x, y } = clock.at(5.0, angle);
        (px(x).unwrap(), px(y).unwrap())
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    assert_eq!(written(0.0), ("10.00".into(), "5.00".into()));
    assert_eq!(written(quarter), ("15.00".into(), "10.00".into()));
    assert_eq!(written(2.0 * quarter), ("10.00".into(), "15.00".into()));
    assert_eq!(written(3.0 * quarter), ("5.00".into(), "10.00".into()));
}

#[test]
fn law_columns_fill_the_frame() {
    let frame = Frame {
        left: 10.0,
        top: 0.0,
        right: 90.0,
        bottom: 1.0,
    };
    let middles: Vec<_> = (0..4).map(|i| px(frame.column(i, 4)).unwrap()).collect();
    assert_eq!(middles, ["20.00", "40.00", "60.00", "80.00"]);
    assert_eq!(px(frame.column_width(4)).unwrap(), "20.00");
}

#[test]
fn law_a_path_leaves_out_what_is_not_a_number() {
    let at = |x: f64, y: f64| Point { x, y };
    let path = Path::new()
        .to(at(f64::NAN, 0.0))
        .to(at(0.0, 0.0))
        .to(at(1.0, f64::INFINITY))
        .to(at(1.0, 1.0))
        .close()
        .close()
        .lift()
        .to(at(2.0, 2.0));
    assert_eq!(path.d(), "M0.00 0.00L1.00 1.00ZM2.00 2.00");
}
