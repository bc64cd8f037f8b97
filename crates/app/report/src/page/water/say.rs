//! Water tests in words.

use quantity::{Unit, number};
use trial::figure::{Figure as Value, Interval, Part};
use trial::runs::{NoRun, WhyNot};
use workshop::draft::water::START_TO;
use workshop::water::answer::LEVEL;
use workshop::water::{Figure, Read, Way, What};

/// Decimals a speed is shown with.
fn decimals(unit: Unit) -> u32 {
    match unit {
        Unit::MetrePerSecond | Unit::Second => 2,
        Unit::Rpm => 0,
        _ => 1,
    }
}

/// `51.3 mph`
pub(crate) fn speed(value: f64, unit: Unit) -> String {
    quantity::format(value, unit, decimals(unit))
}

/// `51.3`
pub(crate) fn bare(value: f64, unit: Unit) -> String {
    number(value, unit, decimals(unit))
}

/// `30 mph`: a speed somebody chose, without a zero behind the point.
pub(crate) fn chosen(value: f64, unit: Unit) -> String {
    let text = bare(value, unit);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text}\u{a0}{}", unit.symbol())
}

/// `50.6 to 52.0 mph`
pub(crate) fn interval(interval: &Interval, unit: Unit) -> String {
    format!(
        "{} to {}",
        bare(interval.low, unit),
        speed(interval.high, unit)
    )
}

/// `+2.1`, `−0.4`
pub(crate) fn signed(value: f64, unit: Unit) -> String {
    let text = bare(value.abs(), unit);
    let zero = text.bytes().all(|b| matches!(b, b'0' | b'.'));
    let sign = match (zero, value < 0.0) {
        (true, _) => "",
        (false, true) => "−",
        (false, false) => "+",
    };
    format!("{sign}{text}")
}

/// `−0.4 to +1.2 mph`
pub(crate) fn change(interval: &Interval, unit: Unit) -> String {
    format!(
        "{} to {}\u{a0}{}",
        signed(interval.low, unit),
        signed(interval.high, unit),
        unit.symbol()
    )
}

/// The ends of the interval of a value; the value itself where it has none.
pub(crate) fn ends(value: &Value) -> Interval {
    value.interval(LEVEL).unwrap_or(Interval {
        low: value.value,
        high: value.value,
    })
}

/// `+2.1 mph`
pub(crate) fn gained(value: f64, unit: Unit) -> String {
    format!("{}\u{a0}{}", signed(value, unit), unit.symbol())
}

/// `2.4 s`
pub(crate) fn time(value: f64) -> String {
    quantity::format(value, Unit::Second, 2)
}

/// `7650 rpm`
pub(crate) fn engine(value: f64) -> String {
    quantity::format(value, Unit::Rpm, 0)
}

/// `078°`, from true north.
pub(crate) fn course(value: f64) -> String {
    let degrees = number(value, Unit::Degree, 0);
    let degrees: i64 = degrees.replace('−', "-").parse().unwrap_or(0);
    format!("{:03}°", degrees.rem_euclid(360))
}

/// What a part of an uncertainty is.
pub(crate) fn part(part: Part) -> &'static str {
    match part {
        Part::Scatter => "runs do not repeat",
        Part::Choice => "the highest ten seconds were chosen",
        Part::Receiver => "what measured the speed",
        Part::Current => "what is left of current and wind",
        Part::Load => "riders and fuel",
        Part::Air => "the air the engine breathes",
        Part::Rate => "how often the log has a reading",
        Part::Step => "the step of what was read",
        Part::Hand => "the hand on the watch",
    }
}

/// `top speed on the way out 52.3 mph, off the craft’s display`
pub(crate) fn figure(figure: &Figure) -> String {
    let value = figure.value.text.trim();
    let value = if figure.value.is_bare() {
        format!("{value}\u{a0}{}", figure.value.unit.symbol())
    } else {
        value.to_owned()
    };
    let what = match &figure.what {
        What::TopSpeed(Way::There) => format!("top speed on the way out {value}"),
        What::TopSpeed(Way::Back) => format!("top speed on the way back {value}"),
        What::TopSpeed(Way::NotSaid) => format!("top speed {value}"),
        What::EngineSpeed => format!("engine speed {value}"),
        What::Start { to } => {
            let to = match to.text.trim() {
                text if to.is_bare() => format!("{text}\u{a0}{}", to.unit.symbol()),
                "" => START_TO.to_owned(),
                text => text.to_owned(),
            };
            format!("from rest to {to} in {value}")
        }
    };
    let how = match figure.read {
        Read::Display => "off the craft’s display",
        Read::Receiver => "off a receiver or a phone",
        Read::StopWatch => "with a stop watch",
        Read::Video => "from a video",
    };
    format!("{what}, {how}")
}

/// Why a stretch is no full-throttle run.
pub(crate) fn why_not(why: &WhyNot, unit: Unit) -> String {
    let per_second =
        |value: f64| format!("{}\u{a0}{} a second", signed(value, unit), unit.symbol());
    match *why {
        WhyNot::Short { lasts, least } => format!(
            "it lasts {}, a run at least {}",
            quantity::format(lasts, Unit::Second, 1),
            quantity::format(least, Unit::Second, 0)
        ),
        WhyNot::Rising { rise, most } => format!(
            "the speed still changes by {}, at most {} either way",
            per_second(rise),
            per_second(most).trim_start_matches('+')
        ),
        WhyNot::Rough { scatter, most } => format!(
            "its readings scatter by {}, at most {}",
            speed(scatter, unit),
            speed(most, unit)
        ),
        WhyNot::Turning { spread, most } => format!(
            "the craft turns through {}, at most {}",
            quantity::format(spread, Unit::Degree, 0),
            quantity::format(most, Unit::Degree, 0)
        ),
        WhyNot::Slow {
            speed: value,
            least,
        } => format!(
            "it is {}, slower than full throttle can be in this log: {}",
            speed(value, unit),
            speed(least, unit)
        ),
        WhyNot::EngineSlow { speed, least } => format!(
            "the engine turns {}, at full throttle at least {}",
            engine(speed),
            engine(least)
        ),
        WhyNot::EngineRough { scatter, most } => format!(
            "the engine’s speed scatters by {}, at most {}",
            share(scatter),
            share(most)
        ),
    }
}

/// `1.5 %`
fn share(value: f64) -> String {
    format!("{:.1}\u{a0}%", value * 100.0)
}

/// Why a log has no run.
pub(crate) fn no_run(none: &NoRun, unit: Unit) -> String {
    match *none {
        NoRun::NoStretch { longest, least } => format!(
            "no stretch of it is as long as a run: the longest lasts {}, a run at least {}",
            quantity::format(longest, Unit::Second, 1),
            quantity::format(least, Unit::Second, 0)
        ),
        NoRun::NeverFast { fastest, least } => format!(
            "it never goes fast enough: {} at most over the length of a run, and a run is at least {}",
            speed(fastest, unit),
            speed(least, unit)
        ),
        NoRun::NothingSteady => "nothing fast in it is steady".to_owned(),
    }
}
