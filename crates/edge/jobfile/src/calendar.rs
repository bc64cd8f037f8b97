//! What is due as a calendar file, for the calendar a person keeps anyway.
//!
//! iCalendar: lines of at most 75 octets that end with CR LF, whole days, a reminder where one is wanted.

use jiff::Timestamp;
use jiff::civil::Date;

/// One thing that is due on a day.
///
/// Whoever writes the file again with the same `uid` and a greater `sequence` moves the event; with
/// `cancelled` as well, it is withdrawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// The same for as long as it is the same thing that is due; no other event may have it.
    pub uid: String,
    /// How often it was moved; to 2 147 483 647, the greatest the format has.
    pub sequence: u32,
    /// The day, from the year 0 on: the format has no earlier one.
    pub date: Date,
    /// What is due, in a few words.
    pub summary: String,
    /// Why, and what with; may be empty.
    pub description: String,
    /// How many days ahead to remind of it; none where nobody asked for that.
    pub alarm_days: Option<u16>,
    /// It is due no more. Nothing reminds of it then.
    pub cancelled: bool,
}

/// The most octets of a line, without its end.
const LONGEST: usize = 75;

/// The text of a calendar file named `name`, as it stands at the time `stamped`.
///
/// Text may hold anything: a line end of any kind becomes the format's own, and what else has no place in it
/// (the other control characters, but for the tabulator) becomes U+FFFD, so that its loss is seen.
///
/// A calendar needs an event to be one.
///
/// Source: `rfc5545`, sections 3.1, 3.3.11, 3.6; `rfc7986` for the name.
pub fn calendar(name: &str, stamped: Timestamp, events: &[Event]) -> String {
    let mut lines = Lines::default();
    lines.put("BEGIN:VCALENDAR");
    lines.put("VERSION:2.0");
    let program = workshop::PROGRAM;
    lines.put(&format!("PRODID:-//Pumpwright//{}//EN", escaped(program)));
    lines.put(&format!("NAME:{}", escaped(name)));
    let stamp = stamped.strftime("%Y%m%dT%H%M%SZ").to_string();
    for event in events {
        lines.event(event, &stamp);
    }
    lines.put("END:VCALENDAR");
    lines.0
}

/// Content lines, folded.
#[derive(Default)]
struct Lines(String);

impl Lines {
    /// Puts a line, broken where it would have more octets than a line may, never inside a character.
    fn put(&mut self, line: &str) {
        let mut octets = 0;
        for letter in line.chars() {
            if octets + letter.len_utf8() > LONGEST {
                self.0.push_str("\r\n ");
                octets = 1;
            }
            self.0.push(letter);
            octets += letter.len_utf8();
        }
        self.0.push_str("\r\n");
    }

    fn event(&mut self, event: &Event, stamp: &str) {
        let summary = escaped(&event.summary);
        self.put("BEGIN:VEVENT");
        self.put(&format!("UID:{}", escaped(&event.uid)));
        self.put(&format!("DTSTAMP:{stamp}"));
        self.put(&format!("SEQUENCE:{}", event.sequence));
        self.put(&format!("DTSTART;VALUE=DATE:{}", day(event.date)));
        // Without an end it is that one day too, and after the last day there is no other.
        if let Ok(end) = event.date.tomorrow() {
            self.put(&format!("DTEND;VALUE=DATE:{}", day(end)));
        }
        self.put(&format!("SUMMARY:{summary}"));
        if !event.description.is_empty() {
            self.put(&format!("DESCRIPTION:{}", escaped(&event.description)));
        }
        // Work that is due takes nobody's day.
        self.put("TRANSP:TRANSPARENT");
        if event.cancelled {
            self.put("STATUS:CANCELLED");
        } else if let Some(days) = event.alarm_days {
            self.put("BEGIN:VALARM");
            self.put("ACTION:DISPLAY");
            self.put(&format!("DESCRIPTION:{summary}"));
            self.put(&format!("TRIGGER:-P{days}D"));
            self.put("END:VALARM");
        }
        self.put("END:VEVENT");
    }
}

fn day(date: Date) -> String {
    date.strftime("%Y%m%d").to_string()
}

/// Text as a value: the signs of the format escaped, line ends written out, no other control character.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' | ';' | ',' => escaped.extend(['\\', letter]),
            // CR LF is one line end.
            '\r' if letters.peek() == Some(&'\n') => {}
            '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => {
                escaped.push_str("\\n");
            }
            '\t' => escaped.push(letter),
            _ if letter.is_control() => escaped.push(char::REPLACEMENT_CHARACTER),
            _ => escaped.push(letter),
        }
    }
    escaped
}
