//! How other devices come in, as it is told where the bench was opened.

use std::fmt::Write as _;

use report::page::devices::MINUTES;
use web::{Lan, Ticket};

/// More codes than these scroll the first one away.
const MOST_CODES: usize = 2;

/// Addresses and the number; with `codes`, for a terminal, codes to scan.
pub(super) fn words(lan: &Lan, ticket: &Ticket, codes: bool) -> String {
    // Writing to a string does not fail, here and below.
    let mut text = String::new();
    let plain = lan.plain_links();
    if let Some(fingerprint) = lan.fingerprint() {
        text.push_str("Other devices take the authority of this bench once, at\n");
        for address in &plain {
            let _ = writeln!(text, "  {address}");
        }
        let _ = writeln!(text, "Its fingerprint (SHA-256) must be\n  {fingerprint}");
    }
    text.push_str("Other devices of this network open\n");
    for address in lan.links() {
        let _ = writeln!(text, "  {address}");
    }
    let (first, rest) = ticket.digits.split_at(3);
    let _ = writeln!(
        text,
        "and pair with the number {first} {rest}, for one device within {MINUTES} minutes. Another number \
         is on the page Devices.",
    );
    // A number is not sent in the open: what is scanned first leads to the authority.
    let scanned = match lan.fingerprint() {
        Some(_) => &plain,
        None => &ticket.links,
    };
    let most = if codes { MOST_CODES } else { 0 };
    for link in scanned.iter().take(most) {
        for line in chart::qr_lines(link).unwrap_or_default() {
            // Black on white whatever the terminal's own colours are: a camera wants it so.
            let _ = writeln!(text, "\u{1b}[0;30;107m{line}\u{1b}[0m");
        }
        let _ = writeln!(text, "Scan it: {link}");
    }
    text
}
