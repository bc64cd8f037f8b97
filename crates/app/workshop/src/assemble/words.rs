//! Times and reasons in words, for refusals and pages alike.

use jiff::{Timestamp, ZonedDateTime};

use super::{Because, Block, Lack, Loose, Short, Shortage, Wait};
use crate::plan::{Ask, Gate, ItemKind, Plan};

const MINUTE: i64 = 60; // not a conversion: words only
const HOUR: i64 = 60 * MINUTE; // not a conversion: words only

/// `14:32`, with the day where it is another: `Thu 26 Nov 14:32`.
pub fn when(at: Timestamp, now: &ZonedDateTime) -> String {
    let at = at.to_zoned_datetime(now.time_zone().clone());
    let words = if at.date() == now.date() {
        "%H:%M"
    } else if at.year() == now.year() {
        "%a %-d %b %H:%M"
    } else {
        "%-d %b %Y %H:%M"
    };
    at.strftime(words).to_string()
}

/// `24 h`, `1 h 30 min`, `10 min`, `45 s`.
pub fn span(seconds: i64) -> String {
    let seconds = seconds.abs();
    match (seconds / HOUR, seconds % HOUR / MINUTE, seconds % MINUTE) {
        (0, 0, s) => format!("{s}\u{a0}s"),
        (0, m, 0) => format!("{m}\u{a0}min"),
        (0, m, s) => format!("{m}\u{a0}min {s}\u{a0}s"),
        (h, 0, _) => format!("{h}\u{a0}h"),
        (h, m, _) => format!("{h}\u{a0}h {m}\u{a0}min"),
    }
}

/// Words as they begin a sentence.
pub fn capital(words: &str) -> String {
    let mut rest = words.chars();
    let first = rest.next().map(|first| first.to_uppercase().to_string());
    first.unwrap_or_default() + rest.as_str()
}

/// What closes a gate and what opens it.
pub fn gate(gate: Gate) -> &'static str {
    match gate {
        Gate::GapIn => {
            "the gap must be measured, found in tolerance, and taken on the Measure page"
        }
        Gate::LeakTight => {
            "the closed housing must be leak-tested and found tight on the Teardown page"
        }
        Gate::Aligned => "the driveline must be read and found in line on the Measure page",
        Gate::GapReread => {
            "the gap must be read once more after the last torque, keep its limits and turn free, \
             on the Teardown page"
        }
    }
}

/// Why a step waits: `“Gap check” is not done`.
pub fn wait(plan: &Plan, wait: &Wait, now: &ZonedDateTime) -> String {
    let name = |place: &usize| &plan.steps[*place].name;
    match wait {
        Wait::Gate(closed) => format!(
            "its gate is closed: {}, or a reason given to go ahead, which is kept and printed",
            gate(*closed)
        ),
        Wait::Step { step } => format!("“{}” is not done", name(step)),
        Wait::Until { because, at } => {
            format!("{} until {}", because_of(plan, *because), when(*at, now))
        }
        Wait::Partner { step } => {
            format!("it begins together with “{}”, which waits", name(step))
        }
        Wait::TooEarly { at } => format!(
            "begun now, its clock would run out before the rest is ready; begin at {}",
            when(*at, now)
        ),
        Wait::Part { part, later: None } => {
            format!("“{}” is not at hand", plan.parts[*part].name)
        }
        Wait::Part {
            part,
            later: Some(step),
        } => format!(
            "“{}” is not at hand, and “{}” may not wait for it",
            plan.parts[*part].name,
            name(step)
        ),
        Wait::GateAhead { step } => {
            let closed = plan.steps[*step].gate.map_or("", gate);
            format!(
                "“{}” may not wait, and its gate is closed: {closed}",
                name(step)
            )
        }
        Wait::NotReady(block) => format!(
            "the craft is not ready for it, {}",
            blocks(plan, block, now)
        ),
        Wait::NoHands(found) => format!(
            "what must follow in time cannot be done with the hands, tools and hours there are: {}",
            shortage(plan, found, now)
        ),
        Wait::NoTime(found) => {
            let short = found.iter().map(|found| found.short).max().unwrap_or(0);
            format!(
                "what must follow in time does not fit: {} short",
                span(short)
            )
        }
    }
}

/// What hands and tools cannot do: its parts, and each change that alone would mend it.
pub fn shortage(plan: &Plan, found: &Shortage, now: &ZonedDateTime) -> String {
    let part = |lack: &Lack| match lack.what {
        // Plain order is no news.
        Short::Because(Because::Rule(rule)) if plan.rules[rule].ask.time().is_none() => None,
        Short::Because(because) => Some(because_of(plan, because)),
        Short::Hands => Some("the pairs of hands there are".to_owned()),
        Short::Hours => Some("the hours somebody is there".to_owned()),
        Short::Tool(tool) => Some(format!("how many of “{}” there are", plan.tools[tool].name)),
        Short::Duration(step) => Some(format!("the time “{}” takes", plan.steps[step].name)),
        Short::Holds(step) => Some(match plan.steps[step].hands {
            0 | 1 => format!("what “{}” holds", plan.steps[step].name),
            hands => format!("“{}” takes {hands} pairs of hands", plan.steps[step].name),
        }),
    };
    let mend = |lack: &Lack| {
        let change = lack.change?;
        let at = || Some(when(Timestamp::from_second(change).ok()?, now));
        Some(match lack.what {
            Short::Because(because @ Because::Rule(rule)) => match &plan.rules[rule].ask {
                Ask::NotBefore { .. } | Ask::FinishedBy { .. } => {
                    format!("{} moved to {}", because_of(plan, because), at()?)
                }
                _ => format!("{} made {}", because_of(plan, because), span(change)),
            },
            Short::Because(Because::Delivery(part)) => {
                format!("“{}” here by {}", plan.parts[part].name, at()?)
            }
            Short::Hands => format!("{change} pairs of hands"),
            Short::Tool(tool) => format!("{change} of “{}”", plan.tools[tool].name),
            Short::Hours => format!("staying {} longer", span(change)),
            Short::Duration(step) => format!("“{}” in {}", plan.steps[step].name, span(change)),
            Short::Holds(_) => return None,
        })
    };
    let mut parts: Vec<String> = found.parts.iter().filter_map(part).collect();
    parts.dedup();
    let mends: Vec<String> = found.parts.iter().filter_map(mend).collect();
    let sure = if found.minimal {
        ""
    } else {
        " (perhaps not all of these take part)"
    };
    let parts = parts.join(" · ");
    if mends.is_empty() {
        format!("{parts}{sure}")
    } else {
        format!(
            "{parts}{sure}; any one of these mends it: {}",
            mends.join("; ")
        )
    }
}

/// What holds up a readiness: `“Ride plate on” is left off`.
pub fn blocks(plan: &Plan, block: &Block, now: &ZonedDateTime) -> String {
    let name = |place: &usize| &plan.steps[*place].name;
    match block {
        Block::Open(step) => format!("“{}” is still to do", name(step)),
        Block::Deferred(step) => format!("“{}” is left off", name(step)),
        Block::Loose(step, loose) => format!("“{}” has {}", name(step), self::loose(*loose)),
        Block::Item(item) => {
            let item = &plan.items[*item];
            format!("“{}” is not {}", item.name, place(item.kind))
        }
        Block::Tool(tool) => format!("“{}” is not back on the wall", plan.tools[*tool].name),
        Block::Others(1) => "1 joint or reading is open in the account".to_owned(),
        Block::Others(n) => format!("{n} joints and readings are open in the account"),
        Block::Until(step, at) => format!("“{}” cures until {}", name(step), when(*at, now)),
        Block::Finding(held) => format!("the finding “{}” is open", held.what),
    }
}

/// Where a thing belongs in the end.
pub fn place(kind: ItemKind) -> &'static str {
    match kind {
        ItemKind::Temporary => "off the craft again",
        _ => "in its place",
    }
}

/// `4 of 6 fasteners in, 1 of them only standing in`.
pub fn loose(loose: Loose) -> String {
    let Loose {
        count,
        of,
        temporary,
    } = loose;
    let stand_in = match temporary {
        0 => String::new(),
        n => format!(", {n} of them only standing in"),
    };
    format!("{count} of {of} fasteners in{stand_in}")
}

/// The reason of a rule, or the delivery.
pub fn because_of(plan: &Plan, because: Because) -> String {
    match because {
        Because::Rule(rule) if plan.rules[rule].why.is_empty() => "the plan says so".to_owned(),
        Because::Rule(rule) => plan.rules[rule].why.clone(),
        Because::Delivery(part) => format!("“{}” is on order", plan.parts[part].name),
    }
}
