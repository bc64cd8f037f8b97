//! The ride plate, and the engine's coolant where it passes through it.

use super::craft::Has;
use super::table::{ROW, Row, Table};

pub(super) const TABLE: Table = Table {
    group: "Ride plate",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "plate-ready",
        name: "Ride plate and its seat ready",
        how: "Plate straight by rule, front edge whole, inserts hold. Seat bare; old sealant off, new \
              seal cut or laid ready.",
        minutes: 25,
        tools: &["straightedge"],
        after: &["intake-fair", "parts-here"],
        ..ROW
    },
    Row {
        key: "plate-pressed",
        name: "Cooling passage of the plate holds",
        how: "Flushed until clear, then the manual’s pressure held under water: no bubble. Barbs \
              straight.",
        minutes: 30,
        tools: &["leak-gauge"],
        caution: "Low pressure only, as the manual states. Goggles.",
        after: &["plate-ready"],
        when: |craft| craft.has(Has::CoolingPlate),
        ..ROW
    },
    Row {
        key: "plate-on",
        name: "Ride plate on",
        how: "Sealed where the manual shows it, bolts with their compound, middle ones first, torqued \
              and marked. Flush with the hull at its front edge: no step into the flow.",
        minutes: 30,
        hands: 2,
        tools: &["torque-wrench"],
        needs: &["sealant", "thread-compound", "paint-pen"],
        counted: Some(|counts| counts.plate),
        caution: "Held from below, it falls on whoever holds it: two people, goggles.",
        after: &["plate-ready", "plate-pressed", "grate"],
        ..ROW
    },
    Row {
        key: "coolant-in",
        name: "Coolant in, air out",
        how: "Hoses of the plate on and clamped. The coolant and amount the manual names, bled in its \
              order; what went in against what came out.",
        minutes: 40,
        needs: &["coolant", "hose-clamps"],
        caution: "Poison: catch every drop. Never opened hot.",
        after: &["plate-on"],
        when: |craft| craft.has(Has::CoolingPlate),
        ..ROW
    },
    Row {
        key: "coolant-holds",
        name: "Coolant holds",
        how: "Under the manual’s test pressure, or over night by its level: no drop at hoses, plate or \
              pump.",
        minutes: 20,
        tools: &["leak-gauge"],
        after: &["coolant-in"],
        when: |craft| craft.has(Has::CoolingPlate),
        ..ROW
    },
];
