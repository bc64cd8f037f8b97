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
    /// Add a step to the plan.
    NewStep,
    /// Say a step of the plan anew.
    PlanStep,
    /// Take a step off the plan.
    StepOff,
    /// Add a rule to the plan.
    NewRule,
    /// Take a rule out of the plan.
    RuleOff,
    /// Add a part to the plan.
    NewPart,
    /// Take a part off the plan.
    PartOff,
    /// Name the plan anew.
    PlanName,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
}

impl FormName {
    /// All of them.
    pub const ALL: [Self; 27] = [
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
        Self::NewStep,
        Self::PlanStep,
        Self::StepOff,
        Self::NewRule,
        Self::RuleOff,
        Self::NewPart,
        Self::PartOff,
        Self::PlanName,
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
            Self::NewStep => "new-step",
            Self::PlanStep => "plan-step",
            Self::StepOff => "step-off",
            Self::NewRule => "new-rule",
            Self::RuleOff => "rule-off",
            Self::NewPart => "new-part",
            Self::PartOff => "part-off",
            Self::PlanName => "plan-name",
            Self::Undo => "undo",
            Self::Redo => "redo",
        }
    }
}
