//! What a person types of a craft and what could be fitted. All data are invented.

use proptest::prelude::*;
use proptest::sample::select;
use quantity::{Entered, Unit};
use workshop::choose::CraftFacts;
use workshop::draft::Choice;
use workshop::draft::choose::{
    ANGLES, BREATHING, CUPS, CraftDraft, FittingDraft, SteadyDraft, WANTS, WishDraft,
};

use super::{craft, steadies};

#[test]
fn law_a_bare_number_takes_the_unit_of_its_field() {
    let facts = craft().read(Unit::Thou).unwrap();
    let unit = |entered: &Option<Entered>| entered.as_ref().unwrap().unit;
    assert_eq!(unit(&facts.mass), Unit::Kilogram);
    assert_eq!(unit(&facts.riders), Unit::Pound);
    assert_eq!(unit(&facts.length), Unit::Metre);
    assert_eq!(unit(&facts.beam), Unit::Foot);
    assert_eq!(unit(&facts.deadrise), Unit::Degree);
    assert_eq!(unit(&facts.power), Unit::Horsepower);
    assert_eq!(unit(&facts.rated), Unit::Rpm);
    assert_eq!(unit(&facts.impeller), Unit::Millimetre);
    assert_eq!(facts.curve[1].0.unit, Unit::Rpm);
    assert_eq!(facts.curve[1].1.unit, Unit::NewtonMetre);
    assert_eq!(facts.curve[2].1.unit, Unit::PoundForceFoot);
    assert_eq!(unit(&facts.fitted.radius), Unit::Millimetre);
    let [running, _, tied] = &steadies(&[["1", "8", ""], ["1", "9", ""], ["1", "", "90"]])[..]
    else {
        panic!("three were given");
    };
    assert_eq!(unit(&running.speed), Unit::MilePerHour);
    assert_eq!(unit(&tied.pull), Unit::Newton);
}

/// Nothing, a bare number, or one with a unit of the same kind.
fn quantity(units: &'static [&'static str]) -> impl Strategy<Value = String> {
    let number = select(vec!["14", "0", "6,25", ".5", "1/2", "5-5/16"]);
    (any::<bool>(), number, select(units)).prop_map(|(there, number, unit)| {
        if there {
            format!("{number} {unit}").trim().to_owned()
        } else {
            String::new()
        }
    })
}

fn one_of<T: Copy + 'static>(choices: &'static [Choice<T>]) -> impl Strategy<Value = String> {
    let words = choices.iter().map(|(word, _)| *word).chain([""]);
    select(words.collect::<Vec<_>>()).prop_map(str::to_owned)
}

const SIZES: &[&str] = &["", "mm", "in", "\""];
const ANGLE: &[&str] = &["", "°", "deg"];
const SPINS: &[&str] = &["", "rpm", "rad/s"];
const MASSES: &[&str] = &["", "kg", "lb", "pounds"];
const METRES: &[&str] = &["", "m", "cm", "ft"];

fn fitting() -> impl Strategy<Value = FittingDraft> {
    let angles = (quantity(ANGLE), quantity(ANGLE), one_of(&ANGLES));
    let sizes = [
        quantity(SIZES).boxed(),
        quantity(SIZES).boxed(),
        quantity(&["", "thou", "mm"]).boxed(),
        quantity(SIZES).boxed(),
    ];
    let rest = (
        one_of(&CUPS),
        select(vec!["", "2", "3", "8"]),
        "[a-z “”]{0,8}",
    );
    (angles, sizes, rest).prop_map(
        |((leading, trailing, angles), [radius, hub, gap, nozzle], (cup, blades, text))| {
            FittingDraft {
                name: text.trim().to_owned(),
                leading,
                trailing,
                radius,
                angles,
                maker: text.trim().to_owned(),
                blades: blades.to_owned(),
                hub,
                cup,
                gap,
                nozzle,
                note: text.trim().to_owned(),
            }
        },
    )
}

/// Points as people write them; the draft says them one way.
fn curve() -> impl Strategy<Value = String> {
    let speed = (select(vec!["4000", "4 1/2", "500.5"]), select(SPINS));
    let torque = (
        select(vec!["150", "6,5", "1/2"]),
        select(vec!["", "N·m", "lbf·ft"]),
    );
    let point = (speed, torque).prop_map(|((speed, spin), (torque, unit))| {
        let (speed, torque) = (format!("{speed} {spin}"), format!("{torque} {unit}"));
        format!("{} {}", speed.trim(), torque.trim())
    });
    prop::collection::vec(point, 0..5).prop_map(|points| points.join("; "))
}

fn any_craft() -> impl Strategy<Value = CraftDraft> {
    let hull = [
        quantity(MASSES).boxed(),
        quantity(MASSES).boxed(),
        quantity(METRES).boxed(),
        quantity(METRES).boxed(),
        quantity(ANGLE).boxed(),
        quantity(METRES).boxed(),
    ];
    let engine = (
        quantity(&["", "kW", "hp", "PS"]),
        quantity(SPINS),
        quantity(SPINS),
        one_of(&BREATHING),
        curve(),
    );
    let wanted = select(vec![["", ""], ["7400", "7600 rpm"]]);
    let rest = (wanted, quantity(SIZES), fitting(), select(vec!["", "lake"]));
    (hull, engine, rest).prop_map(
        |(
            [mass, riders, length, beam, deadrise, balance],
            (power, rated, limiter, breathing, curve),
            ([from, to], impeller, fitted, outing),
        )| CraftDraft {
            mass,
            riders,
            length,
            beam,
            deadrise,
            balance,
            power,
            rated,
            limiter,
            breathing,
            curve,
            wanted_from: from.to_owned(),
            wanted_to: to.to_owned(),
            impeller,
            page: fitted.note.clone(),
            fitted,
            outing: outing.to_owned(),
        },
    )
}

/// The same under another unit: the texts may differ, the values may not.
fn same_values(one: &CraftFacts, other: &CraftFacts) -> bool {
    let gap = |facts: &CraftFacts| facts.fitted.gap.as_ref().map(|gap| gap.value.to_bits());
    gap(one) == gap(other) && one.curve == other.curve && one.mass == other.mass
}

proptest! {
    #[test]
    fn law_a_craft_is_read_as_it_was_typed(draft in any_craft(), unit in select(vec![Unit::Thou, Unit::Millimetre])) {
        let read = draft.read(unit).unwrap();
        prop_assert_eq!(&CraftDraft::of(&read, unit), &draft);
        prop_assert_eq!(&CraftDraft::of(&read, unit).read(unit).unwrap(), &read);
        let elsewhere = CraftDraft::of(&read, Unit::Inch);
        prop_assert!(same_values(&elsewhere.read(Unit::Inch).unwrap(), &read));
    }

    #[test]
    fn law_a_wish_and_a_reading_are_read_as_they_were_typed(
        want in one_of(&WANTS),
        [to, speed, engine] in [
            quantity(&["", "mph", "kn", "km/h", "m/s"]).boxed(),
            quantity(&["", "mph", "kn"]).boxed(),
            quantity(SPINS).boxed(),
        ],
        pull in quantity(&["", "N", "lbf", "kgf"]),
        unit in select(vec![Unit::MilePerHour, Unit::Knot]),
    ) {
        let wish = WishDraft { want: want.clone(), to };
        match wish.read(unit) {
            Ok(read) => prop_assert_eq!(WishDraft::of(&read, unit), wish),
            Err(refusal) => prop_assert!(want.is_empty() && refusal.field() == Some("want")),
        }
        let steady = SteadyDraft { engine: engine.clone(), speed, pull };
        match steady.read(unit) {
            Ok(read) => prop_assert_eq!(SteadyDraft::of(&read, unit), steady),
            Err(refusal) => prop_assert!(engine.is_empty() && refusal.field() == Some("engine")),
        }
    }

    #[test]
    fn law_any_text_is_a_curve_or_refused(text in "[0-9 .,;rpmN·½−\n]{0,24}") {
        let draft = CraftDraft { curve: text, ..CraftDraft::default() };
        match draft.read(Unit::Thou) {
            Ok(facts) => {
                let again = CraftDraft::of(&facts, Unit::Thou).read(Unit::Thou).unwrap();
                prop_assert_eq!(again, facts);
            }
            Err(refusal) => prop_assert_eq!(refusal.field(), Some("curve")),
        }
    }
}
