//! What carries water: cooling, bailers, and what keeps it out of the hull.

use super::craft::Has;
use super::table::{ROW, Row, Table};

pub(super) const TABLE: Table = Table {
    group: "Wet systems",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "strainer",
        name: "Strainers clean and home",
        how: "That of the cooling feed at the pump and those of the bilge: out, rinsed, whole, back \
              in. Sand in one means sand in the jacket.",
        minutes: 15,
        after: &["clean"],
        ..ROW
    },
    Row {
        key: "feed",
        name: "Cooling feed",
        how: "Port at the pump probed free. Hose without a soft place or a kink, over the barb’s \
              bead, barb not pinched oval, clamp square behind the bead.",
        minutes: 20,
        needs: &["hoses", "hose-clamps"],
        after: &["strainer", "parts-here"],
        ..ROW
    },
    Row {
        key: "return",
        name: "Cooling return and tell-tale",
        how: "Blown through from the engine end, tell-tale free. Clamps square, no hose on the \
              exhaust or on the shaft.",
        minutes: 20,
        needs: &["hoses", "hose-clamps"],
        after: &["pump-torque"],
        ..ROW
    },
    Row {
        key: "bailer-one",
        name: "First bailer line",
        how: "Pick-up at the lowest place of the bilge, venturi at the pump free. The vent hole at \
              the top of its loop is open to a pin and stands above the waterline.",
        minutes: 20,
        needs: &["hoses", "hose-clamps"],
        caution: "A blocked vent hole lets the sea run in through the bailer while the craft lies still.",
        after: &["clean", "parts-here"],
        ..ROW
    },
    Row {
        key: "bailer-two",
        name: "Second bailer line",
        how: "As the first, with a vent hole of its own: open to a pin, at the top of its loop, above \
              the waterline.",
        minutes: 15,
        needs: &["hoses", "hose-clamps"],
        caution: "A blocked vent hole lets the sea run in through the bailer while the craft lies still.",
        after: &["bailer-one"],
        when: |craft| craft.has(Has::SecondBailer),
        ..ROW
    },
    Row {
        key: "hoses-on",
        name: "Every hose end back at the pump",
        how: "Each on the port its tag names, pulled by hand, looked at from below. None chafes, none \
              is under a bolt.",
        minutes: 25,
        needs: &["hose-clamps"],
        after: &["pump-torque", "feed", "bailer-two", "return"],
        ..ROW
    },
    Row {
        key: "seams",
        name: "Exhaust and hull seams near the work",
        how: "Exhaust hoses and their clamps as they were, water box tight. No crack or gap where \
              the tunnel meets the hull, nor at a through-hull fitting you leaned on.",
        minutes: 15,
        after: &["pump-torque"],
        ..ROW
    },
    Row {
        key: "hose-labels",
        name: "Hoses labelled for the next one",
        how: "Name and direction at both ends, in paint or on sleeve that water does not take off. \
              The paper tags of the teardown come off.",
        minutes: 15,
        needs: &["hose-sleeves"],
        after: &["hoses-on"],
        ..ROW
    },
];
