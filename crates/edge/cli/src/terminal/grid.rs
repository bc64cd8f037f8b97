//! The grid of readings as a table of text.

use report::page::{Cell, CellMark, Grid};

/// Between two columns.
const GUTTER: &str = "   ";

/// The table, in as many parts as the width needs.
pub(super) fn lines(grid: &Grid, width: usize) -> Vec<String> {
    let clock = grid
        .rows
        .iter()
        .map(|(clock, _)| clock.chars().count())
        .max()
        .unwrap_or(0);
    let cells = grid.rows.iter().flat_map(|(_, cells)| cells);
    let cell = cells
        .map(|cell| written(cell).chars().count())
        .max()
        .unwrap_or(0)
        .max(1);
    let fit = (width.saturating_sub(2 + clock) / (cell + GUTTER.len())).max(1);
    let mut lines = Vec::new();
    for first in (0..grid.blades.len()).step_by(fit) {
        let last = (first + fit).min(grid.blades.len());
        let line = |name: &str, cells: Vec<String>| {
            let mut line = format!("{name:>clock$}");
            for text in cells {
                line = format!("{line}{GUTTER}{text:cell$}");
            }
            line.trim_end().to_owned()
        };
        lines.push(line("", grid.blades[first..last].to_vec()));
        for (clock, cells) in &grid.rows {
            lines.push(line(
                clock,
                cells[first..last].iter().map(written).collect(),
            ));
        }
    }
    lines
}

/// `14–15 ✓`
fn written(cell: &Cell) -> String {
    let arrow = if cell.next { "→" } else { "" };
    let text = match (cell.text.as_str(), cell.next) {
        ("", false) => "·",
        (text, _) => text,
    };
    let parts = [arrow, text, cell.mark.sign()];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(" ")
}

/// The signs that occur, with what they stand for.
pub(super) fn legend(grid: &Grid) -> String {
    let cells: Vec<&Cell> = grid.rows.iter().flat_map(|(_, cells)| cells).collect();
    let marks = [
        (CellMark::In, "within limits"),
        (CellMark::Near, "too near a limit to call"),
        (CellMark::Out, "beyond a limit"),
        (CellMark::Contradiction, "contradictory"),
    ];
    let there = marks
        .iter()
        .filter(|(mark, _)| cells.iter().any(|cell| cell.mark == *mark));
    let mut signs: Vec<String> = there
        .map(|(mark, words)| format!("{}\u{a0}{words}", mark.sign()))
        .collect();
    if cells.iter().any(|cell| cell.next) {
        signs.push("→\u{a0}asked next".to_owned());
    }
    if cells.iter().any(|cell| cell.text.is_empty() && !cell.next) {
        signs.push("·\u{a0}not read".to_owned());
    }
    signs.join(", ")
}
