//! The short writing of a reading: what stands in a cell of the grid and in a job file.
//!
//! `13-14` 13 goes, 14 won't · `13` or `13 drags` · `13 goes free` · `<10` 10 won't go · `>20` 20 goes.
//! Several leaves at one spot are parted by a semicolon.

use clearance::Answer;
use quantity::{Unit, parse};

use crate::job::{Spot, Tried, blade_name, clock_name};
use crate::refusal::Refusal;

/// The words for each answer, the first being the one written.
const WORDS: [(Answer, &[&str]); 4] = [
    (Answer::GoesFree, &["goes free", "free"]),
    (Answer::Drags, &["drags", "drag"]),
    (
        Answer::WontGo,
        &[
            "won’t go",
            "won't go",
            "wont go",
            "won’t",
            "won't",
            "wont",
            "no",
        ],
    ),
    (Answer::Goes, &["goes"]),
];

/// The word for an answer.
pub fn answer_word(answer: Answer) -> &'static str {
    let named = WORDS.iter().find(|(known, _)| *known == answer);
    named.map_or("goes", |(_, words)| words[0])
}

/// The answer a word stands for.
pub fn answer_of(word: &str) -> Option<Answer> {
    let named = WORDS.iter().find(|(_, words)| words.contains(&word));
    named.map(|(answer, _)| *answer)
}

/// Reads what a person wrote for one spot; a bare number takes `unit`.
pub fn read(text: &str, unit: Unit) -> Result<Vec<Tried>, Refusal> {
    let parts: Vec<&str> = text
        .split(';')
        .map(str::trim)
        .filter(|p| !p.is_empty())
        .collect();
    if parts.is_empty() {
        return Err(Refusal::Empty { field: "reading" });
    }
    let mut tries = Vec::new();
    for part in parts {
        tries.extend(read_part(text, part, unit)?);
    }
    Ok(tries)
}

fn read_part(text: &str, part: &str, unit: Unit) -> Result<Vec<Tried>, Refusal> {
    let not_understood = || Refusal::BadReading {
        text: text.to_owned(),
        part: part.to_owned(),
    };
    for (answer, words) in WORDS {
        for word in words {
            if let Some(leaf) = part
                .strip_suffix(word)
                .map(str::trim)
                .filter(|l| !l.is_empty())
            {
                return Ok(vec![tried(leaf, unit, answer)?]);
            }
        }
    }
    if let Some(leaf) = part.strip_prefix('<') {
        return Ok(vec![tried(leaf, unit, Answer::WontGo)?]);
    }
    if let Some(leaf) = part.strip_prefix('>') {
        return Ok(vec![tried(leaf, unit, Answer::Goes)?]);
    }
    if let Ok(leaf) = tried(part, unit, Answer::Drags) {
        return Ok(vec![leaf]);
    }
    if let Some((goes, wont)) = part.split_once(['-', '–']) {
        // "13-14 thou": the unit behind the pair counts for both.
        let (goes, wont) = (goes.trim(), wont.trim());
        // A number below zero is told so; half a pair is no pair.
        if wont.is_empty() {
            return Err(not_understood());
        }
        let second = tried(wont, unit, Answer::WontGo)?;
        let first = tried(goes, second.leaf.unit, Answer::Goes)?;
        return Ok(vec![first, second]);
    }
    let starts = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    if part.split_whitespace().filter(starts).count() > 1 {
        return Err(not_understood());
    }
    if part.chars().any(|c| c.is_ascii_digit()) {
        return tried(part, unit, Answer::Drags).map(|leaf| vec![leaf]);
    }
    Err(not_understood())
}

fn tried(leaf: &str, unit: Unit, answer: Answer) -> Result<Tried, Refusal> {
    let leaf = parse(leaf.trim(), unit).map_err(|error| Refusal::Unreadable {
        field: "reading",
        error,
    })?;
    Ok(Tried { leaf, answer })
}

/// Writes tries so that [`read`] gives them back where a bare number takes `unit`.
pub fn write(tries: &[Tried], unit: Unit) -> String {
    let words = tries.iter().map(|tried| {
        format!(
            "{} {}",
            crate::draft::typed(&tried.leaf, unit),
            answer_word(tried.answer)
        )
    });
    words.collect::<Vec<_>>().join("; ")
}

/// Writes a spot: `A 1:30`.
pub fn write_spot(spot: Spot, positions: u8) -> String {
    format!(
        "{} {}",
        blade_name(spot.blade),
        clock_name(spot.position, positions)
    )
}

/// Reads a spot: the blade's letter and the clock.
pub fn read_spot(text: &str, positions: u8) -> Result<Spot, Refusal> {
    let bad = || Refusal::BadSpot {
        text: text.to_owned(),
    };
    let (blade, clock) = text.trim().split_once(' ').ok_or_else(bad)?;
    let blade = match blade.as_bytes() {
        [letter @ b'A'..=b'Z'] => letter - b'A',
        _ => return Err(bad()),
    };
    let clock = clock.trim();
    let clock = clock.strip_suffix(":00").unwrap_or(clock);
    let position = (0..positions)
        .find(|p| clock_name(*p, positions) == clock)
        .ok_or_else(bad)?;
    Ok(Spot { blade, position })
}
