//! What can be wrong with an invented craft, and what it does to the truth.
//!
//! Laws, sizes and how they grow with severity: from memory and common practice, no source. Every craft has
//! sizes of its own, so that two worn gaps of one severity differ as they do in life.

use super::chance::Chance;
use super::craft::{Craft, Engine};

/// Something wrong with a craft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wrong {
    /// Worn tip gap or worn ring.
    Clearance,
    /// Air drawn past the seal of pump and hull, the shoe or the ride plate.
    Air,
    /// Weed or rope on the grate.
    Grate,
    /// Bent or nicked blades.
    Blade,
    NozzleWide,
    NozzleNarrow,
    /// Down on power.
    Engine,
    /// Held by its control well below rated speed.
    Limp,
    /// Rough or damaged bottom.
    DirtyHull,
    /// Soaked foam, water in the bilge.
    Heavy,
    /// Coupling that slips.
    Slip,
    /// Wear ring spun or loose.
    Ring,
    /// Failing bearing.
    Bearing,
    /// Driveline out of line.
    Misaligned,
    /// Cooling hoses crossed or blocked.
    Hoses,
    /// Reverse gate in the jet.
    Gate,
}

impl Wrong {
    pub(crate) const ALL: [Self; 16] = [
        Self::Clearance,
        Self::Air,
        Self::Grate,
        Self::Blade,
        Self::NozzleWide,
        Self::NozzleNarrow,
        Self::Engine,
        Self::Limp,
        Self::DirtyHull,
        Self::Heavy,
        Self::Slip,
        Self::Ring,
        Self::Bearing,
        Self::Misaligned,
        Self::Hoses,
        Self::Gate,
    ];

    /// What is drawn for a craft and this, whatever else is drawn of the craft.
    pub(crate) fn number(self) -> u64 {
        Self::ALL
            .into_iter()
            .zip(1..)
            .fold(0, |found, (wrong, i)| if wrong == self { i } else { found })
    }
}

/// What a sound craft has none of.
#[derive(Clone, Debug, Default)]
pub(crate) struct Harm {
    /// Share of air drawn at rest; the share of it that stays at speed; speed and exponent by which the rest fades.
    air: f64,
    air_stays: f64,
    air_fades: (f64, f64),
    /// Head lost over the jet's `v²/2` at a share of one, and its exponent.
    air_head: (f64, f64),
    /// Share of torque lost: everywhere, growing towards rated speed, in a hollow below it.
    weak: (f64, f64, f64),
    /// Where the hollow is over rated speed, its width, and the exponent of what grows.
    hollow: (f64, f64, f64),
    /// Share of speed lost in the coupling at rated torque, and its exponent in the torque.
    slip: (f64, f64),
    /// `N·m` at rest, and further ones at rated speed.
    rubbing: (f64, f64),
}

impl Harm {
    /// Share of air at a speed: what sucks it in gives way to the pressure of the stream.
    pub(crate) fn air(&self, speed: f64) -> f64 {
        if self.air <= 0.0 {
            return 0.0;
        }
        let (at, power) = self.air_fades;
        self.air
            * (self.air_stays + (1.0 - self.air_stays) / (1.0 + (speed.max(0.0) / at).powf(power)))
    }

    /// Head lost to it over the jet's `v²/2`.
    pub(crate) fn frothed(&self, air: f64) -> f64 {
        let (size, power) = self.air_head;
        if air > 0.0 {
            size * air.powf(power)
        } else {
            0.0
        }
    }

    /// Torque left of an engine at a speed over rated.
    pub(crate) fn strength(&self, ratio: f64) -> f64 {
        let (even, top, middle) = self.weak;
        let (at, width, power) = self.hollow;
        if even + top + middle <= 0.0 {
            return 1.0;
        }
        let hollow = (-((ratio - at) / width).powi(2)).exp();
        (1.0 - even - top * ratio.max(0.0).powf(power) - middle * hollow).max(0.2)
    }

    /// Share of the engine's speed lost in the coupling, at a torque over the rated one.
    pub(crate) fn slip(&self, ratio: f64) -> f64 {
        let (size, power) = self.slip;
        if size > 0.0 {
            (size * ratio.max(0.0).powf(power)).min(0.45)
        } else {
            0.0
        }
    }

    /// Torque that rubs away, at a speed over rated.
    pub(crate) fn rubbing(&self, ratio: f64) -> f64 {
        self.rubbing.0 + self.rubbing.1 * ratio
    }
}

impl Craft {
    /// This craft with something wrong with it, of a severity above nought and up to one.
    pub(crate) fn harmed(mut self, wrong: Wrong, severity: f64, chance: &mut Chance) -> Self {
        assert!(0.0 < severity && severity <= 1.0, "severity {severity}");
        let s = severity;
        let size = chance.about(1.0, 0.25).clamp(0.6, 1.5);
        match wrong {
            Wrong::Clearance => self.worn(s, size, chance),
            Wrong::Air => self.aired(s, size, chance),
            Wrong::Grate => self.weeded(s, size, chance),
            Wrong::Blade => self.nicked(s, size, chance),
            Wrong::NozzleWide => self.nozzle *= 1.0 + bore(s, size),
            Wrong::NozzleNarrow => self.nozzle *= 1.0 - bore(s, size),
            Wrong::Engine => self.weakened(s, size, chance),
            Wrong::Limp => self.held(s, size, chance),
            Wrong::DirtyHull => self.fouled(s, size, chance),
            Wrong::Heavy => self.soaked(s, size, chance),
            Wrong::Slip => {
                self.harm.slip.0 += size * (0.018 * s + 0.085 * s * s);
                self.harm.slip.1 = chance.within(1.2, 3.5);
            }
            Wrong::Ring => self.loosened(s, size, chance),
            Wrong::Bearing => {
                let torque = size * (0.8 * s + 2.6 * s * s) * self.engine.torque / 130.0;
                let rests = chance.within(0.2, 0.7);
                self.harm.rubbing.0 += torque * rests;
                self.harm.rubbing.1 += torque * (1.0 - rests);
                self.pump.gap += 0.08e-3 * size * s.powi(3);
            }
            Wrong::Misaligned => self.engine.drive.0 += 0.010 * size * s.powf(1.4),
            Wrong::Hoses => self.overheated(s, size, chance),
            Wrong::Gate => self.gated(s, size, chance),
        }
        self
    }

    /// Suction breaks down sooner where the gap lets a vortex through.
    fn worn(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.pump.gap += 1e-3 * size * (0.30 * s + 0.55 * s * s);
        self.sooner(chance.about(0.16, 0.4) * size * s.powf(1.3));
        self.pump.hidden.leak.0 *= 1.0 + chance.within(0.0, 0.4) * s;
    }

    fn sooner(&mut self, share: f64) {
        self.pump.hidden.cavity.onset *= (-share).exp();
    }

    fn aired(&mut self, s: f64, size: f64, chance: &mut Chance) {
        let harm = &mut self.harm;
        harm.air += size * (0.10 * s + 0.14 * s.powf(1.8));
        harm.air_stays = chance.within(0.04, 0.28);
        harm.air_fades = (chance.within(5.0, 13.0), chance.within(1.4, 3.6));
        harm.air_head = (chance.about(1.6, 0.35), chance.within(1.0, 1.6));
        // Bubbles are what a cavity begins at.
        self.sooner(chance.within(0.0, 0.15) * s);
    }

    /// Weed swirls the flow this way or that, so an engine may race or labour.
    fn weeded(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.intake.grate += size * (0.35 * s + 0.75 * s.powf(2.0));
        self.intake.throat *= 1.0 - 0.10 * size * s;
        self.intake.slowing *= 1.0 + chance.within(0.0, 0.6) * s;
        self.pump.hidden.turn += chance.normal(0.0, 0.11) * s.powf(0.8);
        self.pump.hidden.skew.0 += chance.normal(0.0, 0.06) * s;
        self.sooner(chance.about(0.18, 0.4) * size * s.powf(1.2));
    }

    /// Blades bend forward or back; nicks start cavities.
    fn nicked(&mut self, s: f64, size: f64, chance: &mut Chance) {
        let hidden = &mut self.pump.hidden;
        hidden.profile *= 1.0 + size * (0.35 * s + 1.1 * s * s);
        hidden.shock_front.0 *= 1.0 + chance.about(0.8, 0.4) * s;
        hidden.shock_back.0 *= 1.0 + chance.about(0.4, 0.4) * s;
        hidden.miss += chance.normal(0.35, 0.9).to_radians() * s;
        let bent = chance.normal(0.0, 0.5).to_radians() * s;
        self.pump.leading += bent;
        self.sooner(chance.about(0.38, 0.35) * size * s.powf(0.9));
    }

    /// A cylinder gone is even, lean fuel grows with speed, a fouled exhaust or sparks leave a hollow.
    fn weakened(&mut self, s: f64, size: f64, chance: &mut Chance) {
        let lost = size * (0.11 * s + 0.12 * s.powi(2));
        let parts = [
            chance.within(0.05, 1.0),
            chance.within(0.05, 1.0),
            chance.within(0.0, 0.6),
        ];
        let whole: f64 = parts[0] + parts[1] + 0.3 * parts[2];
        let [even, top, middle] = parts.map(|part| lost * part / whole);
        let weak = &mut self.harm.weak;
        *weak = (weak.0 + even, weak.1 + top, weak.2 + middle);
        self.harm.hollow = (
            chance.within(0.65, 0.95),
            chance.within(0.08, 0.2),
            chance.within(2.0, 6.0),
        );
    }

    fn held(&mut self, s: f64, size: f64, chance: &mut Chance) {
        let engine = &mut self.engine;
        let held = engine.rated * (0.93 - size * (0.12 * s + 0.11 * s * s));
        hold(engine, held, chance.about(0.005, 0.7).min(0.02));
    }

    /// The drag of a rough bottom grows with speed; its thick layer feeds the pump slower water.
    fn fouled(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.hull.roughness += size * (0.5e-3 * s + 1.0e-3 * s * s);
        self.hull.spray += chance.about(0.5e-3, 0.5) * s.powf(1.5);
        self.intake.thickness *= 1.0 + chance.within(0.05, 0.35) * s;
    }

    /// Water lies aft and low: the hump is steeper, the craft wetter.
    fn soaked(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.hull.mass += 95.0 * size * s.powf(0.9);
        self.hull.hump.0 *= 1.0 + chance.within(0.0, 0.35) * s;
        self.hull.wetted *= 1.0 + chance.within(0.0, 0.07) * s;
    }

    /// The gap opens on one side only, but what is loose stands in the flow.
    fn loosened(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.pump.gap += 0.45e-3 * size * s.powf(1.6);
        let hidden = &mut self.pump.hidden;
        hidden.slack *= 1.0 + chance.within(0.1, 0.9) * s;
        hidden.stator_loss.0 += chance.about(0.035, 0.5) * size * s;
        hidden.profile *= 1.0 + chance.within(0.1, 0.6) * s;
        hidden.cavity.scale *= 1.0 - chance.within(0.05, 0.3) * s;
        self.sooner(chance.about(0.30, 0.4) * size * s);
    }

    /// Hot intake air costs little; an alarm, where it comes, costs most of the power.
    fn overheated(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.harm.weak.0 += 0.012 * size * s * s;
        let alarm = chance.within(0.55, 1.3);
        let held = self.engine.rated * chance.within(0.66, 0.85);
        let softness = chance.within(0.005, 0.03);
        if s > alarm {
            hold(&mut self.engine, held, softness);
        }
    }

    /// Lost aft, rubbed away, and the bow pushed up or down.
    fn gated(&mut self, s: f64, size: f64, chance: &mut Chance) {
        self.aft *= 1.0 - size * (0.020 * s + 0.050 * s.powf(2.5));
        self.nozzle_loss += chance.about(0.04, 0.5) * s;
        self.hull.hump.0 *= (chance.normal(0.0, 0.25) * s).exp();
    }
}

/// A ring of another bore, over the bore: up to three hundredths in the middle of all craft.
fn bore(s: f64, size: f64) -> f64 {
    0.030 * size.sqrt() * s.powf(0.8)
}

/// The lower of two holds; a softness over rated speed.
fn hold(engine: &mut Engine, held: f64, softness: f64) {
    if held < engine.limiter {
        engine.limiter = held;
        engine.softness = softness * engine.rated;
    }
}
