use clearance::cone::{Seat, Shim, radial_change, stack};
use clearance::form::{maximum_inscribed, minimum_zone, point};
use clearance::leak::{Shown, tight};
use clearance::lobes::{diameters, lobes};
use clearance::population::Spread;
use clearance::risk::{Inspection, Prior, acceptance, risks};
use clearance::rotor::{Runout, runs};
use clearance::sleeve::{Elastic, Sleeved, press};
use clearance::thermal::{
    Faces, Fitted, Holding, Metal, Polymer, Ride, Wall, gap_change, loosens_at,
};
use clearance::trend::{Meant, Visit, line};
use clearance::{Error, Interval};

type Refusals = Vec<(Result<(), Error>, &'static str)>;

const STEEL: Elastic = Elastic {
    modulus: 193e9,
    poisson: 0.3,
};

fn of_form() -> Refusals {
    let half: Vec<_> = [0.0, 1.0, 2.0, 3.0].map(|t| point(0.07, t)).to_vec();
    let many: Vec<_> = (0..41).map(|i| point(0.07, f64::from(i))).collect();
    vec![
        (
            minimum_zone(&half[..3]).map(drop),
            "too few points of the bore: 3; it takes at least 4",
        ),
        (
            minimum_zone(&half).map(drop),
            "rad of the bore unread; read points until",
        ),
        (maximum_inscribed(&half).map(drop), "rad of the bore unread"),
        (
            minimum_zone(&many).map(drop),
            "the number of points is 41; it must lie from 4 to 40",
        ),
        (
            minimum_zone(&[point(f64::NAN, 0.0); 4]).map(drop),
            "a coordinate of a point is NaN; it must lie from -inf to inf",
        ),
        (
            lobes(&[1.0, 2.0]).map(drop),
            "too few radii: 2; it takes at least 3",
        ),
        (
            diameters(&[1.0; 5]).map(drop),
            "too few radii with another straight across: 0; it takes at least 4",
        ),
    ]
}

fn of_sleeves() -> Refusals {
    let parts = |seat, sleeve| Sleeved {
        bore: 0.07,
        seat,
        skin: 0.08,
        sleeve,
        housing: STEEL,
    };
    let soft = Elastic {
        poisson: 0.6,
        ..STEEL
    };
    vec![
        (
            press(&parts(0.072, STEEL), -1e-6).map(drop),
            "the radial interference is -0.000001; it must be zero or more",
        ),
        (
            press(&parts(0.07, STEEL), 1e-6).map(drop),
            "the outer radius is 0.07; it must lie from 0.07",
        ),
        (
            press(&parts(0.072, soft), 1e-6).map(drop),
            "Poisson's ratio is 0.6; it must lie from 0 to 0.5",
        ),
        (
            loosens_at(3e-5, 0.072, 2e-5, 2e-5).map(drop),
            "the expansion of the housing less that of the sleeve is 0",
        ),
    ]
}

fn of_leaks_and_water() -> Refusals {
    let shown = Shown {
        gauge: -120e3,
        temperature: 293.0,
    };
    let wall = Wall {
        thickness: 0.0,
        faces: Faces::Both,
        diffusivity: 1e-13,
    };
    let fitted = Fitted {
        polymer: Polymer::Nylon,
        bore: 0.07,
        outside: 0.076,
        holding: Holding::Held,
        housing: Metal::Aluminium,
        impeller: Metal::Stainless,
    };
    let ride = |warmer, low, high| {
        let soaked = Interval { low, high };
        gap_change(&fitted, Ride { warmer, soaked }).map(drop)
    };
    vec![
        (
            ride(0.0, 0.6, 0.5),
            "the share of saturation in the ring is 0.5; it must lie from 0.6 to 1",
        ),
        (
            ride(300.0, 0.0, 0.5),
            "the water's temperature above the bench's is 300; it must lie from -100 to 100",
        ),
        (
            tight(shown, 293.0, 101e3).map(drop),
            "the absolute pressure at the start is -19000; it must be above zero",
        ),
        (
            wall.soaked(1.0).map(drop),
            "the thickness of the wall is 0; it must be above zero",
        ),
        (
            wall.time_to(1.0).map(drop),
            "the share of saturation is 1; it must lie from 0 to 1",
        ),
    ]
}

fn of_trends() -> Refusals {
    let visit = |run, low| Visit {
        run,
        low,
        high: low,
    };
    let fit = |visits: &[Visit]| line(visits, Spread::Free).map(drop);
    let good = [visit(0.0, 1.0), visit(1.0, 2.0), visit(2.0, 3.5)];
    let crossing = line(&good, Spread::Free)
        .unwrap()
        .crossing(9.0, 0.4, Meant::Gap)
        .map(drop);
    let open = Visit {
        high: f64::INFINITY,
        ..good[1]
    };
    vec![
        (
            fit(&good[..2]),
            "too few visits that compare: 2; it takes at least 3",
        ),
        (
            fit(&[good[0]; 3]),
            "too few different running times: 1; it takes at least 2",
        ),
        (
            fit(&[good[0], good[1], visit(2.0, 3.0)]),
            "one straight line fits all 3 readings",
        ),
        (
            fit(&[good[0], good[2], open]),
            "only known to be above 2 m; try thicker leaves",
        ),
        (crossing, "the level is 0.4; it must lie from 0.5 to 1"),
    ]
}

fn of_rotors_and_cones() -> Refusals {
    let at = |station| Runout {
        station,
        total: 1e-5,
        high: 0.0,
    };
    let seat = Seat {
        bare: Interval {
            low: 1e-4,
            high: 2e-4,
        },
        half_angle: 0.2,
        opens: true,
    };
    let shim = Shim {
        thickness: 1e-4,
        tolerance: 0.0,
    };
    let allowed = Interval {
        low: 3e-4,
        high: 4e-4,
    };
    vec![
        (
            runs(at(0.1), at(0.1), 0.2, 0.0).map(drop),
            "the distance between the stations is 0",
        ),
        (
            radial_change(1e-3, 1.6).map(drop),
            "the half angle of the cone is 1.6; it must lie from 0 to 1.57",
        ),
        (
            stack(&seat, &[shim], 3.5e-4, allowed).map(drop),
            "the nearest is 0.0001 m: get a shim that makes up the difference",
        ),
        (
            stack(&seat, &[shim], 5e-4, allowed).map(drop),
            "the gap wanted is 0.0005; it must lie from 0.0003 to 0.0004",
        ),
        (
            stack(&seat, &[shim; 17], 3.5e-4, allowed).map(drop),
            "the number of shims at hand is 17; it must lie from 0 to 16",
        ),
    ]
}

fn of_risks() -> Refusals {
    let prior = Prior::Gamma { mean: 1.0, sd: 0.5 };
    let how = Inspection {
        limit: 2.0,
        accept: 2.0,
        uncertainty: 0.0,
    };
    vec![
        (
            risks(prior, how).map(drop),
            "the standard uncertainty of a reading is 0; it must be above zero",
        ),
        (
            acceptance(prior, 2.0, 0.25, 0.05).map(drop),
            "the consumer's risk aimed at is 0.05; it must lie from 0 to 0.042",
        ),
    ]
}

#[test]
fn law_every_refusal_names_value_and_limit() {
    for (result, words) in [
        of_form(),
        of_sleeves(),
        of_leaks_and_water(),
        of_trends(),
        of_rotors_and_cones(),
        of_risks(),
    ]
    .concat()
    {
        let said = result.expect_err(words).to_string();
        assert!(said.contains(words), "{said:?} does not say {words:?}");
    }
}
