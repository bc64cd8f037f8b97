//! The pump in strips over the span: triangles at every radius, losses of their own laws, a cavity.

use std::f64::consts::{FRAC_PI_2, PI};

/// What turns and stands in the housing. Angles at the tip from the plane of rotation, `rad`; lengths `m`.
#[derive(Clone, Debug)]
pub(crate) struct Pump {
    pub(crate) diameter: f64,
    /// Hub over tip.
    pub(crate) hub: f64,
    pub(crate) leading: f64,
    pub(crate) trailing: f64,
    /// Of the tip: blades times chord over the circumference.
    pub(crate) solidity: f64,
    /// Radial.
    pub(crate) gap: f64,
    pub(crate) hidden: Hidden,
}

/// What nobody measures.
#[derive(Clone, Debug)]
pub(crate) struct Hidden {
    /// Exponent by which the pitch departs from a helix over the radius.
    pub(crate) twist: f64,
    /// How much faster the flow is at the tip than at the hub, before the rotor and behind it.
    pub(crate) skew: (f64, f64),
    /// Exponent of the slow layers at hub and tip.
    pub(crate) layers: f64,
    /// Turn of the flow that comes, over its axial velocity.
    pub(crate) turn: f64,
    /// Factor on Carter's coefficient, and what the flow misses the blade by besides, `rad`.
    pub(crate) carter: f64,
    pub(crate) miss: f64,
    /// Further deviation for each radian of incidence.
    pub(crate) miss_incidence: f64,
    /// Loss at three degrees of incidence, over `w²/2`, and its exponent: from the front, from the back.
    pub(crate) shock_front: (f64, f64),
    pub(crate) shock_back: (f64, f64),
    /// Profile loss for solidity one, over the mean `w²/2`, and how fast it grows beyond a diffusion of 0.45.
    pub(crate) profile: f64,
    pub(crate) stall: f64,
    /// Flow angle from the axis the stator was drawn for, `rad`.
    pub(crate) stator: f64,
    /// Loss of the stator over `c²/2`: drawn for, and off it.
    pub(crate) stator_loss: (f64, f64),
    /// Share of the swirl velocity that passes the stator.
    pub(crate) swirl: f64,
    /// Tip leakage: loss, its exponent in the gap over the span, in the lift.
    pub(crate) leak: (f64, f64, f64),
    /// Turning missed at the tip, `rad` at a gap of one hundredth of the span.
    pub(crate) slack: f64,
    /// Friction torque of hub and shroud over `ρ Ω² R⁵`.
    pub(crate) disc: f64,
    pub(crate) cavity: Cavity,
}

/// Breakdown by what the blade needs above vapour pressure.
#[derive(Clone, Debug)]
pub(crate) struct Cavity {
    /// Needed over `c²/2` of the axis and over `w²/2` of the tip.
    pub(crate) axial: f64,
    pub(crate) blade: f64,
    /// Need over what there is, where it sets in; the scale on which it grows; the exponent.
    pub(crate) onset: f64,
    pub(crate) scale: f64,
    pub(crate) power: f64,
    /// Share of the work and, of what is left, of the head, that a full cavity takes.
    pub(crate) work: f64,
    pub(crate) head: f64,
}

/// Per kilogram of water, `J/kg`.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Losses {
    pub(crate) shock: f64,
    pub(crate) profile: f64,
    pub(crate) leak: f64,
    pub(crate) stator: f64,
    pub(crate) swirl: f64,
    pub(crate) cavity: f64,
}

impl Losses {
    pub(crate) fn sum(&self) -> f64 {
        self.shock + self.profile + self.leak + self.stator + self.swirl + self.cavity
    }
}

/// What the pump does to each kilogram.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Work {
    /// From the shaft, `J/kg`.
    pub(crate) given: f64,
    pub(crate) losses: Losses,
    /// How far the cavity has grown, 0 to 1.
    pub(crate) grown: f64,
}

impl Work {
    pub(crate) fn head(&self) -> f64 {
        self.given - self.losses.sum()
    }
}

/// A ring of the annulus.
#[derive(Clone, Debug)]
struct Strip {
    radius: f64,
    /// From the hub, over the span.
    height: f64,
    /// Share of the flow before the rotor; velocity over the mean before and behind.
    share: f64,
    before: f64,
    behind: f64,
    leading: f64,
    trailing: f64,
    solidity: f64,
    /// Carter's deviation for its camber.
    carter: f64,
}

/// A pump cut into strips.
#[derive(Clone, Debug)]
pub(crate) struct Cut {
    pump: Pump,
    strips: Vec<Strip>,
}

impl Pump {
    pub(crate) fn area(&self) -> f64 {
        PI * self.diameter * self.diameter * (1.0 - self.hub * self.hub) / 4.0
    }

    pub(crate) fn span(&self) -> f64 {
        self.diameter * (1.0 - self.hub) / 2.0
    }

    /// Angle at a radius of a blade with this angle at the tip.
    fn twisted(&self, tip: f64, radius: f64) -> f64 {
        let outward = self.diameter / 2.0 / radius;
        (tip.tan() * outward.powf(self.hidden.twist)).atan()
    }

    /// Carter's coefficient of deviation for circular arcs (fit from memory), over the solidity.
    fn carter(&self, leading: f64, trailing: f64) -> f64 {
        let stagger = (FRAC_PI_2 - f64::midpoint(leading, trailing)).to_degrees();
        self.hidden.carter * (0.216 + 8.75e-4 * stagger + 2.625e-5 * stagger * stagger)
    }

    pub(crate) fn cut(&self, count: u32) -> Cut {
        let inner = self.hub * self.diameter / 2.0;
        let step = self.span() / f64::from(count);
        let profile = |height: f64, skew: f64| {
            (4.0 * height * (1.0 - height)).powf(self.hidden.layers)
                * (1.0 + skew * (2.0 * height - 1.0))
        };
        let mut strips: Vec<Strip> = (0..count)
            .map(|i| {
                let height = (f64::from(i) + 0.5) / f64::from(count);
                let radius = inner + height * self.span();
                let leading = self.twisted(self.leading, radius);
                let trailing = self.twisted(self.trailing, radius);
                let solidity = self.solidity * (self.diameter / 2.0 / radius).powf(0.3);
                Strip {
                    radius,
                    height,
                    share: 2.0 * PI * radius * step / self.area(),
                    before: profile(height, self.hidden.skew.0),
                    behind: profile(height, self.hidden.skew.1),
                    leading,
                    trailing,
                    solidity,
                    carter: self.carter(leading, trailing) * (trailing - leading) / solidity,
                }
            })
            .collect();
        let before: f64 = strips.iter().map(|s| s.share * s.before).sum();
        let behind: f64 = strips.iter().map(|s| s.share * s.behind).sum();
        for strip in &mut strips {
            strip.before /= before;
            strip.behind /= behind;
            strip.share *= strip.before;
        }
        Cut {
            pump: self.clone(),
            strips,
        }
    }
}

impl Cut {
    /// What a shaft speed does to a flow that comes with so much energy above vapour pressure, `J/kg`.
    pub(crate) fn work(&self, shaft: f64, flow: f64, above: f64) -> Work {
        let axial = flow / self.pump.area();
        let mut sum = Work::default();
        for strip in &self.strips {
            self.add(strip, (shaft, axial), &mut sum);
        }
        sum.grown = self.grown(shaft, axial, above);
        let cavity = &self.pump.hidden.cavity;
        sum.given *= 1.0 - cavity.work * sum.grown;
        sum.losses.cavity = cavity.head * sum.grown * sum.given;
        sum
    }

    fn add(&self, strip: &Strip, (shaft, axial): (f64, f64), sum: &mut Work) {
        let hidden = &self.pump.hidden;
        let wheel = shaft * strip.radius;
        let (before, behind) = (axial * strip.before, axial * strip.behind);
        let turned_before = hidden.turn * before;
        let incidence = strip.leading - before.atan2(wheel - turned_before);
        let coming = before * before + (wheel - turned_before).powi(2);
        let slack = hidden.slack
            * (self.pump.gap / self.pump.span() / 0.01)
            * (-(1.0 - strip.height) / 0.18).exp();
        let miss = strip.carter + hidden.miss + hidden.miss_incidence * incidence + slack;
        let leaving = (strip.trailing - miss).max(0.05);
        let along = behind / leaving.tan();
        let turned = wheel - along;
        let going = behind * behind + along * along;
        let work = wheel * (turned - turned_before);

        let mean = f64::midpoint(coming, going);
        let middle = f64::midpoint(leaving, strip.leading);
        let (at, power) = if incidence > 0.0 {
            hidden.shock_front
        } else {
            hidden.shock_back
        };
        let shock = (incidence.abs() / 3_f64.to_radians()).powf(power);
        // A blade that has stalled altogether loses no more.
        let shock = at * shock / (1.0 + shock / 12.0) * coming / 2.0;
        let gained = (turned - turned_before).max(0.0);
        let diffusion =
            1.0 - (going / coming).sqrt() + gained / (2.0 * strip.solidity * coming.sqrt());
        let over = (diffusion - 0.45).max(0.0);
        let profile = hidden.profile * strip.solidity * (1.0 + hidden.stall * over * over)
            / middle.sin()
            * mean
            / 2.0;
        let lift = 2.0 * gained / (strip.solidity * mean.sqrt());
        let (leak, of_gap, of_lift) = hidden.leak;
        let leak = leak
            * (self.pump.gap / self.pump.span() / 0.01).powf(of_gap)
            * (lift / 0.4).powf(of_lift)
            * mean
            / 2.0
            * strip.height;
        let off = (turned.atan2(behind) - hidden.stator).sin().abs();
        let stator = (hidden.stator_loss.0 + hidden.stator_loss.1 * off * off.sqrt())
            * (behind * behind + turned * turned)
            / 2.0;

        sum.given += strip.share * work;
        sum.losses.shock += strip.share * shock;
        sum.losses.profile += strip.share * profile;
        sum.losses.leak += strip.share * leak;
        sum.losses.stator += strip.share * stator;
        sum.losses.swirl += strip.share * (hidden.swirl * turned).powi(2) / 2.0;
    }

    /// Need over what there is, grown slowly at first and never beyond the full cavity.
    fn grown(&self, shaft: f64, axial: f64, above: f64) -> f64 {
        let pump = &self.pump;
        let cavity = &pump.hidden.cavity;
        let tip = shaft * pump.diameter / 2.0;
        let incidence = (pump.leading - axial.atan2(tip)) / 5_f64.to_radians();
        let blade = cavity.blade
            * (1.0 + 0.08 * incidence * incidence)
            * (1.0 + 3.0 * pump.gap / pump.span());
        let need = cavity.axial * axial * axial / 2.0 + blade * (axial * axial + tip * tip) / 2.0;
        let over = need / above.max(5.0) - cavity.onset;
        if over <= 0.0 {
            return 0.0;
        }
        1.0 - (-(over / cavity.scale).powf(cavity.power)).exp()
    }
}
