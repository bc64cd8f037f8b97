//! What every option will do against what is fitted now, and which to fit.

mod advice;
mod asked;
mod reasons;

use propulsion::Error;
use propulsion::calibrate::{Evidence, Fit, Poor, calibrate, nothing_learnt};
use propulsion::change::Change;
use propulsion::craft::Craft;
use propulsion::predict::Band;
use propulsion::unknown::{Unknown, Unknowns};
use quantity::{Unit, parse};

pub use advice::{Advice, Decides, Telling};
pub use reasons::{Cause, Reason};

use super::craft::{NoCraft, Setup, setup};
use super::seen::{evidence as seen_on, outing};
use super::{Fitting, Told, Want};
use crate::entry::Key;
use crate::job::Job;
use crate::water::outing::says;
use asked::Asked;

/// How many beliefs are asked.
pub const DRAWS: usize = 200;
/// The time of a start that is wished for where nobody said to which speed.
pub const START_TO: &str = "30 mph";

/// What the craft was learnt from.
#[derive(Clone, Debug)]
pub enum Learnt {
    /// Its runs say enough to predict by.
    Well(Box<Fit>),
    /// It has not been run: only differences, with wide bands.
    Nothing,
    /// Its runs and the model do not agree, so nothing is predicted.
    Poorly(Poor),
    /// The engine turned so slow a share of its rated speed that it was no full throttle.
    PartThrottle(f64),
    /// Its runs cannot be reckoned with.
    Refused(Error),
}

/// Why an option can't be held against what is fitted.
#[derive(Clone, Debug, PartialEq)]
pub enum Untold {
    /// Angles of different makers, or measured against stamped.
    OtherMaker,
    /// A part that cannot be reckoned with.
    Refused(Error),
    /// Too few beliefs have an answer with it: it may not get over its hump, or engine and pump do not meet.
    TooFew(usize),
}

/// What an option does.
#[derive(Clone, Debug)]
pub struct Does {
    /// Change of the engine's speed at full throttle, `rad/s`.
    pub engine: Band,
    /// Change of the top speed, `m/s`.
    pub speed: Band,
    /// Change of the time to the speed of the wish, `s`; none where launches can't be told.
    pub time: Option<Band>,
    /// How the engine leaves the line with it; none where launches can't be told.
    pub launch: Option<Launch>,
    /// Engine speed at full throttle with it, `rad/s`; none without a run of this craft.
    pub turns: Option<Band>,
    /// Chance that the engine is held by its limiter or turns faster than the manual wants.
    pub over: Option<f64>,
    /// Chance that it turns slower than the manual wants.
    pub lugs: Option<f64>,
    /// What it does most, first.
    pub reasons: Vec<Reason>,
    /// Its gain by the wish, as a share of what the craft does now: each belief's.
    scores: Vec<f64>,
    /// Its chance of being the best of all, what is fitted now among them.
    pub best: f64,
}

/// How the engine leaves the line, at 3 m/s.
#[derive(Clone, Copy, Debug)]
pub struct Launch {
    /// Change of its speed, `rad/s`.
    pub engine: Band,
    /// Chance that it flares up to its limiter.
    pub flares: f64,
    /// The same as it is fitted now.
    pub flared: f64,
}

/// An option with what can be said of it.
#[derive(Clone, Debug)]
pub struct OptionSays {
    /// Which.
    pub key: Key,
    /// What it does, or why that can't be said.
    pub does: Result<Does, Untold>,
}

/// What the craft does now, as far as its runs say.
#[derive(Clone, Debug)]
pub struct Now {
    /// Top speed, `m/s`.
    pub speed: Band,
    /// Engine speed at full throttle, `rad/s`.
    pub engine: Band,
    /// Time to the speed of the wish, `s`.
    pub time: Option<Band>,
    /// Thrust over speed, `m/s`, `N`.
    pub thrust: Vec<(f64, Band)>,
    /// Drag over speed, likewise.
    pub drag: Vec<(f64, Band)>,
}

/// The answer.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The craft, or why there is none.
    pub setup: Result<Setup, NoCraft>,
    /// The outing it was learnt from.
    pub outing: Option<Key>,
    /// What was learnt.
    pub learnt: Learnt,
    /// Starts can be told: a logged one was learnt from.
    pub launches: bool,
    /// What it does now; none without a run of it.
    pub now: Option<Now>,
    /// The options, best first.
    pub options: Vec<OptionSays>,
    /// Thrust with the first of them, over speed; none without a run of the craft.
    pub ahead: Option<Vec<(f64, Band)>>,
    /// Which to fit.
    pub advice: Advice,
    /// What is wished for.
    pub want: Want,
    /// The speed a start is timed to, `m/s`.
    pub to: f64,
    /// Names what it rests on.
    pub evidence: String,
}

impl Answer {
    /// What is put on record when a person takes an option, told in these words; none where nothing
    /// can be said of it.
    pub fn told(&self, option: &Key, words: String) -> Option<Told> {
        let says = self.options.iter().find(|says| says.key == *option)?;
        let does = says.does.as_ref().ok()?;
        let three = |band: &Band| [band.low, band.middle, band.high];
        Some(Told {
            option: option.clone(),
            evidence: self.evidence.clone(),
            words,
            engine: three(&does.engine),
            speed: three(&does.speed),
            time: does.time.as_ref().map(three),
            program: crate::PROGRAM.to_owned(),
        })
    }

    /// What something not on record would do, by fewer beliefs; none where nothing can be said of this
    /// craft. Stamps are taken to be of the maker of what is fitted.
    pub fn tried(&self, job: &Job, option: &Fitting) -> Option<Result<Does, Untold>> {
        let setup = self.setup.as_ref().ok()?;
        let nothing = nothing_learnt();
        let (fit, full) = match &self.learnt {
            Learnt::Well(fit) => (fit.as_ref(), true),
            Learnt::Nothing => (&nothing, false),
            Learnt::Poorly(_) | Learnt::PartThrottle(_) | Learnt::Refused(_) => return None,
        };
        let fitted = &job.choices.craft.as_ref()?.value.fitted;
        let option = Fitting {
            angles: fitted.angles,
            maker: "as fitted".to_owned(),
            radius: fitted.radius.clone(),
            ..option.clone()
        };
        let as_fitted = Fitting {
            maker: "as fitted".to_owned(),
            ..fitted.clone()
        };
        let asked = Asked {
            job,
            fitted: &as_fitted,
            setup,
            fit,
            full,
            launches: self.launches,
            want: self.want,
            to: self.to,
        };
        Some(asked.one(&option))
    }
}

/// The part of a job that the answer is drawn from.
pub fn inputs(job: &Job) -> Job {
    let mut inputs = Job {
        title: job.title.clone(),
        leaves: job.leaves.clone(),
        pump: job.pump.clone(),
        accepted: job.accepted.clone(),
        trials: job.trials.clone(),
        choices: job.choices.clone(),
        ..Job::default()
    };
    inputs.inspected.sizes.clone_from(&job.inspected.sizes);
    inputs
}

/// What every option will do.
pub fn answer(job: &Job) -> Answer {
    let wish = job.choices.wish.as_ref().map(|fact| &fact.value);
    let to = wish.and_then(|wish| wish.to.as_ref()).map(|to| to.value);
    let default = || parse(START_TO, Unit::MilePerHour).map_or(f64::NAN, |to| to.value);
    let outing = outing(job);
    let mut answer = Answer {
        setup: setup(job, outing.map(|(_, state)| state)),
        outing: outing.map(|(key, _)| key.clone()),
        learnt: Learnt::Nothing,
        launches: false,
        now: None,
        options: Vec::new(),
        ahead: None,
        advice: Advice::NoOptions,
        want: wish.map_or(Want::Both, |wish| wish.want),
        to: to.unwrap_or_else(default),
        evidence: super::evidence(job),
    };
    let Ok(setup) = &answer.setup else {
        answer.advice = Advice::NoCraft;
        return answer;
    };
    let seen = outing.map(|(key, state)| says(job, key, state));
    let seen = seen_on(job, seen.as_ref());
    let full = !seen.plateaus.is_empty() || !seen.starts.is_empty();
    let fit = if full {
        learn(setup, &seen)
    } else {
        Ok(nothing_learnt())
    };
    let fit = match fit {
        Ok(fit) => fit,
        Err(learnt) => {
            answer.learnt = learnt;
            answer.advice = Advice::Unlearnt;
            return answer;
        }
    };
    answer.launches = !seen.starts.is_empty() && fit.has_learnt(Unknown::Breakdown);
    let craft = job.choices.craft.as_ref();
    let plain = Fitting::default();
    let asked = Asked {
        job,
        fitted: craft.map_or(&plain, |fact| &fact.value.fitted),
        setup,
        fit: &fit,
        full,
        launches: answer.launches,
        want: answer.want,
        to: answer.to,
    };
    (answer.now, answer.options, answer.advice) = asked.all();
    answer.ahead = asked.ahead(&answer.options);
    if full {
        answer.learnt = Learnt::Well(Box::new(fit));
    }
    answer
}

/// The craft as its runs have it, or why they teach nothing.
pub(crate) fn learn(setup: &Setup, seen: &Evidence) -> Result<Fit, Learnt> {
    if let Some(share) = throttled(seen, setup) {
        return Err(Learnt::PartThrottle(share));
    }
    let fit = calibrate(&setup.craft, &setup.day, seen).map_err(Learnt::Refused)?;
    fit.poor().map_or(Ok(fit), |poor| Err(Learnt::Poorly(poor)))
}

/// What an option changes of a craft, its angles as told.
pub(crate) fn changed(craft: &Craft, fittings: (&Fitting, &Fitting)) -> Result<Vec<Change>, Error> {
    asked::changes(craft, fittings, &asked::as_told(Unknowns::expected()))
}

/// Below this share of its rated speed an engine was not run at full throttle, or is not well: common
/// practice, no source.
const FULL: f64 = 0.85;

/// How slow the engine was at what is called full throttle, where it was too slow to be.
fn throttled(seen: &Evidence, setup: &Setup) -> Option<f64> {
    let engines = seen.plateaus.iter().filter_map(|plateau| plateau.engine);
    let share = engines.map(|[engine, _]| engine / setup.craft.engine.rated);
    let mut share = share;
    share.find(|share| *share < FULL)
}

/// A count as a number to compute with.
#[expect(clippy::cast_precision_loss, reason = "a few hundred draws")]
pub(crate) fn real(count: usize) -> f64 {
    count as f64
}
