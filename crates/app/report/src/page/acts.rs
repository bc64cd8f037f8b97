//! What a page can ask to be done.

use workshop::draft::inspect::Sheet;

/// The acts a page can send.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormName {
    /// Pair the device that asks.
    Pair,
    /// Ask for a pairing number.
    PairingNumber,
    /// Give a device another name.
    RenameDevice,
    /// Remove a device.
    RemoveDevice,
    /// Open a job.
    Open,
    /// Bring the archive of a job in.
    Archive,
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
    /// Describe a joint that is no circle of screws.
    Fit,
    /// Tick what is done of it.
    FitCheck,
    /// Begin a step.
    Begin,
    /// A step is done.
    Done,
    /// A step was done before.
    Before,
    /// Leave a step off.
    Defer,
    /// A step must be done again.
    Again,
    /// How long a step will take after all.
    Estimate,
    /// Who works, and when.
    Crew,
    /// Go ahead before a gate opens.
    GoAhead,
    /// Count the fasteners of a step.
    Fasteners,
    /// Where a part is.
    Part,
    /// Parts that are at hand, several at once.
    Parts,
    /// Lay the usual plan.
    Usual,
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
    /// Add a thing to account for to the plan.
    NewItem,
    /// Take one off.
    ItemOff,
    /// Add a tool to the plan.
    NewTool,
    /// Take one off.
    ToolOff,
    /// Where a thing to account for is.
    Item,
    /// How many tools are back.
    Tools,
    /// The rotor on the dial and in the hand.
    Rotor,
    /// A leak test.
    Leak,
    /// A bar slid in.
    AlignSlides,
    /// Gaps round a bar.
    AlignBar,
    /// Dials on rim and face.
    AlignDials,
    /// Note a finding.
    Finding,
    /// A finding is dealt with.
    Settle,
    /// Diameters of ring and impeller.
    Sizes,
    /// What the ring is.
    Ring,
    /// A conical ring and its shims.
    Cone,
    /// The gap once more.
    Reread,
    /// A visit at some engine hours.
    Visit,
    /// Describe a torque wrench.
    Wrench,
    /// Choose the wrench of a joint.
    Tool,
    /// Measure the hole of a joint.
    Hole,
    /// Say what sort of joint it is.
    Role,
    /// The water, and the air at the bench.
    Around,
    /// A compound by its own data sheet.
    Compound,
    /// What is on a thread.
    OnThread,
    /// A bead on a face.
    Seal,
    /// The metals of a joint.
    Contact,
    /// Take photos.
    Photo,
    /// Say what a photo shows.
    Caption,
    /// Take a photo out of the record.
    PutAway,
    /// Put something on the as-found record.
    AsFound,
    /// Say where a part, a consumable or a tool is.
    Supply,
    /// Add one by hand.
    NewSupply,
    /// Describe a time on the water.
    Outing,
    /// Read a log.
    Log,
    /// Put a log away.
    LogOff,
    /// Add a run by hand.
    Run,
    /// Leave a run out.
    RunOff,
    /// Back to the runs that were found.
    RunsFound,
    /// Type in a figure read off.
    Figure,
    /// Take a figure away.
    FigureOff,
    /// Take what the trial shows as its result.
    TakeTrial,
    /// Describe the craft.
    Craft,
    /// Name something that could be fitted.
    Option,
    /// Put such a thing away.
    OptionOff,
    /// Say what is wanted.
    Wish,
    /// Steady readings at part throttle.
    Steadies,
    /// Put on record that an option is fitted.
    TakeOption,
    /// Say which outing falls short.
    Suspect,
    /// Say what was heard and seen.
    Symptoms,
    /// Say what a check showed.
    Checked,
    /// Say that the craft can't start, or that it may again.
    Safe,
    /// Take a cause as found.
    TakeCause,
    /// Say how the craft is used.
    Usage,
    /// Describe a sort of part.
    Sort,
    /// Put one away.
    SortOff,
    /// Tell of a piece of such a sort.
    Piece,
    /// Put one away.
    PieceOff,
    /// Read the hour meter.
    Meter,
    /// Tell of a mishap.
    Mishap,
    /// Say when a task falls due.
    TaskRule,
    /// Go back to general practice, or put away a task of one's own.
    TaskRuleOff,
    /// A task of the upkeep is done.
    TaskDone,
    /// A point of the recheck was looked at.
    Recheck,
    /// Close the job.
    CloseJob,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
}

impl FormName {
    /// All of them, with the word for each in addresses.
    pub const ALL: [(Self, &'static str); 104] = [
        (Self::Pair, "pair"),
        (Self::PairingNumber, "pairing-number"),
        (Self::RenameDevice, "rename-device"),
        (Self::RemoveDevice, "remove-device"),
        (Self::Open, "open"),
        (Self::Archive, "archive"),
        (Self::Pump, "pump"),
        (Self::Leaves, "leaves"),
        (Self::Limits, "limits"),
        (Self::Walk, "walk"),
        (Self::Try, "try"),
        (Self::Reading, "reading"),
        (Self::Accept, "accept"),
        (Self::Joint, "joint"),
        (Self::Fasten, "fasten"),
        (Self::Fit, "fit"),
        (Self::FitCheck, "fit-check"),
        (Self::Begin, "begin"),
        (Self::Done, "done"),
        (Self::Again, "again"),
        (Self::Estimate, "estimate"),
        (Self::Crew, "crew"),
        (Self::Before, "before"),
        (Self::Defer, "defer"),
        (Self::GoAhead, "go-ahead"),
        (Self::Fasteners, "fasteners"),
        (Self::Part, "part"),
        (Self::Parts, "parts"),
        (Self::Usual, "usual"),
        (Self::NewStep, "new-step"),
        (Self::PlanStep, "plan-step"),
        (Self::StepOff, "step-off"),
        (Self::NewRule, "new-rule"),
        (Self::RuleOff, "rule-off"),
        (Self::NewPart, "new-part"),
        (Self::PartOff, "part-off"),
        (Self::PlanName, "plan-name"),
        (Self::NewItem, "new-item"),
        (Self::ItemOff, "item-off"),
        (Self::NewTool, "new-tool"),
        (Self::ToolOff, "tool-off"),
        (Self::Item, "item"),
        (Self::Tools, "tools"),
        (Self::Rotor, "rotor"),
        (Self::Leak, "leak"),
        (Self::AlignSlides, "align-slides"),
        (Self::AlignBar, "align-bar"),
        (Self::AlignDials, "align-dials"),
        (Self::Finding, "finding"),
        (Self::Settle, "settle"),
        (Self::Sizes, "sizes"),
        (Self::Ring, "ring"),
        (Self::Cone, "cone"),
        (Self::Reread, "reread"),
        (Self::Visit, "visit"),
        (Self::Wrench, "wrench"),
        (Self::Tool, "tool"),
        (Self::Hole, "hole"),
        (Self::Role, "role"),
        (Self::Around, "around"),
        (Self::Compound, "compound"),
        (Self::OnThread, "on-thread"),
        (Self::Seal, "seal"),
        (Self::Contact, "contact"),
        (Self::Photo, "photo"),
        (Self::Caption, "caption"),
        (Self::PutAway, "put-away"),
        (Self::AsFound, "as-found"),
        (Self::Supply, "supply"),
        (Self::NewSupply, "new-supply"),
        (Self::Outing, "outing"),
        (Self::Log, "log"),
        (Self::LogOff, "log-off"),
        (Self::Run, "run"),
        (Self::RunOff, "run-off"),
        (Self::RunsFound, "runs-found"),
        (Self::Figure, "figure"),
        (Self::FigureOff, "figure-off"),
        (Self::TakeTrial, "take-trial"),
        (Self::Craft, "craft"),
        (Self::Option, "option"),
        (Self::OptionOff, "option-off"),
        (Self::Wish, "wish"),
        (Self::Steadies, "steadies"),
        (Self::TakeOption, "take-option"),
        (Self::Suspect, "suspect"),
        (Self::Symptoms, "symptoms"),
        (Self::Checked, "checked"),
        (Self::Safe, "safe"),
        (Self::TakeCause, "take-cause"),
        (Self::Usage, "usage"),
        (Self::Sort, "sort"),
        (Self::SortOff, "sort-off"),
        (Self::Piece, "piece"),
        (Self::PieceOff, "piece-off"),
        (Self::Meter, "meter"),
        (Self::Mishap, "mishap"),
        (Self::TaskRule, "task-rule"),
        (Self::TaskRuleOff, "task-rule-off"),
        (Self::TaskDone, "task-done"),
        (Self::Recheck, "recheck"),
        (Self::CloseJob, "close-job"),
        (Self::Undo, "undo"),
        (Self::Redo, "redo"),
    ];

    /// The word for it in addresses.
    pub fn key(self) -> &'static str {
        let known = Self::ALL.iter().find(|(name, _)| *name == self);
        known.map_or("", |(_, word)| word)
    }

    /// The act of this word.
    pub fn of(word: &str) -> Option<Self> {
        let known = Self::ALL.iter().find(|(_, known)| *known == word);
        known.map(|(name, _)| *name)
    }

    /// The sheet it fills, where it fills one.
    pub fn sheet(self) -> Option<Sheet> {
        Some(match self {
            Self::AsFound => Sheet::AsFound,
            Self::Supply | Self::NewSupply => Sheet::Supply,
            Self::Rotor => Sheet::Rotor,
            Self::Leak => Sheet::Leak,
            Self::AlignSlides | Self::AlignBar | Self::AlignDials => Sheet::Alignment,
            Self::Finding => Sheet::Finding,
            Self::Settle => Sheet::Settled,
            Self::Sizes => Sheet::Sizes,
            Self::Ring => Sheet::Ring,
            Self::Cone => Sheet::Cone,
            Self::Reread => Sheet::Reread,
            Self::Visit => Sheet::Visit,
            Self::Around => Sheet::Bench,
            Self::Compound => Sheet::Compound,
            Self::OnThread => Sheet::Thread,
            Self::Seal => Sheet::Seal,
            Self::Contact => Sheet::Contact,
            _ => return None,
        })
    }
}
