//! Words for compounds, metals and what can hurt.

use joint::Interval;
use joint::compound::{Compound, OWN, Removal};
use joint::galvanic::{Measure, Metal, Step, Water};
use joint::meets::Rule;
use quantity::{Unit, format, number};
use workshop::job::Job;
use workshop::seals::hazard::Hazard;
use workshop::seals::open::Open;
use workshop::seals::{Material, Sealing};

/// What can hurt, and what guards against it.
pub(crate) fn caution(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::Solvent => {
            "Solvent: doors open, no flame or heater, gloves; nothing chlorinated near hot metal. \
             Soaked rags go into a lidded metal can outdoors."
        }
        Hazard::Skin => {
            "Uncured it sensitises the skin for good: nitrile gloves, changed often; wash with soap, \
             never with solvent."
        }
        Hazard::Isocyanate => {
            "It holds isocyanates until it has cured: gloves and fresh air; stay away with asthma. \
             Spraying takes a mask with air supplied, as its safety sheet says."
        }
        Hazard::Acid => "It gives off acetic acid: fresh air, goggles, not in a closed bilge.",
        Hazard::Vapour => {
            "Its vapour (an oxime or an alcohol, as its sheet says) harms eyes, skin and breath: \
             fresh air, gloves, goggles; no sanding before it has cured."
        }
        Hazard::Heat => {
            "It comes off with heat only: seals, fuel lines and sealant away first, fresh air, \
             gloves; hot aluminium looks like cold and loses its temper. Not beside fuel, not on a \
             painted casting: the craft’s manual decides."
        }
    }
}

/// `20 to 60 min`, `3 to 9 h`, `1.8 to 4.0 d`
pub(crate) fn span(time: Interval) -> String {
    let (unit, decimals) = if time.high < 7200.0 {
        (Unit::Minute, u32::from(time.low < 120.0))
    } else if time.high < 172_800.0 {
        (Unit::Hour, u32::from(time.low < 36_000.0))
    } else {
        (Unit::Day, 1)
    };
    let (low, high) = (
        number(time.low, unit, decimals),
        format(time.high, unit, decimals),
    );
    if high.split('\u{a0}').next() == Some(&low) {
        high
    } else {
        format!("{low} to {high}")
    }
}

/// The least of it: `20 min`.
pub(crate) fn least(time: Interval) -> String {
    span(Interval::point(time.low))
}

/// `18 °C and 60 %`, each with its origin where nobody stated it.
pub(crate) fn air(job: &Job) -> String {
    let (temperature, humidity) = (job.temperature(), job.humidity());
    let words = format!(
        "{} and {:.0}\u{a0}% humidity",
        format(temperature.value, Unit::Celsius, 0),
        humidity.value * 100.0
    );
    match (temperature.assumed, humidity.assumed) {
        (false, false) => words,
        (true, true) => format!("{words}, both assumed"),
        (true, false) => format!("{words}, the temperature assumed"),
        (false, true) => format!("{words}, the humidity assumed"),
    }
}

/// `salt water`
pub(crate) fn water(job: &Job) -> String {
    let water = job.water();
    let words = match water.value {
        Water::Fresh => "fresh water",
        Water::Brackish => "brackish water",
        Water::Salt => "salt water",
    };
    if water.assumed {
        format!("{words}, assumed")
    } else {
        words.to_owned()
    }
}

/// Where the figures of a compound come from.
pub(crate) fn source(material: &Material) -> String {
    match material.sheet.source {
        OWN => "its own data sheet, where that is silent its class".to_owned(),
        "from memory" => "its class, from memory".to_owned(),
        key => format!("data sheets of its class, {}", sheets(key)),
    }
}

/// What stands behind a key of `docs/references.bib`, in a few words.
fn sheets(key: &str) -> &str {
    match key {
        "shannahan-anaerobic" => "by an article on anaerobics",
        "anaerobic-questions" => "by a maker’s answers on anaerobics",
        "acetoxy-sheets" | "polyurethane-sheets" => "three of them",
        "neutral-sheet" => "one of them, and a guide",
        "sealant-guide-2018" => "by a boating magazine of 2018",
        "epoxy-makers" => "by makers of epoxy",
        "polyurethane-coating" => "by a maker of marine coatings",
        other => other,
    }
}

/// How it comes off again.
pub(crate) fn removal(removal: Removal) -> String {
    match removal {
        Removal::Wipe => "wiped off".to_owned(),
        Removal::HandTools => "the screw turns out with hand tools".to_owned(),
        Removal::Heat(heat) => format!(
            "the screw turns out hot, {} to {}",
            number(heat.low, Unit::Celsius, 0),
            format(heat.high, Unit::Celsius, 0)
        ),
        Removal::Cut => "cut and levered apart, the rest scraped with plastic".to_owned(),
        Removal::Grind => "ground or stripped".to_owned(),
    }
}

/// What is cleaned before such a compound goes on a thread.
pub(crate) fn clean_thread(compound: Option<Compound>) -> &'static str {
    match compound {
        Some(
            Compound::ThreadlockerLow | Compound::ThreadlockerMedium | Compound::ThreadlockerHigh,
        ) => {
            "both threads: old flakes out with brush or tap, then degreased and dry; grease stops \
             the cure"
        }
        Some(_) => "both threads: salt, old flakes and sealant out",
        None => "both threads and the seat of the head: salt, old flakes and grease off",
    }
}

/// How much of it goes on a thread.
pub(crate) fn dose(compound: Compound) -> &'static str {
    match compound {
        Compound::ThreadlockerLow | Compound::ThreadlockerMedium | Compound::ThreadlockerHigh => {
            "a few drops over the length that is held; in a blind hole at its bottom too"
        }
        Compound::PtfePaste => {
            "round the thread, the first turn left free, so that no shred gets into the water"
        }
        _ => "a thin coat on the thread and under the head",
    }
}

/// A metal as people call it.
pub(crate) fn metal(metal: Metal) -> &'static str {
    match metal {
        Metal::Carbon => "carbon",
        Metal::Titanium => "titanium",
        Metal::Stainless316 => "stainless A4",
        Metal::Stainless304 => "stainless A2",
        Metal::Stainless17_4 => "stainless 17-4",
        Metal::NickelAluminiumBronze => "nickel-aluminium bronze",
        Metal::TinBronze => "tin bronze",
        Metal::Copper => "copper",
        Metal::AluminiumBronze => "aluminium bronze",
        Metal::Brass => "brass",
        Metal::Active316 | Metal::Active304 => "stainless without its skin",
        Metal::Steel => "steel",
        Metal::Aluminium => "aluminium",
        Metal::Zinc => "zinc",
        Metal::AnodeAluminium => "anode aluminium",
        Metal::Magnesium => "magnesium",
    }
}

/// The next thing to do about a contact.
pub(crate) fn step(step: Step) -> String {
    match step {
        Step::Nothing => "nothing to do".to_owned(),
        Step::Insulate => {
            "insulate: a washer under the head and a sleeve round the shank, of nylon, acetal or \
             glass fibre"
                .to_owned()
        }
        Step::Seal => {
            "keep the water out: thread and head bedded in what seals, its edge closed".to_owned()
        }
        Step::CoatCathode => {
            "paint the heads of the screws, not only what is round them".to_owned()
        }
        Step::Anode(metal) => format!(
            "an anode of {}, bare metal to bare metal with both",
            self::metal(metal)
        ),
        Step::KeepBare => "keep it bare and connected: it is the anode at work".to_owned(),
        Step::Inspect => "look at it each season: nothing more can be done".to_owned(),
    }
}

/// A measure that was said to be taken.
pub(crate) fn taken(measure: Measure) -> bool {
    measure == Measure::Taken
}

/// `grease would meet polyurethane: …`
pub(crate) fn meeting(rule: &Rule) -> String {
    let [one, other] = rule.pair;
    let with = rule
        .with
        .map_or_else(String::new, |with| format!(" in {with}"));
    format!("{one} and {other}{with}: {}", rule.harm)
}

/// What keeps a joint open.
pub(crate) fn open(open: &Open) -> String {
    let celsius = |kelvin: f64| format(kelvin, Unit::Celsius, 0);
    match open {
        Open::Clash(rule) => format!(
            "These must not meet: {}. Clean one off, or take another compound ({}).",
            meeting(rule),
            rule.source
        ),
        Open::Stale { name, age } => format!(
            "{name} is {} days old and surely keeps {} days. Take a fresh one.",
            age.days, age.keeps
        ),
        Open::NoBead { least, most } => format!(
            "No bead both seals and stays clear: {} is the least that seals, and from {} on it \
             reaches an edge or a water passage. Dress the faces until the gap varies less, or say \
             how much room there really is.",
            format(*least, Unit::Millimetre, 2),
            format(*most, Unit::Millimetre, 2)
        ),
        Open::NotHere {
            name,
            temperature,
            applied,
        } => format!(
            "It is {} at the bench, and {name} is put on from {} to {}. Bring the parts there first.",
            celsius(*temperature),
            celsius(applied.low),
            celsius(applied.high)
        ),
        Open::ThreadDiffers => {
            "What was said to be on the thread is not what the joint is described with now. Say anew \
             what is on it."
                .to_owned()
        }
        Open::NoSealantThere => {
            "A bead is described, and the joint is described without sealant between its faces. \
             Change one of the two."
                .to_owned()
        }
    }
}

/// A line of the journal.
pub(crate) fn journal(said: &Sealing) -> String {
    match said {
        Sealing::Bench(_) => "water and air of the bench stated".to_owned(),
        Sealing::Compound { compound, .. } => format!("compound described: {}", compound.name),
        Sealing::Thread { joint, thread } => {
            format!("{joint}: {} on the thread", thread.with.word())
        }
        Sealing::Seal { joint, seal } => format!("{joint}: bead of {} described", seal.with.word()),
        Sealing::Contact { joint, .. } => format!("{joint}: metals stated"),
    }
}
