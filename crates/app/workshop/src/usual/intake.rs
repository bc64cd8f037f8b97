//! The intake side: the shoe and its bond, the pump and its seal, the grate.

use super::craft::{Has, Shoe};
use super::table::{Kind, ROW, Row, Table, Time};
use crate::plan::Gate;

pub(super) const TABLE: Table = Table {
    group: "Intake side",
    rows: ROWS,
    times: TIMES,
};

const ROWS: &[Row] = &[
    Row {
        key: "shoe-stays",
        name: "Pump shoe tight and whole",
        how: "No crack, no edge that moves under a screwdriver’s push, no dark line of water at the \
              bond. Its studs and inserts hold.",
        minutes: 20,
        after: &["look-over"],
        when: |craft| craft.shoe == Shoe::Stays,
        ..ROW
    },
    Row {
        key: "shoe-old",
        name: "Old bond of the shoe off, both sides roughened",
        how: "Down to sound laminate and bare shoe, roughened as the data sheet says. Tried dry: it \
              sits without rock and its pump face is where it was.",
        minutes: 90,
        caution: "Grinding dust and glass: mask, goggles, sleeves. Fuel vapour: bilge aired, no sparks.",
        after: &["look-over"],
        when: |craft| craft.shoe == Shoe::Bonded,
        ..ROW
    },
    Row {
        key: "shoe-degrease",
        name: "Degrease shoe and hull",
        how: "Clean rag after clean rag until one stays white, then no finger on it.",
        minutes: 12,
        needs: &["degreaser", "shoe-adhesive"],
        caution: "Solvent in a hull: aired, gloves, no flame, somebody near.",
        after: &["shoe-old", "parts-here"],
        when: |craft| craft.shoe == Shoe::Bonded,
        ..ROW
    },
    Row {
        key: "shoe-spread",
        name: "Spread the adhesive of the shoe",
        how: "Mixed as the data sheet says, without a gap all round. Stiff before the shoe is in? \
              Say it must be done again: wipe off, degrease and spread anew.",
        minutes: 8,
        needs: &["shoe-adhesive"],
        caution: "Resin on skin, fumes in a hull: gloves, goggles, aired, somebody near.",
        irreversible: true,
        after: &["shoe-degrease"],
        when: |craft| craft.shoe == Shoe::Bonded,
        ..ROW
    },
    Row {
        key: "shoe-set",
        name: "Set the shoe and hold it",
        how: "To its marks, held as in the dry try, an even line out all round and smoothed to a \
              fillet in the tunnel. Left alone until it has cured.",
        minutes: 10,
        most: 15,
        hands: 2,
        after: &["shoe-spread"],
        when: |craft| craft.shoe == Shoe::Bonded,
        ..ROW
    },
    Row {
        key: "shoe-proof",
        name: "Bond of the shoe proved",
        how: "Lamp behind it in the dark, or water stood in the tunnel: nothing through. Tapped all \
              round: one sound.",
        minutes: 20,
        caution: "A cold lamp only: no flame and no hot bulb near fuel vapour.",
        after: &["shoe-set"],
        when: |craft| craft.shoe == Shoe::Bonded,
        ..ROW
    },
    Row {
        key: "hull-fill",
        name: "Fill the hull at intake and plate",
        how: "Sound edge ground to a slope, dry, degreased, laminate or filler as its data sheet \
              says. Through holes closed from inside too.",
        minutes: 120,
        needs: &["resin", "degreaser"],
        caution: "Resin, dust, fumes: gloves, goggles, mask, aired; no sparks near fuel vapour.",
        after: &["plate-off", "parts-here"],
        when: |craft| craft.has(Has::HullRepair),
        ..ROW
    },
    Row {
        key: "intake-fair",
        name: "Intake fair from grate to pump",
        how: "A finger finds no ridge, no step at the shoe, no blob of old sealant. Rope and weed \
              out of every corner and off the shaft’s sleeve.",
        minutes: 30,
        caution: "Dust: mask, goggles.",
        after: &["hull-fill", "shoe-proof", "shoe-stays", "pump-out"],
        ..ROW
    },
    Row {
        key: "pump-faces",
        name: "Faces of pump and shoe clean, seal tried dry",
        how: "Seal whole, in its groove all round. The pump goes home dry by hand, dowels and all, \
              and the bolts run in by hand.",
        minutes: 20,
        hands: 2,
        needs: &["pump-seal", "degreaser"],
        caution: "Heavy: two people or a hoist. Solvent: aired, gloves, no flame.",
        after: &[
            "nozzle-on",
            "intake-fair",
            "shaft-back",
            "feed",
            "bailer-one",
            "bailer-two",
        ],
        ..ROW
    },
    Row {
        key: "pump-bead",
        name: "Seal to the shoe on",
        how: "Seal and, where the manual asks for it, a bead, unbroken at the top where air would \
              be drawn. Skinned? Say it must be done again: wipe off, degrease and spread anew.",
        minutes: 8,
        needs: &["sealant", "pump-seal"],
        gate: |_| Some(Gate::LeakTight),
        caution: "Sealant on skin and in eyes: gloves, goggles.",
        irreversible: true,
        after: &["pump-faces"],
        ..ROW
    },
    Row {
        key: "pump-in",
        name: "Pump into the hull",
        how: "Spline greased, found by turning the shaft, never drawn in by the bolts. Hoses and \
              cables not under it. Bolts run down by hand.",
        minutes: 15,
        most: 20,
        hands: 2,
        tools: &["hoist"],
        needs: &["spline-grease", "thread-compound"],
        counted: Some(|counts| counts.pump),
        caution: "Heavy: two people or a hoist. No finger between pump and shoe.",
        after: &["pump-bead"],
        ..ROW
    },
    Row {
        key: "pump-torque",
        name: "Final torque of the pump’s bolts",
        how: "Star order, in passes, the last round until none moves; marked with paint. The shaft \
              turns by hand through a whole turn without a tight place.",
        minutes: 20,
        tools: &["torque-wrench"],
        needs: &["paint-pen"],
        after: &["pump-in"],
        ..ROW
    },
    Row {
        key: "gap-again",
        name: "Second gap reading, after the final torque",
        how: "Through the intake, every blade at the tightest place at least, on Teardown as the \
              reading after the last torque. A hull that pulls the housing shows only now.",
        minutes: 25,
        tools: &["leaves"],
        caution: "Battery and lanyard off while a hand is in the pump. Blade edges cut.",
        after: &["pump-torque"],
        ..ROW
    },
    Row {
        key: "light-proof",
        name: "Light or smoke shows no way past the seal",
        how: "Lamp in the hull, looked at from the intake in the dark, or smoke from inside: nothing \
              past the seal to the shoe. Air drawn in here is lost thrust.",
        minutes: 20,
        tools: &["lamp"],
        caution: "No smoke and no hot lamp where there is fuel vapour: air the bilge and smell first.",
        after: &["pump-torque"],
        ..ROW
    },
    Row {
        key: "grate",
        name: "Intake grate on",
        how: "Bars along the flow, front end home, its bolts with the compound the manual names, \
              torqued and marked.",
        minutes: 20,
        tools: &["torque-wrench"],
        needs: &["thread-compound", "paint-pen"],
        gate: |_| Some(Gate::GapReread),
        counted: Some(|counts| counts.grate),
        after: &["gap-again", "light-proof"],
        ..ROW
    },
];

const TIMES: &[Time] = &[
    Time {
        kind: Kind::Begun,
        first: "shoe-degrease",
        then: "shoe-spread",
        minutes: 30,
        why: "a clean face stays clean so long: assumed, from no manual; put in what the adhesive’s data \
              sheet says of surface preparation",
    },
    Time {
        kind: Kind::Done,
        first: "shoe-spread",
        then: "shoe-set",
        minutes: 25,
        why: "working time: assumed, from no manual; look up “working time” or “pot life” at your \
              temperature in the adhesive’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "shoe-set",
        then: "shoe-proof",
        minutes: 1440,
        why: "cure before it is loaded: assumed, from no manual; look up the cure at your temperature in the \
              adhesive’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "hull-fill",
        then: "intake-fair",
        minutes: 720,
        why: "resin hard before it is sanded: assumed, from no manual; look up the cure at your temperature \
              in its data sheet",
    },
    Time {
        kind: Kind::Done,
        first: "pump-bead",
        then: "pump-in",
        minutes: 30,
        why: "working time: assumed, from no manual; look up “working time” or “skin time” at your \
              temperature in the sealant’s data sheet",
    },
    Time {
        kind: Kind::Begun,
        first: "pump-in",
        then: "pump-torque",
        minutes: 15,
        why: "torqued before it skins: assumed, from no manual; look up “skin time” in the sealant’s data \
              sheet",
    },
];
