use clearance::population::{Spread, fit};
use clearance::{
    Answer, Cell, Contradiction, Contribution, Error, Feel, Limits, Model, Try, budget, combine,
    conformity, posterior, sagitta,
};

const CELL: Cell = Cell {
    low: 330e-6,
    high: 380e-6,
};

fn drawn(cells: &[Cell]) -> Result<(), Error> {
    posterior(cells, &Model::default(), 1).map(drop)
}

fn limits(least: Option<f64>, greatest: Option<f64>) -> Result<(), Error> {
    let drawn = posterior(&[CELL], &Model::default(), 1).unwrap();
    conformity(&drawn, &Limits::Radial { least, greatest }).map(drop)
}

type Refusals = Vec<(Result<(), Error>, &'static str)>;

fn of_leaves() -> Refusals {
    let leaf = |thickness| Try::new(thickness, Answer::Goes).map(drop);
    let chord = |radius, width| sagitta(radius, width).map(drop);
    vec![
        (
            leaf(5e-6),
            "a leaf of 0.000005 m is outside 0.00001 m to 0.003 m",
        ),
        (leaf(3.1e-3), "a leaf of 0.0031 m is outside"),
        (leaf(-330e-6), "a leaf of -0.00033 m is outside"),
        (leaf(f64::NAN), "a leaf of NaN m is outside"),
        (
            chord(0.0, 6e-3),
            "the bore radius is 0; it must be above zero",
        ),
        (chord(f64::NAN, 6e-3), "the bore radius is NaN"),
        (chord(0.07, -6e-3), "the leaf width is -0.006"),
        (
            chord(0.07, 0.14),
            "a leaf 0.14 m wide does not fit a bore of 0.14 m",
        ),
    ]
}

fn of_cells() -> Refusals {
    let open = Cell {
        low: 330e-6,
        high: f64::INFINITY,
    };
    let from = |low| drawn(&[Cell { low, ..CELL }]);
    let below = Cell {
        low: f64::NEG_INFINITY,
        high: 1.0,
    };
    vec![
        (drawn(&[]), "there is no reading; give at least one"),
        (
            from(f64::NAN),
            "a gap from NaN m to 0.00038 m is not an interval",
        ),
        (from(-1e-6), "a gap from -0.000001 m to 0.00038 m"),
        (from(380e-6), "a gap from 0.00038 m to 0.00038 m"),
        (
            drawn(&[
                open,
                Cell {
                    low: 381e-6,
                    ..open
                },
            ]),
            "above 0.000381 m; try thicker leaves",
        ),
        (
            budget(&open, &Model::default()).map(drop),
            "only known to be above 0.00033 m",
        ),
        (
            fit(&[CELL], Spread::Free).map(drop),
            "one gap between 0.00033 m and 0.00038 m fits",
        ),
        (
            fit(&[below], Spread::Fixed(1.0)).map(drop),
            "there is no lower end to any reading",
        ),
    ]
}

fn of_models() -> Refusals {
    let with = |model| posterior(&[CELL], &model, 1).map(drop);
    let scatter = |scatter| {
        let feel = Feel {
            scatter,
            ..Feel::default()
        };
        with(Model {
            feel,
            ..Model::default()
        })
    };
    let early = Model {
        feel: Feel {
            free: 5e-6,
            ..Feel::default()
        },
        ..Model::default()
    };
    let spread = |spread| {
        with(Model {
            spread,
            ..Model::default()
        })
    };
    let line = Contribution {
        sensitivity: 1.0,
        uncertainty: 1.0,
        freedom: 0.5,
    };
    vec![
        (
            scatter(-1e-6),
            "the scatter of the feel is -0.000001; it must be zero or more",
        ),
        (
            spread(0.0),
            "the scale of the spread between spots is 0; it must be above zero",
        ),
        (
            spread(f64::INFINITY),
            "the scale of the spread between spots is inf",
        ),
        (
            with(early),
            "a leaf that goes free is 0.000005; it must lie from 0.00001 to inf",
        ),
        (combine(&[]).map(drop), "there is no contribution"),
        (
            combine(&[line]).map(drop),
            "the degrees of freedom is 0.5; it must lie from 1 to inf",
        ),
    ]
}

fn of_limits() -> Refusals {
    let opposite = |pairs: &[(usize, usize)]| {
        let drawn = posterior(&[CELL, CELL], &Model::default(), 1).unwrap();
        let opposite = pairs.to_vec();
        conformity(
            &drawn,
            &Limits::Diametral {
                least: None,
                greatest: Some(1e-3),
                opposite,
            },
        )
        .map(drop)
    };
    vec![
        (
            limits(None, None),
            "there is no limit to hold the gap against",
        ),
        (
            limits(Some(4e-4), Some(3e-4)),
            "the least limit 0.0004 m is above the greatest 0.0003 m",
        ),
        (limits(Some(-1e-4), None), "the least limit is -0.0001"),
        (limits(None, Some(f64::NAN)), "the greatest limit is NaN"),
        (opposite(&[]), "there is no pair of opposite spots"),
        (
            opposite(&[(0, 2)]),
            "spot 2 (counted from zero) was named, but there are 2 spots",
        ),
    ]
}

#[test]
fn law_every_refusal_names_value_and_limit() {
    for (result, words) in [of_leaves(), of_cells(), of_models(), of_limits()].concat() {
        let said = result.expect_err(words).to_string();
        assert!(said.contains(words), "{said:?} does not say {words:?}");
    }
}

#[test]
fn law_contradiction_in_words() {
    let said = Contradiction {
        goes: 457.2e-6,
        wont: 381e-6,
    }
    .to_string();
    assert_eq!(
        said,
        "the leaf of 0.0004572 m goes but the thinner leaf of 0.000381 m won't; try both again"
    );
}

#[test]
fn law_all_open_is_no_upper_bound() {
    let open = Cell {
        low: 330e-6,
        high: f64::INFINITY,
    };
    assert_eq!(drawn(&[open]), Err(Error::NoUpperBound { largest: 330e-6 }));
    assert_eq!(drawn(&[open, CELL]), Ok(()));
}
