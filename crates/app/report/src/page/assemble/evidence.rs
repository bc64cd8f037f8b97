//! What the answer rests on: the steps, what is off or loose or missing, and what does not fit.

use workshop::assemble::{Clock, Standing, State, Wait, words};
use workshop::photos::Subject;
use workshop::plan::{Part, Plan, Status, Step, seconds};

use super::{Sight, Target, Tone, blocked, lists, say, time};
use crate::page::forms::{account, work};
use crate::page::{Card, FactRow, Form, Section, frame, photos, plain, row, strong};

pub(super) fn evidence(sight: &Sight<'_>) -> Vec<Section> {
    let mut sections = Vec::new();
    sections.extend(open(sight));
    if let Some(place) = sight.asked {
        sections.push(Section::Card(asked(sight, place)));
        let subject = Subject::Step(sight.plan.steps[place].key.clone());
        let of = (sight.view.id, sight.view.job);
        sections.push(photos::strip(of, &subject, sight.view.refused));
    }
    let places = 0..sight.plan.steps.len();
    let minded = places.filter(|place| Some(*place) != sight.asked);
    sections.extend(minded.filter_map(|place| minded_card(sight, place).map(Section::Card)));
    if sight.view.have.is_some() {
        sections.extend(time::have(sight));
    }
    sections.extend(super::bars::picture(sight));
    sections.extend(lists::next(sight));
    sections.extend(lists::waiting(sight));
    sections.extend(lists::off(sight));
    sections.extend(parts(sight));
    sections.extend(lists::left(sight));
    if sight.view.have.is_none() {
        sections.extend(time::have(sight));
    }
    sections.push(levels(sight));
    sections.extend(time::people(sight));
    sections.push(Section::Ways {
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
    let (view, plan, assembly) = (sight.view, sight.plan, sight.assembly);
    let found = assembly.contradictions.iter();
    let mut notes: Vec<String> = found
        .map(|found| say::contradiction(plan, found, view.now))
        .collect();
    notes.extend(assembly.broken.iter().map(|broken| {
        format!(
            "Broken by {}: {}. Nothing still to come mends it: say that the first step must be done \
             again, or answer for it.",
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

/// The step that is asked about, with all that may be said of it.
fn asked(sight: &Sight<'_>, place: usize) -> Card {
    let (view, plan) = (sight.view, sight.plan);
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
    card.notes.extend(again(sight, step));
    card.forms = forms(sight, step, standing);
    card
}

/// A step that needs minding although it is not asked about.
fn minded_card(sight: &Sight<'_>, place: usize) -> Option<Card> {
    let (step, standing) = (&sight.plan.steps[place], &sight.assembly.steps[place]);
    let loose = standing.loose.is_some() && matches!(standing.state, State::Done { .. });
    let spoiled = spoiled(sight, place);
    let minded = match standing.state {
        State::Running { .. } => true,
        State::Ready => standing.late,
        _ => loose || spoiled || overridden(sight, step).is_some(),
    };
    minded.then(|| {
        let mut card = card(sight, place);
        if !matches!(standing.state, State::Done { .. }) {
            card.notes = cautions(step);
        }
        card.notes.extend(overridden(sight, step));
        if spoiled {
            card.tone = Tone::Stop;
            card.forms.push(work::again(step, sight.view.refused));
        }
        if loose {
            card.forms
                .extend(work::fasteners(step, standing, sight.view.refused));
        }
        card
    })
}

fn card(sight: &Sight<'_>, place: usize) -> Card {
    let (view, plan) = (sight.view, sight.plan);
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

/// How long a step takes, and who says so.
fn takes(sight: &Sight<'_>, step: &Step) -> (String, &'static str) {
    let told = sight.view.job.bench.of(&step.key).estimate;
    let (takes, most, origin) = match &told {
        Some(told) => (&told.value.takes, &told.value.most, "said at the bench"),
        None => (&step.takes, &step.most, "the plan"),
    };
    let takes = words::span(seconds(takes));
    let takes = match most {
        Some(most) => format!("{takes} to {}", words::span(seconds(most))),
        None => takes,
    };
    (takes, origin)
}

/// The hands and tools a step holds; one pair of hands is no news.
fn holds(plan: &Plan, step: &Step) -> Vec<String> {
    let tools = step.tools.iter().filter_map(|key| plan.tool(key));
    let tools = tools.map(|tool| plan.tools[tool].name.clone());
    let hands = (step.hands != 1).then(|| {
        let hands = usize::from(step.hands);
        crate::words::count(hands, "pair of hands", "pairs of hands")
    });
    hands.into_iter().chain(tools).collect()
}

/// How long, when, with what, and by which rules.
fn rows(sight: &Sight<'_>, place: usize) -> Vec<FactRow> {
    let (view, plan) = (sight.view, sight.plan);
    let (step, standing) = (&plan.steps[place], &sight.assembly.steps[place]);
    if matches!(standing.state, State::Done { .. }) {
        return Vec::new();
    }
    let row = |name: &str, value: String, origin: &str| row(name, vec![plain(value)], origin);
    let (takes, origin) = takes(sight, step);
    let mut rows = vec![row("Takes", takes, origin)];
    if !step.how.is_empty() {
        rows.insert(0, row("How", step.how.clone(), "the plan"));
    }
    if !matches!(standing.state, State::Running { .. } | State::Deferred) {
        let window = say::window(standing, view.now);
        rows.push(row("Can begin", window, "the rules"));
    }
    let slot = sight
        .table
        .as_ref()
        .ok()
        .and_then(|table| table.slots[place]);
    if let (Some(slot), State::Ready | State::Waits(_)) = (slot, &standing.state) {
        let planned = words::when(slot.from, view.now);
        rows.push(row("Planned", planned, "hands, tools and hours"));
    }
    let holds = holds(plan, step);
    if !holds.is_empty() {
        rows.push(row("Holds", holds.join(", "), "the plan"));
    }
    let needs = step.needs.iter().filter_map(|key| plan.part(key));
    let needs: Vec<String> = needs.map(|part| plan.parts[part].name.clone()).collect();
    if !needs.is_empty() {
        rows.push(row("Needs", needs.join(", "), "the plan"));
    }
    rows.extend(crate::page::teardown::found::beside(view.job, &step.name));
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
pub(super) fn reason(sight: &Sight<'_>, place: usize) -> Option<String> {
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

/// Why a step must be done again.
fn again(sight: &Sight<'_>, step: &Step) -> Option<String> {
    let told = sight.view.job.bench.of(&step.key).again?;
    Some(format!("To be done again: {}", told.value))
}

/// A step that is done and in vain: what had to come in time after it did not.
fn spoiled(sight: &Sight<'_>, place: usize) -> bool {
    let late = |clock: &Clock| clock.first == place && clock.by < sight.assembly.now;
    let broken = sight.assembly.broken.iter().any(|broken| {
        let [first, _] = sight.plan.rules[broken.rule].ask.steps();
        *first == sight.plan.steps[place].key
    });
    let done = matches!(sight.assembly.steps[place].state, State::Done { .. });
    done && (broken || sight.assembly.clocks.iter().any(late))
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
    match standing.state {
        State::Ready | State::Waits(_) => {
            forms.push(work::estimate(step, refused));
            forms.push(work::defer(step, sight.plan, refused));
        }
        State::Running { .. } => {
            forms.push(work::estimate(step, refused));
            forms.push(work::again(step, refused));
        }
        State::Done { .. } => forms.push(work::again(step, refused)),
        State::Deferred => {}
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
    let untold: Vec<&Part> = (away.iter().copied())
        .filter(|part| !bench.parts.contains_key(&part.key))
        .collect();
    let mut sections = Vec::new();
    // One by one is enough for one.
    if untold.len() > 1 {
        sections.push(Section::Form(work::parts(&untold, sight.view.refused)));
    }
    let cards = away.into_iter().map(|part| missing(sight, part));
    sections.extend(cards.map(Section::Card));
    if !here.is_empty() {
        let rows = here.iter().map(|part| {
            row(
                part.name.clone(),
                vec![plain("at hand")],
                "stated".to_owned(),
            )
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
        rows: vec![row(
            "Needed for".to_owned(),
            vec![plain(crate::words::list(&needed, 3))],
            "the plan".to_owned(),
        )],
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
        row(
            say::level(level.opens).to_owned(),
            vec![strong(value)],
            origin,
        )
    });
    Section::Facts {
        heading: "How ready".to_owned(),
        rows: rows.collect(),
    }
}
