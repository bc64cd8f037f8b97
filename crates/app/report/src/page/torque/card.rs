//! The card of one joint.

use joint::Interval;
use joint::turn::Verdict;
use quantity::{Unit, format, number};
use workshop::job::Job;
use workshop::joints::{Face, Joint, JointState, Tightening};
use workshop::torque::Card;

use super::{Reckoned, View, both, order, passes, seal, state_words, tool};
use crate::page::forms::{self, label};
use crate::page::{self, FactRow, Form, Run, Tone, plain, row, soft};
use crate::words;

pub(super) fn card(
    view: &View<'_>,
    Reckoned {
        key,
        state,
        card,
        open,
    }: &Reckoned<'_>,
    forms: Vec<Form>,
) -> page::Card {
    let (job, card) = (view.job, card.as_ref());
    let joint = &state.joint.value;
    let stopped = card.is_some_and(|card| card.stop.is_some());
    let temporary = state
        .fastened
        .as_ref()
        .is_some_and(|fact| fact.value.temporary);
    page::Card {
        heading: joint.name.clone(),
        tone: match (state.done(), stopped) {
            (false, true) => Tone::Stop,
            _ if !open.is_empty() => Tone::Open,
            (true, _) => Tone::Good,
            (false, false) => Tone::Plain,
        },
        state: state_words(state),
        rows: card
            .map_or_else(Vec::new, |card| rows(job, state, card))
            .into_iter()
            .chain(seal::rows(job, key, joint))
            .chain(page::teardown::found::shims(job, &joint.name))
            .collect(),
        notes: card
            .map_or_else(Vec::new, |card| notes(joint, card, temporary))
            .into_iter()
            .chain(seal::notes(job, key, open))
            .collect(),
        forms,
    }
}

fn rows(job: &Job, state: &JointState, card: &Card) -> Vec<FactRow> {
    let joint = &state.joint.value;
    let manual = words::manual(&joint.page);
    let screws = format!(
        "{} × {} {}, {}, into {}",
        joint.count,
        joint.thread,
        label(&forms::HEADS, &workshop::draft::HEADS, joint.head),
        label(&forms::CLASSES, &workshop::draft::CLASSES, joint.class),
        label(&forms::HOLES, &workshop::draft::HOLES, joint.hole),
    );
    let mut rows = vec![row("Screws", vec![plain(screws)], "described by you")];
    rows.extend(tightening(joint, card, &manual));
    rows.extend(tool::wrench(job, state, card));
    let condition = label(
        &forms::CONDITIONS,
        &workshop::draft::CONDITIONS,
        joint.condition,
    );
    rows.push(row(
        "On thread and head",
        vec![plain(condition)],
        "as you have it",
    ));
    if joint.face != Face::Bare {
        let face = label(&forms::FACES, &workshop::draft::FACES, joint.face);
        rows.push(row(
            "Between the faces",
            vec![plain(face)],
            "described by you",
        ));
    }
    if let Some(expected) = &card.expected {
        rows.push(row(
            "Expect in each screw",
            vec![
                plain(kilonewtons(&expected.preload)),
                soft(format!(" ({} of yield)", share(&expected.used))),
            ],
            format!(
                "VDI 2230; friction as an interval, wrench ±{:.0}\u{a0}%, {}",
                card.wrench * 100.0,
                if card.setting.is_some() {
                    "as chosen"
                } else {
                    "assumed"
                }
            ),
        ));
    }
    rows.extend(tool::held(state, card));
    let star = tool::why_a_star(card);
    rows.push(row(
        "Order",
        [plain(order(card))].into_iter().chain(star).collect(),
        "star: across, then between; common practice",
    ));
    if let Some(passes) = passes(card) {
        rows.push(row(
            "Passes",
            vec![plain(passes)],
            "common practice, no source",
        ));
    }
    rows.extend(tool::even(card));
    rows
}

fn tightening(joint: &Joint, card: &Card, manual: &str) -> Vec<FactRow> {
    match &joint.tightening {
        Tightening::Torque { figure, second, .. } => {
            let (metric, other) = both(figure.value);
            let beside = second.as_ref().map_or_else(
                || {
                    if figure.unit == Unit::NewtonMetre {
                        other
                    } else {
                        metric
                    }
                },
                quantity::Entered::worded,
            );
            let agree = match card.agrees {
                Some(true) => "; its two figures agree",
                Some(false) => "; its two figures do not agree",
                None => "; one figure only, so nothing to hold it against",
            };
            vec![row(
                "Torque",
                vec![Run::Strong(figure.worded()), soft(format!(" ({beside})"))],
                format!("{manual}{agree}"),
            )]
        }
        Tightening::Turn { turn, seat, grip } => {
            let seat = label(&forms::SEATS, &workshop::draft::SEATS, *seat);
            let approach = card.turn.map_or(0.0, |turned| turned.approach);
            vec![
                row(
                    "To contact, then",
                    vec![Run::Strong(turn.worded())],
                    manual.to_owned(),
                ),
                row(
                    "That is",
                    vec![plain(format(approach, Unit::Millimetre, 3))],
                    format!("of advance, onto {seat}, {} thick", grip.worded()),
                ),
            ]
        }
        Tightening::NotStated => {
            let (value, origin) = card
                .generic
                .as_ref()
                .map_or_else(|| (vec![plain("not stated")], String::new()), tool::generic);
            vec![row("Torque", value, origin)]
        }
    }
}

fn notes(joint: &Joint, card: &Card, temporary: bool) -> Vec<String> {
    let mut notes: Vec<String> = card.stop.iter().map(ToString::to_string).collect();
    if temporary {
        notes.push("Stand-ins are in. They must be replaced before the joint counts.".to_owned());
    }
    let past = card
        .expected
        .is_some_and(|expected| expected.used.high > 0.9);
    if past && card.stop.is_none() {
        notes.push(
            "If the thread is as slippery as it may be, this torque takes the screw past 90\u{a0}% \
             of yield. Bring the thread to the state the manual names before you set it."
                .to_owned(),
        );
    }
    if let (
        Some(converted),
        Tightening::Torque {
            figure, stated_for, ..
        },
    ) = (&card.converted, &joint.tightening)
    {
        let condition = |c| label(&forms::CONDITIONS, &workshop::draft::CONDITIONS, c);
        notes.push(format!(
            "The manual’s {} holds for {}; you have {}. The same preload would take some {} to {} \
             here. Better than to convert: bring the thread to the manual’s state.",
            figure.worded(),
            condition(*stated_for),
            condition(joint.condition),
            number(converted.torque.low, Unit::NewtonMetre, 1),
            format(converted.torque.high, Unit::NewtonMetre, 1)
        ));
    }
    let strips = card.strip.and_then(|strip| strip.at).zip(card.expected);
    if strips.is_some_and(|(at, expected)| at.low < expected.preload.high) {
        notes.push(
            "If thread and casting are at their worst, this torque strips the thread. Find out how deep \
             the thread is really held, clean it to its bottom, and bring it to the state the manual \
             names; a longer screw or an insert is the way out, more torque is not."
                .to_owned(),
        );
    }
    if let Some(turned) = card
        .turn
        .filter(|turned| turned.verdict == Verdict::TooMuch)
    {
        notes.push(format!(
            "On so hard a seat {} already reaches half of yield, and {} is more. Contact must mean \
             the first touch, not a snug screw; stop when the pull rises sharply.",
            format(turned.sensible, Unit::Degree, 0),
            format(turned.angle, Unit::Degree, 0)
        ));
    }
    notes.extend(tool::about_generic(card));
    notes.extend(tool::unmeasured(card));
    let thread: Result<joint::Thread, _> = joint.thread.parse();
    notes.extend(
        thread
            .ok()
            .and_then(|thread| tool::near_the_end(card, thread.pitch)),
    );
    notes
}

/// `9.8 to 15.1 kN`
pub(super) fn kilonewtons(interval: &Interval) -> String {
    format!(
        "{} to {}",
        number(interval.low, Unit::Kilonewton, 1),
        format(interval.high, Unit::Kilonewton, 1)
    )
}

/// `52 to 88 %`
pub(super) fn share(interval: &Interval) -> String {
    format!(
        "{:.0} to {:.0}\u{a0}%",
        interval.low * 100.0,
        interval.high * 100.0
    )
}
