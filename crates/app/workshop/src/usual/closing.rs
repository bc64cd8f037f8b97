//! Closing up ashore: anodes, the round of marks, the short run on the hose, the plugs.

use super::table::{Kind, ROW, Row, Table, Time};

pub(super) const TABLE: Table = Table {
    group: "Closing up ashore",
    rows: ROWS,
    times: TIMES,
};

const ROWS: &[Row] = &[
    Row {
        key: "anode",
        name: "Anodes on bare metal",
        how: "Face under each brushed bare, no paint, no grease, no sealant; bolt tight. The ohmmeter \
              says metal to metal. Anodes are never painted.",
        minutes: 20,
        tools: &["ohmmeter"],
        needs: &["anodes"],
        after: &["nozzle-on", "parts-here"],
        ..ROW
    },
    Row {
        key: "marks",
        name: "Round of the paint marks",
        how: "Every bolt of pump, nozzle, grate, plate, mounts and coupling has its mark, and none \
              has moved. A bolt in cured locker or sealant is looked at, not turned again.",
        minutes: 20,
        needs: &["paint-pen"],
        after: &["plate-on", "boots", "anode"],
        ..ROW
    },
    Row {
        key: "free-turn",
        name: "Whole turn by hand, no tight place",
        how: "By the impeller’s hub or the coupling: no rub, no knock. Steering, gate and trim once \
              more through their range.",
        minutes: 10,
        caution: "Battery and lanyard off. Blade edges cut.",
        after: &["marks"],
        ..ROW
    },
    Row {
        key: "bilge",
        name: "Bilge empty, clean and dry",
        how: "No rag, tool, clamp or bolt left; tools counted as at the beginning. Dry, so that the \
              first drop at the ramp is new.",
        minutes: 20,
        after: &["hose-labels", "seams", "coolant-holds", "marks"],
        ..ROW
    },
    Row {
        key: "battery",
        name: "Battery in, bilge aired",
        how: "Positive lead first, terminals tight and covered, strap on. No smell of fuel before a \
              switch is touched.",
        minutes: 15,
        caution: "Fuel vapour: air and smell the bilge first. Nobody at pump, gate or trim.",
        after: &["free-turn", "bilge", "speed-sensor"],
        ..ROW
    },
    Row {
        key: "hose-run",
        name: "Short run on the cooling hose, lanyard tried",
        how: "As short as the manual allows: the hull seal runs dry. Tell-tale runs, no drop in the \
              hull, and the lanyard stops the engine at once.",
        minutes: 15,
        hands: 2,
        needs: &["flush-hose"],
        caution: "Never run without cooling water; the manual’s order of engine and tap, or water \
                  floods it. Outdoors: fumes. Nobody at pump or nozzle.",
        after: &["battery", "relearn", "hoses-on"],
        ..ROW
    },
    Row {
        key: "nothing-left",
        name: "Nothing forgotten",
        how: "Go through what is accounted for: plugs, clips, hoses, cables, guards, sensors, and \
              what must come off again. What is left off has its reason in the plan.",
        minutes: 20,
        after: &["hose-run"],
        ..ROW
    },
    Row {
        key: "plugs",
        name: "Hull drain plugs in, last of all",
        how: "Seals whole, in and tight by hand, counted against the bag they went into. Two people \
              have seen them.",
        minutes: 5,
        after: &["nothing-left"],
        ..ROW
    },
];

const TIMES: &[Time] = &[
    Time {
        kind: Kind::Wait,
        first: "pump-torque",
        then: "plugs",
        minutes: 1440,
        why: "seal of the pump cured before water: assumed, from no manual; look up the cure at your temperature \
          and humidity in the sealant’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "plate-on",
        then: "plugs",
        minutes: 1440,
        why: "seal of the plate cured before water: assumed, from no manual; look up the cure at your temperature \
          and humidity in the sealant’s data sheet",
    },
];
