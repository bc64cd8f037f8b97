//! `audit --json`: the account for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. Times are instants
//! in UTC, and what is not known is null.

use report::page::audit::{View, page, say};
use report::page::flat;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::audit::{About, Line, Stand, State, audit};
use workshop::draft::bench::{ITEMS, OPENS, READIES};
use workshop::draft::word;

use crate::document::{lines, schema_of};

const VERSION: u32 = 2;

/// Whether every step, fastener, thing and tool is accounted for, or the reason in writing.
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
    /// The time it holds for.
    now: String,
    /// The answer in one sentence.
    answer: String,
    /// What is open, by name.
    detail: String,
    /// Everything the job names: the three counts below together.
    all: usize,
    /// Accounted for.
    accounted: usize,
    /// Left out by a reason in writing.
    by_reason: usize,
    /// Open.
    open: usize,
    /// Nothing is open, and nothing left out is missed: there is nothing to come back to.
    closed: bool,
    /// Every line of the account.
    lines: Vec<AccountLine>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright audit")]
    Audit,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum Kind {
    Step,
    Fasteners,
    Gate,
    Wait,
    Joint,
    Fit,
    Reread,
    Result,
    Finding,
    Item,
    Tool,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum StateName {
    Accounted,
    ByReason,
    Open,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AccountLine {
    /// What it is about.
    about: Kind,
    /// Key of the step, joint, finding, thing or tool; null for a wait and for a result.
    key: Option<String>,
    /// What kind of thing to account for; null for what is none.
    kind: Option<&'static str>,
    /// Its name.
    name: String,
    /// How many of it there are; null for what is not counted.
    of: Option<u16>,
    /// How it counts.
    state: StateName,
    /// How it stands, in words.
    words: String,
    /// The ready-made reason; null without one.
    ready: Option<&'static str>,
    /// The reason’s own words; null without a reason, empty while they are still to be written.
    reason: Option<String>,
    /// The readiness it holds up; null where it holds up nothing.
    holds: Option<&'static str>,
}

/// The document.
pub(crate) fn write(view: &View<'_>) -> String {
    let page = page(view);
    let account = audit(view.job, view.now.timestamp());
    lines(&Document {
        name: Name::Audit,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        now: view.now.timestamp().to_string(),
        answer: page.answer.headline,
        detail: flat(&page.answer.detail),
        all: account.lines.len(),
        accounted: account.count(State::Accounted),
        by_reason: account.count(State::ByReason),
        open: account.count(State::Open),
        closed: account.closed(),
        lines: account.lines.iter().map(|one| line(view, one)).collect(),
        open_items: view.objections.len(),
    })
}

/// The schema of the document.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn line(view: &View<'_>, line: &Line) -> AccountLine {
    let (about, key) = match &line.about {
        About::Step(key) => (Kind::Step, Some(key)),
        About::Fasteners(key) => (Kind::Fasteners, Some(key)),
        About::Gate(key) => (Kind::Gate, Some(key)),
        About::Wait(_) => (Kind::Wait, None),
        About::Joint(key) => (Kind::Joint, Some(key)),
        About::Fit(key) => (Kind::Fit, Some(key)),
        About::Reread => (Kind::Reread, None),
        About::Result(_) => (Kind::Result, None),
        About::Finding(key) => (Kind::Finding, Some(key)),
        About::Item(_, key, _) => (Kind::Item, Some(key)),
        About::Tool(_, key) => (Kind::Tool, Some(key)),
    };
    let excuse = match &line.stand {
        Stand::Reason(reason) => Some(&reason.excuse),
        Stand::Whole | Stand::Open(_) => None,
    };
    AccountLine {
        about,
        key: key.map(ToString::to_string),
        kind: match &line.about {
            About::Item(_, _, kind) => Some(word(&ITEMS, *kind)),
            _ => None,
        },
        name: say::name(view.job, line),
        of: line.of,
        state: match line.state() {
            State::Accounted => StateName::Accounted,
            State::ByReason => StateName::ByReason,
            State::Open => StateName::Open,
        },
        words: say::state(line, view.now),
        ready: excuse.map(|excuse| word(&READIES, excuse.ready)),
        reason: excuse.map(|excuse| excuse.words.clone()),
        holds: line.holds.map(|opens| word(&OPENS, opens)),
    }
}
