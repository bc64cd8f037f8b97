//! Pressed parts: which ring to push on, which way they face, and how warm to make the outer part
//! instead.

use joint::Error;
use joint::fit::{BEARS_BEARING, BEARS_CASTING, BEARS_SEALED, BearingFit, Front, Push, Shrink};
use quantity::{Unit, format};

use super::{Cards, MEMORY, Part, seals};
use crate::fits::{Faced, Press, Pressed};
use crate::sourced::Origin;

/// Linear expansion of bearing steel, `1/K`; assumed, from memory.
const STEEL: f64 = 12e-6;
/// Linear expansion of cast aluminium, `1/K`; assumed, from memory.
const ALUMINIUM: f64 = 22e-6;
/// Clearance wanted while it slips, `m`; assumed.
const SLIPS: f64 = 0.000_02;
/// Temperature both were measured at, `K`; assumed.
const ROOM: f64 = 293.15;

/// Which outer part is warmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Warmed {
    /// The bearing, to slip over the shaft.
    Bearing,
    /// The housing, for the bearing to slip in.
    Housing,
}

/// On which ring to push; none where a fit is not known, or for what has no rings.
fn push(press: &Press) -> Option<Push> {
    if press.what == Pressed::Bush {
        return None;
    }
    let fit = BearingFit {
        shaft: press.shaft.as_ref()?.value,
        housing: press.housing.as_ref()?.value,
    };
    fit.push().ok()
}

/// How warm to make the outer part of the one tight seat, or what is beyond what it bears.
fn warm(press: &Press) -> Option<(Warmed, Result<f64, Error>)> {
    let diameter = press.diameter.as_ref()?.value;
    let warmed = match push(press)? {
        Push::Inner => Warmed::Bearing,
        Push::Outer => Warmed::Housing,
        Push::ByHand | Push::Both => return None,
    };
    let (interference, outer, bears) = match (warmed, press.what) {
        (Warmed::Housing, _) => (press.housing.as_ref()?.value, ALUMINIUM, BEARS_CASTING),
        (Warmed::Bearing, Pressed::SealedBearing) => {
            (press.shaft.as_ref()?.value, STEEL, BEARS_SEALED)
        }
        (Warmed::Bearing, _) => (press.shaft.as_ref()?.value, STEEL, BEARS_BEARING),
    };
    let shrink = Shrink {
        diameter,
        interference,
        clearance: SLIPS,
        outer,
        inner: STEEL,
        room: ROOM,
        inner_at: ROOM,
        bears,
    };
    Some((warmed, shrink.heat_to()))
}

impl Cards<'_> {
    pub(super) fn press(&mut self, press: &Press) {
        let bearing = press.what != Pressed::Bush;
        self.usual(
            Part::Clean,
            "Seat and part: degreased, no burr, the lead-in whole.",
        );
        self.usual(
            Part::PutOn,
            "A film of light oil on the seat, wiped thin. None in the bearing, none on a part that \
             is glued in.",
        );
        if !press.place.is_empty() {
            let words = format!("Where it comes: {}.", press.place);
            self.line(Part::Do, self.found(), words);
        }
        self.faced(press.front);
        let how = match push(press) {
            Some(Push::ByHand) => "It slides in by hand on both seats: no press.",
            Some(Push::Inner) => {
                "Push on the inner ring: first onto the shaft, with it into the housing."
            }
            Some(Push::Outer) => {
                "Push on the outer ring: first into the housing, then the shaft through it."
            }
            Some(Push::Both) => "Push on both rings at once, with a plate across.",
            None if bearing => {
                "Push on the ring that is being fitted: the inner one onto a shaft, the outer one \
                 into a housing."
            }
            None => "Push on its whole face, with a plate across.",
        };
        let never = if bearing {
            " Never through the balls: that dents the tracks."
        } else {
            ""
        };
        let straight = " Straight from the start; where it tilts, take it out and begin again.";
        let source = if bearing {
            Origin::Standard("bearing-pressing")
        } else {
            Origin::Practice
        };
        self.line(Part::Do, source, format!("{how}{never}{straight}"));
        self.warm(press);
        self.usual(
            Part::Prove,
            if bearing {
                "Home all round: the thinnest leaf there is does not go in at the shoulder. Turned \
                 by hand it runs smooth."
            } else {
                "Home all round: the thinnest leaf there is does not go in at the shoulder."
            },
        );
        self.usual(
            Part::Caution,
            "A ring under load can burst and a part lets go at once: goggles, hands and face out of \
             line with the press. What is hot looks like what is cold: gloves, no flame, fuel away.",
        );
    }

    fn faced(&mut self, front: Option<Faced>) {
        let (front, words) = match front {
            Some(Faced::SealedSide) => (Front::SealedSide, "The sealed side looks"),
            Some(Faced::WideShoulder) => (
                Front::WideShoulder,
                "The wide shoulder of the outer ring looks",
            ),
            None => return,
        };
        let words = format!("{words} {}.", seals::looks(front.looks()));
        self.line(Part::Do, MEMORY, words);
    }

    /// Warmed, the outer part slips.
    fn warm(&mut self, press: &Press) {
        let Some((warmed, to)) = warm(press) else {
            return;
        };
        let what = match warmed {
            Warmed::Bearing => "the bearing, in an oven or on a heater made for it",
            Warmed::Housing => "the housing, in an oven",
        };
        let celsius = |kelvin| format(kelvin, Unit::Celsius, 0);
        let formula = "thermal strain from 20\u{a0}°C, 0.02\u{a0}mm of clearance wanted; steel \
                       12e-6 and aluminium 22e-6 per kelvin, all assumed";
        let origin = Origin::Computed { formula, inputs: 2 };
        match to {
            Ok(kelvin) => {
                let words = format!("Or warm {what}, to {}: then it slips.", celsius(kelvin));
                self.line(Part::Do, origin, words);
            }
            Err(Error::TooHot { needed, bears }) => self.mind.push(format!(
                "Warming alone does not do it: {} would be needed, and the part bears {}. Press it, \
                 or cool the inner part as well. Reckoned with {formula}.",
                celsius(needed),
                celsius(bears)
            )),
            Err(_) => {}
        }
    }
}
