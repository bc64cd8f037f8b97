//! How far the work has come.

use crate::error::time;
use crate::{Error, Pace, Plan};

/// How far one step has come. Times are in seconds from the origin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Progress {
    /// Not begun.
    #[default]
    NotStarted,
    /// Begun and not ended.
    Running {
        /// When it began.
        began: i64,
    },
    /// Begun and ended.
    Done {
        /// When it began.
        began: i64,
        /// When it ended.
        ended: i64,
    },
    /// Done at an unknown time before the origin, and nobody saw it. A lag after it is counted from
    /// the origin, which is the safe side; every other rule on it can't be judged and is left out.
    DoneBefore,
    /// Left off for now, on purpose. It takes no time and holds nobody up, its lags and clocks rest,
    /// but what comes before it still comes before what comes after it. A step that must not go
    /// ahead without it is the caller's closed gate.
    Deferred,
}

/// What has happened, and what time it is.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `now` | seconds from the origin | `s` |
/// | `pace` | which durations to count with | |
/// | `finish` | when all is wanted to be done, if asked | `s` |
/// | `progress` | how far each step has come | |
/// | `closed` | the steps that stand before a closed gate | |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Situation {
    /// Seconds from the origin.
    pub now: i64,
    /// Which durations to count with.
    pub pace: Pace,
    /// When all is wanted to be done, if asked. It gives every step a latest start.
    pub finish: Option<i64>,
    /// How far each step has come.
    pub progress: Vec<Progress>,
    /// The steps that stand before a closed gate: a result not accepted, a part or tool not there.
    pub closed: Vec<usize>,
}

impl Situation {
    /// Nothing has happened yet, at the origin.
    pub fn fresh(plan: &Plan) -> Self {
        Self {
            now: 0,
            pace: Pace::default(),
            finish: None,
            progress: vec![Progress::default(); plan.steps().len()],
            closed: Vec::new(),
        }
    }

    /// Refuses what cannot have happened.
    pub(crate) fn check(&self, plan: &Plan) -> Result<(), Error> {
        let now = time(self.now)?;
        self.finish.map(time).transpose()?;
        let (given, steps) = (self.progress.len(), plan.steps().len());
        if given != steps {
            return Err(Error::Count { given, steps });
        }
        if let Some(&step) = self.closed.iter().find(|step| **step >= steps) {
            return Err(Error::NoSuchStep { step, steps });
        }
        for (step, progress) in self.progress.iter().enumerate() {
            let (began, ended) = match *progress {
                Progress::Running { began } => (began, began),
                Progress::Done { began, ended } => (began, ended),
                Progress::NotStarted | Progress::DoneBefore | Progress::Deferred => continue,
            };
            time(began)?;
            time(ended)?;
            if ended < began {
                return Err(Error::EndsFirst { step, began, ended });
            }
            if ended > now {
                return Err(Error::NotYet {
                    step,
                    time: ended,
                    now,
                });
            }
        }
        Ok(())
    }
}
