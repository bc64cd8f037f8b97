//! The Torque and seal page: how tight each joint, in which order, and how far it has come.

mod card;
pub(crate) mod fit;
pub mod seal;
mod tool;

use jiff::ZonedDateTime;
use quantity::{Unit, format};
use workshop::draft::FastenedDraft;
use workshop::entry::{JobId, Key};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::joints::{Face, Joint, JointState, Pass, Tightening};
use workshop::photos::Subject;
use workshop::torque::{Card, Generic, card};

use super::{
    Answer, Button, FormName, Next, Page, Refused, Run, Section, Target, Tone, Weight, forms,
    frame, photos, plain, strong,
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
    /// The time, in the person's zone.
    pub now: &'a ZonedDateTime,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside the step that can hurt.
pub const CAUTION: &str = "Battery and safety lanyard off. Pull the wrench slowly and let it click \
    once: twice is too much. Goggles where a spring or a circlip is near. The craft’s manual comes \
    first; for the impeller there is no figure but its own.";

/// A joint with its card and what keeps it open, reckoned once for all that the page says of it.
struct Reckoned<'a> {
    key: &'a Key,
    state: &'a JointState,
    card: Option<Card>,
    open: Vec<String>,
}

/// A joint that has a card, with it.
type Carded<'a> = (&'a JointState, &'a Card);

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let joints = view.job.joints_in_order().into_iter();
    let joints: Vec<Reckoned> = joints
        .map(|(key, state)| Reckoned {
            key,
            state,
            card: card(view.job, state),
            open: seal::open_at(view.job, key, view.now),
        })
        .collect();
    let next = joints.iter().find(|joint| !joint.state.done());
    let next_card = next.and_then(|joint| Some((joint.state, joint.card.as_ref()?)));
    let here = Target::Torque(view.id.clone());
    Page {
        title: "Torque and seal".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: match next {
            None => fit::answer(view.job).unwrap_or_else(|| answer(view.job, &joints, None)),
            Some(_) => answer(view.job, &joints, next_card),
        },
        evidence: evidence(view, &joints, next_card),
        next: match (next, next_card) {
            (Some(joint), Some((state, card))) => ask(view, joint.key, state, card),
            _ if view.job.next_fit().is_some() => fit::next(view).unwrap_or_else(|| done(view)),
            _ if view.job.joints.is_empty() && view.job.fits.is_empty() => {
                Next::Fill(forms::joint(None, view.refused, true))
            }
            _ => done(view),
        },
        cautions: vec![CAUTION],
    }
}

fn answer(job: &Job, joints: &[Reckoned<'_>], next: Option<Carded<'_>>) -> Answer {
    let all = joints.len();
    let done = joints.iter().filter(|joint| joint.state.done()).count();
    let mut open = joints.iter().filter(|joint| !joint.state.done());
    let stopped = open.find_map(|joint| Some((joint.state, joint.card.as_ref()?.stop.as_ref()?)));
    let (tone, headline, mut detail) = match (stopped, next) {
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
    detail.extend(besides(job));
    let assumed =
        next.is_some_and(|(_, card)| matches!(card.generic, Some(Generic::Offered { .. })));
    let origin = match all {
        0 => "",
        _ if assumed => {
            "This figure: assumed, no manual · preload computed by VDI 2230, friction as an interval"
        }
        _ => {
            "Figures: the craft’s manual, as you stated them · preload computed by VDI 2230, friction \
             as an interval"
        }
    };
    Answer {
        tone,
        headline,
        detail,
        origin: origin.to_owned(),
    }
}

/// How far the joints are that have no circle of screws.
fn besides(job: &Job) -> Option<Run> {
    let done = job.fits_done();
    let all = words::count(job.fits.len(), "joint", "joints");
    let are = if done == 1 { "is" } else { "are" };
    let said = format!(" Of {all} without a circle of screws {done} {are} done.");
    (!job.fits.is_empty()).then(|| plain(said))
}

/// What to do at the next joint, in a breath.
fn instruction(joint: &Joint, card: &Card) -> Vec<Run> {
    let mut runs = vec![
        plain("Next is "),
        strong(joint.name.clone()),
        plain(format!(": {} × {}", joint.count, joint.thread)),
    ];
    match (&joint.tightening, &card.expected) {
        (Tightening::Torque { .. } | Tightening::NotStated, Some(expected)) => {
            runs.push(plain(" to "));
            runs.extend(figure(joint, card));
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

/// The figure, first as the chosen wrench has it.
fn figure(joint: &Joint, card: &Card) -> Vec<Run> {
    let at_the_screw = match (&joint.tightening, card.torque) {
        (Tightening::Torque { figure, .. }, _) => figure.worded(),
        (_, Some(torque)) => format!("{}, assumed", both(torque).0),
        (_, None) => String::new(),
    };
    match &card.setting {
        Some(setting) => vec![
            strong(setting.read(setting.mark)),
            plain(format!(
                " on “{}” ({at_the_screw} at the screw)",
                setting.wrench
            )),
        ],
        None => vec![strong(at_the_screw)],
    }
}

pub(crate) fn order(card: &Card) -> String {
    let order: Vec<String> = card.order.iter().map(usize::to_string).collect();
    order.join(", ")
}

/// `by hand until all seat, then 11.0, 22.0 and 22.0 N·m`
pub(crate) fn passes(card: &Card) -> Option<String> {
    let torque = card.torque?;
    if let Some(setting) = &card.setting {
        return Some(format!(
            "by hand until all seat, then {}, the last once round the circle",
            tool::settings(setting)
        ));
    }
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

fn evidence(view: &View<'_>, joints: &[Reckoned<'_>], next: Option<Carded<'_>>) -> Vec<Section> {
    let mut sections = Vec::new();
    if let Some((state, card)) = next {
        let (in_place, torqued, marked) = state.counts();
        let passing = state.under_way(card.pass_count());
        let drawing = flange(&Flange {
            name: state.joint.value.name.clone(),
            order: card.order.clone(),
            in_place: usize::from(in_place),
            torqued: usize::from(torqued),
            marked: usize::from(marked),
            passes: usize::from(card.pass_count()),
            pass: passing.map(|pass| (usize::from(pass.number), usize::from(pass.screws))),
            next: passing.map(|pass| now(card, pass).1),
            target: passing.and_then(|pass| target(card, pass)),
        });
        sections.push(Section::Picture {
            heading: state.joint.value.name.clone(),
            svg: drawing.svg,
            caption: drawing.caption,
        });
    }
    let open: Vec<String> = joints
        .iter()
        .flat_map(|joint| seal::named(&joint.state.joint.value, &joint.open))
        .chain(frame::objections(view.objections))
        .collect();
    if !open.is_empty() {
        sections.push(Section::Notes {
            heading: "Open".to_owned(),
            notes: open,
        });
    }
    for joint in joints {
        let (key, state) = (joint.key, joint.state);
        let mut forms = vec![forms::fasten(key, state, view.refused)];
        forms.extend(forms::tools::of_joint(view.job, key, state, view.refused));
        forms.push(forms::seal::on_thread(view.job, key, view.refused));
        if state.joint.value.face == Face::Sealant || view.job.seals().seals.contains_key(key) {
            forms.push(forms::seal::seal(view.job, key, view.refused));
        }
        forms.extend([
            forms::seal::contact(view.job, key, view.refused),
            forms::joint(Some((key, &state.joint.value)), view.refused, false),
        ]);
        sections.push(Section::Card(card::card(view, joint, forms)));
        let subject = Subject::Joint(key.clone());
        sections.push(photos::strip((view.id, view.job), &subject, view.refused));
        sections.extend(seal::picture(view.job, key, state));
    }
    sections.extend(seal::ranked(view.job));
    let nothing = view.job.joints.is_empty() && view.job.fits.is_empty();
    if !nothing {
        sections.push(Section::Form(forms::seal::around(view.job, view.refused)));
        for key in view.job.seals().compounds.keys() {
            let form = forms::seal::compound(view.job, Some(key), view.refused);
            sections.push(Section::Form(form));
        }
        let new = forms::seal::compound(view.job, None, view.refused);
        sections.push(Section::Form(new));
        sections.push(Section::Form(forms::joint(None, view.refused, false)));
        sections.extend(tool::wrenches(view.job));
        let known = view.job.wrenches_in_order().into_iter().map(Some);
        let forms = known.chain([None]);
        sections
            .extend(forms.map(|known| Section::Form(forms::tools::wrench(known, view.refused))));
    }
    sections.extend(fit::evidence(view));
    sections
}

/// The next step of a joint: in, then pass by pass, then marked.
fn ask(view: &View<'_>, key: &Key, state: &JointState, card: &Card) -> Next {
    let joint = &state.joint.value;
    let count = joint.count;
    let (in_place, _, marked) = state.counts();
    let temporary = state
        .fastened
        .as_ref()
        .is_some_and(|fact| fact.value.temporary);
    let all = |words: &str, counts: (u8, u8, u8), weight: Weight| Button {
        label: format!("All {count} {words}"),
        form: FormName::Fasten,
        values: fastened(key, counts, None),
        weight,
        key: Some('a'),
    };
    let stated = (card.torque.is_some() || card.turn.is_some()) && card.stop.is_none();
    let (question, buttons) = if in_place < count || temporary {
        let words = format!("Are all {count} screws in, by hand, with what belongs on them?");
        (words, vec![all("are in", (count, 0, 0), Weight::Main)])
    } else if !stated {
        (
            "Its figure must be mended before a wrench comes near: open it below.".to_owned(),
            Vec::new(),
        )
    } else if let Some(pass) = state.under_way(card.pass_count()) {
        let mut buttons = going_round(key, state, card, pass);
        buttons.push(all("torqued", (count, count, marked), Weight::Plain));
        (instruct(card, pass), buttons)
    } else {
        let words = format!("A paint mark across each head and the part: are all {count} marked?");
        (
            words,
            vec![all("marked", (count, count, count), Weight::Main)],
        )
    };
    Next::Ask {
        question: vec![strong(joint.name.clone()), plain(format!(". {question}"))],
        buttons: buttons.into_iter().chain(frame::undo(view.job)).collect(),
        write: None,
    }
}

/// `Pass 2 of 3 at 22.0 N·m: now number 3, that is screw 2 clockwise from the top.`
fn instruct(card: &Card, pass: Pass) -> String {
    let (number, screw) = now(card, pass);
    let now = format!("now number {number}, that is screw {screw} clockwise from the top");
    let passes = card.pass_count();
    if passes == 1 {
        return format!("All to contact first, then the turn one by one: {now}.");
    }
    let at = target(card, pass).map_or_else(String::new, |target| format!(" at {target}"));
    let round = if pass.number == passes {
        ", the last, once round the circle"
    } else {
        ""
    };
    format!("Pass {} of {passes}{at}{round}: {now}.", pass.number)
}

/// The screw that comes next: its number in the order, and its place from the top, clockwise. The
/// last of several passes goes round the circle.
fn now(card: &Card, pass: Pass) -> (usize, usize) {
    let turn = usize::from(pass.screws);
    if card.pass_count() > 1 && pass.number == card.pass_count() {
        let number = card.order.iter().position(|&screw| screw == turn + 1);
        (number.unwrap_or_default() + 1, turn + 1)
    } else {
        (turn + 1, card.order.get(turn).copied().unwrap_or_default())
    }
}

/// What the wrench is set to in a pass.
fn target(card: &Card, pass: Pass) -> Option<String> {
    let at = usize::from(pass.number) - 1;
    if let Some(setting) = &card.setting {
        let pass = setting.passes.get(at)?;
        let feel = if pass.measured { "" } else { ", by feel" };
        return Some(format!("{}{feel}", setting.read(pass.mark)));
    }
    let share = card.passes.get(at)?;
    Some(format(card.torque? * share, Unit::NewtonMetre, 1))
}

/// The buttons that take a pass a screw on, or to its end.
fn going_round(key: &Key, state: &JointState, card: &Card, pass: Pass) -> Vec<Button> {
    let count = state.joint.value.count;
    let (in_place, _, marked) = state.counts();
    let last = pass.number == card.pass_count();
    let to = |screws: u8| {
        if last {
            fastened(key, (in_place, screws, marked), None)
        } else {
            fastened(key, (in_place, 0, marked), Some(Pass { screws, ..pass }))
        }
    };
    let one = Button {
        label: format!("Number {} done", now(card, pass).0),
        form: FormName::Fasten,
        values: to(pass.screws + 1),
        weight: Weight::Main,
        key: Some('n'),
    };
    let round = (!last).then(|| Button {
        label: format!("Pass {} done all round", pass.number),
        form: FormName::Fasten,
        values: to(count),
        weight: Weight::Plain,
        key: Some('p'),
    });
    [Some(one), round].into_iter().flatten().collect()
}

/// What a count sends.
fn fastened(
    key: &Key,
    (in_place, torqued, marked): (u8, u8, u8),
    pass: Option<Pass>,
) -> Vec<(&'static str, String)> {
    let mut sent = vec![
        ("joint", key.to_string()),
        ("in", in_place.to_string()),
        ("torqued", torqued.to_string()),
        ("marked", marked.to_string()),
    ];
    if let Some(pass) = pass {
        sent.push(("pass", pass.number.to_string()));
        sent.push(("gone", pass.screws.to_string()));
    }
    sent
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
        pass,
        gone,
    } = FastenedDraft::of(state);
    let count = state.joint.value.count;
    if state.done() {
        return format!("all {count} torqued and marked");
    }
    let stand_ins = if temporary { ", stand-ins" } else { "" };
    let pass = if pass.is_empty() {
        String::new()
    } else {
        format!(", {gone} through pass {pass}")
    };
    format!("{in_place} of {count} in{stand_ins}{pass}, {torqued} torqued, {marked} marked")
}

/// A torque in newton metres with the other unit behind it.
pub(crate) fn both(torque: f64) -> (String, String) {
    (
        format(torque, Unit::NewtonMetre, 1),
        format(torque, Unit::PoundForceFoot, 1),
    )
}
