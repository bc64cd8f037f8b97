//! Who acts, when, and what they were looking at: what a form says beside its fields.

use jiff::{SignedDuration, ZonedDateTime};
use workshop::act::Stamp;
use workshop::entry::{EntryId, LONGEST_ID};
use workshop::refusal::{Apart, Refusal};

use crate::act::Sent;
use crate::handlers::clock;
use crate::visitor::Visitor;

/// How far the clocks of two devices may differ, in minutes.
const MOST_SKEW: i64 = 2;
/// How long an act may wait on a device, in days.
const LONGEST_WAIT: i64 = 30;

/// The stamp of a form.
pub(crate) fn stamp(sent: &Sent, visitor: &Visitor) -> Result<Stamp, Refusal> {
    let now = clock();
    Ok(Stamp {
        id: EntryId::new(&sent.get("id"))?,
        now: pressed(&sent.get("act_at"), &now)?.unwrap_or(now),
        device: visitor.device.clone(),
        who: visitor.who.clone(),
        seen: seen(&sent.get("act_seen"))?,
    })
}

/// The stamp of one of several acts of a form: the first bears the form's own id.
pub(crate) fn numbered(stamp: &Stamp, number: usize) -> Result<Stamp, Refusal> {
    let id = match number {
        0 => stamp.id.clone(),
        number => EntryId::new(&format!("{}-{number}", stamp.id))?,
    };
    Ok(Stamp {
        id,
        ..stamp.clone()
    })
}

/// The position that the page of the form was drawn at; none where the form says none.
fn seen(text: &str) -> Result<Option<u64>, Refusal> {
    if text.is_empty() {
        return Ok(None);
    }
    let position = text.parse().ok().filter(|_| !text.starts_with('+'));
    let none = || Apart::NotAPosition {
        text: shortened(text),
    };
    position.map(Some).ok_or_else(|| Refusal::Apart(none()))
}

/// When the person pressed, for a form that waited on its device; none for one that was sent at once.
fn pressed(text: &str, now: &ZonedDateTime) -> Result<Option<ZonedDateTime>, Refusal> {
    if text.is_empty() {
        return Ok(None);
    }
    let at: ZonedDateTime = text.parse().map_err(|_| {
        Refusal::Apart(Apart::NotATime {
            text: shortened(text),
        })
    })?;
    let ahead = at.timestamp().duration_since(now.timestamp());
    let told = |at: &ZonedDateTime| at.strftime("%Y-%m-%d %H:%M").to_string();
    if ahead > SignedDuration::from_mins(MOST_SKEW) {
        return Err(Refusal::Apart(Apart::Early {
            at: told(&at),
            now: told(now),
            minutes: MOST_SKEW,
        }));
    }
    if ahead < SignedDuration::from_hours(-24 * LONGEST_WAIT) {
        return Err(Refusal::Apart(Apart::Old {
            at: told(&at),
            days: LONGEST_WAIT,
        }));
    }
    Ok(Some(at))
}

fn shortened(text: &str) -> String {
    text.chars().take(LONGEST_ID).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn now() -> ZonedDateTime {
        "2026-11-29T14:00:00+01:00[Europe/Berlin]".parse().unwrap()
    }

    #[test]
    fn law_an_act_that_waited_bears_the_time_of_pressing() {
        for (text, told) in [
            ("", None),
            (
                "2026-11-29T13:10:05.25+01:00[+01:00]",
                Some("2026-11-29T12:10:05.25Z"),
            ),
            (
                "2026-11-29T14:02:00+01:00[+01:00]",
                Some("2026-11-29T13:02:00Z"),
            ),
            (
                "2026-10-30T14:00:00+01:00[+01:00]",
                Some("2026-10-30T13:00:00Z"),
            ),
        ] {
            let at = pressed(text, &now()).unwrap();
            let at = at.map(|at| at.timestamp().to_string());
            assert_eq!(at.as_deref(), told, "{text}");
        }
    }

    #[test]
    fn law_a_time_that_cannot_be_is_refused() {
        for (text, words) in [
            (
                "2026-11-29T14:02:01+01:00[+01:00]",
                "Clocks may differ by 2 minutes",
            ),
            ("2026-10-30T13:59:59+01:00[+01:00]", "may wait 30 days"),
            ("2026-11-29T13:10:05+01:00", "no time with its zone"),
            ("yesterday", "no time with its zone"),
            ("0001-01-01T00:00:00+00:00[+00:00]", "may wait 30 days"),
        ] {
            let refused = pressed(text, &now()).unwrap_err().to_string();
            assert!(refused.contains(words), "{text}: {refused}");
        }
    }

    #[test]
    fn law_a_position_is_digits() {
        assert_eq!(seen("").unwrap(), None);
        assert_eq!(seen("12").unwrap(), Some(12));
        for text in ["-1", "+1", "1.5", "twelve", "18446744073709551616", " 1"] {
            assert!(seen(text).is_err(), "{text}");
        }
    }
}
