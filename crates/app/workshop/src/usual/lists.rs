//! What the steps need and hold, and what is accounted for in the end.

use super::table::{Named, Thing};
use crate::plan::ItemKind;

/// Parts and consumables. Sorts and sizes are the manual's to name.
pub(super) const PARTS: &[Named] = &[
    ("tags", "Tags and bags"),
    ("cleaner", "Cleaner for salt and grease"),
    ("bearings", "Pump bearings"),
    ("shaft-seals", "Shaft seals of the pump"),
    ("o-rings", "O-rings of pump and shaft"),
    ("pump-grease", "Marine grease, the sort the manual names"),
    ("pump-oil", "Oil for the bearing housing"),
    ("plug-washers", "Washers of the oil plugs"),
    ("wear-ring", "Wear ring"),
    (
        "ring-adhesive",
        "Adhesive for the ring, with its data sheet",
    ),
    ("ring-shims", "Shims of the conical ring"),
    ("degreaser", "Degreaser and clean rags"),
    ("sealant", "Sealant, with its data sheet"),
    (
        "thread-compound",
        "Thread compounds the manual names, joint by joint",
    ),
    ("paint-pen", "Paint pen for marks"),
    ("paint", "Primer and paint for the nozzle"),
    ("spline-grease", "Grease for splines and hull bearing"),
    ("bumpers", "Bumpers and dampers of the shaft"),
    ("mount-shims", "Shims for the engine mounts"),
    ("hull-seal", "Through-hull seal"),
    (
        "shoe-adhesive",
        "Adhesive for the pump shoe, with its data sheet",
    ),
    (
        "resin",
        "Resin and filler for the hull, with their data sheets",
    ),
    ("pump-seal", "Seal of pump to shoe"),
    ("hoses", "Hoses for cooling and bailers"),
    ("hose-clamps", "Hose clamps"),
    ("hose-sleeves", "Sleeves or paint for hose labels"),
    ("cotter-pins", "Cotter pins and jam nuts"),
    ("boot-clips", "Clips of the boots"),
    ("coolant", "Coolant the manual names"),
    ("anodes", "Anodes"),
    ("flush-hose", "Cooling hose with its adapter"),
];

pub(super) const TOOLS: &[Named] = &[
    ("leaves", "Feeler leaves"),
    ("straightedge", "Straightedge"),
    ("press", "Press"),
    ("hoist", "Hoist or strap"),
    ("shaft-holder", "Shaft holder"),
    ("impeller-tool", "Impeller tool"),
    ("torque-wrench", "Torque wrenches"),
    ("dial", "Dial gauge on its stand"),
    ("leak-gauge", "Hand pump with pressure and vacuum gauge"),
    ("gauge-bar", "Gauge bar of the driveline"),
    ("lamp", "Cold lamp or smoke"),
    ("ohmmeter", "Ohmmeter"),
];

const fn plug(key: &'static str, name: &'static str, step: &'static str) -> Thing {
    thing(key, name, ItemKind::Plug, step)
}

const fn thing(key: &'static str, name: &'static str, kind: ItemKind, step: &'static str) -> Thing {
    Thing {
        key,
        name,
        kind,
        count: 1,
        step,
    }
}

const fn two(thing: Thing) -> Thing {
    Thing { count: 2, ..thing }
}

use ItemKind::{Cable, Clip, Guard, Hose, Other, Sensor, Temporary};

/// How many there are is as assumed as the rest.
pub(super) const THINGS: &[Thing] = &[
    two(plug("drain-plugs", "Hull drain plugs", "plugs")),
    two(plug(
        "oil-plugs",
        "Filler and level plug of the bearing housing",
        "oil-in",
    )),
    plug(
        "housing-vent",
        "Vent or test plug of the bearing housing",
        "leak-again",
    ),
    plug(
        "coolant-cap",
        "Cap and bleed screws of the coolant",
        "coolant-in",
    ),
    plug("flush-cap", "Cap of the flush port", "hose-run"),
    thing("circlip", "Circlip of the pump shaft", Clip, "shaft-in"),
    thing(
        "cooling-clamps",
        "Clamps at every end of feed and return",
        Clip,
        "hoses-on",
    ),
    thing(
        "bailer-clamps",
        "Clamps at every end of the bailer lines",
        Clip,
        "hoses-on",
    ),
    thing(
        "hull-seal-clamps",
        "Clamps of the through-hull seal",
        Clip,
        "hull-seal",
    ),
    thing(
        "cotters",
        "Cotter pins of steering, gate and trim",
        Clip,
        "locks",
    ),
    thing("boots", "Boots and their clips", Clip, "boots"),
    thing("feed-hose", "Cooling feed", Hose, "feed"),
    thing(
        "return-hose",
        "Cooling return and tell-tale",
        Hose,
        "return",
    ),
    thing(
        "bailer-hose-one",
        "First bailer line, vent hole open",
        Hose,
        "bailer-one",
    ),
    thing(
        "bailer-hose-two",
        "Second bailer line, vent hole open",
        Hose,
        "bailer-two",
    ),
    two(thing(
        "plate-hoses",
        "Coolant hoses of the ride plate",
        Hose,
        "coolant-in",
    )),
    thing(
        "exhaust-hoses",
        "Exhaust hoses near the work",
        Hose,
        "seams",
    ),
    thing(
        "steering-cable",
        "Steering cable, jam nut locked",
        Cable,
        "locks",
    ),
    thing(
        "gate-cable",
        "Cable of the reverse gate, spring hooked",
        Cable,
        "gate-clear",
    ),
    thing("trim-rod", "Trim rod or cable", Cable, "trim"),
    thing("grate-guard", "Intake grate", Guard, "grate"),
    thing("plate-guard", "Ride plate", Guard, "plate-on"),
    thing(
        "shaft-guard",
        "Guard over coupling and shaft",
        Guard,
        "bilge",
    ),
    thing(
        "strainers",
        "Strainers of feed and bilge",
        Guard,
        "strainer",
    ),
    thing(
        "speed-lead",
        "Plug of the speed sensor",
        Sensor,
        "speed-sensor",
    ),
    thing("trim-lead", "Plug of the trim sensor", Sensor, "trim"),
    thing(
        "wire-leads",
        "Plugs of throttle, steering and reverse sensors",
        Sensor,
        "relearn",
    ),
    thing(
        "battery-leads",
        "Battery leads, covers and strap",
        Other,
        "battery",
    ),
    thing("anodes-on", "Anodes, bare and unpainted", Other, "anode"),
    thing("dowels", "Dowels of the housing joint", Other, "close"),
    thing(
        "shaft-bumpers",
        "Bumpers of the drive shaft",
        Other,
        "shaft-back",
    ),
    thing(
        "paper-tags",
        "Paper tags of the teardown, off again",
        Temporary,
        "hose-labels",
    ),
    thing(
        "hose-stoppers",
        "Stoppers in hoses and passages, out again",
        Temporary,
        "hoses-on",
    ),
    thing(
        "rags",
        "Rags in intake, pump and bilge, out again",
        Temporary,
        "bilge",
    ),
    thing(
        "masking",
        "Masking on nozzle and anode faces, off again",
        Temporary,
        "nozzle-paint",
    ),
    thing(
        "spline-cover",
        "Cover on spline or thread, off again",
        Temporary,
        "shaft-in",
    ),
    thing(
        "leak-cap",
        "Test adapter and caps of the leak test, off again",
        Temporary,
        "leak-again",
    ),
    thing(
        "holder",
        "Shaft holder, off again",
        Temporary,
        "impeller-on",
    ),
    thing(
        "stand-ins",
        "Bolts that only stood in, replaced",
        Temporary,
        "marks",
    ),
    thing(
        "ramp-strap",
        "Strap at the ramp, off again",
        Temporary,
        "idle",
    ),
];
