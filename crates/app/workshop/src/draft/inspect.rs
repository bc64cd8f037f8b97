//! What is looked at and measured around the gap, as typed.
//!
//! Every sheet is a flat list of named fields, so form and file need only the names.

mod align;
mod fill;
mod found;
mod read;
mod seal;
pub mod seal_words;
mod supply;
pub mod words;

pub(crate) use align::{AFT, FACE, FORWARD, RIM};
use std::collections::{BTreeMap, BTreeSet};

use crate::act::Act;
use crate::entry::{Body, Key};
use crate::inspect::Inspection;
use crate::job::Job;
use crate::refusal::Refusal;

/// A kind of inspection that a person fills in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sheet {
    /// [`Inspection::AsFound`].
    AsFound,
    /// [`Inspection::Rotor`].
    Rotor,
    /// [`Inspection::Leak`].
    Leak,
    /// [`Inspection::Alignment`].
    Alignment,
    /// [`Inspection::Found`].
    Finding,
    /// [`Inspection::Settled`].
    Settled,
    /// [`Inspection::Sizes`].
    Sizes,
    /// [`Inspection::Ring`].
    Ring,
    /// [`Inspection::Cone`].
    Cone,
    /// [`Inspection::Reread`].
    Reread,
    /// [`Inspection::Visit`].
    Visit,
    /// [`Sealing::Bench`](crate::seals::Sealing::Bench).
    Bench,
    /// [`Sealing::Compound`](crate::seals::Sealing::Compound).
    Compound,
    /// [`Sealing::Thread`](crate::seals::Sealing::Thread).
    Thread,
    /// [`Sealing::Seal`](crate::seals::Sealing::Seal).
    Seal,
    /// [`Sealing::Contact`](crate::seals::Sealing::Contact).
    Contact,
    /// [`Inspection::Supply`].
    Supply,
}

impl Sheet {
    /// All, in the order of the file.
    pub const ALL: [Self; 17] = [
        Self::AsFound,
        Self::Rotor,
        Self::Leak,
        Self::Alignment,
        Self::Finding,
        Self::Settled,
        Self::Sizes,
        Self::Ring,
        Self::Cone,
        Self::Reread,
        Self::Visit,
        Self::Bench,
        Self::Compound,
        Self::Thread,
        Self::Seal,
        Self::Contact,
        Self::Supply,
    ];

    /// Its fields, in order.
    #[expect(
        clippy::too_many_lines,
        reason = "the fields of a sheet an arm, read as a table"
    )]
    pub fn fields(self) -> &'static [&'static str] {
        match self {
            Self::Rotor => &[
                "float_aft",
                "float_forward",
                "radial_up",
                "radial_down",
                "runout_first",
                "runout_second",
                "runout_apart",
                "runout_beyond",
                "track",
                "groove",
                "spline_step",
                "spin",
                "dial",
                "float_limit",
                "radial_limit",
                "runout_limit",
                "page",
            ],
            Self::AsFound => &[
                "sort", "at", "state", "gap", "marks", "moved", "shims", "from", "to", "clamp",
                "threads", "clock", "words",
            ],
            Self::Supply => &["name", "group", "status", "expected", "reason"],
            Self::Leak => &[
                "push",
                "start",
                "end",
                "hold",
                "start_temperature",
                "end_temperature",
                "turned",
                "step",
                "allowed",
                "page",
            ],
            Self::Alignment => &align::FIELDS,
            Self::Finding => &[
                "area",
                "which",
                "flaw",
                "words",
                "place",
                "depth",
                "length",
                "tip",
                "severity",
                "severity_why",
                "todo",
                "reason",
            ],
            Self::Settled => &["how", "reason"],
            Self::Sizes => &[
                "bore_12", "bore_130", "bore_3", "bore_430", "impeller", "method",
            ],
            Self::Ring => &[
                "seat", "polymer", "wall", "soaked", "turning", "bench", "water",
            ],
            Self::Cone => &["half_angle", "fitted", "shims", "stack"],
            Self::Reread => &["clock_12", "clock_3", "clock_6", "clock_9", "turns", "rubs"],
            Self::Visit => &["hours", "gap", "figure", "renewed"],
            Self::Bench => &["water", "temperature", "humidity"],
            Self::Compound => &[
                "name",
                "class",
                "working",
                "skin",
                "cure_depth",
                "cure_time",
                "shelf",
                "made",
            ],
            Self::Thread => &["with", "primed"],
            Self::Seal => &[
                "with", "sealed", "room", "gap_low", "gap_high", "line", "edges", "passage",
            ],
            Self::Contact => &["screw", "coat", "insulated", "sealed", "coated", "anode"],
        }
    }

    /// Its table in the file.
    pub fn table(self) -> &'static str {
        match self {
            Self::AsFound => "as_found",
            Self::Supply => "supplies",
            Self::Rotor => "rotor",
            Self::Leak => "leak_test",
            Self::Alignment => "alignment",
            Self::Finding => "findings",
            Self::Settled => "settled",
            Self::Sizes => "sizes",
            Self::Ring => "ring",
            Self::Cone => "cone",
            Self::Reread => "reread",
            Self::Visit => "visits",
            Self::Bench => "bench",
            Self::Compound => "compounds",
            Self::Thread => "threads",
            Self::Seal => "seals",
            Self::Contact => "contacts",
        }
    }

    /// There may be several, each with a key.
    pub fn keyed(self) -> bool {
        matches!(
            self,
            Self::AsFound
                | Self::Supply
                | Self::Finding
                | Self::Settled
                | Self::Visit
                | Self::Compound
                | Self::Thread
                | Self::Seal
                | Self::Contact
        )
    }
}

/// One sheet as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InspectionDraft {
    /// Which sheet.
    pub sheet: Sheet,
    /// Its key; empty for a sheet there is one of.
    pub key: String,
    /// What stands in its fields; a field that is not there is empty.
    pub fields: BTreeMap<&'static str, String>,
}

impl InspectionDraft {
    /// A sheet whose fields are asked for one by one.
    pub fn new(sheet: Sheet, key: String, text: impl Fn(&str) -> String) -> Self {
        let fields = sheet.fields().iter().map(|field| (*field, text(field)));
        Self {
            sheet,
            key,
            fields: fields.filter(|(_, text)| !text.is_empty()).collect(),
        }
    }

    /// What stands in a field.
    pub fn get(&self, field: &str) -> &str {
        self.fields.get(field).map_or("", String::as_str)
    }
}

/// The sheets that bring an empty job to what was found in this one.
pub fn drafts(job: &Job) -> Vec<InspectionDraft> {
    let unit = job.unit();
    let of = |inspection| InspectionDraft::of(&inspection, unit);
    said(job).into_iter().map(of).collect()
}

/// Everything that counts now, in the order of the file.
fn said(job: &Job) -> Vec<Inspection> {
    let had = &job.inspected;
    let mut said = Vec::new();
    said.extend(had.found.iter().map(|(key, fact)| Inspection::AsFound {
        key: key.clone(),
        found: fact.value.clone(),
    }));
    said.extend(
        had.rotor
            .iter()
            .map(|f| Inspection::Rotor(Box::new(f.value.clone()))),
    );
    said.extend(had.leak.iter().map(|f| Inspection::Leak(f.value.clone())));
    let alignments = had.alignment.iter();
    said.extend(alignments.map(|f| Inspection::Alignment(Box::new(f.value.clone()))));
    for (key, state) in had.findings_in_order() {
        said.push(Inspection::Found {
            key: key.clone(),
            finding: state.finding.value.clone(),
        });
    }
    for (key, state) in had.findings_in_order() {
        said.extend(state.settled.iter().map(|fact| Inspection::Settled {
            finding: key.clone(),
            settled: fact.value.clone(),
        }));
    }
    said.extend(had.answered.iter().map(|(key, fact)| Inspection::Settled {
        finding: key.clone(),
        settled: fact.value.clone(),
    }));
    said.extend(had.sizes.iter().map(|f| Inspection::Sizes(f.value.clone())));
    said.extend(had.ring.iter().map(|f| Inspection::Ring(f.value.clone())));
    said.extend(had.cone.iter().map(|f| Inspection::Cone(f.value.clone())));
    let rereads = had.reread.iter();
    said.extend(rereads.map(|f| Inspection::Reread(f.value.clone())));
    said.extend(
        had.visits_in_order()
            .into_iter()
            .map(|(key, fact)| Inspection::Visit {
                key: key.clone(),
                visit: fact.value.clone(),
            }),
    );
    said.extend(seal::said(job).into_iter().map(Inspection::Sealing));
    said.extend(supply::said(job));
    said
}

/// The acts that bring `job` to these sheets, where it says otherwise or nothing. A bare gap takes
/// `unit`.
pub(super) fn acts(
    drafts: &[InspectionDraft],
    job: &Job,
    unit: quantity::Unit,
) -> Result<Vec<Act>, Refusal> {
    let had: Vec<InspectionDraft> = said(job)
        .iter()
        .map(|had| InspectionDraft::of(had, unit))
        .collect();
    let mut acts = Vec::new();
    // A finding that is noted anew is open again.
    let mut anew = BTreeSet::new();
    for draft in drafts {
        let inspection = draft.read(unit)?;
        let here = InspectionDraft::of(&inspection, unit);
        if had.contains(&here) && !(here.sheet == Sheet::Settled && anew.contains(&here.key)) {
            continue;
        }
        anew.insert(here.key);
        // What a file tells of has been done: what is wrong with it stays open.
        let recount = matches!(
            inspection,
            Inspection::Sealing(_) | Inspection::Settled { .. } | Inspection::Supply { .. }
        );
        let body = Body::Inspected(inspection);
        acts.push(if recount {
            Act::Recount(body, None)
        } else {
            Act::Record(body)
        });
    }
    Ok(acts)
}

/// The key a sheet of a new thing gets: of its words, and free.
pub fn free_key(job: &Job, draft: &InspectionDraft) -> Result<Key, Refusal> {
    if draft.sheet == Sheet::Visit {
        let name = format!("{} h", draft.get("hours").trim_end_matches(['h', ' ']));
        let taken = |key: &Key| job.inspected.visits.contains_key(key);
        return Key::free(&name, "visit", taken);
    }
    if draft.sheet == Sheet::Compound {
        let taken = |key: &Key| {
            let class = seal_words::COMPOUNDS.iter();
            let class = class
                .map(|(word, _)| *word)
                .any(|word| word == key.as_str());
            class || job.seals().compounds.contains_key(key)
        };
        return Key::free(draft.get("name"), "compound", taken);
    }
    if draft.sheet == Sheet::Supply {
        let taken = |key: &Key| {
            let mut all = crate::supplies::supplies(job).into_iter();
            all.any(|supply| supply.key == *key)
        };
        return Key::free(draft.get("name"), "supply", taken);
    }
    if draft.sheet == Sheet::AsFound {
        // What stands for all of a kind is named by the kind.
        let name = match draft.get("at") {
            "" => draft.get("sort"),
            at => at,
        };
        return Key::free(name, "found", |key| job.inspected.found.contains_key(key));
    }
    let [area, which, flaw] = ["area", "which", "flaw"].map(|field| draft.get(field));
    let name = format!("{area} {which} {flaw}");
    Key::free(&name, "finding", |key| {
        job.inspected.findings.contains_key(key)
    })
}
