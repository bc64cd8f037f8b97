//! A job as text, to keep beside the craft's papers, and the card of its pump, to hand on.
//!
//! TOML with the words of the forms; `docs/job-file.md` describes it. Reading gives a
//! [`JobDraft`] and remembers where each value stands, so that every refusal can point at it.
//! The text is handed in and handed out: this crate opens no file.

mod bench;
mod blame;
pub mod calendar;
mod card;
mod choose;
mod complaint;
mod diagnose;
mod entries;
mod error;
mod fits;
mod inspect;
mod photos;
mod shape;
mod tools;
mod upkeep;
mod water;
mod write;

use std::ops::Range;

use toml::Spanned;
use workshop::draft::tools::FittingsDraft;
use workshop::draft::{
    BenchDraft, FastenedDraft, JobDraft, JointDraft, LeavesDraft, LimitsDraft, PumpDraft,
    ToolsDraft, WalkDraft,
};
use workshop::entry::JobId;

pub use self::complaint::Complaint;
use self::complaint::Source;
pub use self::entries::{By, stored};
pub use self::error::Error;
use self::shape::{Head, Shape};
pub use self::write::{write, write_card};

/// What `format` says of a job.
const JOB: &str = "pumpwright job";
/// What `format` says of a card.
const CARD: &str = "pumpwright card";
/// The version written, and the newest read.
const VERSION: i64 = 1;
/// The most bytes a job file may have: several long logs.
pub const LARGEST: u64 = 16_000_000;

/// A job file or a card that was understood.
#[derive(Debug)]
pub struct JobFile {
    /// The id it gives its job; a card gives none.
    pub id: Option<JobId>,
    /// What it says. The title of a card is that of the card until a job is begun from it.
    pub draft: JobDraft,
    source: Source,
    /// Each value by the name of its field.
    fields: Vec<(&'static str, Range<usize>)>,
    /// The leaves, where they are a list.
    leaves: Vec<Range<usize>>,
    /// Each value of the plan by the name of its field.
    bench: Vec<(&'static str, Range<usize>)>,
    /// Each value of each joint by the name of its field, in the order of the draft.
    joints: Vec<Vec<(&'static str, Range<usize>)>>,
    /// Each value of each wrench by the name of its field, in the order of the draft.
    wrenches: Vec<Vec<(&'static str, Range<usize>)>>,
    /// The places of each joint that is no circle of screws, in the order of the draft.
    fits: Vec<inspect::Places>,
    /// The places of each sheet of the inspection, in the order of the draft.
    sheets: Vec<inspect::Places>,
    /// The places of each photo, in the order of the draft.
    photos: Vec<inspect::Places>,
    /// The places of each outing on the water, in the order of the draft.
    trials: Vec<water::TrialPlaces>,
    /// The places of all that is said of what to fit.
    choices: choose::ChoicePlaces,
    /// The places of all that is said of what is wrong.
    search: diagnose::SearchPlaces,
    /// The places of all that is said about service.
    upkeep: upkeep::UpkeepPlaces,
    /// Key and value of each reading, in the order of the draft.
    rows: Vec<(Range<usize>, Range<usize>)>,
}

/// Reads the text of a job file or a card; `name` is what complaints call it.
pub fn parse(name: &str, text: &str) -> Result<JobFile, Complaint> {
    let source = Source {
        name: name.to_owned(),
        text: text.to_owned(),
    };
    let toml = |error: toml::de::Error| {
        source.complain(
            error.span().unwrap_or(0..0),
            &complaint::sentence(error.message()),
        )
    };
    let head: Head = toml::from_str(text).map_err(toml)?;
    let card = check(&source, &head)?;
    let shape: Shape = toml::from_str(text).map_err(toml)?;
    let file = JobFile::of(source, shape, card)?;
    if card {
        file.only_a_card()?;
    }
    Ok(file)
}

/// Whether this is a card, if it is a file this program knows, before its keys are judged.
fn check(source: &Source, head: &Head) -> Result<bool, Complaint> {
    let begin = format!("A job file begins with: format = \"{JOB}\" and version = {VERSION}");
    let Some(format) = &head.format else {
        return Err(source.complain(0..0, &format!("This says no format. {begin}.")));
    };
    let card = format.get_ref() == CARD;
    if !card && format.get_ref() != JOB {
        return Err(source.complain(format.span(), &format!("This is no job file. {begin}.")));
    }
    let Some(version) = &head.version else {
        return Err(source.complain(format.span(), &format!("This says no version. {begin}.")));
    };
    match *version.get_ref() {
        VERSION => Ok(card),
        newer if newer > VERSION => Err(source.complain(
            version.span(),
            &format!(
                "A newer program wrote this file: it has version {newer}, and this program reads \
                 version {VERSION}. Open it with the newer program.",
            ),
        )),
        other => Err(source.complain(
            version.span(),
            &format!("There never was a version {other}. {begin}."),
        )),
    }
}

impl JobFile {
    fn of(source: Source, mut shape: Shape, card: bool) -> Result<Self, Complaint> {
        let (inspections, sheets) = inspect::read(&source, shape.inspections())?
            .into_iter()
            .unzip();
        let (described, fits) = fits::read(&source, &mut shape)?;
        let tables = shape.bench();
        let (photos, photographed) = photos::read(std::mem::take(&mut shape.photos).in_order());
        let (trials, tried) = water::read(&source, std::mem::take(&mut shape.outing))?;
        let (choices, chosen) = choose::read(&source, &mut shape)?;
        let (diagnosis, search) = diagnose::read(&source, &mut shape)?;
        let (upkeep, served) = upkeep::read(&source, &mut shape)?;
        let (id, title, note, follows) = head(&source, shape.job, shape.card, card)?;
        let Shape {
            pump,
            leaves,
            limits,
            walk,
            joints,
            wrenches,
            readings,
            ..
        } = shape;
        let list = leaves.iter().flat_map(shape::Leaves::spans).collect();
        let (mut fields, mut bench) = (Fields(Vec::new()), Fields(Vec::new()));
        let mut draft = JobDraft {
            title: fields.take("title", title),
            note: fields.given("note", note),
            follows: fields.given("follows", follows),
            pump: pump.map(|pump| fields.pump(pump)),
            leaves: leaves.map(|leaves| fields.leaves(leaves)),
            limits: limits.map(|limits| fields.limits(limits)),
            walk: walk.map(|walk| fields.walk(walk)),
            joints: Vec::new(),
            tools: ToolsDraft::default(),
            fits: described,
            readings: Vec::new(),
            bench: BenchDraft::default(),
            inspections,
            photos,
            trials,
            choices,
            diagnosis,
            upkeep,
        };
        draft.bench = bench.bench(tables);
        let (wrenches, scales) = tools::wrenches(wrenches.in_order());
        draft.tools.wrenches = wrenches;
        let places = take_joints(joints.in_order(), &mut draft);
        let rows = take_readings(readings.in_order(), &mut draft);
        Ok(Self {
            id,
            draft,
            source,
            fields: fields.0,
            leaves: list,
            bench: bench.0,
            joints: places,
            wrenches: scales,
            fits,
            sheets,
            photos: photographed,
            trials: tried,
            choices: chosen,
            search,
            upkeep: served,
            rows,
        })
    }
}

/// The id, the title, the note and the job it follows, from the table that the format asks for.
type Named = (
    Option<JobId>,
    shape::Field,
    Option<shape::Field>,
    Option<shape::Field>,
);

fn head(
    source: &Source,
    job: Option<shape::Job>,
    about: Option<shape::Card>,
    card: bool,
) -> Result<Named, Complaint> {
    match (job, about) {
        (Some(job), None) if !card => {
            let id = JobId::new(&job.id.get_ref().0)
                .map_err(|refusal| source.complain(job.id.span(), &refusal.to_string()))?;
            let itself = |follows: &&shape::Field| follows.get_ref().0 == id.as_str();
            if let Some(follows) = job.follows.as_ref().filter(itself) {
                let why = "A job cannot follow itself. Name the earlier job of the same pump, or take the line out.";
                return Err(source.complain(follows.span(), why));
            }
            Ok((Some(id), job.title, job.note, job.follows))
        }
        (None, Some(about)) if card => Ok((None, about.title, about.note, about.follows)),
        (Some(job), _) if card => {
            let why = "A card is of a pump, and a job is of one craft. Name it under [card].";
            Err(source.complain(job.id.span(), why))
        }
        (_, Some(about)) => {
            let why = "A job file has no [card]. Name the job under [job].";
            Err(source.complain(about.title.span(), why))
        }
        (_, None) => {
            let table = if card { "[card]" } else { "[job]" };
            Err(source.complain(0..0, &format!("This has no {table} with its title.")))
        }
    }
}

/// Takes the readings into the draft, and gives the places of their keys and values.
fn take_readings(
    readings: Vec<(Spanned<String>, shape::Field)>,
    draft: &mut JobDraft,
) -> Vec<(Range<usize>, Range<usize>)> {
    let mut rows = Vec::new();
    for (spot, reading) in readings {
        rows.push((spot.span(), reading.span()));
        let typed = (spot.into_inner(), reading.into_inner().0);
        draft.readings.push(typed);
    }
    rows
}

/// Takes the joints into the draft, and gives the places of their values.
fn take_joints(
    joints: Vec<(Spanned<String>, shape::Joint)>,
    draft: &mut JobDraft,
) -> Vec<Vec<(&'static str, Range<usize>)>> {
    let mut places = Vec::new();
    for (key, mut joint) in joints {
        let mut fields = Fields(vec![("joint", key.span())]);
        let said = fields.fittings(&mut joint);
        if said != FittingsDraft::default() {
            draft.tools.joints.insert(key.get_ref().clone(), said);
        }
        let (joint, screws) = fields.joint(joint);
        places.push(fields.0);
        draft.joints.push((key.into_inner(), joint, screws));
    }
    places
}

/// Takes values out of the file and notes where they stood.
struct Fields(Vec<(&'static str, Range<usize>)>);

impl Fields {
    fn take(&mut self, name: &'static str, field: shape::Field) -> String {
        self.0.push((name, field.span()));
        field.into_inner().0
    }

    /// What is left out is empty.
    fn given(&mut self, name: &'static str, field: Option<shape::Field>) -> String {
        field.map_or_else(String::new, |field| self.take(name, field))
    }

    fn pump(&mut self, pump: shape::Pump) -> PumpDraft {
        PumpDraft {
            blades: self.take("blades", pump.blades),
            positions: self.take("positions", pump.positions),
            bore: self.take("bore", pump.bore),
            view: self.take("view", pump.view),
            rotation: self.take("rotation", pump.rotation),
        }
    }

    fn leaves(&mut self, leaves: shape::Leaves) -> LeavesDraft {
        LeavesDraft {
            unit: self.take("unit", leaves.unit),
            thicknesses: self.take(
                "thicknesses",
                shape::Thicknesses::joined(leaves.thicknesses),
            ),
            width: self.take("width", leaves.width),
            lead: self.take("lead", leaves.lead),
            posture: self.take("posture", leaves.posture),
            tolerance: self.given("tolerance", leaves.tolerance),
            feel: self.given("feel", leaves.feel),
        }
    }

    fn limits(&mut self, limits: shape::Limits) -> LimitsDraft {
        LimitsDraft {
            least: self.given("least", limits.least),
            greatest: self.given("greatest", limits.greatest),
            measure: self.take("measure", limits.measure),
            page: self.given("page", limits.page),
            rub_in: limits.rub_in,
        }
    }

    fn walk(&mut self, walk: shape::Walk) -> WalkDraft {
        WalkDraft {
            go: self.given("go", walk.go),
            no_go: self.given("no_go", walk.no_go),
            order: self.given("order", walk.order),
        }
    }

    fn joint(&mut self, joint: shape::Joint) -> (JointDraft, Option<FastenedDraft>) {
        let draft = JointDraft {
            name: self.take("name", joint.name),
            thread: self.take("thread", joint.thread),
            head: self.take("head", joint.head),
            count: self.take("count", joint.count),
            class: self.take("class", joint.class),
            hole: self.take("hole", joint.hole),
            engagement: self.given("engagement", joint.engagement),
            torque: self.given("torque", joint.torque),
            second: self.given("second", joint.second),
            stated_for: self.given("stated_for", joint.stated_for),
            turn: self.given("turn", joint.turn),
            seat: self.given("seat", joint.seat),
            grip: self.given("grip", joint.grip),
            condition: self.take("condition", joint.condition),
            face: self.take("face", joint.face),
            page: self.given("page", joint.page),
        };
        let screws = joint.screws.map(|screws| FastenedDraft {
            in_place: self.take("in", screws.in_place),
            torqued: self.take("torqued", screws.torqued),
            marked: self.take("marked", screws.marked),
            temporary: screws.temporary,
            pass: self.given("pass", screws.pass),
            gone: self.given("gone", screws.gone),
        });
        (draft, screws)
    }
}
