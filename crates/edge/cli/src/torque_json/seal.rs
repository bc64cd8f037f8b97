//! What goes on threads and faces, and which metals meet, for other programs.

use jiff::ZonedDateTime;
use joint::Interval;
use joint::compound::Times;
use joint::galvanic::Step;
use report::page::torque::seal;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::inspect::seal_words::{COATS, COMPOUNDS, WATERS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::job::Job;
use workshop::seals::{Material, Taken, face, metals, thread};

/// The water the craft runs in, and the air at the bench.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Around {
    water: &'static str,
    water_assumed: bool,
    temperature_k: f64,
    temperature_assumed: bool,
    /// Relative humidity, from 0 to 1.
    humidity: f64,
    humidity_assumed: bool,
}

/// What goes on a joint.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Seals {
    /// What is on the thread; null where nothing is, or where it is not known.
    on_thread: Option<OnThread>,
    /// The bead on the face; null where none is described.
    bead: Option<Bead>,
    /// The metals; null where no two meet.
    metals: Option<Metals>,
    /// What must be mended first.
    open: Vec<String>,
    /// What can hurt.
    cautions: Vec<&'static str>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Compound {
    /// As the person calls it, or its class.
    name: String,
    /// Its class.
    class: &'static str,
    /// Where its figures come from: a key of the bibliography, or words.
    source: &'static str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OnThread {
    compound: Compound,
    /// Taken from the joint's condition.
    assumed: bool,
    /// These metals slow its cure.
    wants_activator: bool,
    /// Null where it may not be put on in this air.
    times: Option<Spans>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Bead {
    compound: Compound,
    /// Diameters that seal everywhere and stay clear everywhere; null where none does.
    diameter: Option<Length>,
    /// Gap between the faces.
    gap: Length,
    gap_assumed: bool,
    /// The bead reckoned with.
    laid_m: f64,
    /// Width of its film.
    film: Length,
    /// Radius of what comes out on each side.
    ridge_m: f64,
    /// Share of the passage that stays open; null where none is told.
    passage_open: Option<f64>,
    /// Null where it may not be put on in this air.
    times: Option<Spans>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Metals {
    /// The screws are of a stainless steel that nobody stated.
    screw_assumed: bool,
    /// The coat on what they go into.
    coat: &'static str,
    coat_assumed: bool,
    /// A part that should last is eaten.
    threatens: bool,
    /// Attack over attack without the noble metal; areas assumed.
    attack: f64,
    /// The next thing to do.
    next: &'static str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Spans {
    working: Option<Span>,
    skin: Option<Span>,
    cured: Option<Span>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Span {
    low_s: f64,
    high_s: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Length {
    low_m: f64,
    high_m: f64,
}

impl Around {
    pub(super) fn of(job: &Job) -> Self {
        let (water, temperature, humidity) = (job.water(), job.temperature(), job.humidity());
        Self {
            water: word(&WATERS, water.value),
            water_assumed: water.assumed,
            temperature_k: temperature.value,
            temperature_assumed: temperature.assumed,
            humidity: humidity.value,
            humidity_assumed: humidity.assumed,
        }
    }
}

/// Keys of the joints whose metals to see to first, in order.
pub(super) fn metals_first(job: &Job) -> Vec<String> {
    let ranked = metals::rank(job).into_iter();
    ranked.map(|metals| metals.joint.to_string()).collect()
}

impl Seals {
    pub(super) fn of(job: &Job, key: &Key, now: &ZonedDateTime) -> Self {
        let joint = job.joints.get(key).map(|state| &state.joint.value);
        let on_thread = joint.and_then(|joint| thread::of(job, key, joint));
        let seal = job.seals().seals.get(key);
        Self {
            on_thread: on_thread.map(|on| OnThread {
                compound: compound(&on.material),
                assumed: on.assumed,
                wants_activator: on.wants_activator,
                times: on.times.ok().as_ref().map(spans),
            }),
            bead: seal.and_then(|fact| face::of(job, &fact.value)).map(bead),
            metals: metals::of(job, key).map(|metals| Metals {
                screw_assumed: metals.screw.assumed,
                coat: word(&COATS, metals.coat.value),
                coat_assumed: metals.coat.assumed,
                threatens: metals.risk.threatens,
                attack: metals.risk.attack,
                next: next(metals.risk.next),
            }),
            open: seal::open_at(job, key, now),
            cautions: seal::cautions_at(job, key),
        }
    }
}

fn bead(bead: face::Bead) -> Bead {
    let Taken {
        value: gap,
        assumed,
    } = bead.gap;
    Bead {
        compound: compound(&bead.material),
        diameter: bead.fits.ok().map(length),
        gap: length(gap),
        gap_assumed: assumed,
        laid_m: bead.laid,
        film: length(bead.film),
        ridge_m: bead.ridge,
        passage_open: bead.left_open,
        times: bead.times.ok().as_ref().map(spans),
    }
}

fn compound(material: &Material) -> Compound {
    Compound {
        name: material.name.clone(),
        class: word(&COMPOUNDS, material.class),
        source: material.sheet.source,
    }
}

fn length(Interval { low, high }: Interval) -> Length {
    Length {
        low_m: low,
        high_m: high,
    }
}

fn spans(times: &Times) -> Spans {
    let span = |time: Option<Interval>| {
        time.map(|Interval { low, high }| Span {
            low_s: low,
            high_s: high,
        })
    };
    Spans {
        working: span(times.working),
        skin: span(times.skin),
        cured: span(times.cured),
    }
}

fn next(step: Step) -> &'static str {
    match step {
        Step::Nothing => "nothing",
        Step::Insulate => "insulate",
        Step::Seal => "seal",
        Step::CoatCathode => "coat-heads",
        Step::Anode(_) => "anode",
        Step::KeepBare => "keep-bare",
        Step::Inspect => "inspect",
    }
}
