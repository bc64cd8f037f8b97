//! A text as a QR code, for a camera.

use maud::{Markup, html};
use qrcode::{Color, EcLevel, QrCode};

/// The most bytes a QR code of ISO/IEC 18004 holds at error correction M, in its largest version.
const MOST: usize = 2331;
/// Modules left free on every side; the standard asks for as many.
const QUIET: usize = 4;

/// A text that no QR code holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct QrTooLong {
    /// How long it is, in bytes.
    pub length: usize,
    /// How long it may be.
    pub most: usize,
}

impl std::fmt::Display for QrTooLong {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let QrTooLong { length, most } = self;
        write!(
            f,
            "A text of {length} bytes is too long for a QR code, which holds {most}. Take a shorter one."
        )
    }
}

impl std::error::Error for QrTooLong {}

/// Draws a text as a QR code with error correction M in the smallest version that holds it, four free modules
/// around it; one unit of the drawing is one module.
///
/// Dark and light are the classes `qr-dark` and `qr-light`, black on white in every theme: many cameras do not
/// read the opposite.
pub fn qr(text: &str) -> Result<Markup, QrTooLong> {
    let code = encoded(text)?;
    let side = code.width() + 2 * QUIET;
    let said = format!("QR code of {text}");
    Ok(html! {
        svg class="drawing qr" viewBox=(format!("0 0 {side} {side}")) role="img" aria-label=(said) shape-rendering="crispEdges" {
            title { (said) }
            rect class="qr-light" width=(side) height=(side) {}
            path class="qr-dark" d=(dark(&code)) {}
        }
    })
}

/// The same in half blocks, two rows of modules a line, dark where there is a block: for a terminal, which sees to
/// black on white.
pub fn qr_lines(text: &str) -> Result<Vec<String>, QrTooLong> {
    let code = encoded(text)?;
    let side = code.width() + 2 * QUIET;
    let dark = |x: usize, y: usize| {
        let inside = |at: usize| at.checked_sub(QUIET).filter(|at| *at < code.width());
        let at = inside(x).zip(inside(y));
        at.is_some_and(|at| code[at] == Color::Dark)
    };
    let line = |y: usize| {
        let block = |x| match (dark(x, y), dark(x, y + 1)) {
            (true, true) => '█',
            (true, false) => '▀',
            (false, true) => '▄',
            (false, false) => ' ',
        };
        (0..side).map(block).collect()
    };
    Ok((0..side).step_by(2).map(line).collect())
}

fn encoded(text: &str) -> Result<QrCode, QrTooLong> {
    QrCode::with_error_correction_level(text, EcLevel::M).map_err(|_| QrTooLong {
        length: text.len(),
        most: MOST,
    })
}

/// All dark modules as one path, those beside each other in a row as one piece, so that no seam shows between
/// them.
fn dark(code: &QrCode) -> String {
    let mut pieces = Vec::new();
    for y in 0..code.width() {
        let mut x = 0;
        while x < code.width() {
            let long = (x..code.width())
                .take_while(|x| code[(*x, y)] == Color::Dark)
                .count();
            if long > 0 {
                pieces.push(format!("M{} {}h{long}v1h-{long}z", x + QUIET, y + QUIET));
            }
            x += long.max(1);
        }
    }
    pieces.concat()
}
