//! Steps, rules and contradictions in words.

use jiff::{Timestamp, ZonedDateTime};
use workshop::assemble::{Because, Contradiction, Part, Source, Standing, State, words};
use workshop::draft::bench::shift_words;
use workshop::plan::{Ask, Crew, Opens, Plan, seconds};

use crate::words::count;

/// How a step stands, with its sign.
pub(crate) fn state(plan: &Plan, standing: &Standing, now: &ZonedDateTime) -> String {
    let when = |at: Timestamp| words::when(at, now);
    let mut words = match &standing.state {
        State::Done { at, witnessed } if *witnessed => format!("✓ done {}", when(*at)),
        State::Done { .. } => "✓ done before, not witnessed".to_owned(),
        State::Running { since, over } => {
            let over = if *over { ", longer than planned" } else { "" };
            format!("▶ running since {}{over}", when(*since))
        }
        State::Ready => match standing.latest {
            Some(latest) => format!("● may begin, by {}", when(latest)),
            None => "● may begin".to_owned(),
        },
        State::Waits(waits) => {
            let first = waits.first().map(|wait| words::wait(plan, wait, now));
            let more = match waits.len() {
                0 | 1 => String::new(),
                n => format!(", and {} more", n - 1),
            };
            format!("○ waits: {}{more}", first.unwrap_or_default())
        }
        State::Deferred => "– left off".to_owned(),
    };
    if standing.late {
        words = format!("✕ late · {words}");
    }
    if let (Some(loose), State::Done { .. } | State::Running { .. }) =
        (standing.loose, &standing.state)
    {
        words = format!("{words} · {}", words::loose(loose));
    }
    words
}

/// When a step can begin, while it is open.
pub(crate) fn window(standing: &Standing, now: &ZonedDateTime) -> String {
    let when = |at: Timestamp| words::when(at, now);
    let from = if standing.earliest <= now.timestamp() {
        "now".to_owned()
    } else {
        when(standing.earliest)
    };
    match standing.latest {
        Some(latest) => format!("{from}, by {} at the latest", when(latest)),
        None => format!("{from} at the earliest"),
    }
}

/// What a rule asks, and why.
pub(crate) fn rule(plan: &Plan, rule: usize, now: &ZonedDateTime) -> String {
    let what = asks(plan, rule, now);
    match plan.rules[rule].why.as_str() {
        "" => what,
        why => format!("{what} ({why})"),
    }
}

/// What a rule asks.
pub(crate) fn asks(plan: &Plan, rule: usize, now: &ZonedDateTime) -> String {
    let rule = &plan.rules[rule];
    let [first, then] = rule.ask.steps().map(|key| {
        let place = plan.place(key);
        place.map_or_else(String::new, |place| plan.steps[place].name.clone())
    });
    let span = rule.ask.time().map(|time| words::span(seconds(time)));
    let span = span.unwrap_or_default();
    match &rule.ask {
        Ask::After { lag: None, .. } => format!("“{then}” after “{first}”"),
        Ask::After { .. } => format!("“{then}” {span} after “{first}”"),
        Ask::StartWithin { .. } => format!("“{then}” begun within {span} of the end of “{first}”"),
        Ask::FinishedWithin { .. } => {
            format!("“{then}” done within {span} of the end of “{first}”")
        }
        Ask::StartWithinStart { .. } => {
            format!("“{then}” begun within {span} of the beginning of “{first}”")
        }
        Ask::Together { .. } => format!("“{first}” and “{then}” begin together"),
        Ask::NotBefore { time, .. } => {
            format!(
                "“{first}” not before {}",
                words::when(time.timestamp(), now)
            )
        }
        Ask::FinishedBy { time, .. } => {
            format!("“{first}” done by {}", words::when(time.timestamp(), now))
        }
    }
}

/// A contradiction: its parts, how much is missing, and each change that alone would mend it.
pub(crate) fn contradiction(plan: &Plan, found: &Contradiction, now: &ZonedDateTime) -> String {
    let part = |part: &Part| match part.source {
        Source::Because(Because::Rule(place)) => Some(rule(plan, place, now)),
        Source::Because(Because::Delivery(part)) => {
            Some(format!("“{}” is on order", plan.parts[part].name))
        }
        Source::Duration(step) => Some(format!(
            "“{}” takes {}",
            plan.steps[step].name,
            words::span(seconds(&plan.steps[step].takes))
        )),
        Source::Happened(step) => Some(format!("what happened with “{}”", plan.steps[step].name)),
        Source::Now => Some(format!("it is {} now", words::when(now.timestamp(), now))),
    };
    let parts: Vec<String> = found.parts.iter().filter_map(part).collect();
    let mends: Vec<String> = found
        .parts
        .iter()
        .filter_map(|part| mend(plan, part, now))
        .collect();
    let way_out = if mends.is_empty() {
        "None of these gives way: change the order, or the plan.".to_owned()
    } else {
        format!("Any one of these mends it: {}.", mends.join("; "))
    };
    format!(
        "{} short: {}. {way_out}",
        words::span(found.short),
        parts.join(" · ")
    )
}

/// The single change that would mend it.
fn mend(plan: &Plan, part: &Part, now: &ZonedDateTime) -> Option<String> {
    let change = part.change?;
    Some(match part.source {
        Source::Duration(step) => format!("“{}” in {}", plan.steps[step].name, words::span(change)),
        Source::Because(Because::Rule(place)) => match &plan.rules[place].ask {
            Ask::NotBefore { .. } | Ask::FinishedBy { .. } => {
                let at = Timestamp::from_second(change).ok()?;
                format!(
                    "{} moved to {}",
                    rule(plan, place, now),
                    words::when(at, now)
                )
            }
            _ => format!("{} made {}", rule(plan, place, now), words::span(change)),
        },
        Source::Because(Because::Delivery(part)) => {
            let at = Timestamp::from_second(change).ok()?;
            format!(
                "“{}” here by {}",
                plan.parts[part].name,
                words::when(at, now)
            )
        }
        Source::Happened(_) | Source::Now => return None,
    })
}

/// Who works, and when: `1 pair of hands, mon-fri 18:00-21:00`.
pub fn crew(crew: &Crew) -> String {
    let hands = count(usize::from(crew.hands), "pair of hands", "pairs of hands");
    let hours: Vec<String> = crew.shifts.iter().map(shift_words).collect();
    if hours.is_empty() {
        format!("{hands}, at any hour")
    } else {
        format!("{hands}, {}", hours.join("; "))
    }
}

/// A readiness, as a question is asked about it.
pub(crate) fn level(opens: Opens) -> &'static str {
    match opens {
        Opens::Float => "May float",
        Opens::FullThrottle => "May go full throttle",
        Opens::Closed => "Closed",
    }
}
