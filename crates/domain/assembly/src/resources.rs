//! Hands and tools: how many there are, when they are away, and which step holds how many.

use crate::error::time;
use crate::{Error, Plan};

/// A renewable resource: hands, a press, a pair of stands. A step holds what it demands from its
/// start to its end and gives it back; a lag (a cure, drying) holds nothing.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `capacity` | how many there are | |
/// | `away` | when some of them are not there | |
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Resource {
    /// How many there are.
    pub capacity: u32,
    /// When some of them are not there; in any order, and they may overlap.
    pub away: Vec<Away>,
}

impl Resource {
    /// So many, always there.
    pub fn of(capacity: u32) -> Self {
        Self {
            capacity,
            away: Vec::new(),
        }
    }
}

/// Some units of a resource are not there from a time until just before another. What is away
/// several times at once is away all the same; less than nothing is never left.
///
/// A step is not interrupted: it fits between. Units are alike, so that with two pairs of hands of
/// different shifts a step may pass from the one to the other; who minds makes two resources of them.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `from` | the first second they are not there | `s` |
/// | `until` | the first second they are back | `s` |
/// | `units` | how many | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Away {
    /// The first second they are not there.
    pub from: i64,
    /// The first second they are back.
    pub until: i64,
    /// How many.
    pub units: u32,
}

/// What one step holds of one resource while it lasts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Demand {
    /// The step.
    pub step: usize,
    /// The resource.
    pub resource: usize,
    /// How many.
    pub units: u32,
}

/// Resources and demands that make sense. Resources are named by their place in the list ever after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Resources {
    pub(crate) list: Vec<Resource>,
    /// Of each step: the resource and how many.
    pub(crate) needs: Vec<Vec<(usize, u32)>>,
}

impl Resources {
    /// Resources for the steps of a plan. Demands of one step on one resource add up. A demand that
    /// exceeds the capacity is no error: it is a shortage, and told as one.
    ///
    /// # Errors
    /// A step or a resource that isn't there, a time out of range, an absence that ends before it
    /// begins.
    pub fn new(plan: &Plan, list: Vec<Resource>, demands: &[Demand]) -> Result<Self, Error> {
        for (resource, given) in list.iter().enumerate() {
            for &away in &given.away {
                time(away.from)?;
                time(away.until)?;
                if away.until <= away.from {
                    return Err(Error::AwayBackwards { resource, away });
                }
            }
        }
        let steps = plan.steps().len();
        let mut needs: Vec<Vec<(usize, u32)>> = vec![Vec::new(); steps];
        for &Demand {
            step,
            resource,
            units,
        } in demands
        {
            if step >= steps {
                return Err(Error::NoSuchStep { step, steps });
            }
            if resource >= list.len() {
                let resources = list.len();
                return Err(Error::NoSuchResource {
                    resource,
                    resources,
                });
            }
            match needs[step].iter_mut().find(|(known, _)| *known == resource) {
                Some((_, sum)) => *sum = sum.saturating_add(units),
                None => needs[step].push((resource, units)),
            }
        }
        for needs in &mut needs {
            needs.retain(|(_, units)| *units > 0);
            needs.sort_unstable();
        }
        Ok(Self { list, needs })
    }

    /// No resources: only the rules count.
    pub fn none(plan: &Plan) -> Self {
        Self {
            list: Vec::new(),
            needs: vec![Vec::new(); plan.steps().len()],
        }
    }

    /// The resources.
    pub fn list(&self) -> &[Resource] {
        &self.list
    }

    /// What a step holds: resources and how many, in the order of the resources.
    pub fn needs(&self, step: usize) -> &[(usize, u32)] {
        self.needs.get(step).map_or(&[], Vec::as_slice)
    }
}
