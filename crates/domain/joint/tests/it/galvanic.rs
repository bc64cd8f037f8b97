//! Metals in water: potentials, couples, ranks and the next step.

use joint::galvanic::{Between, Contact, Couple, Measure, Metal, Part, Step, Water, attack, rank};
use joint::{Error, Interval};
use proptest::prelude::*;

use crate::assert_near;

fn middle(interval: Interval) -> f64 {
    0.5 * (interval.low + interval.high)
}

/// Every measure open.
fn contact(cathode: (Metal, f64), anode: (Metal, f64), water: Water) -> Contact {
    let part = |(metal, bare)| Part { metal, bare };
    Contact {
        parts: [part(cathode), part(anode)],
        water,
        insulation: Measure::Open,
        seal: Measure::Open,
        coat: Measure::Open,
        anode: Measure::Open,
    }
}

fn next(contact: Contact) -> Step {
    contact.risk().unwrap().next
}

fn screw() -> Contact {
    contact(
        (Metal::Stainless316, 2e-4),
        (Metal::Aluminium, 1e-3),
        Water::Salt,
    )
}

// Professional BoatBuilder 100 (2006), an independent printing. Its copper, down to -0.57 V, agrees
// with no other and is left out.
#[test]
fn published_another_series_agrees() {
    for (metal, low, high) in [
        (Metal::Magnesium, -1.65, -1.60),
        (Metal::Zinc, -1.03, -0.98),
        (Metal::Aluminium, -1.00, -0.76),
        (Metal::Steel, -0.71, -0.60),
        (Metal::Active304, -0.58, -0.46),
        (Metal::Active316, -0.54, -0.43),
        (Metal::AluminiumBronze, -0.42, -0.31),
        (Metal::Brass, -0.40, -0.30),
        (Metal::TinBronze, -0.31, -0.24),
    ] {
        let ours = metal.potential();
        // Ours is no narrower, and no wider than the 20 mV its kind scatters; active 316 takes in
        // the other printing besides.
        assert!(
            ours.low <= low + 1e-9 && high - 1e-9 <= ours.high,
            "{metal:?}"
        );
        if metal != Metal::Active316 {
            assert!(
                low - ours.low < 0.021 && ours.high - high < 0.021,
                "{metal:?}"
            );
        }
    }
}

// A chart of points against silver and silver chloride, 40 mV of scatter stated for iron alloys.
#[test]
fn published_points_of_a_chart() {
    for (metal, point) in [
        (Metal::Aluminium, -0.82),
        (Metal::Zinc, -1.05),
        (Metal::Active304, -0.55),
    ] {
        let ours = metal.potential();
        assert!(
            ours.low - 0.04 <= point && point <= ours.high + 0.04,
            "{metal:?}"
        );
    }
}

#[test]
fn computed_python_couples_with_aluminium() {
    for (metal, middles) in [
        (Metal::Carbon, 1.13),
        (Metal::Stainless316, 0.83),
        (Metal::Stainless304, 0.81),
        (Metal::NickelAluminiumBronze, 0.70),
        (Metal::TinBronze, 0.60),
        (Metal::Active304, 0.37),
        (Metal::Steel, 0.22),
    ] {
        let couple = Couple::of(Metal::Aluminium, metal);
        assert_eq!((couple.cathode, couple.anode), (metal, Metal::Aluminium));
        assert_near(middle(couple.driving), middles, 1e-9);
    }
    let a4 = Couple::of(Metal::Stainless316, Metal::Aluminium).driving;
    assert_near(a4.low, 0.66, 1e-9);
    assert_near(a4.high, 1.00, 1e-9);
    // Brass takes in a second printing, five millivolts nobler.
    let brass = Couple::of(Metal::Brass, Metal::Aluminium).driving;
    assert_near(middle(brass), 0.525, 0.0051);
    let bronze = Couple::of(Metal::TinBronze, Metal::Stainless316).driving;
    assert_near(middle(bronze), 0.23, 1e-9);
}

#[test]
fn computed_python_zinc_only_just_protects_aluminium() {
    let couple = Couple::of(Metal::Zinc, Metal::Aluminium);
    assert_eq!(couple.anode, Metal::Zinc);
    assert_near(couple.driving.low, -0.02, 1e-9);
    assert_near(couple.driving.high, 0.27, 1e-9);
    assert!(!couple.is_certain());
    assert!(Couple::of(Metal::Magnesium, Metal::Aluminium).is_certain());
}

#[test]
fn practice_17_4_is_reckoned_like_304_and_says_so() {
    let (reckoned, like) = (Metal::Stainless17_4, Metal::Stainless304);
    assert_eq!(reckoned.potential(), like.potential());
    assert!(reckoned.keys().is_empty());
    assert_eq!(like.keys(), ["aca-potentials"]);
    // Two printings disagree, and the interval spans both.
    assert_eq!(Metal::Active316.keys().len(), 2);
}

// A chandler: zinc for salt water, aluminium for salt and brackish, magnesium for fresh only.
#[test]
fn published_the_anode_goes_by_the_water() {
    assert_eq!(Water::Salt.anodes(), [Metal::Zinc, Metal::AnodeAluminium]);
    assert_eq!(Water::Brackish.anodes(), [Metal::AnodeAluminium]);
    assert_eq!(Water::Fresh.anodes()[0], Metal::Magnesium);
    let zinc = |water| contact((Metal::Aluminium, 0.1), (Metal::Zinc, 0.01), water);
    assert_eq!(next(zinc(Water::Salt)), Step::KeepBare);
    assert_eq!(next(zinc(Water::Fresh)), Step::Anode(Metal::Magnesium));
    let cut_off = Contact {
        seal: Measure::Taken,
        ..zinc(Water::Salt)
    };
    assert_eq!(next(cut_off), Step::Anode(Metal::Zinc));
}

// MIL-DTL-14072: a hard-anodised film is an insulator, a chromate or phosphate film is none.
#[test]
fn published_which_films_insulate() {
    assert!(Between::HardAnodised.insulates());
    assert!(!Between::Conversion.insulates());
}

#[test]
fn practice_a_washer_without_a_sleeve_insulates_nothing() {
    assert!(Between::WasherAndSleeve.insulates());
    for touching in [
        Between::WasherAlone,
        Between::Sealant,
        Between::Grease,
        Between::Paint,
        Between::CarbonPlastic,
    ] {
        assert!(!touching.insulates(), "{touching:?}");
    }
}

#[test]
fn practice_the_ladder_of_measures() {
    let mut contact = screw();
    assert_eq!(next(contact), Step::Insulate);
    contact.insulation = Measure::Shut;
    assert_eq!(next(contact), Step::Seal);
    contact.seal = Measure::Shut;
    assert_eq!(next(contact), Step::CoatCathode);
    contact.coat = Measure::Taken;
    assert_eq!(next(contact), Step::Anode(Metal::Zinc));
    contact.anode = Measure::Taken;
    assert_eq!(next(contact), Step::Inspect);
    contact.insulation = Measure::Taken;
    assert_eq!(next(contact), Step::Nothing);
}

// An invented pump: a bare impeller beside scratched paint, the same in a lake and behind a bush, a
// screw in a bare boss, an insert of brass, an anode, and two stainless steels, which no ratio of
// areas makes a danger to one another.
#[test]
fn practice_an_all_stainless_pump_is_ranked_by_area() {
    let impeller = contact(
        (Metal::Stainless316, 0.06),
        (Metal::Aluminium, 5e-4),
        Water::Salt,
    );
    let insert = contact((Metal::Brass, 3e-4), (Metal::Aluminium, 1e-3), Water::Salt);
    let anode = contact((Metal::Aluminium, 0.2), (Metal::Zinc, 5e-3), Water::Salt);
    let bushed = Contact {
        insulation: Measure::Taken,
        ..impeller
    };
    let lake = Contact {
        water: Water::Fresh,
        ..impeller
    };
    let kin = contact(
        (Metal::Stainless316, 0.06),
        (Metal::Stainless304, 1e-4),
        Water::Salt,
    );
    assert_eq!(next(kin), Step::Nothing);
    let ranked = rank(&[screw(), anode, lake, impeller, bushed, insert, kin]).unwrap();
    let order: Vec<usize> = ranked.iter().map(|(place, _)| *place).collect();
    assert_eq!(order, [3, 5, 0, 2, 6, 4, 1]);
    assert_near(ranked[0].1.attack, 121.0, 1e-9);
    let threatened = ranked.iter().filter(|(_, risk)| risk.threatens).count();
    assert_eq!(threatened, 4);
}

#[test]
fn law_no_bare_metal_is_refused() {
    let whole = contact(
        (Metal::Stainless316, 0.06),
        (Metal::Aluminium, 0.0),
        Water::Salt,
    );
    let refusal = whole.risk().unwrap_err();
    assert_eq!(
        refusal.to_string(),
        "the bare area of the base metal is 0; it must be above zero and finite"
    );
    assert!(rank(&[screw(), whole]).is_err());
    assert_eq!(rank(&[]), Err(Error::Empty { what: "contact" }));
    assert!(attack(-1.0, 1.0).is_err());
    assert!(attack(1.0, f64::NAN).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_a_couple_has_no_order(
        one in prop::sample::select(Metal::ALL.to_vec()),
        other in prop::sample::select(Metal::ALL.to_vec()),
    ) {
        let couple = Couple::of(one, other);
        prop_assert_eq!(couple, Couple::of(other, one));
        prop_assert!(couple.driving.low <= couple.driving.high);
        prop_assert!(middle(couple.driving) >= 0.0);
        prop_assert_eq!(couple.driving == Interval::point(0.0), one == other);
    }

    /// Mansfeld 1971: for much noble metal the attack is as the ratio of areas, whatever their size.
    #[test]
    fn law_attack_goes_by_the_ratio(cathode in 1e-6..1.0_f64, anode in 1e-6..1.0_f64, by in 0.1..10.0_f64) {
        let plain = attack(cathode, anode).unwrap();
        let scaled = attack(by * cathode, by * anode).unwrap();
        prop_assert!((plain / scaled - 1.0).abs() < 1e-12);
        prop_assert!(attack(cathode * 1.01, anode).unwrap() > plain);
        prop_assert!((attack(1e9 * anode, anode).unwrap() / 1e9 - 1.0).abs() < 1e-8);
        prop_assert!(attack(0.0, anode).unwrap().to_bits() == 1.0_f64.to_bits());
    }

    #[test]
    fn law_a_rank_is_an_order_that_forgets_the_list(
        areas in prop::collection::vec((1e-5..0.1_f64, 1e-5..0.1_f64), 1..8), turn in 0..8_usize,
    ) {
        let of = |&(cathode, anode): &(f64, f64)| {
            contact((Metal::Stainless316, cathode), (Metal::Aluminium, anode), Water::Salt)
        };
        let contacts: Vec<Contact> = areas.iter().map(of).collect();
        let mut turned = contacts.clone();
        turned.rotate_left(turn % contacts.len());
        let attacks = |list: &[Contact]| {
            let ranked = rank(list).unwrap();
            ranked.iter().map(|(_, risk)| risk.attack).collect::<Vec<_>>()
        };
        let ours = attacks(&contacts);
        prop_assert!(ours.is_sorted_by(|a, b| a >= b));
        prop_assert_eq!(ours, attacks(&turned));
    }
}
