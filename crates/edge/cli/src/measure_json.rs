//! `measure --json`: the Measure answer for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. Lengths are in
//! metres, and a length without a value is null.

mod driveline;
mod why;

use clearance::{Bracket, Estimate};
use report::page::{Next, flat, measure};
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::{LEAF_UNITS, MEASURES, word};
use workshop::gap::{Doubt, Gap, Judgement, Mark, REQUIRED, Reading, Side, Standing};
use workshop::job::{Spot, blade_name};
use workshop::refusal::Need;
use workshop::walk::progress;

use crate::document::{lines, schema_of};

const VERSION: u32 = 3;

/// Whether the gap between impeller and wear ring is in tolerance, how sure that is, and what to
/// try next.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: DocumentName,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job.
    job: Job,
    /// The unit the person measures in.
    unit: &'static str,
    /// The answer in one sentence.
    answer: String,
    /// The number, its interval, the limit, the reason.
    detail: String,
    /// Where the answer comes from.
    origin: String,
    /// In tolerance, out of it, or neither can be said.
    verdict: Verdict,
    /// Which limit is broken; null unless the verdict is out.
    side: Option<SideName>,
    /// Why nothing can be said yet; null unless the verdict is undecided.
    doubt: Option<DoubtName>,
    /// At how many spots, where the doubt is about spots.
    #[schemars(range(min = 1))]
    doubt_spots: Option<usize>,
    /// The probability that the gap is within the limits; null without numbers or limits.
    #[schemars(range(min = 0, max = 1))]
    probability_within: Option<f64>,
    /// The probability that the least gap is below the least limit.
    #[schemars(range(min = 0, max = 1))]
    probability_too_tight: Option<f64>,
    /// The probability that the greatest gap is above the greatest limit.
    #[schemars(range(min = 0, max = 1))]
    probability_too_wide: Option<f64>,
    /// The probability asked for before a verdict is given.
    #[schemars(range(min = 0, max = 1))]
    required_probability: f64,
    /// The least radial gap of all spots read.
    least: Option<Figure>,
    /// Their mean.
    mean: Option<Figure>,
    /// The greatest.
    greatest: Option<Figure>,
    /// The least sum of two opposite gaps of one blade; null unless the limits are diametral.
    least_across: Option<AcrossLine>,
    /// The greatest.
    greatest_across: Option<AcrossLine>,
    /// What the craft's manual allows; null when it was not stated.
    limits: Option<Limits>,
    /// Every spot, blade by blade, clock by clock.
    spots: Vec<SpotLine>,
    /// Why the gap is as it is; null while too little is read.
    why: Option<why::Why>,
    /// Whether engine and pump are in line; null while the driveline is not read.
    driveline: Option<driveline::Driveline>,
    /// What to do next.
    next: NextStep,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum DocumentName {
    #[serde(rename = "pumpwright measure")]
    Measure,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Job {
    /// Its id.
    id: String,
    /// Craft and reason.
    title: String,
    /// Anything worth reading first.
    note: String,
    /// The last entry of the journal that went into the answer.
    entries: u64,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::measure_json) enum Verdict {
    In,
    Out,
    Undecided,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SideName {
    Tight,
    Wide,
    Both,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum DoubtName {
    NoPump,
    NoLeaves,
    NoLimits,
    /// Only a least figure is stated, and a new ring may rub itself in.
    NothingAsked,
    NoReadings,
    Contradiction,
    Unread,
    OneSided,
    NoUpperEnd,
    TooClose,
}

/// A gap with its 90 % interval.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Figure {
    #[serde(rename = "median_m")]
    median: f64,
    #[serde(rename = "low_m")]
    low: f64,
    #[serde(rename = "high_m")]
    high: f64,
}

/// One blade turned to opposite clock positions, both gaps together.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AcrossLine {
    /// The blade's letter.
    blade: String,
    /// The earlier clock of the two.
    clock: String,
    /// The sum, a diametral gap.
    sum: Figure,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Limits {
    /// Not tighter than this.
    least_m: Option<f64>,
    /// Not wider than this.
    greatest_m: Option<f64>,
    /// Whether the figures are radial or diametral.
    measure: &'static str,
    /// The page of the manual; empty when not said.
    page: String,
    /// The manual lets a new ring rub itself in, so too tight is not held against it.
    rub_in: bool,
}

/// One blade at one clock position.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SpotLine {
    /// The blade's letter.
    blade: String,
    /// The clock.
    clock: String,
    /// The thickest leaf that goes.
    goes_m: Option<f64>,
    /// The thinnest leaf that won't.
    wont_m: Option<f64>,
    /// How it stands.
    state: State,
    /// The radial gap; null without numbers for this spot.
    gap: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum State {
    /// No leaf tried.
    Unread,
    /// Read, with no limit or no number to hold it against.
    Read,
    /// The leaves contradict each other.
    Contradiction,
    /// Within the limits.
    In,
    /// Too near a limit to call.
    Near,
    /// Beyond a limit.
    Out,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NextStep {
    /// In words.
    words: String,
    /// The leaf to try; null when none is.
    #[serde(rename = "try")]
    leaf: Option<Try>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Try {
    /// The blade's letter.
    blade: String,
    /// The clock.
    clock: String,
    /// The leaf.
    leaf_m: f64,
    /// The leaf as the person marked it.
    leaf: String,
    /// The readings there contradict each other, so this asks again.
    again: bool,
}

/// The document as text.
pub(crate) fn write(view: &measure::View<'_>) -> String {
    lines(&document(view))
}

/// The JSON Schema of the document as text.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn document(view: &measure::View<'_>) -> Document {
    let page = measure::page(view);
    let judgement = view.judgement.ok();
    let gap = judgement.and_then(|judgement| judgement.gap.as_ref());
    let across = gap.and_then(|gap| gap.across);
    let conformity = judgement.and_then(|judgement| judgement.conformity.as_ref());
    let (verdict, side) = verdict(view.judgement);
    let (doubt, doubt_spots) = doubt(view.judgement);
    Document {
        name: DocumentName::Measure,
        version: VERSION,
        program: workshop::PROGRAM,
        job: Job {
            id: view.id.to_string(),
            title: view.job.title.clone().unwrap_or_default(),
            note: view.job.note.clone(),
            entries: view.job.position,
        },
        unit: word(&LEAF_UNITS, view.job.unit()),
        answer: page.answer.headline,
        detail: flat(&page.answer.detail),
        origin: page.answer.origin,
        verdict,
        side,
        doubt,
        doubt_spots,
        probability_within: conformity.map(|c| c.within),
        probability_too_tight: conformity.map(|c| c.too_tight),
        probability_too_wide: conformity.map(|c| c.too_wide),
        required_probability: REQUIRED,
        least: gap.map(|gap| figure(&gap.least.estimate())),
        mean: gap.map(|gap| figure(&gap.mean.estimate())),
        greatest: gap.map(|gap| figure(&gap.greatest.estimate())),
        least_across: across.map(|across| across_line(view, across.least)),
        greatest_across: across.map(|across| across_line(view, across.greatest)),
        limits: limits(view),
        spots: spots(view, judgement, gap),
        why: why::why(view),
        driveline: driveline::of(view.job),
        next: next(view, &page.next),
        open_items: view.objections.len(),
    }
}

fn verdict(judgement: Result<&Judgement, Need>) -> (Verdict, Option<SideName>) {
    match judgement.map(|judgement| judgement.standing) {
        Ok(Standing::In) => (Verdict::In, None),
        Ok(Standing::Out(side)) => {
            let side = match side {
                Side::Tight => SideName::Tight,
                Side::Wide => SideName::Wide,
                Side::Both => SideName::Both,
            };
            (Verdict::Out, Some(side))
        }
        Ok(Standing::Undecided(_)) | Err(_) => (Verdict::Undecided, None),
    }
}

fn doubt(judgement: Result<&Judgement, Need>) -> (Option<DoubtName>, Option<usize>) {
    let (name, spots) = match judgement.map(|judgement| judgement.standing) {
        Ok(Standing::In | Standing::Out(_)) => return (None, None),
        Ok(Standing::Undecided(doubt)) => match doubt {
            Doubt::NoLimits => (DoubtName::NoLimits, None),
            Doubt::NothingAsked => (DoubtName::NothingAsked, None),
            Doubt::NoReadings => (DoubtName::NoReadings, None),
            Doubt::Contradiction(spots) => (DoubtName::Contradiction, Some(spots)),
            Doubt::Unread(spots) => (DoubtName::Unread, Some(spots)),
            Doubt::OneSided(spots) => (DoubtName::OneSided, Some(spots)),
            Doubt::NoUpperEnd => (DoubtName::NoUpperEnd, None),
            Doubt::TooClose => (DoubtName::TooClose, None),
        },
        Err(Need::Leaves) => (DoubtName::NoLeaves, None),
        Err(Need::Job | Need::Pump | Need::Readings) => (DoubtName::NoPump, None),
    };
    (Some(name), spots)
}

fn figure(estimate: &Estimate) -> Figure {
    Figure {
        median: estimate.median,
        low: estimate.low,
        high: estimate.high,
    }
}

fn across_line(view: &measure::View<'_>, (spot, sum): (Spot, Estimate)) -> AcrossLine {
    AcrossLine {
        blade: blade_name(spot.blade),
        clock: view.job.clock(spot),
        sum: figure(&sum),
    }
}

fn limits(view: &measure::View<'_>) -> Option<Limits> {
    let limits = &view.job.limits.as_ref()?.value;
    Some(Limits {
        least_m: limits.least.as_ref().map(|least| least.value),
        greatest_m: limits.greatest.as_ref().map(|greatest| greatest.value),
        measure: word(&MEASURES, limits.measure),
        page: limits.page.clone(),
        rub_in: limits.rub_in,
    })
}

fn spots(
    view: &measure::View<'_>,
    judgement: Option<&Judgement>,
    gap: Option<&Gap>,
) -> Vec<SpotLine> {
    let line = |spot: Spot| {
        let reading = judgement.and_then(|j| j.readings.get(&spot).copied());
        let bracket = match reading {
            Some(Reading::Bracket(bracket)) => bracket,
            Some(Reading::Drags(leaf)) => Bracket {
                goes: Some(leaf),
                wont: None,
            },
            Some(Reading::Contradiction(c)) => Bracket {
                goes: Some(c.goes),
                wont: Some(c.wont),
            },
            Some(Reading::Unread) | None => Bracket {
                goes: None,
                wont: None,
            },
        };
        let mark = judgement.and_then(|j| j.marks.get(&spot));
        SpotLine {
            blade: blade_name(spot.blade),
            clock: view.job.clock(spot),
            goes_m: bracket.goes,
            wont_m: bracket.wont,
            state: match (reading, mark) {
                (None | Some(Reading::Unread), _) => State::Unread,
                (Some(Reading::Contradiction(_)), _) => State::Contradiction,
                (_, None) => State::Read,
                (_, Some(Mark::In)) => State::In,
                (_, Some(Mark::Near)) => State::Near,
                (_, Some(Mark::Out)) => State::Out,
            },
            gap: gap.and_then(|gap| gap.spots.get(&spot)).map(figure),
        }
    };
    view.job.spots().into_iter().map(line).collect()
}

fn next(view: &measure::View<'_>, next: &Next) -> NextStep {
    let words = match next {
        Next::Ask { question, .. } => flat(question),
        Next::Fill(form) => format!("{}. {}", form.heading, form.intro),
        Next::Go { words, .. } | Next::Print { words, .. } => flat(words),
    };
    let question = progress(view.job).next.filter(|_| view.judgement.is_ok());
    let leaf = question.map(|question| Try {
        blade: blade_name(question.spot.blade),
        clock: view.job.clock(question.spot),
        leaf_m: question.leaf.value,
        leaf: question.leaf.worded(),
        again: question.again,
    });
    NextStep { words, leaf }
}
