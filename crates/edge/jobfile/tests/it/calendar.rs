//! The calendar file, by the rules of RFC 5545. A second parser reads it in `validation`.

use jiff::Timestamp;
use jiff::civil::{Date, date};
use jobfile::calendar::{Event, calendar};
use proptest::prelude::*;
use proptest::sample::select;

fn stamped() -> Timestamp {
    "2026-04-01T11:00:00+02:00".parse().unwrap()
}

fn event(summary: &str, description: &str) -> Event {
    Event {
        uid: "patrol-craft-ring-3@pumpwright".to_owned(),
        sequence: 1,
        date: date(2026, 7, 4),
        summary: summary.to_owned(),
        description: description.to_owned(),
        alarm_days: Some(7),
        cancelled: false,
    }
}

fn written(events: &[Event]) -> String {
    calendar("Patrol craft 3", stamped(), events)
}

/// The lines as they were before they were folded: RFC 5545, 3.1.
fn unfolded(text: &str) -> Vec<String> {
    let whole = text.replace("\r\n ", "");
    let lines = whole.strip_suffix("\r\n").unwrap().split("\r\n");
    lines.map(str::to_owned).collect()
}

/// The one value of a property in the first event, or in its alarm.
fn value<'a>(lines: &'a [String], property: &str) -> Option<&'a str> {
    lines
        .iter()
        .find_map(|line| line.strip_prefix(property)?.strip_prefix(':'))
}

/// What an escaped text says: RFC 5545, 3.3.11.
fn unescaped(value: &str) -> String {
    let mut said = String::new();
    let mut letters = value.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => match letters.next() {
                Some('n' | 'N') => said.push('\n'),
                Some(kept @ ('\\' | ';' | ',')) => said.push(kept),
                other => panic!("an escape of {other:?} in {value}"),
            },
            ';' | ',' => panic!("a bare {letter} in {value}"),
            _ => said.push(letter),
        }
    }
    said
}

/// What of a text can be said in the format at all.
fn sayable(text: &str) -> String {
    let ends = [
        "\r\n", "\r", "\u{b}", "\u{c}", "\u{85}", "\u{2028}", "\u{2029}",
    ];
    let one = ends
        .iter()
        .fold(text.to_owned(), |text, end| text.replace(end, "\n"));
    let kept = |letter: char| match letter {
        '\n' | '\t' => letter,
        _ if letter.is_control() => '\u{fffd}',
        _ => letter,
    };
    one.chars().map(kept).collect()
}

#[test]
fn published_an_event_of_a_day_as_the_standard_asks() {
    // Source: `rfc5545`: 3.6.1 for the event, 3.6.6 for the alarm, 3.8.2.2 for the end that is not in it.
    let text = written(&[event(
        "Pump: ring, seal; or 125 h",
        "Due at 125 h.\nFrom 6 h a week.",
    )]);
    let program = workshop::PROGRAM;
    let expected = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        &format!("PRODID:-//Pumpwright//{program}//EN"),
        "NAME:Patrol craft 3",
        "BEGIN:VEVENT",
        "UID:patrol-craft-ring-3@pumpwright",
        "DTSTAMP:20260401T090000Z",
        "SEQUENCE:1",
        "DTSTART;VALUE=DATE:20260704",
        "DTEND;VALUE=DATE:20260705",
        "SUMMARY:Pump: ring\\, seal\\; or 125 h",
        "DESCRIPTION:Due at 125 h.\\nFrom 6 h a week.",
        "TRANSP:TRANSPARENT",
        "BEGIN:VALARM",
        "ACTION:DISPLAY",
        "DESCRIPTION:Pump: ring\\, seal\\; or 125 h",
        "TRIGGER:-P7D",
        "END:VALARM",
        "END:VEVENT",
        "END:VCALENDAR",
        "",
    ];
    assert_eq!(text, expected.join("\r\n"));
}

#[test]
fn law_a_withdrawn_event_is_cancelled_and_reminds_of_nothing() {
    let text = written(&[Event {
        cancelled: true,
        sequence: 2,
        ..event("Ring", "")
    }]);
    assert!(text.contains("\r\nSTATUS:CANCELLED\r\n") && text.contains("\r\nSEQUENCE:2\r\n"));
    assert!(!text.contains("VALARM") && !text.contains("DESCRIPTION"));
    assert!(!written(&[event("Ring", "")]).contains("STATUS"));
}

#[test]
fn law_the_day_after_is_of_the_next_month_and_year_and_the_last_day_has_none() {
    let ends = |date: Date| {
        let lines = unfolded(&written(&[Event {
            date,
            ..event("Ring", "")
        }]));
        value(&lines, "DTEND;VALUE=DATE").map(str::to_owned)
    };
    assert_eq!(ends(date(2028, 2, 28)).as_deref(), Some("20280229"));
    assert_eq!(ends(date(2026, 12, 31)).as_deref(), Some("20270101"));
    assert_eq!(ends(Date::MAX), None);
}

#[test]
fn law_a_line_of_75_octets_is_whole_and_one_of_76_is_folded() {
    // "SUMMARY:" is 8 octets.
    for (letters, folds) in [(67, 0), (68, 1), (67 + 74, 1), (67 + 75, 2)] {
        let text = written(&[event(&"x".repeat(letters), "")]);
        let summary = text
            .split("SUMMARY:")
            .nth(1)
            .unwrap()
            .split("TRANSP")
            .next()
            .unwrap();
        assert_eq!(summary.matches("\r\n ").count(), folds, "{letters}");
    }
}

#[test]
fn law_a_text_cannot_write_lines_of_its_own() {
    let text = "x\r\nEND:VEVENT\rBEGIN:VALARM\nACTION:AUDIO\u{2028}A\u{0}B\u{7f}C\u{85}D\tE";
    let lines = unfolded(&written(&[event(text, text)]));
    assert_eq!(lines.iter().filter(|line| *line == "END:VEVENT").count(), 1);
    assert_eq!(lines.len(), 20, "{lines:?}");
    let said = "SUMMARY:x\\nEND:VEVENT\\nBEGIN:VALARM\\nACTION:AUDIO\\nA\u{fffd}B\u{fffd}C\\nD\tE";
    assert!(lines.iter().any(|line| line == said), "{lines:?}");
}

/// Any characters, those that mean something to the format more often.
fn any_text() -> impl Strategy<Value = String> {
    let special = select(
        "\\;,:\"\r\n\t \u{0}\u{b}\u{7f}\u{85}\u{2028}é€😀\u{301}n"
            .chars()
            .collect::<Vec<_>>(),
    );
    let letter = prop_oneof![any::<char>(), special];
    proptest::collection::vec(letter, 0..200).prop_map(|letters| letters.into_iter().collect())
}

fn any_event() -> impl Strategy<Value = Event> {
    let texts = (any_text(), any_text(), any_text());
    let rest = (
        0..=2_147_483_647_u32,
        any::<Option<u16>>(),
        any::<bool>(),
        0..3_652_000_i64,
    );
    (texts, rest).prop_map(
        |((uid, summary, description), (sequence, alarm_days, cancelled, day))| Event {
            uid,
            sequence,
            date: date(0, 1, 1)
                .checked_add(jiff::Span::new().days(day))
                .unwrap(),
            summary,
            description,
            alarm_days,
            cancelled,
        },
    )
}

proptest! {
    #[test]
    fn law_no_line_is_longer_than_75_octets_and_each_begins_with_its_name(
        name in any_text(),
        events in proptest::collection::vec(any_event(), 1..4),
    ) {
        let text = calendar(&name, stamped(), &events);
        let lines = text.strip_suffix("\r\n").unwrap().split("\r\n");
        for line in lines.clone() {
            prop_assert!(line.len() <= 75, "{} octets: {line:?}", line.len());
            prop_assert!(!line.chars().any(|letter| letter.is_control() && letter != '\t'), "{line:?}");
        }
        for line in unfolded(&text) {
            let name = line.split([':', ';']).next().unwrap();
            prop_assert!(!name.is_empty() && name.bytes().all(|b| b.is_ascii_uppercase()), "{line:?}");
        }
        prop_assert_eq!(text.matches("\r\nBEGIN:VEVENT\r\n").count(), events.len());
        prop_assert_eq!(text.matches("\r\nEND:VEVENT\r\n").count(), events.len());
    }

    #[test]
    fn law_what_was_written_is_what_is_read(name in any_text(), event in any_event()) {
        let lines = unfolded(&calendar(&name, stamped(), std::slice::from_ref(&event)));
        let text = |property| value(&lines, property).map(unescaped);
        prop_assert_eq!(text("NAME"), Some(sayable(&name)));
        prop_assert_eq!(text("UID"), Some(sayable(&event.uid)));
        prop_assert_eq!(text("SUMMARY"), Some(sayable(&event.summary)));
        if !event.description.is_empty() {
            prop_assert_eq!(text("DESCRIPTION"), Some(sayable(&event.description)));
        }
        let sequence = event.sequence.to_string();
        prop_assert_eq!(value(&lines, "SEQUENCE"), Some(sequence.as_str()));
        let day = event.date.to_string().replace('-', "");
        prop_assert_eq!(value(&lines, "DTSTART;VALUE=DATE"), Some(day.as_str()));
        let alarm = event.alarm_days.filter(|_| !event.cancelled).map(|days| format!("-P{days}D"));
        prop_assert_eq!(value(&lines, "TRIGGER"), alarm.as_deref());
    }
}
