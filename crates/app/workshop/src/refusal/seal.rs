//! Why something about compounds, seals and metals is not taken.

use std::fmt;

use joint::compound::Compound;
use joint::meets::Rule;

use crate::seals::Age;

/// What spoils a joint, or makes no sense.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seal {
    /// A compound past its shelf life.
    Stale {
        /// How old it is and how long it keeps.
        age: Age,
    },
    /// Two things that must not meet.
    Clash {
        /// The rule they break.
        rule: Rule,
    },
    /// A compound that is neither a class nor described.
    NoSuchCompound {
        /// As typed.
        key: String,
    },
    /// A compound of the person's own under the word of a class.
    ClassName {
        /// The word.
        key: String,
    },
    /// A compound that does not belong on a thread.
    NotForThreads {
        /// Its class.
        class: Compound,
    },
    /// A compound that is not laid as a bead.
    NotForFaces {
        /// Its class.
        class: Compound,
    },
    /// Something else than the joint's condition says.
    OtherOnThread {
        /// What is said now.
        class: Compound,
        /// The condition, as its word.
        condition: &'static str,
    },
    /// An activator where nothing waits for one.
    NoActivator {
        /// The class.
        class: Compound,
    },
    /// A bead between faces that have none.
    NoSealantThere,
    /// A figure of a cure that the class does not have.
    OtherCure {
        /// The field it stands in.
        field: &'static str,
        /// The class.
        class: Compound,
    },
}

impl Seal {
    /// The field it stands in, where it stands in one.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::Stale { .. } => Some("made"),
            Self::OtherCure { field, .. } => Some(field),
            Self::NoActivator { .. } => Some("primed"),
            Self::ClassName { .. } => Some("name"),
            Self::Clash { .. }
            | Self::NoSuchCompound { .. }
            | Self::NotForThreads { .. }
            | Self::NotForFaces { .. }
            | Self::OtherOnThread { .. }
            | Self::NoSealantThere => Some("with"),
        }
    }

    /// What was refused, as typed.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::NoSuchCompound { key } => Some(key),
            _ => None,
        }
    }
}

impl fmt::Display for Seal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stale { age } => write!(
                f,
                "It is {} days old and surely keeps {} days. Take a fresh one, or give the shelf life of \
                 its own data sheet.",
                age.days, age.keeps
            ),
            Self::Clash { rule } => {
                let [one, other] = rule.pair;
                write!(f, "Here {one} would meet {other}")?;
                if let Some(with) = rule.with {
                    write!(f, " in {with}")?;
                }
                write!(
                    f,
                    ", and they must not: {}. Take another compound, or change first what is said \
                     of the joint.",
                    rule.harm
                )
            }
            Self::NoSuchCompound { key } => write!(
                f,
                "There is no compound “{key}” here. Take one of the list, or describe yours by its \
                 data sheet first."
            ),
            Self::ClassName { key } => write!(
                f,
                "“{key}” is the word for a whole class of compounds. Give yours a name of its own."
            ),
            Self::NotForThreads { class } => write!(
                f,
                "On a thread {class} has no business. Take grease, anti-seize, threadlocker or PTFE \
                 paste."
            ),
            Self::NotForFaces { class } => write!(
                f,
                "A bead is not laid of {class}. Take a sealant: silicone, polyurethane, hybrid \
                 polymer, flange sealant or epoxy."
            ),
            Self::OtherOnThread { class, condition } => write!(
                f,
                "The joint is described with “{condition}” on the thread, and its torque is reckoned \
                 so; {class} is something else. Change what was described first."
            ),
            Self::NoActivator { class } => write!(
                f,
                "Nothing in {class} waits for an activator. Say no, or say which threadlocker it is."
            ),
            Self::NoSealantThere => f.write_str(
                "This joint is described without sealant between its faces. Change what was \
                 described first.",
            ),
            Self::OtherCure { field, class } => {
                let other = match *field {
                    "cure_depth" => {
                        "does not cure from its edges inward, so it has no depth in a \
                                     day. Empty this; give the time to full strength, if its sheet \
                                     has one"
                    }
                    _ => {
                        "has no time to full strength that holds for every width. Empty this; \
                          give the depth cured in the first day, if its sheet has one"
                    }
                };
                write!(f, "A compound of this kind, {class}, {other}.")
            }
        }
    }
}
