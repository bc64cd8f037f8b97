//! As it was found, and apart.

use super::craft::{Has, Ring};
use super::table::{ROW, Row, Table};

pub(super) const TABLE: Table = Table {
    group: "As found, and apart",
    rows: ROWS,
    times: &[],
};

const ROWS: &[Row] = &[
    Row {
        key: "as-found",
        name: "Record it as found",
        how: "Photograph it from behind, from below and inside the hull. Read the gap and feel the \
              rotor before a bolt is turned; note noise, leaks, what is bent, missing or mended \
              before. What nobody wrote down now cannot be known later.",
        minutes: 30,
        tools: &["leaves"],
        caution: "Battery and safety lanyard off before a hand goes into the pump.",
        ..ROW
    },
    Row {
        key: "on-its-stand",
        name: "Craft safe on its stand, battery out, plugs out",
        how: "Lanyard off, battery out, negative lead first. Drain plugs out, bagged and counted. \
              Pushed at both ends, it does not rock.",
        minutes: 20,
        hands: 2,
        caution: "Roll the hull only to the side its manual allows. Fuel vapour lies in the bilge: \
                  open and air it first.",
        after: &["as-found"],
        ..ROW
    },
    Row {
        key: "labels",
        name: "Label hoses, cables, shims and bolts",
        how: "A tag at both ends of every hose, turns of thread counted at every cable end, shims \
              bagged with the mount they came from, bolts by joint and length.",
        minutes: 20,
        needs: &["tags"],
        after: &["on-its-stand"],
        ..ROW
    },
    Row {
        key: "nozzle-off",
        name: "Cables, linkage and nozzle off",
        how: "Cables off at the pump end only, so that their setting is kept. Bushes and pins looked \
              at for wear as they come off.",
        minutes: 25,
        caution: "A gate or a trim rod under its spring snaps back. Fingers out of the linkage.",
        after: &["labels"],
        ..ROW
    },
    Row {
        key: "coolant-out",
        name: "Coolant out",
        how: "Caught, measured, looked at: oil or rust in it is a finding. Hoses of the plate plugged.",
        minutes: 20,
        caution: "Never opened hot. Coolant is poison to people and animals: catch all of it.",
        after: &["labels"],
        when: |craft| craft.has(Has::CoolingPlate),
        ..ROW
    },
    Row {
        key: "plate-off",
        name: "Ride plate and intake grate off",
        how: "Middle bolts last. Note where sealant held, where it did not, and any shim or washer \
              that is no bolt's own.",
        minutes: 30,
        after: &["labels", "coolant-out"],
        ..ROW
    },
    Row {
        key: "pump-out",
        name: "Pump out of the hull",
        how: "Bolts off in two passes. Straight back off the spline; a light pry at the lugs, never \
              in a joint face. See where the seal to the shoe has leaked.",
        minutes: 30,
        hands: 2,
        tools: &["hoist"],
        caution: "Heavy, and it lets go at once: two people or a hoist, feet and fingers clear.",
        after: &["nozzle-off", "plate-off"],
        ..ROW
    },
    Row {
        key: "shaft-out",
        name: "Drive shaft out",
        how: "Marked against the coupling. Spline looked at: a step that a nail catches is a finding.",
        minutes: 15,
        after: &["pump-out"],
        ..ROW
    },
    Row {
        key: "cone-off",
        name: "Tail cone off, what is inside looked at",
        how: "Grease or oil caught on white paper. Milky means water came in; glitter means a \
              bearing. Either is a finding.",
        minutes: 15,
        after: &["pump-out"],
        ..ROW
    },
    Row {
        key: "impeller-off",
        name: "Impeller off its shaft",
        how: "Look up first which way its thread comes off. Shaft in its own holder, the tool full \
              in its spline, a steady pull; heat only as the manual allows.",
        minutes: 25,
        tools: &["shaft-holder", "impeller-tool"],
        caution: "Blades cut, and the tool can jump. Gloves, and nobody in line with the bar.",
        after: &["cone-off"],
        ..ROW
    },
    Row {
        key: "bearings-out",
        name: "Bearings and seals out",
        how: "Spacers laid down in their order. Seats are not scratched by the puller.",
        minutes: 30,
        tools: &["press"],
        caution: "The press stores force. Goggles, guard on, hands and face out of line.",
        after: &["impeller-off"],
        ..ROW
    },
    Row {
        key: "ring-out",
        name: "Worn ring out",
        how: "Set-screws and pins out first. Pushed or cut out without a mark on the housing bore. \
              White crust behind it is what squeezed the ring.",
        minutes: 25,
        tools: &["press"],
        caution: "The ring lets go at once. Goggles; hands and face out of line with the press.",
        after: &["pump-out"],
        when: |craft| craft.ring != Ring::Stays,
        ..ROW
    },
    Row {
        key: "clean",
        name: "Clean every part, blow through every passage",
        how: "Salt and old sealant off, no scraper on a sealing face. Water and vent passages \
              probed and blown until air comes out at the other end.",
        minutes: 90,
        needs: &["cleaner"],
        caution: "Cleaner and compressed air: goggles, gloves, open window, no flame.",
        after: &["bearings-out", "ring-out", "shaft-out"],
        ..ROW
    },
    Row {
        key: "look-over",
        name: "Look every part over",
        how: "On Teardown, one by one: fit, dress, send out or scrap. Blade roots, vanes, lugs and \
              bolt bosses for cracks; a crack is never dressed.",
        minutes: 60,
        after: &["clean"],
        ..ROW
    },
    Row {
        key: "parts-here",
        name: "New parts on the bench, held beside the old",
        how: "Length, lips, hand of thread, section of the rings: the same, or the manual says why \
              not. Say of each part and consumable whether it is here or on order.",
        minutes: 30,
        after: &["look-over"],
        ..ROW
    },
    Row {
        key: "threads",
        name: "Every thread made sound",
        how: "Taps by hand through sealant and salt, holes blown dry. Each screw runs in by hand to \
              its depth. A hole that does not hold gets its insert now, not in wet sealant.",
        minutes: 40,
        caution: "Goggles: a blown-out hole spits.",
        after: &["look-over"],
        ..ROW
    },
];
