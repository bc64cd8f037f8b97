//! What was seen of a craft, and how far a reckoned craft is from it.

use crate::Error;
use crate::craft::{Conditions, Craft};
use crate::error::within;
use crate::matching::part_throttle;
use crate::run::{Run, run_of_planing};

/// One reading while the craft gathers way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Time since about when the throttle was opened, `s`.
    pub time: f64,
    /// Speed, `m/s`.
    pub speed: f64,
    /// Engine speed, `rad/s`.
    pub engine: Option<f64>,
}

/// A full-throttle run from rest.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Start {
    /// Readings in the order of time.
    pub readings: Vec<Reading>,
}

/// Speed and engine speed held at full throttle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plateau {
    /// Speed through the water with its standard uncertainty, `m/s`.
    pub speed: Option<[f64; 2]>,
    /// Engine speed with its standard uncertainty, `rad/s`.
    pub engine: Option<[f64; 2]>,
}

/// A time from rest to a speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timed {
    /// The speed, `m/s`.
    pub speed: f64,
    /// The time with its standard uncertainty, `s`.
    pub time: [f64; 2],
}

/// Speed and engine speed held at part throttle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steady {
    /// Speed, `m/s`.
    pub speed: f64,
    /// Engine speed, `rad/s`.
    pub engine: f64,
}

/// Pull on a rope at part throttle, tied up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Engine speed, `rad/s`.
    pub engine: f64,
    /// Pull, `N`.
    pub force: f64,
}

/// All that was seen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// Runs from rest.
    pub starts: Vec<Start>,
    /// Full throttle held.
    pub plateaus: Vec<Plateau>,
    /// Times from rest, where no log was kept.
    pub timed: Vec<Timed>,
    /// Part throttle held.
    pub steadies: Vec<Steady>,
    /// Pulls on a rope.
    pub pulls: Vec<Pull>,
}

/// One thing seen less the same thing reckoned, over its uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Residual {
    /// Over the uncertainty.
    pub(crate) value: f64,
    /// The uncertainty, in SI.
    pub(crate) unit: f64,
    /// Of what.
    pub(crate) of: Of,
}

impl Residual {
    /// One of many, a few of which may be odd.
    pub(crate) fn many(&self) -> bool {
        matches!(self.of, Of::Way(_) | Of::WayEngine(_))
    }
}

/// What a residual is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Of {
    /// Speed in a start, at a time.
    Way(f64),
    /// Engine speed in a start, at a time.
    WayEngine(f64),
    /// Speed held at full throttle.
    Top,
    /// Engine speed held at full throttle.
    TopEngine,
    /// Anything else.
    Other,
}

/// Standard uncertainty of a speed in a start, receiver and model together, `m/s`: assumed, no source.
const SPEED: f64 = 0.3;
/// Of an engine speed in a start, `rad/s`: assumed, no source.
const ENGINE: f64 = 8.0;
/// Readings within this time share their error, `s`: assumed, no source.
const SHARED: f64 = 0.5;
/// Before this the engine is still gathering speed itself, `s`: common practice, no source.
const SPINNING_UP: f64 = 1.0;
/// Standard uncertainty of when the throttle was opened, `s`: assumed, no source.
const OPENED: f64 = 0.3;
/// Of the engine speed at part throttle, for a speed held, `rad/s`: assumed, no source.
const PART: f64 = 4.0;
/// Of a pull, of its size: assumed, no source.
const PULL: f64 = 0.05;
/// The model is trusted no closer than this at the top, `m/s`, `rad/s`: assumed, no source.
const TOP: [f64; 2] = [0.15, 2.0];
/// Nor with a time, `s`.
const TIME: f64 = 0.1;

impl Evidence {
    /// Refuses evidence that cannot be of this craft.
    pub(crate) fn check(&self, craft: &Craft) -> Result<(), Error> {
        if self.starts.is_empty() && self.plateaus.is_empty() {
            return Err(Error::NoBalance {
                what: "a run at full throttle and the craft: there is no such run",
                low: 0.0,
                high: 0.0,
            });
        }
        for start in &self.starts {
            #[expect(clippy::cast_precision_loss, reason = "a few hundred readings")]
            within("readings of a start", start.readings.len() as f64, 2.0, 1e5)?;
        }
        let limiter = craft.engine.limiter;
        for plateau in &self.plateaus {
            if let Some([engine, _]) = plateau.engine {
                within(
                    "engine speed at full throttle",
                    engine,
                    0.4 * limiter,
                    1.03 * limiter,
                )?;
            }
            if let Some([speed, _]) = plateau.speed {
                within("speed at full throttle", speed, 5.0, crate::drag::FASTEST)?;
            }
        }
        for engine in self.steadies.iter().map(|one| one.engine) {
            within("engine speed at part throttle", engine, 50.0, limiter)?;
        }
        for engine in self.pulls.iter().map(|one| one.engine) {
            within("engine speed of a pull", engine, 50.0, limiter)?;
        }
        Ok(())
    }
}

/// How far a reckoned craft is from what was seen. `opened` is when the throttle of each start was, in
/// spreads of its prior.
pub(crate) fn residuals(
    craft: &Craft,
    day: &Conditions,
    evidence: &Evidence,
    opened: &[f64],
) -> Result<Vec<Residual>, Error> {
    let run = run_of_planing(craft, day)?;
    let mut all = Vec::new();
    for (start, opened) in evidence.starts.iter().zip(opened) {
        way(&run, start, OPENED * opened, &mut all);
    }
    for plateau in &evidence.plateaus {
        let [least_speed, least_engine] = TOP;
        let mut add = |seen: Option<[f64; 2]>, ours: f64, least: f64, of: Of| {
            if let Some([value, uncertainty]) = seen {
                let unit = uncertainty.hypot(least);
                let value = (value - ours) / unit;
                all.push(Residual { value, unit, of });
            }
        };
        add(plateau.speed, run.top.speed, least_speed, Of::Top);
        add(plateau.engine, run.top.engine, least_engine, Of::TopEngine);
    }
    for timed in &evidence.timed {
        let [time, uncertainty] = timed.time;
        // Not reached counts as very late.
        let ours = run.time_to(timed.speed).unwrap_or(3.0 * time + 10.0);
        let unit = uncertainty.hypot(TIME);
        all.push(Residual {
            value: (time - ours) / unit,
            unit,
            of: Of::Other,
        });
    }
    for steady in &evidence.steadies {
        let point = part_throttle(craft, day, steady.speed, steady.engine)?;
        let turned = part_throttle(craft, day, steady.speed, 0.99 * steady.engine)?;
        let slope = (point.thrust - turned.thrust) / (0.01 * steady.engine);
        let lack = craft.resistance(day, steady.speed) - point.thrust;
        all.push(Residual {
            value: lack / slope / PART,
            unit: PART,
            of: Of::Other,
        });
    }
    for pull in &evidence.pulls {
        let point = part_throttle(craft, day, 0.0, pull.engine)?;
        let unit = PULL * pull.force;
        all.push(Residual {
            value: (pull.force - point.thrust) / unit,
            unit,
            of: Of::Other,
        });
    }
    Ok(all)
}

fn way(run: &Run, start: &Start, opened: f64, all: &mut Vec<Residual>) {
    let readings = &start.readings;
    let span = readings.last().map_or(0.0, |last| last.time) - readings[0].time;
    #[expect(clippy::cast_precision_loss, reason = "a few hundred readings")]
    let each = span / (readings.len().max(2) - 1) as f64;
    // So many readings share one error.
    let shared = (SHARED / each).max(1.0).sqrt();
    for reading in readings {
        let [speed, engine] = run.state_at(reading.time - opened);
        all.push(Residual {
            value: (reading.speed - speed) / (SPEED * shared),
            unit: SPEED * shared,
            of: Of::Way(reading.time),
        });
        if let Some(seen) = reading.engine.filter(|_| reading.time > SPINNING_UP) {
            all.push(Residual {
                value: (seen - engine) / (ENGINE * shared),
                unit: ENGINE * shared,
                of: Of::WayEngine(reading.time),
            });
        }
    }
}

/// What is left, told in SI.
pub(crate) fn left(residuals: &[Residual]) -> super::Left {
    let worst = |kind: fn(&Of) -> bool| {
        let mine = residuals.iter().filter(|residual| kind(&residual.of));
        mine.map(|residual| (residual.value * residual.unit).abs())
            .fold(0.0, f64::max)
    };
    let seconds = |kind: fn(&Of) -> Option<f64>| {
        let mut blocks: Vec<(i64, f64, f64)> = Vec::new();
        for residual in residuals {
            let Some(time) = kind(&residual.of) else {
                continue;
            };
            #[expect(clippy::cast_possible_truncation, reason = "seconds of a run")]
            let second = time.floor() as i64;
            let off = residual.value * residual.unit;
            match blocks.last_mut().filter(|block| block.0 == second) {
                Some(block) => {
                    block.1 += off;
                    block.2 += 1.0;
                }
                None => blocks.push((second, off, 1.0)),
            }
        }
        #[expect(clippy::cast_precision_loss, reason = "a few hundred seconds")]
        let count = blocks.len().max(1) as f64;
        let squares = blocks.iter().map(|(_, sum, count)| (sum / count).powi(2));
        (squares.sum::<f64>() / count).sqrt()
    };
    super::Left {
        speed: seconds(|of| match of {
            Of::Way(time) => Some(*time),
            _ => None,
        }),
        engine: seconds(|of| match of {
            Of::WayEngine(time) => Some(*time),
            _ => None,
        }),
        top_speed: worst(|of| matches!(of, Of::Top)),
        top_engine: worst(|of| matches!(of, Of::TopEngine)),
    }
}
