//! A small scanner of Rust text: which part of a line is code, which is comment, which is a test.
//!
//! It knows comments (nested too), strings (raw too) and character literals, and keeps every column in
//! its place. It knows no macros and no types.

use std::mem::take;

/// One line, three times over: what is not of the kind is blank.
#[derive(Debug, Default, Clone, PartialEq)]
pub(crate) struct Line {
    /// Code, with strings and comments blanked.
    pub(crate) code: String,
    /// Code and strings, with comments blanked.
    pub(crate) text: String,
    /// Only what stands in comments.
    pub(crate) comment: String,
    /// Within an item marked `#[cfg(test)]`.
    pub(crate) test: bool,
}

#[derive(Clone, Copy, PartialEq)]
enum State {
    Code,
    LineComment,
    BlockComment { depth: usize },
    String { hashes: Option<usize> },
}

/// The lines of a Rust file.
pub(crate) fn lines(source: &str) -> Vec<Line> {
    let mut lines = split(source);
    mark_tests(&mut lines);
    lines
}

fn split(source: &str) -> Vec<Line> {
    let chars: Vec<char> = source.chars().collect();
    let mut state = State::Code;
    let (mut lines, mut line) = (Vec::new(), Line::default());
    let mut at = 0;
    while at < chars.len() {
        if chars[at] == '\n' {
            if state == State::LineComment {
                state = State::Code;
            }
            lines.push(take(&mut line));
            at += 1;
            continue;
        }
        let (kind, length, next) = token(&chars[at..], state);
        for &c in chars[at..].iter().take(length) {
            if c == '\n' {
                lines.push(take(&mut line));
                continue;
            }
            line.code.push(if kind == State::Code { c } else { ' ' });
            let string = matches!(kind, State::String { .. });
            line.text.push(if kind == State::Code || string {
                c
            } else {
                ' '
            });
            let comment = !string && kind != State::Code;
            line.comment.push(if comment { c } else { ' ' });
        }
        at += length;
        state = next;
    }
    if !line.text.is_empty() || !line.comment.is_empty() {
        lines.push(line);
    }
    lines
}

/// What begins here: its kind, its length, and the state after it.
fn token(rest: &[char], state: State) -> (State, usize, State) {
    let starts = |text: &str| {
        rest.len() >= text.len() && text.chars().eq(rest[..text.len()].iter().copied())
    };
    match state {
        State::BlockComment { depth } if starts("*/") && depth == 1 => (state, 2, State::Code),
        State::BlockComment { depth } if starts("*/") => {
            (state, 2, State::BlockComment { depth: depth - 1 })
        }
        State::BlockComment { depth } if starts("/*") => {
            (state, 2, State::BlockComment { depth: depth + 1 })
        }
        State::LineComment | State::BlockComment { .. } => (state, 1, state),
        State::String { hashes: None } if rest[0] == '\\' => (state, 2, state),
        State::String { hashes } => {
            let end = hashes.unwrap_or(0);
            let closed =
                rest[0] == '"' && rest[1..].iter().take_while(|&&c| c == '#').count() >= end;
            if closed {
                (state, 1 + end, State::Code)
            } else {
                (state, 1, state)
            }
        }
        State::Code if starts("//") => (State::LineComment, 2, State::LineComment),
        State::Code if starts("/*") => {
            let inside = State::BlockComment { depth: 1 };
            (inside, 2, inside)
        }
        State::Code => code_token(rest),
    }
}

fn code_token(rest: &[char]) -> (State, usize, State) {
    let string = |hashes| State::String { hashes };
    let hashes = rest[1..].iter().take_while(|&&c| c == '#').count();
    match rest[0] {
        '"' => (string(None), 1, string(None)),
        'r' if rest.get(1 + hashes) == Some(&'"') => {
            (string(Some(hashes)), 2 + hashes, string(Some(hashes)))
        }
        // A character literal; anything else after the mark is a lifetime.
        '\'' if rest.get(1) == Some(&'\\') => {
            let length = rest[3..].iter().take_while(|&&c| c != '\'').count() + 4;
            (string(None), length, State::Code)
        }
        '\'' if rest.get(2) == Some(&'\'') => (string(None), 3, State::Code),
        // A word is taken whole, so that the `r` that ends one opens no raw string.
        c if c.is_alphanumeric() || c == '_' => {
            let length = rest
                .iter()
                .take_while(|c| c.is_alphanumeric() || **c == '_')
                .count();
            let prefix = rest[..length].iter().collect::<String>();
            let raw = matches!(prefix.as_str(), "br" | "cr");
            (State::Code, if raw { 1 } else { length }, State::Code)
        }
        _ => (State::Code, 1, State::Code),
    }
}

/// Marks the items under `#[cfg(test)]`, from the attribute to the closing brace or semicolon.
fn mark_tests(lines: &mut [Line]) {
    let mut depth: Option<i32> = None;
    for line in lines {
        if depth.is_none() && line.code.trim_start().starts_with("#[cfg(test)]") {
            depth = Some(0);
        }
        let Some(open) = depth.as_mut() else { continue };
        line.test = true;
        let mut closed = false;
        for c in line.code.chars() {
            match c {
                '{' => *open += 1,
                '}' => *open -= 1,
                _ => {}
            }
            closed |= *open == 0 && matches!(c, '}' | ';');
        }
        if closed {
            depth = None;
        }
    }
}

/// Whether `word` stands in the code on its own, not as a part of a longer name.
pub(crate) fn has_word(code: &str, word: &str) -> bool {
    words(code).any(|found| found == word)
}

/// The names and numbers in a piece of code.
pub(crate) fn words(code: &str) -> impl Iterator<Item = &str> {
    code.split(|c: char| !(c.is_alphanumeric() || c == '_'))
        .filter(|word| !word.is_empty())
}

#[test]
fn law_strings_and_comments_are_not_code() {
    let found = lines("let a = \"25.4 // no\"; // 25.4\nlet b = r#\"x\" 1\"#; /* a /* b */ c */ 2");
    assert_eq!(found[0].code.trim(), "let a =             ;");
    assert_eq!(found[0].text.trim_end(), "let a = \"25.4 // no\";");
    assert_eq!(found[0].comment.trim(), "// 25.4");
    assert_eq!(words(&found[1].code).collect::<Vec<_>>(), ["let", "b", "2"]);
}

#[test]
fn law_a_lifetime_is_no_character() {
    let found = lines("fn f<'a>(x: &'a str) { g('\"', '\\'', '\\u{1F600}', 'x'); } // done");
    assert!(has_word(&found[0].code, "g"));
    assert!(has_word(&found[0].code, "a"));
    assert_eq!(found[0].code.matches('{').count(), 1);
    assert_eq!(found[0].comment.trim(), "// done");
}

#[test]
fn law_a_string_runs_over_lines() {
    let found = lines("let s = \"a\n1.0\nb\"; 2.0");
    assert_eq!(found[1].code.trim(), "");
    assert!(has_word(&found[2].code, "2"));
}

#[test]
fn law_only_the_marked_item_is_a_test() {
    let found = lines(
        "fn a() {}\n#[cfg(test)]\nmod tests {\n  fn b() {}\n}\nfn c() {}\n#[cfg(test)]\nmod t;\nfn d() {}",
    );
    let tests: Vec<bool> = found.iter().map(|line| line.test).collect();
    assert_eq!(
        tests,
        [false, true, true, true, true, false, true, true, false]
    );
}
