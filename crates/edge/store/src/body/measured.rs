//! What happens at the bench: leaves tried, entries withdrawn.

use clearance::Answer as Said;
use serde::{Deserialize, Serialize};
use workshop::entry::{Body, EntryId};
use workshop::job;

use super::typed::Length;

#[derive(Serialize, Deserialize)]
#[serde(remote = "Said", rename_all = "kebab-case")]
enum Answer {
    GoesFree,
    Drags,
    Goes,
    WontGo,
}

/// Both counted from zero.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Spot {
    blade: u8,
    position: u8,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Tried {
    leaf: Length,
    #[serde(with = "Answer")]
    answer: Said,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Tries {
    spot: Spot,
    #[expect(clippy::struct_field_names, reason = "the field is the key")]
    tries: Vec<Tried>,
    afresh: bool,
}

impl From<&job::Tried> for Tried {
    fn from(tried: &job::Tried) -> Self {
        Self {
            leaf: Length::from(&tried.leaf),
            answer: tried.answer,
        }
    }
}

impl From<Tried> for job::Tried {
    fn from(tried: Tried) -> Self {
        Self {
            leaf: tried.leaf.into(),
            answer: tried.answer,
        }
    }
}

impl Tries {
    pub(super) fn new(spot: job::Spot, tries: &[job::Tried], afresh: bool) -> Self {
        let tries = tries.iter().map(Tried::from);
        Self {
            spot: Spot {
                blade: spot.blade,
                position: spot.position,
            },
            tries: tries.collect(),
            afresh,
        }
    }
}

impl From<Tries> for Body {
    fn from(there: Tries) -> Self {
        let tries = there.tries.into_iter().map(Into::into);
        Self::LeavesTried {
            spot: job::Spot {
                blade: there.spot.blade,
                position: there.spot.position,
            },
            tries: tries.collect(),
            afresh: there.afresh,
        }
    }
}

/// An [`EntryId`] as text.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Id(EntryId);

impl TryFrom<String> for Id {
    type Error = workshop::refusal::Refusal;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        EntryId::new(&text).map(Self)
    }
}

impl From<Id> for String {
    fn from(id: Id) -> Self {
        id.0.to_string()
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Withdrawn {
    entry: Id,
}

impl From<&EntryId> for Withdrawn {
    fn from(entry: &EntryId) -> Self {
        Self {
            entry: Id(entry.clone()),
        }
    }
}

impl From<Withdrawn> for Body {
    fn from(withdrawn: Withdrawn) -> Self {
        Self::Withdrawn {
            entry: withdrawn.entry.0,
        }
    }
}
