//! What a page can ask to be done.

/// The acts a page can send.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormName {
    /// Open a job.
    Open,
    /// Describe the pump.
    Pump,
    /// Describe the leaves.
    Leaves,
    /// State the limits.
    Limits,
    /// Choose the order of trying.
    Walk,
    /// One leaf at one spot.
    Try,
    /// A whole reading at one spot.
    Reading,
    /// Take the result.
    Accept,
    /// Describe a joint.
    Joint,
    /// Count the screws of a joint.
    Fasten,
    /// Begin a step.
    Begin,
    /// A step is done.
    Done,
    /// A step was done before.
    Before,
    /// Leave a step off.
    Defer,
    /// Go ahead before a gate opens.
    GoAhead,
    /// Count the fasteners of a step.
    Fasteners,
    /// Where a part is.
    Part,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
}

impl FormName {
    /// All of them.
    pub const ALL: [Self; 19] = [
        Self::Open,
        Self::Pump,
        Self::Leaves,
        Self::Limits,
        Self::Walk,
        Self::Try,
        Self::Reading,
        Self::Accept,
        Self::Joint,
        Self::Fasten,
        Self::Begin,
        Self::Done,
        Self::Before,
        Self::Defer,
        Self::GoAhead,
        Self::Fasteners,
        Self::Part,
        Self::Undo,
        Self::Redo,
    ];

    /// The word for it in addresses.
    pub fn key(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Pump => "pump",
            Self::Leaves => "leaves",
            Self::Limits => "limits",
            Self::Walk => "walk",
            Self::Try => "try",
            Self::Reading => "reading",
            Self::Accept => "accept",
            Self::Joint => "joint",
            Self::Fasten => "fasten",
            Self::Begin => "begin",
            Self::Done => "done",
            Self::Before => "before",
            Self::Defer => "defer",
            Self::GoAhead => "go-ahead",
            Self::Fasteners => "fasteners",
            Self::Part => "part",
            Self::Undo => "undo",
            Self::Redo => "redo",
        }
    }
}
