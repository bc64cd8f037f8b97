//! Whether a set of leaves can decide a limit at all, before the first is tried.

use crate::error::probability;
use crate::{
    Answer, Band, Cell, Error, Limits, Model, Try, Verdict, conformity, posterior, verdict,
};

/// Seed of the draws: the answer is about the leaves, so it is one for all pumps.
const SEED: u64 = 1;

/// Standard deviations of the feel beyond which nothing counts: one in 30 000 to one side.
const FAR: f64 = 4.0;
/// The most that may be asked for that to hold.
const SURE: f64 = 0.999;

/// What a leaf set can show of one spot.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `shows_in` | some reading would show the limits kept | |
/// | `shows_out` | some reading would show them broken | |
/// | `undecided` | bands of the indicated gap that no reading would decide | `m` |
#[derive(Clone, Debug, PartialEq)]
pub struct LeafSet {
    /// Some reading would show the limits kept.
    pub shows_in: bool,
    /// Some reading would show them broken.
    pub shows_out: bool,
    /// Bands of the indicated gap that no reading would decide.
    pub undecided: Vec<Cell>,
}

/// What a leaf set can show of a limit at one spot.
///
/// Each cell between neighbouring leaves is held against the limits as if it had been read, and
/// judged as [`verdict`] does. Many spots together may decide more, or less.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `limits` | limits of the radial gap | `m` |
/// | `leaves` | thicknesses, in any order | `m` |
/// | `model` | feel, leaf set, chord | |
/// | `required` | probability asked of either claim, usually 0.95 | `1` |
///
/// # Errors
/// [`Error::Empty`], [`Error::Thickness`], [`Error::Twice`]; [`Error::Outside`] for the
/// probability; those of [`conformity`] and of the model.
pub fn leaf_set_can_decide(
    limits: &Band,
    leaves: &[f64],
    model: &Model,
    required: f64,
) -> Result<LeafSet, Error> {
    probability("the required probability", required)?;
    let mut leaves = leaves.to_vec();
    for &leaf in &leaves {
        Try::new(leaf, Answer::Goes)?;
    }
    leaves.sort_by(f64::total_cmp);
    for (i, pair) in leaves.windows(2).enumerate() {
        if pair[0].to_bits() == pair[1].to_bits() {
            let what = "leaf";
            return Err(Error::Twice { what, at: i + 1 });
        }
    }
    let Some(&thickest) = leaves.last() else {
        return Err(Error::Empty { what: "leaf" });
    };
    let mut ends = vec![0.0];
    ends.extend(leaves.iter().map(|leaf| leaf + model.feel.goes));
    let radial = Limits::Radial {
        least: limits.least,
        greatest: limits.greatest,
    };
    // What lies further off than everything between a leaf and a gap needs no drawing.
    let slack = model.leaf_tolerance + FAR * model.feel.scatter;
    let judge = |cell: Cell| -> Result<Verdict, Error> {
        let (low, high) = (cell.low - slack, cell.high + model.chord + slack);
        let above = limits.least.is_none_or(|least| low >= least);
        let below = limits.greatest.is_none_or(|greatest| high <= greatest);
        let beyond = limits.least.is_some_and(|least| high < least)
            || limits.greatest.is_some_and(|greatest| low > greatest);
        if required <= SURE && (above && below || beyond) {
            return Ok(if beyond { Verdict::Out } else { Verdict::In });
        }
        let within = conformity(&posterior(&[cell], model, SEED)?, &radial)?.within;
        Ok(verdict(within, required))
    };
    let mut found = LeafSet {
        shows_in: false,
        shows_out: false,
        undecided: Vec::new(),
    };
    for pair in ends.windows(2) {
        let cell = Cell {
            low: pair[0],
            high: pair[1],
        };
        found.note(cell, judge(cell)?);
    }
    // Above the thickest leaf nothing bounds the gap: a cell as wide as that leaf stands for it, and
    // what keeps a greatest limit there might as well break it.
    let low = thickest + model.feel.goes;
    let stand_in = judge(Cell {
        low,
        high: low + thickest,
    })?;
    let open = Cell {
        low,
        high: f64::INFINITY,
    };
    found.note(
        open,
        match (stand_in, limits.greatest) {
            (Verdict::In, Some(_)) => Verdict::Undecided,
            (verdict, _) => verdict,
        },
    );
    Ok(found)
}

impl LeafSet {
    fn note(&mut self, cell: Cell, verdict: Verdict) {
        match verdict {
            Verdict::In => self.shows_in = true,
            Verdict::Out => self.shows_out = true,
            Verdict::Undecided => match self.undecided.last_mut() {
                Some(last) if last.high >= cell.low => last.high = cell.high,
                _ => self.undecided.push(cell),
            },
        }
    }
}
