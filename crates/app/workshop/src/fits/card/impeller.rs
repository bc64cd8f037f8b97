//! The impeller on its shaft.

use joint::shaft::{Drive, End, Rotation, Running};

use super::{Cards, Part};
use crate::fits::{Impeller, Turning};
use crate::sourced::Origin;

/// `clockwise`
pub const fn sense(rotation: Rotation) -> &'static str {
    match rotation {
        Rotation::Clockwise => "clockwise",
        Rotation::Anticlockwise => "anticlockwise",
    }
}

/// `from behind, looking forward`
pub const fn standing(end: End) -> &'static str {
    match end {
        End::Aft => "from behind, looking forward",
        End::Ahead => "from ahead, looking aft",
    }
}

impl Cards<'_> {
    pub(super) fn impeller(&mut self, impeller: &Impeller, turning: Option<Turning>) {
        self.usual(
            Part::Clean,
            "Both threads and the splines: old compound brushed out, degreased, no tooth rolled \
             over.",
        );
        if impeller.compound.is_empty() {
            self.usual(
                Part::PutOn,
                "On the thread what the manual names for this torque, and nothing else: grease \
                 where it wants it dry, or the other way round, makes another joint of it.",
            );
        } else {
            let words = format!("On the thread: {}. Nothing else.", impeller.compound);
            self.line(Part::PutOn, self.stated(), words);
        }
        self.usual(
            Part::Do,
            match impeller.drive {
                Drive::ShaftDrivesImpeller => {
                    "Hold the shaft: its holder fully on the splines, over their whole length. Turn \
                     the impeller with the tool that fits its hub."
                }
                Drive::ImpellerDragsShaft => {
                    "Hold the stub shaft by its own holder. Turn the impeller with the tool that \
                     sits fully in the splines of its hub, over their whole length."
                }
            },
        );
        if let Some(turning) = turning {
            self.turning(turning);
        }
        match &impeller.torque {
            Some(torque) => {
                let words = format!(
                    "Tighten to {}, in one slow pull, the wrench square to the shaft.",
                    torque.worded()
                );
                self.line(Part::Do, self.stated(), words);
            }
            None => self.line(
                Part::Do,
                Origin::Manual {
                    entry: self.state.fit.entry.clone(),
                    page: String::new(),
                },
                "Tighten to the manual’s own torque, which is not stated yet. No other figure \
                 stands in for it.",
            ),
        }
        self.usual(
            Part::Prove,
            "It turns free by hand all round, no blade touches. Then the gap once more, under \
             Measure.",
        );
        self.usual(
            Part::Caution,
            "No impact wrench: it breaks splines and dents bearings. Never a bar between blade and \
             vane: both break, and the bar comes back. Blades cut: gloves, or a rag round them. A \
             long wrench stores force: stand square, nobody in its swing, no pipe on it.",
        );
        self.usual(
            Part::Caution,
            "Battery and safety lanyard off where the pump is in the craft.",
        );
    }

    fn turning(&mut self, turning: Turning) {
        let rule = Origin::Computed {
            formula: "the right-hand rule, from the hand of the thread and the end the impeller \
                      goes on from",
            inputs: 2,
        };
        let seen = standing(turning.seen_from);
        self.line(
            Part::Do,
            rule.clone(),
            format!(
                "Seen {seen}: the impeller comes off {}, and is tightened {}. Seen from the other \
                 side it is the other way round, and so it is where the shaft is turned and the \
                 impeller held.",
                sense(turning.loosen),
                sense(turning.tighten)
            ),
        );
        if !turning.by_pump {
            self.mind.push(
                "The pump is not described yet, so the arrows are as seen from behind, looking \
                 forward, and nothing can be said of what running does to the thread."
                    .to_owned(),
            );
        }
        let running = match turning.running {
            Some(Running::Tightens) => {
                "Running tightens it: it comes off harder than it went on. Heat only as the manual \
                 says, seals out."
            }
            Some(Running::BarelyTightens) => {
                "Running hardly tightens it: the torque and what is on the thread hold it."
            }
            Some(Running::BarelyLoosens) => {
                "Running works a little against it: only the torque and what is on the thread hold \
                 it, so neither is left off."
            }
            // That is a stop, and said there.
            Some(Running::Loosens) | None => return,
        };
        self.line(Part::Do, rule, running);
    }
}
