//! When it will be done, and what fits into the time a person has.

use jiff::Timestamp;
use workshop::assemble::timetable::{NoTimetable, Slot, Slowest, TRIES, Timetable, Tried};
use workshop::assemble::{Because, Source, State, Wait, words};
use workshop::plan::{Opens, Plan, seconds};

use super::{Sight, Target, say};
use crate::page::forms::work;
use crate::page::{Run, Section, plain, row, soft, strong};
use crate::words::list;

/// What a person is likely to have.
const HAVE: [(i64, &str); 4] = [
    (30, "30 minutes"),
    (60, "an hour"),
    (120, "two hours"),
    (240, "half a day"),
];

/// When the craft may float by this timetable, and how sure that is the soonest.
pub(super) fn detail(sight: &Sight<'_>) -> Vec<Run> {
    let when = |at| words::when(at, sight.view.now);
    let table = match &sight.table {
        Ok(table) => table,
        // Told as a contradiction already.
        Err(NoTimetable::Contradictory) => return Vec::new(),
        Err(NoTimetable::Impossible(found)) => {
            let why = words::shortage(sight.plan, found, sight.view.now);
            return vec![plain(" In the way: "), plain(format!("{why}."))];
        }
        Err(NoTimetable::NotFound) => {
            return vec![plain(
                " No order was found that does it with these hands, tools and hours, and whether \
                 there is one is not known.",
            )];
        }
    };
    let crew = sight.view.job.bench.crew();
    let [float, throttle, closed] = table.ready;
    let next = [
        (float, "It may float"),
        (throttle, "It may go full throttle"),
        (closed, "All is closed"),
    ];
    let reached = sight
        .assembly
        .levels
        .iter()
        .take_while(|level| level.blocks.is_empty());
    let Some((at, what)) = next.into_iter().nth(reached.count()) else {
        return Vec::new();
    };
    let with = format!(" with {}", say::crew(&crew));
    match at {
        Some(at) => vec![
            plain(format!(" {what} by ")),
            strong(when(at)),
            plain(format!("{with}. {}", soonest(sight, table))),
        ],
        None if !table.untimed.is_empty() => vec![plain(format!(
            " When, cannot be said: {}.",
            untimed(sight.plan, table)
        ))],
        None => Vec::new(),
    }
}

/// Whether another order could be over sooner.
fn soonest(sight: &Sight<'_>, table: &Timetable) -> String {
    if table.best() {
        return "No other order is over sooner.".to_owned();
    }
    let gap = table.finish.as_second() - table.bound.as_second();
    format!(
        "Another order may be over sooner, but not before {}, {} sooner.",
        words::when(table.bound, sight.view.now),
        words::span(gap)
    )
}

/// The steps without a time, by what is missing.
fn untimed(plan: &Plan, table: &Timetable) -> String {
    let own = table.untimed.iter().filter(|left| left.after.is_none());
    let own: Vec<String> = own
        .map(|left| format!("“{}”", plan.steps[left.step].name))
        .collect();
    format!(
        "a part is missing, or on order without a day, for {}",
        list(&own, 3)
    )
}

/// The question “I have two hours”, and its answer when it was asked.
pub(super) fn have(sight: &Sight<'_>) -> Vec<Section> {
    if closed(sight) {
        return Vec::new();
    }
    let mut sections = Vec::new();
    if let (Some(have), Ok(table)) = (sight.view.have, &sight.table) {
        sections.extend(fits(sight, table, have));
    }
    let asked = |minutes: i64| sight.view.have == Some(minutes * 60);
    let links = HAVE.iter().filter(|(minutes, _)| !asked(*minutes));
    let links = links.map(|(minutes, words)| {
        (
            Target::Have(sight.view.id.clone(), *minutes),
            format!("I have {words} now"),
            String::new(),
        )
    });
    let mut links: Vec<_> = links.collect();
    if sight.view.have.is_some() {
        let whole = Target::Assemble(sight.view.id.clone());
        links.push((whole, "The whole plan".to_owned(), String::new()));
    }
    sections.push(Section::Ways {
        heading: "How long have you got?".to_owned(),
        links,
    });
    sections
}

/// What fits, what goes on by itself after it, and what should not be begun.
fn fits(sight: &Sight<'_>, table: &Timetable, have: i64) -> Vec<Section> {
    let over = table.begins.as_second() + have;
    let mut inside: Vec<usize> = (0..table.slots.len())
        .filter(|place| {
            let open = !matches!(sight.assembly.steps[*place].state, State::Done { .. });
            open && table.slots[*place].is_some_and(|slot| slot.until.as_second() <= over)
        })
        .collect();
    inside.sort_by_key(|place| table.slots[*place].map(|slot| slot.from));
    let links = inside.iter().filter_map(|place| {
        let step = &sight.plan.steps[*place];
        let target = Target::Step(sight.view.id.clone(), step.key.clone());
        Some((
            target,
            step.name.clone(),
            told(sight, *place, table.slots[*place]?),
        ))
    });
    let links: Vec<_> = links.collect();
    let span = words::span(have);
    let mut sections = vec![if links.is_empty() {
        Section::Notes {
            heading: format!("In {span}"),
            notes: vec!["Nothing that may begin now is done in that time.".to_owned()],
        }
    } else {
        Section::Links {
            heading: format!("In {span}, in this order"),
            links,
        }
    }];
    sections.extend(not_begun(sight, table, &inside));
    sections.push(done(sight, table));
    sections
}

/// From when to when a step is worked, what cures after it, on what it hangs, and what can hurt.
fn told(sight: &Sight<'_>, place: usize, slot: Slot) -> String {
    let when = |at| words::when(at, sight.view.now);
    let mut told = vec![format!("{} to {}", when(slot.from), when(slot.until))];
    if let Some(cures) = after(sight, place, slot.until.as_second()) {
        told.push(format!("then cures until {cures}"));
    }
    let gated = matches!(&sight.assembly.steps[place].state, State::Waits(waits)
        if waits.iter().any(|wait| matches!(wait, Wait::Gate(_))));
    if gated {
        told.push("only if its gate opens".to_owned());
    }
    let caution = &sight.plan.steps[place].caution;
    if !caution.is_empty() {
        told.push(format!("Caution: {caution}"));
    }
    told.join(" · ")
}

/// What may begin and should not, since it would not be over in time.
fn not_begun(sight: &Sight<'_>, table: &Timetable, inside: &[usize]) -> Option<Section> {
    let ready = (0..table.slots.len()).filter(|place| {
        sight.assembly.steps[*place].state == State::Ready && !inside.contains(place)
    });
    let not = ready.map(|place| {
        let name = &sight.plan.steps[place].name;
        match table.slots[place] {
            Some(slot) => format!(
                "“{name}”: planned {}.",
                words::when(slot.from, sight.view.now)
            ),
            None => format!("“{name}”: without a time yet."),
        }
    });
    let notes: Vec<String> = not.collect();
    (!notes.is_empty()).then(|| Section::Notes {
        heading: "Not to be begun in it".to_owned(),
        notes,
    })
}

/// When all is over by this timetable, and on what it counts after the time asked about.
fn done(sight: &Sight<'_>, table: &Timetable) -> Section {
    let after = if sight.view.job.bench.crew().shifts.is_empty() {
        "Counted with as long again every day at this hour: say your hours below to plan with them."
    } else {
        "After that, counted with your hours."
    };
    let name = if table.untimed.is_empty() {
        "All done"
    } else {
        "All that has a time done"
    };
    let finish = words::when(table.finish, sight.view.now);
    Section::Facts {
        heading: "After it".to_owned(),
        rows: vec![row(
            name.to_owned(),
            vec![strong(finish), soft(" at the soonest found")],
            after.to_owned(),
        )],
    }
}

/// Until when the longest cure after a step lasts.
fn after(sight: &Sight<'_>, place: usize, ends: i64) -> Option<String> {
    let wait = sight.plan.longest_wait(&sight.plan.steps[place].key);
    let at = Timestamp::from_second(ends + wait.filter(|wait| *wait > 0)?).ok()?;
    Some(words::when(at, sight.view.now))
}

/// Nothing is left to plan.
fn closed(sight: &Sight<'_>) -> bool {
    sight.assembly.reached() == Some(Opens::Closed)
}

/// Who works, by when, and what keeps it from being sooner.
pub(super) fn people(sight: &Sight<'_>) -> Vec<Section> {
    if closed(sight) {
        return Vec::new();
    }
    let told = sight.view.job.bench.crew.is_some();
    let mut rows = vec![row(
        "There are".to_owned(),
        vec![strong(say::crew(&sight.view.job.bench.crew()))],
        if told {
            "stated".to_owned()
        } else {
            "assumed: as many as one step of the plan asks for, until you say otherwise".to_owned()
        },
    )];
    if let Ok(table) = &sight.table {
        rows.push(row(
            "Not sooner because".to_owned(),
            vec![plain(slowest(sight, &table.slowest))],
            soonest(sight, table),
        ));
    }
    if let Some(tried) = sight.table.as_ref().ok().and_then(|table| table.tried) {
        rows.push(row(
            "If steps take longer".to_owned(),
            vec![plain(longer(sight, tried))],
            format!("computed: {TRIES} tries between least and most of each step"),
        ));
    }
    let people = Section::Facts {
        heading: "Hands and hours".to_owned(),
        rows,
    };
    let change = work::crew(&sight.view.job.bench.crew(), sight.view.refused);
    vec![people, Section::Form(change)]
}

/// How the plan fares when steps take longer than their least.
fn longer(sight: &Sight<'_>, tried: Tried) -> String {
    let over = tried.over.map_or_else(
        || "fewer than four of five tries keep every working time".to_owned(),
        |over| {
            let over = words::when(over, sight.view.now);
            format!("four of five tries are over by {over}")
        },
    );
    match tried.missed {
        0 => over,
        missed => format!("{over}; in {missed} of {TRIES} a working time runs out"),
    }
}

/// What keeps the plan from being over sooner.
fn slowest(sight: &Sight<'_>, slowest: &Slowest) -> String {
    let name = |step: &usize| format!("“{}”", sight.plan.steps[*step].name);
    match slowest {
        Slowest::Chain(chain) => {
            let links: Vec<String> = chain
                .iter()
                .filter_map(|source| link(sight, *source))
                .collect();
            format!("one thing follows another: {}", list(&links, 8))
        }
        Slowest::Hours => "nobody is there at other hours".to_owned(),
        Slowest::Work { tool: None, steps } => {
            let all = crate::words::count(steps.len(), "step needs", "steps need");
            format!("{all} the same hands one after another")
        }
        Slowest::Work {
            tool: Some(tool),
            steps,
        } => {
            let names: Vec<String> = steps.iter().map(name).collect();
            format!(
                "“{}” is needed by {}",
                sight.plan.tools[*tool].name,
                list(&names, 3)
            )
        }
        Slowest::Tried => "every other order was tried".to_owned(),
    }
}

/// One link of the longest chain: work and waits; plain order is no news.
fn link(sight: &Sight<'_>, source: Source) -> Option<String> {
    match source {
        Source::Duration(step) => Some(sight.plan.steps[step].name.clone()),
        Source::Because(Because::Rule(rule)) => {
            let time = sight.plan.rules[rule].ask.time()?;
            Some(format!("{} of waiting", words::span(seconds(time))))
        }
        Source::Because(Because::Delivery(part)) => {
            Some(format!("delivery of “{}”", sight.plan.parts[part].name))
        }
        Source::Happened(_) | Source::Now => None,
    }
}
