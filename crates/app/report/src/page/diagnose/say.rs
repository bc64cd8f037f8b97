//! Causes, chances and quantities in words.

use diagnosis::fault::Fault;
use diagnosis::signature::Observable;
use quantity::Unit;
use workshop::job::Job;

use crate::page::choose::{say, unit};
use crate::page::water::say as water;
use crate::words;

/// The cause as a thing: `a worn gap`.
pub(crate) fn fault(fault: Fault) -> &'static str {
    match fault {
        Fault::Nothing => "nothing wrong",
        Fault::Clearance => "a worn gap",
        Fault::Air => "air drawn in",
        Fault::Grate => "a blocked grate",
        Fault::Blade => "bent or nicked blades",
        Fault::NozzleWide => "a nozzle too wide",
        Fault::NozzleNarrow => "a nozzle too narrow",
        Fault::Engine => "a weak engine",
        Fault::Limp => "an engine held back",
        Fault::Dirty => "a dirty or rough bottom",
        Fault::Heavy => "a heavy hull",
        Fault::Slip => "a slipping coupling",
        Fault::Ring => "a loose wear ring",
        Fault::Bearing => "a failing bearing",
        Fault::Misaligned => "engine and pump out of line",
        Fault::Hoses => "the cooling hoses",
        Fault::Gate => "a gate in the jet",
        Fault::Unlisted => "something not on this list",
    }
}

/// The cause as what is so: `the gap is worn wide`.
pub(super) fn so(fault: Fault) -> &'static str {
    match fault {
        Fault::Nothing => "nothing is wrong",
        Fault::Clearance => "the gap between blades and ring is worn wide",
        Fault::Air => "air is drawn in past a seal, the shoe or the plate",
        Fault::Grate => "the intake grate is blocked",
        Fault::Blade => "blades or vanes are bent or nicked",
        Fault::NozzleWide => "the nozzle is wider than thought",
        Fault::NozzleNarrow => "the nozzle is narrower than thought",
        Fault::Engine => "the engine is down on power",
        Fault::Limp => "the engine is held back by its own control",
        Fault::Dirty => "the bottom is dirty, rough or damaged",
        Fault::Heavy => "the hull is heavy, with water in foam or bilge",
        Fault::Slip => "the coupling slips",
        Fault::Ring => "the wear ring has spun or is loose",
        Fault::Bearing => "a bearing fails",
        Fault::Misaligned => "engine and pump are out of line",
        Fault::Hoses => "the cooling hoses are crossed, kinked or blocked",
        Fault::Gate => "the reverse gate rubs the jet",
        Fault::Unlisted => "it is something that is not on this list",
    }
}

/// `about 9 in 10`, `less than 1 in 10`
pub(super) fn about(share: f64) -> String {
    let chance = say::chance(share);
    if chance.starts_with(|first: char| first.is_ascii_digit()) {
        format!("about {chance}")
    } else {
        chance
    }
}

/// `9 in 10` on one line.
pub(super) fn whole(share: f64) -> String {
    let nine = say::chance(share);
    nine.replace(" in ", "\u{a0}in\u{a0}")
}

/// `34`, `under 1`: of a hundred.
pub(super) fn hundredths(share: f64) -> String {
    let number = quantity::number(100.0 * share, Unit::Metre, 0); // not a conversion: out of a hundred
    match number.as_str() {
        "0" => "under 1".to_owned(),
        "100" => "over 99".to_owned(),
        _ => number,
    }
}

/// How bad it would be. Where the sizes end is from memory.
pub(super) fn severity(severity: f64) -> &'static str {
    match severity {
        slight if slight < 0.35 => "slight",
        marked if marked < 0.7 => "marked",
        _ => "bad",
    }
}

/// What was measured: its name, its unit.
pub(super) fn quantity(of: Observable, job: &Job) -> (String, Unit) {
    match of {
        Observable::TopSpeed => ("Top speed".to_owned(), unit(job)),
        Observable::TopEngine => ("Engine, full throttle".to_owned(), Unit::Rpm),
        Observable::Start(to) => {
            let to = water::chosen(to, unit(job));
            (format!("Rest to {to}"), Unit::Second)
        }
        Observable::LaunchEngine => ("Engine off the line".to_owned(), Unit::Rpm),
        Observable::Passing(at) => {
            let at = water::chosen(at, unit(job));
            (format!("Engine passing {at}"), Unit::Rpm)
        }
        Observable::Gap => ("Mean radial gap".to_owned(), job.unit()),
    }
}

/// The same within a sentence.
pub(super) fn phrase(of: Observable, job: &Job) -> String {
    match of {
        Observable::TopSpeed => "top speed".to_owned(),
        Observable::TopEngine => "the engine at full throttle".to_owned(),
        Observable::Start(to) => format!("rest to {}", water::chosen(to, unit(job))),
        Observable::LaunchEngine => "the engine off the line".to_owned(),
        Observable::Passing(at) => {
            format!("the engine passing {}", water::chosen(at, unit(job)))
        }
        Observable::Gap => "the gap".to_owned(),
    }
}

/// `51.3 mph`, `0.42 mm`
pub(super) fn value(of: Observable, value: f64, unit: Unit) -> String {
    match of {
        Observable::Gap => words::length(value, unit),
        _ => water::speed(value, unit),
    }
}

/// `51.3`
pub(super) fn bare(of: Observable, value: f64, unit: Unit) -> String {
    match of {
        Observable::Gap => words::bare(value, unit),
        _ => water::bare(value, unit),
    }
}

/// `1.4 mph less`, `as it should be`
pub(super) fn difference(of: Observable, change: f64, unit: Unit) -> String {
    let number = bare(of, change.abs(), unit);
    if number.bytes().all(|byte| matches!(byte, b'0' | b'.')) {
        return "as it should be".to_owned();
    }
    let way = if change < 0.0 { "less" } else { "more" };
    format!("{} {way}", value(of, change.abs(), unit))
}

/// `3.2 times`, out of the logarithm of it.
pub(super) fn times(weight: f64) -> String {
    let times = weight.abs().exp();
    if times > 100.0 {
        return "more than 100 times".to_owned();
    }
    let decimals = usize::from(times < 9.95);
    format!("{times:.decimals$} times")
}
