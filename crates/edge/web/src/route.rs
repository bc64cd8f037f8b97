//! Builds every address; no address is spelled anywhere else but in the router's table.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use report::page::{FormName, Target};
use workshop::entry::{JobId, Key};
use workshop::job::blade_name;
use workshop::photos::PhotoHash;

const PLAIN: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_');

/// Percent-encodes a text for a query or a cookie.
pub(crate) fn encode(text: &str) -> String {
    utf8_percent_encode(text, PLAIN).to_string()
}

/// Where a link of a page leads.
pub(crate) fn link(target: &Target) -> String {
    match target {
        Target::Jobs => "/".to_owned(),
        Target::Devices => "/devices".to_owned(),
        Target::Authority => "/authority.crt".to_owned(),
        Target::Address(address) => address.clone(),
        Target::Teardown(job) => format!("/job/{job}/teardown"),
        Target::Measure(job) => measure(job),
        // Blade letter and position count, such as A0: short, and it survives a change of clocks.
        Target::Spot(job, spot) => {
            format!(
                "{}?at={}{}",
                measure(job),
                blade_name(spot.blade),
                spot.position
            )
        }
        Target::Blank(job) => format!("/job/{job}/blank"),
        Target::Record(job) => format!("/job/{job}/record"),
        Target::Torque(job) => format!("/job/{job}/torque"),
        Target::Assemble(job) => format!("/job/{job}/assemble"),
        Target::Step(job, step) => format!("/job/{job}/assemble?step={step}"),
        Target::Have(job, minutes) => format!("/job/{job}/assemble?have={minutes}"),
        Target::Audit(job) => format!("/job/{job}/audit"),
        Target::Item(job, item) => format!("/job/{job}/audit?item={item}"),
        Target::Tool(job, tool) => format!("/job/{job}/audit?tool={tool}"),
        Target::Plan(job) => format!("/job/{job}/plan"),
        Target::PlanStep(job, step) => format!("/job/{job}/plan?step={step}"),
        Target::Card(job) => format!("/job/{job}/card"),
        Target::File(job) => format!("/job/{job}/file"),
        Target::Archive(job) => format!("/job/{job}/archive"),
        Target::Sheet(job) => format!("/job/{job}/sheet"),
        Target::Water(job) => format!("/job/{job}/water"),
        Target::Choose(job) => format!("/job/{job}/choose"),
        Target::Diagnose(job) => format!("/job/{job}/wrong"),
        Target::Service(job) => format!("/job/{job}/service"),
        Target::Calendar(job) => format!("/job/{job}/service.ics"),
        Target::TestCard(job) => format!("/job/{job}/test-card"),
        Target::Label(job) => format!("/job/{job}/label"),
        Target::History(job) => format!("/job/{job}/history"),
        Target::Photo(job, photo) => format!("/job/{job}/photo/{photo}"),
    }
}

/// Where a device pairs.
pub(crate) const PAIR: &str = "/pair";

/// The same with a number, for a code to scan. The number is spent when it is used, and lives ten minutes.
pub(crate) fn pairing(digits: &str) -> String {
    format!("{PAIR}?number={digits}")
}

/// A moment in the zone of this bench: `2026-05-09 14:02`.
pub(crate) fn moment(at: Timestamp) -> String {
    let here = at.to_zoned_datetime(TimeZone::system());
    here.strftime("%Y-%m-%d %H:%M").to_string()
}

/// A picture by its content.
pub(crate) fn photo(photo: &PhotoHash) -> String {
    format!("/photo/{photo}")
}

/// The same, small.
pub(crate) fn thumb(photo: &PhotoHash) -> String {
    format!("/photo/{photo}/thumb")
}

/// Where a page of the job hears that the job has grown.
pub(crate) fn live(job: &JobId) -> String {
    format!("/job/{job}/live")
}

/// What others did since a position, which is to be put behind it.
pub(crate) fn since(job: &JobId) -> String {
    format!("/job/{job}/since/")
}

pub(crate) fn measure(job: &JobId) -> String {
    format!("/job/{job}/measure")
}

/// The page of a job that an act came from; its Measure page for one that is none of ours.
pub(crate) fn back(job: &JobId, from: &str) -> Target {
    let pages = [
        Target::Teardown,
        Target::Torque,
        Target::Assemble,
        Target::Audit,
        Target::Plan,
        Target::Record,
        Target::Water,
        Target::Choose,
        Target::Diagnose,
        Target::Service,
    ];
    let photo = from.split_once("/photo/").map(|(_, photo)| photo);
    let photo = photo.and_then(|photo| PhotoHash::new(photo).ok());
    let photo = photo.map(|photo| Target::Photo(job.clone(), photo));
    let step = from.split_once("/plan?step=").map(|(_, step)| step);
    let step = step.and_then(|step| Key::new(step).ok());
    let step = step.map(|step| Target::PlanStep(job.clone(), step));
    let pages = pages.map(|page| page(job.clone())).into_iter();
    pages
        .chain(step)
        .chain(photo)
        .find(|target| link(target) == from)
        .unwrap_or_else(|| Target::Measure(job.clone()))
}

/// Where a person stands after an act: who prepares a step stays at it, though another may be planned
/// before it.
pub(crate) fn after(form: FormName, back: Target, step: &str) -> Target {
    match (form, back, Key::new(step)) {
        (FormName::GoAhead | FormName::Estimate, Target::Assemble(job), Ok(step)) => {
            Target::Step(job, step)
        }
        (_, back, _) => back,
    }
}

/// Where a form is sent. Only opening a job belongs to no job.
pub(crate) fn act(job: Option<&JobId>, form: FormName) -> String {
    match job {
        Some(job) => format!("/job/{job}/act/{}", form.key()),
        None => format!("/act/{}", form.key()),
    }
}
