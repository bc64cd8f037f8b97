//! The steps by how they stand: next, waiting for what, left off on purpose, left, done.

use workshop::assemble::{Because, State, Wait, words};
use workshop::plan::{Gate, Plan};

use super::{Sight, Target, say};
use crate::page::{Section, plain, row};
use crate::words::{count, list};

/// Steps named for one thing they wait for; the others are counted.
const NAMED: usize = 3;

type Link = (Target, String, String);

/// The steps of a plan by the part of the job they belong to, in the order of the plan.
pub(crate) fn groups(plan: &Plan) -> Vec<(String, Vec<usize>)> {
    let mut groups: Vec<(String, Vec<usize>)> = Vec::new();
    for (place, step) in plan.steps.iter().enumerate() {
        match groups.iter_mut().find(|(group, _)| *group == step.group) {
            Some((_, places)) => places.push(place),
            None => groups.push((step.group.clone(), vec![place])),
        }
    }
    groups
}

/// What may begin, in the order of the timetable.
pub(super) fn next(sight: &Sight<'_>) -> Option<Section> {
    let mut places: Vec<usize> = of(sight, |state| *state == State::Ready);
    let from = |place: &usize| {
        let table = sight.table.as_ref().ok();
        table
            .and_then(|table| table.slots[*place])
            .map(|slot| slot.from)
    };
    places.sort_by_key(|place| from(place).map_or((1, None), |from| (0, Some(from))));
    let links = places.iter().map(|place| {
        let standing = &sight.assembly.steps[*place];
        let late = if standing.late { "✕ late · " } else { "" };
        let when = match from(place) {
            Some(from) if from <= sight.assembly.now => "now".to_owned(),
            Some(from) => format!("planned {}", words::when(from, sight.view.now)),
            None => "may begin".to_owned(),
        };
        let by = standing.latest.map_or_else(String::new, |latest| {
            format!(", by {} at the latest", words::when(latest, sight.view.now))
        });
        let caution = match sight.plan.steps[*place].caution.as_str() {
            "" => String::new(),
            caution => format!(" · Caution: {caution}"),
        };
        link(sight, *place, format!("● {late}{when}{by}{caution}"))
    });
    links_of("Next", links.collect())
}

/// What the steps wait for, with the steps that wait.
pub(super) fn waiting(sight: &Sight<'_>) -> Option<Section> {
    let mut causes: Vec<(String, Vec<String>)> = Vec::new();
    for (place, standing) in sight.assembly.steps.iter().enumerate() {
        let State::Waits(waits) = &standing.state else {
            continue;
        };
        for wait in waits {
            // Waiting for the step before it is the order of the plan and no news.
            let order = matches!(
                wait,
                Wait::Step { .. } | Wait::Partner { .. } | Wait::NotReady(_)
            );
            // A part on order is told with its day.
            let told = matches!(wait, Wait::Part { part, .. } if waits.iter().any(|other| {
                matches!(other, Wait::Until { because: Because::Delivery(due), .. } if due == part)
            }));
            if order || told {
                continue;
            }
            let cause = cause(sight, wait);
            let name = sight.plan.steps[place].name.clone();
            match causes.iter_mut().find(|(known, _)| *known == cause) {
                Some((_, names)) => names.push(name),
                None => causes.push((cause, vec![name])),
            }
        }
    }
    if causes.is_empty() {
        return None;
    }
    let rows = causes
        .into_iter()
        .map(|(cause, names)| row(cause, vec![plain(list(&names, NAMED))], ""));
    Some(Section::Facts {
        heading: "Waiting for".to_owned(),
        rows: rows.collect(),
    })
}

/// What is waited for, short enough for a list; the card of the step says what opens a gate.
fn cause(sight: &Sight<'_>, wait: &Wait) -> String {
    match wait {
        Wait::Gate(Gate::GapIn) => "Gate: the gap in tolerance".to_owned(),
        Wait::Gate(Gate::LeakTight) => "Gate: the housing leak-tight".to_owned(),
        Wait::Gate(Gate::Aligned) => "Gate: the driveline in line".to_owned(),
        Wait::Gate(Gate::GapReread) => "Gate: the gap read once more".to_owned(),
        wait => words::capital(&words::wait(sight.plan, wait, sight.view.now)),
    }
}

/// What is left off on purpose, with the reason and what ends it.
pub(super) fn off(sight: &Sight<'_>) -> Option<Section> {
    let links = of(sight, |state| *state == State::Deferred)
        .into_iter()
        .map(|place| {
            let why = super::evidence::reason(sight, place).unwrap_or_default();
            let told = sight
                .view
                .job
                .bench
                .of(&sight.plan.steps[place].key)
                .deferred;
            let until = told.and_then(|told| sight.plan.place(&told.value.until?));
            let over = until
                .filter(|until| matches!(sight.assembly.steps[*until].state, State::Done { .. }));
            let over = over.map_or_else(String::new, |until| {
                let name = &sight.plan.steps[until].name;
                format!("● “{name}” is done: it may go on now. ")
            });
            link(sight, place, format!("– {over}{why}"))
        });
    links_of("Left off on purpose", links.collect())
}

/// What is left, each part of the job by itself, and what is done.
pub(super) fn left(sight: &Sight<'_>) -> Vec<Section> {
    let mut sections = Vec::new();
    for (group, places) in groups(sight.plan) {
        let all = places.len();
        let left = |place: &usize| matches!(sight.assembly.steps[*place].state, State::Waits(_));
        let left: Vec<usize> = places.into_iter().filter(left).collect();
        if left.is_empty() {
            continue;
        }
        let links = left
            .iter()
            .map(|place| link(sight, *place, state(sight, *place)));
        let (heading, alone) = match group.as_str() {
            "" => ("Left".to_owned(), true),
            group => (format!("Left: {group}"), false),
        };
        let links: Vec<Link> = links.collect();
        if alone {
            sections.extend(links_of(&heading, links));
        } else {
            sections.push(Section::Folded {
                heading,
                state: format!("{} of {}", left.len(), count(all, "step", "steps")),
                links,
            });
        }
    }
    let done = of(sight, |state| matches!(state, State::Done { .. }));
    if !done.is_empty() {
        sections.push(Section::Folded {
            heading: "Done".to_owned(),
            state: count(done.len(), "step", "steps"),
            links: done
                .iter()
                .map(|place| link(sight, *place, state(sight, *place)))
                .collect(),
        });
    }
    sections
}

fn of(sight: &Sight<'_>, is: impl Fn(&State) -> bool) -> Vec<usize> {
    let places = 0..sight.plan.steps.len();
    places
        .filter(|place| is(&sight.assembly.steps[*place].state))
        .collect()
}

fn state(sight: &Sight<'_>, place: usize) -> String {
    let state = say::state(sight.plan, &sight.assembly.steps[place], sight.view.now);
    let slot = sight
        .table
        .as_ref()
        .ok()
        .and_then(|table| table.slots[place]);
    match (slot, &sight.assembly.steps[place].state) {
        (Some(slot), State::Waits(_)) => {
            format!(
                "planned {} · {state}",
                words::when(slot.from, sight.view.now)
            )
        }
        _ => state,
    }
}

fn link(sight: &Sight<'_>, place: usize, more: String) -> Link {
    let step = &sight.plan.steps[place];
    let target = Target::Step(sight.view.id.clone(), step.key.clone());
    (target, step.name.clone(), more)
}

fn links_of(heading: &str, links: Vec<Link>) -> Option<Section> {
    (!links.is_empty()).then(|| Section::Links {
        heading: heading.to_owned(),
        links,
    })
}
