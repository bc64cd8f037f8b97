//! How often the cause is found, how often the intervals hold, how often "in" is false.

use std::f64::consts::{PI, TAU};
use std::ops::Range;

use clearance::causes::{
    Candidate, Cause, Effect, Frame, ROUGHNESS, Ranking, Reading, Survey, rank,
};
use clearance::{Cell, Estimate, Limits, Model, Verdict, conformity, posterior, verdict};
use statrs::distribution::{Binomial, DiscreteCDF};

use crate::pumps::{BLADES, Fault, Kind, Leaves, POSITIONS, Pump, pump};
use crate::walk::walk;

/// Probability a candidate must reach to be named: of 0.4 to 0.8, tried on the pumps from 0, the one
/// that names a wrong cause in one of fifty at four steps.
const REQUIRED: f64 = 0.6;
/// First pump reported; what is tuned is tuned on the pumps from 0.
const REPORTED: u64 = 1_000_000;
/// Pumps of a row whose outcomes are compared with the table in every test run.
const AGAIN: u64 = 10;
/// Pumps of a row that are also held against a limit.
const JUDGED: u64 = 40;
/// Pumps of a row whose intervals are also compared with the exact law.
const WALKED: u64 = 4;
/// Probability of conformity asked for.
const CONFORM: f64 = 0.95;

/// One row: which faults, how large in leaf steps, which leaves.
struct Row {
    kinds: Vec<Kind>,
    steps: f64,
    leaves: Leaves,
}

const KINDS: [Kind; 5] = [
    Kind::OffCentre,
    Kind::Oval,
    Kind::Local,
    Kind::Blade,
    Kind::Runout,
];

fn rows() -> Vec<Row> {
    let mut faults: Vec<(Vec<Kind>, &[f64])> = vec![(Vec::new(), &[0.0])];
    faults.extend(KINDS.iter().map(|&kind| (vec![kind], &[1.0, 2.0, 4.0][..])));
    for (i, &one) in KINDS.iter().enumerate() {
        let others = KINDS[i + 1..].iter();
        faults.extend(others.map(|&other| (vec![one, other], &[2.0, 4.0][..])));
    }
    let mut rows = Vec::new();
    for (kinds, sizes) in faults {
        for &steps in sizes {
            for leaves in [Leaves::Metric, Leaves::Inch] {
                rows.push(Row {
                    kinds: kinds.clone(),
                    steps,
                    leaves,
                });
            }
        }
    }
    rows
}

/// What is counted over some pumps.
#[derive(Default)]
struct Count {
    pumps: u64,
    /// The faults, no more and no less, are named; nothing is; none are said; others are named.
    right: u64,
    untold: u64,
    none: u64,
    wrong: u64,
    /// The most probable candidate is right, named or not.
    first: u64,
    /// Intervals of the right candidate, named or not, and how many hold the truth.
    intervals: u64,
    hold: u64,
    /// The same where it is named: what a person is shown as told.
    shown: u64,
    shown_hold: u64,
    /// Our widths over those of the exact law.
    widths: Vec<f64>,
    /// Verdicts "in", those that were false, and how many false ones they own up to.
    said_in: u64,
    falsely: u64,
    stated: f64,
    /// The outcomes of the first pumps, a digit each.
    outcomes: String,
}

pub(crate) fn survey(cells: &[Cell]) -> Survey {
    let frame = Frame::even(BLADES, POSITIONS, 1).unwrap();
    let spots = frame.spots().zip(cells);
    let readings = spots.map(|(spot, &cell)| Reading { spot, cell }).collect();
    Survey::new(frame, readings, Model::default(), &ROUGHNESS).unwrap()
}

fn cause(fault: &Fault) -> Cause {
    match fault.kind {
        Kind::OffCentre => Cause::OffCentre,
        Kind::Oval => Cause::Oval,
        Kind::Local => Cause::Local(fault.place),
        Kind::Blade => Cause::Blade(fault.place),
        Kind::Runout => Cause::Runout,
    }
}

/// Whether a candidate is the faults, no more and no less.
pub(crate) fn is(candidate: &Candidate, faults: &[Fault]) -> bool {
    candidate.causes.len() == faults.len()
        && faults.iter().all(|f| candidate.causes.contains(&cause(f)))
}

impl Row {
    fn count(&self, pumps: Range<u64>) -> Count {
        let mut count = Count::default();
        let effect = self.steps * self.leaves.step();
        for number in pumps {
            let pump = pump(&self.kinds, effect, self.leaves, REPORTED + number);
            let survey = survey(&pump.cells);
            let ranking = rank(&survey);
            count.note(&pump, &ranking, number);
            count.measure(&pump, (&survey, &ranking), number);
        }
        count
    }

    fn name(&self) -> String {
        let kinds: Vec<String> = self.kinds.iter().map(|k| format!("{k:?}")).collect();
        let kinds = if kinds.is_empty() {
            "none".into()
        } else {
            kinds.join(" + ")
        };
        format!("| {kinds} | {:?} | {} |", self.leaves, self.steps)
    }
}

impl Count {
    fn note(&mut self, pump: &Pump, ranking: &Ranking, number: u64) {
        self.pumps += 1;
        self.first += u64::from(is(&ranking.candidates[0], &pump.faults));
        let (counter, digit) = match ranking.told(REQUIRED) {
            None => (&mut self.untold, '?'),
            Some(told) if is(told, &pump.faults) => (&mut self.right, '+'),
            Some(told) if told.causes.is_empty() => (&mut self.none, '0'),
            Some(_) => (&mut self.wrong, '-'),
        };
        *counter += 1;
        if number < AGAIN {
            self.outcomes.push(digit);
        }
    }

    /// Counts the intervals that hold the truth.
    fn measure(&mut self, pump: &Pump, (survey, ranking): (&Survey, &Ranking), number: u64) {
        let right = ranking.candidates.iter().find(|c| is(c, &pump.faults));
        let Some(right) = right else { return };
        let named = ranking.told(REQUIRED).is_some_and(|t| is(t, &pump.faults));
        let exact = (number < WALKED).then(|| walk(survey, &right.causes));
        for (i, effect) in ranking.draw(survey, right, 1).effects().iter().enumerate() {
            let its = |f: &&Fault| cause(f) == right.causes[i];
            let fault = pump.faults.iter().find(its).unwrap();
            let (intervals, hold) = holds(effect, fault);
            self.intervals += intervals;
            self.hold += hold;
            if named {
                self.shown += intervals;
                self.shown_hold += hold;
            }
            if let (Some(exact), Effect::Wave { size, .. } | Effect::Amount(size)) =
                (&exact, effect)
            {
                let width = |e: &Estimate| e.high - e.low;
                self.widths.push(width(size) / width(&exact[i]));
            }
        }
    }

    /// Holds the gaps against a limit near the greatest of them.
    fn judge(&mut self, pump: &Pump, number: u64) {
        let greatest = pump.gaps.iter().copied().fold(0.0, f64::max);
        let off = [-40e-6, -30e-6, -20e-6, -10e-6, 10e-6, 20e-6, 30e-6, 40e-6];
        let off = off[usize::try_from(number % 8).unwrap()];
        let limits = Limits::Radial {
            least: None,
            greatest: Some(greatest + off),
        };
        let drawn = posterior(&pump.cells, &Model::default(), 1).unwrap();
        let within = conformity(&drawn, &limits).unwrap().within;
        if verdict(within, CONFORM) == Verdict::In {
            self.said_in += 1;
            self.falsely += u64::from(off < 0.0);
            self.stated += 1.0 - within;
        }
    }

    fn add(&mut self, other: Self) {
        self.pumps += other.pumps;
        self.right += other.right;
        self.untold += other.untold;
        self.none += other.none;
        self.wrong += other.wrong;
        self.first += other.first;
        self.intervals += other.intervals;
        self.hold += other.hold;
        self.shown += other.shown;
        self.shown_hold += other.shown_hold;
        self.widths.extend(other.widths);
        self.said_in += other.said_in;
        self.falsely += other.falsely;
        self.stated += other.stated;
    }

    fn cells(&mut self) -> String {
        self.widths.sort_by(f64::total_cmp);
        let width = self.widths.get(self.widths.len() / 2);
        format!(
            " {} | {} | {} | {} | {} | {} | {} | {} | {:.3} | {} | {} | {} | {} | {} | {:.1} | {} |",
            self.pumps,
            self.right,
            self.untold,
            self.none,
            self.wrong,
            self.first,
            self.intervals,
            self.hold,
            as_few(self.hold, self.intervals),
            self.shown,
            self.shown_hold,
            width.map_or("-".into(), |w| format!("{w:.2}")),
            self.said_in,
            self.falsely,
            self.stated,
            self.outcomes
        )
    }
}

/// How many intervals an effect has, and how many hold the fault.
fn holds(effect: &Effect, fault: &Fault) -> (u64, u64) {
    let within = |e: &Estimate| u64::from(e.low <= fault.size && fault.size <= e.high);
    match effect {
        Effect::Amount(amount) => (1, within(amount)),
        Effect::Wave { size, towards } => {
            let period = if fault.kind == Kind::Oval { PI } else { TAU };
            let off = (towards.angle - fault.angle).rem_euclid(period);
            let hit = off.min(period - off) <= towards.within;
            (2, within(size) + u64::from(hit))
        }
        Effect::Each(_) => (0, 0),
    }
}

/// Probability of as few hits or fewer, were each interval to hold with 90 %.
fn as_few(hold: u64, intervals: u64) -> f64 {
    if intervals == 0 {
        1.0
    } else {
        Binomial::new(0.9, intervals).unwrap().cdf(hold)
    }
}

const HEAD: [&str; 19] = [
    "faults",
    "leaves",
    "effect, steps",
    "pumps",
    "right",
    "cannot tell",
    "none said",
    "others named",
    "first is right",
    "intervals",
    "hold",
    "p of as few at 0.90",
    "when named",
    "hold",
    "width to exact",
    "said in",
    "falsely",
    "owned up to",
    "first ten",
];

#[test]
#[ignore = "takes minutes: cargo xtask study clearance runs it"]
fn clearance_study() {
    let pumps = option_env!("PUMPWRIGHT_PUMPS").map_or(500, |n| n.parse().unwrap());
    println!("| {} |\n|{}", HEAD.join(" | "), "---|".repeat(HEAD.len()));
    let mut all = Count::default();
    // Intervals of each cause, or set of causes, over its leaves and sizes.
    let mut causes: Vec<(Vec<Kind>, u64, u64)> = Vec::new();
    for row in rows() {
        let mut count = row.count(0..pumps);
        for number in 0..JUDGED.min(pumps) {
            let effect = row.steps * row.leaves.step();
            let pump = pump(&row.kinds, effect, row.leaves, REPORTED + number);
            count.judge(&pump, number);
        }
        println!("{}{}", row.name(), count.cells());
        match causes.last_mut().filter(|(kinds, ..)| *kinds == row.kinds) {
            Some((_, intervals, hold)) => {
                *intervals += count.intervals;
                *hold += count.hold;
            }
            None => causes.push((row.kinds.clone(), count.intervals, count.hold)),
        }
        if row.steps >= 2.0 {
            all.add(count);
        }
    }
    println!("| all of 2 and 4 steps | both | |{}", all.cells());
    let p = as_few(all.hold, all.intervals);
    assert!(p >= 0.01, "intervals contradict 0.90: {p}");
    // So many causes are asked that one in a hundred falls by chance; all together may, once.
    let asked = f64::from(u32::try_from(causes.len()).unwrap());
    for (kinds, intervals, hold) in causes {
        let p = as_few(hold, intervals);
        assert!(
            p * asked >= 0.01,
            "intervals of {kinds:?} contradict 0.90: {p}"
        );
    }
    // As many false verdicts or more, were each false with all that may be.
    let risk = Binomial::new(1.0 - CONFORM, all.said_in).unwrap();
    let p = 1.0 - risk.cdf(all.falsely.saturating_sub(1)) * f64::from(u8::from(all.falsely > 0));
    assert!(p >= 0.01, "\"in\" is false too often: {p}");
}

#[test]
fn regress_study_of_the_first_pumps() {
    let recorded = include_str!("../../../../../docs/studies/clearance.md");
    for row in rows() {
        let name = row.name();
        let line = recorded
            .lines()
            .find(|line| line.starts_with(&name))
            .unwrap();
        let outcomes = line.trim_end_matches(" |").rsplit(' ').next().unwrap();
        let mut count = Count::default();
        for number in 0..AGAIN {
            let effect = row.steps * row.leaves.step();
            let pump = pump(&row.kinds, effect, row.leaves, REPORTED + number);
            count.note(&pump, &rank(&survey(&pump.cells)), number);
        }
        assert_eq!(count.outcomes, outcomes, "{name}");
    }
}
