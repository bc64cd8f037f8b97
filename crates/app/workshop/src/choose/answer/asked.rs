//! Many beliefs of a craft, each asked about every option.

use propulsion::Error;
use propulsion::budget::budget;
use propulsion::calibrate::Fit;
use propulsion::change::Change;
use propulsion::craft::Craft;
use propulsion::observe::{Observed, observe};
use propulsion::predict::{
    Band, Draw, GAP, Reach, SHAPE, SHAPE_UNLEARNT, SPARE, band, believed, draws,
};
use propulsion::run::{Run, run, run_of_planing};
use propulsion::unknown::Unknowns;
use rayon::prelude::*;

use super::advice::{self, Advice};
use super::reasons::{Reason, reasons};
use super::{DRAWS, Does, Launch, Now, OptionSays, Untold, real};
use crate::choose::craft::{CUP_SPREAD, Setup, blades};
use crate::choose::{Angles, Fitting, Want};
use crate::entry::Key;
use crate::job::Job;

/// So many times more are looked through for those that plane.
const MOST: usize = 4;
/// How many are asked while a slider moves.
const QUICK: usize = 60;
/// How many of them are drawn as curves, and up to which speed in m/s.
const DRAWN: usize = 60;
const FASTEST: u8 = 45;
/// Fewer with an answer are none, and fewer than half.
const ENOUGH: usize = 20;
/// How far an angle measured at the bench, or told by a stamp, may be off, `rad`: assumed, no source.
const MEASURED: f64 = 0.5_f64.to_radians();
const STAMPED: f64 = 0.3_f64.to_radians();
/// One question with all that it rests on.
pub(super) struct Asked<'a> {
    pub(super) job: &'a Job,
    /// What was fitted when it was run.
    pub(super) fitted: &'a Fitting,
    pub(super) setup: &'a Setup,
    pub(super) fit: &'a Fit,
    pub(super) full: bool,
    pub(super) launches: bool,
    pub(super) want: Want,
    pub(super) to: f64,
}

/// What one belief sees: as fitted now, and with every option.
struct Row {
    now: Observed,
    with: Vec<Option<Observed>>,
}

impl Asked<'_> {
    pub(super) fn all(&self) -> (Option<Now>, Vec<OptionSays>, Advice) {
        let fitted = self.fitted;
        let named = self.job.choices.in_order();
        let options: Vec<(&Key, &Fitting)> = (named.iter())
            .map(|(key, state)| (*key, &state.fitting.value))
            .collect();
        let fittings: Vec<&Fitting> = options.iter().map(|(_, option)| *option).collect();
        let rows = self.rows(DRAWS, &fittings);
        let now = self.now(&rows);
        let mut told: Vec<OptionSays> = options
            .iter()
            .enumerate()
            .map(|(place, (key, option))| OptionSays {
                key: (*key).clone(),
                does: self.does(place, (fitted, option), &rows),
            })
            .collect();
        let beliefs: Vec<Draw> = rows.iter().map(|(_, draw)| *draw).collect();
        let advice = advice::advise(&mut told, &beliefs, self.want, self.launches);
        (now, told, advice)
    }

    /// What one option alone does, asked of fewer beliefs so that it follows a finger.
    pub(super) fn one(&self, option: &Fitting) -> Result<Does, Untold> {
        let rows = self.rows(QUICK, &[option]);
        self.does(0, (self.fitted, option), &rows)
    }

    /// What so many beliefs see. A craft that was run, or is to be, planes: beliefs of one that does not
    /// are passed over.
    fn rows(&self, count: usize, options: &[&Fitting]) -> Vec<(Row, Draw)> {
        let mut rows = Vec::new();
        for some in draws(self.fit, MOST * count).chunks(count) {
            let seen = some
                .par_iter()
                .filter_map(|draw| Some((self.row(draw, options)?, *draw)));
            rows.extend(seen.collect::<Vec<_>>());
            if rows.len() >= count {
                break;
            }
        }
        rows.truncate(count);
        rows
    }

    /// The craft as a belief has it, with changes made to it.
    fn believed(&self, unknowns: Unknowns, changes: &[Change]) -> Craft {
        let mut craft = self.setup.craft.clone();
        craft.unknowns = unknowns;
        for change in changes {
            change.apply(&mut craft);
        }
        craft
    }

    fn row(&self, draw: &Draw, options: &[&Fitting]) -> Option<Row> {
        let observe = |changes: &[Change]| {
            let craft = self.believed(draw.unknowns, changes);
            observe(&craft, &self.setup.day, &[self.to]).ok()
        };
        let now = observe(&[])?;
        let with = options.iter().map(|option| {
            let changes = changes(&self.setup.craft, (self.fitted, option), draw).ok()?;
            observe(&changes)
        });
        Some(Row {
            now,
            with: with.collect(),
        })
    }

    fn now(&self, rows: &[(Row, Draw)]) -> Option<Now> {
        if !self.full {
            return None;
        }
        let of = |pick: &dyn Fn(&Observed) -> Option<f64>| -> Option<Band> {
            let values: Vec<f64> = rows.iter().filter_map(|(row, _)| pick(&row.now)).collect();
            believed(&values).ok()
        };
        Some(Now {
            speed: of(&|seen| Some(seen.top_speed))?,
            engine: of(&|seen| Some(seen.top_engine))?,
            time: self.launches.then(|| of(&|seen| seen.times[0])).flatten(),
            thrust: self.curve(&[], Run::thrust_at),
            drag: self.curve(&[], Run::drag_at),
        })
    }

    /// Something over speed, up to where the fastest belief goes.
    fn curve(&self, changes: &[Change], of: fn(&Run, f64) -> f64) -> Vec<(f64, Band)> {
        let runs: Vec<Run> = draws(self.fit, DRAWN)
            .into_par_iter()
            .filter_map(|draw| {
                let craft = self.believed(draw.unknowns, changes);
                run(&craft, &self.setup.day).ok()
            })
            .collect();
        let speeds = (0..=FASTEST).map(f64::from);
        let point = |speed: f64| {
            let there = runs.iter().filter(|run| run.top.speed >= speed);
            let values: Vec<f64> = there.map(|run| of(run, speed)).collect();
            // Where most beliefs do not come to, nothing is drawn.
            if 2 * values.len() < runs.len() {
                return None;
            }
            Some((speed, believed(&values).ok()?))
        };
        speeds.filter_map(point).collect()
    }

    /// Thrust with the option that comes first.
    pub(super) fn ahead(&self, options: &[OptionSays]) -> Option<Vec<(f64, Band)>> {
        let first = options.first().filter(|_| self.full)?;
        first.does.as_ref().ok()?;
        let option = self.job.choices.options.get(&first.key)?;
        let still = as_told(self.fit.best);
        let pair = (self.fitted, &option.fitting.value);
        let changes = changes(&self.setup.craft, pair, &still).ok()?;
        Some(self.curve(&changes, Run::thrust_at))
    }

    fn does(
        &self,
        place: usize,
        (fitted, option): (&Fitting, &Fitting),
        rows: &[(Row, Draw)],
    ) -> Result<Does, Untold> {
        if !comparable(fitted, option) {
            return Err(Untold::OtherMaker);
        }
        let still = as_told(self.fit.best);
        let mid = changes(&self.setup.craft, (fitted, option), &still).map_err(Untold::Refused)?;
        self.check(&mid)?;
        let pairs: Vec<(&Observed, &Observed)> = rows
            .iter()
            .filter_map(|(row, _)| Some((&row.now, row.with[place].as_ref()?)))
            .collect();
        let enough = ENOUGH.max(rows.len() / 2);
        if pairs.len() < enough {
            return Err(Untold::TooFew(pairs.len()));
        }
        let turns = self.turns(&mid);
        let told = |pick: fn(&Observed) -> f64, shape: f64| {
            let differences: Vec<f64> = pairs.iter().map(|(a, b)| pick(b) - pick(a)).collect();
            let size = pairs.iter().map(|(a, _)| pick(a)).sum::<f64>() / real(pairs.len());
            band(&differences, Reach { size, turns }, shape)
                .map_err(|_| Untold::TooFew(pairs.len()))
        };
        let timed: Vec<(f64, f64)> = pairs
            .iter()
            .filter_map(|(a, b)| Some((a.times[0]?, b.times[0]?)))
            .collect();
        let time = (self.launches && timed.len() >= enough).then(|| {
            let differences: Vec<f64> = timed.iter().map(|(a, b)| b - a).collect();
            let size = timed.iter().map(|(a, _)| a).sum::<f64>() / real(timed.len());
            band(&differences, Reach { size, turns }, self.shape(2)).ok()
        });
        let engine = told(|seen| seen.top_engine, self.shape(1))?;
        let share = |out: &dyn Fn(&Observed) -> bool| {
            let many = pairs.iter().filter(|(_, with)| out(with)).count();
            real(many) / real(pairs.len())
        };
        let wanted = self.setup.wanted;
        let over = share(&|seen: &Observed| {
            seen.limited || wanted.is_some_and(|[_, most]| seen.top_engine > most)
        });
        let lugs =
            share(&|seen: &Observed| wanted.is_some_and(|[least, _]| seen.top_engine < least));
        let centre = pairs.iter().map(|(a, _)| a.top_engine).sum::<f64>() / real(pairs.len());
        let scores = rows.iter().map(|(row, _)| self.score(row, place));
        Ok(Does {
            speed: told(|seen| seen.top_speed, self.shape(0))?,
            time: time.flatten(),
            launch: self.launch(&pairs, turns)?,
            turns: self.full.then_some(Band {
                low: centre + engine.low,
                middle: centre + engine.middle,
                high: centre + engine.high,
            }),
            engine,
            over: self.full.then_some(over),
            lugs: (self.full && wanted.is_some()).then_some(lugs),
            reasons: self.reasons(&mid),
            scores: scores.collect(),
            best: 0.0,
        })
    }

    /// How the engine leaves the line, where that can be told.
    fn launch(
        &self,
        pairs: &[(&Observed, &Observed)],
        turns: f64,
    ) -> Result<Option<Launch>, Untold> {
        if !self.launches {
            return Ok(None);
        }
        let count = real(pairs.len());
        let share = |pick: fn(&(&Observed, &Observed)) -> bool| {
            real(pairs.iter().filter(|pair| pick(pair)).count()) / count
        };
        let differences = pairs.iter().map(|(a, b)| b.launch_engine - a.launch_engine);
        let reach = Reach {
            size: pairs.iter().map(|(a, _)| a.launch_engine).sum::<f64>() / count,
            turns,
        };
        let engine = band(&differences.collect::<Vec<f64>>(), reach, self.shape(1));
        Ok(Some(Launch {
            engine: engine.map_err(|_| Untold::TooFew(pairs.len()))?,
            flares: share(|(_, with)| with.launch_limited),
            flared: share(|(now, _)| now.launch_limited),
        }))
    }

    /// Refuses parts that the model does not hold for, with the reason a person can act on.
    fn check(&self, changes: &[Change]) -> Result<(), Untold> {
        let craft = self.believed(self.fit.best, changes);
        craft.check().map_err(Untold::Refused)
    }

    /// How far each change alone moves the engine's speed, added up without sign.
    fn turns(&self, changes: &[Change]) -> f64 {
        let craft = self.believed(self.fit.best, &[]);
        let top = |craft: &Craft| Some(run_of_planing(craft, &self.setup.day).ok()?.top.engine);
        let Some(now) = top(&craft) else {
            return 0.0;
        };
        let each = changes.iter().filter_map(|change| top(&change.on(&craft)));
        let turned: f64 = each.map(|with| (with / now - 1.0).abs()).sum();
        let gaps = changes.iter().map(|change| match change {
            Change::Gap(gap) => GAP * (gap - craft.pump.gap).abs() / craft.pump.height(),
            _ => 0.0,
        });
        turned + gaps.sum::<f64>()
    }

    fn shape(&self, at: usize) -> f64 {
        if self.full {
            SHAPE[at]
        } else {
            SHAPE_UNLEARNT[at]
        }
    }

    /// The gain of an option by the wish, as a share; what does not get going loses all.
    fn score(&self, row: &Row, place: usize) -> f64 {
        let Some(with) = &row.with[place] else {
            return -1.0;
        };
        let speed = with.top_speed / row.now.top_speed - 1.0;
        let pull = match (row.now.times[0], with.times[0]) {
            (Some(now), Some(with)) => 1.0 - with / now,
            (None, Some(_)) => 1.0,
            (Some(_), None) => -1.0,
            (None, None) => 0.0,
        };
        match self.want {
            Want::Pull => pull,
            Want::Both if self.launches => f64::midpoint(speed, pull),
            Want::Speed | Want::Both => speed,
        }
    }

    fn reasons(&self, changes: &[Change]) -> Vec<Reason> {
        let craft = self.believed(self.fit.best, &[]);
        let other = self.believed(self.fit.best, changes);
        let day = &self.setup.day;
        let (now, with) = (run_of_planing(&craft, day), run_of_planing(&other, day));
        let (Ok(now), Ok(with)) = (now, with) else {
            return Vec::new();
        };
        let off_the_line = self.want == Want::Pull && self.launches;
        let point = |run: &Run| {
            let half = run.points.iter().find(|point| point.speed >= 0.5 * self.to);
            *half.filter(|_| off_the_line).unwrap_or(&run.top)
        };
        reasons(
            &budget(&craft, day, &point(&now)),
            &budget(&other, day, &point(&with)),
        )
    }
}

/// Whether a fitting says something of an impeller.
fn has_impeller(fitting: &Fitting) -> bool {
    fitting.leading.is_some() || fitting.trailing.is_some() || fitting.blades.is_some()
}

/// Stamped angles hold within one maker only.
fn comparable(fitted: &Fitting, option: &Fitting) -> bool {
    if option.leading.is_none() && option.trailing.is_none() {
        return true;
    }
    let stamped = |fitting: &Fitting| fitting.angles != Some(Angles::Measured);
    match (stamped(fitted), stamped(option)) {
        (false, false) => true,
        (true, true) => {
            let maker = |fitting: &Fitting| fitting.maker.trim().to_lowercase();
            !maker(option).is_empty() && maker(fitted) == maker(option)
        }
        _ => false,
    }
}

/// A belief that takes every angle as it was told.
pub(super) fn as_told(unknowns: Unknowns) -> Draw {
    Draw {
        unknowns,
        spare: [0.0; SPARE],
    }
}

/// What an option changes, with a belief's errors of its angles.
pub(super) fn changes(
    craft: &Craft,
    (fitted, option): (&Fitting, &Fitting),
    draw: &Draw,
) -> Result<Vec<Change>, Error> {
    let mut changes = Vec::new();
    let cupped = option
        .cup
        .is_some_and(|cup| cup != fitted.cup.unwrap_or(false));
    if has_impeller(option) || option.hub.is_some() || cupped {
        let mut blades = blades(option, &craft.pump, Some((fitted, &craft.pump.blades)))?;
        let error = match option.angles {
            Some(Angles::Measured) => MEASURED * std::f64::consts::SQRT_2,
            _ => STAMPED * std::f64::consts::SQRT_2,
        };
        if option.leading.is_some() {
            blades.leading += error * draw.spare[0];
        }
        if option.trailing.is_some() {
            blades.trailing += error * draw.spare[1];
        }
        if cupped {
            blades.trailing += CUP_SPREAD * draw.spare[2];
        }
        let hub = option.hub.as_ref();
        changes.push(Change::Impeller {
            blades,
            hub: hub.map_or(craft.pump.hub, |hub| hub.value / craft.pump.diameter),
        });
    }
    changes.extend(option.gap.as_ref().map(|gap| Change::Gap(gap.value)));
    changes.extend(
        option
            .nozzle
            .as_ref()
            .map(|bore| Change::Nozzle(bore.value)),
    );
    Ok(changes)
}
