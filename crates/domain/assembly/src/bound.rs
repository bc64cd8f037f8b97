//! How soon all can be over at the earliest, and why not sooner.

use crate::problem::Problem;
use crate::profile::NEVER;

/// What no plan can beat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Least {
    pub(crate) finish: i64,
    pub(crate) why: Why,
}

/// Why not sooner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Why {
    /// Ties and absences alone, each step as if it had the resources to itself.
    Alone,
    /// One resource has too much work between two times.
    Work(Work),
}

/// Work that must be done on one resource between two times.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Work {
    pub(crate) resource: usize,
    pub(crate) from: i64,
    pub(crate) until: i64,
    /// The steps that can't avoid that time.
    pub(crate) steps: Vec<usize>,
}

/// The least finish that is not refuted, up to one that is known to be possible.
pub(crate) fn least(problem: &Problem, earliest: &[i64], most: i64) -> Least {
    let alone = problem.finish(earliest);
    let (mut low, mut high, mut why) = (alone, most, Why::Alone);
    // All below `low` is refuted, `low - 1` by `why`; `high` is not.
    while low < high {
        let middle = low + (high - low) / 2;
        match refuted(problem, earliest, middle) {
            Some(found) => (low, why) = (middle + 1, found),
            None => high = middle,
        }
    }
    Least { finish: low, why }
}

/// Why all can't be over by a finish, if that shows.
pub(crate) fn refuted(problem: &Problem, earliest: &[i64], finish: i64) -> Option<Why> {
    let Some(latest) = problem.latest(finish) else {
        return Some(Why::Alone);
    };
    if earliest.iter().zip(&latest).any(|(e, l)| e > l) {
        return Some(Why::Alone);
    }
    let overloads = (0..problem.left.len()).find_map(|r| overload(problem, r, earliest, &latest));
    overloads.map(Why::Work)
}

/// Two times between which steps must do more on a resource than is left of it.
pub(crate) fn overload(
    problem: &Problem,
    resource: usize,
    earliest: &[i64],
    latest: &[i64],
) -> Option<Work> {
    let mut users: Vec<(i64, i64, i128, usize)> = (0..problem.len())
        .filter_map(|step| {
            let (_, units) = problem.needs[step].iter().find(|(r, _)| *r == resource)?;
            let lasts = problem.lasts[step];
            // What is due at no time fills none.
            (latest[step] < NEVER / 4).then_some((
                latest[step] + lasts,
                earliest[step],
                i128::from(lasts) * i128::from(*units),
                step,
            ))
        })
        .collect();
    users.sort_unstable();
    let mut times: Vec<i64> = users
        .iter()
        .flat_map(|&(due, from, ..)| [due, from])
        .collect();
    times.sort_unstable();
    times.dedup();
    let sums = problem.left[resource].work(&times);
    let sum_at = |time: i64| {
        let place = times.partition_point(|&other| other < time);
        sums.get(place).copied().unwrap_or(i128::MAX)
    };
    let sums_due: Vec<i128> = users.iter().map(|&(due, ..)| sum_at(due)).collect();
    let mut begins: Vec<i64> = users.iter().map(|&(_, from, ..)| from).collect();
    begins.sort_unstable();
    begins.dedup();
    for from in begins {
        let before = sum_at(from);
        let mut work = 0;
        for (&(due, begins, energy, _), sum) in users.iter().zip(&sums_due) {
            if begins < from {
                continue;
            }
            work += energy;
            if work > sum - before {
                let inside = users
                    .iter()
                    .filter(|(d, b, ..)| *b >= from && *d <= due)
                    .map(|&(.., step)| step);
                return Some(Work {
                    resource,
                    from,
                    until: due,
                    steps: inside.collect(),
                });
            }
        }
    }
    None
}
