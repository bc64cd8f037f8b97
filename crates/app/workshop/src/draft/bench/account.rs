//! What is told of a thing to account for, and why a step is left off, as typed.

use super::{Choice, choose, number, word};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::plan::{Account, Excuse, Ready, Told, Work};
use crate::refusal::Refusal;

/// The words for [`Ready`].
pub const READIES: [Choice<Ready>; 6] = [
    ("not-on-craft", Ready::NotOnCraft),
    ("on-order", Ready::OnOrder),
    ("waits-for-step", Ready::WaitsForStep),
    ("broken", Ready::Broken),
    ("trial", Ready::Trial),
    ("own-words", Ready::OwnWords),
];

/// [`Account`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AccountDraft {
    /// Key of the thing, or of the tool.
    pub key: String,
    /// How many are where they belong; empty for none.
    pub count: String,
    /// A word of [`READIES`]; empty where nothing is missing, or for own words.
    pub ready: String,
    /// The person's own words; may be empty.
    pub reason: String,
}

impl AccountDraft {
    pub(super) fn of(key: &Key, told: &Told<Account>) -> Self {
        let Account { count, missing } = &told.value;
        let missing = missing.as_ref();
        let (ready, reason) = missing.map_or_else(Default::default, typed);
        Self {
            key: key.to_string(),
            count: count.to_string(),
            ready,
            reason,
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<(Key, Account), Refusal> {
        let account = Account {
            count: match self.count.trim() {
                "" => 0,
                text => number("count", text)?,
            },
            missing: excuse(&self.ready, &self.reason)?,
        };
        Ok((Key::new(&self.key)?, account))
    }
}

/// A reason as its word and its text; own words need no word.
pub(super) fn typed(excuse: &Excuse) -> (String, String) {
    let ready = match excuse.ready {
        Ready::OwnWords => "",
        ready => word(&READIES, ready),
    };
    (ready.to_owned(), excuse.words.clone())
}

/// A reason; none where nothing is said.
pub fn excuse(ready: &str, words: &str) -> Result<Option<Excuse>, Refusal> {
    let words = words.trim();
    if ready.trim().is_empty() {
        return Ok((!words.is_empty()).then(|| Excuse::own(words)));
    }
    Ok(Some(Excuse {
        ready: choose("ready", ready.trim(), &READIES)?,
        words: words.to_owned(),
    }))
}

/// A step left off. Without a word of what ends it, a ready-made reason says so itself.
pub fn deferred(
    step: Key,
    (ready, reason): (&str, &str),
    (release, until): (&str, &str),
) -> Result<Work, Refusal> {
    let reason = excuse(ready, reason)?.ok_or(Refusal::Empty { field: "reason" })?;
    let release = match release.trim() {
        "" => reason.ready.release(),
        release => release,
    };
    Ok(Work::StepDeferred {
        step,
        release: release.to_owned(),
        reason,
        until: match until {
            "" => None,
            until => Some(Key::new(until)?),
        },
    })
}

/// The acts that tell `had` what these drafts say: of the things one by one, of the tools at once.
pub(super) fn acts(
    bench: &crate::plan::Bench,
    items: &[AccountDraft],
    tools: &[AccountDraft],
) -> Result<Vec<Act>, Refusal> {
    let same = |had: Option<&Told<Account>>, account: &Account| {
        had.is_some_and(|had| had.value == *account)
    };
    let mut acts = Vec::new();
    for draft in items {
        let (item, account) = draft.read()?;
        if !same(bench.items.get(&item), &account) {
            let told = Work::ItemTold { item, account };
            acts.push(Act::Record(Body::Work(told)));
        }
    }
    let counted = tools.iter().map(AccountDraft::read);
    let mut counted = counted.collect::<Result<std::collections::BTreeMap<_, _>, _>>()?;
    counted.retain(|tool, account| !same(bench.tools.get(tool), account));
    if !counted.is_empty() {
        acts.push(Act::Record(Body::Work(Work::ToolsCounted(counted))));
    }
    Ok(acts)
}
