//! What faults change of other craft, of the same sort as this one where that is known.
//!
//! Twelve hundred invented craft of other physics than ours, every fault in eleven sizes, eight quantities; their
//! changes, and which sort of craft each is, are told by mixtures of twelve normal laws a fault. Two models know more than
//! one of what both leave out: a craft's own ([`Signature::new`]) says which way *it* goes, these how far that can be off.
//! No field record lies under either. `validation/python/effects.py` makes the file; its craft are those of the first half
//! of `docs/studies/faults.md`, the second half never.

use nalgebra::{DMatrix, DVector, SMatrix, SVector};

use crate::Error;
use crate::fault::Fault;
use crate::signature::{FIFTY, Observable, Seen, Signature, THIRTY, towards_fifty};

/// How many quantities are told: logarithms of top speed, engine there, times to 30 and 50 mph, engine at 3 m/s and as
/// 20, 30 and 40 mph are passed, over what they are when all is well.
const TOLD: usize = 8;

/// How many tell the sort of craft, all well: logarithms of the time to 30 mph, of that to 50 over it, of the engine's
/// speed at 3 m/s over that at top speed, and of that over its limiter's. How fast it is tells no more.
const SORT: usize = 4;
const ALL: usize = SORT + TOLD;

/// The speeds at which the engine is told, `m/s`, from the fifth quantity on: off the line, 20, 30 and 40 mph.
pub const PASSED: [f64; 4] = [3.0, 8.9408, THIRTY, 17.8816];

/// Squared distance to every law of a fault from which on a craft is like none of those invented: 997 in 1000 lie nearer
/// to a normal law of four quantities.
const UNLIKE: f64 = 16.3;

/// One normal law of a fault's mixture: the sort of craft first, then what the fault changes of it.
#[derive(Clone, Debug)]
struct Law {
    fault: Fault,
    share: f64,
    /// Mean and standard deviation of the sizes behind it.
    severity: [f64; 2],
    mean: SVector<f64, ALL>,
    covariance: SMatrix<f64, ALL, ALL>,
}

fn laws() -> impl Iterator<Item = Law> {
    include_str!("others.txt").lines().filter_map(law)
}

/// `Clearance 0.125 0.62 0.21`, twelve means, and the rows of the covariance's lower factor; none of a remark.
fn law(line: &str) -> Option<Law> {
    let mut words = line.split_whitespace();
    let name = words.next()?;
    let fault = Fault::ALL
        .into_iter()
        .find(|fault| format!("{fault:?}") == name)?;
    let mut number = || words.next()?.parse::<f64>().ok();
    let share = number()?;
    let severity = [number()?, number()?];
    let mut mean = SVector::<f64, ALL>::zeros();
    for one in mean.iter_mut() {
        *one = number()?;
    }
    let mut factor = SMatrix::<f64, ALL, ALL>::zeros();
    for row in 0..ALL {
        for column in 0..=row {
            factor[(row, column)] = number()?;
        }
    }
    Some(Law {
        fault,
        share,
        severity,
        mean,
        covariance: factor * factor.transpose(),
    })
}

/// What is known of a craft whose faults are asked for.
#[derive(Clone, Copy, Debug, Default)]
pub struct Known<'a> {
    /// All that was measured when it was well; times by their logarithm, the rest in SI.
    pub well: &'a [(Observable, f64)],
    /// What its engine's limiter is set to, `rad/s`.
    pub limiter: Option<f64>,
}

impl Known<'_> {
    /// What tells its sort, as far as it is known.
    fn sort(&self) -> [Option<f64>; SORT] {
        let of = |of: Observable| {
            let mut well = self.well.iter();
            Some(well.find(|one| one.0 == of)?.1)
        };
        let [thirty, fifty] = [THIRTY, FIFTY].map(|to| of(Observable::Start(to)));
        let top = of(Observable::TopEngine);
        let over = |one: Option<f64>, other: Option<f64>| Some((one? / other?).ln());
        [
            thirty,
            thirty.zip(fifty).map(|(thirty, fifty)| fifty - thirty),
            over(of(Observable::LaunchEngine), top),
            over(top, self.limiter),
        ]
    }
}

impl Law {
    /// Log density and squared distance of a sort of craft.
    fn density(&self, sort: &[Option<f64>; SORT]) -> Result<[f64; 2], Error> {
        let law = (
            DVector::from_fn(SORT, |at, _| self.mean[at]),
            DMatrix::from_fn(SORT, SORT, |row, column| self.covariance[(row, column)]),
        );
        let exactly = |change| Seen {
            change,
            uncertainty: 0.0,
        };
        Signature::of_law((self.fault, self.severity[0]), 1.0, law)
            .density(&sort.map(|one| one.map(exactly)))
    }

    /// The law of craft of that sort, its share as it was.
    fn of_sort(mut self, sort: &[Option<f64>; SORT]) -> Self {
        let known = sort.iter().enumerate();
        let known = known.filter_map(|(at, one)| Some((at, (*one)? - self.mean[at])));
        let (at, apart): (Vec<usize>, Vec<f64>) = known.unzip();
        let with = self.covariance.select_columns(&at);
        let within = with.select_rows(&at);
        if let Some(inverse) = within.try_inverse() {
            let follows = &with * inverse;
            self.mean += &follows * DVector::from_vec(apart);
            self.covariance -= &follows * with.transpose();
        }
        self
    }
}

/// The laws of one fault for that sort of craft; as they are where it is like none of those they were made from.
fn of_sort(laws: Vec<Law>, sort: &[Option<f64>; SORT]) -> Result<Vec<Law>, Error> {
    if sort.iter().all(Option::is_none) {
        return Ok(laws);
    }
    let densities = laws.iter().map(|law| law.density(sort));
    let densities = densities.collect::<Result<Vec<_>, _>>()?;
    if densities.iter().all(|[_, distance]| *distance > UNLIKE) {
        return Ok(laws);
    }
    let most = densities
        .iter()
        .map(|one| one[0])
        .fold(f64::NEG_INFINITY, f64::max);
    let each = laws.into_iter().zip(densities);
    let mut laws: Vec<Law> = each
        .map(|(law, [density, _])| Law {
            share: law.share * (density - most).exp(),
            ..law.of_sort(sort)
        })
        .collect();
    let whole: f64 = laws.iter().map(|law| law.share).sum();
    for law in &mut laws {
        law.share /= whole;
    }
    Ok(laws)
}

/// How the logarithm of a quantity goes with those that are told.
fn goes_with(of: Observable) -> SVector<f64, TOLD> {
    let mut with = SVector::zeros();
    match of {
        Observable::TopSpeed => with[0] = 1.0,
        Observable::TopEngine => with[1] = 1.0,
        Observable::Start(to) => {
            let share = towards_fifty(to);
            (with[2], with[3]) = (1.0 - share, share);
        }
        Observable::LaunchEngine => with[4] = 1.0,
        Observable::Passing(at) => {
            let speed = at.clamp(PASSED[0], PASSED[3]);
            let next = PASSED.partition_point(|passed| *passed < speed).max(1);
            let share = (speed - PASSED[next - 1]) / (PASSED[next] - PASSED[next - 1]);
            (with[3 + next], with[4 + next]) = (1.0 - share, share);
        }
        Observable::Gap => {}
    }
    with
}

/// A change of a logarithm as one of the quantity: the change, and how it rises with that of the logarithm.
fn as_seen((of, size): (Observable, f64), change: f64) -> [f64; 2] {
    match of {
        // Times are told by their logarithm.
        Observable::Start(_) => [change, 1.0],
        _ => [size * change.exp_m1(), size * change.exp()],
    }
}

/// Signatures of every fault as other craft show it.
///
/// `m = q (exp(h mu) − 1)`, `S = H C H'`, rows of `H` being `q exp(h mu) h`: `mu`, `C` the laws of the logarithms told, `h`
/// how those of the quantities `q` asked for go with them; times and passing speeds between those told along the speed,
/// beyond them as the last. Of craft of a sort `x`: `w ~ w_0 N(x; mu_x, C_xx)`, `mu = mu_y + C_yx C_xx⁻¹ (x − mu_x)`,
/// `C = C_yy − C_yx C_xx⁻¹ C_xy`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `quantities` | which, with how large each is when all is well; times by their logarithm | unit of the quantity |
/// | `known` | of the craft: it tells the sort |  |
/// | `gap` | by how much a fault of some size opens the gap | `m` |
/// | `returns` | signatures; the shares `w` of a fault's add up to one |  |
///
/// Range: as far as invented craft tell of real ones; of a craft like none of them, what all show.
/// Source: common practice, no source; the normal law where some of its quantities are known is its definition.
///
/// # Errors
/// What is known is no number.
pub fn others(
    quantities: &[(Observable, f64)],
    known: &Known<'_>,
    gap: impl Fn(Fault, f64) -> f64,
) -> Result<Vec<Signature>, Error> {
    let sort = known.sort();
    let with: Vec<SVector<f64, TOLD>> = quantities.iter().map(|(of, _)| goes_with(*of)).collect();
    let of = |law: Law| {
        let mean = law.mean.fixed_rows::<TOLD>(SORT);
        let covariance = law.covariance.fixed_view::<TOLD, TOLD>(SORT, SORT);
        let [severity, spread] = law.severity;
        let gap = |severity: f64| gap(law.fault, severity.clamp(0.2, 1.0));
        let opens = 0.5 * (gap(severity + spread) - gap(severity - spread));
        let seen = quantities.iter().zip(&with);
        let seen = seen.map(|(quantity, with)| match quantity.0 {
            Observable::Gap => [gap(severity), 0.0],
            _ => as_seen(*quantity, with.dot(&mean)),
        });
        let seen: Vec<[f64; 2]> = seen.collect();
        let mean = DVector::from_fn(seen.len(), |at, _| seen[at][0]);
        let covariance = DMatrix::from_fn(seen.len(), seen.len(), |row, column| {
            let both = [row, column].map(|at| quantities[at].0 == Observable::Gap);
            if both == [true; 2] {
                opens * opens
            } else {
                seen[row][1] * seen[column][1] * with[row].dot(&(covariance * with[column]))
            }
        });
        Signature::of_law((law.fault, severity), law.share, (mean, covariance))
    };
    let every: Vec<Law> = laws().collect();
    let mut all = Vec::new();
    for fault in Fault::ALL {
        let laws = every.iter().filter(|law| law.fault == fault);
        let laws = laws.cloned().collect();
        all.extend(of_sort(laws, &sort)?.into_iter().map(of));
    }
    Ok(all)
}
