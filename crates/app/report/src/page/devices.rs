//! The devices of the bench: who may come in, and how another one does.

mod pair;
mod say;

pub use pair::{Denied, Kept, PairView, digits, name, pair};

use maud::Markup;

use super::{
    Answer, Button, Card, FormName, Next, Page, Refused, Section, Target, Tone, Weight, forms,
    frame, plain, row, strong,
};
use crate::words;

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// Who looks.
    pub reader: Reader<'a>,
    /// How other devices reach the bench; none where it is open on its own machine only.
    pub lan: Option<&'a Lan>,
    /// The devices that may come in.
    pub devices: &'a [Line],
    /// A refused form, to be shown again as typed.
    pub refused: Option<&'a Refused>,
}

/// Who looks at the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reader<'a> {
    /// The machine the bench runs on.
    Bench,
    /// A paired device, by its id.
    Device(&'a str),
}

/// How other devices reach the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lan {
    /// The addresses to open: `http://192.168.1.20:8157/`.
    pub addresses: Vec<String>,
    /// The same by plain HTTP, where a device takes the authority first when the others are HTTPS.
    pub plain: Vec<String>,
    /// Whether they are HTTPS.
    pub secure: bool,
    /// The pairing number.
    pub number: Number,
}

/// How the pairing number stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Number {
    /// None was asked for.
    None,
    /// It may be used.
    Open {
        /// The six digits.
        digits: String,
        /// Whole minutes that are left, at least one.
        minutes: i64,
        /// Addresses of the pairing page with the number in them, one an address of the bench.
        links: Vec<String>,
    },
    /// It let a device in.
    Used,
    /// Its time ran out.
    Expired,
    /// It was guessed at too often.
    Void,
}

/// A device in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// When it was paired, in words.
    pub paired: String,
    /// When it last asked for something, in words.
    pub seen: String,
}

/// Minutes a pairing number lives.
pub const MINUTES: i64 = 10;
/// Wrong tries after which it is void.
pub const TRIES: u32 = 5;

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let mut evidence = Vec::new();
    if let (Reader::Bench, Some(lan)) = (view.reader, view.lan) {
        evidence.extend(codes(lan));
    }
    if let Some(lan) = view.lan {
        evidence.push(addresses(lan));
    }
    evidence.extend(view.devices.iter().map(|line| card(line, view)));
    evidence.push(say::takes_away(view.lan));
    Page {
        evidence,
        ..frame::bare("Devices", say::answer(view), next(view))
    }
}

/// The line of the jobs page that leads here.
pub fn on_jobs(page: Page, lan: bool) -> Page {
    let about = if lan {
        "who may come in, and how a tablet or phone does"
    } else {
        "how a tablet or phone comes in: open the bench with “pumpwright serve --lan”"
    };
    let mut page = page;
    page.evidence.push(Section::Ways {
        heading: "This bench".to_owned(),
        links: vec![(Target::Devices, "Devices".to_owned(), about.to_owned())],
    });
    page
}

/// A code to scan for each address, while a number is open.
fn codes(lan: &Lan) -> Vec<Section> {
    let Number::Open { links, .. } = &lan.number else {
        return Vec::new();
    };
    let several = links.len() > 1;
    let code = |(link, address): (&String, &String)| -> Option<Section> {
        let svg: Markup = chart::qr(link).ok()?;
        let which = if several {
            " It must be in the network of this address."
        } else {
            ""
        };
        Some(Section::Picture {
            heading: format!("Scan to pair, by {}", bare(address)),
            svg,
            caption: format!(
                "Point the camera of the device at it, open the link and press “Pair this device”.{which}"
            ),
        })
    };
    links
        .iter()
        .zip(&lan.addresses)
        .filter_map(code)
        .take(MOST_CODES)
        .collect()
}

/// More codes than this side by side are scanned by mistake.
const MOST_CODES: usize = 4;

/// An address without the letters that every address has.
fn bare(address: &str) -> &str {
    let (_, bare) = address.split_once("://").unwrap_or(("", address));
    bare.trim_end_matches('/')
}

fn addresses(lan: &Lan) -> Section {
    let open = |address: &String| row("Open on the device", vec![strong(address.clone())], "");
    let first = |address: &String| {
        row(
            "The first time",
            vec![strong(address.clone())],
            "to take the authority of the bench",
        )
    };
    let firsts = lan.plain.iter().filter(|_| lan.secure).map(first);
    Section::Facts {
        heading: "Where the bench is".to_owned(),
        rows: firsts.chain(lan.addresses.iter().map(open)).collect(),
    }
}

fn card(line: &Line, view: &View<'_>) -> Section {
    let own = view.reader == Reader::Device(&line.id);
    let forms = if own || view.reader == Reader::Bench {
        vec![
            forms::devices::rename(&line.id, &line.name, view.refused),
            forms::devices::remove(&line.id, own),
        ]
    } else {
        Vec::new()
    };
    Section::Card(Card {
        heading: line.name.clone(),
        tone: Tone::Plain,
        state: if own { "this device" } else { "" }.to_owned(),
        rows: vec![
            row("Paired", vec![plain(line.paired.clone())], ""),
            row(
                "Last seen",
                vec![plain(line.seen.clone())],
                "to ten minutes",
            ),
        ],
        notes: Vec::new(),
        forms,
    })
}

fn next(view: &View<'_>) -> Next {
    match (view.reader, view.lan) {
        (Reader::Bench, Some(lan)) => {
            let open = matches!(lan.number, Number::Open { .. });
            let (question, label, weight) = if open {
                (
                    "A number lets in one device. Another number takes its place.",
                    "Another number",
                    Weight::Plain,
                )
            } else {
                ("Let another device in.", "Pair a device", Weight::Main)
            };
            Next::Ask {
                question: vec![plain(question)],
                buttons: vec![Button {
                    label: label.to_owned(),
                    form: FormName::PairingNumber,
                    values: Vec::new(),
                    weight,
                    key: None,
                }],
                write: None,
            }
        }
        _ => Next::Go {
            words: Vec::new(),
            links: vec![(Target::Jobs, "All jobs".to_owned())],
        },
    }
}

/// `2 devices are paired.`
fn paired(devices: &[Line]) -> String {
    match devices.len() {
        0 => "No other device is paired.".to_owned(),
        1 => "1 device is paired.".to_owned(),
        n => format!("{} are paired.", words::count(n, "device", "devices")),
    }
}
