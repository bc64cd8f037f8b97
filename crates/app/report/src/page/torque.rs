//! The Torque and seal page: how tight each joint, in which order, and how far it has come.

mod card;
pub(crate) mod fit;

use quantity::{Unit, format};
use workshop::draft::FastenedDraft;
use workshop::entry::{JobId, Key};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::joints::{Joint, JointState, Tightening};
use workshop::torque::{Card, card};

use super::{
    Answer, Button, FormName, Next, Page, Refused, Run, Section, Target, Tone, Weight, forms,
    frame, plain, strong,
};
use crate::drawing::{Flange, flange};
use crate::words;

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside the step that can hurt.
pub const CAUTION: &str = "Battery and safety lanyard off. Pull the wrench slowly and let it click \
    once: twice is too much. Goggles where a spring or a circlip is near. The craft’s manual comes \
    first; for the impeller there is no figure but its own.";

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let next = view.job.next_joint();
    let next_card = next.and_then(|(_, state)| Some((state, card(&state.joint.value)?)));
    let here = Target::Torque(view.id.clone());
    Page {
        title: "Torque and seal".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: match next {
            None => fit::answer(view.job).unwrap_or_else(|| answer(view.job, None)),
            Some(_) => answer(view.job, next_card.as_ref()),
        },
        evidence: evidence(view, next_card.as_ref()),
        next: match (next, &next_card) {
            (Some((key, state)), Some((_, card))) => ask(view, key, state, card),
            _ if view.job.next_fit().is_some() => fit::next(view).unwrap_or_else(|| done(view)),
            _ if view.job.joints.is_empty() && view.job.fits.is_empty() => {
                Next::Fill(forms::joint(None, view.refused, true))
            }
            _ => done(view),
        },
        cautions: vec![CAUTION],
    }
}

fn answer(job: &Job, next: Option<&(&JointState, Card)>) -> Answer {
    let all = job.joints.len();
    let done = job.joints.values().filter(|state| state.done()).count();
    let stopped = job.joints_in_order().into_iter().find_map(|(_, state)| {
        let stop = card(&state.joint.value)?.stop?;
        (!state.done()).then_some((state, stop))
    });
    let (tone, headline, detail) = match (stopped, next) {
        (Some((state, stop)), _) => (
            Tone::Stop,
            format!("Do not torque {} yet.", state.joint.value.name),
            vec![plain(stop.to_string())],
        ),
        (None, _) if all == 0 => (
            Tone::Plain,
            "No joint described yet.".to_owned(),
            vec![plain(
                "Describe each joint once, with the manual’s figure in both units it prints: the \
                 two are held against each other, and against what the screw bears.",
            )],
        ),
        (None, Some((state, card))) => (
            Tone::Open,
            format!(
                "{done} of {} torqued and marked.",
                words::count(all, "joint", "joints")
            ),
            instruction(&state.joint.value, card),
        ),
        (None, None) => (
            Tone::Good,
            "Every joint is torqued and marked.".to_owned(),
            vec![plain(format!(
                "{}, each screw with its paint mark.",
                words::count(all, "joint", "joints")
            ))],
        ),
    };
    let origin = if all == 0 {
        ""
    } else {
        "Figures: the craft’s manual, as you stated them · preload computed by VDI 2230, friction as \
         an interval"
    };
    Answer {
        tone,
        headline,
        detail,
        origin: origin.to_owned(),
    }
}

/// What to do at the next joint, in a breath.
fn instruction(joint: &Joint, card: &Card) -> Vec<Run> {
    let mut runs = vec![
        plain("Next is "),
        strong(joint.name.clone()),
        plain(format!(": {} × {}", joint.count, joint.thread)),
    ];
    match (&joint.tightening, &card.expected) {
        (Tightening::Torque { figure, .. }, Some(expected)) => {
            runs.push(plain(" to "));
            runs.push(strong(figure.worded()));
            runs.push(plain(format!(", in the order {}.", order(card))));
            runs.push(plain(format!(
                " Expect {} in each, {} of yield.",
                card::kilonewtons(&expected.preload),
                card::share(&expected.used)
            )));
        }
        (Tightening::Turn { turn, .. }, _) => {
            runs.push(plain(" to contact, then "));
            runs.push(strong(turn.worded()));
            runs.push(plain(format!(", in the order {}.", order(card))));
        }
        _ => runs.push(plain(". No figure is stated for it yet.")),
    }
    runs
}

pub(crate) fn order(card: &Card) -> String {
    let order: Vec<String> = card.order.iter().map(usize::to_string).collect();
    order.join(", ")
}

/// `by hand until all seat, then 11.0, 22.0 and 22.0 N·m`
pub(crate) fn passes(card: &Card) -> Option<String> {
    let torque = card.torque?;
    let shares: Vec<String> = card
        .passes
        .iter()
        .map(|share| quantity::number(torque * share, Unit::NewtonMetre, 1))
        .collect();
    Some(format!(
        "by hand until all seat, then {}\u{a0}N·m, the last once round the circle",
        words::list(&shares, shares.len())
    ))
}

fn evidence(view: &View<'_>, next: Option<&(&JointState, Card)>) -> Vec<Section> {
    let mut sections = Vec::new();
    if let Some((state, card)) = next {
        let (in_place, torqued, marked) = state.counts();
        let drawing = flange(&Flange {
            name: state.joint.value.name.clone(),
            order: card.order.clone(),
            in_place: usize::from(in_place),
            torqued: usize::from(torqued),
            marked: usize::from(marked),
        });
        sections.push(Section::Picture {
            heading: state.joint.value.name.clone(),
            svg: drawing.svg,
            caption: drawing.caption,
        });
    }
    let open: Vec<String> = frame::objections(view.objections).collect();
    if !open.is_empty() {
        sections.push(Section::Notes {
            heading: "Open".to_owned(),
            notes: open,
        });
    }
    for (key, state) in view.job.joints_in_order() {
        let forms = vec![
            forms::fasten(key, state, view.refused),
            forms::joint(Some((key, &state.joint.value)), view.refused, false),
        ];
        sections.push(Section::Card(card::card(state, forms)));
    }
    let nothing = view.job.joints.is_empty() && view.job.fits.is_empty();
    if !nothing {
        sections.push(Section::Form(forms::joint(None, view.refused, false)));
    }
    sections.extend(fit::evidence(view));
    sections
}

/// The next step of a joint: in, then torqued, then marked.
fn ask(view: &View<'_>, key: &Key, state: &JointState, card: &Card) -> Next {
    let joint = &state.joint.value;
    let count = joint.count;
    let (in_place, torqued, marked) = state.counts();
    let temporary = state
        .fastened
        .as_ref()
        .is_some_and(|fact| fact.value.temporary);
    let all = |words: &str, counts: (u8, u8, u8)| Button {
        label: format!("All {count} {words}"),
        form: FormName::Fasten,
        values: fastened(key, counts),
        weight: Weight::Main,
        key: Some('a'),
    };
    let stated = joint.tightening != Tightening::NotStated && card.stop.is_none();
    let (question, button) = if in_place < count || temporary {
        let words = format!("Are all {count} screws in, by hand, with what belongs on them?");
        (words, Some(all("are in", (count, 0, 0))))
    } else if !stated {
        (
            "Its figure must be mended before a wrench comes near: open it below.".to_owned(),
            None,
        )
    } else if torqued < count {
        let how = match passes(card) {
            Some(passes) => format!("Order {}; {passes}.", order(card)),
            None => format!(
                "Order {}: to contact all round, then the turn.",
                order(card)
            ),
        };
        (
            format!("{how} Are all {count} torqued?"),
            Some(all("torqued", (count, count, marked))),
        )
    } else {
        let words = format!("A paint mark across each head and the part: are all {count} marked?");
        (words, Some(all("marked", (count, count, count))))
    };
    Next::Ask {
        question: vec![strong(joint.name.clone()), plain(format!(". {question}"))],
        buttons: button.into_iter().chain(frame::undo(view.job)).collect(),
        write: None,
    }
}

/// What a count sends.
fn fastened(key: &Key, (in_place, torqued, marked): (u8, u8, u8)) -> Vec<(&'static str, String)> {
    vec![
        ("joint", key.to_string()),
        ("in", in_place.to_string()),
        ("torqued", torqued.to_string()),
        ("marked", marked.to_string()),
    ]
}

fn done(view: &View<'_>) -> Next {
    Next::Ask {
        question: vec![plain(
            "Nothing is left to torque. Describe another joint below, or look the marks over.",
        )],
        buttons: frame::undo(view.job),
        write: None,
    }
}

/// `2 of 4 torqued`: where a joint stands.
pub(crate) fn state_words(state: &JointState) -> String {
    let FastenedDraft {
        in_place,
        torqued,
        marked,
        temporary,
    } = FastenedDraft::of(state);
    let count = state.joint.value.count;
    if state.done() {
        return format!("all {count} torqued and marked");
    }
    let stand_ins = if temporary { ", stand-ins" } else { "" };
    format!("{in_place} of {count} in{stand_ins}, {torqued} torqued, {marked} marked")
}

/// A torque in newton metres with the other unit behind it.
pub(crate) fn both(torque: f64) -> (String, String) {
    (
        format(torque, Unit::NewtonMetre, 1),
        format(torque, Unit::PoundForceFoot, 1),
    )
}
