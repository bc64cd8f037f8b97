//! Are causes found? Invented craft of other physics, each learnt from one log, then something is wrong.

use diagnosis::fault::{ByFault, FAULTS, Fault, PRIOR};
use diagnosis::others::PASSED;
use diagnosis::score::{brier, reliability, surprise};
use diagnosis::signature::{Observable, Seen, Signature, days};
use diagnosis::symptom::{Answered, Symptom};
use diagnosis::weigh::{Evidence, Table, weigh};
use propulsion::calibrate::calibrate;
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use workshop::diagnose::expected::{Case, Reckoned};
use workshop::diagnose::scale::reckoned;
use workshop::diagnose::seen::Measured;
use workshop::entry::Key;

use crate::described::{described, seen};
use crate::truth::faults::Wrong;
use crate::truth::outing::Outing;
use crate::truth::signs::Sign;
use crate::truth::{Drawn, draw};

/// What is tuned is tuned on the first seed; the second is reported.
pub(crate) const TUNED: u64 = 1;
const REPORTED: u64 = 2;
/// Times something is wrong with one craft.
const EACH: u64 = 60;
/// Craft whose outcomes are compared with the table in every test run.
const AGAIN: u64 = 2;
/// Cases a bin of confidence holds at least.
const BIN: usize = 400;

/// The ten causes that the water shows best, and nothing wrong, with the chances of the reference.
const TEN: [(Fault, f64); 11] = [
    (Fault::Nothing, 0.25),
    (Fault::Clearance, 0.15),
    (Fault::Air, 0.12),
    (Fault::Grate, 0.08),
    (Fault::Blade, 0.07),
    (Fault::NozzleWide, 0.03),
    (Fault::NozzleNarrow, 0.03),
    (Fault::Engine, 0.12),
    (Fault::Dirty, 0.06),
    (Fault::Heavy, 0.05),
    (Fault::Slip, 0.04),
];

/// What a careful person believes of the means of four runs and three starts: standard uncertainties.
const SPEED: f64 = 0.08;
const ENGINE: f64 = 1.5;
const TIME: f64 = 0.09;
const LAUNCH: f64 = 5.0;
const PASSING: f64 = 3.0;

fn ten() -> ByFault {
    let mut prior = [0.0; FAULTS];
    for (fault, chance) in TEN {
        prior[fault as usize] = chance;
    }
    prior
}

/// All that are listed: one that is on no list cannot be drawn.
fn listed() -> ByFault {
    let mut prior = PRIOR;
    prior[Fault::Unlisted as usize] = 0.0;
    prior
}

pub(crate) fn wrong(fault: Fault) -> Option<Wrong> {
    Some(match fault {
        Fault::Nothing | Fault::Unlisted => return None,
        Fault::Clearance => Wrong::Clearance,
        Fault::Air => Wrong::Air,
        Fault::Grate => Wrong::Grate,
        Fault::Blade => Wrong::Blade,
        Fault::NozzleWide => Wrong::NozzleWide,
        Fault::NozzleNarrow => Wrong::NozzleNarrow,
        Fault::Engine => Wrong::Engine,
        Fault::Limp => Wrong::Limp,
        Fault::Dirty => Wrong::DirtyHull,
        Fault::Heavy => Wrong::Heavy,
        Fault::Slip => Wrong::Slip,
        Fault::Ring => Wrong::Ring,
        Fault::Bearing => Wrong::Bearing,
        Fault::Misaligned => Wrong::Misaligned,
        Fault::Hoses => Wrong::Hoses,
        Fault::Gate => Wrong::Gate,
    })
}

fn symptom(sign: Sign) -> Symptom {
    match sign {
        Sign::Roar => Symptom::Roar,
        Sign::Flare => Symptom::Flare,
        Sign::Milky => Symptom::Milky,
        Sign::Chop => Symptom::Chop,
        Sign::Vibration => Symptom::Vibration,
        Sign::Growl => Symptom::Growl,
        Sign::WeakTelltale => Symptom::Telltale,
        Sign::Hot => Symptom::Hot,
        Sign::Smell => Symptom::Smell,
        Sign::Misfire => Symptom::Misfire,
        Sign::Flat => Symptom::Held,
        Sign::Low => Symptom::Low,
        Sign::Pull => Symptom::Pull,
        Sign::Sudden => Symptom::Sudden,
        Sign::Clears => Symptom::Clears,
        Sign::SinceRefit => Symptom::Refit,
    }
}

/// The quantities of an outing, as far as they were reached; none where it did not plane.
fn measured(outing: &Outing) -> Option<Vec<Measured>> {
    let fifty = trial::runs::FIFTY_MILES;
    let [_, twenty, thirty, forty] = PASSED;
    let [at_20, at_30, at_40] = outing.passing_engine;
    outing.top_speed?;
    let all = [
        (Observable::TopSpeed, outing.top_speed, SPEED),
        (Observable::TopEngine, outing.top_engine, ENGINE),
        (Observable::Start(thirty), outing.to_30_mph, TIME),
        (Observable::Start(fifty), outing.to_50_mph, 1.2 * TIME),
        (Observable::LaunchEngine, outing.launch_engine, LAUNCH),
        (Observable::Passing(twenty), at_20, PASSING),
        (Observable::Passing(thirty), at_30, PASSING),
        (Observable::Passing(forty), at_40, PASSING),
    ];
    let seen = all
        .into_iter()
        .filter_map(|(observable, value, uncertainty)| {
            Some(Measured {
                observable,
                value: value?,
                uncertainty,
            })
        });
    Some(seen.collect())
}

struct Dice(Pcg64Mcg);

impl Dice {
    fn share(&mut self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "53 bits")]
        let [bits, all] = [self.0.next_u64() >> 11, 1_u64 << 53].map(|bits| bits as f64);
        bits / all
    }

    fn fault(&mut self, prior: &ByFault) -> Fault {
        let mut left = self.share() * prior.iter().sum::<f64>();
        for fault in Fault::ALL {
            left -= prior[fault as usize];
            if left < 0.0 {
                return fault;
            }
        }
        Fault::Nothing
    }
}

/// A craft learnt from one log, with the table of its faults.
struct Known {
    seed: u64,
    number: u64,
    drawn: Drawn,
    reckoned: Reckoned,
    before: Vec<Measured>,
}

fn known(seed: u64, number: u64) -> Option<Known> {
    let drawn = draw(seed, number);
    let (craft, day) = described(&drawn.told);
    let fit = calibrate(&craft, &day, &seen(&drawn)).ok()?;
    if fit.poor().is_some() {
        return None;
    }
    let before = measured(&drawn.trial(&[], 1))?;
    let case = Case {
        was: Some((Key::new("before").unwrap(), craft.clone(), day)),
        craft,
        day,
        fit,
        seen: before.clone(),
        gap: None,
        before: before.clone(),
        limiter: Some(drawn.told.limiter),
    };
    Some(Known {
        seed,
        number,
        drawn,
        reckoned: case.reckoned().ok()?,
        before,
    })
}

/// One time something was wrong: the truth, and what is told.
struct Told {
    truth: usize,
    chances: ByFault,
}

/// What is asked: by which prior, and what is known.
struct Asked {
    name: &'static str,
    prior: ByFault,
    /// A log was kept: the engine's speed is known as the craft passes speeds.
    log: bool,
    signs: bool,
    /// By a table that the craft's own physics draws up.
    knowing: bool,
    told: Vec<Told>,
    unseen: usize,
}

fn asked() -> [Asked; 6] {
    let ask = |name, prior, [log, signs, knowing]: [bool; 3]| Asked {
        name,
        prior,
        log,
        signs,
        knowing,
        told: Vec::new(),
        unseen: 0,
    };
    [
        ask("ten, five figures", ten(), [false, false, false]),
        ask("ten, a log", ten(), [true, false, false]),
        ask("ten, a log and signs", ten(), [true, true, false]),
        ask("all, a log", listed(), [true, false, false]),
        ask("all, a log and signs", listed(), [true, true, false]),
        ask("ten, a log, its physics known", ten(), [true, false, true]),
    ]
}

/// Sizes of faults that a table of the craft's own physics knows: close enough that none is missed between them.
const CLOSE: u8 = 21;

/// The same craft with the table that its own physics draws up: what nobody can do better than.
fn all_knowing(known: &Known) -> Known {
    let base = measured(&known.drawn.trial(&[], 0)).unwrap();
    let compared = known.reckoned.compared.iter();
    let quantities: Vec<(Observable, f64)> = compared
        .map(|one| (one.seen.observable, one.on_scale))
        .collect();
    let value = |all: &[Measured], of: Observable| {
        let one = all.iter().find(|one| one.observable == of);
        one.map(|one| reckoned(one).0)
    };
    let apart = days(&quantities, &vec![0.0; quantities.len()]);
    let signature = |fault: Fault, severity: f64| {
        let wrong: Vec<(Wrong, f64)> = wrong(fault)
            .into_iter()
            .map(|wrong| (wrong, severity))
            .collect();
        let ill = measured(&known.drawn.trial(&wrong, 0))?;
        let effects = quantities.iter().map(|(of, _)| {
            let never = 40_f64.ln();
            value(&ill, *of).unwrap_or(never) - value(&base, *of).unwrap_or(never)
        });
        let off = vec![0.0; quantities.len()];
        let mut one = Signature::new((fault, severity), &[effects.collect()], &off).ok()?;
        if fault.has_severity() {
            one.share = f64::from(CLOSE).recip();
        }
        one.blurred(&apart).ok()
    };
    let sized = TEN.iter().filter(|(fault, _)| fault.has_severity());
    let size = |step: u8| 0.2 + 0.8 * f64::from(step) / f64::from(CLOSE - 1);
    let sized = sized.flat_map(|(fault, _)| (0..CLOSE).map(move |step| (*fault, size(step))));
    let all = std::iter::once((Fault::Nothing, 0.0)).chain(sized);
    Known {
        drawn: draw(known.seed, known.number),
        reckoned: Reckoned {
            table: Table {
                signatures: all
                    .filter_map(|(fault, severity)| signature(fault, severity))
                    .collect(),
            },
            ..known.reckoned.clone()
        },
        before: known.before.clone(),
        ..*known
    }
}

/// One time something was wrong: what it was, and what was seen and heard.
struct Happened {
    truth: Fault,
    /// None where it did not plane.
    after: Option<Vec<Measured>>,
    signs: Vec<Answered>,
}

fn happened(drawn: &Drawn, prior: &ByFault, (number, case): (u64, u64)) -> Happened {
    let mut dice = Dice(Pcg64Mcg::seed_from_u64(number * 10_007 + case));
    let truth = dice.fault(prior);
    let severity = 0.2 + 0.8 * dice.share();
    let wrong: Vec<(Wrong, f64)> = wrong(truth)
        .into_iter()
        .map(|wrong| (wrong, severity))
        .collect();
    let signs = drawn.signs(&wrong, case + 2).into_iter();
    Happened {
        truth,
        after: measured(&drawn.trial(&wrong, case + 2)),
        signs: signs
            .filter_map(|(sign, yes)| {
                Some(Answered {
                    symptom: symptom(sign),
                    yes: yes?,
                })
            })
            .collect(),
    }
}

fn ask(known: &Known, asked: &mut Asked, happened: &Happened) {
    let Some(after) = &happened.after else {
        asked.unseen += 1;
        return;
    };
    let compared = known.reckoned.compared.iter();
    let seen = compared.map(|compared| {
        let of = compared.seen.observable;
        if matches!(of, Observable::Passing(_)) && !asked.log {
            return None;
        }
        let after = after.iter().find(|one| one.observable == of)?;
        let before = known.before.iter().find(|one| one.observable == of)?;
        let ((value, here), (_, there)) = (reckoned(after), reckoned(before));
        Some(Seen {
            change: value - compared.on_scale,
            uncertainty: here.hypot(there),
        })
    });
    let answers = happened.signs.iter().filter(|_| asked.signs);
    let evidence = Evidence {
        seen: seen.collect(),
        answers: answers.copied().collect(),
        ..Evidence::default()
    };
    let weighed = weigh(&asked.prior, &known.reckoned.table, &evidence).unwrap();
    asked.told.push(Told {
        truth: happened.truth as usize,
        chances: weighed.chances,
    });
}

/// The place of the truth among the chances, 0 the first.
fn place(told: &Told) -> usize {
    let own = told.chances[told.truth];
    told.chances.iter().filter(|other| **other > own).count()
}

fn share(count: usize, of: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap()) / f64::from(u32::try_from(of.max(1)).unwrap())
}

fn row(half: &str, asked: &Asked, first: &str) -> String {
    let told = &asked.told;
    let within = |most: usize| {
        share(
            told.iter().filter(|one| place(one) < most).count(),
            told.len(),
        )
    };
    let mean = |score: fn(&[f64], usize) -> f64| {
        let all: f64 = told.iter().map(|one| score(&one.chances, one.truth)).sum();
        all * share(1, told.len())
    };
    let confidences: Vec<(f64, bool)> = told
        .iter()
        .map(|one| {
            let most = one.chances.iter().copied().fold(0.0, f64::max);
            (most, place(one) == 0)
        })
        .collect();
    let (error, _) = reliability(&confidences, BIN);
    format!(
        "| {half} | {} | {} | {} | {:.3} | {:.3} | {:.3} | {:.3} | {:.3} | {} | {first} |",
        asked.name,
        told.len(),
        asked.unseen,
        within(1),
        within(3),
        mean(brier),
        mean(surprise),
        error,
        by_fault(asked),
    )
}

/// How often each fault comes first, or among three.
fn by_fault(asked: &Asked) -> String {
    let each = Fault::ALL.into_iter().filter_map(|fault| {
        let mine: Vec<&Told> = (asked.told.iter())
            .filter(|told| told.truth == fault as usize)
            .collect();
        let first = mine.iter().filter(|told| place(told) == 0).count();
        (!mine.is_empty()).then(|| {
            format!(
                "{fault:?} {:.2} of {}",
                share(first, mine.len()),
                mine.len()
            )
        })
    });
    each.collect::<Vec<String>>().join("; ")
}

const HEAD: &str = "| craft | asked | told | no run | first | among three | Brier | log | calibration | first, by cause | first craft |\n\
                    |---|---|---|---|---|---|---|---|---|---|---|";

/// Puts every question to a craft; words tell what came first, a letter a case.
fn put(seed: u64, number: u64, asked: &mut [Asked]) -> Option<String> {
    let known = known(seed, number)?;
    let knowing = all_knowing(&known);
    for asked in asked.iter_mut() {
        let by = if asked.knowing { &knowing } else { &known };
        for case in 0..EACH {
            let happened = happened(&known.drawn, &asked.prior, (number, case));
            ask(by, asked, &happened);
        }
    }
    let told = asked[0].told.iter().rev().take(20).rev();
    Some(
        told.map(|one| if place(one) == 0 { '+' } else { '-' })
            .collect(),
    )
}

fn first(seed: u64, asked: &mut [Asked]) -> String {
    let words = (0..AGAIN).map(|number| put(seed, number, asked));
    let words: Vec<String> = words
        .map(|word| word.unwrap_or_else(|| "?".to_owned()))
        .collect();
    words.join("/")
}

#[test]
#[ignore = "a study: cargo xtask study faults"]
fn faults_study() {
    let craft: u64 = option_env!("PUMPWRIGHT_CRAFT").map_or(100, |text| text.parse().unwrap());
    println!("{HEAD}");
    for (half, seed) in [("tuned on", TUNED), ("reported", REPORTED)] {
        let mut asked = asked();
        let words = first(seed, &mut asked);
        for number in AGAIN..craft {
            put(seed, number, &mut asked);
        }
        for (at, asked) in asked.iter().enumerate() {
            println!("{}", row(half, asked, if at == 0 { &words } else { "" }));
        }
    }
}

#[test]
fn regress_study_of_the_first_craft() {
    let recorded = include_str!("../../../../../docs/studies/faults.md");
    let row = recorded
        .lines()
        .find(|line| line.starts_with("| reported | ten, five figures |"));
    let words = row
        .unwrap()
        .trim_end_matches(" |")
        .rsplit(' ')
        .next()
        .unwrap();
    assert_eq!(first(REPORTED, &mut asked()[..1]), words);
}
