//! What the spots read cannot tell apart, whatever the leaves say.

use nalgebra::DMatrix;

use super::fit::gram_rank;
use super::survey::row;
use super::{Cause, Frame, Spot, Survey};

/// Something the readings cannot tell. None of these can be mended by thinner leaves.
#[derive(Clone, Debug, PartialEq)]
pub enum Untold {
    /// The ring wider or the impeller smaller: one diameter decides, of the bore or over the blades.
    RingOrImpeller,
    /// A flat leaf across the curve makes every gap look smaller, by up to so much in `m`; the
    /// pattern does not show it.
    Chord(f64),
    /// A leaf set that is off makes every gap look larger or smaller, by up to so much in `m`.
    LeafSet(f64),
    /// Every reading is of one blade: nothing is known of blades.
    OneBlade(usize),
    /// Every reading is at one clock position: nothing is known of the ring's form.
    OnePosition(usize),
    /// The impeller was not turned enough: so many groups of blades and positions hang together by
    /// no reading, and between groups a blade and the ring are one.
    Unturned {
        /// How many groups.
        groups: usize,
    },
    /// The cause adds the same at every spot read, so it cannot be seen.
    Invisible(Cause),
    /// Only some of a wave can be seen: at four positions an oval shows along two axes only.
    Partial(Cause),
    /// Both causes add the same patterns at the spots read: which of them it is cannot be told.
    Alike(Cause, Cause),
    /// Whatever the first adds, the second can add too, and more: the first stands only by being
    /// the simpler one.
    Within(Cause, Cause),
}

/// How many independent columns the means and the causes have at some spots.
///
/// The rank is that of the products of the columns, eigenvalues below 1e-9 of the largest being nothing.
pub fn columns_rank(frame: &Frame, causes: &[Cause], spots: &[Spot]) -> usize {
    gram_rank(&products(&rows(frame, causes, spots)))
}

fn rows(frame: &Frame, causes: &[Cause], spots: &[Spot]) -> DMatrix<f64> {
    let values: Vec<f64> = spots
        .iter()
        .flat_map(|&spot| row(frame, causes, spot))
        .collect();
    let width = values.len() / spots.len().max(1);
    DMatrix::from_vec(width, spots.len(), values)
}

fn products(rows: &DMatrix<f64>) -> DMatrix<f64> {
    rows * rows.transpose()
}

/// The causes a frame can have, strays apart.
pub(super) fn all_causes(frame: &Frame) -> Vec<Cause> {
    let mut causes = vec![Cause::OffCentre, Cause::Oval, Cause::Runout];
    // Of three blades or fewer, a wave round the blades is already as uneven as they can be.
    if frame.blades() > 3 {
        causes.push(Cause::Uneven);
    }
    causes.extend((0..frame.positions()).map(Cause::Local));
    causes.extend((0..frame.blades()).map(Cause::Blade));
    causes
}

/// The causes' columns at the spots read, freed of the means, and which columns are whose.
pub(super) struct Patterns {
    /// Products of all columns.
    products: DMatrix<f64>,
    begins: Vec<usize>,
}

impl Patterns {
    pub(super) fn new(survey: &Survey, causes: &[Cause]) -> Self {
        let frame = survey.frame();
        let spots: Vec<Spot> = survey.readings().iter().map(|r| r.spot).collect();
        let means = frame.stations();
        let mut all = rows(frame, causes, &spots);
        // Each station's own mean taken off; the flags of the stations themselves go.
        for station in 0..means {
            let here: Vec<usize> = (0..spots.len())
                .filter(|&i| spots[i].station == station)
                .collect();
            for j in means..all.nrows() {
                let sum: f64 = here.iter().map(|&i| all[(j, i)]).sum();
                for &i in &here {
                    all[(j, i)] -= sum / crate::real(here.len());
                }
            }
        }
        let mut begins = vec![0];
        for cause in causes {
            begins.push(begins[begins.len() - 1] + cause.width(frame));
        }
        Self {
            products: products(&all.remove_rows(0, means)),
            begins,
        }
    }

    /// Independent patterns of some causes together, each named by its place in the list.
    pub(super) fn rank(&self, causes: &[usize]) -> usize {
        let columns: Vec<usize> = causes
            .iter()
            .flat_map(|&i| self.begins[i]..self.begins[i + 1])
            .collect();
        let part = self.products.select_rows(&columns).select_columns(&columns);
        gram_rank(&part)
    }
}

/// What the spots read cannot tell.
///
/// Columns are compared by their rank with the means of the stations taken off, so that "the same"
/// means: apart from the mean gap, which is free.
pub fn untold(survey: &Survey) -> Vec<Untold> {
    let model = survey.model();
    let mut found = vec![Untold::RingOrImpeller];
    if model.chord > 0.0 {
        found.push(Untold::Chord(model.chord));
    }
    if model.leaf_tolerance > 0.0 {
        found.push(Untold::LeafSet(model.leaf_tolerance));
    }
    let first = survey.readings()[0].spot;
    let spots = || survey.readings().iter().map(|r| r.spot);
    if spots().all(|s| s.blade == first.blade) {
        found.push(Untold::OneBlade(first.blade));
    }
    if spots().all(|s| s.position == first.position) {
        found.push(Untold::OnePosition(first.position));
    }
    let groups = groups(survey);
    if groups > 1 {
        found.push(Untold::Unturned { groups });
    }
    found.extend(patterns(survey));
    found
}

/// What cannot be told of single causes and of pairs.
fn patterns(survey: &Survey) -> Vec<Untold> {
    let causes = all_causes(survey.frame());
    let patterns = Patterns::new(survey, &causes);
    let ranks: Vec<usize> = (0..causes.len()).map(|i| patterns.rank(&[i])).collect();
    let mut found = Vec::new();
    for (i, &cause) in causes.iter().enumerate() {
        if ranks[i] == 0 {
            found.push(Untold::Invisible(cause));
        } else if ranks[i] < cause.width(survey.frame()) {
            found.push(Untold::Partial(cause));
        }
    }
    for (i, &one) in causes.iter().enumerate().filter(|&(i, _)| ranks[i] > 0) {
        for (j, &other) in causes
            .iter()
            .enumerate()
            .skip(i + 1)
            .filter(|&(j, _)| ranks[j] > 0)
        {
            let both = patterns.rank(&[i, j]);
            let of = |rank: usize| both == rank;
            match (of(ranks[i]), of(ranks[j])) {
                (true, true) => found.push(Untold::Alike(one, other)),
                (true, false) => found.push(Untold::Within(other, one)),
                (false, true) => found.push(Untold::Within(one, other)),
                (false, false) => {}
            }
        }
    }
    found
}

/// Groups of blades and positions that hang together by readings, of those that were read.
fn groups(survey: &Survey) -> usize {
    let blades = survey.frame().blades();
    let mut group: Vec<usize> = (0..blades + survey.frame().positions()).collect();
    let mut read = vec![false; group.len()];
    for reading in survey.readings() {
        let (one, other) = (reading.spot.blade, blades + reading.spot.position);
        (read[one], read[other]) = (true, true);
        let (from, to) = (group[other], group[one]);
        for g in &mut group {
            if *g == from {
                *g = to;
            }
        }
    }
    let mut seen: Vec<usize> = (0..group.len())
        .filter(|&i| read[i])
        .map(|i| group[i])
        .collect();
    seen.sort_unstable();
    seen.dedup();
    seen.len()
}
