//! The Water test page: did it work, and how sure is that.

mod card;
mod log;
mod next;
mod outing;
pub(crate) mod say;

use chart::{Category, Interval, IntervalChart, intervals};
use jiff::ZonedDateTime;
use quantity::Unit;
use trial::compare::runs_needed;
use trial::figure::{Figure, Origin};
use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::water::answer::{Air, Answer as Says, Change, SideSays, Told};
use workshop::water::{Side, Trials};

use super::{
    Answer, FactRow, Page, Refused, Run, Section, Target, Tone, frame, plain, row, soft, strong,
};

pub use card::page as card_page;

/// What a water test is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// The time, in the person's zone.
    pub now: &'a ZonedDateTime,
    /// What the tests show.
    pub says: &'a Says,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside what can hurt.
pub const CAUTIONS: [&str; 4] = [
    "Cut-off lanyard on the driver for every start, a vest on everybody, a second person watching, \
     a time to be back. Local rules on speed, place, age and hours decide.",
    "Full throttle only on deep, open water that was looked over slowly first, clear of people, \
     docks, moorings and weed. Off the throttle a jet craft steers little.",
    "The driver reads nothing at speed: a passenger, a camera or a log does.",
    "Stop on heat, new vibration, the smell of fuel, water in the hull, no tell-tale. Nothing near \
     intake or nozzle while the engine can turn; to clear the grate: engine off, lanyard and key out.",
];

/// A change somebody would want to see, `m/s`: 1 mph and a little.
const WANTED: f64 = 0.5;
/// Scatter of a double run for telling how many it takes, `m/s`. Common practice, no source.
const SCATTER: f64 = 0.2;
/// The chance of seeing it that is asked for.
const POWER: f64 = 0.8;

/// The unit speeds are shown in: that of the latest outing.
pub(crate) fn unit(trials: &Trials) -> Unit {
    let last = trials.in_order(None).pop();
    last.map_or(Unit::KilometrePerHour, |(_, state)| state.outing.value.unit)
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Water(view.id.clone());
    Page {
        title: "Water test".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(view),
        evidence: evidence(view),
        next: next::next(view),
        cautions: CAUTIONS.to_vec(),
    }
}

/// Where the water tests stand, for the list of stages.
pub(crate) fn stage(job: &Job) -> String {
    let trials = &job.trials;
    let count = |side| trials.in_order(Some(side)).len();
    match (count(Side::Before), count(Side::After)) {
        _ if trials.taken.is_some() => "result taken".to_owned(),
        (0, 0) => "nothing run yet".to_owned(),
        (before, 0) => format!("{before} before"),
        (0, after) => format!("{after} after"),
        (before, after) => format!("{before} before, {after} after"),
    }
}

/// The answer in a sentence, as it is put on record.
pub fn headline(job: &Job, says: &Says) -> String {
    told(job, says).1
}

fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, detail) = told(view.job, view.says);
    let sides = [&view.says.before, &view.says.after];
    let speeds: Vec<&SideSays> = (sides.into_iter())
        .filter(|side| side.speed.is_some())
        .collect();
    let typed = |side: &&SideSays| {
        let speed = side.speed.as_ref();
        speed.is_some_and(|speed| speed.origin == Origin::Typed)
    };
    let from = match (
        speeds.len(),
        speeds.iter().filter(|side| typed(side)).count(),
    ) {
        (0, _) => "",
        (all, typed) if all == typed => "As read off",
        (_, 0) => "Measured runs",
        _ => "Measured runs, and what was read off",
    };
    let how = "mean of means where runs both ways are evenly spaced · uncertainty as JCGM 100 \
               combines it";
    Answer {
        tone,
        headline,
        detail,
        origin: if from.is_empty() {
            String::new()
        } else {
            format!("{from} · {how}")
        },
    }
}

fn told(job: &Job, says: &Says) -> (Tone, String, Vec<Run>) {
    let unit = unit(&job.trials);
    match (&says.speed, &says.after.speed, &says.before.speed) {
        (Some(change), ..) => changed(says, change, unit),
        (None, Some(speed), _) | (None, None, Some(speed)) => {
            let (side, which) = if says.after.speed.is_some() {
                (&says.after, "After the rebuild")
            } else {
                (&says.before, "Before the rebuild")
            };
            let ends = say::interval(&say::ends(speed), unit);
            let (tone, how) = if side.one_way {
                (Tone::Open, "one way only, so current and wind are in it")
            } else {
                (Tone::Plain, "through the water, both ways")
            };
            (
                tone,
                format!("{which}: {} {how}.", say::speed(speed.value, unit)),
                vec![
                    soft(format!("95\u{a0}% interval {ends}. ")),
                    plain("There is nothing to compare it with yet."),
                ],
            )
        }
        (None, None, None) => nothing(job, says, unit),
    }
}

fn nothing(job: &Job, says: &Says, unit: Unit) -> (Tone, String, Vec<Run>) {
    if job.trials.is_empty() {
        return (
            Tone::Plain,
            "Nothing run yet.".to_owned(),
            vec![plain(
                "Run it before the pump is opened, if it still runs, and after: four runs up and \
                 down the same water, and three standing starts, tell more than any opinion.",
            )],
        );
    }
    let outings = says.before.outings.iter().chain(&says.after.outings);
    let mut why: Vec<String> = Vec::new();
    for says in outings.flat_map(|outing| &outing.logs) {
        let name = job.trials.logs.get(&says.digest);
        let name = name.map_or("", |state| state.log.value.name.as_str());
        if let Some(none) = &says.none {
            why.push(format!("{name}: {}. ", say::no_run(none, unit)));
        }
        if let Some(error) = &says.refused {
            why.push(format!("{name}: {error}. "));
        }
    }
    if why.is_empty() {
        why.push("Read a log, or type in what was read off. ".to_owned());
    }
    (
        Tone::Open,
        "No full-throttle run yet.".to_owned(),
        why.into_iter().map(plain).collect(),
    )
}

fn changed(says: &Says, change: &Change, unit: Unit) -> (Tone, String, Vec<Run>) {
    let (value, ends) = &change.change;
    let size = say::speed(value.abs(), unit);
    let range = say::change(ends, unit);
    let (tone, headline) = match change.told() {
        Told::More => (Tone::Good, format!("Faster by {size} ({range}).")),
        Told::Less => (Tone::Stop, format!("Slower by {size} ({range}).")),
        Told::Within => (
            Tone::Open,
            format!("No change these runs can show: {range}."),
        ),
    };
    let speed = |figure| say::speed(figure, unit);
    let mut detail = vec![
        plain("Through the water "),
        strong(speed(change.before.value)),
        soft(format!(
            " ({}) ",
            say::interval(&say::ends(&change.before), unit)
        )),
        plain("before, "),
        strong(speed(change.after.value)),
        soft(format!(
            " ({}) ",
            say::interval(&say::ends(&change.after), unit)
        )),
        plain("after. "),
    ];
    for (to, start) in &says.starts {
        let verdict = match start.told() {
            Told::More => "longer",
            Told::Less => "shorter",
            Told::Within => "no different that it shows",
        };
        detail.push(plain(format!(
            "From rest to {}: {} before, {} after, {verdict}. ",
            say::chosen(*to, unit),
            say::time(start.before.value),
            say::time(start.after.value),
        )));
    }
    if says.before.one_way || says.after.one_way {
        detail.push(strong(
            "One side was run one way only: current and wind are in the difference. ",
        ));
    }
    if change.told() == Told::Within
        && let Ok(Some(runs)) = runs_needed(WANTED, SCATTER, POWER)
    {
        detail.push(plain(format!(
            "To see {} of change, about {runs} double runs each time would do.",
            speed(WANTED)
        )));
    }
    (tone, headline, detail)
}

fn evidence(view: &View<'_>) -> Vec<Section> {
    let unit = unit(&view.job.trials);
    let mut evidence = Vec::new();
    evidence.extend(compared(view.says, unit));
    evidence.extend(pictured(view.says, unit));
    evidence.extend(next::other(view, unit));
    for (key, state) in view.job.trials.in_order(None).into_iter().rev() {
        if let Some(says) = view.says.outing(key) {
            evidence.extend(outing::sections(view, (key, state), says, unit));
        }
    }
    let notes: Vec<String> = frame::objections(view.objections).collect();
    if !notes.is_empty() {
        evidence.push(Section::Notes {
            heading: "What no longer fits".to_owned(),
            notes,
        });
    }
    evidence
}

/// Before beside after, a line a quantity.
fn compared(says: &Says, unit: Unit) -> Option<Section> {
    let mut rows = Vec::new();
    let mut add = |name: String, change: &Change, shown: &dyn Fn(f64) -> String, shown_in: Unit| {
        let ends = say::change(&change.change.1, shown_in);
        let origin = change.repeats.as_ref().map_or_else(
            || "by what each side is uncertain by".to_owned(),
            |repeats| {
                format!(
                    "by what each side is uncertain by; Welch’s comparison of {} and {} repeats \
                     alone: {}",
                    repeats.counts.0,
                    repeats.counts.1,
                    say::gained(repeats.difference.difference, shown_in)
                )
            },
        );
        rows.push(row(
            name,
            vec![
                plain(format!(
                    "{} → {} ",
                    shown(change.before.value),
                    shown(change.after.value)
                )),
                soft(format!("change {ends}")),
            ],
            origin,
        ));
    };
    if let Some(change) = &says.speed {
        add(
            "Top speed".to_owned(),
            change,
            &|value| say::speed(value, unit),
            unit,
        );
    }
    for (to, change) in &says.starts {
        add(
            format!("Rest to {}", say::chosen(*to, unit)),
            change,
            &say::time,
            Unit::Second,
        );
    }
    if let Some(change) = &says.engine {
        add("Engine speed".to_owned(), change, &say::engine, Unit::Rpm);
    }
    rows.extend(says.air.as_ref().map(|air| aired(says, air)));
    (!rows.is_empty()).then(|| Section::Facts {
        heading: "Before and after".to_owned(),
        rows,
    })
}

/// Both speeds with how sure they are.
fn pictured(says: &Says, unit: Unit) -> Option<Section> {
    says.speed.as_ref()?;
    let shown = |value: f64| unit.from_si(value);
    let interval = |figure: &Figure| {
        let ends = say::ends(figure);
        Interval {
            label: String::new(),
            low: shown(ends.low),
            median: shown(figure.value),
            high: shown(ends.high),
        }
    };
    let category = |label: &str, side: &SideSays| Category {
        label: label.to_owned(),
        intervals: side.speed.iter().map(interval).collect(),
    };
    Some(Section::Picture {
        heading: "Top speed, before and after".to_owned(),
        svg: intervals(&IntervalChart {
            title: "Top speed through the water, before and after".to_owned(),
            axis: format!("top speed, {}", unit.symbol()),
            decimals: 1,
            least: None,
            greatest: None,
            categories: vec![
                category("before", &says.before),
                category("after", &says.after),
            ],
        }),
        caption:
            "Through the water, with the 95\u{a0}% interval. Where the two do not overlap, the \
                  change is plain; where they do, the line above says what can be told."
                .to_owned(),
    })
}

/// What the air alone did, so that it is not taken for the rebuild's doing.
fn aired(says: &Says, air: &Air) -> FactRow {
    let percent = |ratio: f64| {
        let text = format!("{:+.1}\u{a0}%", (ratio - 1.0) * 100.0);
        text.replace('-', "−")
    };
    let mut value = vec![plain(format!(
        "power {}, engine speed {}",
        percent(air.power),
        percent(air.engine)
    ))];
    if let Some(before) = &says.before.engine {
        let turns = before.value * (air.engine - 1.0);
        value.push(soft(format!(
            " ({}\u{a0}rpm)",
            say::signed(turns, Unit::Rpm)
        )));
    }
    let range = if air.in_range {
        ""
    } else {
        "; beyond what the standard accepts, so only a hint"
    };
    row(
        "The air alone",
        value,
        format!(
            "ISO 1585, from memory, of both days; a pump takes power by the cube of its speed. \
             Speeds above are as measured, not corrected for it{range}"
        ),
    )
}
