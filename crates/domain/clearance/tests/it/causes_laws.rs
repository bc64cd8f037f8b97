//! What must hold of any table of readings.

use std::f64::consts::{PI, TAU};

use clearance::causes::{
    Bounds, Candidate, Cause, Column, Effect, Frame, ROUGHNESS, Reading, Span, Spot, Survey,
    bounds, fit, least_squares, rank,
};
use clearance::{Cell, Error, Feel, Model};
use proptest::prelude::*;

use crate::causes::{PLAIN, example};
use crate::{THOU, assert_near};

const MEAN: Column = Column::Mean(0);

/// Four blades at eight positions, gaps from 0.4 mm to 0.6 mm in steps of 0.05 mm.
fn table() -> impl Strategy<Value = Vec<u32>> {
    prop::collection::vec(8_u32..12, 32)
}

fn survey(steps: &[u32], place: impl Fn(Spot) -> Spot, shift: f64) -> Survey {
    let frame = Frame::even(4, 8, 1).unwrap();
    let readings = frame
        .spots()
        .zip(steps)
        .map(|(spot, &step)| Reading {
            spot: place(spot),
            cell: Cell {
                low: f64::from(step) * 50e-6 + shift,
                high: f64::from(step + 1) * 50e-6 + shift,
            },
        })
        .collect();
    Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap()
}

fn here(spot: Spot) -> Spot {
    spot
}

/// The same with the clock turned on by one position.
fn turned(spot: Spot) -> Spot {
    Spot {
        position: (spot.position + 1) % 8,
        ..spot
    }
}

/// The same with the blades counted from the next one.
fn renamed(spot: Spot) -> Spot {
    Spot {
        blade: (spot.blade + 1) % 4,
        ..spot
    }
}

fn value(survey: &Survey, column: Column) -> f64 {
    fit(survey, &PLAIN).unwrap().value(column).unwrap()
}

fn effect(cause: Cause, i: usize) -> Column {
    Column::Effect(cause, i)
}

/// Whether every set of causes that both rankings weigh is worth the same in both. Which sets the
/// search comes by may hang on the last bits; what a set is worth may not.
fn worth_the_same(one: &Survey, other: &Survey, named: impl Fn(Cause) -> Cause) -> bool {
    let (one, other) = (rank(one), rank(other));
    let mut met = 0;
    let held = one.candidates.iter().all(|set| {
        let causes: Vec<Cause> = set.causes.iter().map(|&cause| named(cause)).collect();
        let same = |twin: &&Candidate| {
            twin.causes.len() == causes.len() && causes.iter().all(|c| twin.causes.contains(c))
        };
        other.candidates.iter().find(same).is_none_or(|twin| {
            met += 1;
            (set.ln_evidence - twin.ln_evidence).abs() < 1e-6
        })
    });
    held && met > 0
}

fn near(a: f64, b: f64) -> bool {
    // Newton stops within 1e-10 of the scatter; a flat top leaves a little more.
    (a - b).abs() <= 1e-12
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_a_shift_moves_the_mean_alone(steps in table(), by in 0.0..3e-4_f64) {
        let (plain, moved) = (survey(&steps, here, 0.0), survey(&steps, here, by));
        prop_assert!(near(value(&plain, MEAN) + by, value(&moved, MEAN)));
        for column in [effect(Cause::Uneven, 0), effect(Cause::OffCentre, 1), effect(Cause::Oval, 0)] {
            prop_assert!(near(value(&plain, column), value(&moved, column)));
        }
        let same = worth_the_same(&plain, &moved, |cause| cause);
        prop_assert!(same);
    }

    #[test]
    fn law_blades_keep_their_lengths_under_new_names(steps in table()) {
        let (plain, named) = (survey(&steps, here, 0.0), survey(&steps, renamed, 0.0));
        for blade in 0..2 {
            let (old, new) = (effect(Cause::Uneven, blade), effect(Cause::Uneven, blade + 1));
            prop_assert!(near(value(&plain, old), value(&named, new)));
        }
        prop_assert!(near(value(&plain, effect(Cause::OffCentre, 0)), value(&named, effect(Cause::OffCentre, 0))));
        let blade = |blade: usize| (blade + 1) % 4;
        let same = worth_the_same(&plain, &named, |cause| match cause {
            Cause::Blade(old) => Cause::Blade(blade(old)),
            Cause::Stray(old) => Cause::Stray(Spot { blade: blade(old.blade), ..old }),
            other => other,
        });
        prop_assert!(same);
    }

    #[test]
    fn law_the_clock_turns_the_phases(steps in table()) {
        let (plain, later) = (survey(&steps, here, 0.0), survey(&steps, turned, 0.0));
        for (cause, turns) in [(Cause::OffCentre, 1.0), (Cause::Oval, 2.0)] {
            let wave = |s: &Survey| (value(s, effect(cause, 0)), value(s, effect(cause, 1)));
            let ((a, b), (c, d)) = (wave(&plain), wave(&later));
            let (sin, cos) = (turns * PI / 4.0).sin_cos();
            prop_assert!(near(a * cos - b * sin, c) && near(a * sin + b * cos, d));
        }
        let position = |position: usize| (position + 1) % 8;
        let same = worth_the_same(&plain, &later, |cause| match cause {
            Cause::Local(old) => Cause::Local(position(old)),
            Cause::Stray(old) => Cause::Stray(Spot { position: position(old.position), ..old }),
            other => other,
        });
        prop_assert!(same);
    }

    #[test]
    fn law_tighter_leaves_never_widen_the_bounds(
        wave in 0.0..1e-4_f64, angle in 0.0..TAU, parts in prop::collection::vec(0.05..0.95_f64, 32),
    ) {
        let frame = Frame::even(4, 8, 1).unwrap();
        let causes = [Cause::OffCentre];
        let spots: Vec<Spot> = frame.spots().collect();
        let gap = |s: &Spot| 5e-4 + wave * (frame.angle(s.position) - angle).cos();
        let of = |cell: &dyn Fn(f64, f64) -> Cell| {
            let readings = spots.iter().zip(&parts).map(|(s, &part)| Reading { spot: *s, cell: cell(gap(s), part) });
            Survey::new(frame.clone(), readings.collect(), Model::default(), &ROUGHNESS).unwrap()
        };
        let wide = of(&|g, part| Cell { low: g - part * 50e-6, high: g + (1.0 - part) * 50e-6 });
        let tight = of(&|g, part| Cell { low: g - 0.5 * part * 50e-6, high: g + 0.7 * (1.0 - part) * 50e-6 });
        let spans = |s: &Survey| -> Vec<(Column, Span)> {
            match bounds(s, &causes).unwrap() {
                Bounds::Within(spans) => spans,
                Bounds::Violated(by) => unreachable!("the truth fits: {by}"),
            }
        };
        for ((_, wide), (_, tight)) in spans(&wide).into_iter().zip(spans(&tight)) {
            // Each programme leaves 1e-6 of the scatter open.
            prop_assert!(wide.low <= tight.low + 1e-10 && tight.high <= wide.high + 1e-10);
        }
        // The truth itself keeps the bounds.
        let (a, b) = (wave * angle.cos(), wave * angle.sin());
        let tight = spans(&tight);
        prop_assert!(tight[1].1.low <= a + 1e-10 && a <= tight[1].1.high + 1e-10);
        prop_assert!(tight[2].1.low <= b + 1e-10 && b <= tight[2].1.high + 1e-10);
    }

    #[test]
    fn law_any_table_has_a_ranking(
        cells in prop::collection::vec((0.0..1e-3_f64, 1e-5..1e-3_f64, 0_u8..6, any::<bool>()), 2..33),
        rough in 1e-6..5e-5_f64,
    ) {
        let frame = Frame::even(4, 8, 1).unwrap();
        let mut readings: Vec<Reading> = frame
            .spots()
            .zip(&cells)
            .filter(|(_, (.., read))| *read)
            .map(|(spot, &(low, width, kind, _))| Reading {
                spot,
                cell: Cell { low, high: if kind == 0 { f64::INFINITY } else { low + width } },
            })
            .collect();
        readings.push(Reading { spot: Spot { station: 0, blade: 3, position: 7 }, cell: Cell { low: 4e-4, high: 5e-4 } });
        readings.dedup_by_key(|r| r.spot);
        let survey = Survey::new(frame, readings, Model::default(), &[rough]).unwrap();
        let ranking = rank(&survey);
        let sum: f64 = ranking.candidates.iter().map(|c| c.weight).sum();
        prop_assert!(sum <= 1.0 + 1e-9 && sum > 0.99, "{sum}");
        prop_assert!(ranking.candidates.windows(2).all(|two| two[0].weight >= two[1].weight));
        for candidate in &ranking.candidates {
            for effect in ranking.draw(&survey, candidate, 1).effects() {
                if let Effect::Amount(e) | Effect::Wave { size: e, .. } = effect {
                    prop_assert!(e.low <= e.median && e.median <= e.high && e.high.is_finite());
                }
            }
        }
    }
}

#[test]
fn law_narrow_cells_are_numbers() {
    // Cells much narrower than the scatter: the most likely values are those of least squares.
    let frame = Frame::even(4, 8, 1).unwrap();
    let example = example();
    let readings = example.readings().iter().map(|r| Reading {
        spot: r.spot,
        cell: Cell {
            low: r.cell.low + 0.499_5 * THOU,
            high: r.cell.low + 0.500_5 * THOU,
        },
    });
    let survey = Survey::new(frame, readings.collect(), Model::default(), &[20e-6]).unwrap();
    let (likely, squares) = (
        fit(&survey, &PLAIN).unwrap(),
        least_squares(&survey, &PLAIN).unwrap(),
    );
    for &column in squares.columns() {
        // A cell of w adds w^2 / 24 sigma^2, 1e-6 of the departure.
        assert_near(
            likely.value(column).unwrap(),
            squares.value(column).unwrap(),
            1e-10,
        );
    }
}

#[test]
fn law_what_cannot_be_fitted_is_named() {
    let frame = Frame::even(4, 3, 1).unwrap();
    let cell = Cell {
        low: 4e-4,
        high: 5e-4,
    };
    let readings = frame.spots().map(|spot| Reading { spot, cell }).collect();
    let survey = Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap();
    let asked = [Cause::OffCentre, Cause::Oval];
    let refused = Error::NotTold { told: 3, asked: 5 };
    assert_eq!(fit(&survey, &asked), Err(refused));
    assert_eq!(least_squares(&survey, &asked), Err(refused));
    let refused = Error::NoSuchPlace {
        what: "clock position",
        at: 3,
        of: 3,
    };
    assert_eq!(fit(&survey, &[Cause::Local(3)]), Err(refused));
    // Every leaf goes where one position alone shows: nothing holds its amount from above.
    let open = |r: &Reading| Reading {
        spot: r.spot,
        cell: Cell {
            low: 6e-4,
            high: if r.spot.position == 1 {
                f64::INFINITY
            } else {
                7e-4
            },
        },
    };
    let readings = survey.readings().iter().map(open).collect();
    let survey = Survey::new(
        survey.frame().clone(),
        readings,
        Model::default(),
        &ROUGHNESS,
    )
    .unwrap();
    let refused = Error::Unbounded {
        column: 1,
        asked: 2,
    };
    assert_eq!(fit(&survey, &[Cause::Local(1)]), Err(refused));
    let Bounds::Within(spans) = bounds(&survey, &[Cause::Local(1)]).unwrap() else {
        unreachable!("any large amount fits");
    };
    assert!(spans[1].1.high.is_infinite() && spans[1].1.low.is_finite());
}

#[test]
fn law_a_survey_refuses_what_it_cannot_use() {
    let frame = || Frame::even(2, 4, 1).unwrap();
    let at = |blade, position, high| Reading {
        spot: Spot {
            station: 0,
            blade,
            position,
        },
        cell: Cell { low: 4e-4, high },
    };
    let survey =
        |readings: Vec<Reading>| Survey::new(frame(), readings, Model::default(), &ROUGHNESS);
    assert_eq!(survey(vec![]), Err(Error::Empty { what: "reading" }));
    let twice = survey(vec![at(0, 0, 5e-4), at(0, 0, 5e-4)]);
    assert_eq!(
        twice,
        Err(Error::Twice {
            what: "spot",
            at: 1
        })
    );
    let place = Error::NoSuchPlace {
        what: "blade",
        at: 2,
        of: 2,
    };
    assert_eq!(survey(vec![at(2, 0, 5e-4)]), Err(place));
    let open = Error::NoUpperBound { largest: 4e-4 };
    assert_eq!(survey(vec![at(0, 0, f64::INFINITY)]), Err(open));
    let feel = Feel::from_allowance(0.0);
    let still = Model {
        feel,
        ..Model::default()
    };
    let refused = Survey::new(frame(), vec![at(0, 0, 5e-4)], still, &[0.0]);
    assert!(matches!(refused, Err(Error::NotPositive { .. })));
    assert!(matches!(
        Frame::new(1, vec![7.0], 1),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        Frame::new(1, vec![1.0, 1.0], 1),
        Err(Error::Twice { .. })
    ));
    assert_eq!(Frame::even(0, 1, 1), Err(Error::Empty { what: "blade" }));
}
