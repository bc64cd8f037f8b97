//! Steering, reverse, trim, and their sensors.

use super::craft::Has;
use super::table::{ROW, Row, Table};

pub(super) const TABLE: Table = Table {
    group: "Controls",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "steering",
        name: "Steering: bars straight, nozzle straight",
        how: "Cable end on at its counted turns. Bars held straight, the nozzle stands straight by \
              rule against the hull; lock to lock the same on both sides, no cable bent at full lock.",
        minutes: 25,
        hands: 2,
        after: &["pump-torque"],
        ..ROW
    },
    Row {
        key: "gate-on",
        name: "Reverse gate and its linkage on",
        how: "Bushes and pins without play, greased. Spring hooked as the photograph shows.",
        minutes: 25,
        needs: &["pump-grease"],
        caution: "The gate’s spring snaps. Fingers out of the linkage, goggles.",
        after: &["pump-torque"],
        when: |craft| craft.has(Has::Reverse),
        ..ROW
    },
    Row {
        key: "gate-clear",
        name: "Gate clear of the jet",
        how: "Lever forward: the gate’s edge clears the nozzle’s bore at full steering and at both \
              ends of the trim. Reverse and neutral at their stops.",
        minutes: 20,
        hands: 2,
        caution: "Hand out of the gate before somebody moves the lever.",
        after: &["gate-on", "steering", "trim"],
        when: |craft| craft.has(Has::Reverse),
        ..ROW
    },
    Row {
        key: "trim",
        name: "Trim through its whole range",
        how: "Rod and clevis on, up and down to both stops, no touch of hose, gate or plate. \
              The display says what the nozzle does.",
        minutes: 20,
        caution: "The trim rod crushes and its spring snaps. Hands out while it is driven.",
        after: &["steering"],
        when: |craft| craft.has(Has::Trim),
        ..ROW
    },
    Row {
        key: "locks",
        name: "Jam nuts locked, cotter pins new and bent",
        how: "Every ball joint, clevis and cable end: threads in as far as the manual asks, nut \
              locked, pin through and bent, moved once more by hand.",
        minutes: 20,
        needs: &["cotter-pins"],
        caution: "A steering joint that comes off leaves no steering: a second person looks at each.",
        after: &["steering", "gate-clear", "trim"],
        ..ROW
    },
    Row {
        key: "boots",
        name: "Boots and grommets tight",
        how: "Bellows whole, on their lips, clips on. Where a cable goes through the hull the nut is \
              tight: it lies below the waterline.",
        minutes: 15,
        needs: &["boot-clips"],
        after: &["locks"],
        ..ROW
    },
    Row {
        key: "speed-sensor",
        name: "Speed sensor and plugs of the sensors",
        how: "Paddle turns free, no weed behind it. Every plug clicked, dry, with its seal in; leads \
              off the steering’s way.",
        minutes: 15,
        after: &["plate-on"],
        ..ROW
    },
    Row {
        key: "relearn",
        name: "Sensors relearned",
        how: "Throttle, steering and reverse positions by the manual’s own procedure, battery on and \
              charged. No warning is left on the display.",
        minutes: 30,
        caution: "Nobody at gate, trim or nozzle while the system moves them. Lanyard off: the engine \
                  must not start.",
        after: &["battery", "speed-sensor", "locks"],
        when: |craft| craft.has(Has::ByWire),
        ..ROW
    },
];
