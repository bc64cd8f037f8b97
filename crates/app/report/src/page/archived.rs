//! What an archive brought in, in words.

use std::collections::BTreeMap;

use workshop::entry::JobId;

use super::{Answer, Next, Page, Target, Tone, frame, plain};
use crate::words::{count, list};

/// So many kinds of entries are named; the rest is counted.
const KINDS: usize = 4;

/// What came in by an archive, and what was here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Came {
    /// Craft and reason.
    pub title: String,
    /// The job was not here before.
    pub begun: bool,
    /// The entries that came in: position here, and kind as stored.
    pub new: Vec<(u64, String)>,
    /// How many entries of the archive were here.
    pub already: usize,
    /// The entries written here while the copies were apart, as `new`.
    pub apart: Vec<(u64, String)>,
    /// How many photos came in.
    pub photos: usize,
}

/// The page that answers an archive: what came in, and the way to the job.
pub fn page(id: &JobId, came: &Came) -> Page {
    let mut told = sentences(came).into_iter();
    let answer = Answer {
        tone: Tone::Plain,
        headline: told.next().unwrap_or_default(),
        detail: told.map(|sentence| plain(sentence + " ")).collect(),
        origin: String::new(),
    };
    let next = Next::Go {
        words: Vec::new(),
        links: vec![
            (
                Target::Sheet(id.clone()),
                "The job’s build sheet".to_owned(),
            ),
            (Target::Measure(id.clone()), "Go on with the job".to_owned()),
            (Target::Jobs, "All jobs".to_owned()),
        ],
    };
    frame::bare("Archive", answer, next)
}

/// What happened, the answer first; then what both copies did while they were apart.
pub fn sentences(came: &Came) -> Vec<String> {
    let Came {
        title,
        new,
        already,
        apart,
        photos,
        ..
    } = came;
    let mut parts = Vec::new();
    if !new.is_empty() {
        parts.push(count(new.len(), "entry", "entries"));
    }
    if *photos > 0 {
        parts.push(count(*photos, "photo", "photos"));
    }
    let parts = parts.join(" and ");
    let here = count(*already, "entry", "entries");
    let first = match (came.begun, parts.is_empty()) {
        (true, _) => format!("“{title}” is on this bench now: {parts} came in."),
        (_, true) => {
            format!("Nothing new: this bench has all of the archive’s {here} of “{title}”.")
        }
        _ => format!("{parts} came into “{title}”; {here} of the archive were here already."),
    };
    let mut told = vec![first];
    if !apart.is_empty() {
        told.push(format!(
            "While the two copies were apart, {} written here: {}.",
            were(apart),
            named(apart)
        ));
        told.push(format!(
            "{} written in the other copy: {}.",
            were(new),
            named(new)
        ));
        told.push(
            "Where both say something about the same thing, the later entry counts: look at those \
             pages once."
                .to_owned(),
        );
    }
    told
}

fn were(entries: &[(u64, String)]) -> String {
    let were = if entries.len() == 1 { "was" } else { "were" };
    format!("{} {were}", count(entries.len(), "entry", "entries"))
}

/// `leaves tried (3), photo taken`, the most frequent first.
fn named(entries: &[(u64, String)]) -> String {
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    for (_, kind) in entries {
        *kinds.entry(kind).or_default() += 1;
    }
    let mut kinds: Vec<(&str, usize)> = kinds.into_iter().collect();
    kinds.sort_by_key(|(_, number)| std::cmp::Reverse(*number));
    let words: Vec<String> = kinds
        .into_iter()
        .map(|(kind, number)| {
            let kind = kind.replace('-', " ");
            if number == 1 {
                kind
            } else {
                format!("{kind} ({number})")
            }
        })
        .collect();
    list(&words, KINDS)
}
