//! Calendar files of ours, read by icalendar.

use jiff::civil::{Date, date};
use jobfile::calendar::{Event, calendar};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use serde_json::{Value, json};

use crate::record::printed;

const STAMPED: &str = "2026-04-01T09:00:00+00:00";
const NAME: &str = "Patrol craft 3; pump, \\ring";

/// What is at home in a text, and what is not: signs of the format, line ends, letters of two to four octets.
const LETTERS: [&str; 20] = [
    "a", "n", "N", " ", "\\", ";", ",", ":", "\"", "\t", "\n", "\r\n", "\u{85}", "\u{2028}", "\0",
    "\u{1b}", "é", "–", "水", "🚤",
];

fn event(at: u32, date: Date, said: &str) -> Event {
    Event {
        uid: format!("craft-3-ring-{at}@pumpwright"),
        sequence: at,
        date,
        summary: format!("Ring {at}: {said}."),
        description: String::new(),
        alarm_days: None,
        cancelled: false,
    }
}

/// Texts of every length about where a line is folded, and invented ones of letters drawn.
fn events() -> Vec<Event> {
    let mut dice = Pcg64Mcg::seed_from_u64(5545);
    let mut draw = |most: u32| dice.next_u32() % most;
    let mut events = Vec::new();
    for at in 0..160 {
        let long = usize::try_from(draw(120)).unwrap();
        let drawn = (0..long).map(|_| LETTERS[usize::try_from(draw(20)).unwrap()]);
        let mut event = event(at, date(2026, 12, 31), &drawn.collect::<String>());
        event.description = "é".repeat(usize::try_from(at).unwrap());
        event.alarm_days = (at % 3 > 0).then(|| u16::try_from(at).unwrap());
        event.cancelled = at % 5 == 0;
        events.push(event);
    }
    events.push(event(160, date(2028, 2, 28), "leap"));
    events.push(event(2_147_483_647, date(1, 1, 1), "first"));
    events.push(event(162, Date::MAX, "last"));
    events
}

/// What of a text the format can say; what it can't is U+FFFD.
fn said(text: &str) -> String {
    let one = text
        .replace("\r\n", "\n")
        .replace(['\u{85}', '\u{2028}'], "\n");
    one.replace(['\0', '\u{1b}'], "\u{fffd}")
}

/// The event as the other parser must understand it.
fn understood(event: &Event) -> Value {
    let alarm = event.alarm_days.filter(|_| !event.cancelled).map(|days| {
        json!({"action": "DISPLAY", "description": said(&event.summary), "days": -f64::from(days)})
    });
    json!({
        "uid": event.uid,
        "stamped": STAMPED,
        "sequence": event.sequence,
        "start": event.date.to_string(),
        "end": event.date.tomorrow().ok().map(|end| end.to_string()),
        "summary": said(&event.summary),
        "description": event.description,
        "status": if event.cancelled { "CANCELLED" } else { "" },
        "transparent": true,
        "alarms": Vec::from_iter(alarm),
    })
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_a_calendar_is_read_as_it_was_meant_live() {
    let events = events();
    let text = calendar(NAME, STAMPED.parse().unwrap(), &events);
    let read = printed("calendar_file", &[&text]);
    assert_eq!(read["wrong"], json!([]));
    assert_eq!(read["version"], "2.0");
    assert_eq!(read["name"], NAME);
    let program = format!("-//Pumpwright//{}//EN", workshop::PROGRAM);
    assert_eq!(read["program"], program);
    let theirs = read["events"].as_array().unwrap();
    assert_eq!(theirs.len(), events.len());
    for (ours, theirs) in events.iter().zip(theirs) {
        assert_eq!(*theirs, understood(ours));
    }
}
