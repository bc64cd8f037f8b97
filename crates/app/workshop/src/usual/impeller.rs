//! Impeller, ring, stator, and the gap between them.

use super::craft::{Has, Ring};
use super::table::{Kind, ROW, Row, Table, Time};

pub(super) const TABLE: Table = Table {
    group: "Impeller, ring and stator",
    rows: ROWS,
    times: TIMES,
};

const ROWS: &[Row] = &[
    Row {
        key: "blades",
        name: "Dress the blades, see that it balances",
        how: "Nicks dressed out smoothly, the same on every blade, no edge thinner than the manual \
              allows. On a level mandrel it stays where it is put.",
        minutes: 45,
        caution: "Blade edges cut, the file slips: gloves, goggles. No grinding of a cracked blade.",
        after: &["look-over"],
        ..ROW
    },
    Row {
        key: "impeller-fit",
        name: "Thread and spline of impeller and shaft tried dry",
        how: "Old compound off, no burr on the shoulder. The impeller runs on by hand to its seat; \
              where it stops early, look before you turn.",
        minutes: 15,
        after: &["blades", "shaft-in"],
        ..ROW
    },
    Row {
        key: "impeller-on",
        name: "Torque the impeller",
        how: "The compound and the torque the manual names for it; there is no usual figure. Shaft \
              in its holder, one slow pull, mark it. O-ring of the hub in and greased.",
        minutes: 20,
        tools: &["shaft-holder", "impeller-tool", "torque-wrench"],
        needs: &["thread-compound"],
        caution: "Blades cut, and the tool can jump. Gloves, and nobody in line with the bar.",
        after: &["impeller-fit", "rotor", "parts-here"],
        ..ROW
    },
    Row {
        key: "ring-seat",
        name: "Seat of the ring bare, round and measured",
        how: "Crust off to bright metal without taking metal: what is left squeezes the new ring. \
              Measure across at least four ways.",
        minutes: 30,
        after: &["housing"],
        when: |craft| craft.ring != Ring::Stays,
        ..ROW
    },
    Row {
        key: "ring-in",
        name: "Press the new ring in",
        how: "Square, slots and holes in line, cold ring or warm housing as the manual allows. Home \
              when a thin leaf finds no way behind its shoulder.",
        minutes: 20,
        most: 40,
        tools: &["press"],
        needs: &["wear-ring"],
        caution: "The press stores force: goggles, out of line. Hot housing or dry ice: gloves.",
        after: &["ring-seat", "parts-here"],
        when: |craft| craft.ring == Ring::Pressed,
        ..ROW
    },
    Row {
        key: "ring-lock",
        name: "Lock the ring",
        how: "Set-screws or pins where it has them, with the compound the manual names, heads below \
              the face. Bore measured once more: it shrinks where it is squeezed.",
        minutes: 15,
        after: &["ring-in"],
        when: |craft| craft.ring == Ring::Pressed,
        ..ROW
    },
    Row {
        key: "ring-dry",
        name: "Ring tried dry and roughened",
        how: "Slides home by hand with room for the adhesive all round. Roughened as the data sheet \
              says, marked for its clock position.",
        minutes: 20,
        needs: &["wear-ring"],
        caution: "Dust: mask.",
        after: &["ring-seat", "parts-here"],
        when: |craft| craft.ring == Ring::Bonded,
        ..ROW
    },
    Row {
        key: "ring-degrease",
        name: "Degrease ring and seat",
        how: "Clean rag after clean rag until one stays white, then no finger on it.",
        minutes: 10,
        needs: &["degreaser", "ring-adhesive"],
        caution: "Solvent: window open, gloves, no flame.",
        after: &["ring-dry"],
        when: |craft| craft.ring == Ring::Bonded,
        ..ROW
    },
    Row {
        key: "ring-spread",
        name: "Spread the adhesive of the ring",
        how: "Mixed by weight or stroke as the data sheet says, thin on both. Stiff before the ring \
              is home? Say it must be done again: wipe off, degrease and spread anew.",
        minutes: 5,
        needs: &["ring-adhesive"],
        caution: "Resin on skin and in eyes: gloves, goggles.",
        irreversible: true,
        after: &["ring-degrease"],
        when: |craft| craft.ring == Ring::Bonded,
        ..ROW
    },
    Row {
        key: "ring-set",
        name: "Set the ring and hold it",
        how: "Turned in to its mark, held square against its stop, squeeze-out wiped. Left alone \
              until it has cured.",
        minutes: 8,
        most: 10,
        after: &["ring-spread"],
        when: |craft| craft.ring == Ring::Bonded,
        ..ROW
    },
    Row {
        key: "ring-trim",
        name: "Trim the bonded ring, measure its bore",
        how: "Squeeze-out off, no step at either end, tapped all round: one sound. Bore measured \
              across at least four ways.",
        minutes: 20,
        caution: "Dust of resin: mask, goggles.",
        after: &["ring-set"],
        when: |craft| craft.ring == Ring::Bonded,
        ..ROW
    },
    Row {
        key: "ring-stays",
        name: "Ring that stays: clean, tight, measured",
        how: "Tapped all round: one sound. Scores and swellings noted with their clock position, \
              bore measured across at least four ways.",
        minutes: 20,
        after: &["housing"],
        when: |craft| craft.ring == Ring::Stays,
        ..ROW
    },
    Row {
        key: "vanes",
        name: "Stator vanes straight and whole",
        how: "Edges dressed smooth, all alike. Chipped corners back from the welder before this; \
              between the vanes nothing but daylight.",
        minutes: 30,
        caution: "File and filings: gloves, goggles.",
        after: &["look-over"],
        ..ROW
    },
    Row {
        key: "dry-build",
        name: "Build it dry",
        how: "Housing, ring, impeller and stator together without sealant, dowels in, bolts run down \
              and snugged in star order. No rock, no rub, no leaf into the joint.",
        minutes: 25,
        caution: "Blade edges cut. Gloves on.",
        after: &[
            "vanes",
            "impeller-on",
            "ring-lock",
            "ring-trim",
            "ring-stays",
        ],
        ..ROW
    },
    Row {
        key: "ring-shims",
        name: "Choose the shims of the conical ring",
        how: "Read the gap with the shims that were in. Teardown says what a shim more or less does; \
              change, read again, write down what stays in.",
        minutes: 40,
        tools: &["leaves"],
        needs: &["ring-shims"],
        after: &["dry-build"],
        when: |craft| craft.has(Has::ConicalRing),
        ..ROW
    },
    Row {
        key: "gap",
        name: "Read the gap, leaf by leaf",
        how: "Every blade at every clock position, rotor pushed one way, on Measure. Take the result \
              when it is in tolerance: it opens the sealing.",
        minutes: 40,
        tools: &["leaves"],
        caution: "Turn the impeller by its hub; nobody else near the shaft while fingers are in.",
        after: &["dry-build", "ring-shims"],
        ..ROW
    },
];

const TIMES: &[Time] = &[
    Time {
        kind: Kind::Begun,
        first: "ring-degrease",
        then: "ring-spread",
        minutes: 30,
        why: "a clean face stays clean so long: assumed, from no manual; put in what the adhesive’s data \
              sheet says of surface preparation",
    },
    Time {
        kind: Kind::Done,
        first: "ring-spread",
        then: "ring-set",
        minutes: 15,
        why: "working time: assumed, from no manual; look up “working time” or “pot life” at your \
              temperature in the adhesive’s data sheet",
    },
    Time {
        kind: Kind::Wait,
        first: "ring-set",
        then: "ring-trim",
        minutes: 1440,
        why: "cure before it is worked: assumed, from no manual; look up the cure at your temperature in the \
              adhesive’s data sheet",
    },
];
