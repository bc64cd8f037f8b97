//! Why something about what to fit is not taken.

use std::fmt;

/// What cannot be so. Quantities are as typed, with their unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Misfitting {
    /// An option that the job does not have.
    NoSuchOption {
        /// The key asked for.
        key: String,
    },
    /// A trailing edge flatter than the leading edge.
    TrailingUnderLeading {
        /// The leading edge.
        leading: String,
        /// The trailing edge.
        trailing: String,
    },
    /// An angle that no tip has, without the radius it was taken at.
    HubAngle {
        /// The field it stands in.
        field: &'static str,
        /// The angle.
        angle: String,
    },
    /// A radius at which there is hub and no blade.
    RadiusInHub {
        /// The radius.
        radius: String,
        /// Diameter of the hub.
        hub: String,
    },
    /// Something wider than the impeller leaves room for.
    Wider {
        /// The field it stands in.
        field: &'static str,
        /// The size.
        part: String,
        /// The most there can be.
        most: String,
        /// Diameter of the impeller.
        impeller: String,
    },
    /// A hub that is none of this impeller.
    HubShare {
        /// The hub.
        hub: String,
        /// The least there can be.
        least: String,
        /// The most there can be.
        most: String,
        /// Diameter of the impeller.
        impeller: String,
    },
    /// A gap that is a good part of the blade.
    GapOverHeight {
        /// The gap.
        gap: String,
        /// The most there can be.
        most: String,
    },
    /// An option that says nothing.
    NothingChanged,
    /// An option that is what is fitted.
    LikeFitted,
    /// A limiter the engine cannot reach its rated speed under.
    LimiterUnderRated {
        /// The limiter.
        limiter: String,
        /// The rated speed.
        rated: String,
    },
    /// A limiter that holds nothing back.
    LimiterFarOver {
        /// The limiter.
        limiter: String,
        /// The rated speed.
        rated: String,
    },
    /// A point of a torque curve that is not understood.
    BadPoint {
        /// As typed.
        text: String,
    },
    /// A torque curve of one point or two.
    ShortCurve {
        /// How many there are.
        points: usize,
    },
    /// A torque curve out of the order of speed.
    CurveOrder {
        /// A speed.
        first: String,
        /// The one after it.
        then: String,
    },
    /// A torque curve that ends where the engine still pulls.
    CurveEnds {
        /// Its first speed.
        first: String,
        /// Its last speed.
        last: String,
        /// The limiter, or the rated speed.
        limiter: String,
        /// The least its last speed can be.
        least: String,
    },
    /// A steady reading that is one of full throttle.
    FullThrottle {
        /// The engine speed, as typed.
        text: String,
        /// The same with its unit.
        engine: String,
        /// The most there can be.
        most: String,
        /// The speed it is held against.
        full: String,
    },
    /// A steady reading with both a speed and a pull, or with neither.
    SpeedOrPull {
        /// The engine speed, as typed.
        engine: String,
        /// Both are there.
        both: bool,
    },
    /// What is said of the craft does not go with what was said before.
    Against {
        /// The field it stands in.
        field: &'static str,
        /// What was said before.
        what: String,
        /// Why that could not be said now.
        why: Box<Misfitting>,
    },
    /// An answer whose band has no ends, or ends out of order.
    NoBand,
    /// More of something than a job can have.
    TooMany {
        /// The field it stands in.
        field: &'static str,
        /// Of what.
        what: &'static str,
        /// The most there can be.
        most: usize,
    },
}

impl Misfitting {
    /// The field it belongs to.
    pub fn field(&self) -> &'static str {
        match self {
            Self::NoSuchOption { .. } | Self::NoBand => "option",
            Self::TrailingUnderLeading { .. } => "trailing",
            Self::HubAngle { field, .. }
            | Self::Wider { field, .. }
            | Self::Against { field, .. }
            | Self::TooMany { field, .. } => field,
            Self::RadiusInHub { .. } => "radius",
            Self::HubShare { .. } => "hub",
            Self::GapOverHeight { .. } => "gap",
            Self::NothingChanged | Self::LikeFitted => "name",
            Self::LimiterUnderRated { .. } | Self::LimiterFarOver { .. } => "limiter",
            Self::BadPoint { .. }
            | Self::ShortCurve { .. }
            | Self::CurveOrder { .. }
            | Self::CurveEnds { .. } => "curve",
            Self::FullThrottle { .. } => "engine",
            Self::SpeedOrPull { .. } => "speed",
        }
    }

    /// What was refused, where that is one value among several.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::BadPoint { text } | Self::FullThrottle { text, .. } => Some(text),
            Self::SpeedOrPull { engine, .. } => Some(engine),
            _ => None,
        }
    }
}

impl fmt::Display for Misfitting {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchOption { key } => write!(
                f,
                "There is no option “{key}” here. Name one of those listed."
            ),
            Self::NothingChanged => f.write_str(
                "This option says nothing that could be fitted. Give it an impeller’s angles, a \
                 gap or a nozzle.",
            ),
            Self::LikeFitted => f.write_str(
                "This option is what is fitted now, so it would change nothing. Say what is \
                 different about it, or leave it out.",
            ),
            Self::Against { what, why, .. } => write!(
                f,
                "This does not go with {what}, which is in the job. {why} Mend or take away one of \
                 the two.",
            ),
            Self::NoBand => f.write_str(
                "The answer of this option has no band from low to high. Look at the options \
                 again, then take one.",
            ),
            Self::TooMany { what, most, .. } => {
                write!(f, "There can be {most} {what} here. Take one away first.")
            }
            Self::FullThrottle {
                engine, most, full, ..
            } => write!(
                f,
                "{engine} is full throttle, or too near to it to tell: this craft’s engine is good \
                 for {full}, so a steady reading at part throttle is at most {most}. A run at full \
                 throttle belongs to Water test.",
            ),
            Self::SpeedOrPull { both: true, .. } => f.write_str(
                "A craft that runs has a speed, and one that is tied up a pull on the rope; here \
                 are both. Empty one of the two.",
            ),
            Self::SpeedOrPull { both: false, .. } => f.write_str(
                "This reading has neither a speed nor a pull. Give the speed it ran at, or the \
                 pull on the rope where it was tied up.",
            ),
            Self::LimiterUnderRated { .. }
            | Self::LimiterFarOver { .. }
            | Self::BadPoint { .. }
            | Self::ShortCurve { .. }
            | Self::CurveOrder { .. }
            | Self::CurveEnds { .. } => self.of_the_engine(f),
            _ => self.of_the_pump(f),
        }
    }
}

impl Misfitting {
    fn of_the_engine(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::LimiterUnderRated { limiter, rated } => write!(
                f,
                "A limiter at {limiter} is below the rated speed of {rated}, so the engine would \
                 never get there. Look whether the two were swapped.",
            ),
            Self::LimiterFarOver { limiter, rated } => write!(
                f,
                "A limiter at {limiter} is more than 1.3 times the rated speed of {rated}. Check \
                 both, or empty the limiter where it is not known.",
            ),
            Self::BadPoint { text } => write!(
                f,
                "“{text}” is no point of a torque curve. Write an engine speed and the torque at \
                 it, and a semicolon between the points: 4000 rpm 150 N·m; 6000 rpm 180 N·m; \
                 8000 rpm 170 N·m.",
            ),
            Self::ShortCurve { points: 1 } => f.write_str(
                "One reading of torque does not say how the engine pulls above and below it, so \
                 it is no curve: at least 3 are needed. Give the torque at 3 engine speeds or more \
                 up to the limiter, or empty this and give the rated power and its engine speed.",
            ),
            Self::ShortCurve { points } => write!(
                f,
                "{points} readings of torque are too few for a curve: at least 3 are needed. Give \
                 the torque at 3 engine speeds or more up to the limiter, or empty this and give \
                 the rated power and its engine speed.",
            ),
            Self::CurveOrder { first, then } => write!(
                f,
                "In the torque curve {then} comes after {first}. Give the points in the order of \
                 engine speed, at least 10 rpm apart.",
            ),
            Self::CurveEnds {
                first,
                last,
                limiter,
                least,
            } => write!(
                f,
                "The torque curve goes from {first} to {last}, and the engine is held back at \
                 {limiter}. Let the curve begin below that and go on to {least} at least, or check \
                 the limiter.",
            ),
            _ => Ok(()),
        }
    }

    fn of_the_pump(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TrailingUnderLeading { leading, trailing } => write!(
                f,
                "A trailing edge of {trailing} is flatter than the leading edge of {leading}; \
                 blades of a jet pump get steeper on the way aft. Look whether the two were swapped."
            ),
            Self::HubAngle { angle, .. } => write!(
                f,
                "{angle} is an angle near the hub: at the tip blades stand at about 8 to 28°. Give \
                 the radius it was taken at, or measure again at the tip.",
            ),
            Self::RadiusInHub { radius, hub } => write!(
                f,
                "At a radius of {radius} there is no blade: the hub is {hub} across. Give the \
                 radius from the middle of the shaft, or check the hub.",
            ),
            Self::Wider {
                field: "nozzle",
                part,
                impeller,
                ..
            } => write!(
                f,
                "A nozzle of {part} is wider than the pump, whose impeller is {impeller} across. \
                 Check the unit, and that this is the bore at the outlet.",
            ),
            Self::Wider {
                part,
                most,
                impeller,
                ..
            } => write!(
                f,
                "A radius of {part} is beyond the tip: of an impeller {impeller} across it is at \
                 most {most}. Give the radius, not the diameter.",
            ),
            Self::HubShare {
                hub,
                least,
                most,
                impeller,
            } => write!(
                f,
                "A hub of {hub} does not belong to an impeller {impeller} across: that is {least} \
                 to {most}. Measure the hub across, at the leading edge.",
            ),
            Self::GapOverHeight { gap, most } => write!(
                f,
                "A gap of {gap} is more than a twentieth of the blade’s height, {most} here. Give the gap on one side, not across, and check the unit.",
            ),
            _ => Ok(()),
        }
    }
}
