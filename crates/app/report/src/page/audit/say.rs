//! Lines of the account in words.

use jiff::ZonedDateTime;
use workshop::assemble::words::{loose, place, when};
use workshop::audit::{About, Lack, Line, Reason, Stand, State};
use workshop::job::Job;
use workshop::plan::{ItemKind, Opens};

use crate::page::teardown;
use crate::words;

/// What a line is about.
pub fn name(job: &Job, line: &Line) -> String {
    match &line.about {
        About::Fasteners(_) => format!("Fasteners of “{}”", line.name),
        About::Gate(_) => format!("Gate before “{}”", line.name),
        About::Wait(rule) => {
            job.bench
                .plan()
                .map_or_else(String::new, |plan| match plan.rules[*rule].why.as_str() {
                    "" => format!("Wait after “{}”", line.name),
                    why => format!("Wait after “{}”, {why}", line.name),
                })
        }
        About::Reread => "The gap after the last torque, against the result".to_owned(),
        About::Result(own) => match *own {
            "gap-out" => "Tip clearance".to_owned(),
            "rotor-out" => "Rotor, on the dial and in the hand".to_owned(),
            _ => "Leak test of the closed housing".to_owned(),
        },
        About::Finding(key) => teardown::say::finding_of(job, key),
        About::Item(..) | About::Tool(..) => match line.of {
            Some(of) if of > 1 => format!("{} × {of}", line.name),
            _ => line.name.clone(),
        },
        About::Step(_) | About::Joint(_) | About::Fit(_) => line.name.clone(),
    }
}

/// How a line stands, with its sign.
pub fn state(line: &Line, now: &ZonedDateTime) -> String {
    match &line.stand {
        Stand::Whole => format!("✓ {}", whole(line)),
        Stand::Reason(reason) => {
            let sign = match line.state() {
                State::Open => "○",
                _ => "–",
            };
            format!("{sign} {}", self::reason(line, reason))
        }
        Stand::Open(lack) => format!("○ {}", self::lack(line, lack, now)),
    }
}

fn whole(line: &Line) -> String {
    let all = line.of.filter(|of| *of > 1);
    let all = all.map_or_else(String::new, |of| format!("all {of} "));
    match &line.about {
        About::Item(_, _, kind) => format!("{all}{}", place(*kind)),
        About::Tool(..) => format!("{all}back on the wall"),
        About::Step(_) => "done".to_owned(),
        About::Fasteners(_) => format!("{all}in"),
        About::Gate(_) => "open".to_owned(),
        About::Wait(_) => "over".to_owned(),
        About::Joint(_) => format!("{all}in, torqued and marked"),
        About::Fit(_) => "all ticked".to_owned(),
        About::Reread => "the same within what the leaves allow".to_owned(),
        About::Result(_) => "nothing out".to_owned(),
        About::Finding(_) => "dealt with".to_owned(),
    }
}

/// `left out: part on order, text still to be written; missed before it floats`.
pub(crate) fn reason(line: &Line, reason: &Reason) -> String {
    let what = match (&line.about, reason.count) {
        (About::Item(_, _, ItemKind::Temporary), None | Some((0, _))) => "still on".to_owned(),
        (About::Item(_, _, ItemKind::Temporary), Some((count, of))) => {
            format!("{count} of {of} off again, the rest still on")
        }
        (About::Item(..) | About::Tool(..), Some((count, of))) if count > 0 => {
            format!("{count} of {of} there, the rest left out")
        }
        (About::Item(..), _) => "left out".to_owned(),
        (About::Tool(..), _) => "not back".to_owned(),
        (About::Gate(_), _) => "passed or left off".to_owned(),
        (About::Finding(_) | About::Result(_) | About::Reread, _) => "taken as it is".to_owned(),
        _ => "left off".to_owned(),
    };
    let owed = if reason.excuse.owed() {
        ", text still to be written"
    } else {
        ""
    };
    let words = reason.excuse.said();
    let missed = match line.holds {
        Some(opens) => format!("; missed {}", before(opens)),
        None => String::new(),
    };
    format!("{what}: {}{owed}{missed}", words.trim_end_matches('.'))
}

pub(crate) fn lack(line: &Line, lack: &Lack, now: &ZonedDateTime) -> String {
    match lack {
        Lack::Untold => match &line.about {
            About::Tool(..) => "not counted back yet".to_owned(),
            _ => "nobody has told of it".to_owned(),
        },
        Lack::Short { count, of } if count > of => {
            format!("{count} told of, and the plan has {of}: count again")
        }
        Lack::Short { count, of } => format!("{count} of {of}, and no reason for the rest"),
        Lack::Since => "told of before the work on it began anew: look again".to_owned(),
        Lack::Todo => "still to do".to_owned(),
        Lack::Loose(held) => loose(*held),
        Lack::Screws {
            in_place,
            torqued,
            marked,
            of,
            temporary,
        } => {
            let stand_ins = if *temporary { ", stand-ins" } else { "" };
            format!("{in_place} of {of} in{stand_ins}, {torqued} torqued, {marked} marked")
        }
        Lack::NoWrench => "torqued, and no wrench named".to_owned(),
        Lack::Stopped => "its figure or its direction does not hold".to_owned(),
        Lack::Ticks(n) => format!(
            "{} missing",
            words::count(*n, "tick or reading", "ticks or readings")
        ),
        Lack::NotRead => "not read again since the result was taken".to_owned(),
        Lack::HalfRead => "read again, and not at every clock, or not decided".to_owned(),
        Lack::Moved => "it moved by more than the leaves allow, or it rubs".to_owned(),
        Lack::Undealt => match &line.about {
            About::Result(_) => "out, and nobody has dealt with it".to_owned(),
            _ => "nobody has dealt with it".to_owned(),
        },
        Lack::Before => "its clock was never set going".to_owned(),
        Lack::Until(at) => format!("until {}", when(*at, now)),
        Lack::Closed(gate) => format!("closed: {}", workshop::assemble::words::gate(*gate)),
    }
}

/// `before it floats`
pub(crate) fn before(opens: Opens) -> &'static str {
    match opens {
        Opens::Float => "before it floats",
        Opens::FullThrottle => "before full throttle",
        Opens::Closed => "before the job is closed",
    }
}
