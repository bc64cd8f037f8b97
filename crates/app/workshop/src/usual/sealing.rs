//! The sealing of the housing: a chain that may not wait, and what proves it.

use super::craft::{Bearing, Has};
use super::table::{Kind, ROW, Row, Table, Time};
use crate::plan::Gate;

pub(super) const TABLE: Table = Table {
    group: "Sealing the housing",
    rows: ROWS,
    times: TIMES,
};

const ROWS: &[Row] = &[
    Row {
        key: "lay-ready",
        name: "Lay ready all that the sealing needs, read its data sheets",
        how: "Sealant, degreaser, rags, bolts with their compound, wrench set to its figure, clock. \
              Read working time, cure and temperature on the sheet and put them into this plan.",
        minutes: 20,
        needs: &["sealant", "degreaser", "thread-compound"],
        after: &["gap", "grease-in", "leak-first"],
        ..ROW
    },
    Row {
        key: "degrease",
        name: "Degrease both faces",
        how: "Built apart again, shims and dowels laid by. Clean rag after clean rag until one stays \
              white, then no finger on it.",
        minutes: 12,
        needs: &["degreaser"],
        caution: "Solvent: window open, gloves, no flame.",
        after: &["lay-ready"],
        ..ROW
    },
    Row {
        key: "spread",
        name: "Spread the sealant",
        how: "One unbroken bead inside the bolt circle and round each hole, none where it can reach \
              water passage or bearing. Skinned? Say it must be done again: wipe off, degrease and \
              spread anew.",
        minutes: 5,
        needs: &["sealant"],
        gate: |_| Some(Gate::GapIn),
        caution: "Sealant on skin and in eyes: gloves, goggles.",
        irreversible: true,
        after: &["degrease"],
        ..ROW
    },
    Row {
        key: "close",
        name: "Close the joint, run the bolts down",
        how: "Straight down on its dowels, bolts by hand in star order. An even line of sealant all \
              round, wiped; passages looked through.",
        minutes: 8,
        most: 10,
        needs: &["thread-compound"],
        counted: Some(|counts| counts.housing),
        caution: "Blade edges cut. Gloves on.",
        after: &["spread"],
        ..ROW
    },
    Row {
        key: "torque",
        name: "Torque the housing bolts",
        how: "In passes and order as Torque and seal says, the last pass round until none moves. \
              Marked with paint. The rotor still turns free.",
        minutes: 12,
        tools: &["torque-wrench"],
        needs: &["paint-pen"],
        after: &["close"],
        ..ROW
    },
    Row {
        key: "cone",
        name: "Seat the tail cone",
        how: "New O-ring greased, or a bead, as the manual draws it; hole of the vent where it \
              belongs. All screws to contact, then the turn or torque the manual gives.",
        minutes: 10,
        needs: &["o-rings", "thread-compound"],
        counted: Some(|counts| counts.cone),
        after: &["torque"],
        ..ROW
    },
    Row {
        key: "gap-bench",
        name: "Gap once more, housing bolts torqued",
        how: "A few spots, the tightest among them, on Teardown as the reading after the last torque. \
              A housing that was pulled shows here while it can still be opened.",
        minutes: 20,
        tools: &["leaves"],
        caution: "Turn the impeller by its hub; blade edges cut.",
        after: &["torque"],
        ..ROW
    },
    Row {
        key: "leak-again",
        name: "Leak test again, closed for good",
        how: "When the sealant has cured. As before: stated pressure or vacuum, shaft turned, entered \
              on Teardown. Only a tight housing goes into the hull.",
        minutes: 25,
        tools: &["leak-gauge"],
        caution: "Low pressure only, as stated: too much blows a seal or a bead out.",
        after: &["cone"],
        ..ROW
    },
    Row {
        key: "oil-in",
        name: "Fill the bearing housing with oil",
        how: "The oil and the level the manual names, vent open, shaft turned for the air. Plug with \
              a new washer, torqued; wiped dry, still dry in the morning.",
        minutes: 20,
        needs: &["pump-oil", "plug-washers"],
        after: &["leak-again"],
        when: |craft| craft.bearing == Bearing::OilFilled,
        ..ROW
    },
    Row {
        key: "nozzle-paint",
        name: "Paint the nozzle outside",
        how: "Bore, joint face, bushes, bolt seats and the bare spot of the anode masked. Primer for \
              aluminium; no copper in the paint.",
        minutes: 30,
        needs: &["paint"],
        caution: "Spray: mask and window, no flame. Sanding dust: mask.",
        after: &["look-over", "threads"],
        when: |craft| craft.has(Has::PaintedNozzle),
        ..ROW
    },
    Row {
        key: "nozzle-on",
        name: "Fit the nozzle",
        how: "Bore and exit edge clean and round, bolts with their compound, torqued and marked. The \
              steering nozzle swings on greased bushes without play.",
        minutes: 25,
        tools: &["torque-wrench"],
        needs: &["thread-compound", "pump-grease", "paint-pen"],
        counted: Some(|counts| counts.nozzle),
        temporary: true,
        after: &["leak-again", "oil-in", "gap-bench", "nozzle-paint"],
        ..ROW
    },
];

const TIMES: &[Time] = &[
    Time {
        kind: Kind::Begun,
        first: "degrease",
        then: "spread",
        minutes: 30,
        why: "a clean face stays clean so long: assumed, from no manual; put in what the sealant’s data \
              sheet says of surface preparation",
    },
    Time {
        kind: Kind::Done,
        first: "spread",
        then: "close",
        minutes: 15,
        why: "working time: assumed, from no manual; look up “working time” or “skin time” at your \
              temperature in the sealant’s data sheet",
    },
    Time {
        kind: Kind::Begun,
        first: "close",
        then: "torque",
        minutes: 15,
        why: "torqued before it skins: assumed, from no manual; look up “skin time” in the sealant’s data \
              sheet",
    },
    Time {
        kind: Kind::Begun,
        first: "torque",
        then: "cone",
        minutes: 20,
        why: "the cone is seated while the sealant is wet: assumed, from no manual; look up “skin time” in \
              the sealant’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "cone",
        then: "leak-again",
        minutes: 1440,
        why: "cure before pressure: assumed, from no manual; look up the cure for this bead at your \
              temperature and humidity in the sealant’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "nozzle-paint",
        then: "nozzle-on",
        minutes: 1440,
        why: "paint hard before it is bolted: assumed, from no manual; look up “dry through” on the can or \
              its data sheet",
    },
];
