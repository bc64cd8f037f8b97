//! The test card, on paper: what to run, in what order, safely, with lines for pencil.

use quantity::Unit;
use trial::compare::runs_needed;
use workshop::assemble::assess;
use workshop::assemble::words::blocks;
use workshop::plan::Opens;

use super::super::{Answer, Next, Page, Section, Table, Target, Tone, frame, plain};
use super::{CAUTIONS, POWER, SCATTER, View, say, unit};

/// Ashore, before every time on the water. Common practice, no source.
const ASHORE: [&str; 9] = [
    "Drain plugs in, bilge dry, grate clear, nothing left in the pump.",
    "Cut-off lanyard whole and on the driver; a vest on everybody; dressed for the water.",
    "Somebody watches, from a boat or the shore, with a phone. They know the plan and when to worry.",
    "Open water over 1.5 m deep, looked over slowly first: no weed, rope, people, docks, moorings.",
    "Local rules on speed, distance, age, noise and hours are known. No runs at dusk or in traffic.",
    "Same riders, fuel, trim as the other time. If not, written down.",
    "Same receiver in the same place, set to as many fixes a second as it gives, recording before \
     the first run; it lies still for a minute first.",
    "Wind under 6 m/s, waves under 0.1 m, or it is a hint and no measurement.",
    "Never run dry for longer than the craft’s manual allows; flush in the order it gives.",
];

/// First float: common practice, no source.
const FLOAT: [&str; 5] = [
    "Start afloat, short: tell-tale, temperature, bilge. Then 5 minutes at idle.",
    "10 minutes under half throttle, close to the shore. Listen and feel for anything new.",
    "Back to the dock. Engine off, lanyard out: bolts, seals, bilge, grease weeping.",
    "Anything loose, wet or hot: no full throttle. Find it first.",
    "To clear the grate: engine off, lanyard and key out. Hands, hair and rope away from it.",
];

/// Full throttle: common practice, no source.
const FULL: [&str; 6] = [
    "Engine warm. Sit as the other time, nobody behind the jet.",
    "Four runs, out and back and out and back, on one line over the same water: full throttle, \
     straight, steady for 20 s, and the same time between them. Two tell less than half as much.",
    "Three standing starts: still for 5 s, then full throttle to the top. Seated and holding on.",
    "A passenger, a camera or the log reads. The driver looks ahead.",
    "Throttle off gently, and turn only with throttle on: without it the craft goes straight on.",
    "Stop on heat, new vibration, the smell of fuel, water in the hull, no tell-tale.",
];

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::TestCard(view.id.clone());
    let water = Target::Water(view.id.clone());
    let levels = assess(view.job, view.now.timestamp()).map(|all| all.levels);
    let held = |opens: Opens| -> Vec<String> {
        let plan = view.job.bench.plan();
        let (Some(levels), Some(plan)) = (&levels, plan) else {
            return Vec::new();
        };
        let blocked = levels[opens as usize].blocks.iter();
        blocked.map(|block| blocks(plan, block, view.now)).collect()
    };
    let (float, full) = (held(Opens::Float), held(Opens::FullThrottle));
    Page {
        title: "Test card".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &water),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(&float, &full, levels.is_some()),
        evidence: sections((&float, &full), unit(&view.job.trials)),
        next: Next::Print {
            words: vec![plain(
                "Print it. Back ashore, put what was logged or read off on record.",
            )],
            links: vec![(water, "Back to Water test".to_owned())],
        },
        cautions: CAUTIONS.to_vec(),
    }
}

/// What may be run now.
fn answer(float: &[String], full: &[String], planned: bool) -> Answer {
    let (tone, headline, detail) = match (float.len(), full.len()) {
        _ if !planned => (
            Tone::Open,
            "No plan says whether this craft may go on the water.",
            "Go through it by hand: every step, fastener, plug, clip, hose and cable. Then run in \
             the order of this card.",
        ),
        (0, 0) => (
            Tone::Good,
            "It may go on the water, and full throttle.",
            "In this order all the same: the quiet part first.",
        ),
        (0, _) => (
            Tone::Open,
            "It may go on the water, and not full throttle yet.",
            "The card ends where the craft may go no further.",
        ),
        _ => (
            Tone::Stop,
            "It may not go on the water yet.",
            "Nothing is to be run. What holds it ashore stands below.",
        ),
    };
    Answer {
        tone,
        headline: headline.to_owned(),
        detail: vec![plain(detail)],
        origin: "Common practice, no source · local rules and the craft’s manual come first"
            .to_owned(),
    }
}

fn sections((float, full): (&[String], &[String]), unit: Unit) -> Vec<Section> {
    let notes = |heading: &str, notes: &[&str]| Section::Notes {
        heading: heading.to_owned(),
        notes: notes.iter().map(|note| format!("☐ {note}")).collect(),
    };
    let holds = |heading: &str, held: &[String]| Section::Notes {
        heading: heading.to_owned(),
        notes: held.to_vec(),
    };
    let mut sections = vec![notes("1 Ashore", &ASHORE)];
    if !float.is_empty() {
        sections.push(holds("2 Afloat: not yet", float));
        return sections;
    }
    sections.push(notes("2 Afloat, quiet", &FLOAT));
    if !full.is_empty() {
        sections.push(holds("3 Full throttle: not yet", full));
        return sections;
    }
    sections.push(notes("3 Full throttle", &FULL));
    sections.extend(enough(unit));
    sections.push(pencil());
    sections
}

/// Changes somebody might want to see, `m/s`.
const WANTED: [f64; 3] = [0.25, 0.5, 1.0];

/// How many double runs show what.
fn enough(unit: Unit) -> Option<Section> {
    let row = |change: f64| {
        let runs = runs_needed(change, SCATTER, POWER).ok()??;
        Some(vec![say::speed(change, unit), runs.to_string()])
    };
    let rows: Vec<Vec<String>> = WANTED.into_iter().filter_map(row).collect();
    (!rows.is_empty()).then(|| {
        Section::Table(Table {
            heading: "How many double runs are enough".to_owned(),
            head: ["A change of", "Double runs, each time"]
                .map(str::to_owned)
                .to_vec(),
            rows,
            caption: format!(
                "Out and back is one double run. So many show the change four times in five, if \
                 double runs scatter by {}: common practice, no source.",
                say::speed(SCATTER, unit)
            ),
        })
    })
}

/// Lines for pencil.
fn pencil() -> Section {
    let head = ["Run", "Clock", "Top speed", "rpm", "Seen"];
    let run = |name: &str| {
        let mut row = vec![name.to_owned()];
        row.extend((1..head.len()).map(|_| String::new()));
        row
    };
    let runs = [
        "out",
        "back",
        "out",
        "back",
        "start",
        "start",
        "start",
        "air, wind, waves",
    ];
    Section::Table(Table {
        heading: "For pencil".to_owned(),
        head: head.map(str::to_owned).to_vec(),
        rows: runs.map(run).to_vec(),
        caption: "Speed and rpm as read by a passenger or a camera; a start in seconds to 30 mph."
            .to_owned(),
    })
}
