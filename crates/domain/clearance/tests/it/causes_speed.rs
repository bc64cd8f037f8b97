//! How long the answers about causes take.

use std::time::Instant;

use clearance::causes::{
    Cause, Frame, ROUGHNESS, Reading, Survey, bounds, cure, fit, next_readings, rank, untold,
};
use clearance::{Cell, Model};

use crate::pumps::Leaves;

/// Off centre by 0.1 mm and one blade short, in steps of 0.05 mm; six blades, twelve positions, two
/// stations.
fn survey() -> Survey {
    let frame = Frame::even(6, 12, 2).unwrap();
    let spots = frame.spots().zip((0..23_u32).cycle());
    let readings = spots
        .map(|(spot, rough)| {
            let short = f64::from(u8::from(spot.blade == 2)) * 80e-6;
            let wave = 100e-6 * (frame.angle(spot.position) - 1.0).cos();
            let gap = 500e-6 + wave + short + 1e-6 * f64::from(rough * 7 % 23);
            let low = (gap / 50e-6).floor() * 50e-6;
            let high = low + 50e-6;
            Reading {
                spot,
                cell: Cell { low, high },
            }
        })
        .collect();
    Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap()
}

/// Least time of some runs, in ms.
#[expect(clippy::disallowed_methods, reason = "a time is what is asked for")]
fn time<T>(mut run: impl FnMut() -> T) -> f64 {
    let runs: u32 = option_env!("PUMPWRIGHT_RUNS").map_or(1, |n| n.parse().unwrap());
    let once = |_| {
        let begun = Instant::now();
        std::hint::black_box(run());
        begun.elapsed().as_secs_f64() * 1e3
    };
    (0..runs).map(once).fold(f64::INFINITY, f64::min)
}

#[test]
#[ignore = "times and asserts little: cargo xtask study speed runs it"]
fn speed_study() {
    let survey = survey();
    let ranking = rank(&survey);
    let first = &ranking.candidates[0];
    assert_eq!(first.causes, [Cause::OffCentre, Cause::Blade(2)]);
    let leaves = Leaves::Inch.thicknesses();
    let model = [Cause::Uneven, Cause::OffCentre, Cause::Oval];
    let rows = [
        ("rank with pairs", time(|| rank(&survey))),
        (
            "sizes of the first",
            time(|| ranking.draw(&survey, first, 1).effects()),
        ),
        (
            "next best reading",
            time(|| next_readings(&survey, &ranking, &leaves)),
        ),
        (
            "cure of one cause",
            time(|| cure(&ranking.draw(&survey, first, 1), &[vec![0]])),
        ),
        ("what cannot be told", time(|| untold(&survey))),
        ("most likely values", time(|| fit(&survey, &model))),
        ("bounds", time(|| bounds(&survey, &model))),
    ];
    println!("| answer | ms |\n|---|---|");
    for (answer, ms) in rows {
        println!("| {answer} | {ms:.1} |");
    }
    let [(_, rank), (_, sizes), (_, next), ..] = rows;
    assert!(rank + sizes < 50.0 && next < 100.0, "{rows:?}");
}
