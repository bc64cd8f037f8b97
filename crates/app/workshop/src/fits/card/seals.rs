//! Lip seals and O-rings.

use joint::compound::Compound;
use joint::fit::{FILL, Front, Looks, ORing, SQUEEZE, STRETCH, Sits};
use joint::meets::{Severity, Thing, meet};
use quantity::Entered;

use super::{Cards, MEMORY, Part};
use crate::fits::{Lip, RingSizes, Rubber};
use crate::sourced::Origin;

/// Where a front looks, in words.
pub(super) fn looks(looks: Looks) -> &'static str {
    match looks {
        Looks::AtBearing => "at the bearing",
        Looks::AtWater => "at the water",
        Looks::AtPressure => "at the pressure",
        Looks::WithThrust => "forward, the way the thrust pushes the shaft",
    }
}

/// Why nothing goes on an anode’s seat.
pub(super) fn nothing_on_an_anode() -> Origin {
    let rule = meet(Thing::Compound(Compound::PtfePaste), Thing::AnodeSeat);
    rule.map_or(Origin::Practice, |rule| of_rule(rule.source))
}

/// A rule names its source, or says that it has none.
fn of_rule(source: &'static str) -> Origin {
    match source {
        "from memory" => MEMORY,
        "common practice, no source" => Origin::Practice,
        key => Origin::Standard(key),
    }
}

impl Lip {
    /// The front of such a lip.
    fn front(self) -> Front {
        match self {
            Self::KeepsWaterOut => Front::LipExcluding,
            Self::KeepsGreaseIn => Front::LipHolding,
            Self::HoldsPressure => Front::LipUnderPressure,
        }
    }

    /// Where its open side looks.
    pub fn looks(self) -> Looks {
        self.front().looks()
    }
}

impl Cards<'_> {
    pub(super) fn lips(&mut self, lips: &[Lip]) {
        self.usual(
            Part::Clean,
            "Bore and shaft wiped, no burr, no groove that a fingernail feels in the track. Old \
             sealant out of the bore.",
        );
        self.usual(
            Part::PutOn,
            if lips.len() > 1 {
                "Water-resistant grease on every lip, and the space between the lips half filled: \
                 room for it to warm."
            } else {
                "Water-resistant grease on the lip, and in its hollow half filled."
            },
        );
        for (number, lip) in (1_usize..).zip(lips) {
            let (does, source) = match lip {
                Lip::KeepsWaterOut => ("keeps water and grit out", "lip-purge"),
                Lip::KeepsGreaseIn => ("keeps the grease in", "lip-direction"),
                Lip::HoldsPressure => ("holds the pressure", "lip-direction"),
            };
            let words = format!(
                "Lip {number} from the water {does}: its open side, with the spring, looks {}.",
                looks(lip.looks())
            );
            self.line(Part::Do, Origin::Standard(source), words);
        }
        self.usual(
            Part::Do,
            "A sleeve or tape over splines and edges. Press on the outer rim with a ring of its \
             size, square, to the depth the manual says.",
        );
        self.usual(
            Part::Prove,
            "Looked at all round with a mirror: no lip is folded under, no spring is off. The shaft \
             turns by hand with an even drag. Then the leak test, under Teardown.",
        );
        self.usual(
            Part::Caution,
            "A hook that pulls an old seal slips, and its spring flies: goggles, and pull away from \
             the hand. No heat on a bore with rubber in it: the fumes are poison.",
        );
        if !lips.iter().any(|lip| lip.looks() == Looks::AtWater) {
            self.mind.push(
                "No lip here looks at the water. That is right only where something else keeps it \
                 out: look at what came off, and at the manual."
                    .to_owned(),
            );
        }
    }

    pub(super) fn o_ring(&mut self, rubber: Option<Rubber>, sizes: Option<&RingSizes>) {
        self.usual(
            Part::Clean,
            "Groove and the face across it: no scratch across, no old ring, no grit.",
        );
        let thing = match rubber {
            Some(Rubber::Epdm) => Some(Thing::Epdm),
            Some(Rubber::Natural) => Some(Thing::NaturalRubber),
            Some(Rubber::Nitrile) => Some(Thing::Nitrile),
            Some(Rubber::Other) | None => None,
        };
        let rule = thing.and_then(|thing| meet(Thing::Compound(Compound::Grease), thing));
        match (rule, thing) {
            (Some(rule), _) if rule.severity == Severity::Never => self.line(
                Part::PutOn,
                of_rule(rule.source),
                "Silicone grease, a film. No mineral grease and no oil: this rubber swells in them.",
            ),
            (_, Some(_)) => self.line(
                Part::PutOn,
                MEMORY,
                "Water-resistant grease, a film all round; this rubber bears it.",
            ),
            (_, None) => self.usual(
                Part::PutOn,
                "A film of grease that the rubber bears, by the ring’s own sheet; silicone grease \
                 where the rubber is not known.",
            ),
        }
        self.usual(
            Part::Do,
            "A new ring. Roll it on without a twist: the moulding line lies the same way all round. \
             Draw the joint down evenly, a little at a screw.",
        );
        if let Some(sits) = sizes.and_then(sits) {
            self.sits(&sits);
        }
        self.usual(
            Part::Prove,
            "No rubber shows at the joint, and the faces meet all round. Then the leak test, under \
             Teardown.",
        );
        self.usual(
            Part::Caution,
            "Lift the old ring out with plastic or wood: a steel pick slips into the hand, and \
             scratches the groove. Goggles.",
        );
    }

    /// How a ring that nothing moves sits, against what such rings are made for.
    fn sits(&mut self, sits: &Sits) {
        let percent = |share: f64| format!("{:.0}\u{a0}%", share * 100.0);
        let all = [
            ("stretch", sits.stretch, STRETCH),
            ("squeeze", sits.squeeze, SQUEEZE),
            ("fill of the groove", sits.fill, FILL),
        ];
        let words: Vec<String> = all
            .iter()
            .map(|(name, share, range)| {
                let (low, high) = (percent(range.low), percent(range.high));
                format!("{name} {} of {low} to {high}", percent(*share))
            })
            .collect();
        let words = format!(
            "By its sizes, for a ring that nothing moves: {}.",
            words.join("; ")
        );
        self.line(Part::Prove, Origin::Standard("oring-glands"), words);
        if !sits.is_sound() {
            let out = all
                .iter()
                .filter(|(_, share, range)| !range.contains(*share));
            let out: Vec<&str> = out.map(|(name, ..)| *name).collect();
            self.mind.push(format!(
                "By its sizes this ring does not suit this groove: {} out of range. Measure once \
                 more, or find the right ring before it is closed.",
                out.join(", ")
            ));
        }
    }
}

fn sits(sizes: &RingSizes) -> Option<Sits> {
    let value = |entered: &Entered| entered.value;
    let ring = ORing {
        cord: value(&sizes.cord),
        inner: value(&sizes.inner),
        seat: value(&sizes.seat),
        depth: value(&sizes.depth),
        width: value(&sizes.width),
    };
    ring.sits().ok()
}
