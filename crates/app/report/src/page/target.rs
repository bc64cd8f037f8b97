//! Where a link of a page can lead.

use workshop::entry::{JobId, Key};
use workshop::job::Spot;
use workshop::photos::PhotoHash;

/// Where a link leads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// All jobs.
    Jobs,
    /// The devices that may come in.
    Devices,
    /// The bench's authority, as a file.
    Authority,
    /// Another address of this bench.
    Address(String),
    /// A job's teardown.
    Teardown(JobId),
    /// A job's Measure page.
    Measure(JobId),
    /// A job's Measure page, asking for this spot.
    Spot(JobId, Spot),
    /// A job's blank card, for pencil.
    Blank(JobId),
    /// A job's measuring record.
    Record(JobId),
    /// A job's plan.
    Assemble(JobId),
    /// A job's plan, asking for this step.
    Step(JobId, Key),
    /// A job's plan, for a person who has so many minutes.
    Have(JobId, i64),
    /// A job's account.
    Audit(JobId),
    /// A job's account, asking for this thing.
    Item(JobId, Key),
    /// A job's account, asking for this tool.
    Tool(JobId, Key),
    /// A job's plan, to change it.
    Plan(JobId),
    /// A job's plan, to change this step of it.
    PlanStep(JobId, Key),
    /// The card of a job's pump, as a file.
    Card(JobId),
    /// A job as a file.
    File(JobId),
    /// A job whole, as an archive.
    Archive(JobId),
    /// A job's joints.
    Torque(JobId),
    /// A job's build sheet.
    Sheet(JobId),
    /// A job's water tests.
    Water(JobId),
    /// What to fit on a job's craft.
    Choose(JobId),
    /// What is wrong with a job's craft.
    Diagnose(JobId),
    /// When a job's craft is opened again.
    Service(JobId),
    /// What falls due on a job's craft, as a calendar file.
    Calendar(JobId),
    /// A job's test card, to print.
    TestCard(JobId),
    /// A job's label for its pump, to print.
    Label(JobId),
    /// What a pump's label opens.
    History(JobId),
    /// A photo of a job, large.
    Photo(JobId, PhotoHash),
}
