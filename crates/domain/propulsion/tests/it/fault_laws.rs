//! What must hold of what is wrong with an invented craft before a diagnosis is judged by it.

use crate::truth::faults::Wrong;
use crate::truth::outing::Outing;
use crate::truth::signs::Sign;
use crate::truth::{Drawn, Swap, draw, turns};

const SEED: u64 = 1;

fn craft(count: u64) -> Vec<Drawn> {
    (0..count).map(|number| draw(SEED, number)).collect()
}

fn count(number: usize) -> f64 {
    f64::from(u32::try_from(number).expect("few"))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// Medians over craft that plane both ways: top speed m/s, engine and launch 1/min, s to 30.
fn changes(craft: &[Drawn], wrong: &[(Wrong, f64)]) -> [f64; 4] {
    let pairs: Vec<(Outing, Outing)> = craft
        .iter()
        .map(|drawn| (drawn.outing(&[], 0), drawn.outing(wrong, 0)))
        .collect();
    let change = |of: fn(&Outing) -> Option<f64>| {
        let both = pairs.iter();
        median(both.filter_map(|(a, b)| Some(of(b)? - of(a)?)).collect())
    };
    [
        change(|o| o.top_speed),
        change(|o| Some(o.top_engine? / turns(1.0))),
        change(|o| Some(o.launch_engine? / turns(1.0))),
        change(|o| o.to_30_mph),
    ]
}

#[test]
fn law_a_sound_outing_without_noise_is_the_outcome() {
    for drawn in craft(30) {
        let (outing, outcome) = (drawn.outing(&[], 0), drawn.outcome(Swap::None));
        let top = outing.top_speed.unwrap();
        assert!((top / outcome.top_speed - 1.0).abs() < 1e-6, "{top}");
        let engine = outing.top_engine.unwrap();
        assert!((engine / outcome.top_engine - 1.0).abs() < 1e-6, "{engine}");
        // Longer steps cost a hundredth of a second, and near the top speed two.
        let (now, then) = (outing.to_30_mph.unwrap(), outcome.to_30_mph.unwrap());
        assert!((now - then).abs() < 0.01, "{now} {then}");
        if let (Some(now), Some(then)) = (outing.to_50_mph, outcome.to_50_mph) {
            assert!((now - then).abs() < 0.01 + 0.003 * then, "{now} {then}");
        }
    }
}

#[test]
fn regress_an_outing_and_its_signs_repeat() {
    let drawn = draw(SEED, 4);
    let wrong = [(Wrong::Air, 0.6), (Wrong::Slip, 0.4)];
    assert_eq!(drawn.outing(&wrong, 5), draw(SEED, 4).outing(&wrong, 5));
    assert_ne!(drawn.outing(&wrong, 5), drawn.outing(&wrong, 6));
    assert_eq!(drawn.signs(&wrong, 5), draw(SEED, 4).signs(&wrong, 5));
}

/// Common practice, no source: which way each goes, on the middle craft.
#[test]
fn practice_what_is_wrong_shows_the_way_it_is_known_to() {
    let craft = craft(16);
    for wrong in Wrong::ALL {
        let mild = changes(&craft, &[(wrong, 0.2)]);
        let half = changes(&craft, &[(wrong, 0.5)]);
        let bad = changes(&craft, &[(wrong, 0.9)]);
        println!("{wrong:?} {mild:.2?} {half:.2?} {bad:.2?}");
        // Which of the four is known, and its way.
        let known: &[(usize, f64)] = match wrong {
            Wrong::Clearance | Wrong::Air | Wrong::Ring => &[(0, -1.0), (2, 1.0), (3, 1.0)],
            Wrong::Grate | Wrong::Blade | Wrong::Gate => &[(0, -1.0), (3, 1.0)],
            Wrong::NozzleWide => &[(1, 1.0)],
            Wrong::Engine | Wrong::Limp => &[(0, -1.0), (1, -1.0), (2, -1.0)],
            Wrong::DirtyHull => &[(0, -1.0)],
            Wrong::Heavy => &[(3, 1.0)],
            Wrong::Slip => &[(0, -1.0), (1, 1.0)],
            Wrong::NozzleNarrow | Wrong::Bearing | Wrong::Misaligned | Wrong::Hoses => &[(1, -1.0)],
        };
        for &(at, way) in known {
            let sizes = [mild, half, bad].map(|change| way * change[at]);
            assert!(
                0.0 < sizes[0] && sizes[0] < sizes[1] && sizes[1] < sizes[2],
                "{wrong:?} {at}: {sizes:?}"
            );
        }
    }
    let dirty = changes(&craft, &[(Wrong::DirtyHull, 0.9)]);
    assert!(dirty[0] < -1.5 && dirty[1].abs() < 150.0, "{dirty:?}");
    let both = changes(&craft, &[(Wrong::Heavy, 0.5), (Wrong::DirtyHull, 0.5)]);
    let heavy = changes(&craft, &[(Wrong::Heavy, 0.5)]);
    assert!(
        both[0] < heavy[0] && heavy[3] < both[3],
        "{both:?} {heavy:?}"
    );
}

/// Weed makes one engine race and another labour as the craft pulls away.
#[test]
fn practice_weed_goes_either_way() {
    let changes = craft(30).into_iter().map(|drawn| {
        let away = |wrong: &[(Wrong, f64)]| drawn.outing(wrong, 0).launch_engine;
        Some(away(&[(Wrong::Grate, 0.5)])? - away(&[])?)
    });
    let (up, down): (Vec<f64>, Vec<f64>) = changes.flatten().partition(|change| *change > 0.0);
    assert!(up.len() > 3 && down.len() > 3, "{up:?} {down:?}");
}

/// Asked of each craft: enough that a share of 3 % is known to a fifth of it by three times its spread.
const PERSONS: usize = 500;

/// Shares of craft and persons that answer yes of those that looked, and of those that did not look.
fn answered(craft: &[Drawn], wrong: &[(Wrong, f64)]) -> [(f64, f64); 16] {
    let mut yes = [0; 16];
    let mut looked = [0; 16];
    let asked = craft.len() * PERSONS;
    for drawn in craft {
        for seed in (1..).take(PERSONS) {
            for (i, (_, answer)) in drawn.signs(wrong, seed).into_iter().enumerate() {
                looked[i] += usize::from(answer.is_some());
                yes[i] += usize::from(answer == Some(true));
            }
        }
    }
    std::array::from_fn(|i| {
        let share = count(yes[i]) / count(looked[i]);
        (share, 1.0 - count(looked[i]) / count(asked))
    })
}

#[test]
fn law_signs_tell_what_is_wrong_and_little_of_a_sound_craft() {
    let craft = craft(20);
    let sound = answered(&craft, &[]);
    for (sign, (falsely, unseen)) in Sign::ALL.iter().zip(sound) {
        assert!((0.025..0.105).contains(&falsely), "{sign:?} {falsely}");
        assert!((0.31..0.39).contains(&unseen), "{sign:?} {unseen}");
    }
    for wrong in Wrong::ALL {
        let most = |severity: f64| {
            let signs = answered(&craft, &[(wrong, severity)]);
            let more = signs.iter().zip(sound).map(|(now, then)| now.0 - then.0);
            more.fold(0.0, f64::max)
        };
        assert!(most(1.0) > 0.2, "{wrong:?} {}", most(1.0));
    }
}

#[test]
fn law_a_roar_comes_with_a_flare() {
    let mut table = [[0_usize; 2]; 2];
    for drawn in craft(20) {
        for seed in 1..=100 {
            let signs = drawn.signs(&[(Wrong::Clearance, 0.6)], seed);
            if let (Some(roar), Some(flare)) = (signs[0].1, signs[1].1) {
                table[usize::from(roar)][usize::from(flare)] += 1;
            }
        }
    }
    let [[a, b], [c, d]] = table.map(|row| row.map(count));
    let along = (a * d - b * c) / ((a + b) * (c + d) * (a + c) * (b + d)).sqrt();
    assert!(along > 0.15, "{along}");
}

#[test]
fn law_four_runs_scatter_less_than_one() {
    let drawn = &craft(1)[0];
    let scatter = |day: &dyn Fn(u64) -> Option<f64>| {
        let all: Vec<f64> = (1..=60).filter_map(day).collect();
        let mean = all.iter().sum::<f64>() / count(all.len());
        all.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / count(all.len())
    };
    let once = scatter(&|seed| drawn.outing(&[], seed).top_speed);
    let often = scatter(&|seed| drawn.trial(&[], seed).top_speed);
    assert!(often < 0.7 * once, "{often} {once}");
}
