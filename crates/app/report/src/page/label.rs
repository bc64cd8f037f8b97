//! The label for the pump's housing: what pump this is, what was done, what falls due, and the way to its history.

use workshop::entry::{Entry, JobId};
use workshop::gap::Shown;
use workshop::job::Job;
use workshop::upkeep::answer::Answer as Says;

use super::record::{by, find};
use super::service::due;
use super::{Answer, Next, Page, Section, Target, Tone, frame, plain};
use crate::words;

/// Sizes of a label: the key in the page's address, and the words.
pub const SIZES: [(&str, &str); 3] = [
    ("62", "62 × 100 mm, from a roll"),
    ("a6", "A6, a quarter of a sheet"),
    ("sheet", "six of 62 × 100 mm on a sheet of A4 or Letter"),
];

/// How many labels stand on one sheet.
pub const ON_A_SHEET: usize = 6;

/// The longest address that is taken, in characters: a longer one makes the modules of the code too small.
pub const LONGEST_ADDRESS: usize = 100;

/// Where the code of a label leads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Address {
    /// The bench as other devices reach it.
    Asked(String),
    /// The bench on this machine alone.
    Loopback(String),
    /// As a person typed it.
    Typed(String),
    /// What was typed is none; the one of this request stands instead.
    Refused {
        /// What was typed.
        typed: String,
        /// Why it is none.
        why: NoAddress,
        /// The one of this request.
        instead: String,
    },
}

/// Why a text is no address of the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAddress {
    /// It is no address with a host.
    Malformed,
    /// It begins with something else than http or https.
    Scheme,
    /// A name or a password stands in it.
    User,
    /// Something stands behind the host and its port.
    Path,
    /// A phone that opens it looks for the bench on itself.
    Loopback,
    /// It is too long.
    Long(usize),
}

impl NoAddress {
    fn words(self) -> String {
        match self {
            Self::Malformed => "This is no address. Write it as the phone opens it: http://192.168.1.20:8080".to_owned(),
            Self::Scheme => "An address of the bench begins with http or https.".to_owned(),
            Self::User => "A name or a password before an @ would be printed for everybody to read. Take it out.".to_owned(),
            Self::Path => "Only the beginning of the address is wanted, up to the port: http://192.168.1.20:8080".to_owned(),
            Self::Loopback => "A phone that opens this looks for the bench on itself. Write the address of this machine in the network of the phone.".to_owned(),
            Self::Long(length) => format!(
                "This has {length} characters, and the code on a label can be read with up to {LONGEST_ADDRESS}. Take a shorter name of the machine."
            ),
        }
    }
}

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// The whole journal, for who closed it.
    pub entries: &'a [Entry],
    /// What falls due.
    pub says: &'a Says,
    /// Which size: a key of [`SIZES`].
    pub size: &'a str,
    /// Where the code leads.
    pub address: &'a Address,
    /// The path of the history under that address.
    pub path: &'a str,
}

/// A label with the choices it is made by, ready to be printed.
#[derive(Clone, Debug)]
pub struct Label {
    /// Its page.
    pub page: Target,
    /// Key of its size.
    pub size: &'static str,
    /// How many of it are printed.
    pub copies: usize,
    /// The address as typed, or as it came.
    pub typed: String,
    /// Why what was typed is no address.
    pub refusal: Option<String>,
    /// The job.
    pub title: String,
    /// Name and value.
    pub rows: Vec<(&'static str, String)>,
    /// What stands under all of it: that data are invented.
    pub note: String,
    /// The code, or why there is none.
    pub code: Result<maud::Markup, String>,
    /// The same address to read and type.
    pub short: String,
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Label(view.id.clone());
    Page {
        title: "Pump label".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &Target::Sheet(view.id.clone())),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(view.address),
        evidence: vec![Section::Label(Box::new(label(view)))],
        next: Next::Print {
            words: vec![plain("At 100 %, on paper of the size chosen.")],
            links: vec![
                (
                    Target::History(view.id.clone()),
                    "What the code opens".to_owned(),
                ),
                (Target::Sheet(view.id.clone()), "Build sheet".to_owned()),
            ],
        },
        cautions: Vec::new(),
    }
}

fn answer(address: &Address) -> Answer {
    let said = |tone, headline: &str, detail: &str| Answer {
        tone,
        headline: headline.to_owned(),
        detail: vec![plain(detail)],
        origin: "QR code by ISO/IEC 18004, error correction M".to_owned(),
    };
    match address {
        Address::Asked(_) | Address::Typed(_) => said(
            Tone::Plain,
            "A label for the pump: its code opens this pump’s history.",
            "It works while the bench runs at the address on the label, for a phone that may use it. The words on the label \
             are for when it does not.",
        ),
        Address::Loopback(_) => said(
            Tone::Open,
            "This label’s code opens on this machine only.",
            "Type the address a phone will use for the bench, and the code leads there. It is kept in the address of this \
             page and nowhere else.",
        ),
        Address::Refused { .. } => said(
            Tone::Open,
            "The address typed is not taken.",
            "The label leads to the bench as this page was opened until another one is typed.",
        ),
    }
}

fn label(view: &View<'_>) -> Label {
    let (base, typed, refusal) = match view.address {
        Address::Asked(base) | Address::Typed(base) => (base, base.clone(), None),
        Address::Loopback(base) => (base, String::new(), None),
        Address::Refused {
            typed,
            why,
            instead,
        } => (instead, typed.clone(), Some(why.words())),
    };
    let address = format!("{base}{}", view.path);
    let known = SIZES.iter().find(|(key, _)| *key == view.size);
    let size = known.map_or(SIZES[0].0, |(key, _)| key);
    Label {
        page: Target::Label(view.id.clone()),
        size,
        copies: if size == "sheet" { ON_A_SHEET } else { 1 },
        typed,
        refusal,
        title: view.job.title.clone().unwrap_or_default(),
        rows: rows(view),
        note: invented(view.job),
        code: chart::qr(&address).map_err(|why| why.to_string()),
        // A browser adds http by itself.
        short: match address.split_once("://") {
            Some(("http", rest)) => rest.to_owned(),
            _ => address,
        },
    }
}

/// The first sentence of a note that says the data are invented.
fn invented(job: &Job) -> String {
    let first = job
        .note
        .split_inclusive(['.', '\n'])
        .next()
        .unwrap_or_default();
    if first.starts_with("Invented") {
        first.trim().to_owned()
    } else {
        String::new()
    }
}

fn rows(view: &View<'_>) -> Vec<(&'static str, String)> {
    let mut rows = Vec::new();
    rows.extend(pump(view.job).map(|pump| ("Pump", pump)));
    let fitted = fitted(view.job);
    if !fitted.is_empty() {
        rows.push(("Fitted", words::list(&fitted, 4)));
    }
    rows.push(("Rebuilt", rebuilt(view)));
    rows.push(("Gap", gap(view.job)));
    rows.push(("Next", due::in_short(view.says)));
    rows
}

/// `3 blades, bore 155 mm`
pub(super) fn pump(job: &Job) -> Option<String> {
    let pump = &job.pump.as_ref()?.value;
    Some(format!(
        "{} blades, bore {}",
        pump.blades,
        pump.bore.worded()
    ))
}

/// The sorts of the pieces that are in this craft now.
pub(super) fn fitted(job: &Job) -> Vec<String> {
    let upkeep = &job.upkeep;
    let now = upkeep.pieces.values().map(|state| &state.said.value);
    let now = now.filter(|piece| !piece.elsewhere && piece.end.is_none());
    now.filter_map(|piece| Some(upkeep.parts.get(&piece.part)?.said.value.name.clone()))
        .collect()
}

/// `9 May 2026, A. Example, at 118 h`; a job that is not closed says so.
fn rebuilt(view: &View<'_>) -> String {
    let day = |day: jiff::civil::Date| day.strftime("%-d\u{a0}%B\u{a0}%Y").to_string();
    let Some(closed) = &view.job.upkeep.closed else {
        let begun = view
            .job
            .opened
            .map_or_else(String::new, |on| format!(", begun {}", day(on)));
        return format!("not closed yet{begun}");
    };
    let who = find(view.entries, &closed.what.entry).map(by);
    let read = view
        .job
        .upkeep
        .meter
        .iter()
        .filter(|read| read.on <= closed.on);
    let read = read.max_by_key(|read| read.on);
    let hours = read.map(|read| format!("at {}", read.what.value.hours.worded()));
    let all = [Some(day(closed.on)), who, hours];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// `16.8 thou (14.4 to 21.4)`
pub(super) fn gap(job: &Job) -> String {
    let unit = job.unit();
    let told = |shown: &Shown| {
        format!(
            "{} (least {}, greatest {})",
            words::length(shown.mean.median, unit),
            words::bare(shown.least.median, unit),
            words::bare(shown.greatest.median, unit)
        )
    };
    let taken = job.accepted.as_ref();
    taken.map_or_else(|| "no result taken".to_owned(), |fact| told(&fact.value))
}
