//! Why the gap is as it is: from entries to causes, cures and the next reading.

use clearance::Answer;
use clearance::causes::{Cause, Effect, Untold};
use workshop::entry::Body;
use workshop::gap::{Inputs, Judgement, Reading};
use workshop::job::{LeafSet, Limits, Pump};
use workshop::judge::judge;
use workshop::why::{Mend, Why};

use crate::journal::{Journal, leaves, limits, pump, thou, tried};

/// Four blades at eight clock positions, in thou. Invented and drawn for the reference this table is
/// from, with leaves in steps of 1 thou: mean 15, off centre 2 towards 60°, oval 1 with its axis at
/// 30°, swollen 2.5 at 225°, blade C short by 2 against the others.
const DRAWN: [[u32; 8]; 4] = [
    [15, 17, 15, 13, 14, 10, 12, 13],
    [15, 17, 15, 14, 14, 10, 11, 12],
    [17, 19, 17, 16, 16, 12, 14, 14],
    [16, 17, 15, 14, 14, 10, 12, 13],
];

/// A journal of a pump whose gaps lie between a leaf and the next.
fn read(table: &[&[u32]], stated: Limits) -> Journal {
    let mut journal = Journal::default();
    journal.act(crate::journal::opened());
    let count = |n: usize| u8::try_from(n).unwrap();
    journal.record(Body::PumpDescribed(Pump {
        blades: count(table.len()),
        positions: 8,
        ..pump()
    }));
    journal.record(Body::LeavesDescribed(LeafSet {
        thicknesses: (8..=24).map(|leaf| thou(&leaf.to_string())).collect(),
        ..leaves()
    }));
    journal.record(Body::LimitsStated(stated));
    for (blade, row) in table.iter().enumerate() {
        for (position, leaf) in row.iter().enumerate() {
            let (goes, wont) = (leaf.to_string(), (leaf + 1).to_string());
            let tries = [
                (goes.as_str(), Answer::Goes),
                (wont.as_str(), Answer::WontGo),
            ];
            journal.record(tried(count(blade), count(position), &tries));
        }
    }
    journal
}

fn judged(table: &[&[u32]]) -> Judgement {
    let stated = Limits {
        least: Some(thou("12")),
        greatest: Some(thou("18")),
        ..limits()
    };
    judge(&Inputs::of(&read(table, stated).job()).unwrap())
}

fn why(table: &[&[u32]]) -> Why {
    judged(table).why.unwrap()
}

fn in_thou(metres: f64) -> f64 {
    quantity::Unit::Thou.from_si(metres)
}

#[test]
fn computed_every_cause_of_a_drawn_ring_is_named() {
    let table: Vec<&[u32]> = DRAWN.iter().map(|row| &row[..]).collect();
    let why = why(&table);
    let of = |cause: Cause| {
        let found = why.causes.iter().find(|one| one.cause == cause);
        found.unwrap_or_else(|| panic!("{cause:?} in {:?}", why.causes))
    };
    for cause in [
        Cause::OffCentre,
        Cause::Oval,
        Cause::Local(5),
        Cause::Blade(2),
    ] {
        assert!(of(cause).probability > 0.9, "{:?}", of(cause));
    }
    let size = |cause| match &of(cause).effect {
        Effect::Wave { size, .. } => *size,
        Effect::Amount(amount) => *amount,
        Effect::Each(_) => panic!("one size"),
    };
    // Four truths at once, so each is held to 99 %, which is 2.5758 / 1.6449 times as wide as 90 %.
    for (cause, truth) in [
        (Cause::OffCentre, 2.0),
        (Cause::Oval, 1.0),
        (Cause::Blade(2), 2.0),
        (Cause::Local(5), -2.5),
    ] {
        let size = size(cause);
        let [low, middle, high] = [size.low, size.median, size.high].map(in_thou);
        let wide = |end: f64| middle + 2.5758 / 1.6449 * (end - middle);
        assert!(
            wide(low) <= truth && truth <= wide(high),
            "{cause:?}: {low} to {high}"
        );
    }
}

#[test]
fn law_a_swelling_met_by_every_blade_is_cured_with_the_ring() {
    let row: &[u32] = &[14, 14, 14, 14, 14, 10, 14, 14];
    let why = why(&[row, row, row]);
    assert!(why.told, "{why:?}");
    assert_eq!(why.causes[0].cause, Cause::Local(5));
    assert_eq!(why.cures.len(), 1);
    let ring = &why.cures[0];
    assert_eq!(ring.mend, Some(Mend::Ring));
    assert!(in_thou(ring.cured.least_before.high) < 12.0);
    assert!(in_thou(ring.cured.least.low) > 12.0);
}

#[test]
fn law_a_blade_short_everywhere_is_the_blade() {
    let (even, short): (&[u32], &[u32]) = (&[14; 8], &[18; 8]);
    let why = why(&[even, short, even, even]);
    assert!(why.told, "{why:?}");
    assert_eq!(why.causes[0].cause, Cause::Blade(1));
    assert_eq!(why.cures[0].mend, Some(Mend::Impeller));
}

#[test]
fn law_an_even_ring_has_no_cause_and_no_cure() {
    let row: &[u32] = &[14; 8];
    let why = why(&[row, row, row]);
    assert!(
        why.causes.iter().all(|one| one.probability < 0.5),
        "{why:?}"
    );
    assert!(why.cures.is_empty());
    assert!(why.untold.contains(&Untold::RingOrImpeller));
}

#[test]
fn law_all_of_it_wide_is_a_level_and_says_how_much() {
    let row: &[u32] = &[20; 8];
    let level = why(&[row, row, row]).level.unwrap();
    assert!(level.too_wide > 0.99, "{level:?}");
    let change = in_thou(level.change.median);
    assert!(
        (-6.5..-5.0).contains(&change),
        "from about 20.9 to 15: {change}"
    );
}

#[test]
fn law_one_blade_says_nothing_of_the_others() {
    let row: &[u32] = &[14, 14, 14, 14, 14, 10, 14, 14];
    let why = why(&[row, &[], &[]]);
    assert!(
        why.untold.contains(&Untold::OneBlade(0)),
        "{:?}",
        why.untold
    );
}

#[test]
fn law_little_is_not_spoken_of() {
    let row: &[u32] = &[14, 14, 14];
    assert_eq!(judged(&[row, &[], &[]]).why, None);
}

#[test]
fn law_the_telling_reading_is_one_that_can_be_taken() {
    let row: &[u32] = &[14, 15, 14, 13, 14, 10, 14, 14];
    let judgement = judged(&[row, &row[..4], &[]]);
    let next = judgement.why.unwrap().next.unwrap();
    assert!(next.spot.blade < 3 && next.spot.position < 8);
    assert!((0.0..=1.0).contains(&next.goes));
    assert!((8..=24).any(|leaf| thou(&leaf.to_string()).value.to_bits() == next.leaf.to_bits()));
    let there = judgement.readings[&next.spot];
    assert!(
        matches!(there, Reading::Unread | Reading::Bracket(_)),
        "{there:?}"
    );
}

#[test]
fn law_leaves_too_coarse_for_the_limits_are_named_before_the_first_try() {
    let stated = |least: &str, greatest: &str| {
        let stated = Limits {
            least: Some(thou(least)),
            greatest: Some(thou(greatest)),
            ..limits()
        };
        let judgement = judge(&Inputs::of(&read(&[&[], &[], &[]], stated).job()).unwrap());
        judgement.leaves.unwrap()
    };
    assert!(stated("12", "18").shows_in);
    let coarse = stated("13.5", "13.9");
    assert!(!coarse.shows_in, "{coarse:?}");
}

#[test]
fn law_the_form_is_that_of_the_ring_and_not_of_the_centre() {
    let form = |row: &[u32]| judged(&[row, &[], &[]]).round.unwrap();
    // A wave once round is the centre's: what is left is the step between leaves.
    let off = form(&[18, 17, 15, 13, 12, 13, 15, 17]);
    assert!(in_thou(off.zone) < 1.0, "{off:?}");
    assert_eq!((off.blade, off.positions), (0, 8));
    // Twice round is the ring's: widest less narrowest radius, 4 thou.
    let oval = form(&[17, 15, 13, 15, 17, 15, 13, 15]);
    assert!((in_thou(oval.zone) - 4.0).abs() < 0.5, "{oval:?}");
    assert_eq!(
        judged(&[&[14, 14, 14, 14], &[], &[]]).round,
        None,
        "half a round"
    );
}
