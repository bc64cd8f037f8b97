//! Housing, bearings and their seals.

use super::craft::Bearing;
use super::table::{ROW, Row, Table};

pub(super) const TABLE: Table = Table {
    group: "Housing and bearings",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "housing",
        name: "Housing sound, joint faces flat and bare",
        how: "Straightedge and leaf across each joint face. No crack from bolt hole, lug or vane \
              root. No paint under a bolt head or between faces.",
        minutes: 30,
        tools: &["straightedge", "leaves"],
        after: &["look-over", "threads"],
        ..ROW
    },
    Row {
        key: "seats",
        name: "Bearing seats and shaft measured",
        how: "Round and bright, the lips' track without a step a nail catches. Sizes against the \
              manual's where it gives any.",
        minutes: 20,
        after: &["housing"],
        ..ROW
    },
    Row {
        key: "bearings-in",
        name: "Press the bearings in",
        how: "Pushed on the ring that is tight, square, to its stop; warm housing or cold bearing as \
              the manual allows. A thin leaf finds no way behind it.",
        minutes: 30,
        tools: &["press"],
        needs: &["bearings"],
        caution: "The press stores force: goggles, guard on, out of line. Hot housing: gloves.",
        after: &["seats", "parts-here"],
        ..ROW
    },
    Row {
        key: "seals-in",
        name: "Press the shaft seals in",
        how: "Lips the way the manual draws them, clean, greased, the room between them packed. \
              Square, to the stated depth.",
        minutes: 20,
        tools: &["press"],
        needs: &["shaft-seals", "pump-grease"],
        after: &["bearings-in"],
        ..ROW
    },
    Row {
        key: "shaft-in",
        name: "Shaft, spacers, O-rings and circlip in",
        how: "O-rings new and greased, not rolled or cut; edges of spline or thread covered while \
              the lips pass. The circlip turns in its groove.",
        minutes: 25,
        needs: &["o-rings"],
        caution: "A circlip flies: goggles, a hand over it.",
        after: &["seals-in"],
        ..ROW
    },
    Row {
        key: "rotor",
        name: "Rotor on the dial and in the hand",
        how: "Turns without a notch. End float, radial play and runout on the dial, entered on \
              Teardown and held against the manual's limits.",
        minutes: 20,
        tools: &["dial"],
        after: &["shaft-in"],
        ..ROW
    },
    Row {
        key: "leak-first",
        name: "Leak test with the cone on dry",
        how: "Cone and O-ring on without sealant, gauge on the vent. Pressure or vacuum, hold and \
              allowed fall as the manual says; turn the shaft meanwhile. Entered on Teardown.",
        minutes: 25,
        tools: &["leak-gauge"],
        caution: "Low pressure only, as stated: too much blows a seal out, and a cone off.",
        after: &["rotor"],
        ..ROW
    },
    Row {
        key: "grease-in",
        name: "Pack the bearing housing with grease",
        how: "The sort and the amount the manual names: full means hot. No other soap left in there; \
              two kinds may not mix.",
        minutes: 15,
        needs: &["pump-grease"],
        after: &["leak-first"],
        when: |craft| craft.bearing == Bearing::Greased,
        ..ROW
    },
];
