//! The list of jobs.

use workshop::entry::JobId;

use super::{Answer, Next, Page, Refused, Section, Target, Tone, forms, frame, plain};
use crate::words;

/// One job of the list.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its id.
    pub id: JobId,
    /// Craft and reason.
    pub title: String,
    /// How many entries its journal has.
    pub entries: u64,
    /// When the last one was taken, in words.
    pub last: String,
}

/// The page.
pub fn page(lines: &[Line], refused: Option<&Refused>) -> Page {
    let links = lines.iter().map(|line| {
        let entries = words::count(
            usize::try_from(line.entries).unwrap_or(usize::MAX),
            "entry",
            "entries",
        );
        (
            Target::Measure(line.id.clone()),
            line.title.clone(),
            format!("{entries}, last {}", line.last),
        )
    });
    let mut evidence = if lines.is_empty() {
        Vec::new()
    } else {
        vec![Section::Links {
            heading: "Jobs".to_owned(),
            links: links.collect(),
        }]
    };
    evidence.push(Section::Form(forms::archive(refused)));
    let jobs: Vec<_> = lines
        .iter()
        .map(|line| (line.id.to_string(), line.title.clone()))
        .collect();
    let headline = match lines.len() {
        0 => "No job yet.".to_owned(),
        n => format!("{} on the bench.", words::count(n, "job", "jobs")),
    };
    let answer = Answer {
        tone: Tone::Plain,
        headline,
        detail: vec![plain("Open one, or begin the next.")],
        origin: String::new(),
    };
    Page {
        evidence,
        ..frame::bare("Jobs", answer, Next::Fill(forms::open(&jobs, refused)))
    }
}
