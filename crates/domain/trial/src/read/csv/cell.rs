//! Numbers in a cell, with thousands grouped or not.

use crate::read::time;

/// A number with the decimal mark given; whatever else stands between digits must group thousands.
pub(crate) fn number(cell: &[u8], decimal_comma: bool) -> Option<f64> {
    let (mark, other) = if decimal_comma {
        (b',', b'.')
    } else {
        (b'.', b',')
    };
    let plain = |c: &u8| c.is_ascii_digit() || matches!(c, b'-' | b'+' | b'e' | b'E') || *c == mark;
    let grouped = !cell.iter().all(plain);
    if !grouped && !decimal_comma {
        return time::number(cell);
    }
    let text = std::str::from_utf8(cell).ok()?.trim();
    let (whole, part) = match text.split_once(char::from(mark)) {
        Some((whole, part)) => (whole, Some(part)),
        None => (text, None),
    };
    let whole = if grouped {
        let sign = whole.len() - whole.trim_start_matches(['-', '+']).len();
        let (sign, digits) = whole.split_at(sign);
        let between =
            |c: char| c == char::from(other) || matches!(c, '\'' | ' ' | '\u{a0}' | '\u{202f}');
        let groups: Vec<&str> = digits.split(between).collect();
        let well = groups.iter().enumerate().all(|(at, group)| {
            if at == 0 {
                (1..=3).contains(&group.len())
            } else {
                group.len() == 3
            }
        });
        if !well && groups.len() > 1 {
            return None;
        }
        format!("{sign}{}", groups.concat())
    } else {
        whole.to_owned()
    };
    let joined = match part {
        Some(part) => format!("{whole}.{part}"),
        None => whole,
    };
    time::number(joined.as_bytes())
}
