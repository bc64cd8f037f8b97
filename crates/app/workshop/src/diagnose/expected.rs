//! What the suspect outing should have shown, and what each fault would have changed of it.

use diagnosis::fault::{Fault, SEVERITIES};
use diagnosis::others::{Known, others};
use diagnosis::signature::{Observable, Seen, Signature, days, off};
use diagnosis::weigh::Table;
use propulsion::calibrate::{Fit, nothing_learnt};
use propulsion::change::Change;
use propulsion::craft::{Conditions, Craft};
use propulsion::predict::{Draw, draws};
use propulsion::run::run_of_planing;
use rayon::prelude::*;

use super::faults::changes;
use super::scale::{moved, off_scale, on_scale, reckoned, shows};
use super::seen::{Measured, measured};
use super::suspect;
use crate::choose::answer::{changed, learn, real};
use crate::choose::craft::{NoCraft, setup};
use crate::choose::seen::{evidence as evidence_of, outing};
use crate::entry::Key;
use crate::job::Job;
use crate::water::OutingState;
use crate::water::outing::says;

/// How many beliefs are asked of every fault and size.
const DRAWS: usize = 30;
/// So many times more are looked through for those that plane.
const MOST: usize = 6;
/// Fewer with an answer are none.
const ENOUGH: usize = 10;
/// What the craft's own model says of a fault weighs so much against what other craft show of it. On the first half of
/// `docs/studies/faults.md` less would do as well: it is kept for what no other craft shows, such as a gap.
const OWN: f64 = 0.05;
/// Where nothing was learnt of the craft, or a quantity was not measured on the run it is held against, so many
/// times worse is known what a fault does. Assumed, no source.
const ALONE: f64 = 2.0;

/// From this share of the top speed on a time to a speed is decided by an ant: common practice, no source.
const NEARLY_TOP: f64 = 0.95; // not a conversion: a share
/// From this share of the limiter's speed on it is the limiter that holds an engine: common practice, no source.
const LIMITED: f64 = 0.99; // not a conversion: a share

/// What a craft that falls short is held against.
#[derive(Clone, Debug, PartialEq)]
pub enum Against {
    /// Another outing of it, taken as well but for what is known to have changed since.
    Run(Key),
    /// What a craft of this description should do: the engine's speed alone, for the method that speeds and times rest
    /// on is off by more than any fault until the hull has been learnt.
    Description,
    /// Nothing: it has not been run, or nothing of the run can be held against anything.
    NotRun,
    /// Nothing: there is no craft to reckon with.
    NoCraft(NoCraft),
    /// Nothing: too few beliefs of the craft plane, or nothing was measured that a description can be held to.
    Unreckoned,
}

/// One quantity as it should be and as it was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// What was measured.
    pub seen: Measured,
    /// What it was on the run it is held against.
    pub before: Option<f64>,
    /// What it should have been.
    pub expected: f64,
    /// The same on the scale it is reckoned on: see [`reckoned`].
    pub on_scale: f64,
    /// How sure that is: a standard deviation over beliefs and of the run it is held against.
    pub spread: f64,
    /// The engine's limiter holds it there when all is well, so that it tells little.
    pub limited: bool,
}

/// The table for one job.
#[derive(Clone, Debug)]
pub struct Reckoned {
    /// What it is held against.
    pub against: Against,
    /// What should have been, and was.
    pub compared: Vec<Compared>,
    /// The gap as measured since, and as it should be, `m`.
    pub gap: Option<(Measured, f64)>,
    /// What each fault would have changed; empty where there is nothing to hold against.
    pub table: Table,
    /// What was seen, less what should have been.
    pub seen: Vec<Option<Seen>>,
}

/// One belief: what each fault shows of every quantity that was seen, in SI.
struct Row {
    /// On the run it is held against.
    before: Option<Vec<f64>>,
    /// As it should be.
    well: Vec<f64>,
    /// With every fault of every size.
    ill: Vec<Option<Vec<f64>>>,
}

type Outing<'a> = (&'a Key, &'a OutingState);

/// Draws the table up: all that takes long.
pub fn reckon(job: &Job) -> Reckoned {
    Case::of(job)
        .and_then(|case| case.reckoned())
        .unwrap_or_else(|against| Reckoned {
            against,
            compared: Vec::new(),
            gap: None,
            table: Table::default(),
            seen: Vec::new(),
        })
}

/// A craft that may fall short, with all that its table is drawn from.
#[derive(Clone, Debug)]
pub struct Case {
    /// The craft on the suspect day, with what is known to have changed.
    pub craft: Craft,
    /// That day.
    pub day: Conditions,
    /// The craft as it ran on the day it is held against.
    pub was: Option<(Key, Craft, Conditions)>,
    /// What was learnt of it on that day, or nothing.
    pub fit: Fit,
    /// What was measured on the suspect day.
    pub seen: Vec<Measured>,
    /// The mean gap, where it was measured since.
    pub gap: Option<Measured>,
    /// What was measured on the day it is held against.
    pub before: Vec<Measured>,
    /// What somebody said the limiter is set to, `rad/s`.
    pub limiter: Option<f64>,
}

impl Case {
    fn of(job: &Job) -> Result<Self, Against> {
        let now = suspect(job).ok_or(Against::NotRun)?;
        let here = setup(job, Some(now.1)).map_err(Against::NoCraft)?;
        let then = reference(job, now.0);
        let was = then.and_then(|(_, state)| setup(job, Some(state)).ok());
        let shown = then.map(|(key, state)| says(job, key, state));
        let fit = was
            .as_ref()
            .and_then(|was| learn(was, &evidence_of(job, shown.as_ref())).ok());
        let seen = measured(job, &says(job, now.0, now.1));
        let said = job.choices.craft.as_ref();
        let gap = super::bench::gap(job);
        if seen.is_empty() && gap.is_none() {
            return Err(Against::NotRun);
        }
        let mut craft = here.craft;
        let known = then.map_or_else(Vec::new, |then| since(job, (then, now), &craft));
        for change in known {
            change.apply(&mut craft);
        }
        Ok(Self {
            craft,
            day: here.day,
            was: then
                .zip(was)
                .map(|((key, _), was)| (key.clone(), was.craft, was.day)),
            fit: fit.unwrap_or_else(nothing_learnt),
            seen,
            gap,
            before: shown.map_or_else(Vec::new, |shown| measured(job, &shown)),
            limiter: said.and_then(|facts| Some(facts.value.limiter.as_ref()?.value)),
        })
    }

    /// What should have been, and what each fault would have changed.
    ///
    /// # Errors
    /// Nothing was seen; too few beliefs plane.
    pub fn reckoned(&self) -> Result<Reckoned, Against> {
        let mut case = self.clone();
        case.seen.retain(|one| self.tells(one.observable));
        case.drawn_up()
    }

    /// Whether a quantity tells of faults. Against a mere description the engine's speed alone does; as a craft gathers way,
    /// where the model's shaft is without inertia, a reading does against a reading; and a time to just below the
    /// top speed tells of the day.
    fn tells(&self, of: Observable) -> bool {
        let top = |top: Option<&Measured>| top.map_or(f64::INFINITY, |top| top.value);
        let mut seen = self.seen.iter();
        match of {
            _ if self.was.is_none() => of == Observable::TopEngine,
            Observable::LaunchEngine | Observable::Passing(_) => self.before(of).is_some(),
            Observable::Start(to) => {
                let here = top(seen.find(|one| one.observable == Observable::TopSpeed));
                to < NEARLY_TOP * here.min(top(self.before(Observable::TopSpeed)))
            }
            _ => true,
        }
    }

    fn drawn_up(&self) -> Result<Reckoned, Against> {
        if self.seen.is_empty() && self.gap.is_none() {
            return Err(Against::Unreckoned);
        }
        let rows = self.rows();
        if rows.len() < ENOUGH {
            return Err(Against::Unreckoned);
        }
        let each = 0..self.seen.len();
        let compared: Vec<Compared> = each.map(|at| self.compare(&rows, at)).collect();
        let gap = self.gap.map(|gap| (gap, self.craft.pump.gap));
        let water = compared.iter().map(|one| self.difference(one));
        let bench = gap.iter().map(|(gap, should_be)| Seen {
            change: gap.value - should_be,
            uncertainty: gap.uncertainty,
        });
        Ok(Reckoned {
            against: match &self.was {
                Some((key, ..)) => Against::Run(key.clone()),
                None => Against::Description,
            },
            table: self
                .table(&rows, &compared)
                .map_err(|_| Against::Unreckoned)?,
            seen: water.chain(bench).map(Some).collect(),
            compared,
            gap,
        })
    }

    /// Every belief that planes, asked about every fault.
    fn rows(&self) -> Vec<Row> {
        let mut rows = Vec::new();
        for some in self.beliefs().chunks(DRAWS) {
            let asked = some.par_iter().filter_map(|draw| self.row(draw));
            rows.extend(asked.collect::<Vec<_>>());
            if rows.len() >= DRAWS {
                break;
            }
        }
        rows.truncate(DRAWS);
        rows
    }

    /// More beliefs than are asked. Where nothing was learnt from the run that the craft is held against, those come
    /// first that would have shown on it what was measured.
    fn beliefs(&self) -> Vec<Draw> {
        let mut all = draws(&self.fit, MOST * DRAWS);
        if let Some((_, craft, day)) = self.was.as_ref().filter(|_| self.fit.rounds == 0) {
            let apart = |draw: &Draw| {
                let shown = self.shown(draw, (craft, day), &[])?;
                let each = self.seen.iter().zip(&shown).filter_map(|(one, shown)| {
                    let before = self.before(one.observable)?;
                    let apart = on_scale(one.observable, *shown) - reckoned(before).0;
                    Some((apart / one.observable.base(before.value)).powi(2))
                });
                Some(each.sum::<f64>())
            };
            let apart: Vec<f64> = all
                .par_iter()
                .map(|draw| apart(draw).unwrap_or(f64::INFINITY))
                .collect();
            let mut order: Vec<usize> = (0..all.len()).collect();
            order.sort_by(|a, b| apart[*a].total_cmp(&apart[*b]));
            all = order.into_iter().map(|at| all[at]).collect();
        }
        all
    }

    fn row(&self, draw: &Draw) -> Option<Row> {
        let before = match &self.was {
            Some((_, craft, day)) => Some(self.shown(draw, (craft, day), &[])?),
            None => None,
        };
        let here = (&self.craft, &self.day);
        let well = self.shown(draw, here, &[])?;
        let ill = hypotheses().map(|(fault, severity)| {
            self.shown(draw, here, &changes(fault, severity, &self.craft))
        });
        Some(Row {
            before,
            well,
            ill: ill.collect(),
        })
    }

    /// What a belief sees of a craft with changes made to it.
    fn shown(
        &self,
        draw: &Draw,
        (craft, day): (&Craft, &Conditions),
        changes: &[Change],
    ) -> Option<Vec<f64>> {
        let mut craft = craft.clone();
        craft.unknowns = draw.unknowns;
        for change in changes {
            change.apply(&mut craft);
        }
        // It was timed, so it planes, if slowly.
        let run = run_of_planing(&craft, day).ok()?;
        let each = self.seen.iter();
        Some(each.map(|one| shows(&run, one.observable)).collect())
    }

    /// What the run it is held against measured of a quantity.
    fn before(&self, of: Observable) -> Option<&Measured> {
        self.before.iter().find(|one| one.observable == of)
    }

    /// What a belief expects of the quantity at a place, as it is reckoned with: the change it sees, on top of what the
    /// other run measured; where that did not measure it, the belief's own.
    fn expected(&self, row: &Row, at: usize) -> f64 {
        let of = self.seen[at].observable;
        match (self.before(of), &row.before) {
            (Some(measured), Some(before)) => moved(of, measured.value, [before[at], row.well[at]]),
            _ => on_scale(of, row.well[at]),
        }
    }

    fn compare(&self, rows: &[Row], at: usize) -> Compared {
        let seen = &self.seen[at];
        let of = seen.observable;
        let expected: Vec<f64> = rows.iter().map(|row| self.expected(row, at)).collect();
        let count = real(expected.len());
        let mean = expected.iter().sum::<f64>() / count;
        let square = expected.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / count;
        let before = self.before(of).map(reckoned);
        let engine = matches!(
            of,
            Observable::TopEngine | Observable::LaunchEngine | Observable::Passing(_)
        );
        let spread = square.sqrt().hypot(before.map_or(0.0, |one| one.1));
        let time = matches!(of, Observable::Start(_));
        Compared {
            seen: *seen,
            before: self.before(of).map(|one| one.value),
            expected: if time { mean.exp() } else { mean },
            on_scale: mean,
            spread: if time { mean.exp() * spread } else { spread },
            limited: engine && mean > LIMITED * self.craft.engine.limiter,
        }
    }

    fn difference(&self, compared: &Compared) -> Seen {
        let (value, uncertainty) = reckoned(&compared.seen);
        let before = self.before(compared.seen.observable).map(reckoned);
        Seen {
            change: value - compared.on_scale,
            uncertainty: uncertainty.hypot(before.map_or(0.0, |one| one.1)),
        }
    }

    fn table(&self, rows: &[Row], compared: &[Compared]) -> Result<Table, diagnosis::Error> {
        let quantities = self.quantities(compared);
        let days = days(&quantities, &self.unknown(compared, &quantities));
        let blurred = |one: Signature| one.blurred(&days).ok();
        let part = |times: f64, mut one: Signature| {
            one.share *= times;
            one
        };
        let mut signatures = Vec::new();
        let shown = rows.iter().map(|row| (row, &row.well));
        let nothing = (Fault::Nothing, 0.0);
        let nothing = self.signature(nothing, shown.collect(), compared);
        signatures.extend(nothing.and_then(blurred));
        for (at, hypothesis) in hypotheses().enumerate() {
            let shown = rows
                .iter()
                .filter_map(|row| Some((row, row.ill[at].as_ref()?)));
            let shown: Vec<(&Row, &Vec<f64>)> = shown.collect();
            // With what few beliefs get over the hump with, nobody timed anything.
            if 2 * shown.len() >= rows.len() {
                let own = self.signature(hypothesis, shown, compared);
                signatures.extend(own.map(|one| part(OWN, one)).and_then(blurred));
            }
        }
        let well = self.before.iter();
        let well: Vec<_> = well.map(|one| (one.observable, reckoned(one).0)).collect();
        let known = Known {
            well: &well,
            limiter: self.limiter,
        };
        let gap = |fault, severity| self.wider(fault, severity);
        let others = others(&quantities, &known, gap)?;
        let others = others.into_iter().map(|one| part(1.0 - OWN, one));
        signatures.extend(others.filter_map(blurred));
        Ok(Table { signatures })
    }

    /// What is told of, with how large it should be: the gap last.
    fn quantities(&self, compared: &[Compared]) -> Vec<(Observable, f64)> {
        let water = compared
            .iter()
            .map(|one| (one.seen.observable, one.on_scale));
        let gap = self.gap.map(|_| (Observable::Gap, self.craft.pump.gap));
        water.chain(gap).collect()
    }

    /// What more is not known of each where a craft is not held against a run of its own.
    fn unknown(&self, compared: &[Compared], quantities: &[(Observable, f64)]) -> Vec<f64> {
        let each = quantities.iter().enumerate();
        let each = each.map(|(at, (of, size))| match compared.get(at) {
            Some(one) if !self.is_known(one) => ALONE * of.base(*size),
            _ => 0.0,
        });
        each.collect()
    }

    /// Whether a quantity was measured on the run that the craft was learnt from.
    fn is_known(&self, one: &Compared) -> bool {
        one.before.is_some() && self.fit.rounds > 0
    }

    /// What a fault of one size shows, less what should be: each belief's, the gap last.
    fn signature(
        &self,
        (fault, severity): (Fault, f64),
        shown: Vec<(&Row, &Vec<f64>)>,
        compared: &[Compared],
    ) -> Option<Signature> {
        let gap = self.gap.map(|_| self.wider(fault, severity));
        let effects = shown.into_iter().map(|(row, ill)| {
            let water = compared.iter().enumerate().map(|(at, one)| {
                let of = one.seen.observable;
                let expected = self.expected(row, at);
                moved(of, off_scale(of, expected), [row.well[at], ill[at]]) - one.on_scale
            });
            water.chain(gap).collect::<Vec<f64>>()
        });
        let effects: Vec<Vec<f64>> = effects.collect();
        let mean = |at: usize| {
            effects.iter().map(|effects| effects[at]).sum::<f64>() / real(effects.len())
        };
        let quantities = self.quantities(compared);
        let means: Vec<f64> = (0..quantities.len()).map(mean).collect();
        let mut off = off(&quantities, &means);
        for (off, one) in off.iter_mut().zip(compared) {
            *off *= if self.is_known(one) { 1.0 } else { ALONE };
        }
        Signature::new((fault, severity), &effects, &off).ok()
    }

    /// By how much a fault opens the gap, `m`.
    fn wider(&self, fault: Fault, severity: f64) -> f64 {
        let changes = changes(fault, severity, &self.craft);
        let wide = changes.into_iter().find_map(|change| match change {
            Change::Gap(gap) => Some(gap - self.craft.pump.gap),
            _ => None,
        });
        wide.unwrap_or(0.0)
    }
}

/// Every fault in every size, but for what has none.
fn hypotheses() -> impl Iterator<Item = (Fault, f64)> {
    let sized = Fault::ALL.into_iter().filter(|fault| fault.has_severity());
    sized.flat_map(|fault| SEVERITIES.map(|severity| (fault, severity)))
}

/// The outing that the suspect one is held against: the one the craft is learnt from, or where that is the suspect itself,
/// the one before it.
fn reference<'a>(job: &'a Job, suspect: &Key) -> Option<Outing<'a>> {
    let learnt = outing(job).filter(|(key, _)| *key != suspect);
    learnt.or_else(|| {
        let all = job.trials.in_order(None);
        let at = all.iter().position(|(key, _)| *key == suspect)?;
        at.checked_sub(1).map(|before| all[before])
    })
}

/// What is known to have changed between two outings: an option that was taken, a gap that was.
fn since(job: &Job, ((_, then), (_, now)): (Outing<'_>, Outing<'_>), craft: &Craft) -> Vec<Change> {
    let between = |position: u64| position > then.since && position < now.since;
    let taken = job.choices.taken.as_ref();
    let taken = taken.filter(|fact| between(fact.position));
    let option = taken.and_then(|fact| job.choices.options.get(&fact.value.option));
    let mut changes = match (option, &job.choices.craft) {
        (Some(option), Some(facts)) => {
            let pair = (&facts.value.fitted, &option.fitting.value);
            changed(craft, pair).unwrap_or_default()
        }
        _ => Vec::new(),
    };
    let gap = job.accepted.as_ref();
    let gap = gap.filter(|fact| between(fact.position));
    let told = changes
        .iter()
        .any(|change| matches!(change, Change::Gap(_)));
    changes.extend(
        gap.filter(|_| !told)
            .map(|gap| Change::Gap(gap.value.mean.median)),
    );
    changes
}
