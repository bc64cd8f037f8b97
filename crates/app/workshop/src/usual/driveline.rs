//! Mounts, coupling, alignment, drive shaft.

use super::craft::Driveline;
use super::table::{ROW, Row, Table};
use crate::plan::Gate;

pub(super) const TABLE: Table = Table {
    group: "Driveline",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "mounts",
        name: "Engine mounts sound and tight",
        how: "No torn or sagging rubber, no crack at the foot, bolts at the manual’s figure. Shims \
              as they were found, each at its own mount.",
        minutes: 25,
        tools: &["torque-wrench"],
        caution: "Battery out. Never under an engine that only a jack holds.",
        after: &["look-over"],
        ..ROW
    },
    Row {
        key: "coupling",
        name: "Coupling and its dampers looked at",
        how: "Bolts at the manual’s figure, rubber whole, spline without a step. The bumper is in \
              its hole.",
        minutes: 15,
        tools: &["torque-wrench"],
        needs: &["bumpers"],
        after: &["shaft-out", "parts-here"],
        ..ROW
    },
    Row {
        key: "hull-seal",
        name: "Through-hull seal and its bearing",
        how: "Face, bellows or lips new or without a mark, bearing smooth and greased, clamps square. \
              Vent or cooling line of the seal free. It keeps the water out of the hull.",
        minutes: 40,
        needs: &["hull-seal", "hose-clamps", "spline-grease"],
        after: &["shaft-out", "parts-here"],
        ..ROW
    },
    Row {
        key: "bar",
        name: "Gauge bar at four shaft angles",
        how: "Plate on the pump’s seat, bar into the coupling. With the shaft turned to 12, 3, 6 and \
              9 o’clock it slides by hand; where it binds says which way the engine lies off. Entered on \
              Measure.",
        minutes: 30,
        tools: &["gauge-bar"],
        after: &[
            "mounts",
            "coupling",
            "hull-seal",
            "shoe-proof",
            "intake-fair",
        ],
        when: |craft| craft.driveline == Driveline::GaugeBar,
        ..ROW
    },
    Row {
        key: "rim-and-face",
        name: "Rim and face on the dial at four angles",
        how: "Dial on one half, both turned together, read at 12, 3, 6 and 9 o’clock. Top and bottom \
              add up to left and right, or something slipped: read again. Sag of the bar taken off. Entered \
              on Measure.",
        minutes: 40,
        tools: &["dial"],
        caution: "Turned by hand, battery out, plugs out of the engine where its manual says so.",
        after: &[
            "mounts",
            "coupling",
            "hull-seal",
            "shoe-proof",
            "intake-fair",
        ],
        when: |craft| craft.driveline == Driveline::Dial,
        ..ROW
    },
    Row {
        key: "shims",
        name: "Shims under each mount, mounts torqued",
        how: "From the readings, front and rear by their distance: so much under each mount, both \
              sides. Write down what goes where; mounts torqued to the manual’s figure.",
        minutes: 45,
        hands: 2,
        tools: &["torque-wrench", "hoist"],
        needs: &["mount-shims"],
        caution: "The engine is lifted by its eyes only. No fingers under a mount.",
        after: &["bar", "rim-and-face"],
        when: |craft| craft.driveline != Driveline::Bolted,
        ..ROW
    },
    Row {
        key: "bar-again",
        name: "Gauge bar again, mounts torqued",
        how: "At all four angles as before: it slides, or the shims are wrong. Entered on \
              Measure: in line is what the last reading says, not the shims.",
        minutes: 20,
        tools: &["gauge-bar"],
        after: &["shims"],
        when: |craft| craft.driveline == Driveline::GaugeBar,
        ..ROW
    },
    Row {
        key: "rim-and-face-again",
        name: "Rim and face again, mounts torqued",
        how: "All four angles as before, within the manual’s limits, or the shims are wrong. \
              Entered on Measure: in line is what the last reading says, not the shims.",
        minutes: 25,
        tools: &["dial"],
        after: &["shims"],
        when: |craft| craft.driveline == Driveline::Dial,
        ..ROW
    },
    Row {
        key: "solid-coupling",
        name: "Solid coupling: faces and pilot clean, bolts torqued",
        how: "Faces bare and without a burr, pilot home, bolts in star order to the manual’s figure, \
              marked. Nothing can be aligned here; one tight place in a turn is a finding.",
        minutes: 30,
        tools: &["torque-wrench"],
        needs: &["thread-compound", "paint-pen"],
        after: &[
            "mounts",
            "coupling",
            "hull-seal",
            "shoe-proof",
            "intake-fair",
        ],
        when: |craft| craft.driveline == Driveline::Bolted,
        ..ROW
    },
    Row {
        key: "shaft-back",
        name: "Drive shaft in, splines greased",
        how: "Spline grease at both ends, O-rings and bumpers in, the seal’s lips or face not \
              touched by the spline. Home, its float felt, it turns by hand.",
        minutes: 25,
        needs: &["spline-grease", "o-rings"],
        gate: |craft| (craft.driveline != Driveline::Bolted).then_some(Gate::Aligned),
        after: &["bar-again", "rim-and-face-again", "solid-coupling"],
        ..ROW
    },
];
