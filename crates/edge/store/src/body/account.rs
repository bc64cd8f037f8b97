//! What is told of the things to account for, and why a step is left off.

use serde::{Deserialize, Serialize};
use workshop::plan;

use super::work::Name;

/// Why something is left out or left off.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Excuse {
    #[serde(with = "Ready")]
    ready: plan::Ready,
    words: String,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "plan::Ready", rename_all = "kebab-case")]
enum Ready {
    NotOnCraft,
    OnOrder,
    WaitsForStep,
    Broken,
    Trial,
    OwnWords,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Told {
    item: Name,
    count: u16,
    missing: Option<Excuse>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Counted {
    tools: Vec<Back>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Back {
    tool: Name,
    count: u16,
    missing: Option<Excuse>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Deferred {
    step: Name,
    reason: Excuse,
    release: String,
    until: Option<Name>,
}

/// Before the third version a reason was words alone.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DeferredV2 {
    step: Name,
    reason: String,
    release: String,
    /// The second version may name the step whose end ends it.
    #[serde(default)]
    until: Option<Name>,
}

impl From<plan::Excuse> for Excuse {
    fn from(excuse: plan::Excuse) -> Self {
        let plan::Excuse { ready, words } = excuse;
        Self { ready, words }
    }
}

impl From<Excuse> for plan::Excuse {
    fn from(stored: Excuse) -> Self {
        let Excuse { ready, words } = stored;
        Self { ready, words }
    }
}

impl Told {
    pub(super) fn new(item: Name, account: plan::Account) -> Self {
        let plan::Account { count, missing } = account;
        Self {
            item,
            count,
            missing: missing.map(Excuse::from),
        }
    }
}

impl From<Told> for plan::Work {
    fn from(stored: Told) -> Self {
        Self::ItemTold {
            item: stored.item.0,
            account: plan::Account {
                count: stored.count,
                missing: stored.missing.map(plan::Excuse::from),
            },
        }
    }
}

impl Counted {
    pub(super) fn new(
        counted: impl IntoIterator<Item = (workshop::entry::Key, plan::Account)>,
    ) -> Self {
        let tool = |(tool, account): (_, plan::Account)| Back {
            tool: Name(tool),
            count: account.count,
            missing: account.missing.map(Excuse::from),
        };
        Self {
            tools: counted.into_iter().map(tool).collect(),
        }
    }
}

impl From<Counted> for plan::Work {
    fn from(stored: Counted) -> Self {
        let account = |stored: Back| {
            let account = plan::Account {
                count: stored.count,
                missing: stored.missing.map(plan::Excuse::from),
            };
            (stored.tool.0, account)
        };
        Self::ToolsCounted(stored.tools.into_iter().map(account).collect())
    }
}

impl Deferred {
    pub(super) fn new(
        step: Name,
        reason: plan::Excuse,
        (release, until): (String, Option<Name>),
    ) -> Self {
        Self {
            step,
            reason: reason.into(),
            release,
            until,
        }
    }
}

impl From<DeferredV2> for Deferred {
    fn from(old: DeferredV2) -> Self {
        let reason = plan::Excuse::own(old.reason);
        Self::new(old.step, reason, (old.release, old.until))
    }
}

impl From<Deferred> for plan::Work {
    fn from(stored: Deferred) -> Self {
        Self::StepDeferred {
            step: stored.step.0,
            reason: stored.reason.into(),
            release: stored.release,
            until: stored.until.map(|until| until.0),
        }
    }
}
