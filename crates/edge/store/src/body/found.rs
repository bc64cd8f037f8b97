//! The as-found record.

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::SORTS;
use workshop::draft::word;
use workshop::entry::Key;
use workshop::inspect::Inspection;
use workshop::inspect::found::{self, Clock, Seen};

use super::typed::Length;
use super::{key, of};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AsFound {
    key: String,
    sort: String,
    at: String,
    seen: What,
    words: String,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is", deny_unknown_fields)]
enum What {
    NoSuch {},
    Apart {},
    Gap {
        least: Length,
        greatest: Length,
    },
    InLine {},
    Moved {
        by: Option<Length>,
    },
    Shims {
        studs: Vec<Stud>,
    },
    Hose {
        from: String,
        to: String,
        clamp: String,
    },
    Cable {
        threads: u8,
    },
    Ring {
        clock: String,
    },
    Words {},
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stud {
    stud: String,
    shims: Vec<Length>,
}

impl AsFound {
    pub(super) fn new(key: &Key, found: &found::AsFound) -> Self {
        Self {
            key: key.to_string(),
            sort: word(&SORTS, found.sort).to_owned(),
            at: found.at.clone(),
            seen: What::from(&found.seen),
            words: found.words.clone(),
        }
    }
}

impl From<&Seen> for What {
    fn from(seen: &Seen) -> Self {
        match seen {
            Seen::NoSuch => Self::NoSuch {},
            Seen::Apart => Self::Apart {},
            Seen::Gap(least, greatest) => Self::Gap {
                least: least.into(),
                greatest: greatest.into(),
            },
            Seen::InLine => Self::InLine {},
            Seen::Moved(by) => Self::Moved {
                by: by.as_ref().map(Length::from),
            },
            Seen::Shims(stacks) => Self::Shims {
                studs: stacks
                    .iter()
                    .map(|stack| Stud {
                        stud: stack.stud.clone(),
                        shims: stack.shims.iter().map(Length::from).collect(),
                    })
                    .collect(),
            },
            Seen::Hose { from, to, clamp } => Self::Hose {
                from: from.clone(),
                to: to.clone(),
                clamp: clamp.clone(),
            },
            Seen::Cable(threads) => Self::Cable { threads: *threads },
            Seen::Ring(clock) => Self::Ring {
                clock: clock.to_string(),
            },
            Seen::Words => Self::Words {},
        }
    }
}

impl TryFrom<What> for Seen {
    type Error = String;

    fn try_from(what: What) -> Result<Self, String> {
        Ok(match what {
            What::NoSuch {} => Self::NoSuch,
            What::Apart {} => Self::Apart,
            What::Gap { least, greatest } => Self::Gap(least.into(), greatest.into()),
            What::InLine {} => Self::InLine,
            What::Moved { by } => Self::Moved(by.map(Into::into)),
            What::Shims { studs } => Self::Shims(
                studs
                    .into_iter()
                    .map(|stud| found::Stack {
                        stud: stud.stud,
                        shims: stud.shims.into_iter().map(Into::into).collect(),
                    })
                    .collect(),
            ),
            What::Hose { from, to, clamp } => Self::Hose { from, to, clamp },
            What::Cable { threads } => Self::Cable(threads),
            What::Ring { clock } => Self::Ring(
                Clock::read(&clock).ok_or_else(|| format!("“{clock}” is no place of a clock"))?,
            ),
            What::Words {} => Self::Words,
        })
    }
}

impl TryFrom<AsFound> for Inspection {
    type Error = String;

    fn try_from(stored: AsFound) -> Result<Self, String> {
        Ok(Self::AsFound {
            key: key(&stored.key)?,
            found: found::AsFound {
                sort: of(&SORTS, &stored.sort)?,
                at: stored.at,
                seen: stored.seen.try_into()?,
                words: stored.words,
            },
        })
    }
}
