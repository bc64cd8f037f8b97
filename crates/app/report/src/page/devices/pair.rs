//! What a device sees that is not paired: what this is, and a number to type.

use std::fmt;

use super::super::{Answer, Next, Page, Refused, Section, Tone, forms, frame, plain, row};
use super::{MINUTES, TRIES};

/// What the page is drawn from.
#[derive(Clone, Debug, Default)]
pub struct PairView<'a> {
    /// The number, where the address brought it along.
    pub number: String,
    /// A name to begin with.
    pub name: String,
    /// When the device was removed, in words; none for one that was never paired.
    pub removed: Option<String>,
    /// What it had typed when it was refused.
    pub kept: Vec<Kept>,
    /// A refused form, to be shown again as typed.
    pub refused: Option<&'a Refused>,
}

/// Something typed that was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The name of its field.
    pub field: String,
    /// As typed.
    pub typed: String,
}

/// The page.
pub fn pair(view: &PairView<'_>) -> Page {
    let (tone, headline, first) = match &view.removed {
        Some(when) => (
            Tone::Stop,
            "This device was removed from the bench.",
            format!(
                "It was removed {when}; what it recorded stays. A new number lets it in again. "
            ),
        ),
        None => (
            Tone::Open,
            "This device is not paired yet.",
            "This is the bench of a workshop, and it shows nothing to devices it does not know. "
                .to_owned(),
        ),
    };
    let evidence = if view.kept.is_empty() {
        Vec::new()
    } else {
        let kept = view.kept.iter();
        let kept = kept.map(|kept| {
            row(
                kept.field.clone(),
                vec![plain(kept.typed.clone())],
                "not recorded",
            )
        });
        vec![Section::Facts {
            heading: "What you had typed".to_owned(),
            rows: kept.collect(),
        }]
    };
    let answer = Answer {
        tone,
        headline: headline.to_owned(),
        detail: vec![plain(format!(
            "{first}Ask at the bench for a number: it is on the screen where the bench was opened, and \
                 “Pair a device” on its page Devices makes another."
        ))],
        origin: String::new(),
    };
    Page {
        evidence,
        ..frame::bare(
            "Pair",
            answer,
            Next::Fill(forms::devices::pair(&view.number, &view.name, view.refused)),
        )
    }
}

/// Digits of a pairing number.
const DIGITS: usize = 6;
/// The longest name of a device, in characters.
const LONGEST_NAME: usize = 40;

/// Why a device is not let in, or not named so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Denied {
    /// What was typed is no pairing number, so it did not count as a try.
    NoNumber {
        /// As typed.
        typed: String,
    },
    /// Another number than the one that was given out.
    Wrong {
        /// Tries that are left.
        left: u32,
    },
    /// The number was guessed at too often.
    Void,
    /// No number is open: none was asked for, or it is used or too old.
    NoneOpen,
    /// The name is empty.
    NoName,
    /// The name is too long.
    LongName {
        /// Its characters.
        characters: usize,
    },
    /// The name holds what cannot be written on a line.
    BadName,
    /// Another device has the name.
    NameTaken {
        /// The name.
        name: String,
    },
    /// Another device's name or place was to be changed from a device, or a number asked for there.
    OnlyAtTheBench,
    /// There is no such device any more.
    Gone,
}

impl Denied {
    /// The field to blame.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::NoNumber { .. } | Self::Wrong { .. } | Self::Void | Self::NoneOpen => {
                Some("number")
            }
            Self::NoName | Self::LongName { .. } | Self::BadName | Self::NameTaken { .. } => {
                Some("name")
            }
            Self::OnlyAtTheBench | Self::Gone => None,
        }
    }
}

impl fmt::Display for Denied {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNumber { typed } => write!(
                f,
                "“{typed}” is no pairing number: it has {DIGITS} digits. It was not counted as a try."
            ),
            Self::Wrong { left: 1 } => f.write_str(
                "That is not the number. One more try, and it is void: look at it again at the bench.",
            ),
            Self::Wrong { left } => write!(f, "That is not the number. {left} tries are left."),
            Self::Void => write!(
                f,
                "The number is void after {TRIES} wrong tries. Ask at the bench for another: “Pair a \
                 device” on its page Devices makes one."
            ),
            Self::NoneOpen => write!(
                f,
                "No pairing number is open now: one is good for {MINUTES} minutes and one device. Ask at \
                 the bench for another: “Pair a device” on its page Devices makes one."
            ),
            Self::NoName => f.write_str("Give this device a name, so that the journal can tell who wrote."),
            Self::LongName { characters } => write!(
                f,
                "This name has {characters} characters and may have {LONGEST_NAME}. Shorten it."
            ),
            Self::BadName => {
                f.write_str("This name holds a character that cannot be shown. Write it on one line.")
            }
            Self::NameTaken { name } => write!(
                f,
                "Another device here is named “{name}”. Give this one another name, so that the journal \
                 can tell them apart; if it was this one before, remove that at the bench first."
            ),
            Self::OnlyAtTheBench => f.write_str(
                "Nothing was changed. Numbers, and other devices, are looked after at the bench itself: \
                 open its page Devices on the machine it runs on.",
            ),
            Self::Gone => f.write_str("Nothing was changed: that device is not paired any more."),
        }
    }
}

/// A name as typed, or why it is none.
pub fn name(typed: &str) -> Result<String, Denied> {
    let name = typed.trim();
    let characters = name.chars().count();
    if name.is_empty() {
        Err(Denied::NoName)
    } else if characters > LONGEST_NAME {
        Err(Denied::LongName { characters })
    } else if name.chars().any(char::is_control) {
        Err(Denied::BadName)
    } else {
        Ok(name.to_owned())
    }
}

/// The digits of a number as typed, with spaces or without, or why it is none.
pub fn digits(typed: &str) -> Result<String, Denied> {
    let digits: String = typed.chars().filter(|c| !c.is_whitespace()).collect();
    if digits.len() == DIGITS && digits.bytes().all(|digit| digit.is_ascii_digit()) {
        return Ok(digits);
    }
    Err(Denied::NoNumber {
        typed: typed.trim().chars().take(LONGEST_NAME).collect(),
    })
}
