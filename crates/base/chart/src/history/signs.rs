//! The signs of what a look found: told apart by shape, and by colour besides.

use maud::{Markup, html};

use super::{Found, LEFT, Look, Piece, WIDTH};
use crate::{Path, Point, Scale, px};

/// Every sign with its words, in the order of the key.
pub(super) const ALL: [(Found, &str); 4] = [
    (Found::Good, "good"),
    (Found::Worn, "worn"),
    (Found::Failed, "failed"),
    (Found::Struck, "ruined by a strike"),
];

pub(super) fn words(found: Found) -> &'static str {
    let sign = ALL.iter().find(|(other, _)| *other == found);
    sign.map_or("", |(_, words)| words)
}

/// Room for one sign.
const ROOM: f64 = 14.0;

/// A sign under the line of its piece.
pub(super) struct Mark {
    /// Where its time is.
    pub(super) time: f64,
    /// Where it hangs.
    pub(super) x: f64,
    pub(super) found: Found,
}

/// The looks in order, moved apart where they are close; and how many there was no room for.
pub(super) fn hung(piece: &Piece, along: &Scale) -> (Vec<Mark>, usize) {
    let finite = piece.looks.iter().filter(|look| look.when.at.is_finite());
    let mut looks: Vec<&Look> = finite.collect();
    looks.sort_by(|a, b| a.when.at.total_cmp(&b.when.at));
    let (first, last) = (LEFT, WIDTH - ROOM / 2.0);
    let mut marks: Vec<Mark> = Vec::new();
    let mut left_out = 0;
    for look in looks {
        let time = along.place(look.when.at);
        let after = marks.last().map_or(first, |mark| mark.x + ROOM);
        marks.push(Mark {
            time,
            x: time.max(after),
            found: look.found,
        });
    }
    // Back from the right edge, as far as they were pushed over it.
    let mut most = last;
    for mark in marks.iter_mut().rev() {
        mark.x = mark.x.min(most);
        most = mark.x - ROOM;
    }
    marks.retain(|mark| {
        let held = mark.x >= first;
        left_out += usize::from(!held);
        held
    });
    (marks, left_out)
}

/// ✓, ○, ✕ or a flash, drawn.
pub(super) fn sign(found: Found, at: Point) -> Markup {
    let Point { x, y } = at;
    let to = |along: f64, down: f64| Point {
        x: x + along,
        y: y + down,
    };
    let check = || Path::new().through([to(-4.5, 0.0), to(-1.5, 4.0), to(5.0, -4.5)]);
    let cross = || {
        let falling = Path::new().to(to(-4.0, -4.0)).to(to(4.0, 4.0));
        falling.lift().to(to(-4.0, 4.0)).to(to(4.0, -4.0))
    };
    let flash = || {
        let right = [to(2.5, -8.0), to(-5.5, 1.5), to(-1.0, 1.5)];
        let left = [to(-2.5, 8.0), to(5.5, -1.5), to(1.0, -1.5)];
        Path::new().through(right).through(left).close()
    };
    html! {
        @match found {
            Found::Good => path class="stroke-good bold" d=(check().d()) {},
            Found::Worn => circle class="fill-card stroke-ink bold" cx=[px(x)] cy=[px(y)] r="4.5" {},
            Found::Failed => path class="stroke-stop heavy" d=(cross().d()) {},
            Found::Struck => path class="fill-stop stroke-card hair" d=(flash().d()) {},
        }
    }
}
