//! The exact law of the causes' sizes, the scatter not known, by a long random walk: slow, and apart from the crate's own.

use std::f64::consts::TAU;

use clearance::causes::{Cause, Spot, Survey};
use clearance::{Estimate, ln_cell_probability};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::pumps::BLADES;

/// Scales before the readings, as `docs/theory/causes.md` states them.
const MEAN: f64 = 1e-3;
const EFFECT: f64 = 100e-6;
/// Turns of the walk, the first tenth of which is forgotten.
const TURNS: usize = 8000;
/// Step of the walk: about what one blade's readings leave open.
const STEP: f64 = 12e-6;

/// Size of each cause, given that these and no others are there. One station; no uneven blades.
pub(crate) fn walk(survey: &Survey, causes: &[Cause]) -> Vec<Estimate> {
    let rows: Vec<Vec<f64>> = survey
        .readings()
        .iter()
        .map(|r| row(survey, causes, r.spot))
        .collect();
    let middle = survey.readings()[0].cell.low;
    let scatters: Vec<f64> = survey.scatters().collect();
    let ln_density = |at: &[f64], scatter: f64| -> f64 {
        let prior = at.iter().skip(1).map(|b| -0.5 * (b / EFFECT).powi(2));
        let mean = -0.5 * ((at[0] - middle) / MEAN).powi(2);
        let cells = rows.iter().zip(survey.readings()).map(|(row, reading)| {
            let mean: f64 = row.iter().zip(at).map(|(x, b)| x * b).sum();
            let standard = |z: f64| (z - mean) / scatter;
            ln_cell_probability(standard(reading.cell.low), standard(reading.cell.high))
        });
        mean + prior.sum::<f64>() + cells.sum::<f64>()
    };
    let mut dice = Pcg64Mcg::seed_from_u64(9);
    let mut at = vec![0.0; rows[0].len()];
    at[0] = middle;
    let mut scatter = scatters[0];
    let mut here = ln_density(&at, scatter);
    let mut draws: Vec<Vec<f64>> = Vec::new();
    for turn in 0..TURNS {
        for i in 0..at.len() {
            let old = at[i];
            let normal = (-2.0 * uniform(&mut dice).ln()).sqrt() * (TAU * uniform(&mut dice)).cos();
            at[i] += STEP * normal;
            let there = ln_density(&at, scatter);
            if uniform(&mut dice).ln() < there - here {
                here = there;
            } else {
                at[i] = old;
            }
        }
        // The scatter afresh, as likely as it makes the readings.
        let all: Vec<f64> = scatters.iter().map(|&s| ln_density(&at, s)).collect();
        let top = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let shares = all.iter().map(|ln| (ln - top).exp());
        let mut left = uniform(&mut dice) * shares.clone().sum::<f64>();
        let drawn = shares.into_iter().position(|share| {
            left -= share;
            left <= 0.0
        });
        let drawn = drawn.unwrap_or(scatters.len() - 1);
        (scatter, here) = (scatters[drawn], all[drawn]);
        if turn > TURNS / 10 {
            draws.push(at.clone());
        }
    }
    sizes(causes, &draws)
}

fn sizes(causes: &[Cause], draws: &[Vec<f64>]) -> Vec<Estimate> {
    let mut at = 1;
    let mut sizes = Vec::new();
    for cause in causes {
        let wave = matches!(cause, Cause::OffCentre | Cause::Oval | Cause::Runout);
        let size = |d: &Vec<f64>| if wave { d[at].hypot(d[at + 1]) } else { d[at] };
        let mut values: Vec<f64> = draws.iter().map(size).collect();
        values.sort_by(f64::total_cmp);
        let part = |share: usize| values[values.len() * share / 20];
        sizes.push(Estimate {
            low: part(1),
            median: part(10),
            high: part(19),
        });
        at += 1 + usize::from(wave);
    }
    sizes
}

#[expect(clippy::cast_precision_loss, reason = "counts, and 52 bits, fit")]
fn row(survey: &Survey, causes: &[Cause], spot: Spot) -> Vec<f64> {
    let clock = survey.frame().angle(spot.position);
    let turn = TAU * spot.blade as f64 / BLADES as f64;
    let flag = |yes: bool| f64::from(u8::from(yes));
    let mut row = vec![1.0];
    for cause in causes {
        match *cause {
            Cause::OffCentre => row.extend([clock.cos(), clock.sin()]),
            Cause::Oval => row.extend([(2.0 * clock).cos(), (2.0 * clock).sin()]),
            Cause::Runout => row.extend([turn.cos(), turn.sin()]),
            Cause::Local(position) => row.push(flag(position == spot.position)),
            Cause::Blade(blade) => row.push(flag(blade == spot.blade)),
            Cause::Uneven | Cause::Stray(_) => unreachable!("no fault of an invented pump"),
        }
    }
    row
}

#[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
fn uniform(dice: &mut Pcg64Mcg) -> f64 {
    ((dice.next_u64() >> 12) as f64 + 0.5) * f64::powi(0.5, 52)
}
