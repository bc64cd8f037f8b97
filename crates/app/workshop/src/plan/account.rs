//! What is told of a thing to account for: how many are where they belong, and why the rest is not.

/// Where the things of an item, or the tools of a name, are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Account {
    /// How many are in their place; off the craft again, where they are temporary; back on the wall,
    /// where they are tools.
    pub count: u16,
    /// Why the others are not.
    pub missing: Option<Excuse>,
}

/// Why something is left out or left off: a ready-made reason, words, or both.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Excuse {
    /// The ready-made reason.
    pub ready: Ready,
    /// The person's own words; empty while they are still to be written.
    pub words: String,
}

/// The ready-made reasons: one tap with dirty hands, text later.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ready {
    /// This craft has none.
    NotOnCraft,
    /// It is on order.
    OnOrder,
    /// Another step comes first.
    WaitsForStep,
    /// It is broken and will be replaced.
    Broken,
    /// It is left off for the trial.
    Trial,
    /// Something else, in own words.
    OwnWords,
}

impl Ready {
    /// All, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::NotOnCraft,
        Self::OnOrder,
        Self::WaitsForStep,
        Self::Broken,
        Self::Trial,
        Self::OwnWords,
    ];

    /// As it is said: `part on order`.
    pub fn said(self) -> &'static str {
        match self {
            Self::NotOnCraft => "not on this craft",
            Self::OnOrder => "part on order",
            Self::WaitsForStep => "waits for another step",
            Self::Broken => "broken, to be replaced",
            Self::Trial => "left off for the trial",
            Self::OwnWords => "own words",
        }
    }

    /// What ends it, where nobody said.
    pub fn release(self) -> &'static str {
        match self {
            Self::NotOnCraft => "nothing: this craft has none",
            Self::OnOrder => "the part is here",
            Self::WaitsForStep => "the other step is done",
            Self::Broken => "it is replaced",
            Self::Trial => "the trial is over",
            Self::OwnWords => "",
        }
    }
}

impl Excuse {
    /// Own words and nothing else.
    pub fn own(words: impl Into<String>) -> Self {
        let (ready, words) = (Ready::OwnWords, words.into());
        Self { ready, words }
    }

    /// A ready-made reason whose words are still to be written.
    pub fn owed(&self) -> bool {
        self.words.trim().is_empty()
    }

    /// `part on order: the ring, from the dealer`.
    pub fn said(&self) -> String {
        match (self.ready, self.owed()) {
            (Ready::OwnWords, _) => self.words.clone(),
            (ready, true) => ready.said().to_owned(),
            (ready, false) => format!("{}: {}", ready.said(), self.words),
        }
    }
}

impl From<&str> for Excuse {
    fn from(words: &str) -> Self {
        Self::own(words)
    }
}

impl From<String> for Excuse {
    fn from(words: String) -> Self {
        Self::own(words)
    }
}
