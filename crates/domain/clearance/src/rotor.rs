//! Play and runout of the rotor, by dial indicator, and what they do to the gap.

use crate::error::{finite, not_negative, positive, within};
use crate::{Band, Error, Estimated, Interval, Verdict, verdict};

/// A dial read with the rotor pushed one way and then the other.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `one` | pushed one way: up, or aft | `m` |
/// | `other` | pushed the other way: down, or forward | `m` |
/// | `uncertainty` | standard uncertainty of one reading | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pushed {
    /// Pushed one way.
    pub one: f64,
    /// Pushed the other way.
    pub other: f64,
    /// Standard uncertainty of one reading.
    pub uncertainty: f64,
}

/// End float, or radial play: all the rotor can move between the two pushes.
///
/// `p = |one - other|`, `u_p = u sqrt 2`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `pushed` | one, other, u | readings of one dial left in place | `m` |
/// | returns | p | whole travel, with its uncertainty | `m` |
///
/// Range: finite readings, `u >= 0`. The push of a hand takes up play, not the give of a bearing.
/// Source: definition; `jcgm-100`, equation 10.
///
/// # Errors
/// [`Error::Outside`], [`Error::Negative`].
pub fn play(pushed: &Pushed) -> Result<Estimated, Error> {
    let one = finite("a reading of the dial", pushed.one)?;
    let other = finite("a reading of the dial", pushed.other)?;
    let each = not_negative("the uncertainty of a reading", pushed.uncertainty)?;
    Ok(Estimated {
        value: (one - other).abs(),
        uncertainty: each * std::f64::consts::SQRT_2,
    })
}

/// Where in its play the rotor stood while the gap was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Posture {
    /// Hanging down in its play, as it does by itself.
    Down,
    /// In the middle.
    Middle,
    /// Lifted.
    Up,
}

/// The gap at one spot if the rotor stood in the middle of its play.
///
/// `g_m = g + s p / 2 cos(t)`, s = 1 when it was lifted, -1 when it hung
///
/// At the top and at the bottom the play is half of it each way: hanging, the bottom reads half the
/// play too small and the top half of it too large.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `gap` | g | as read | `m` |
/// | `angle` | t | of the spot, from the top | `rad` |
/// | `play` | p | radial play at the impeller | `m` |
/// | `posture` | s | how the rotor stood | |
/// | returns | `g_m` | the rotor in the middle | `m` |
///
/// Range: play small beside the radius (left out: its square over the diameter of the ring).
/// Source: definition.
///
/// # Errors
/// [`Error::Outside`], [`Error::Negative`].
pub fn centred(gap: f64, angle: f64, play: f64, posture: Posture) -> Result<f64, Error> {
    let half = 0.5 * not_negative("the radial play", play)?;
    let lifted = match posture {
        Posture::Down => -half,
        Posture::Middle => 0.0,
        Posture::Up => half,
    };
    Ok(finite("the gap", gap)? + lifted * finite("the clock angle", angle)?.cos())
}

/// Runout of a shaft at one station.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `station` | place along the shaft | `m` |
/// | `total` | total indicator reading over one turn | `m` |
/// | `high` | angle on the shaft of the high spot, from a mark | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Runout {
    /// Place along the shaft.
    pub station: f64,
    /// Total indicator reading over one turn.
    pub total: f64,
    /// Angle on the shaft of the high spot.
    pub high: f64,
}

/// Where the centre of the shaft runs at a place along it.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `eccentricity` | distance from the axis of turning | `m` |
/// | `angle` | on the shaft, from the mark | `rad` |
/// | `tilt` | of the shaft's own axis | `rad` |
/// | `tilt_angle` | towards which the shaft leans with rising station | `rad` |
/// | `uncertainty` | standard uncertainty of the eccentricity along its own direction | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Runs {
    /// Distance from the axis of turning.
    pub eccentricity: f64,
    /// On the shaft, from the mark.
    pub angle: f64,
    /// Of the shaft's own axis.
    pub tilt: f64,
    /// Towards which the shaft leans.
    pub tilt_angle: f64,
    /// Standard uncertainty of the eccentricity.
    pub uncertainty: f64,
}

/// Eccentricity at the impeller from the runout at two stations.
///
/// `e = TIR / 2` at the angle of the high spot; `e(z) = e1 + (e2 - e1) (z - z1) / (z2 - z1)`, as vectors
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `first`, `second` | z, TIR | the two stations | |
/// | `at` | z | station of the impeller | `m` |
/// | `uncertainty` | | standard uncertainty of a total indicator reading | `m` |
///
/// Range: two different stations, readings of zero or more; a straight and round shaft between.
/// Source: definition; `jcgm-100`, equation 10.
///
/// # Errors
/// [`Error::Negative`], [`Error::Outside`]; [`Error::NotPositive`] for stations at one place.
pub fn runs(first: Runout, second: Runout, at: f64, uncertainty: f64) -> Result<Runs, Error> {
    let share = share(first, second, at)?;
    let each = 0.5 * not_negative("the uncertainty of a runout", uncertainty)?;
    let vector = |runout: Runout| -> Result<(f64, f64), Error> {
        let half = 0.5 * runout.total;
        let high = finite("the angle of a high spot", runout.high)?;
        Ok((half * high.cos(), half * high.sin()))
    };
    let (a, b) = (vector(first)?, vector(second)?);
    let along = |from: f64, to: f64| from + share * (to - from);
    let (x, y) = (along(a.0, b.0), along(a.1, b.1));
    let apart = second.station - first.station;
    let (lean_x, lean_y) = ((b.0 - a.0) / apart, (b.1 - a.1) / apart);
    Ok(Runs {
        eccentricity: x.hypot(y),
        angle: y.atan2(x),
        tilt: lean_x.hypot(lean_y),
        tilt_angle: lean_y.atan2(lean_x),
        uncertainty: each * (1.0 - share).hypot(share),
    })
}

/// The same when the angles of the high spots were not noted: all it can be.
///
/// `| |w1| e1 - |w2| e2 | <= e <= |w1| e1 + |w2| e2`, `w2 = (z - z1) / (z2 - z1)`, `w1 = 1 - w2`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `first`, `second` | z, TIR | the two stations; their angles are not looked at | |
/// | `at` | z | station of the impeller | `m` |
///
/// Range: as [`runs`].
/// Source: definition, of the sum of two vectors.
///
/// # Errors
/// As [`runs`].
pub fn runs_at_most(first: Runout, second: Runout, at: f64) -> Result<Interval, Error> {
    let share = share(first, second, at)?;
    let one = 0.5 * first.total * (1.0 - share).abs();
    let two = 0.5 * second.total * share.abs();
    Ok(Interval {
        low: (one - two).abs(),
        high: one + two,
    })
}

fn share(first: Runout, second: Runout, at: f64) -> Result<f64, Error> {
    for runout in [first, second] {
        not_negative("a total indicator reading", runout.total)?;
        finite("a station", runout.station)?;
    }
    let apart = second.station - first.station;
    positive("the distance between the stations", apart.abs())?;
    Ok((finite("the station of the impeller", at)? - first.station) / apart)
}

/// What may be said of a play or runout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Judged {
    /// Held against the manual's limit.
    Held {
        /// Probability that it keeps the limit, in `1`.
        within: f64,
        /// What may be said.
        verdict: Verdict,
    },
    /// The manual names no limit: record it, and compare with the next time.
    Record,
}

/// Holds a play or a runout against the limit of the craft's manual, where there is one.
///
/// `p = Phi((T - y) / u)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `found` | y, u | play or runout | `m` |
/// | `greatest` | T | limit of the manual | `m` |
/// | `required` | | probability asked for either claim, usually 0.95 | `1` |
///
/// Range: `u > 0`, `T >= 0`, `0.5 < required < 1`.
/// Source: `jcgm-106`, clause 7; `iso-14253-1` for the verdict.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`].
pub fn judge(found: &Estimated, greatest: Option<f64>, required: f64) -> Result<Judged, Error> {
    let required = within("the required probability", required, 0.5, 1.0)?;
    let Some(greatest) = greatest else {
        return Ok(Judged::Record);
    };
    let band = Band {
        least: None,
        greatest: Some(not_negative("the limit", greatest)?),
    };
    let keeps = found.probability_within(&band)?;
    Ok(Judged::Held {
        within: keeps,
        verdict: verdict(keeps, required),
    })
}
