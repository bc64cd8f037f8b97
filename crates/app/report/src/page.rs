//! What every page and every command shows: the answer, the evidence, what to do next.
//!
//! A page holds words and pictures, already chosen and rounded. An edge renders it and words
//! nothing of its own.

mod acts;
pub mod archived;
pub mod assemble;
pub mod audit;
pub mod blank;
pub mod choose;
pub mod crossed;
pub mod devices;
pub mod diagnose;
pub mod forms;
pub(crate) mod frame;
pub mod history;
pub mod jobs;
pub mod label;
pub mod measure;
pub mod photos;
pub mod plan;
pub mod problem;
pub mod record;
mod runs;
pub mod service;
pub mod sheet;
pub mod since;
mod target;
pub mod teardown;
mod telling;
pub mod torque;
pub mod trust;
pub mod water;

pub use acts::FormName;
use maud::Markup;
pub(crate) use runs::row;
pub use runs::{flat, plain, soft, strong};
pub use target::Target;
use workshop::entry::JobId;

use self::choose::Try;
use self::crossed::Crossed;
use self::label::Label;
use self::photos::{Shot, Strip};

/// A page.
#[derive(Clone, Debug)]
pub struct Page {
    /// Name of the stage.
    pub title: String,
    /// The job it belongs to.
    pub heading: Option<Heading>,
    /// Where this page is, so that an act leads back to it; none for a page that takes no act of a job.
    pub here: Option<Target>,
    /// The working times that run.
    pub clocks: Vec<Clock>,
    /// The stages of the job.
    pub stages: Vec<Stage>,
    /// The answer.
    pub answer: Answer,
    /// The evidence, most telling first.
    pub evidence: Vec<Section>,
    /// What to do next.
    pub next: Next,
    /// What can hurt here.
    pub cautions: Vec<&'static str>,
}

/// A working time that runs: it is shown on every page of its job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clock {
    /// What must be done by when.
    pub words: String,
    /// The same time for a machine: `2026-05-09T12:32:00Z`.
    pub by: String,
    /// It has run out.
    pub over: bool,
}

/// The job a page belongs to.
#[derive(Clone, Debug)]
pub struct Heading {
    /// Its id.
    pub job: JobId,
    /// Craft and reason.
    pub title: String,
    /// Anything worth reading first.
    pub note: String,
    /// Last position of the journal that went into the page.
    pub position: u64,
    /// When the last entry happened: `14:02`.
    pub saved: String,
    /// What devices said without seeing each other.
    pub crossed: Vec<Crossed>,
}

/// One line of the list of stages.
#[derive(Clone, Debug)]
pub struct Stage {
    /// Its name.
    pub name: &'static str,
    /// Where it stands, in words.
    pub state: String,
    /// Where it leads.
    pub target: Target,
    /// Whether this page is it.
    pub here: bool,
}

/// How an answer stands; each has its own colour and its own shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// In tolerance, done.
    Good,
    /// Not decided.
    Open,
    /// Out, stop.
    Stop,
    /// Nothing to judge.
    Plain,
}

/// The answer of a page.
#[derive(Clone, Debug)]
pub struct Answer {
    /// How it stands.
    pub tone: Tone,
    /// One sentence a person would say aloud.
    pub headline: String,
    /// The number, its interval, the limit, the reason.
    pub detail: Vec<Run>,
    /// Where it comes from.
    pub origin: String,
}

/// A piece of running text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Run {
    /// As it is.
    Plain(String),
    /// Stressed: the number that matters.
    Strong(String),
    /// In softer ink: intervals, second units.
    Soft(String),
}

/// One piece of evidence.
#[derive(Clone, Debug)]
pub enum Section {
    /// A picture.
    Picture {
        /// Its heading.
        heading: String,
        /// The drawing.
        svg: Markup,
        /// What it shows, and what is exaggerated.
        caption: String,
    },
    /// The grid of readings.
    Grid(Grid),
    /// Named values, each with its origin.
    Facts {
        /// The heading.
        heading: String,
        /// The rows.
        rows: Vec<FactRow>,
    },
    /// A plain table.
    Table(Table),
    /// Sentences, one a line.
    Notes {
        /// The heading.
        heading: String,
        /// The sentences.
        notes: Vec<String>,
    },
    /// Things of a kind, each with how it stands, and the way to it.
    Links {
        /// The heading.
        heading: String,
        /// Target, words, and words in softer ink.
        links: Vec<(Target, String, String)>,
    },
    /// Ways to other pages: they tell nothing, and are left out on paper.
    Ways {
        /// The heading.
        heading: String,
        /// Target, words, and words in softer ink.
        links: Vec<(Target, String, String)>,
    },
    /// Links folded away: what is far off, or done.
    Folded {
        /// The heading.
        heading: String,
        /// How many there are.
        state: String,
        /// Target, words, and words in softer ink.
        links: Vec<(Target, String, String)>,
    },
    /// Lines in their order, folded away until they are wanted.
    List(List),
    /// What to do now, with all it takes.
    Step(Step),
    /// One thing of many, such as a joint: how it stands, its values, what to mind.
    Card(Card),
    /// Something to fill in, folded away unless it is what comes next.
    Form(Form),
    /// Why an act was not taken that no form on the page shows.
    Refused(String),
    /// Something to try without saying it.
    Try(Try),
    /// Photos side by side.
    Photos(Strip),
    /// One photo, large.
    Photo(Shot),
    /// A label for the pump, with the choices it is made by.
    Label(Box<Label>),
}

/// One thing of many.
#[derive(Clone, Debug)]
pub struct Card {
    /// Its name.
    pub heading: String,
    /// How it stands.
    pub tone: Tone,
    /// The same in words.
    pub state: String,
    /// Its values.
    pub rows: Vec<FactRow>,
    /// What to mind, most pressing first.
    pub notes: Vec<String>,
    /// What may be changed about it.
    pub forms: Vec<Form>,
}

/// Lines in their order: how something is done.
#[derive(Clone, Debug)]
pub struct List {
    /// What.
    pub heading: String,
    /// Whose word it is, in short.
    pub state: String,
    /// When it is done, and where it comes from.
    pub origin: String,
    /// What can hurt.
    pub cautions: Vec<&'static str>,
    /// A line a step.
    pub lines: Vec<String>,
}

/// What to do now, with all it takes; the question with its answers stands under [`Next`].
#[derive(Clone, Debug)]
pub struct Step {
    /// What to do.
    pub heading: String,
    /// What it takes.
    pub state: String,
    /// What to mind, most pressing first.
    pub notes: Vec<String>,
    /// How, and what comes of it.
    pub rows: Vec<FactRow>,
    /// Where its readings are taken.
    pub links: Vec<(Target, String)>,
    /// What may be said besides the answers.
    pub buttons: Vec<Button>,
    /// What may be told with more words.
    pub forms: Vec<Form>,
}

/// A named value with its origin.
#[derive(Clone, Debug)]
pub struct FactRow {
    /// What it is.
    pub name: String,
    /// How much.
    pub value: Vec<Run>,
    /// Where it comes from.
    pub origin: String,
    /// The field on the same page that says it otherwise.
    pub said_in: Option<(FormName, &'static str)>,
}

/// A plain table.
#[derive(Clone, Debug)]
pub struct Table {
    /// The heading.
    pub heading: String,
    /// Column heads.
    pub head: Vec<String>,
    /// Rows, the first cell being the row's name.
    pub rows: Vec<Vec<String>>,
    /// What it shows.
    pub caption: String,
}

/// The readings: a row a clock position, a column a blade, so that it fits a phone.
#[derive(Clone, Debug)]
pub struct Grid {
    /// The heading.
    pub heading: String,
    /// What stands in a cell.
    pub caption: String,
    /// The blades' letters.
    pub blades: Vec<String>,
    /// One row a clock position: its name and a cell a blade.
    pub rows: Vec<(String, Vec<Cell>)>,
}

/// One spot of the grid.
#[derive(Clone, Debug)]
pub struct Cell {
    /// Where it leads.
    pub target: Target,
    /// What the leaves say.
    pub text: String,
    /// How it stands.
    pub mark: CellMark,
    /// This spot is asked for now.
    pub next: bool,
    /// The whole of it in words, for a reader who does not see the grid.
    pub words: String,
}

/// How a spot stands; each has its own sign as well as its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CellMark {
    /// Not read, or no limit to hold it against.
    None,
    /// Within.
    In,
    /// Straddles a limit.
    Near,
    /// Beyond a limit.
    Out,
    /// Contradicts itself.
    Contradiction,
}

impl CellMark {
    /// The sign that goes with the colour.
    pub fn sign(self) -> &'static str {
        match self {
            Self::None => "",
            Self::In => "✓",
            Self::Near => "?",
            Self::Out => "✕",
            Self::Contradiction => "!",
        }
    }
}

/// What to do next.
#[derive(Clone, Debug)]
pub enum Next {
    /// A question with its answers as buttons, and a place to write instead.
    Ask {
        /// The question.
        question: Vec<Run>,
        /// The answers.
        buttons: Vec<Button>,
        /// A field to write into instead of pressing a button.
        write: Option<Form>,
    },
    /// A form to fill in.
    Fill(Form),
    /// Nothing to press: words, and where to go.
    Go {
        /// The words.
        words: Vec<Run>,
        /// Where to go.
        links: Vec<(Target, String)>,
    },
    /// A page that is made to be printed.
    Print {
        /// What to mind; may be empty.
        words: Vec<Run>,
        /// Where to go.
        links: Vec<(Target, String)>,
    },
}

/// The words on the button of a page that is made to be printed.
pub const PRINT: &str = "Print, or save as PDF";
/// What stands there where no script can print.
pub const PRINT_BY_MENU: &str = "Print this page, or save it as PDF, from the browser’s own menu.";

/// A button that does one act.
#[derive(Clone, Debug)]
pub struct Button {
    /// Its words.
    pub label: String,
    /// The form it sends.
    pub form: FormName,
    /// The values it sends.
    pub values: Vec<(&'static str, String)>,
    /// How much it weighs.
    pub weight: Weight,
    /// The key that presses it when no field has the focus.
    pub key: Option<char>,
}

/// How much a button weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// The likely answer.
    Main,
    /// Another answer.
    Plain,
    /// Undo and the like.
    Quiet,
}

/// Something to fill in.
#[derive(Clone, Debug)]
pub struct Form {
    /// Which act it asks for.
    pub name: FormName,
    /// The heading.
    pub heading: String,
    /// Why it is asked.
    pub intro: String,
    /// Answers that need no field: one tap each.
    pub quick: Vec<Button>,
    /// The fields.
    pub fields: Vec<Field>,
    /// Values sent along unseen.
    pub values: Vec<(&'static str, String)>,
    /// The words on the button.
    pub submit: String,
    /// A refusal that belongs to no field.
    pub refusal: Option<String>,
    /// Shown open.
    pub open: bool,
}

/// One field.
#[derive(Clone, Debug)]
pub struct Field {
    /// Its key.
    pub key: &'static str,
    /// Its label.
    pub label: String,
    /// What stands in it.
    pub value: String,
    /// The unit a bare number takes.
    pub unit: &'static str,
    /// What to write.
    pub hint: String,
    /// How it is filled.
    pub kind: FieldKind,
    /// Why what stands in it was refused.
    pub refusal: Option<String>,
}

/// How a field is filled.
#[derive(Clone, Debug)]
pub enum FieldKind {
    /// A number with a unit, typed or sent by a caliper.
    Number,
    /// Digits of a code: a keypad, and no unit.
    Digits,
    /// One line of text.
    Line,
    /// Several lines.
    Lines,
    /// The text of a file, pasted or chosen.
    File,
    /// One of a few: value and label.
    Choice(Vec<(String, String)>),
    /// Any of a few: value and label. What stands in the field is the values chosen, with spaces
    /// between.
    Many(Vec<(String, String)>),
    /// One of two or three, all in sight: value and label.
    Pick(Vec<(String, String)>),
    /// No field: a heading over those that follow.
    Group,
    /// Yes or no.
    Tick,
    /// Photos, from the camera or from what is kept.
    Photo,
    /// A log or an archive, a file of any length.
    Log,
}

/// A person's refused form, to be shown again as typed.
#[derive(Clone, Debug)]
pub struct Refused {
    /// Which form.
    pub form: FormName,
    /// Every field as typed.
    pub typed: Vec<(String, String)>,
    /// The field it belongs to, where it belongs to one.
    pub field: Option<&'static str>,
    /// Why.
    pub why: String,
}
