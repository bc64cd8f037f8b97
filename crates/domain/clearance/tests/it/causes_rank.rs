//! Which causes lead, what cannot be told, what to read next, what a cure would do.

use std::f64::consts::TAU;

use clearance::causes::{
    Cause, Effect, Frame, ROUGHNESS, Ranking, Reading, Remedy, Spot, Survey, Untold, cure,
    leaf_set_can_decide, level, next_readings, quick_plan, rank, untold,
};
use clearance::{Band, Cell, Estimate, Model};

use crate::assert_near;

/// Leaves every 0.05 mm.
fn leaves() -> Vec<f64> {
    (1..=20).map(|i| f64::from(i) * 50e-6).collect()
}

fn spot(blade: usize, position: usize) -> Spot {
    Spot {
        station: 0,
        blade,
        position,
    }
}

/// The reading a gap leaves with those leaves, each going 0.01 mm beyond its thickness.
fn felt(spot: Spot, gap: f64) -> Reading {
    felt_by(50e-6, spot, gap)
}

fn felt_by(step: f64, spot: Spot, gap: f64) -> Reading {
    let low = ((gap - 10e-6) / step).floor() * step + 10e-6;
    let high = low + step;
    Reading {
        spot,
        cell: Cell { low, high },
    }
}

fn survey(frame: Frame, spots: impl Fn(Spot) -> bool, gap: impl Fn(Spot, f64) -> f64) -> Survey {
    let read = frame.spots().filter(|&s| spots(s));
    let readings = read
        .map(|s| felt(s, gap(s, frame.angle(s.position))))
        .collect();
    Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap()
}

/// Four blades at eight positions, all read.
fn whole(gap: impl Fn(Spot, f64) -> f64) -> Survey {
    survey(Frame::even(4, 8, 1).unwrap(), |_| true, gap)
}

fn told(survey: &Survey) -> (Ranking, Vec<Cause>) {
    let ranking = rank(survey);
    let causes = ranking.told(0.5).unwrap().causes.clone();
    (ranking, causes)
}

fn swollen(spot: Spot, _: f64) -> f64 {
    if spot.position == 5 { 310e-6 } else { 470e-6 }
}

#[test]
fn practice_every_blade_meets_it_there() {
    let (ranking, causes) = told(&whole(swollen));
    assert_eq!(causes, [Cause::Local(5)]);
    // One round of one blade, and every blade at the tightest: the same answer.
    let round = |s: Spot| s.blade == 0 || s.position == 5;
    let (_, causes) = told(&survey(Frame::even(4, 8, 1).unwrap(), round, swollen));
    assert_eq!(causes, [Cause::Local(5)]);
    let share: f64 = ranking.candidates.iter().map(|c| c.weight).sum();
    assert!(share > 0.99 && share <= 1.0 + 1e-12);
    assert!(ranking.probability(Cause::Local(5)) > 0.99);
    assert!(ranking.probability(Cause::Blade(0)) < 0.05);
}

#[test]
fn practice_a_blade_carries_it_round() {
    let survey = whole(|s, _| if s.blade == 2 { 590e-6 } else { 480e-6 });
    let (ranking, causes) = told(&survey);
    assert_eq!(causes, [Cause::Blade(2)]);
    let Effect::Amount(by) = ranking.draw(&survey, &ranking.candidates[0], 1).effects()[0] else {
        unreachable!("a blade has one amount");
    };
    assert!(by.low < 110e-6 && 110e-6 < by.high, "{by:?}");
}

#[test]
fn practice_one_reading_alone_is_neither_ring_nor_blade() {
    let ridge = spot(1, 3);
    let (_, causes) = told(&whole(|s, _| if s == ridge { 260e-6 } else { 470e-6 }));
    assert_eq!(causes, [Cause::Stray(ridge)]);
}

#[test]
fn law_directions_point_where_the_gap_is_largest() {
    let frame = || Frame::even(4, 8, 1).unwrap();
    for angle in [0.3_f64, 1.9, 4.4] {
        let assert_found = |cause: Cause, period: f64, wave: &dyn Fn(Spot, f64) -> f64| {
            let gap = |s: Spot| 520e-6 + 110e-6 * wave(s, frame().angle(s.position));
            let frame = frame();
            let readings = frame.spots().map(|s| felt_by(10e-6, s, gap(s)));
            let readings = readings.collect();
            let survey = Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap();
            let (ranking, causes) = told(&survey);
            assert_eq!(causes, [cause]);
            let effects = ranking.draw(&survey, &ranking.candidates[0], 1).effects();
            assert_wave(&effects[0], angle, period);
        };
        assert_found(Cause::OffCentre, TAU, &|_, t| (t - angle).cos());
        assert_found(Cause::Oval, 0.5 * TAU, &|_, t| (2.0 * (t - angle)).cos());
        let blade = |s: Spot| TAU * [0.0, 0.25, 0.5, 0.75][s.blade];
        assert_found(Cause::Runout, TAU, &|s, _| (blade(s) - angle).cos());
    }
}

#[track_caller]
fn assert_wave(effect: &Effect, angle: f64, period: f64) {
    let Effect::Wave { size, towards } = effect else {
        unreachable!("a wave has a size and a direction");
    };
    // Middles of cells of 0.01 mm are off by 0.005 mm at most, a mean over cosines by 4 / pi of that.
    assert_near(size.median, 110e-6, 6.4e-6);
    let off = (towards.angle - angle).rem_euclid(period);
    assert_near(off.min(period - off), 0.0, 6.4 / 110.0);
    assert!((0.0..period).contains(&towards.angle) && towards.within < 0.3);
}

#[test]
fn law_three_positions_confuse_oval_with_off_centre() {
    let three = survey(
        Frame::even(3, 3, 1).unwrap(),
        |_| true,
        |_, t| 520e-6 + 110e-6 * t.sin(),
    );
    assert!(untold(&three).contains(&Untold::Alike(Cause::OffCentre, Cause::Oval)));
    let ranking = rank(&three);
    assert!(ranking.told(0.4).is_none());
    assert!(!ranking.candidates[0].same.is_empty());
    let four = survey(Frame::even(3, 4, 1).unwrap(), |_| true, |_, _| 520e-6);
    assert!(untold(&four).contains(&Untold::Partial(Cause::Oval)));
    let five = survey(Frame::even(3, 5, 1).unwrap(), |_| true, |_, _| 520e-6);
    let facts = untold(&five);
    assert!(!facts.contains(&Untold::Partial(Cause::Oval)));
    assert!(
        !facts
            .iter()
            .any(|f| matches!(f, Untold::Alike(..) | Untold::Invisible(_)))
    );
    assert!(facts.contains(&Untold::RingOrImpeller));
    assert!(facts.contains(&Untold::LeafSet(5e-6)));
}

#[test]
fn law_an_impeller_not_turned_tells_nothing_apart() {
    // Each blade read where it stands, under every other position.
    let still = |s: Spot| s.position == 2 * s.blade;
    let facts = untold(&survey(Frame::even(4, 8, 1).unwrap(), still, |_, _| 520e-6));
    assert!(facts.contains(&Untold::Unturned { groups: 4 }));
    for blade in 0..4 {
        assert!(facts.contains(&Untold::Alike(Cause::Local(2 * blade), Cause::Blade(blade))));
        assert!(facts.contains(&Untold::Invisible(Cause::Local(2 * blade + 1))));
    }
    assert!(facts.contains(&Untold::Alike(Cause::OffCentre, Cause::Runout)));
    let one_blade = untold(&survey(
        Frame::even(4, 8, 1).unwrap(),
        |s| s.blade == 1,
        |_, _| 520e-6,
    ));
    assert!(one_blade.contains(&Untold::OneBlade(1)));
    assert!(one_blade.contains(&Untold::Invisible(Cause::Runout)));
    let one_clock = untold(&survey(
        Frame::even(4, 8, 1).unwrap(),
        |s| s.position == 6,
        |_, _| 520e-6,
    ));
    assert!(one_clock.contains(&Untold::OnePosition(6)));
    assert!(one_clock.contains(&Untold::Invisible(Cause::OffCentre)));
}

#[test]
fn law_of_four_blades_one_short_and_runout_is_all_a_blade_can_be() {
    let wave = |s: Spot| [1.0, 0.0, -1.0, 0.0][s.blade];
    let both = whole(|s, _| 620e-6 + 100e-6 * wave(s) + if s.blade == 1 { 160e-6 } else { 0.0 });
    let ranking = rank(&both);
    let same = |set: &[Cause]| {
        ranking
            .candidates
            .iter()
            .position(|c| c.causes == set)
            .unwrap()
    };
    let uneven = same(&[Cause::Uneven]);
    let pair = &ranking.candidates[same(&[Cause::Runout, Cause::Blade(1)])];
    assert!(pair.same.contains(&uneven));
    assert!(ranking.told(0.3).is_none());
}

#[test]
fn law_the_next_reading_is_where_the_causes_differ() {
    // One blade round: off centre or swollen, all is the ring's. The tightest place again with a
    // leaf between its two says more than any place that all causes leave alike.
    let round = survey(Frame::even(4, 8, 1).unwrap(), |s| s.blade == 0, swollen);
    let ranking = rank(&round);
    let next = next_readings(&round, &ranking, &leaves()).unwrap();
    assert!(next.windows(2).all(|two| two[0].gain >= two[1].gain));
    let best = next[0];
    assert!(best.gain > 0.0 && (0.0..=1.0).contains(&best.goes));
    assert_eq!(best.spot.position, 5);
    assert_ne!(best.spot.blade, 0);
    // A yes or a no cannot teach more than a bit, nor more than is open.
    let open: f64 = ranking
        .candidates
        .iter()
        .map(|c| -c.weight * c.weight.ln())
        .sum();
    assert!(
        next.iter()
            .all(|one| one.gain <= open.min(2_f64.ln()) + 1e-9)
    );
}

#[test]
fn law_a_known_spot_is_asked_again_only_within_its_cell() {
    let all = whole(swollen);
    let ranking = rank(&all);
    assert!(next_readings(&all, &ranking, &leaves()).unwrap().is_empty());
    let thin: Vec<f64> = (10..60).map(|i| f64::from(i) * 10e-6).collect();
    for next in next_readings(&all, &ranking, &thin).unwrap() {
        let known = all.readings().iter().find(|r| r.spot == next.spot).unwrap();
        let at = next.leaf + 10e-6;
        assert!(known.cell.low < at && at < known.cell.high);
    }
}

#[test]
fn practice_quick_plan() {
    let frame = Frame::even(3, 12, 2).unwrap();
    let plan = quick_plan(&frame, 1, &[]).unwrap();
    assert_eq!(plan.round.len(), 8);
    assert!(plan.blades.is_empty() && plan.again.is_empty());
    let gap = |s: Spot| if s.position == 3 { 310e-6 } else { 470e-6 };
    let mut readings: Vec<Reading> = plan.round.iter().map(|&s| felt(s, gap(s))).collect();
    let plan = quick_plan(&frame, 1, &readings).unwrap();
    assert!(plan.round.is_empty());
    let at = |blade| Spot {
        station: 1,
        blade,
        position: 3,
    };
    assert_eq!(plan.blades, [at(1), at(2)]);
    readings.extend(plan.blades.iter().map(|&s| felt(s, gap(s))));
    let plan = quick_plan(&frame, 1, &readings).unwrap();
    assert!(plan.round.is_empty() && plan.blades.is_empty());
    assert_eq!(plan.again.len(), 2);
    assert_eq!(plan.again[0], at(0));
}

#[test]
fn law_a_cure_takes_its_cause_away() {
    let off = whole(|_, t| 520e-6 + 110e-6 * t.cos());
    let ranking = rank(&off);
    let first = &ranking.candidates[0];
    let cured = &cure(&ranking.draw(&off, first, 1), &[vec![0]]).unwrap()[0];
    let Remedy::MoveRing {
        to_twelve,
        to_three,
    } = &cured.remedies[0]
    else {
        unreachable!("off centre is cured by moving");
    };
    assert_near(to_twelve.median, -110e-6, 15e-6);
    assert_near(to_three.median, 0.0, 15e-6);
    // What the wave took from the least, and gave to the greatest, comes back.
    assert_near(cured.least.median - cured.least_before.median, 95e-6, 20e-6);
    assert_near(
        cured.greatest_before.median - cured.greatest.median,
        95e-6,
        20e-6,
    );
    let inside = |e: &Estimate| e.low < e.median && e.median < e.high;
    assert!(inside(&cured.least) && inside(&cured.greatest));
    // The cells are 0.05 mm wide: the middle of the true mean's lies within half a step.
    let band = Band {
        least: Some(300e-6),
        greatest: Some(400e-6),
    };
    let level = level(&ranking.draw(&off, first, 1), &band).unwrap();
    assert_near(level.mean.median, 520e-6, 15e-6);
    assert_near(level.change.median, 350e-6 - level.mean.median, 1e-12);
    assert_near(level.too_wide, 1.0, 0.0);
    assert_near(level.too_tight, 0.0, 0.0);
}

#[test]
fn practice_remedies_follow_the_sign() {
    let remedy = |survey: &Survey| {
        let ranking = rank(survey);
        cure(&ranking.draw(survey, &ranking.candidates[0], 1), &[vec![0]])
            .unwrap()
            .remove(0)
            .remedies
            .remove(0)
    };
    // Swollen: taken off. A short blade: built up.
    let Remedy::Ring(5, by) = remedy(&whole(swollen)) else {
        unreachable!("the ring is swollen at 5");
    };
    assert!(by.high < 0.0);
    let Remedy::Blade(2, by) = remedy(&whole(|s, _| if s.blade == 2 { 610e-6 } else { 470e-6 }))
    else {
        unreachable!("blade 2 is short");
    };
    assert!(by.low > 0.0);
    let Remedy::Round(by) = remedy(&whole(|_, t| 520e-6 + 110e-6 * (2.0 * t).cos())) else {
        unreachable!("the ring is oval");
    };
    assert_near(by.median, 220e-6, 30e-6);
    let ridge = spot(1, 3);
    let stray = whole(|s, _| if s == ridge { 260e-6 } else { 470e-6 });
    assert_eq!(remedy(&stray), Remedy::FeelAgain(ridge));
}

#[test]
fn practice_leaf_sets() {
    let up_to = |greatest: f64| Band {
        least: None,
        greatest: Some(greatest),
    };
    let set = leaf_set_can_decide(&up_to(600e-6), &leaves(), &Model::default(), 0.95).unwrap();
    assert!(set.shows_in && set.shows_out);
    // The limit lies 0.01 mm below the step from 0.60: one cell below it cannot be decided, and the
    // blur of hand and leaves spoils the one above.
    assert_eq!(set.undecided.len(), 1);
    let Cell { low, high } = set.undecided[0];
    assert!(
        low < 600e-6 && 600e-6 < high && high - low < 110e-6,
        "{low} {high}"
    );
    // All leaves thinner than the limit: nothing can show it broken.
    let set = leaf_set_can_decide(&up_to(1.2e-3), &leaves(), &Model::default(), 0.95).unwrap();
    assert!(set.shows_in && !set.shows_out);
    assert!(set.undecided.last().unwrap().high.is_infinite());
    // A limit finer than the step: no reading shows both ends kept.
    let band = Band {
        least: Some(300e-6),
        greatest: Some(340e-6),
    };
    let set = leaf_set_can_decide(&band, &leaves(), &Model::default(), 0.95).unwrap();
    assert!(!set.shows_in && set.shows_out);
}
