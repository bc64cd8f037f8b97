//! Sliders: what an impeller, a nozzle or a gap nobody has at hand would do.

use quantity::{Entered, Unit};
use workshop::choose::Fitting;
use workshop::choose::answer::Does;
use workshop::draft::choose::FittingDraft;

use super::{View, option, say};
use crate::page::{FactRow, Section, Target, plain, row};

/// Sliders, and what comes of where they stand.
#[derive(Clone, Debug)]
pub struct Try {
    /// Its heading.
    pub heading: String,
    /// What it is for.
    pub intro: String,
    /// The page that shows it.
    pub page: Target,
    /// The sliders.
    pub sliders: Vec<Slider>,
    /// What comes of it.
    pub told: Vec<FactRow>,
    /// What to mind, or why nothing comes of it.
    pub note: String,
}

/// One slider; its numbers as they stand in its unit.
#[derive(Clone, Debug)]
pub struct Slider {
    /// Its key.
    pub key: &'static str,
    /// Its label.
    pub label: &'static str,
    /// The unit of its numbers.
    pub unit: &'static str,
    /// Least.
    pub least: String,
    /// Greatest.
    pub greatest: String,
    /// From one place to the next.
    pub step: &'static str,
    /// Where it stands.
    pub value: String,
}

/// Where the sliders stand, as sent; empty for where the fitted parts are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stand {
    /// Leading edge, degrees.
    pub leading: String,
    /// Trailing edge, degrees.
    pub trailing: String,
    /// Nozzle, millimetres.
    pub nozzle: String,
    /// Gap, millimetres.
    pub gap: String,
}

/// How far a slider goes to either side, and from place to place.
const ANGLE: (f64, &str) = (3.0, "0.25");
const NOZZLE: (f64, &str) = (4.0, "0.25");

/// The sliders; none while nothing can be said of the craft.
pub(super) fn section(view: &View<'_>) -> Option<Section> {
    tried(view).map(Section::Try)
}

/// The same, to be shown alone.
pub fn tried(view: &View<'_>) -> Option<Try> {
    let setup = view.says.setup.as_ref().ok()?;
    let fitted = &view.job.choices.craft.as_ref()?.value.fitted;
    let known = |field: &str| {
        let known = setup.known.iter().find(|known| known.field == field);
        known.map_or(f64::NAN, |known| known.value)
    };
    let degrees = |angle: &Option<Entered>| {
        angle
            .as_ref()
            .map_or(f64::NAN, |angle| Unit::Degree.from_si(angle.value))
    };
    let millimetres = |field: &str| Unit::Millimetre.from_si(known(field));
    let stands = &view.stand;
    let around =
        |key, label, unit, (centre, (reach, step)): (f64, (f64, &'static str)), stand: &str| {
            slider(
                (key, label, unit),
                [centre, centre - reach, centre + reach],
                step,
                stand,
            )
        };
    let sliders = vec![
        around(
            "leading",
            "Leading edge",
            "°",
            (degrees(&fitted.leading), ANGLE),
            &stands.leading,
        ),
        around(
            "trailing",
            "Trailing edge",
            "°",
            (degrees(&fitted.trailing), ANGLE),
            &stands.trailing,
        ),
        around(
            "nozzle",
            "Nozzle’s bore",
            "mm",
            (millimetres("nozzle"), NOZZLE),
            &stands.nozzle,
        ),
        slider(
            ("gap", "Radial gap", "mm"),
            [millimetres("gap"), 0.05, 1.0],
            "0.05",
            &stands.gap,
        ),
    ];
    let centres = [
        degrees(&fitted.leading),
        degrees(&fitted.trailing),
        millimetres("nozzle"),
        millimetres("gap"),
    ];
    let (told, note) = outcome(view, &sliders, centres);
    Some(Try {
        heading: "Try any of it".to_owned(),
        intro: "Where the sliders stand against what is fitted, by 60 beliefs. Nothing is put on record.".to_owned(),
        page: Target::Choose(view.id.clone()),
        sliders,
        told,
        note,
    })
}

fn slider(
    (key, label, unit): (&'static str, &'static str, &'static str),
    [centre, least, greatest]: [f64; 3],
    step: &'static str,
    stand: &str,
) -> Slider {
    let number = |value: f64| format!("{value:.2}");
    Slider {
        key,
        label,
        unit,
        least: number(least.min(centre)),
        greatest: number(greatest.max(centre)),
        step,
        value: if stand.is_empty() {
            number(centre)
        } else {
            stand.to_owned()
        },
    }
}

/// Nearer to what is fitted than this is what is fitted.
const SAME: f64 = 0.02;

fn outcome(view: &View<'_>, sliders: &[Slider], centres: [f64; 4]) -> (Vec<FactRow>, String) {
    let moved = |at: usize| {
        let value = &sliders[at].value;
        let same = value
            .parse()
            .is_ok_and(|value: f64| (value - centres[at]).abs() < SAME);
        if same {
            String::new()
        } else {
            format!("{value} {}", sliders[at].unit)
        }
    };
    let mut draft = FittingDraft {
        name: "tried".to_owned(),
        leading: moved(0),
        trailing: moved(1),
        nozzle: moved(2),
        gap: moved(3),
        ..FittingDraft::default()
    };
    if [&draft.leading, &draft.trailing, &draft.nozzle, &draft.gap]
        .iter()
        .all(|text| text.is_empty())
    {
        return (Vec::new(), "Move a slider.".to_owned());
    }
    // Work comes from both edges: one that stays is said as it is.
    if draft.leading.is_empty() != draft.trailing.is_empty() {
        let stays = |at: usize| format!("{} {}", sliders[at].value, sliders[at].unit);
        if draft.leading.is_empty() {
            draft.leading = stays(0);
        } else {
            draft.trailing = stays(1);
        }
    }
    let fitting: Fitting = match draft.read(view.job.unit()) {
        Ok(fitting) => fitting,
        Err(refusal) => return (Vec::new(), refusal.to_string()),
    };
    match view.says.tried(view.job, &fitting) {
        None => (
            Vec::new(),
            "Nothing can be said of this craft yet.".to_owned(),
        ),
        Some(Err(untold)) => (Vec::new(), option::why(&untold)),
        Some(Ok(does)) => told(view, &does),
    }
}

fn told(view: &View<'_>, does: &Does) -> (Vec<FactRow>, String) {
    let mut rows = option::changes(view, does, "");
    if let Some(turns) = &does.turns {
        rows.push(row(
            "It would turn",
            vec![plain(say::level(turns, Unit::Rpm))],
            "",
        ));
    }
    (rows, option::warned(does).join(" "))
}
