//! What the answer rests on: the steps, what is off or loose or missing, and what does not fit.

use workshop::assemble::{Standing, State, Wait, words};
use workshop::plan::{Part, Status, Step, seconds};

use super::{Sight, Target, Tone, blocked, say};
use crate::page::forms::{account, work};
use crate::page::{Card, FactRow, Form, Section, frame, plain, strong};

pub(super) fn evidence(sight: &Sight<'_>) -> Vec<Section> {
    let mut sections = Vec::new();
    sections.extend(open(sight));
    sections.extend(sight.asked.map(|place| Section::Card(asked(sight, place))));
    sections.extend(super::bars::picture(sight));
    sections.push(steps(sight));
    let places = 0..sight.plan.steps.len();
    let minded = places.filter(|place| Some(*place) != sight.asked);
    sections.extend(minded.filter_map(|place| minded_card(sight, place).map(Section::Card)));
    sections.extend(parts(sight));
    sections.push(levels(sight));
    sections.push(Section::Links {
        heading: "The plan itself".to_owned(),
        links: vec![
            (
                Target::Audit(sight.view.id.clone()),
                "Account".to_owned(),
                "is anything forgotten; things and tools, one by one".to_owned(),
            ),
            (
                Target::Plan(sight.view.id.clone()),
                "Change the plan".to_owned(),
                "steps, rules, parts; or hand it on".to_owned(),
            ),
        ],
    });
    sections
}

/// What does not fit, and what no longer does.
fn open(sight: &Sight<'_>) -> Option<Section> {
    let Sight {
        view,
        plan,
        assembly,
        ..
    } = *sight;
    let found = assembly.contradictions.iter();
    let mut notes: Vec<String> = found
        .map(|found| say::contradiction(plan, found, view.now))
        .collect();
    notes.extend(assembly.broken.iter().map(|broken| {
        format!(
            "Broken by {}: {}. Nothing still to come mends it: do the first step again, or answer \
             for it.",
            words::span(broken.by),
            say::rule(plan, broken.rule, view.now)
        )
    }));
    if assembly.behind > 0 {
        notes.push(format!(
            "The clock here is {} behind the journal. Times are counted from the journal’s last.",
            words::span(assembly.behind)
        ));
    }
    notes.extend(frame::objections(view.objections));
    (!notes.is_empty()).then_some(Section::Notes {
        heading: "Open".to_owned(),
        notes,
    })
}

fn steps(sight: &Sight<'_>) -> Section {
    let Sight { view, plan, .. } = *sight;
    let standings = sight.assembly.steps.iter().zip(&plan.steps);
    let links = standings.map(|(standing, step)| {
        (
            Target::Step(view.id.clone(), step.key.clone()),
            step.name.clone(),
            say::state(plan, standing, view.now),
        )
    });
    Section::Links {
        heading: "Steps".to_owned(),
        links: links.collect(),
    }
}

/// The step that is asked about, with all that may be said of it.
fn asked(sight: &Sight<'_>, place: usize) -> Card {
    let Sight { view, plan, .. } = *sight;
    let (step, standing) = (&plan.steps[place], &sight.assembly.steps[place]);
    let mut card = card(sight, place);
    card.rows = rows(sight, place);
    card.notes = cautions(step);
    if let State::Waits(waits) = &standing.state {
        let why = waits.iter().map(|wait| words::wait(plan, wait, view.now));
        card.notes.extend(why.map(|why| format!("Waits: {why}.")));
    }
    card.notes.extend(reason(sight, place));
    card.notes.extend(overridden(sight, step));
    card.forms = forms(sight, step, standing);
    card
}

/// A step that needs minding although it is not asked about.
fn minded_card(sight: &Sight<'_>, place: usize) -> Option<Card> {
    let (step, standing) = (&sight.plan.steps[place], &sight.assembly.steps[place]);
    let loose = standing.loose.is_some() && matches!(standing.state, State::Done { .. });
    let minded = match standing.state {
        State::Running { .. } | State::Deferred => true,
        State::Ready => !step.caution.is_empty() || standing.late,
        _ => loose || overridden(sight, step).is_some(),
    };
    minded.then(|| {
        let mut card = card(sight, place);
        if !matches!(standing.state, State::Done { .. }) {
            card.notes = cautions(step);
        }
        card.notes.extend(reason(sight, place));
        card.notes.extend(overridden(sight, step));
        if loose {
            card.forms
                .extend(work::fasteners(step, standing, sight.view.refused));
        }
        card
    })
}

fn card(sight: &Sight<'_>, place: usize) -> Card {
    let Sight { view, plan, .. } = *sight;
    let (step, standing) = (&plan.steps[place], &sight.assembly.steps[place]);
    Card {
        heading: step.name.clone(),
        tone: tone(standing),
        state: say::state(plan, standing, view.now),
        rows: Vec::new(),
        notes: Vec::new(),
        forms: Vec::new(),
    }
}

/// How long, when, with what, and by which rules.
fn rows(sight: &Sight<'_>, place: usize) -> Vec<FactRow> {
    let Sight { view, plan, .. } = *sight;
    let (step, standing) = (&plan.steps[place], &sight.assembly.steps[place]);
    if matches!(standing.state, State::Done { .. }) {
        return Vec::new();
    }
    let row = |name: &str, value: String, origin: &str| FactRow {
        name: name.to_owned(),
        value: vec![plain(value)],
        origin: origin.to_owned(),
    };
    let takes = words::span(seconds(&step.takes));
    let takes = match &step.most {
        Some(most) => format!("{takes} to {}", words::span(seconds(most))),
        None => takes,
    };
    let mut rows = vec![row("Takes", takes, "the plan")];
    if !matches!(standing.state, State::Running { .. } | State::Deferred) {
        let window = say::window(standing, view.now);
        rows.push(row("Can begin", window, "the rules"));
    }
    let needs = step.needs.iter().filter_map(|key| plan.part(key));
    let needs: Vec<String> = needs.map(|part| plan.parts[part].name.clone()).collect();
    if !needs.is_empty() {
        rows.push(row("Needs", needs.join(", "), "the plan"));
    }
    for (rule, asks) in plan.rules.iter().enumerate() {
        if asks.ask.time().is_some() && asks.names(&step.key) {
            let origin = if asks.why.is_empty() {
                "the plan"
            } else {
                &asks.why
            };
            rows.push(row("Rule", say::asks(plan, rule, view.now), origin));
        }
    }
    rows
}

fn tone(standing: &Standing) -> Tone {
    match standing.state {
        _ if standing.late => Tone::Stop,
        State::Done { .. } if standing.loose.is_none() => Tone::Good,
        State::Done { .. } | State::Running { .. } | State::Deferred => Tone::Open,
        State::Ready | State::Waits(_) => Tone::Plain,
    }
}

fn cautions(step: &Step) -> Vec<String> {
    let mut notes = Vec::new();
    if !step.caution.is_empty() {
        notes.push(format!("Caution: {}", step.caution));
    }
    if step.irreversible {
        notes.push("This cannot be taken back.".to_owned());
    }
    notes
}

/// Why a step is left off, and what ends that.
fn reason(sight: &Sight<'_>, place: usize) -> Option<String> {
    let told = sight
        .view
        .job
        .bench
        .of(&sight.plan.steps[place].key)
        .deferred?;
    matches!(sight.assembly.steps[place].state, State::Deferred).then(|| {
        format!(
            "Left off: {}. Until: {}.",
            account::said(&told.value.reason),
            told.value.release.trim_end_matches('.')
        )
    })
}

/// Why a step went ahead before its gate opened.
fn overridden(sight: &Sight<'_>, step: &Step) -> Option<String> {
    let told = sight.view.job.bench.of(&step.key).overridden?;
    Some(format!(
        "Went ahead although its gate was closed: {}",
        told.value
    ))
}

fn forms(sight: &Sight<'_>, step: &Step, standing: &Standing) -> Vec<Form> {
    let refused = sight.view.refused;
    let mut forms = Vec::new();
    forms.extend(work::fasteners(step, standing, refused));
    if matches!(standing.state, State::Ready | State::Waits(_)) {
        forms.push(work::defer(step, refused));
    }
    let gated = matches!(&standing.state, State::Waits(waits)
        if waits.iter().any(|wait| matches!(wait, Wait::Gate(_))));
    if gated {
        forms.push(work::go_ahead(step, refused));
    }
    forms
}

/// The parts: those that are not here in the open, the others in a list.
fn parts(sight: &Sight<'_>) -> Vec<Section> {
    let bench = &sight.view.job.bench;
    let (here, away): (Vec<&Part>, Vec<&Part>) =
        (sight.plan.parts.iter()).partition(|part| bench.at_hand(&part.key));
    let mut sections: Vec<Section> = away
        .into_iter()
        .map(|part| Section::Card(missing(sight, part)))
        .collect();
    if !here.is_empty() {
        let rows = here.iter().map(|part| FactRow {
            name: part.name.clone(),
            value: vec![plain("at hand")],
            origin: "stated".to_owned(),
        });
        sections.push(Section::Facts {
            heading: "Parts".to_owned(),
            rows: rows.collect(),
        });
    }
    sections
}

fn missing(sight: &Sight<'_>, part: &Part) -> Card {
    let told = sight.view.job.bench.parts.get(&part.key);
    let stated = told.map(|told| &told.value);
    let state = match stated.map(|stated| (stated.status, stated.expected)) {
        Some((Status::OnOrder, Some(day))) => {
            format!("on order, expected {}", day.strftime("%a %-d %b"))
        }
        Some((Status::OnOrder, None)) => "on order, no day known".to_owned(),
        Some((Status::Missing, _)) => "missing".to_owned(),
        _ => "nobody has said where it is".to_owned(),
    };
    let needed = sight
        .plan
        .steps
        .iter()
        .filter(|step| step.needs.contains(&part.key));
    let needed: Vec<String> = needed.map(|step| format!("“{}”", step.name)).collect();
    Card {
        heading: part.name.clone(),
        tone: Tone::Open,
        state,
        rows: vec![FactRow {
            name: "Needed for".to_owned(),
            value: vec![plain(crate::words::list(&needed, 3))],
            origin: "the plan".to_owned(),
        }],
        notes: Vec::new(),
        forms: vec![work::part(part, stated, sight.view.refused)],
    }
}

fn levels(sight: &Sight<'_>) -> Section {
    let rows = sight.assembly.levels.iter().map(|level| {
        let (value, origin) = if level.blocks.is_empty() {
            ("yes", "Every step it needs is done.".to_owned())
        } else {
            ("not yet", blocked(sight.plan, level, sight.view.now))
        };
        FactRow {
            name: say::level(level.opens).to_owned(),
            value: vec![strong(value)],
            origin,
        }
    });
    Section::Facts {
        heading: "How ready".to_owned(),
        rows: rows.collect(),
    }
}
