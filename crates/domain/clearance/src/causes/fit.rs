//! The most likely values of the causes, with their errors.

use nalgebra::{DMatrix, DVector};

use super::bounds::escape;
use super::law::tilted;
use super::survey::row;
use super::{Cause, Survey};
use crate::error::positive;
use crate::{Cell, Error, real};

/// Newton steps before a climb is given up.
const STEPS: usize = 100;
/// Newton step, in units of the scatter, after which the next would be lost in rounding.
const CLOSE: f64 = 1e-10;
/// Share of the largest eigenvalue below which a direction is not seen at all.
pub(super) const SINGULAR: f64 = 1e-9;

/// A parameter of the model.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Mean indicated gap of a station.
    Mean(usize),
    /// A cause's parameter: for a wave the cosine first and the sine second.
    Effect(Cause, usize),
}

/// The readings as a linear model in units of the scatter.
pub(super) struct Linear {
    pub(super) columns: Vec<Column>,
    /// One column a reading.
    pub(super) rows: DMatrix<f64>,
    pub(super) cells: Vec<Cell>,
    pub(super) middle: f64,
    pub(super) unit: f64,
}

impl Linear {
    /// The columns of the stations read and of the causes.
    pub(super) fn new(survey: &Survey, causes: &[Cause]) -> Result<Self, Error> {
        let frame = survey.frame();
        for cause in causes {
            cause.check(frame)?;
        }
        let read = |station| survey.readings().iter().any(|r| r.spot.station == station);
        let mut columns: Vec<Column> = (0..frame.stations()).map(Column::Mean).collect();
        for &cause in causes {
            columns.extend((0..cause.width(frame)).map(|i| Column::Effect(cause, i)));
        }
        let kept: Vec<usize> = (0..columns.len())
            .filter(|&i| !matches!(columns[i], Column::Mean(station) if !read(station)))
            .collect();
        let (cells, middle) = survey.standard();
        let mut values = Vec::with_capacity(kept.len() * cells.len());
        for reading in survey.readings() {
            let all = row(frame, causes, reading.spot);
            values.extend(kept.iter().map(|&i| all[i]));
        }
        Ok(Self {
            rows: DMatrix::from_vec(kept.len(), cells.len(), values),
            columns: kept.iter().map(|&i| columns[i]).collect(),
            cells,
            middle,
            unit: survey.scatter(),
        })
    }

    /// Refuses columns of which one is a sum of the others.
    fn independent(&self) -> Result<(), Error> {
        let rank = gram_rank(&(&self.rows * self.rows.transpose()));
        if rank < self.columns.len() {
            return Err(Error::NotTold {
                told: rank,
                asked: self.columns.len(),
            });
        }
        Ok(())
    }

    /// Where a parameter begins, in `m`: the means stand about the middle, effects about nothing.
    pub(super) fn origin(&self, column: usize) -> f64 {
        match self.columns[column] {
            Column::Mean(_) => self.middle,
            Column::Effect(..) => 0.0,
        }
    }

    /// Least squares on the middles of the cells; an open end counts as one usual width away.
    fn start(&self) -> DVector<f64> {
        let (middles, _) = middles(&self.cells);
        let normal = &self.rows * self.rows.transpose();
        let right = &self.rows * DVector::from_vec(middles);
        normal
            .cholesky()
            .map_or_else(|| DVector::zeros(self.columns.len()), |c| c.solve(&right))
    }

    /// Log likelihood, its slope, and its curvature turned positive.
    fn slope(&self, at: &DVector<f64>) -> (f64, DVector<f64>, DMatrix<f64>) {
        let size = at.len();
        let (mut value, mut first) = (0.0, DVector::zeros(size));
        let mut second = DMatrix::zeros(size, size);
        for (x, cell) in self.rows.column_iter().zip(&self.cells) {
            let t = tilted(cell, x.dot(at), 1.0);
            value += t.ln_z;
            first.axpy(t.slope, &x, 1.0);
            second.ger(t.bend, &x, &x, 1.0);
        }
        (value, first, second)
    }

    /// Newton from a start, over the parameters that are not held.
    fn climb(
        &self,
        start: DVector<f64>,
        held: Option<usize>,
    ) -> Result<(DVector<f64>, f64), Error> {
        let mut at = start;
        for _ in 0..STEPS {
            let (value, mut first, mut second) = self.slope(&at);
            if let Some(i) = held {
                second.row_mut(i).fill(0.0);
                second.column_mut(i).fill(0.0);
                second[(i, i)] = 1.0;
                first[i] = 0.0;
            }
            // On a plateau the curvature is lost in rounding; a little of it bounds the step.
            for i in 0..at.len() {
                second[(i, i)] += 1e-12;
            }
            let Some(factor) = second.cholesky() else {
                break;
            };
            let mut step = factor.solve(&first);
            let longest = step.amax();
            if longest > 10.0 {
                step *= 10.0 / longest;
            }
            while self.slope(&(&at + &step)).0 < value && step.amax() > CLOSE {
                step *= 0.5;
            }
            at += &step;
            if step.amax() <= CLOSE {
                let value = self.slope(&at).0;
                return Ok((at, value));
            }
        }
        Err(Error::NotConverged {
            what: "the fit of the causes",
            steps: STEPS,
        })
    }
}

/// Middle of each cell, and its width; an open cell counts as one usual width wide.
pub(super) fn middles(cells: &[Cell]) -> (Vec<f64>, Vec<f64>) {
    let closed = || {
        cells
            .iter()
            .map(|c| c.high - c.low)
            .filter(|w| w.is_finite())
    };
    let usual = closed().sum::<f64>() / real(closed().count().max(1));
    let width = |c: &Cell| {
        let width = c.high - c.low;
        if width.is_finite() {
            width
        } else {
            2.0 * usual
        }
    };
    (
        cells.iter().map(|c| c.low + 0.5 * width(c)).collect(),
        cells.iter().map(width).collect(),
    )
}

/// How many independent columns stand behind their matrix of products.
pub(super) fn gram_rank(products: &DMatrix<f64>) -> usize {
    if products.is_empty() {
        return 0;
    }
    let sizes = products.clone().symmetric_eigenvalues();
    let largest = sizes.max().max(1e-6);
    sizes
        .iter()
        .filter(|&&size| size > SINGULAR * largest)
        .count()
}

/// The most likely values of the causes.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    columns: Vec<Column>,
    values: Vec<f64>,
    /// In columns one after the other, as many as there are values.
    covariance: Vec<f64>,
    ln_likelihood: f64,
}

impl Fit {
    /// The parameters, in the order of their columns.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Value of a parameter, if the model has it.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | most likely value | `m` |
    ///
    /// Range: a column of the model.
    /// Source: definition.
    pub fn value(&self, column: Column) -> Option<f64> {
        self.at(column).map(|i| self.values[i])
    }

    /// Standard error of a parameter, if the model has it.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | from the curvature at the top | `m` |
    ///
    /// Range: a column of the model. Where several blades share one cell, all are off together and
    /// the curvature does not know it: prefer [`Fit::interval`].
    /// Source: definition.
    pub fn error(&self, column: Column) -> Option<f64> {
        let size = self.columns.len();
        self.at(column)
            .map(|i| self.covariance[i * size + i].sqrt())
    }

    /// Covariance of two parameters, if the model has both.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | from the curvature at the top | `m^2` |
    ///
    /// Range: columns of the model.
    /// Source: definition.
    pub fn covariance(&self, one: Column, other: Column) -> Option<f64> {
        let (i, j) = (self.at(one)?, self.at(other)?);
        Some(self.covariance[i * self.columns.len() + j])
    }

    /// Logarithm of the probability of all cells, 0 for a fit of middles.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | at the top | `1` |
    ///
    /// Range: any fit.
    /// Source: definition.
    pub fn ln_likelihood(&self) -> f64 {
        self.ln_likelihood
    }

    fn at(&self, column: Column) -> Option<usize> {
        self.columns.iter().position(|&c| c == column)
    }

    /// Profile interval of a parameter: where the likelihood, best over the others, drops by `drop`.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `survey` | the readings that were fitted | |
    /// | `column` | which parameter | |
    /// | `drop` | fall of the log likelihood: 1.35277 for 90 % | `1` |
    /// | returns | lower and upper end | `m` |
    ///
    /// Range: a fit of the same survey, `drop > 0`.
    /// Source: `turnbull-1976` for the likelihood whose profile this is.
    ///
    /// # Errors
    /// [`Error::Empty`] when the fit has no such column; as [`fit`] besides.
    pub fn interval(
        &self,
        survey: &Survey,
        column: Column,
        drop: f64,
    ) -> Result<(f64, f64), Error> {
        let at = self.at(column).ok_or(Error::Empty {
            what: "such parameter in the fit",
        })?;
        let mut causes: Vec<Cause> = Vec::new();
        for c in &self.columns {
            if let Column::Effect(cause, 0) = *c {
                causes.push(cause);
            }
        }
        let linear = Linear::new(survey, &causes)?;
        let floor = self.ln_likelihood - positive("the drop", drop)?;
        let best: Vec<f64> = (0..self.values.len())
            .map(|i| (self.values[i] - linear.origin(i)) / linear.unit)
            .collect();
        let best = DVector::from_vec(best);
        let error = self.covariance[at * self.values.len() + at].sqrt() / linear.unit;
        let end = |side: f64| -> Result<f64, Error> {
            let x = profile_end(&linear, &best, (at, side * error), floor)?;
            Ok(linear.origin(at) + linear.unit * x)
        };
        Ok((end(-1.0)?, end(1.0)?))
    }
}

/// Where the profile of one parameter crosses the floor, going by steps of a standard error.
fn profile_end(
    linear: &Linear,
    best: &DVector<f64>,
    (at, step): (usize, f64),
    floor: f64,
) -> Result<f64, Error> {
    let mut near = best.clone();
    let mut height = |value: f64| -> Result<f64, Error> {
        near[at] = value;
        let (top, height) = linear.climb(near.clone(), Some(at))?;
        near = top;
        Ok(height)
    };
    let (mut inside, mut outside) = (best[at], best[at] + step);
    let mut steps = 0;
    while height(outside)? > floor {
        inside = outside;
        outside += step;
        steps += 1;
        if steps > STEPS {
            return Err(Error::NotConverged {
                what: "the interval of a cause",
                steps,
            });
        }
    }
    while (outside - inside).abs() > 1e-9 {
        let middle = 0.5 * (inside + outside);
        if height(middle)? > floor {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    Ok(0.5 * (inside + outside))
}

/// Fits the causes to the cells by maximum likelihood, the scatter held.
///
/// `l = sum ln(Phi((H - x b) / sigma) - Phi((L - x b) / sigma))`, climbed by Newton steps
///
/// The climb begins at least squares on the middles; the likelihood has one top, since it is
/// concave. Errors are from the curvature at the top.
///
/// # Errors
/// [`Error::NotTold`] when the spots read cannot carry the columns, [`Error::Unbounded`] when the
/// open cells let a parameter run away, [`Error::NoSuchPlace`], [`Error::NotConverged`].
pub fn fit(survey: &Survey, causes: &[Cause]) -> Result<Fit, Error> {
    let linear = Linear::new(survey, causes)?;
    linear.independent()?;
    if let Some(column) = escape(&linear)? {
        return Err(Error::Unbounded {
            column,
            asked: linear.columns.len(),
        });
    }
    let (top, ln_likelihood) = linear.climb(linear.start(), None)?;
    let (_, _, curvature) = linear.slope(&top);
    answer(linear, &top, curvature, ln_likelihood)
}

/// Fits the causes to the middles of the cells by least squares: the usual start, and a check.
///
/// `b = (X'X)^-1 X'y`, errors from the residuals, `s^2 = SSR / (n - columns)`
///
/// # Errors
/// [`Error::NotTold`], also when there are no more readings than columns;
/// [`Error::NoSuchPlace`].
pub fn least_squares(survey: &Survey, causes: &[Cause]) -> Result<Fit, Error> {
    let linear = Linear::new(survey, causes)?;
    linear.independent()?;
    let (readings, columns) = (linear.cells.len(), linear.columns.len());
    if readings <= columns {
        return Err(Error::NotTold {
            told: readings,
            asked: columns + 1,
        });
    }
    let at = linear.start();
    let (middles, _) = middles(&linear.cells);
    let residuals = DVector::from_vec(middles) - linear.rows.transpose() * &at;
    let variance = residuals.norm_squared() / real(readings - columns);
    let curvature = (&linear.rows * linear.rows.transpose()) / variance.max(f64::MIN_POSITIVE);
    answer(linear, &at, curvature, 0.0)
}

/// The fit in metres.
fn answer(
    linear: Linear,
    top: &DVector<f64>,
    curvature: DMatrix<f64>,
    ln_likelihood: f64,
) -> Result<Fit, Error> {
    let inverse = curvature.cholesky().ok_or(Error::NotConverged {
        what: "the curvature at the top",
        steps: STEPS,
    })?;
    let covariance = inverse.inverse() * (linear.unit * linear.unit);
    let value = |i: usize| linear.origin(i) + linear.unit * top[i];
    Ok(Fit {
        values: (0..top.len()).map(value).collect(),
        covariance: covariance.as_slice().to_vec(),
        ln_likelihood,
        columns: linear.columns,
    })
}
