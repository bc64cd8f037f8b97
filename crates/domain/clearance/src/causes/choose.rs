//! Which causes the readings speak for, and how strongly.

use std::collections::BTreeSet;

use nalgebra::{DMatrix, DVector};

use super::fit::middles;
use super::identify::{Patterns, all_causes};
use super::law::{Asked, Blend, Effect, estimate, wave};
use super::survey::row;
use super::{Cause, Reading, Survey};
use crate::{Cell, Estimate, real};

/// Scale of a cause's parameter before the readings: standard deviation, in `m`.
///
/// Assumed. Source: `common practice, no source`.
const EFFECT: f64 = 100e-6;
/// Scale of the mean gap about the middle of the readings: wide enough to say nothing.
const MEAN: f64 = 1e-3;
/// Odds for a kind of cause to be there, before the readings, shared by its members.
///
/// Assumed. Source: `common practice, no source`.
const ODDS: f64 = 0.2;
/// Pairs and triples, the best by a quick look, that are weighed in full.
const WEIGHED: usize = 24;
/// Candidates that are tried with one more cause, or one reading left alone.
const EXTENDED: usize = 3;
/// Sets that grow by a cause, at every size; few are not enough, since the likeliest three of a set
/// of four need not be the likeliest three.
const GROWN: usize = 10;
/// Causes of a set, at most.
const MOST: usize = 5;
/// A candidate lighter than this share of the heaviest is left out of the answer.
const LIGHT: f64 = 1e-6;
/// Probability of a reading, given the others, below which it may stand alone.
const ODD_READING: f64 = 0.01;

/// A set of causes that may explain the readings.
#[derive(Clone, Debug)]
pub struct Candidate {
    /// The causes; none when the ring and the impeller are as even as they are rough.
    pub causes: Vec<Cause>,
    /// Probability of this set among all the candidates.
    pub weight: f64,
    /// Logarithm of the probability of the readings, up to a constant of the survey.
    pub ln_evidence: f64,
    /// Places in the ranking of the candidates that add the very same patterns at the spots read.
    pub same: Vec<usize>,
    pub(super) law: Blend,
}

/// The candidates, the most probable first.
#[derive(Clone, Debug)]
pub struct Ranking {
    /// The candidates, the most probable first.
    pub candidates: Vec<Candidate>,
    pub(super) middle: f64,
    pub(super) unit: f64,
}

/// Everything that stays the same from candidate to candidate.
struct Weigher<'a> {
    survey: &'a Survey,
    cells: Vec<Cell>,
    unit: f64,
    /// Variances a reading may have, in squared units.
    noises: Vec<f64>,
}

impl<'a> Weigher<'a> {
    fn new(survey: &'a Survey) -> Self {
        let (cells, _) = survey.standard();
        let unit = survey.scatter();
        Self {
            survey,
            cells,
            unit,
            noises: survey.scatters().map(|s| (s / unit).powi(2)).collect(),
        }
    }

    /// Covariance of the parameters before the readings.
    fn prior(&self, causes: &[Cause]) -> DMatrix<f64> {
        let frame = self.survey.frame();
        let means = frame.stations();
        let widths: usize = causes.iter().map(|c| c.width(frame)).sum();
        let (mean, effect) = ((MEAN / self.unit).powi(2), (EFFECT / self.unit).powi(2));
        let scale = |i: usize| if i < means { mean } else { effect };
        let mut prior = DMatrix::from_fn(means + widths, means + widths, |i, j| {
            if i == j { scale(i) } else { 0.0 }
        });
        let mut at = means;
        for cause in causes {
            let width = cause.width(frame);
            if *cause == Cause::Uneven {
                // Every blade alike, their mean taken off: no blade is told from the last one.
                let less = effect / real(frame.blades());
                prior
                    .view_mut((at, at), (width, width))
                    .add_scalar_mut(-less);
            }
            at += width;
        }
        prior
    }

    fn rows(&self, causes: &[Cause]) -> DMatrix<f64> {
        let readings = self.survey.readings();
        let values: Vec<f64> = readings
            .iter()
            .flat_map(|r| row(self.survey.frame(), causes, r.spot))
            .collect();
        DMatrix::from_vec(values.len() / readings.len(), readings.len(), values)
    }

    fn asked(&self, causes: &[Cause]) -> Asked<'_> {
        Asked {
            rows: self.rows(causes),
            cells: &self.cells,
            prior: self.prior(causes),
        }
    }

    fn candidate(&self, causes: Vec<Cause>) -> Candidate {
        let law = Blend::new(&self.asked(&causes), &self.noises);
        Candidate {
            weight: 0.0,
            ln_evidence: law.ln_evidence,
            same: Vec::new(),
            causes,
            law,
        }
    }

    /// Logarithm of the odds of a set before the readings.
    fn ln_odds(&self, causes: &[Cause]) -> f64 {
        let frame = self.survey.frame();
        let members = |cause: &Cause| match cause {
            Cause::OffCentre | Cause::Oval | Cause::Runout | Cause::Uneven => 1,
            Cause::Local(_) => frame.positions(),
            Cause::Blade(_) => frame.blades(),
            Cause::Stray(_) => self.cells.len(),
        };
        causes.iter().map(|c| (ODDS / real(members(c))).ln()).sum()
    }

    fn score(&self, candidate: &Candidate) -> f64 {
        candidate.ln_evidence + self.ln_odds(&candidate.causes)
    }

    /// The heaviest candidates first.
    fn sort(&self, candidates: &mut [Candidate]) {
        candidates.sort_by(|a, b| self.score(b).total_cmp(&self.score(a)));
    }
}

/// A quick look at sets of causes: each cell as a normal value at its middle.
struct Glance {
    products: DMatrix<f64>,
    pulls: DVector<f64>,
    /// Logarithms of the widths of the law before the readings, a column each.
    ln_wide: Vec<f64>,
    begins: Vec<usize>,
}

impl Glance {
    fn new(weigher: &Weigher, causes: &[Cause]) -> Self {
        let frame = weigher.survey.frame();
        let rows = weigher.rows(causes);
        let (middles, widths) = middles(&weigher.cells);
        // No cause is bound to another, so the parts of a set are parts of these.
        let prior = weigher.prior(causes).cholesky();
        let (mut products, wide) = prior.map_or_else(
            || unreachable!("scales above nothing"),
            |factor| (factor.inverse(), factor.l().diagonal()),
        );
        let mut pulls = DVector::zeros(rows.nrows());
        for ((x, middle), width) in rows.column_iter().zip(middles).zip(widths) {
            let weight = (1.0 + width * width / 12.0).recip();
            products.ger(weight, &x, &x, 1.0);
            pulls.axpy(weight * middle, &x, 1.0);
        }
        let mut begins = vec![frame.stations()];
        for cause in causes {
            begins.push(begins[begins.len() - 1] + cause.width(frame));
        }
        Self {
            ln_wide: wide.iter().map(|w| w.ln()).collect(),
            products,
            pulls,
            begins,
        }
    }

    /// Logarithm of the evidence of a set, its causes named by their places, up to a constant.
    fn ln_evidence(&self, causes: &[usize]) -> f64 {
        let means = 0..self.begins[0];
        let columns: Vec<usize> = means
            .chain(
                causes
                    .iter()
                    .flat_map(|&i| self.begins[i]..self.begins[i + 1]),
            )
            .collect();
        let precision = self.products.select_rows(&columns).select_columns(&columns);
        let pull = self.pulls.select_rows(&columns);
        let wide: f64 = columns.iter().map(|&i| self.ln_wide[i]).sum();
        precision.cholesky().map_or(f64::NEG_INFINITY, |factor| {
            let shrunk: f64 = factor.l().diagonal().iter().map(|d| d.ln()).sum();
            0.5 * pull.dot(&factor.solve(&pull)) - shrunk - wide
        })
    }
}

/// Weighs the causes, alone and together, against each other.
///
/// `p(set | cells) ~ odds(set) integral P(cells | b) N(b; 0, prior) db`
///
/// The integral is the evidence: a set of causes is paid for what it explains and pays for every
/// value it could have explained as well. None, each cause alone, the likeliest pairs, and larger
/// sets of up to five for as long as a cause more pays are weighed; the best of them also with one
/// reading left to stand alone.
///
/// Any survey has a ranking, if only one in which nothing leads.
pub fn rank(survey: &Survey) -> Ranking {
    let weigher = Weigher::new(survey);
    let causes = all_causes(survey.frame());
    let patterns = Patterns::new(survey, &causes);
    let seen: Vec<usize> = (0..causes.len())
        .filter(|&i| patterns.rank(&[i]) > 0)
        .collect();
    let causes: Vec<Cause> = seen.iter().map(|&i| causes[i]).collect();
    let mut candidates = search(&weigher, &causes);
    weigher.sort(&mut candidates);
    let scores: Vec<f64> = candidates
        .iter()
        .map(|c| weigher.score(c) - weigher.score(&candidates[0]))
        .collect();
    let total: f64 = scores.iter().map(|s| s.exp()).sum();
    for (candidate, score) in candidates.iter_mut().zip(scores) {
        candidate.weight = score.exp() / total;
    }
    let heaviest = candidates[0].weight;
    candidates.retain(|c| c.weight >= LIGHT * heaviest);
    name_alike(survey, &mut candidates);
    Ranking {
        candidates,
        middle: survey.standard().1,
        unit: weigher.unit,
    }
}

/// Weighs none, singles, pairs, and what the best of them suggest.
fn search(weigher: &Weigher, causes: &[Cause]) -> Vec<Candidate> {
    let glance = Glance::new(weigher, causes);
    let named = |set: &[usize]| set.iter().map(|&i| causes[i]).collect::<Vec<_>>();
    let best = |sets: Vec<Vec<usize>>| {
        let odds = |set: &[usize]| weigher.ln_odds(&named(set));
        let mut scored: Vec<(f64, Vec<usize>)> = sets
            .into_iter()
            .map(|set| (glance.ln_evidence(&set) + odds(&set), set))
            .collect();
        scored.sort_by(|a, b| b.0.total_cmp(&a.0));
        scored.truncate(WEIGHED);
        scored.into_iter().map(|(_, set)| set).collect::<Vec<_>>()
    };
    let mut candidates = vec![weigher.candidate(Vec::new())];
    candidates.extend(causes.iter().map(|&cause| weigher.candidate(vec![cause])));
    weigher.sort(&mut candidates);
    let single = weigher.score(&candidates[0]);
    let all = 0..causes.len();
    let pairs = all
        .clone()
        .flat_map(|i| (i + 1..causes.len()).map(move |j| vec![i, j]));
    let pairs = best(pairs.filter(|p| sensible(&named(p))).collect());
    let mut largest: Vec<Candidate> = pairs.iter().map(|p| weigher.candidate(named(p))).collect();
    let mut before = single;
    for _ in 2..MOST {
        weigher.sort(&mut largest);
        let now = largest
            .first()
            .map_or(f64::NEG_INFINITY, |set| weigher.score(set));
        if now <= before {
            break;
        }
        before = now;
        let grown = best(grown(&largest, causes));
        candidates.append(&mut largest);
        largest = grown
            .iter()
            .map(|set| weigher.candidate(named(set)))
            .collect();
    }
    candidates.append(&mut largest);
    leave_alone(weigher, &mut candidates);
    candidates
}

/// The likeliest sets with a cause more, each set once, its causes named by their places.
fn grown(largest: &[Candidate], causes: &[Cause]) -> Vec<Vec<usize>> {
    let mut grown: BTreeSet<Vec<usize>> = BTreeSet::new();
    for set in largest.iter().take(GROWN) {
        let places = |cause: &Cause| causes.iter().position(|c| c == cause);
        let set: Vec<usize> = set.causes.iter().filter_map(places).collect();
        for more in (0..causes.len()).filter(|i| !set.contains(i)) {
            let mut more = [&set[..], &[more]].concat();
            more.sort_unstable();
            let named: Vec<Cause> = more.iter().map(|&i| causes[i]).collect();
            if sensible(&named) {
                grown.insert(more);
            }
        }
    }
    grown.into_iter().collect()
}

/// Adds the candidates with one or two readings left to stand alone: of none, and of the best single
/// causes and the best sets.
fn leave_alone(weigher: &Weigher, candidates: &mut Vec<Candidate>) {
    for _ in 0..2 {
        weigher.sort(candidates);
        let few = |size: usize| {
            let of_size = move |c: &&Candidate| size == usize::MAX || c.causes.len() == size;
            candidates.iter().filter(of_size).take(EXTENDED)
        };
        let bases = few(0).chain(few(1)).chain(few(usize::MAX));
        let sets: Vec<Vec<Cause>> = bases
            .filter_map(|c| with_stray(c, weigher.survey.readings()))
            .collect();
        for set in sets {
            let same = |c: &Candidate| {
                c.causes.len() == set.len() && set.iter().all(|x| c.causes.contains(x))
            };
            if !candidates.iter().any(same) {
                candidates.push(weigher.candidate(set));
            }
        }
    }
}

/// No set says a thing twice: a wave round the blades or single blades are parts of uneven ones.
fn sensible(set: &[Cause]) -> bool {
    let uneven = set.contains(&Cause::Uneven);
    !(uneven
        && set
            .iter()
            .any(|c| matches!(c, Cause::Blade(_) | Cause::Runout)))
}

/// The same causes with the least probable reading left to stand alone, if it is odd enough.
fn with_stray(candidate: &Candidate, readings: &[Reading]) -> Option<Vec<Cause>> {
    let worst = (0..readings.len()).min_by(|&i, &j| {
        let left_out = candidate.law.left_out();
        left_out[i].total_cmp(&left_out[j])
    })?;
    (candidate.law.left_out()[worst] < ODD_READING.ln()).then(|| {
        let mut causes = candidate.causes.clone();
        causes.push(Cause::Stray(readings[worst].spot));
        causes
    })
}

/// Notes which candidates add the very same patterns.
fn name_alike(survey: &Survey, candidates: &mut [Candidate]) {
    let mut causes: Vec<Cause> = Vec::new();
    for cause in candidates.iter().flat_map(|c| &c.causes) {
        if !causes.contains(cause) {
            causes.push(*cause);
        }
    }
    let patterns = Patterns::new(survey, &causes);
    let places: Vec<Vec<usize>> = candidates
        .iter()
        .map(|c| {
            let place = |cause: &Cause| causes.iter().position(|known| known == cause);
            c.causes.iter().filter_map(place).collect()
        })
        .collect();
    let ranks: Vec<usize> = places.iter().map(|set| patterns.rank(set)).collect();
    for i in 0..candidates.len() {
        for j in 0..i {
            if ranks[i] == ranks[j]
                && patterns.rank(&[&places[i][..], &places[j]].concat()) == ranks[i]
            {
                candidates[i].same.push(j);
                candidates[j].same.push(i);
            }
        }
    }
}

impl Ranking {
    /// The candidate that leads, or nothing when it cannot be told.
    ///
    /// A candidate leads when its probability reaches `required` and no other adds the same
    /// patterns at the spots read.
    pub fn told(&self, required: f64) -> Option<&Candidate> {
        self.candidates
            .first()
            .filter(|c| c.weight >= required && c.same.is_empty())
    }

    /// Probability that a cause is there, alone or with others.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | sum of the weights of the candidates that have it | `1` |
    ///
    /// Range: any cause.
    /// Source: definition.
    pub fn probability(&self, cause: Cause) -> f64 {
        let having = self.candidates.iter().filter(|c| c.causes.contains(&cause));
        having.map(|c| c.weight).sum()
    }

    /// A candidate's parameters, drawn many times over, each draw as likely as the cells make it.
    ///
    /// The same seed gives the same bytes.
    pub fn draw<'a>(
        &'a self,
        survey: &'a Survey,
        candidate: &'a Candidate,
        seed: u64,
    ) -> Drawn<'a> {
        let weigher = Weigher::new(survey);
        let asked = weigher.asked(&candidate.causes);
        Drawn {
            survey,
            ranking: self,
            candidate,
            seed,
            draws: candidate.law.draws(&asked, seed),
        }
    }
}

/// A candidate as drawn: what its sizes, its cures and its level are read from.
#[derive(Clone, Debug)]
pub struct Drawn<'a> {
    pub(super) survey: &'a Survey,
    pub(super) ranking: &'a Ranking,
    pub(super) candidate: &'a Candidate,
    pub(super) seed: u64,
    /// The roughness of each by its place, and the parameters in units of the survey's scatter.
    pub(super) draws: Vec<(usize, DVector<f64>)>,
}

impl Drawn<'_> {
    /// How large each cause is, with the interval that holds it with 90 %.
    pub fn effects(&self) -> Vec<Effect> {
        let (draws, unit) = (&self.draws, self.ranking.unit);
        let mut at = self.survey.frame().stations();
        let mut effects = Vec::new();
        for &cause in &self.candidate.causes {
            let width = cause.width(self.survey.frame());
            let value =
                |i: usize| -> Vec<f64> { draws.iter().map(|(_, d)| unit * d[at + i]).collect() };
            effects.push(match cause {
                Cause::OffCentre | Cause::Runout => wave(&zip(value(0), value(1)), 1.0),
                Cause::Oval => wave(&zip(value(0), value(1)), 2.0),
                Cause::Local(_) | Cause::Stray(_) | Cause::Blade(_) => {
                    Effect::Amount(estimate(value(0)))
                }
                Cause::Uneven => {
                    let mut each: Vec<Vec<f64>> = (0..width).map(value).collect();
                    each.push(
                        (0..draws.len())
                            .map(|d| -each.iter().map(|e| e[d]).sum::<f64>())
                            .collect(),
                    );
                    Effect::Each(each.into_iter().map(estimate).collect::<Vec<Estimate>>())
                }
            });
            at += width;
        }
        effects
    }
}

fn zip(cosines: Vec<f64>, sines: Vec<f64>) -> Vec<(f64, f64)> {
    cosines.into_iter().zip(sines).collect()
}
