//! Text to SI numbers.

use crate::exact::Exact;
use crate::spelling::{is_dash, lookup};
use crate::{ParseError, Reason, Unit};

/// Characters read; a page of text in a field is a slip.
const LONGEST: usize = 64;

/// One quantity as a person entered it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entered {
    /// The text exactly as it was typed.
    pub text: String,
    /// The unit in force: what a bare number would have meant.
    pub bare: Unit,
    /// The unit that counted: the typed one, else the one in force.
    pub unit: Unit,
    /// The value in the SI unit of the kind.
    pub value: f64,
}

impl Entered {
    /// As typed, with the unit behind a bare number: `22 N·m`, `5-5/16"`, `13 thou`, `14°`.
    pub fn worded(&self) -> String {
        let text = self.text.trim();
        if self.is_bare() {
            format!("{text}{}{}", self.unit.space(), self.unit.symbol())
        } else {
            text.to_owned()
        }
    }

    /// Whether the number was typed without a unit, so that the one in force counted.
    pub fn is_bare(&self) -> bool {
        let text = self.text.trim();
        // A number may end in a digit, a mark or a vulgar fraction, a unit in none of these.
        text.ends_with(|c: char| c.is_numeric() || matches!(c, '.' | ','))
    }
}

/// Reads one number and its unit; a bare number takes the unit `bare`, and a unit of another kind
/// is refused.
///
/// Numbers are decimals (`0.013`, `.013`, `0,33`), fractions (`1/64`) or both (`5-5/16`, `5 5/16`,
/// `5½`). A comma is a decimal mark; when two marks appear the text is refused, since one of them
/// may group thousands. The sign is read and left to the caller to judge.
///
/// # Errors
///
/// A [`ParseError`] that says at which character the trouble starts.
pub fn parse(text: &str, bare: Unit) -> Result<Entered, ParseError> {
    read(text, bare).map_err(|(column, reason)| ParseError {
        text: text.to_owned(),
        column,
        reason,
    })
}

/// A plain number as a person entered it: a price, a share, how many of something.
#[derive(Clone, Debug, PartialEq)]
pub struct Plain {
    /// The text exactly as it was typed.
    pub text: String,
    /// The number.
    pub value: f64,
}

/// Reads one number that has no unit, written as for [`parse`]: `45`, `45,50`, `2 1/2`.
///
/// # Errors
///
/// A [`ParseError`] that says at which character the trouble starts; a unit or a sign of money is
/// refused.
pub fn plain(text: &str) -> Result<Plain, ParseError> {
    let read = |typed: &[char]| {
        let mut cursor = Cursor::begin(typed)?;
        let number = cursor.signed()?;
        match cursor.peek() {
            None => Ok(number.nearest()),
            Some(_) => cursor.fault(Reason::MoreThanANumber),
        }
    };
    let typed: Vec<char> = text.chars().collect();
    let value = read(&typed).map_err(|(column, reason)| ParseError {
        text: text.to_owned(),
        column,
        reason,
    })?;
    Ok(Plain {
        text: text.to_owned(),
        value,
    })
}

/// Where and why.
type Fault = (usize, Reason);

fn read(text: &str, bare: Unit) -> Result<Entered, Fault> {
    let typed: Vec<char> = text.chars().collect();
    let mut cursor = Cursor::begin(&typed)?;
    let number = cursor.signed()?;
    let unit = cursor.unit(bare)?;
    Ok(Entered {
        text: text.to_owned(),
        bare,
        unit,
        value: unit.to_si(number),
    })
}

struct Cursor<'a> {
    typed: &'a [char],
    /// Characters read so far.
    at: usize,
    /// Digits read so far.
    digits: u32,
}

impl<'a> Cursor<'a> {
    /// At the first character that is no space.
    fn begin(typed: &'a [char]) -> Result<Self, Fault> {
        let (length, limit) = (typed.len(), LONGEST);
        if length > limit {
            return Err((limit + 1, Reason::TooLong { length, limit }));
        }
        let mut cursor = Self {
            typed,
            at: 0,
            digits: 0,
        };
        cursor.skip_space();
        if cursor.peek().is_none() {
            return Err((1, Reason::Empty));
        }
        Ok(cursor)
    }

    fn ahead(&self, by: usize) -> Option<char> {
        self.typed.get(self.at + by).copied()
    }

    fn peek(&self) -> Option<char> {
        self.ahead(0)
    }

    fn skip_space(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.at += 1;
        }
    }

    fn fault<T>(&self, reason: Reason) -> Result<T, Fault> {
        Err((self.at + 1, reason))
    }

    fn signed(&mut self) -> Result<Exact, Fault> {
        let negative = self.peek().is_some_and(is_dash);
        if negative || self.peek() == Some('+') {
            self.at += 1;
            self.skip_space();
        }
        let size = self.unsigned()?;
        self.refuse_more_number()?;
        Ok(if negative { size.negated() } else { size })
    }

    /// A decimal, a fraction, or a whole number and a fraction.
    fn unsigned(&mut self) -> Result<Exact, Fault> {
        if let Some(part) = self.vulgar() {
            return Ok(part);
        }
        let whole = self.run()?;
        if self.peek().is_some_and(is_mark) {
            return self.decimal(&whole);
        }
        if whole.is_empty() {
            return self.fault(Reason::NotANumber);
        }
        let whole = integer(&whole);
        if self.peek().is_some_and(is_stroke) {
            return self.over(whole);
        }
        let part = self.part()?;
        Ok(Exact::new(whole, 1).plus(part))
    }

    /// The rest of a decimal, from its mark on.
    fn decimal(&mut self, whole: &str) -> Result<Exact, Fault> {
        self.at += 1;
        let part = self.run()?;
        if whole.is_empty() && part.is_empty() {
            self.at -= 1;
            return self.fault(Reason::NotANumber);
        }
        let tenfold = part.chars().fold(1, |power, _| power * 10);
        Ok(Exact::new(integer(&format!("{whole}{part}")), tenfold))
    }

    /// The fraction of a mixed number, zero if there is none.
    fn part(&mut self) -> Result<Exact, Fault> {
        let start = self.at;
        if self.peek().is_some_and(is_dash) {
            self.at += 1;
        } else {
            self.skip_space();
        }
        if let Some(part) = self.vulgar() {
            return Ok(part);
        }
        let over = self.run()?;
        if !over.is_empty() && self.peek().is_some_and(is_stroke) {
            return self.over(integer(&over));
        }
        self.at = start;
        Ok(Exact::ZERO)
    }

    /// The rest of a fraction, from its stroke on.
    fn over(&mut self, over: i128) -> Result<Exact, Fault> {
        self.at += 1;
        let start = self.at;
        let under = self.run()?;
        if under.is_empty() {
            return self.fault(Reason::NotANumber);
        }
        match integer(&under) {
            0 => Err((start + 1, Reason::ZeroDenominator)),
            under => Ok(Exact::new(over, under)),
        }
    }

    /// Digits in a row, none included.
    fn run(&mut self) -> Result<String, Fault> {
        let start = self.at;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            if self.digits == Exact::DIGITS {
                return self.fault(Reason::TooManyDigits);
            }
            self.digits += 1;
            self.at += 1;
        }
        Ok(self.typed[start..self.at].iter().collect())
    }

    /// A fraction that is one character.
    fn vulgar(&mut self) -> Option<Exact> {
        let (over, under) = match self.peek()? {
            '½' => (1, 2),
            '¼' => (1, 4),
            '¾' => (3, 4),
            '⅛' => (1, 8),
            '⅜' => (3, 8),
            '⅝' => (5, 8),
            '⅞' => (7, 8),
            _ => return None,
        };
        self.at += 1;
        Some(Exact::new(over, under))
    }

    /// After a number may come a unit, but nothing that belongs to a number.
    fn refuse_more_number(&mut self) -> Result<(), Fault> {
        // Powers of ten and hexadecimals are a machine's handwriting.
        let machine = matches!(self.peek(), Some('e' | 'E' | 'x' | 'X'))
            && self
                .ahead(1)
                .is_some_and(|c| c.is_ascii_hexdigit() || c == '+' || is_dash(c));
        if machine {
            return self.fault(Reason::NotANumber);
        }
        if self.peek().is_some_and(is_mark) && self.typed[..self.at].iter().any(|&c| is_mark(c)) {
            return self.fault(Reason::AmbiguousSeparators);
        }
        self.skip_space();
        let more = |c: char| c.is_numeric() || is_mark(c) || is_stroke(c) || is_dash(c) || c == '+';
        if self.peek().is_some_and(more) {
            self.fault(Reason::NotANumber)
        } else {
            Ok(())
        }
    }

    /// The rest of the text as a unit of the same kind as the one in force.
    fn unit(&self, bare: Unit) -> Result<Unit, Fault> {
        let rest: String = self.typed[self.at..].iter().collect();
        let unit = rest.trim_end().to_owned();
        if unit.is_empty() {
            return Ok(bare);
        }
        let wanted = bare.kind();
        match lookup(&unit, Some(wanted)) {
            None => self.fault(Reason::UnknownUnit { unit, wanted }),
            Some(known) if known.kind() == wanted => Ok(known),
            Some(known) => self.fault(Reason::WrongKind {
                unit,
                found: known.kind(),
                wanted,
            }),
        }
    }
}

fn is_mark(c: char) -> bool {
    matches!(c, '.' | ',')
}

fn is_stroke(c: char) -> bool {
    matches!(c, '/' | '⁄' | '∕')
}

/// A run of digits, short enough by [`Cursor::run`].
fn integer(digits: &str) -> i128 {
    digits
        .bytes()
        .fold(0, |sum, digit| sum * 10 + i128::from(digit - b'0'))
}
