//! Tasks that come round again, as general practice has them.
//!
//! Common practice, no source: the craft's manual wins wherever it names a figure.

use super::{Edge, Mishap};

/// A task as general practice has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Task {
    /// Names it; no rule of a person's own may.
    pub key: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// How it is done, a line a step.
    pub how: &'static [&'static str],
    /// Engine hours from one time to the next.
    pub hours: Option<u16>,
    /// Months from one time to the next.
    pub months: Option<u8>,
    /// At once after these.
    pub after: &'static [Mishap],
    /// At an edge of the season.
    pub edge: Option<Edge>,
    /// After every run that calls for it, rather than by the clock.
    pub every: Option<&'static str>,
    /// What can hurt; empty where nothing is.
    pub caution: &'static str,
}

const TASK: Task = Task {
    key: "",
    name: "",
    how: &[],
    hours: None,
    months: None,
    after: &[],
    edge: None,
    every: None,
    caution: "",
};

/// Said wherever a hand goes into the pump.
const HANDS: &str = "Engine off, lanyard off, battery off before a hand is in the pump or the intake. \
                     Blade edges cut.";

/// All, in the order they are listed.
pub const TASKS: &[Task] = &[
    Task {
        key: "gap",
        name: "Gap by leaf, blades and edges",
        how: &[
            "The gap at four clock positions of every blade at least, under Measure.",
            "Leading edges and tips of all blades: nicks, bends, a bright rim where the ring is touched.",
        ],
        hours: Some(25),
        months: Some(12),
        after: &[Mishap::Sand, Mishap::Thrust],
        caution: HANDS,
        ..TASK
    },
    Task {
        key: "strike",
        name: "After a strike",
        how: &[
            "Ring: gap at four clock positions of every blade at least, grooves, cracks, a ring that turned.",
            "Blades: every edge and tip, a bent blade against its neighbours.",
            "Vanes of the stator: cracks at the roots, dents in the leading edges.",
            "Shaft: runout on the dial; coupling and alignment of the driveline.",
            "Intake: grate, its bolts, the shoe and its seal.",
            "Seal and lubricant: milky means water. Then a slow run, and no vibration that was not there before.",
        ],
        after: &[Mishap::Strike],
        caution: HANDS,
        ..TASK
    },
    Task {
        key: "lubricant",
        name: "Lubricant of the housing",
        how: &[
            "A drop on white paper. Milky means water, and water means the seal: renew the seal, not only the oil.",
            "Glitter means the bearing. Then drain, flush, fill with the sort the manual names, new washers under \
             the plugs.",
        ],
        hours: Some(50),
        months: Some(12),
        after: &[Mishap::Milky, Mishap::Hot],
        edge: Some(Edge::LayUp),
        ..TASK
    },
    Task {
        key: "splines",
        name: "Splines cleaned and greased",
        how: &[
            "Old grease and salt off both halves; a step a fingernail catches is wear, and goes under Teardown.",
            "The grease the manual names, in the splines only, none where a thread is locked.",
        ],
        hours: Some(50),
        months: Some(12),
        ..TASK
    },
    Task {
        key: "anode",
        name: "Anodes",
        how: &[
            "Renewed when half is gone, by eye or by weight against a new one.",
            "Bare metal under it, never painted; the ohmmeter says metal to metal.",
            "One that does not shrink at all is not connected.",
        ],
        months: Some(3),
        ..TASK
    },
    Task {
        key: "cables",
        name: "Steering, gate and trim cables",
        how: &[
            "Full travel both ways without a hard place; boots whole, jam nuts tight, cotter pins new.",
            "No play at the nozzle that the bars do not answer.",
        ],
        hours: Some(50),
        months: Some(12),
        ..TASK
    },
    Task {
        key: "clamps",
        name: "Hoses and clamps",
        how: &[
            "Every clamp of cooling, exhaust and bailers turned to feel; no rust, no cut under the band.",
            "Hoses bent between two fingers: a crack that opens is a hose to renew.",
        ],
        months: Some(12),
        after: &[Mishap::Hot],
        ..TASK
    },
    Task {
        key: "hot",
        name: "After it ran hot",
        how: &[
            "Flow at the telltale on the hose, within the time the manual allows.",
            "Intake, strainer and hoses clear; exhaust hoses and their liners looked at for scorching.",
            "Wear ring and seal looked at: heat swells a plastic ring.",
        ],
        after: &[Mishap::Hot],
        caution: "A hot engine’s cooling system is opened only when it is cold.",
        ..TASK
    },
    Task {
        key: "flush",
        name: "Flush after the run",
        how: &[
            "Start the engine first, then turn the water on; water off first, then the engine: so no water stands \
             in the exhaust.",
            "Idle only, and no longer out of the water than the manual allows.",
            "Rinse pump, grate, gate and pivots. Weed and rope out by hand.",
            "Turn the impeller by hand and listen. Drain the bilge, look at the anode.",
        ],
        every: Some("after every run in salt, silt or sand"),
        caution: "Exhaust gas kills: in the open air only. Engine off, lanyard off before a hand is in the pump.",
        ..TASK
    },
    Task {
        key: "beach",
        name: "Sand out after a beach",
        how: &[
            "Float it off by hand; never start it over sand in knee-deep water.",
            "Rock it and rinse grate, nozzle and gate; the gate moves without grinding.",
            "Turn the impeller by hand: it grates while sand is between blade and ring, so rinse until it does not.",
            "Flush as above, longer, and listen to the bearing.",
        ],
        after: &[Mishap::Sand],
        every: Some("after every beach"),
        caution: HANDS,
        ..TASK
    },
    Task {
        key: "lay-up",
        name: "Lay-up",
        how: &[
            "Cooling water drained or displaced, bailer lines blown out: what is left freezes and splits.",
            "Fuel drained or stabilised, cylinders fogged, battery out and kept charged, as the manual says.",
            "The gap once more: the season’s last reading. Lubricant looked at and renewed. Splines greased.",
            "Intake and nozzle covered against animals, with a tag at the lanyard that says so.",
            "What is left for the winter written down, with part numbers and a day.",
        ],
        edge: Some(Edge::LayUp),
        caution: "Fuel vapour: in the open, nothing that sparks near.",
        ..TASK
    },
    Task {
        key: "launch",
        name: "Before the first launch",
        how: &[
            "Covers off intake and nozzle. Nothing nests in them.",
            "Paint marks in line, hoses and clamps dry, the gap once more.",
            "A short run, then look for leaks: bilge, cone, hose ends.",
        ],
        edge: Some(Edge::Launch),
        caution: HANDS,
        ..TASK
    },
];

/// The task of a key.
pub fn task(key: &str) -> Option<&'static Task> {
    TASKS.iter().find(|task| task.key == key)
}
