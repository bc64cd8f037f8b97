//! `teardown --json`: what was found, what is open, and what it takes, for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known is
//! null.

use report::page::flat;
use report::page::teardown::{View, page};
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::inspect::words::{
    AREAS, FLAWS, GROUPS, HOWS, SEVERITIES, SORTS, TODOS, WHEREABOUTS,
};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::inspect::FindingState;
use workshop::inspect::found::{self, AsFound, Seen, record};
use workshop::inspect::parts::{held, is_open};
use workshop::job::Fact;
use workshop::supplies::{Supply, supplies};

use crate::document::{lines, schema_of};

const VERSION: u32 = 1;

/// What was found, what must be replaced, what is on order.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: Name,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job's id.
    job: String,
    /// The answer in one sentence.
    answer: String,
    /// What holds it up.
    detail: String,
    /// The record of what was seen before anything turned.
    as_found: Record,
    /// The findings, in the order they were noted.
    findings: Vec<Finding>,
    /// Everything that holds up a readiness: open findings, and results that are out.
    open: Vec<Open>,
    /// Parts, consumables and special tools.
    supplies: Vec<Thing>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright teardown")]
    Teardown,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Record {
    /// Something has been taken apart.
    opened: bool,
    /// What is not on record.
    missing: Vec<&'static str>,
    /// What is.
    seen: Vec<Found>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Found {
    /// Names it within the job.
    key: String,
    /// Of what.
    sort: &'static str,
    /// Where, or which.
    at: String,
    /// In words.
    words: String,
    /// Least gap; null where it is no gap.
    gap_least_m: Option<f64>,
    /// Greatest gap.
    gap_greatest_m: Option<f64>,
    /// Threads showing; null where it is no cable.
    threads: Option<u8>,
    /// The shims of each stud; empty where it is none.
    shims: Vec<Stud>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Stud {
    /// Its name.
    name: String,
    /// Each shim.
    shims_m: Vec<f64>,
    /// All together.
    total_m: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Finding {
    /// Names it within the job.
    key: String,
    /// Of what.
    area: &'static str,
    /// Which of several; empty for what there is one of.
    which: String,
    /// What is wrong.
    flaw: &'static str,
    /// The same in own words.
    words: String,
    /// How much it matters while it is open.
    severity: &'static str,
    /// Why it matters more or less than usual; empty where it does not.
    severity_why: String,
    /// What is to be done.
    todo: &'static str,
    /// It is not dealt with.
    open: bool,
    /// How it was dealt with; null while it was not.
    settled: Option<&'static str>,
    /// With what, or why.
    settled_reason: Option<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Open {
    /// The finding, or `gap-out`, `rotor-out`, `leak-out`, `reread-out`.
    key: String,
    /// How much it matters.
    severity: &'static str,
    /// In a breath.
    what: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Thing {
    /// Names it within the job.
    key: String,
    /// In words.
    name: String,
    /// What kind of thing.
    group: &'static str,
    /// Why it is on the list.
    why: Vec<Why>,
    /// Where it is; null when nobody has said.
    whereabouts: Option<&'static str>,
    /// The day it is expected.
    expected: Option<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Why {
    /// In a breath.
    words: String,
    /// It takes this by common practice; else a person or the plan named it.
    practice: bool,
}

/// The document.
pub(crate) fn write(view: &View<'_>) -> String {
    let page = page(view);
    let job = view.job;
    let record = record(job);
    let missing = record.missing.iter().map(|sort| word(&SORTS, *sort));
    let seen = found::all(job).into_iter();
    let findings = job.inspected.findings_in_order().into_iter();
    let open = held(job).into_iter();
    lines(&Document {
        name: Name::Teardown,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        answer: page.answer.headline,
        detail: flat(&page.answer.detail),
        as_found: Record {
            opened: record.opened,
            missing: missing.collect(),
            seen: seen.map(|(key, fact)| as_found(key, fact)).collect(),
        },
        findings: findings.map(|(key, state)| finding(key, state)).collect(),
        open: open
            .map(|held| Open {
                key: held.key.to_string(),
                severity: word(&SEVERITIES, held.severity),
                what: held.what,
            })
            .collect(),
        supplies: supplies(job).into_iter().map(thing).collect(),
        open_items: view.objections.len(),
    })
}

/// The schema of the document.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn as_found(key: &Key, fact: &Fact<AsFound>) -> Found {
    let found = &fact.value;
    let (least, greatest) = match &found.seen {
        Seen::Gap(least, greatest) => (Some(least.value), Some(greatest.value)),
        _ => (None, None),
    };
    let stacks = match &found.seen {
        Seen::Shims(stacks) => stacks.as_slice(),
        _ => &[],
    };
    let stud = |stack: &found::Stack| Stud {
        name: stack.stud.clone(),
        shims_m: stack.shims.iter().map(|shim| shim.value).collect(),
        total_m: stack.total(),
    };
    Found {
        key: key.to_string(),
        sort: word(&SORTS, found.sort),
        at: found.at.clone(),
        words: found.to_string(),
        gap_least_m: least,
        gap_greatest_m: greatest,
        threads: match found.seen {
            Seen::Cable(threads) => Some(threads),
            _ => None,
        },
        shims: stacks.iter().map(stud).collect(),
    }
}

fn finding(key: &Key, state: &FindingState) -> Finding {
    let finding = &state.finding.value;
    let settled = state.settled.as_ref().map(|fact| &fact.value);
    Finding {
        key: key.to_string(),
        area: word(&AREAS, finding.area),
        which: finding.which.clone(),
        flaw: word(&FLAWS, finding.flaw),
        words: finding.words.clone(),
        severity: word(&SEVERITIES, finding.severity),
        severity_why: finding.severity_why.clone(),
        todo: word(&TODOS, finding.todo),
        open: is_open(state),
        settled: settled.map(|settled| word(&HOWS, settled.how)),
        settled_reason: settled.map(|settled| settled.reason.clone()),
    }
}

fn thing(supply: Supply) -> Thing {
    let why = supply.why.into_iter();
    Thing {
        key: supply.key.to_string(),
        name: supply.name,
        group: word(&GROUPS, supply.group),
        why: why
            .map(|why| Why {
                words: why.words,
                practice: why.practice,
            })
            .collect(),
        whereabouts: supply.whereabouts.map(|at| word(&WHEREABOUTS, at)),
        expected: supply.expected.map(|day| day.to_string()),
    }
}
