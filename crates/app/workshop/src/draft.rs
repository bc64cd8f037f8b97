//! What a person types, field by field, before it is read.
//!
//! The forms of the bench app and the tables of a job file have the same fields, so both are read
//! here, once. A draft keeps the text as typed; reading it gives a body or names what is refused.

pub mod bench;
mod card;
pub mod choose;
pub mod diagnose;
mod fit;
pub mod inspect;
mod joint;
pub mod layout;
mod list;
pub mod photos;
pub mod tools;
mod tries;
pub mod upkeep;
mod walk;
pub mod water;

use jiff::civil::Date;
use quantity::{Entered, Unit, parse};

use crate::act::Act;
use crate::entry::{Body, JobId, Key};
use crate::job::{
    Fact, Job, Lead, LeafSet, Limits, Measure, Posture, Pump, Rotation, Tried, View, Walk,
};
use crate::reading;
use crate::refusal::{Obstacle, Refusal};
use list::list;

pub use bench::BenchDraft;
pub use choose::ChoicesDraft;
pub use diagnose::SearchDraft;
pub use fit::{
    CARRIES, CHECKS, DRIVES, ENDS, FILLS, FRONTS, FitDraft, HANDS, KINDS, LIPS, PRESSED, RUBBERS,
    TURNS, UNTILS,
};
pub use inspect::InspectionDraft;
pub use joint::{CLASSES, CONDITIONS, FACES, FastenedDraft, HEADS, HOLES, JointDraft, SEATS};
pub use layout::LogForm;
pub use photos::PhotoDraft;
pub use tools::ToolsDraft;
pub use upkeep::UpkeepDraft;
pub use walk::{ORDERS, WalkDraft};
pub use water::TrialDraft;

/// A word of the form with what it stands for.
pub type Choice<T> = (&'static str, T);

/// The words for [`View`].
pub const VIEWS: [Choice<View>; 2] = [
    ("looking-forward", View::LookingForward),
    ("looking-aft", View::LookingAft),
];
/// The words for [`Rotation`].
pub const ROTATIONS: [Choice<Rotation>; 2] = [
    ("clockwise", Rotation::Clockwise),
    ("anticlockwise", Rotation::Anticlockwise),
];
/// The words for [`Lead`].
pub const LEADS: [Choice<Lead>; 3] = [
    ("along-shaft", Lead::AlongShaft),
    ("round-ring", Lead::RoundRing),
    ("under-edge", Lead::UnderEdge),
];
/// The words for [`Posture`].
pub const POSTURES: [Choice<Posture>; 4] = [
    ("craft-upright", Posture::CraftUpright),
    ("craft-on-side", Posture::CraftOnSide),
    ("bench-shaft-level", Posture::BenchShaftLevel),
    ("bench-shaft-upright", Posture::BenchShaftUpright),
];
/// The words for [`Measure`].
pub const MEASURES: [Choice<Measure>; 2] = [
    ("radial", Measure::Radial),
    ("diametral", Measure::Diametral),
];
/// The units leaves are marked in.
pub const LEAF_UNITS: [Choice<Unit>; 2] = [("thou", Unit::Thou), ("mm", Unit::Millimetre)];

/// A day as typed; none where nothing was.
fn day(text: &str) -> Result<Option<Date>, Refusal> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| {
            Refusal::Work(Obstacle::NoDay {
                text: text.to_owned(),
            })
        }),
    }
}

/// The word for a value of a choice.
pub fn word<T: PartialEq + Copy>(choices: &[Choice<T>], value: T) -> &'static str {
    choices
        .iter()
        .find(|(_, known)| *known == value)
        .map_or("", |(word, _)| word)
}

/// [`Pump`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PumpDraft {
    /// Number of blades.
    pub blades: String,
    /// Clock positions.
    pub positions: String,
    /// Bore; a bare number is millimetres.
    pub bore: String,
    /// A word of [`VIEWS`].
    pub view: String,
    /// A word of [`ROTATIONS`].
    pub rotation: String,
}

/// [`LeafSet`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LeavesDraft {
    /// A word of [`LEAF_UNITS`].
    pub unit: String,
    /// The leaves, parted by spaces or semicolons.
    pub thicknesses: String,
    /// Width; a bare number is millimetres.
    pub width: String,
    /// A word of [`LEADS`].
    pub lead: String,
    /// A word of [`POSTURES`].
    pub posture: String,
    /// May be empty.
    pub tolerance: String,
    /// May be empty.
    pub feel: String,
}

/// [`Limits`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LimitsDraft {
    /// May be empty.
    pub least: String,
    /// May be empty.
    pub greatest: String,
    /// A word of [`MEASURES`].
    pub measure: String,
    /// May be empty.
    pub page: String,
    /// Whether the manual permits rub-in.
    pub rub_in: bool,
}

impl PumpDraft {
    /// The draft that reads as `pump`.
    pub fn of(pump: &Pump) -> Self {
        Self {
            blades: pump.blades.to_string(),
            positions: pump.positions.to_string(),
            bore: typed(&pump.bore, Unit::Millimetre),
            view: word(&VIEWS, pump.view).to_owned(),
            rotation: word(&ROTATIONS, pump.rotation).to_owned(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Pump, Refusal> {
        Ok(Pump {
            blades: count("blades", &self.blades, "a number of blades from 2 to 8")?,
            positions: count(
                "positions",
                &self.positions,
                "4, 6, 8 or 12 clock positions",
            )?,
            bore: length("bore", &self.bore, Unit::Millimetre)?,
            view: choose("view", &self.view, &VIEWS)?,
            rotation: choose("rotation", &self.rotation, &ROTATIONS)?,
        })
    }
}

impl LeavesDraft {
    /// The draft that reads as `leaves`.
    pub fn of(leaves: &LeafSet) -> Self {
        let mm = |e: &Entered| typed(e, Unit::Millimetre);
        let optional = |e: &Option<Entered>| e.as_ref().map_or_else(String::new, mm);
        let thicknesses = leaves
            .thicknesses
            .iter()
            .map(|leaf| typed(leaf, leaves.unit));
        Self {
            unit: word(&LEAF_UNITS, leaves.unit).to_owned(),
            thicknesses: thicknesses.collect::<Vec<_>>().join("; "),
            width: mm(&leaves.width),
            lead: word(&LEADS, leaves.lead).to_owned(),
            posture: word(&POSTURES, leaves.posture).to_owned(),
            tolerance: optional(&leaves.tolerance),
            feel: optional(&leaves.feel),
        }
    }

    /// Reads it. The leaves are put in order, thinnest first.
    pub fn read(&self) -> Result<LeafSet, Refusal> {
        let unit = choose("unit", &self.unit, &LEAF_UNITS)?;
        Ok(LeafSet {
            unit,
            thicknesses: list("thicknesses", &self.thicknesses, unit)?,
            width: length("width", &self.width, Unit::Millimetre)?,
            lead: choose("lead", &self.lead, &LEADS)?,
            posture: choose("posture", &self.posture, &POSTURES)?,
            tolerance: optional("tolerance", &self.tolerance, Unit::Millimetre)?,
            feel: optional("feel", &self.feel, Unit::Millimetre)?,
        })
    }
}

impl LimitsDraft {
    /// The draft that reads as `limits` where a bare number takes `unit`.
    pub fn of(limits: &Limits, unit: Unit) -> Self {
        let optional =
            |e: &Option<Entered>| e.as_ref().map_or_else(String::new, |e| typed(e, unit));
        Self {
            least: optional(&limits.least),
            greatest: optional(&limits.greatest),
            measure: word(&MEASURES, limits.measure).to_owned(),
            page: limits.page.clone(),
            rub_in: limits.rub_in,
        }
    }

    /// Reads it; a bare number takes `unit`.
    pub fn read(&self, unit: Unit) -> Result<Limits, Refusal> {
        Ok(Limits {
            least: optional("least", &self.least, unit)?,
            greatest: optional("greatest", &self.greatest, unit)?,
            measure: choose("measure", &self.measure, &MEASURES)?,
            page: self.page.trim().to_owned(),
            rub_in: self.rub_in,
        })
    }
}

/// A whole job as typed: what a job file holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JobDraft {
    /// Craft and reason.
    pub title: String,
    /// Anything worth reading first.
    pub note: String,
    /// The earlier job of the same pump; may be empty.
    pub follows: String,
    /// The pump.
    pub pump: Option<PumpDraft>,
    /// The leaves.
    pub leaves: Option<LeavesDraft>,
    /// The manual's limits.
    pub limits: Option<LimitsDraft>,
    /// The order of trying.
    pub walk: Option<WalkDraft>,
    /// The joints, by key, with how far they have come.
    pub joints: Vec<(String, JointDraft, Option<FastenedDraft>)>,
    /// The wrenches, and what is said of the joints beyond their description.
    pub tools: ToolsDraft,
    /// The joints that are no circle of screws, with how far they have come.
    pub fits: Vec<FitDraft>,
    /// Spot and reading, in the order tried.
    pub readings: Vec<(String, String)>,
    /// The plan and how far it has come.
    pub bench: BenchDraft,
    /// What was looked at and measured around the gap.
    pub inspections: Vec<InspectionDraft>,
    /// The photos.
    pub photos: Vec<PhotoDraft>,
    /// The water tests.
    pub trials: Vec<TrialDraft>,
    /// What was said about what to fit.
    pub choices: ChoicesDraft,
    /// What is wrong, and what was looked at.
    pub diagnosis: SearchDraft,
    /// Service.
    pub upkeep: UpkeepDraft,
}

impl JobDraft {
    /// The draft that brings an empty job to `job`, but for its history.
    pub fn of(job: &Job) -> Self {
        let unit = job.unit();
        let positions = job.pump.as_ref().map_or(0, |pump| pump.value.positions);
        let readings = job.tries.iter().map(|(spot, tries)| {
            let tries: Vec<Tried> = tries.iter().map(|tried| tried.value.clone()).collect();
            (
                reading::write_spot(*spot, positions),
                reading::write(&tries, unit),
            )
        });
        let joints = job.joints_in_order().into_iter().map(|(key, state)| {
            let fastened = state.fastened.as_ref().map(|_| FastenedDraft::of(state));
            (
                key.to_string(),
                JointDraft::of(&state.joint.value),
                fastened,
            )
        });
        Self {
            title: job.title.clone().unwrap_or_default(),
            note: job.note.clone(),
            follows: job
                .follows
                .as_ref()
                .map_or_else(String::new, ToString::to_string),
            pump: job.pump.as_ref().map(|fact| PumpDraft::of(&fact.value)),
            leaves: job.leaves.as_ref().map(|fact| LeavesDraft::of(&fact.value)),
            limits: job
                .limits
                .as_ref()
                .map(|fact| LimitsDraft::of(&fact.value, unit)),
            walk: job
                .walk
                .as_ref()
                .map(|fact| WalkDraft::of(&fact.value, unit)),
            joints: joints.collect(),
            tools: ToolsDraft::of(job),
            fits: fit::drafts(job),
            readings: readings.collect(),
            bench: BenchDraft::of(job),
            inspections: inspect::drafts(job),
            photos: photos::drafts(job),
            trials: water::drafts(job),
            choices: choose::drafts(job),
            diagnosis: diagnose::drafts(job),
            upkeep: upkeep::drafts(job),
        }
    }

    /// The act that opens a job that is not there yet; one that is there must be the same.
    fn opening(&self, job: &Job) -> Result<Option<Act>, Refusal> {
        let follows = match self.follows.as_str() {
            "" => None,
            id => Some(JobId::new(id)?),
        };
        match &job.title {
            None => Ok(Some(Act::Record(Body::JobOpened {
                title: self.title.clone(),
                note: self.note.clone(),
                follows,
            }))),
            Some(title) if *title != self.title => Err(Refusal::OtherTitle {
                here: title.clone(),
                there: self.title.clone(),
            }),
            Some(_) if follows.is_some() && follows != job.follows => Err(Refusal::FollowsOther {
                here: job.follows.as_ref().map(ToString::to_string),
                there: self.follows.clone(),
            }),
            Some(_) => Ok(None),
        }
    }

    /// The acts that bring `job` to what this draft says. Nothing that the job has is taken away,
    /// and a draft that says what the job has already gives no act.
    pub fn acts(&self, job: &Job) -> Result<Vec<Act>, Refusal> {
        let mut acts: Vec<Act> = self.opening(job)?.into_iter().collect();
        let mut unit = job.unit();
        if let Some(draft) = &self.pump {
            let pump = draft.read()?;
            if !has(job.pump.as_ref(), |had| {
                PumpDraft::of(had) == PumpDraft::of(&pump)
            }) {
                acts.push(Act::Record(Body::PumpDescribed(pump)));
            }
        }
        if let Some(draft) = &self.leaves {
            let leaves = draft.read()?;
            unit = leaves.unit;
            let same = |had: &LeafSet| LeavesDraft::of(had) == LeavesDraft::of(&leaves);
            if !has(job.leaves.as_ref(), same) {
                acts.push(Act::Record(Body::LeavesDescribed(leaves)));
            }
        }
        // From here on a bare number takes the unit of the draft's leaves, whatever the job's was.
        if let Some(draft) = &self.limits {
            let limits = draft.read(unit)?;
            let of = |limits: &Limits| LimitsDraft::of(limits, unit);
            if !has(job.limits.as_ref(), |had| of(had) == of(&limits)) {
                acts.push(Act::Record(Body::LimitsStated(limits)));
            }
        }
        if let Some(draft) = &self.walk {
            let walk = draft.read(unit)?;
            let of = |walk: &Walk| WalkDraft::of(walk, unit);
            if !has(job.walk.as_ref(), |had| of(had) == of(&walk)) {
                acts.push(Act::Record(Body::WalkChosen(walk)));
            }
        }
        acts.extend(self.tools.new_wrenches(job)?);
        acts.extend(self.new_joints(job)?);
        acts.extend(fit::acts(&self.fits, job)?);
        acts.extend(self.new_tries(job, unit)?);
        acts.extend(inspect::acts(&self.inspections, job, unit)?);
        acts.extend(self.bench.acts(job)?);
        acts.extend(photos::acts(&self.photos, job)?);
        acts.extend(water::acts(&self.trials, job)?);
        acts.extend(choose::acts(
            &self.choices,
            job,
            (unit, self.speed_unit(job)),
        )?);
        acts.extend(diagnose::acts(&self.diagnosis, job)?);
        acts.extend(upkeep::acts(&self.upkeep, job)?);
        Ok(acts)
    }

    /// The joints, and how far they have come, where the job says otherwise or nothing.
    fn new_joints(&self, job: &Job) -> Result<Vec<Act>, Refusal> {
        let mut acts = Vec::new();
        for (key, draft, fastened) in &self.joints {
            let key = Key::new(key)?;
            let joint = draft.read()?;
            let had = job.joints.get(&key);
            if !had.is_some_and(|had| JointDraft::of(&had.joint.value) == JointDraft::of(&joint)) {
                let key = key.clone();
                acts.push(Act::Record(Body::JointDescribed { key, joint }));
            }
            // What was told of a count rests on them.
            acts.extend(self.tools.of_joint(&key, had)?);
            let Some(fastened) = fastened else { continue };
            let counted = had
                .is_some_and(|had| had.fastened.is_some() && FastenedDraft::of(had) == *fastened);
            if !counted {
                let fastened = fastened.read()?;
                acts.push(Act::Record(Body::JointFastened { key, fastened }));
            }
        }
        Ok(acts)
    }
}

fn has<T>(fact: Option<&Fact<T>>, same: impl Fn(&T) -> bool) -> bool {
    fact.is_some_and(|fact| same(&fact.value))
}

/// The text as typed, with its unit behind it where a bare number would not take it by itself.
pub(crate) fn typed(entered: &Entered, bare: Unit) -> String {
    let text = entered.text.trim();
    if entered.bare == bare
        || parse(text, bare).is_ok_and(|read| read.value.total_cmp(&entered.value).is_eq())
    {
        text.to_owned()
    } else {
        format!("{text} {}", entered.bare.symbol())
    }
}

fn count(field: &'static str, text: &str, allowed: &'static str) -> Result<u8, Refusal> {
    let text = text.trim();
    text.parse().map_err(|_| Refusal::NotACount {
        field,
        text: text.to_owned(),
        allowed,
    })
}

fn choose<T: Copy>(field: &'static str, text: &str, choices: &[Choice<T>]) -> Result<T, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Refusal::Empty { field });
    }
    choices
        .iter()
        .find(|(word, _)| *word == text)
        .map(|(_, value)| *value)
        .ok_or_else(|| {
            let choices = choices.iter().map(|(word, _)| *word).collect();
            Refusal::NotAChoice {
                field,
                text: text.to_owned(),
                choices,
            }
        })
}

fn length(field: &'static str, text: &str, bare: Unit) -> Result<Entered, Refusal> {
    if text.trim().is_empty() {
        return Err(Refusal::Empty { field });
    }
    parse(text.trim(), bare).map_err(|error| Refusal::Unreadable { field, error })
}

fn optional(field: &'static str, text: &str, bare: Unit) -> Result<Option<Entered>, Refusal> {
    if text.trim().is_empty() {
        Ok(None)
    } else {
        length(field, text, bare).map(Some)
    }
}
