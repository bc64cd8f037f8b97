//! Something about a craft that is not as it was: fitted, worn, dirty, broken.

use crate::craft::Craft;
use crate::pump::Blades;

/// One change. The list is closed, so that whoever judges a craft judges by the same model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// Other blades, with the diameter of their hub over that of the tips.
    Impeller {
        /// Angles at the tip, and solidity.
        blades: Blades,
        /// Hub over tip diameter.
        hub: f64,
    },
    /// Another radial gap, `m`.
    Gap(f64),
    /// Another bore of the nozzle, `m`.
    Nozzle(f64),
    /// Mass put on, `kg`; below 0 taken off.
    Ballast(f64),
    /// A share of the engine's torque is missing.
    Torque(f64),
    /// The engine is held back at another speed, `rad/s`.
    Limiter(f64),
    /// A share of the shaft's turns is lost in a coupling or a loose ring on the shaft.
    Slip(f64),
    /// Shares of head and efficiency are missing: blades or vanes are damaged.
    Blades {
        /// Share of the head.
        head: f64,
        /// Share of the efficiency.
        efficiency: f64,
    },
    /// A share of air in the pump at rest, fading with speed: past a seal or a shoe.
    Air(f64),
    /// The intake is blocked: losses more than it had, of the energy taken in and of the throat's.
    Intake {
        /// Of the energy taken in.
        taken_in: f64,
        /// Of the throat's.
        throat: f64,
    },
    /// Something in the jet takes a share of the thrust.
    Jet(f64),
    /// Dirt or damage rubs: a share of the hull's drag at 20 m/s, at other speeds with their square.
    Hull(f64),
}

impl Change {
    /// The craft with this change; what it changes is replaced, not added to, but for ballast.
    #[must_use]
    pub fn on(self, craft: &Craft) -> Craft {
        let mut craft = craft.clone();
        self.apply(&mut craft);
        craft
    }

    /// Makes this change to a craft.
    pub fn apply(self, craft: &mut Craft) {
        let ills = &mut craft.ills;
        match self {
            Self::Impeller { blades, hub } => {
                craft.pump.blades = blades;
                craft.pump.hub = hub;
            }
            Self::Gap(gap) => craft.pump.gap = gap,
            Self::Nozzle(bore) => craft.nozzle = bore,
            Self::Ballast(mass) => ills.mass += mass,
            Self::Torque(share) => ills.torque = share,
            Self::Limiter(speed) => craft.engine.limiter = speed,
            Self::Slip(share) => ills.slip = share,
            Self::Blades { head, efficiency } => {
                ills.head = head;
                ills.efficiency = efficiency;
            }
            Self::Air(share) => ills.air = share,
            Self::Intake { taken_in, throat } => {
                ills.intake = taken_in;
                ills.throat = throat;
            }
            Self::Jet(share) => ills.jet = share,
            Self::Hull(share) => ills.hull = share,
        }
    }
}
