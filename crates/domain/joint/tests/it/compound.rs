//! Compounds: vapour, cure, working time, shelf life.

use joint::compound::{
    Air, Compound, Cure, Edges, OWN, Place, REFERENCE, Removal, Sheet, Surface, Times,
};
use joint::galvanic::Metal;
use joint::{Condition, Error, Interval};
use proptest::prelude::*;

use crate::assert_near;

const DAY: f64 = 86_400.0;

fn air(celsius: f64, humidity: f64) -> Air {
    Air {
        temperature: celsius + 273.15,
        humidity,
    }
}

/// A silicone as a person's own sheet has it, millimetres a day.
fn own(low: f64, high: f64) -> Sheet {
    Sheet {
        cure: Cure::Moisture(Interval {
            low: low * 1e-3,
            high: high * 1e-3,
        }),
        source: OWN,
        ..Compound::NeutralSilicone.sheet()
    }
}

/// On bare iron, four millimetres from the air.
fn in_air(air: Air) -> Place {
    Place {
        air,
        surface: Surface::Active,
        depth: 4e-3,
    }
}

fn times(compound: Compound, place: Place) -> Times {
    compound.sheet().times(&place).unwrap()
}

fn days(sheet: &Sheet, depth: f64) -> Interval {
    let place = Place {
        depth,
        ..in_air(REFERENCE)
    };
    let time = sheet.times(&place).unwrap().cured.unwrap();
    Interval {
        low: time.low / DAY,
        high: time.high / DAY,
    }
}

// Steam tables (IAPWS-IF97), kilopascals. The approximation claims 0.4 %.
#[test]
fn published_steam_table() {
    for (celsius, kilopascal) in [
        (5.0, 0.8726),
        (10.0, 1.2282),
        (20.0, 2.3393),
        (25.0, 3.1699),
        (30.0, 4.2470),
    ] {
        let ours = air(celsius, 1.0).vapour().unwrap() / 1e3;
        assert_near(ours, kilopascal, 4e-3 * kilopascal);
    }
}

#[test]
fn computed_python_winter_is_slow() {
    let silicone = own(2.0, 2.0);
    let cured = |air| silicone.times(&in_air(air)).unwrap().cured.unwrap();
    let reference = cured(REFERENCE);
    // Times against 23 °C and 50 %, and the pace as a square root; printed to three places.
    for (celsius, humidity, pace, times) in [
        (10.0, 0.5, 0.661, 2.29),
        (10.0, 0.8, 0.836, 1.43),
        (23.0, 0.2, 0.632, 2.50),
        (5.0, 0.4, 0.499, 4.02),
        (30.0, 0.8, 1.555, 0.41),
    ] {
        let slowing = cured(air(celsius, humidity)).low / reference.low;
        assert_near(slowing.sqrt().recip(), pace, 1e-3);
        assert_near(slowing, times, 6e-3);
    }
}

#[test]
fn computed_python_depths_and_days() {
    for (pace, depth, time) in [
        (2.0, 3.0, 2.25),
        (2.0, 4.0, 4.0),
        (2.0, 5.0, 6.25),
        (2.0, 10.0, 25.0),
        (3.0, 3.0, 1.0),
        (3.0, 4.0, 1.78),
        (3.0, 5.0, 2.78),
        (3.0, 10.0, 11.1),
        // Depth after a while, from the same table.
        (2.0, 1.0, 0.25),
        (2.0, 2.83, 2.0),
        (2.0, 5.29, 7.0),
        (3.0, 5.20, 3.0),
        (3.0, 7.94, 7.0),
    ] {
        let ours = days(&own(pace, pace), depth * 1e-3).low;
        assert_near(ours, time, 5e-3 * time);
    }
    // A flange of 8 mm that sees air at both edges: 1.8 to 4 days, not one.
    let flange = days(&own(2.0, 3.0), Edges::Both.depth(8e-3).unwrap());
    assert_near(flange.low, 1.8, 0.05);
    assert_near(flange.high, 4.0, 1e-9);
    assert_near(Edges::One.depth(8e-3).unwrap(), 8e-3, 1e-15);
}

// Three data sheets and a paper: 2 mm and 3.2 mm in a day, 7.5 mm in a week, 10 mm in more than one.
#[test]
fn published_depths_of_silicone() {
    let sheet = Compound::AcetoxySilicone.sheet();
    let spare = 1e-9;
    for (depth, day) in [(2e-3, 1.0), (3.2e-3, 1.0), (7.5e-3, 7.0)] {
        let ours = days(&sheet, depth);
        assert!(
            ours.low <= day + spare && day <= ours.high + spare,
            "{depth} {ours:?}"
        );
    }
    assert!(days(&sheet, 10e-3).low > 7.0);
    let Some(skin) = sheet.skin else { panic!() };
    for minutes in [8.0, 10.0, 15.0, 20.0] {
        assert!(skin.contains(minutes * 60.0), "{minutes}");
    }
}

// A data sheet and a consumers' guide: an alkoxy silicone has its skin at 15 and is free of tack at
// 35 min at 23 °C; silicones keep 12 to 18 months.
#[test]
fn published_skin_of_neutral_silicone() {
    let sheet = Compound::NeutralSilicone.sheet();
    for minutes in [15.0, 35.0] {
        assert!(sheet.skin.unwrap().contains(minutes * 60.0), "{minutes}");
    }
    assert_near(sheet.shelf.low / DAY, 365.0, 1.0);
}

// Two marine polyurethanes of one maker. Quick: free of tack in 1 to 2 h. Slow: 12 h, 4 h in nine
// tenths of damp, 3 mm in five days. And a caulk: more than 3 mm in a day.
#[test]
fn published_quick_and_slow_polyurethane() {
    let class = Compound::Polyurethane.sheet();
    let hour = 3600.0;
    for hours in [1.0, 2.0, 12.0] {
        assert!(class.skin.unwrap().contains(hours * hour), "{hours}");
    }
    let three = days(&class, 3e-3);
    assert!(three.contains(5.0) && three.low < 1.0, "{three:?}");
    let slow = Sheet {
        skin: Some(Interval::point(12.0 * hour)),
        source: OWN,
        ..class
    };
    let damp = slow.times(&in_air(air(23.0, 0.9))).unwrap();
    assert!(damp.skin.unwrap().contains(4.0 * hour), "{damp:?}");
}

// Boating (2018): skin and cure of silane-modified polymers are like those of quick polyurethane.
#[test]
fn published_hybrid_polymer_is_like_quick_polyurethane() {
    let sheet = Compound::HybridPolymer.sheet();
    for minutes in [60.0, 120.0] {
        assert!(sheet.skin.unwrap().contains(minutes * 60.0), "{minutes}");
    }
    assert!(days(&sheet, 3.2e-3).contains(1.0));
}

// A maker of epoxy: full cure in 5 days at 25 °C, 10 at 15 °C; another doubles for 18 °F, 10 K.
#[test]
fn published_epoxy_doubles_for_ten_kelvin() {
    let cured = |celsius| {
        let times = times(Compound::Epoxy, in_air(air(celsius, 0.5)));
        times.cured.unwrap()
    };
    assert!(cured(25.0).contains(5.0 * DAY));
    assert!(cured(15.0).contains(10.0 * DAY));
    let (warm, cool) = (cured(23.0), cured(13.0));
    assert!(cool.low < 2.0 * warm.low && 2.0 * warm.high < cool.high);
}

// Full cure of threadlocker within a day (Shannahan); stainless steel holds it back (Smith).
#[test]
fn published_threadlocker_waits_for_iron() {
    let full = |surface| {
        let place = Place {
            surface,
            ..in_air(REFERENCE)
        };
        let times = times(Compound::ThreadlockerMedium, place);
        times.cured.unwrap()
    };
    assert_eq!(full(Surface::Active), Interval::point(DAY));
    assert_eq!(full(Surface::Primed), full(Surface::Active));
    // From memory: one to three days on passive metal.
    assert_near(full(Surface::Passive).high, 3.0 * DAY, 1e-6);
    let sheet = Compound::ThreadlockerMedium.sheet();
    let stainless = Surface::between([Metal::Stainless316, Metal::Aluminium]);
    assert!(sheet.wants_activator(stainless));
    assert!(!sheet.wants_activator(Surface::between([Metal::Steel, Metal::Brass])));
    assert!(!sheet.wants_activator(Surface::Primed));
    assert!(!Compound::PtfePaste.sheet().wants_activator(stainless));
}

// 450 to 600 °F.
#[test]
fn published_heat_that_turns_a_high_strength_screw() {
    let Removal::Heat(heat) = Compound::ThreadlockerHigh.sheet().removal else {
        panic!("no heat");
    };
    let kelvin = |fahrenheit: f64| (fahrenheit + 459.67) / 1.8;
    assert_near(heat.low, kelvin(450.0), 0.5);
    assert_near(heat.high, kelvin(600.0), 0.5);
    assert_eq!(
        Compound::ThreadlockerMedium.sheet().removal,
        Removal::HandTools
    );
}

#[test]
fn practice_grease_never_cures_and_has_no_limit() {
    for compound in [Compound::Grease, Compound::AntiSeize, Compound::PtfePaste] {
        let never = Times {
            working: None,
            skin: None,
            cured: None,
        };
        assert_eq!(times(compound, in_air(REFERENCE)), never);
    }
}

#[test]
fn practice_every_class_is_whole_and_says_what_it_rests_on() {
    for compound in Compound::ALL {
        let sheet = compound.sheet();
        assert!(!sheet.source.is_empty() && sheet.source != OWN);
        let times = [
            sheet.working,
            sheet.skin,
            Some(sheet.shelf),
            Some(sheet.applied),
        ];
        for time in times.into_iter().flatten() {
            assert!(0.0 < time.low && time.low <= time.high, "{compound:?}");
        }
        if let (Some(working), Some(skin)) = (sheet.working, sheet.skin) {
            assert!(working.low <= skin.high, "{compound:?}");
        }
    }
}

#[test]
fn practice_what_belongs_on_a_thread_has_its_friction() {
    for (compound, condition) in [
        (Compound::Grease, Some(Condition::Grease)),
        (Compound::CopperAntiSeize, Some(Condition::AntiSeize)),
        (Compound::ThreadlockerHigh, Some(Condition::Threadlocker)),
        (Compound::PtfePaste, Some(Condition::PtfePaste)),
        (Compound::FlangeSealant, None),
        (Compound::NeutralSilicone, None),
    ] {
        assert_eq!(compound.condition(), condition, "{compound}");
    }
}

#[test]
fn law_what_is_out_of_range_is_refused() {
    let epoxy = Compound::Epoxy.sheet();
    // It all but stops below 5 °C.
    assert!(matches!(
        epoxy.times(&in_air(air(4.0, 0.5))),
        Err(Error::Outside { .. })
    ));
    let silicone = Compound::NeutralSilicone.sheet();
    for air in [air(23.0, 0.0), air(23.0, 1.01), air(f64::NAN, 0.5)] {
        assert!(silicone.times(&in_air(air)).is_err(), "{air:?}");
    }
    let flat = Place {
        depth: 0.0,
        ..in_air(REFERENCE)
    };
    assert!(silicone.times(&flat).is_err());
    for broken in [own(3.0, 2.0), own(0.0, 2.0)] {
        assert!(broken.times(&in_air(REFERENCE)).is_err());
    }
    let never_worked = Sheet {
        working: Some(Interval::point(0.0)),
        ..silicone
    };
    assert!(never_worked.times(&in_air(REFERENCE)).is_err());
    assert!(Edges::Both.depth(0.0).is_err());
    let dated = Sheet {
        shelf: Interval::point(365.0 * DAY),
        ..own(2.0, 3.0)
    };
    assert_eq!(dated.keeps(365.0 * DAY), Ok(()));
    let refusal = dated.keeps(366.0 * DAY).unwrap_err().to_string();
    assert!(refusal.starts_with(
        "the compound is 31622400 s old and surely keeps 31536000 s; take a fresh one"
    ));
    assert!(dated.keeps(-1.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_warmer_and_damper_is_faster(
        compound in prop::sample::select(Compound::ALL.to_vec()),
        celsius in 11.0..30.0_f64, humidity in 0.1..0.9_f64, more in 0.1..5.0_f64, damper in 0.01..0.1_f64,
    ) {
        let at = |celsius, humidity| {
            let place = Place { surface: Surface::Passive, ..in_air(air(celsius, humidity)) };
            let times = times(compound, place);
            [times.working, times.skin, times.cured]
        };
        let moist = matches!(compound.sheet().cure, Cure::Moisture(_));
        let (cool, warm, damp) = (at(celsius, humidity), at(celsius + more, humidity), at(celsius, humidity + damper));
        for ((cool, warm), damp) in cool.into_iter().zip(warm).zip(damp) {
            if let (Some(cool), Some(warm), Some(damp)) = (cool, warm, damp) {
                prop_assert!(warm.low < cool.low && warm.high < cool.high);
                prop_assert!(warm.low <= warm.high);
                prop_assert_eq!(damp.low < cool.low, moist);
            }
        }
    }

    /// Sharp front: twice the depth, four times the time.
    #[test]
    fn law_depth_goes_as_the_root_of_time(depth in 1e-4..1e-2_f64) {
        let sheet = Compound::Polyurethane.sheet();
        let (one, two) = (days(&sheet, depth), days(&sheet, 2.0 * depth));
        prop_assert!((two.low / one.low - 4.0).abs() < 1e-12);
        prop_assert!((two.high / one.high - 4.0).abs() < 1e-12);
    }

    #[test]
    fn law_at_the_reference_the_sheet_holds(compound in prop::sample::select(Compound::ALL.to_vec())) {
        let (sheet, times) = (compound.sheet(), times(compound, in_air(REFERENCE)));
        for (stated, ours) in [(sheet.working, times.working), (sheet.skin, times.skin)] {
            prop_assert_eq!(stated.is_some(), ours.is_some());
            if let (Some(stated), Some(ours)) = (stated, ours) {
                prop_assert!((ours.low / stated.low - 1.0).abs() < 1e-12);
                prop_assert!((ours.high / stated.high - 1.0).abs() < 1e-12);
            }
        }
    }
}
