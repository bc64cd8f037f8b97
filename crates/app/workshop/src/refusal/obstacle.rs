//! Why something about the plan and its steps is not taken.

use std::fmt;

/// Names are the person's own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// There is no plan.
    NoPlan,
    /// A plan to be laid where there is one.
    PlanThere {
        /// The plan that is there.
        plan: String,
    },
    /// Another plan than the one that was looked at.
    PlanChanged,
    /// A step of which something was said, to be taken off the plan.
    HasHistory {
        /// The step.
        step: String,
    },
    /// A part that is needed, to be taken off the plan.
    Needed {
        /// The part.
        part: String,
        /// A step that needs it.
        step: String,
    },
    /// A step the plan does not have.
    NoSuchStep {
        /// The key asked for.
        key: String,
    },
    /// A part the plan does not have.
    NoSuchPart {
        /// The key asked for.
        key: String,
    },
    /// A tool the plan does not have.
    NoSuchTool {
        /// The key asked for.
        key: String,
    },
    /// A thing to account for that the plan does not have.
    NoSuchItem {
        /// The key asked for.
        key: String,
    },
    /// More of a thing, or of a tool, than there are.
    TooManyItems {
        /// Its name.
        item: String,
        /// How many were told of.
        count: u16,
        /// How many there are.
        of: u16,
    },
    /// A reason why some are missing, where none are.
    NoneMissing {
        /// Its name.
        item: String,
        /// How many there are.
        of: u16,
    },
    /// A thing of which something was told, to be taken off the list.
    ToldOf {
        /// Its name.
        item: String,
    },
    /// A step to be done again that was never begun.
    NotBegun {
        /// The step.
        step: String,
    },
    /// A step left off until another ends, which waits for it in turn.
    WaitsForItself {
        /// The step.
        step: String,
        /// The other.
        until: String,
    },
    /// No hours that can be read.
    NoHours {
        /// As written.
        text: String,
    },
    /// Two steps or two parts of a plan with the same key.
    Twice {
        /// The key.
        key: String,
    },
    /// A rule from a step to itself.
    ToItself {
        /// The step.
        step: String,
    },
    /// Steps that come after one another in a ring.
    Ring {
        /// The steps, in that order.
        steps: Vec<String>,
    },
    /// A step may not begin yet.
    Waits {
        /// The step.
        step: String,
        /// Why, each in words.
        why: Vec<String>,
    },
    /// A step that has begun and is not done.
    Running {
        /// The step.
        step: String,
    },
    /// A step that is done.
    Done {
        /// The step.
        step: String,
    },
    /// A step done again, on which another rests already.
    Followed {
        /// The step.
        step: String,
        /// The one that rests on it.
        by: String,
    },
    /// A step done before it was begun, by the clock.
    EndsFirst {
        /// The step.
        step: String,
        /// When it began.
        began: String,
        /// When it was said to be done.
        ended: String,
    },
    /// Something told that is still to come.
    Future {
        /// When it is said to have happened.
        at: String,
    },
    /// A step whose fasteners are not counted.
    NoFasteners {
        /// The step.
        step: String,
    },
    /// More fasteners than there are.
    TooMany {
        /// How many were counted.
        count: u16,
        /// How many there are.
        of: u16,
    },
    /// More that stand in than are in at all.
    TooManyTemporary {
        /// How many are said to stand in.
        temporary: u16,
        /// How many are in.
        count: u16,
    },
    /// A step that takes no fastener that only stands in.
    NotTemporary {
        /// The step.
        step: String,
    },
    /// A gate that is not there or not closed.
    NoGate {
        /// The step.
        step: String,
    },
    /// No time that can be read.
    NoTime {
        /// As written.
        text: String,
    },
    /// No day that can be read.
    NoDay {
        /// As written.
        text: String,
    },
}

impl fmt::Display for Obstacle {
    #[expect(
        clippy::too_many_lines,
        reason = "one sentence per variant, read as a list"
    )]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPlan => f.write_str("Lay a plan first: there is none in this job."),
            Self::PlanThere { plan } => write!(
                f,
                "This job has a plan already, “{plan}”, and it stays. Change it on its Plan page, \
                 undo what laid it, or begin another job."
            ),
            Self::PlanChanged => f.write_str(
                "The plan was changed meanwhile. Look at it as it is now, and send this again if it \
                 still holds.",
            ),
            Self::HasHistory { step } => write!(
                f,
                "Something was said of “{step}” already, so it stays in the plan. Undo that first, \
                 or leave the step off with a reason."
            ),
            Self::Needed { part, step } => write!(
                f,
                "“{step}” needs “{part}”. Say that step without it first."
            ),
            Self::NoSuchStep { key } => write!(
                f,
                "The plan has no step “{key}”. Name one of its steps, or add it to the plan."
            ),
            Self::NoSuchPart { key } => write!(
                f,
                "The plan has no part “{key}”. Name one of its parts, or add it to the plan."
            ),
            Self::NoSuchTool { key } => write!(
                f,
                "The plan has no tool “{key}”. Name one of its tools, or add it to the plan."
            ),
            Self::NoSuchItem { key } => write!(
                f,
                "The plan has nothing “{key}” to account for. Name one of its things, or add it \
                 to the plan."
            ),
            Self::TooManyItems { item, count, of } => write!(
                f,
                "{count} of “{item}” are too many: the plan has {of}. Count again, or say in the \
                 plan how many there are."
            ),
            Self::NoneMissing { item, of } => write!(
                f,
                "All {of} of “{item}” are accounted for, so nothing needs a reason. Leave the \
                 reason out, or count again."
            ),
            Self::ToldOf { item } => write!(
                f,
                "Something was told of “{item}” already, so it stays on the list. Undo that first, \
                 or leave it out with a reason."
            ),
            Self::NotBegun { step } => write!(
                f,
                "“{step}” was never begun, so it cannot be done again. Begin it."
            ),
            Self::WaitsForItself { step, until } => write!(
                f,
                "“{step}” cannot be left off until “{until}” is done: “{until}” waits for “{step}” \
                 in turn, so neither would ever be done. Name another step, or say in words what \
                 ends it."
            ),
            Self::NoHours { text } => write!(
                f,
                "“{text}” are no hours. Write days and times, such as mon-fri 18:00-21:00; sat \
                 9:00-17:00."
            ),
            Self::Twice { key } => write!(f, "“{key}” is in the plan twice. Rename one."),
            Self::ToItself { step } => {
                write!(f, "A rule ties “{step}” to itself. Name two steps.")
            }
            Self::Ring { steps } => write!(
                f,
                "These steps wait for one another in a ring: {}. Take one of the rules out.",
                steps.join(" → ")
            ),
            Self::Waits { step, why } => {
                write!(f, "“{step}” may not begin yet: {}.", why.join("; "))
            }
            Self::Running { step } => write!(
                f,
                "“{step}” has begun. Say that it is done, or undo its beginning."
            ),
            Self::Done { step } => write!(
                f,
                "“{step}” is done already. To do it again, begin it again."
            ),
            Self::Followed { step, by } => write!(
                f,
                "“{step}” cannot begin again: “{by}”, which rests on it, has begun. Undo that \
                 first, or say that it must be done again too."
            ),
            Self::EndsFirst { step, began, ended } => write!(
                f,
                "“{step}” began at {began} and cannot be done at {ended}. Check the clock of this \
                 device."
            ),
            Self::Future { at } => write!(
                f,
                "{at} is still to come, so nothing can have happened then. Check the clock, or \
                 mend the time."
            ),
            Self::NoFasteners { step } => write!(
                f,
                "“{step}” has no fasteners to count. State in the plan how many there are."
            ),
            Self::TooMany { count, of } => {
                write!(f, "{count} are too many: there are {of}. Count again.")
            }
            Self::TooManyTemporary { temporary, count } => write!(
                f,
                "{temporary} cannot stand in where {count} are in. Count again."
            ),
            Self::NotTemporary { step } => write!(
                f,
                "“{step}” takes the right fasteners only. Count without those that stand in."
            ),
            Self::NoGate { step } => write!(
                f,
                "“{step}” stands before no closed gate. Begin it without a reason."
            ),
            Self::NoTime { text } => write!(
                f,
                "“{text}” is no time. Write it with its zone, such as \
                 2026-05-09T14:30:00+02:00[Europe/Berlin]."
            ),
            Self::NoDay { text } => {
                write!(f, "“{text}” is no day. Write it as 2026-05-09.")
            }
        }
    }
}
