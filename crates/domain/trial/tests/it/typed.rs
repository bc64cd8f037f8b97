use trial::reduce::{Allowances, Pass, reduce};
use trial::typed::{Read, typed};
use trial::{Origin, Part};

use crate::assert_near;

#[test]
fn computed_what_a_reading_may_be_off_by() {
    // jcgm-100, 4.3.7: step / sqrt 12, half width / sqrt 3; the difference of two ends within a frame is
    // triangular, 4.3.9: width / sqrt 6. By hand.
    let dash = typed(
        26.8,
        Read::Readout {
            step: 0.44,
            accuracy: 0.1,
        },
    )
    .unwrap();
    assert_near(
        dash.uncertainty(),
        (0.44_f64.powi(2) / 12.0 + 0.01).sqrt(),
        1e-15,
    );
    assert_near(
        typed(1.7, Read::WATCH).unwrap().uncertainty(),
        0.115_470_053_8,
        1e-10,
    );
    let film = typed(1.7, Read::Film { rate: 30.0 }).unwrap();
    assert_near(film.uncertainty(), 0.013_608_276_3, 1e-10);
    assert_eq!(film.origin, Origin::Typed);
}

#[test]
fn law_typed_runs_reduce_like_any() {
    let run = |i: u32, speed| Pass {
        time: 120.0 * f64::from(i),
        course: std::f64::consts::PI * f64::from(i),
        speed: typed(
            speed,
            Read::Readout {
                step: 0.5,
                accuracy: 0.2,
            },
        )
        .unwrap(),
    };
    let speeds = [24.60, 23.66, 24.16, 23.94];
    let passes: Vec<Pass> = (0..).zip(speeds).map(|(i, v)| run(i, v)).collect();
    let reduced = reduce(&passes, &Allowances::default()).unwrap();
    assert_near(reduced.speed.value, 24.0, 1e-12);
    assert_eq!(reduced.speed.origin, Origin::Typed);
    let receiver = reduced
        .speed
        .parts
        .iter()
        .find(|p| p.part == Part::Receiver)
        .unwrap();
    assert_near(receiver.uncertainty, 0.2, 0.0);
}

#[test]
fn law_what_nobody_can_have_read_is_refused() {
    assert!(typed(0.0, Read::WATCH).is_err());
    assert!(typed(f64::NAN, Read::WATCH).is_err());
    assert!(
        typed(
            1.0,
            Read::Readout {
                step: 0.0,
                accuracy: 0.0
            }
        )
        .is_err()
    );
    assert!(typed(1.0, Read::Film { rate: 0.0 }).is_err());
}
