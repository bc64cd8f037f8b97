//! Steps and the time between them: windows, contradictions explained, what is ready.
//!
//! Rebuilding a pump is full of waiting and of not waiting: a painted nozzle must dry before it is
//! fitted, and a joint must be bolted down before its sealant skins. Every such rule, with the time
//! each step takes and with what has already happened, is a difference between two points in time:
//!
//! `b - a >= w`
//!
//! | symbol | meaning | unit |
//! |--------|---------|------|
//! | a, b | start or end of a step, or the origin | `s` |
//! | w | least time from a to b; below zero, the most time from b to a | `s` |
//!
//! A set of these is a simple temporal network (`dechter-1991`). Longest paths from the origin and
//! back to it give the [`Window`] of every step; a ring whose weights sum to more than nothing is a
//! [`Contradiction`], and since the ring is simple, no part of it can be spared.
//!
//! 1. [`Plan`] holds the steps and the rules and refuses what makes no sense by itself.
//! 2. [`Situation`] tells what has happened and what time it is.
//! 3. [`Network`] joins both: [`windows`](Network::windows), [`ready`](Network::ready),
//!    [`clocks`](Network::clocks), [`look_ahead`](Network::look_ahead).
//!
//! 4. [`Resources`] are hands and tools, how many and when away. With them: [`schedule`], fast and with
//!    a bound; [`prove`], the best there is; [`shortage`], what can't be met and what would mend it;
//!    [`look_ahead_with`]; and how likely all is over by a time, [`pert`] and [`tries`].
//!
//! [`schedule`]: Network::schedule
//! [`prove`]: Network::prove
//! [`shortage`]: Network::shortage
//! [`look_ahead_with`]: Network::look_ahead_with
//! [`pert`]: Network::pert
//! [`tries`]: Network::tries
//!
//! Times are whole seconds from an origin the caller chooses; zones and the clock are the caller's.
//! Steps, rules and resources are named by their place in the lists, and what they are called is the
//! caller's too. How the search works is told in `docs/theory/planning.md`.
//!
//! ```
//! use assembly::{Ask, Network, Plan, Rule, Situation, Source, Step};
//!
//! // Spread sealant, align, close; bolted down ten minutes after spreading at the latest.
//! let steps = [300, 360, 480].map(Step::lasting).to_vec();
//! let plan = Plan::new(steps, vec![
//!     Rule::negotiable(Ask::After { first: 0, then: 1, lag: 0 }),
//!     Rule::negotiable(Ask::After { first: 1, then: 2, lag: 0 }),
//!     Rule::physics(Ask::FinishedWithin { first: 0, then: 2, most: 600 }),
//! ])?;
//! let fresh = Situation::fresh(&plan);
//! let found = Network::new(&plan, &fresh)?.windows().unwrap_err();
//! assert_eq!(found[0].short_by, 240);
//! let limit = found[0].parts.last().unwrap();
//! assert_eq!((limit.source, limit.change, limit.offered), (Source::Rule(2), Some(840), false));
//! # Ok::<(), assembly::Error>(())
//! ```
//!
//! # Why the longest paths are our own
//!
//! A graph library answers with the points of a ring. Between two points there may be several rules,
//! and a person must be told which one to give, so the edges are what matters; they must be whole
//! numbers, for which the common library offers no search for a ring at all. What is left to write
//! is one queue.

mod ahead;
mod bench;
mod bound;
mod chance;
mod contradiction;
mod engine;
mod error;
mod feasible;
mod graph;
mod greedy;
mod improve;
mod network;
mod plan;
mod problem;
mod profile;
mod prove;
mod resources;
mod schedule;
mod shortage;
mod situation;

pub use ahead::{Ahead, Continuation, Fit, LookAhead};
pub use bench::{Clock, Deadline, Readiness, Wait};
pub use chance::{Chance, Pert, mean, variance};
pub use contradiction::{Contradiction, Part, Source};
pub use error::Error;
pub use network::{Broken, Network, Window};
pub use plan::{Ask, Firmness, Pace, Plan, Rule, Step};
pub use prove::SoFar;
pub use resources::{Away, Demand, Resource, Resources};
pub use schedule::{LeftOut, Limit, NoSchedule, Schedule};
pub use shortage::{Missing, Shortage, Want};
pub use situation::{Progress, Situation};
