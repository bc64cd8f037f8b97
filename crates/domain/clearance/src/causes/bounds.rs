//! What the cells allow if no reading scatters at all.

use microlp::{ComparisonOp, OptimizationDirection, Problem, Variable};

use super::fit::{Column, Linear};
use super::{Cause, Survey};
use crate::Error;

/// The values a parameter may have.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `low` | least, minus infinity when nothing bounds it | `m` |
/// | `high` | greatest, infinity when nothing bounds it | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Least.
    pub low: f64,
    /// Greatest.
    pub high: f64,
}

/// What the cells allow of a model without scatter.
#[derive(Clone, Debug, PartialEq)]
pub enum Bounds {
    /// Some values meet every cell: the span of each parameter.
    Within(Vec<(Column, Span)>),
    /// No values meet every cell: by how much, in `m`, all cells must be widened at either end.
    Violated(f64),
}

/// Bounds of each parameter if every cell holds exactly.
///
/// `min and max b_j subject to L_i <= x_i b <= H_i`; where none fits, `min v: L_i - v <= x_i b <= H_i + v`
///
/// These are no confidence limits: a hand that scatters makes them too narrow. They show what the
/// steps between leaves leave open when neighbouring spots fall into one cell together.
///
/// # Errors
/// [`Error::NoSuchPlace`], [`Error::NotConverged`].
pub fn bounds(survey: &Survey, causes: &[Cause]) -> Result<Bounds, Error> {
    let linear = Linear::new(survey, causes)?;
    let by = violation(&linear)?;
    // The solver meets its bounds within 1e-7.
    if by > 1e-6 {
        return Ok(Bounds::Violated(by * linear.unit));
    }
    let mut spans = Vec::with_capacity(linear.columns.len());
    for (i, &column) in linear.columns.iter().enumerate() {
        let end = |direction| -> Result<f64, Error> {
            Ok(linear.origin(i) + linear.unit * extreme(&linear, i, direction)?)
        };
        spans.push((
            column,
            Span {
                low: end(OptimizationDirection::Minimize)?,
                high: end(OptimizationDirection::Maximize)?,
            },
        ));
    }
    Ok(Bounds::Within(spans))
}

/// A programme with one free variable a column, the objective being one of them or none.
fn programme(
    linear: &Linear,
    objective: Option<usize>,
    direction: OptimizationDirection,
) -> (Problem, Vec<Variable>) {
    let mut problem = Problem::new(direction);
    let variables = (0..linear.columns.len())
        .map(|i| {
            let cost = f64::from(u8::from(objective == Some(i)));
            problem.add_var(cost, (f64::NEG_INFINITY, f64::INFINITY))
        })
        .collect();
    (problem, variables)
}

/// The non-zero terms of a reading's row.
fn terms(linear: &Linear, reading: usize, variables: &[Variable]) -> Vec<(Variable, f64)> {
    let row = linear.rows.column(reading);
    let pairs = variables.iter().copied().zip(row.iter().copied());
    pairs.filter(|&(_, x)| x != 0.0).collect()
}

/// How far every cell must be widened, in units of the scatter, so that some values fit.
fn violation(linear: &Linear) -> Result<f64, Error> {
    let (mut problem, variables) = programme(linear, None, OptimizationDirection::Minimize);
    let slack = problem.add_var(1.0, (0.0, f64::INFINITY));
    for (i, cell) in linear.cells.iter().enumerate() {
        let mut row = terms(linear, i, &variables);
        row.push((slack, 1.0));
        problem.add_constraint(row, ComparisonOp::Ge, cell.low);
        if cell.high.is_finite() {
            let mut row = terms(linear, i, &variables);
            row.push((slack, -1.0));
            problem.add_constraint(row, ComparisonOp::Le, cell.high);
        }
    }
    solved(&problem)
}

/// Least or greatest value of one parameter, in units of the scatter.
fn extreme(linear: &Linear, column: usize, direction: OptimizationDirection) -> Result<f64, Error> {
    let (mut problem, variables) = programme(linear, Some(column), direction);
    for (i, cell) in linear.cells.iter().enumerate() {
        // Room for what the solver takes as met.
        let row = terms(linear, i, &variables);
        problem.add_constraint(row.clone(), ComparisonOp::Ge, cell.low - 1e-6);
        if cell.high.is_finite() {
            problem.add_constraint(row, ComparisonOp::Le, cell.high + 1e-6);
        }
    }
    match problem.solve() {
        Err(microlp::Error::Unbounded) if direction == OptimizationDirection::Minimize => {
            Ok(f64::NEG_INFINITY)
        }
        Err(microlp::Error::Unbounded) => Ok(f64::INFINITY),
        _ => solved(&problem),
    }
}

/// The first parameter that open cells let run away, its columns being independent.
pub(super) fn escape(linear: &Linear) -> Result<Option<usize>, Error> {
    if linear.cells.iter().all(|cell| cell.high.is_finite()) {
        return Ok(None);
    }
    for column in 0..linear.columns.len() {
        for sign in [-1.0, 1.0] {
            let mut problem = Problem::new(OptimizationDirection::Maximize);
            let variables: Vec<Variable> = (0..linear.columns.len())
                .map(|i| {
                    let cost = if i == column { sign } else { 0.0 };
                    problem.add_var(cost, (-1.0, 1.0))
                })
                .collect();
            for (i, cell) in linear.cells.iter().enumerate() {
                let towards = if cell.high.is_finite() {
                    ComparisonOp::Eq
                } else {
                    ComparisonOp::Ge
                };
                problem.add_constraint(terms(linear, i, &variables), towards, 0.0);
            }
            if solved(&problem)? > 1e-6 {
                return Ok(Some(column));
            }
        }
    }
    Ok(None)
}

fn solved(problem: &Problem) -> Result<f64, Error> {
    let unsolved = Error::NotConverged {
        what: "the bounds of the causes",
        steps: 0,
    };
    let outcome = problem.solve().map_err(|_| unsolved)?;
    Ok(outcome.into_solution().map_err(|_| unsolved)?.objective())
}
