//! What a card says of the wrench, the hole, a generic figure, and how even the circle ends.

use joint::strip;
use quantity::{Entered, Unit, format, number};
use workshop::job::Job;
use workshop::joints::{JointState, Tightening};
use workshop::torque::{By, Card, Generic, Held, MARGIN, SHARE, Setting, Strip, WANTED};

use super::card::kilonewtons;
use crate::page::{FactRow, Run, Section, plain, row, soft, strong};
use crate::words;

fn mm(metres: f64) -> String {
    format(metres, Unit::Millimetre, 1)
}

fn newton_metres(torque: f64) -> String {
    format(torque, Unit::NewtonMetre, 1)
}

fn percent(share: f64) -> String {
    format!("{:.0}\u{a0}%", share * 100.0)
}

/// The wrench: what to set, how sure, and what its scale would make of the figure's bare number.
pub(super) fn wrench(job: &Job, state: &JointState, card: &Card) -> Vec<FactRow> {
    let Some(setting) = &card.setting else {
        let choice = (!state.done()).then(|| unchosen(job, card));
        return choice.flatten().into_iter().collect();
    };
    let gain = match setting.gain {
        Some(gain) => format!(
            "; through the adapter the screw gets {gain:.2} times that, with the hand where it was \
             measured"
        ),
        None => String::new(),
    };
    let torque = card.torque.unwrap_or(setting.applied.torque);
    let mut rows = vec![row(
        "Set the wrench to",
        vec![
            strong(setting.read(setting.mark)),
            soft(format!(
                " on “{}”; {} at the screw, sure to within ±{}",
                setting.wrench,
                newton_metres(torque),
                percent(setting.applied.error)
            )),
        ],
        format!(
            "nearest mark of its own scale; ISO 6789 for a sound wrench, and half a mark{gain}"
        ),
    )];
    if let Some(crossed) = setting.crossed {
        let figure = match &state.joint.value.tightening {
            Tightening::Torque { figure, .. } => bare(figure),
            _ => trimmed(&number(torque, Unit::NewtonMetre, 1)),
        };
        let value = format!(
            "{figure} set on its {} scale would give {}",
            setting.scale.symbol(),
            newton_metres(crossed)
        );
        rows.push(row(
            "Mind the unit",
            vec![plain(value)],
            "by definition of the units",
        ));
    }
    rows
}

/// What to choose from, where something can be chosen.
fn unchosen(job: &Job, card: &Card) -> Option<FactRow> {
    card.torque?;
    if job.wrenches.is_empty() || card.stop.is_some() {
        return None;
    }
    let able = card.able.iter().map(|name| format!("“{name}”"));
    let able: Vec<String> = able.collect();
    let of_these = match able.len() {
        0 => "; none of yours measures it".to_owned(),
        n => format!("; {} would do", words::list(&able, n)),
    };
    Some(row(
        "Wrench",
        vec![plain("none chosen"), soft(of_these)],
        "choose it below, and this says what to set",
    ))
}

/// The figure's number without its unit, as typed.
fn bare(figure: &Entered) -> String {
    let number = figure.text.trim();
    number
        .trim_end_matches(|c: char| !c.is_ascii_digit())
        .to_owned()
}

fn trimmed(number: &str) -> String {
    number
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// `36, 71 and 71 lbf·in` on the chosen wrench.
pub(super) fn settings(setting: &Setting) -> String {
    let marks = setting.passes.iter();
    let marks: Vec<String> = marks
        .map(|pass| {
            let feel = if pass.measured { "" } else { " (by feel)" };
            let mark = number(pass.mark, setting.scale, setting.places);
            format!("{mark}{feel}")
        })
        .collect();
    format!(
        "{}\u{a0}{} on “{}”",
        words::list(&marks, marks.len()),
        setting.scale.symbol(),
        setting.wrench
    )
}

/// A pass that the chosen wrench does not measure.
pub(super) fn unmeasured(card: &Card) -> Option<String> {
    let setting = card.setting.as_ref()?;
    let pass = setting.passes.iter().find(|pass| !pass.measured)?;
    Some(format!(
        "The pass at {} is less than “{}” measures: go that one by feel and evenly, or with a smaller \
         wrench. The passes after it count.",
        setting.read(pass.mark),
        setting.wrench
    ))
}

/// How deep the thread is held, against how deep it must be.
pub(super) fn held(state: &JointState, card: &Card) -> Option<FactRow> {
    let name = "The thread is held over";
    let known = card.held.map(|held| how(state, &held));
    let Some(strip) = &card.strip else {
        let (length, how) = known?;
        let origin = format!("{how}; when such a hole gives way is not known here");
        return Some(row(name, vec![strong(length)], origin));
    };
    let what = match card.held.map(|held| held.by) {
        Some(By::Insert { .. }) => "the insert is torn out; its hole 1.08 to 1.30 pitches wider",
        _ => "its thread strips; thread limits 6g and 6H",
    };
    let enough = format!(
        "from {} to {} on, by what the casting is, the screw breaks before {what}, cast aluminium of \
         {:.0} to {:.0} MPa in shear; less where it was stripped or corroded",
        mm(strip.needed.low),
        mm(strip.needed.high),
        strip::CASTING.low / 1e6,  // not a conversion: printed in MPa
        strip::CASTING.high / 1e6, // not a conversion: printed in MPa
    );
    Some(match (known, strip.at) {
        (Some((length, how)), Some(at)) => {
            let value = vec![plain(length), soft(bears(strip, &kilonewtons(&at)))];
            row(name, value, format!("{how}; {enough}"))
        }
        _ => row(name, vec![plain("not measured")], enough),
    })
}

fn bears(strip: &Strip, at: &str) -> String {
    let margin = strip.margin.map_or_else(String::new, |margin| {
        format!(", at least {:.1} times what the torque gives", margin.low)
    });
    format!("; strips at {at}{margin}")
}

/// The held length, and how it is known.
fn how(state: &JointState, held: &Held) -> (String, String) {
    let typed = state.joint.value.engagement.as_ref();
    let hole = state.fittings.hole.as_ref().map(|fact| &fact.value);
    let (By::Hole { .. } | By::Insert { .. }, Some(hole)) = (held.by, hole) else {
        let typed = typed.map_or_else(|| mm(held.length), Entered::worded);
        return (typed, "as you typed it".to_owned());
    };
    let insert = hole.insert.as_ref().map_or_else(String::new, |insert| {
        format!(", in a wire insert sold as {}", insert.worded())
    });
    let instead = typed.map_or_else(String::new, |typed| {
        format!("; it counts before the {} that was typed", typed.worded())
    });
    let how = format!(
        "measured: the screw goes in {}, {} of it not held{insert}{instead}",
        hole.reach.worded(),
        hole.lost.worded()
    );
    (mm(held.length), how)
}

/// Little thread beyond the end of the screw.
pub(super) fn near_the_end(card: &Card, pitch: f64) -> Option<String> {
    let (By::Hole { left } | By::Insert { left }) = card.held?.by else {
        return None;
    };
    (left < pitch).then(|| {
        format!(
            "Only {} of thread is left beyond the end of the screw: a chip or a drop of compound at \
             the bottom stops it before it clamps. Clean the hole to its bottom, and mind that no \
             washer is missing. Common practice, no source.",
            mm(left)
        )
    })
}

/// A generic figure, or that there is none.
pub(super) fn generic(generic: &Generic) -> (Vec<Run>, String) {
    let Generic::Offered { torque, by_hole } = *generic else {
        return (
            vec![plain("not stated")],
            "nothing is assumed in its place".to_owned(),
        );
    };
    let (metric, other) = super::both(torque);
    let hole = if by_hole {
        format!("; less than that, for the hole bears {MARGIN} times it at its worst")
    } else {
        String::new()
    };
    (
        vec![strong(metric), soft(format!(" ({other})"))],
        format!(
            "assumed, no manual: {} of yield were the thread at its slipperiest, after Budynas & \
             Nisbett 8-9{hole}",
            percent(SHARE)
        ),
    )
}

/// What there is to mind about a generic figure, or why there is none.
pub(super) fn about_generic(card: &Card) -> Option<String> {
    match card.generic.as_ref()? {
        Generic::Offered { .. } => Some(
            "This figure is assumed from size, class and what is on the thread. Look for the manual’s \
             before you use it, and write it in when you find it."
                .to_owned(),
        ),
        Generic::Withheld(why) => Some(format!(
            "No figure is stated. Find it in the craft’s manual; until then the joint stays open. {why}"
        )),
    }
}

/// What the star is for, behind the order itself.
pub(super) fn why_a_star(card: &Card) -> Option<Run> {
    let even = card.even.as_ref().filter(|even| even.round > even.star)?;
    let less = even.round / even.star;
    Some(soft(format!(
        " (tilts the parts {less:.1} times less than going round)"
    )))
}

/// How far the preloads scatter, and how even the circle ends.
pub(super) fn even(card: &Card) -> Vec<FactRow> {
    let scattered = |scatter: joint::Interval| {
        let value = format!("±{:.0} to ±{}", scatter.low * 100.0, percent(scatter.high));
        row(
            "From screw to screw",
            vec![plain(value)],
            "by torque wrench, friction only estimated: VDI 2230 of 1986, as others quote it",
        )
    };
    let scatter = card.torque.and(card.scatter);
    let mut rows: Vec<FactRow> = scatter.map(scattered).into_iter().collect();
    let (Some(even), Some(_)) = (&card.even, card.torque) else {
        return rows;
    };
    let last = even.lacks.last().copied().unwrap_or(even.once);
    let worth = match even.worth {
        Some(passes) if passes > card.passes.len() => {
            format!(", under {} after {passes} passes", percent(WANTED))
        }
        _ => ", and more passes are not worth going".to_owned(),
    };
    rows.push(row(
        "How even they end",
        vec![
            plain(format!("the loosest lacks {:.1}\u{a0}%", last * 100.0)),
            soft(format!(" ({} after one pass{worth})", percent(even.once))),
        ],
        "a model to compare with, not to predict: a neighbour loses 15\u{a0}% of each gain",
    ));
    rows
}

/// The wrenches of the job.
pub(super) fn wrenches(job: &Job) -> Option<Section> {
    let rows: Vec<FactRow> = job
        .wrenches_in_order()
        .into_iter()
        .map(|(_, wrench)| {
            let step = wrench.step.as_ref().map_or_else(
                || "set at the factory".to_owned(),
                |step| format!("a mark every {}", step.worded()),
            );
            let value = format!(
                "{} to {}, {step}",
                bare(&wrench.least),
                wrench.most.worded()
            );
            row(&wrench.name, vec![plain(value)], "described by you")
        })
        .collect();
    let heading = "Torque wrenches".to_owned();
    (!rows.is_empty()).then_some(Section::Facts { heading, rows })
}
