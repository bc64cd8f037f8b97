//! An entry as a line of JSON: the columns of its row, and its body word for word.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use workshop::entry::{Entry, EntryId, LONGEST_ID};
use workshop::refusal::Refusal;

use crate::row::{Row, Stored};

/// One entry of a job: a line of `entries.jsonl`.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Line<'a> {
    /// Its place in the journal: 1, 2, 3 … without gaps.
    pub(super) position: u64,
    /// Its id, made by the device that sent it: small letters, digits and hyphens, 1 to 64.
    id: Cow<'a, str>,
    /// The last position its author was looking at.
    seen: u64,
    /// When a store first took it: RFC 3339.
    recorded_at: Cow<'a, str>,
    /// When it happened, as the person says: RFC 9557, with the person's zone.
    happened_at: Cow<'a, str>,
    /// Which device sent it.
    device: Cow<'a, str>,
    /// Who did it; empty when nobody said.
    who: Cow<'a, str>,
    /// The program that wrote it.
    program: Cow<'a, str>,
    /// What kind of entry it is.
    kind: Cow<'a, str>,
    /// The version of the shape of this kind's body.
    body_version: u32,
    /// What it says, word for word as it was stored.
    #[serde(borrow, default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "std::collections::BTreeMap<String, serde_json::Value>")]
    body: Option<&'a RawValue>,
    /// The same as text, in place of `body`, where what was stored is not an object on one line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    body_text: Option<Cow<'a, str>>,
}

impl<'a> Line<'a> {
    /// The row as a line.
    pub(super) fn of(stored: &'a Stored, entry: &Entry) -> Self {
        let Stored {
            position,
            recorded_at,
            row,
        } = stored;
        let body = plain(&row.body);
        let text = body.is_none().then(|| Cow::from(&row.body));
        Self {
            position: *position,
            id: row.id.as_str().into(),
            seen: entry.new.seen,
            recorded_at: recorded_at.into(),
            happened_at: (&row.happened_at).into(),
            device: (&row.device).into(),
            who: (&row.who).into(),
            program: (&row.program).into(),
            kind: (&row.kind).into(),
            body_version: u32::try_from(row.body_version).unwrap_or_default(),
            body,
            body_text: text,
        }
    }

    /// The line as the row it was, read through: with what it says, or why it says nothing.
    pub(super) fn stored(self) -> Result<(Stored, Entry), String> {
        let body = match (self.body, self.body_text) {
            (Some(body), None) if plain(body.get()).is_some() => body.get().to_owned(),
            (None, Some(text)) => text.into_owned(),
            (None, None) => return Err("it has neither “body” nor “body_text”".to_owned()),
            _ => return Err("its “body” must be one object, without “body_text”".to_owned()),
        };
        serde_json::from_str::<IgnoredAny>(&body)
            .map_err(|why| format!("its body is no JSON: {why}"))?;
        if !is_kind(&self.kind) {
            return Err(format!("“{}” is no kind of entry", short(&self.kind)));
        }
        if self.seen >= self.position {
            return Err(format!(
                "its author cannot have seen position {} before this one",
                self.seen
            ));
        }
        let stored = Stored {
            position: self.position,
            recorded_at: self.recorded_at.into_owned(),
            row: Row {
                id: EntryId::new(&self.id).map_err(|why| clause(&why))?,
                seen: i64::try_from(self.seen).map_err(|why| format!("“seen”: {why}"))?,
                happened_at: self.happened_at.into_owned(),
                device: self.device.into_owned(),
                who: self.who.into_owned(),
                program: self.program.into_owned(),
                kind: self.kind.into_owned(),
                body_version: i64::from(self.body_version),
                body,
            },
        };
        let entry = stored.entry();
        let entry = entry.map_err(|(column, why)| format!("its “{column}” cannot be read: {why}"));
        Ok((stored, entry?))
    }
}

/// The text as JSON that can stand in a line and comes back letter for letter.
fn plain(body: &str) -> Option<&RawValue> {
    let one_line = body.starts_with('{') && !body.contains(['\n', '\r']);
    let value: &RawValue = one_line.then(|| serde_json::from_str(body).ok())??;
    (value.get() == body).then_some(value)
}

fn is_kind(text: &str) -> bool {
    let letter = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    (1..=LONGEST_ID).contains(&text.len()) && text.bytes().all(letter)
}

/// A refusal as a part of a sentence.
pub(super) fn clause(refusal: &Refusal) -> String {
    refusal.to_string().trim_end_matches('.').to_owned()
}

fn short(text: &str) -> String {
    text.chars().take(LONGEST_ID).collect()
}
