//! The Account page: is anything forgotten, what is left out and why, and one question at a time.

mod next;
pub mod say;

use jiff::ZonedDateTime;
use workshop::audit::{About, Audit, Line, Stand, State, audit};
use workshop::entry::{JobId, Key};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::photos::Subject;
use workshop::plan::{ItemKind, Opens};

use super::{
    Answer, Card, Next, Page, Refused, Run, Section, Target, Tone, assemble, forms, frame, photos,
    plain, strong,
};
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
    /// What the person pointed at.
    pub at: Option<&'a At>,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// What a person can point at here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum At {
    /// A thing to account for.
    Item(Key),
    /// A tool.
    Tool(Key),
}

/// What the account is not.
const CAUTION: &str = "The account knows what was written into the job and nothing else. Before the \
    craft floats, look and feel for every plug, clip and hose yourself; the craft’s manual and local \
    rules come first.";

/// How many open things are named in the answer.
const NAMED: usize = 3;

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let account = audit(view.job, view.now.timestamp());
    let asked = next::asked(view, &account);
    let mut evidence = Vec::new();
    evidence.extend(asked.and_then(|line| card(view, line)).map(Section::Card));
    evidence.extend(asked.and_then(|line| photos_of(view, line)));
    evidence.extend(open(view));
    evidence.extend(sections(view, &account));
    evidence.push(elsewhere(view));
    Page {
        title: "Account".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &Target::Assemble(view.id.clone())),
        here: Some(Target::Audit(view.id.clone())),
        clocks: assemble::clocks(view.job, view.now),
        answer: answer(view, &account),
        evidence,
        next: next::next(view, &account, asked),
        cautions: vec![CAUTION, assemble::CAUTION],
    }
}

fn answer(view: &View<'_>, account: &Audit) -> Answer {
    let (tone, headline) = verdict(account);
    Answer {
        tone,
        headline,
        detail: detail(view, account),
        origin: format!(
            "Computed: what the job names, less what is done, less what is left out with a reason · \
             {} told, {} by a reason, {} open",
            account.count(State::Accounted),
            account.count(State::ByReason),
            account.count(State::Open),
        ),
    }
}

/// The result in one sentence.
pub(crate) fn verdict(account: &Audit) -> (Tone, String) {
    let all = account.lines.len();
    let by_reason = account.count(State::ByReason);
    let reasons = match by_reason {
        0 => String::new(),
        n => format!(", {n} of them by a reason in writing"),
    };
    match account.count(State::Open) {
        _ if all == 0 => (
            Tone::Plain,
            "Nothing to account for yet: no plan, no joint, no finding.".to_owned(),
        ),
        0 => (
            if account.closed() {
                Tone::Good
            } else {
                Tone::Open
            },
            format!("Nothing is forgotten: {all} of {all} accounted for{reasons}."),
        ),
        open => (
            Tone::Open,
            format!(
                "{} open: {} of {all} accounted for{reasons}.",
                words::count(open, "thing is", "things are"),
                all - open
            ),
        ),
    }
}

/// The open things by name, and what is left out and held up all the same.
fn detail(view: &View<'_>, account: &Audit) -> Vec<Run> {
    let named = |lines: Vec<&Line>| {
        let names: Vec<String> = lines.iter().map(|line| say::name(view.job, line)).collect();
        words::list(&names, NAMED)
    };
    let open = account.open();
    let first = open.first().and_then(|line| line.holds);
    let (now, later): (Vec<&Line>, Vec<&Line>) =
        open.into_iter().partition(|line| line.holds == first);
    let mut runs = Vec::new();
    if let Some(opens) = first {
        let before = match opens {
            Opens::Float => "Before it floats: ",
            Opens::FullThrottle => "Before full throttle: ",
            Opens::Closed => "Before the job is closed: ",
        };
        runs.extend([plain(before), strong(named(now)), plain(". ")]);
        if !later.is_empty() {
            runs.push(plain(format!("Later: {} more. ", later.len())));
        }
    }
    let missed = account
        .lines
        .iter()
        .filter(|line| line.state() == State::ByReason && line.holds.is_some());
    let missed: Vec<&Line> = missed.collect();
    if !missed.is_empty() {
        runs.push(plain(format!(
            "Left out with a reason, and missed all the same: {}.",
            named(missed)
        )));
    }
    if runs.is_empty() && !account.lines.is_empty() {
        runs.push(plain("Nothing is left to come back to."));
    }
    runs
}

fn open(view: &View<'_>) -> Option<Section> {
    let notes: Vec<String> = frame::objections(view.objections).collect();
    (!notes.is_empty()).then(|| Section::Notes {
        heading: "Entries that do not fit".to_owned(),
        notes,
    })
}

/// Photos of the thing that is asked about: they say why it is not there while the text is owed.
fn photos_of(view: &View<'_>, line: &Line) -> Option<Section> {
    let About::Item(place, ..) = &line.about else {
        return None;
    };
    let item = view.job.bench.plan()?.items.get(*place)?;
    let subject = Subject::Item(item.key.clone());
    Some(photos::strip((view.id, view.job), &subject, view.refused))
}

/// The thing that is asked about, with how many of it there are and what may be written.
fn card(view: &View<'_>, line: &Line) -> Option<Card> {
    let plan = view.job.bench.plan()?;
    let form = match &line.about {
        About::Item(place, ..) => {
            let item = &plan.items[*place];
            let told = view.job.bench.items.get(&item.key);
            let told = told.map(|told| &told.value);
            forms::account::item(item, told, view.refused)
        }
        About::Tool(place, _) => {
            let tool = &plan.tools[*place];
            let told = view.job.bench.tools.get(&tool.key);
            let told = told.map(|told| &told.value);
            forms::account::tool(tool, told, view.refused)
        }
        _ => return None,
    };
    // What is owed stands open.
    let own = forms::account::words(view.job, line, view.refused);
    let mut notes = Vec::new();
    if let Some(opens) = line.holds {
        notes.push(format!("It is missed {}.", say::before(opens)));
    }
    Some(Card {
        heading: line.name.clone(),
        tone: match line.state() {
            State::Accounted => Tone::Good,
            State::ByReason | State::Open => Tone::Open,
        },
        state: say::state(line, view.now),
        rows: Vec::new(),
        notes,
        forms: std::iter::once(form).chain(own).collect(),
    })
}

/// What stands together, in the order of the page.
pub(crate) fn heading(about: &About) -> &'static str {
    match about {
        About::Item(_, _, kind) => match kind {
            ItemKind::Plug => "Plugs",
            ItemKind::Clip => "Clips and clamps",
            ItemKind::Hose => "Hoses and lines",
            ItemKind::Cable => "Cables and linkages",
            ItemKind::Guard => "Guards, grates and covers",
            ItemKind::Sensor => "Sensors and leads",
            ItemKind::Temporary => "To come off again",
            ItemKind::Other => "Other things",
        },
        About::Tool(..) => "Tools",
        About::Step(_) => "Steps",
        About::Fasteners(_) => "Fasteners of the steps",
        About::Gate(_) => "Gates",
        About::Wait(_) => "Cures and waits",
        About::Joint(_) => "Circles of screws",
        About::Fit(_) => "Other joints",
        About::Reread => "The gap once more",
        About::Result(_) => "Measured",
        About::Finding(_) => "Findings",
    }
}

const HEADINGS: [&str; 18] = [
    "Plugs",
    "Clips and clamps",
    "Hoses and lines",
    "Cables and linkages",
    "Guards, grates and covers",
    "Sensors and leads",
    "To come off again",
    "Other things",
    "Tools",
    "Steps",
    "Fasteners of the steps",
    "Circles of screws",
    "Other joints",
    "The gap once more",
    "Cures and waits",
    "Gates",
    "Measured",
    "Findings",
];

/// Every line, by kind; each leads to where it is answered.
fn sections(view: &View<'_>, account: &Audit) -> Vec<Section> {
    let mut sections = Vec::new();
    for kind in HEADINGS {
        let lines = account.lines.iter();
        let lines: Vec<&Line> = lines.filter(|line| heading(&line.about) == kind).collect();
        if lines.is_empty() {
            continue;
        }
        let open = lines.iter().filter(|line| line.state() == State::Open);
        let told = lines.len() - open.count();
        let links = lines.iter().map(|line| {
            (
                leads(view, line),
                say::name(view.job, line),
                say::state(line, view.now),
            )
        });
        sections.push(Section::Links {
            heading: format!("{kind}: {told} of {}", lines.len()),
            links: links.collect(),
        });
    }
    sections
}

/// Where a line is answered.
fn leads(view: &View<'_>, line: &Line) -> Target {
    let id = view.id.clone();
    match &line.about {
        About::Item(_, key, _) => Target::Item(id, key.clone()),
        About::Tool(_, key) => Target::Tool(id, key.clone()),
        About::Step(key) | About::Fasteners(key) | About::Gate(key) => {
            Target::Step(id, key.clone())
        }
        About::Wait(_) => Target::Assemble(id),
        About::Joint(_) | About::Fit(_) => Target::Torque(id),
        About::Result("gap-out") => Target::Measure(id),
        About::Reread | About::Result(_) | About::Finding(_) => Target::Teardown(id),
    }
}

fn elsewhere(view: &View<'_>) -> Section {
    let link = |target: fn(JobId) -> Target, words: &str, more: &str| {
        (target(view.id.clone()), words.to_owned(), more.to_owned())
    };
    Section::Ways {
        heading: "From here".to_owned(),
        links: vec![
            link(Target::Assemble, "Assemble", "steps, waits, gates"),
            link(
                Target::Plan,
                "Change the plan",
                "add a thing or a tool, or take one off",
            ),
            link(
                Target::Sheet,
                "Build sheet",
                "the account is printed on it, with who and when",
            ),
        ],
    }
}

/// Whether a line is answered on this page: something to tell, or words to write.
pub(super) fn answered_here(line: &Line) -> bool {
    matches!(
        (&line.about, &line.stand),
        (About::Item(..) | About::Tool(..), _) | (About::Step(_), Stand::Reason(_))
    )
}
