//! How much room words take, before any page has set them.
//!
//! A picture is written before its font is known, so that the room is reckoned from broad letters: too
//! much of it rather than words cut off.

/// A letter of a label in a broad font of 13 pixels.
fn letter(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | '·' | ' ' => 4.4,
        'f' | 't' | 'r' | '(' | ')' | '-' | '/' => 5.5,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '…' => 13.0,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' => 7.7,
        'A'..='Z' => 10.2,
        '\u{20}'..='\u{24f}' => 8.3,
        _ => 14.0,
    }
}

/// Room that a label takes along, in pixels.
pub(crate) fn room(text: &str) -> f64 {
    text.chars().map(letter).sum()
}

/// What bold letters take more.
pub(crate) const BOLD: f64 = 1.16;

/// The words, or as many of their letters as there is room for and an ellipsis.
pub(crate) fn fitted(text: &str, most: f64) -> String {
    if room(text) <= most {
        return text.to_owned();
    }
    let mut kept = String::new();
    let mut taken = letter('…');
    for next in text.chars() {
        taken += letter(next);
        if taken > most {
            break;
        }
        kept.push(next);
    }
    format!("{}…", kept.trim_end())
}

/// The words on as many lines as they need; a word longer than a line ends in an ellipsis.
pub(crate) fn lines(text: &str, most: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let word = fitted(word, most);
        match lines.last_mut() {
            Some(line) if room(line) + letter(' ') + room(&word) <= most => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// "1 look", "3 looks".
pub(crate) fn counted(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    }
}
