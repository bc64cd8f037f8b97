//! A list of leaves, or of shims, as people write it.

use quantity::{Entered, Unit, parse};

use super::length;
use crate::refusal::Refusal;

/// Leaves parted by semicolons, lines, or comma and space; or by spaces alone, where one unit at the
/// end counts for all: `10 11 12 thou`.
pub(super) fn list(field: &'static str, text: &str, unit: Unit) -> Result<Vec<Entered>, Refusal> {
    let mut leaves = row(field, text, unit)?;
    leaves.sort_by(|a, b| a.value.total_cmp(&b.value));
    Ok(leaves)
}

/// The same in the order they are written.
pub(super) fn row(field: &'static str, text: &str, unit: Unit) -> Result<Vec<Entered>, Refusal> {
    let mut leaves = Vec::new();
    let pieces = text
        .split([';', '\n'])
        .flat_map(|piece| piece.split(", "))
        .map(str::trim);
    for piece in pieces.filter(|piece| !piece.is_empty()) {
        let words: Vec<&str> = piece.split_whitespace().collect();
        if words.len() < 3 && parse(piece, unit).is_ok() {
            leaves.push(length(field, piece, unit)?);
            continue;
        }
        let behind = words.last().and_then(|word| Unit::from_symbol(word));
        let numbers = &words[..words.len() - usize::from(behind.is_some())];
        for number in numbers {
            leaves.push(length(field, number, behind.unwrap_or(unit))?);
        }
    }
    Ok(leaves)
}
