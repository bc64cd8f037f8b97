//! The checks in words. How they are done, and what counts, is common practice, no source.
//!
//! What says where to stand and what to reach for is shown only while the craft can't start.

use diagnosis::check::Check;

/// A check in words.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// What is looked at; it tells nobody to go there.
    pub name: &'static str,
    /// What to do.
    pub does: &'static str,
    /// How.
    pub how: &'static str,
    /// With what.
    pub tools: &'static str,
    /// What counts as something found.
    pub counts: &'static str,
    /// Where or when something is found there.
    pub at: &'static str,
}

/// The words for a check.
pub fn words(check: Check) -> Words {
    beneath(check)
        .or_else(|| in_the_pump(check))
        .or_else(|| at_the_ends(check))
        .unwrap_or_else(|| about(check))
}

/// At the bottom and the intake.
fn beneath(check: Check) -> Option<Words> {
    Some(match check {
        Check::Intake => Words {
            name: "the intake",
            does: "Look up the intake.",
            how: "With a lamp, along the whole length of the grate and past it to the shaft; then feel \
                  with a gloved hand or a hook.",
            tools: "a lamp, gloves, a wire hook",
            counts: "Weed, rope, gravel, plastic: anything that covers part of the grate or winds round \
                     the shaft behind it.",
            at: "at the intake",
        },
        Check::Bottom => Words {
            name: "the bottom",
            does: "Look over the bottom.",
            how: "On a trailer or a stand that is chocked, from the bow to the intake; a straight edge \
                  along the last metre ahead of the intake.",
            tools: "a lamp, a straight edge",
            counts: "Growth, a scrape into the laminate, a dent or a loose edge ahead of the intake.",
            at: "on the bottom",
        },
        _ => return None,
    })
}

/// With a hand in pump, nozzle or on the shaft.
fn in_the_pump(check: Check) -> Option<Words> {
    Some(match check {
        Check::Leaves => Words {
            name: "the gap all round",
            does: "Measure the gap all round.",
            how: "Leaves between blade tip and ring, blade by blade, at every clock position. The readings \
                  belong under Measure, which says how sure they are.",
            tools: "feeler gauges, a felt pen",
            counts: "A gap wider than the manual allows, or clearly wider than it was.",
            at: "when the gap is measured",
        },
        Check::Blades => Words {
            name: "the blades’ edges",
            does: "Feel along blades and vanes.",
            how: "Leading edges first, then the tips, then the vanes behind; edges cut, so gloves on.",
            tools: "a lamp, gloves",
            counts: "A nick, a bent tip, a rolled edge, a crack, a piece missing.",
            at: "along the blades",
        },
        Check::Turn => Words {
            name: "the shaft by hand",
            does: "Turn the shaft by hand.",
            how: "Two whole turns, slowly; then try to move it to and fro and sideways. What a dial says \
                  belongs under Teardown.",
            tools: "gloves; spark plugs out make it easier",
            counts: "Rough places, grinding, a rub at one place, play that can be felt.",
            at: "when the shaft is turned",
        },
        Check::Ring => Words {
            name: "the wear ring’s seat",
            does: "Try whether the ring moves.",
            how: "Both thumbs, all round, in and out and round; look for a mark that has wandered and for \
                  bright places.",
            tools: "a lamp, gloves",
            counts: "It moves, it has turned, or a pin or mark is not where it was.",
            at: "at the ring",
        },
        Check::Nozzle => Words {
            name: "the nozzle’s bore",
            does: "Measure across the nozzle.",
            how: "At the very exit, in two directions, and take the mean.",
            tools: "an inside caliper",
            counts: "A bore that is not the one described under Choose, by half a millimetre or more.",
            at: "at the nozzle",
        },
        Check::Soap => Words {
            name: "whether joint and seal hold air",
            does: "Soap the joint, with low pressure behind it.",
            how: "Shoe, plate and seal, all round, with no more pressure than blows a bubble; or in the \
                  dark with a lamp behind the joint.",
            tools: "soap and water, a hand pump, a lamp",
            counts: "Bubbles, or light through the joint.",
            at: "when the joint is soaped",
        },
        _ => return None,
    })
}

/// At coupling and gate.
fn at_the_ends(check: Check) -> Option<Words> {
    Some(match check {
        Check::Mark => Words {
            name: "the mark on the coupling",
            does: "Look at the mark across the coupling.",
            how: "A line of paint across both halves. If there is none, paint one, and look again after \
                  the next run.",
            tools: "a lamp, a paint pen",
            counts: "The two halves of the line no longer meet.",
            at: "at the coupling’s mark",
        },
        Check::Dials => Words {
            name: "whether engine and pump are in line",
            does: "Put dials on the coupling.",
            how: "On rim and face, a quarter turn at a time. The readings belong under Teardown, which \
                  says whether they are in line.",
            tools: "two dial gauges, a bracket",
            counts: "Out of line by more than the manual allows.",
            at: "with dials on the coupling",
        },
        Check::Gate => Words {
            name: "where the reverse gate rests",
            does: "Look where the gate rests.",
            how: "Lever forward, look along the nozzle; then push the gate down with a hand and watch \
                  the cable.",
            tools: "a lamp",
            counts: "An edge of the gate in the line of the jet, or one that a hand can push there.",
            at: "at the gate",
        },
        _ => return None,
    })
}

/// Beside the craft, and at its engine.
fn about(check: Check) -> Words {
    match check {
        Check::Weigh => Words {
            name: "the weight",
            does: "Weigh it, or drain it.",
            how: "Plugs out, bow up, until nothing runs any more; then the axle on a weighbridge, against \
                  what the craft should weigh.",
            tools: "a weighbridge or a hanging scale",
            counts: "More than a few litres of water, foam that drips, or clearly too much weight.",
            at: "when it is weighed",
        },
        Check::Codes => Words {
            name: "the stored fault codes",
            does: "Read the stored fault codes.",
            how: "Under current, off the display or with a reader: every stored code, and what the \
                  control says holds the engine.",
            tools: "the craft’s display or a reader",
            counts: "A stored fault, a sensor out of its range, a protection that is active.",
            at: "among the stored codes",
        },
        Check::Compression => Words {
            name: "compression and fuel pressure",
            does: "Measure compression and fuel pressure.",
            how: "Engine warm, all plugs out, throttle open, ignition and fuel off as its manual says, \
                  cylinder by cylinder; then the fuel pressure.",
            tools: "a compression gauge, a fuel gauge, a plug wrench",
            counts: "A cylinder more than a tenth below the best, or fuel pressure out of the manual’s \
                     range.",
            at: "in compression and fuel pressure",
        },
        _ => Words {
            name: "the cooling hoses",
            does: "Follow the cooling hoses from end to end.",
            how: "Engine off and cool, from the pump’s outlet to the tell-tale: the right ends, no kink, \
                  clear, the strainer clean.",
            tools: "a lamp, a screwdriver",
            counts: "Two that are crossed; one that is kinked, pressed flat, blocked or split.",
            at: "along the hoses",
        },
    }
}
