//! What was said of parts, consumables and tools.

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::{GROUPS, WHEREABOUTS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::inspect::Inspection;
use workshop::supplies::Said;

use super::{key, may};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Supply {
    key: String,
    name: String,
    group: Option<String>,
    whereabouts: Option<String>,
    expected: Option<String>,
    reason: String,
}

impl Supply {
    pub(super) fn new(key: &Key, said: &Said) -> Self {
        let at = said.whereabouts;
        Self {
            key: key.to_string(),
            name: said.name.clone(),
            group: said.group.map(|group| word(&GROUPS, group).to_owned()),
            whereabouts: at.map(|at| word(&WHEREABOUTS, at).to_owned()),
            expected: said.expected.map(|day| day.to_string()),
            reason: said.reason.clone(),
        }
    }
}

impl TryFrom<Supply> for Inspection {
    type Error = String;

    fn try_from(stored: Supply) -> Result<Self, String> {
        let expected = stored.expected.map(|day| day.parse()).transpose();
        Ok(Self::Supply {
            key: key(&stored.key)?,
            supply: Said {
                name: stored.name,
                group: may(&GROUPS, stored.group.as_ref())?,
                whereabouts: may(&WHEREABOUTS, stored.whereabouts.as_ref())?,
                expected: expected.map_err(|error: jiff::Error| error.to_string())?,
                reason: stored.reason,
            },
        })
    }
}
