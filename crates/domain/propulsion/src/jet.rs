//! From the water ahead of the intake to the jet: momentum, head, the best jet, the wake.

use std::f64::consts::PI;

use crate::Error;
use crate::error::within;

/// Where water goes in and out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duct {
    /// Area of the jet, `m²`: of the nozzle's bore, the jet not narrower.
    pub jet: f64,
    /// Area of the throat of the intake, `m²`.
    pub throat: f64,
    /// Loss of the nozzle over the jet's energy, `phi_n`.
    pub nozzle: f64,
    /// Loss of the intake over the energy of the water it takes in, `eps`.
    pub intake: f64,
    /// Loss of the throat where water is sucked in faster than the craft goes, `K_d`.
    pub suction: f64,
    /// How much slower the water taken in is than the craft, over the craft's speed, `w`.
    pub wake: f64,
}

impl Duct {
    /// The head a flow asks for.
    ///
    /// `gH_R = [(1 + phi_n) V_j² − (1 − eps) (1 − w)² V²]/2 + K_d max(0, v_t² − V²)/2`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `flow` | `V_j = Q / A_j`, `v_t = Q / A_t` | `m^3/s` |
    /// | `speed` | of the craft, `V` | `m/s` |
    /// | `returns` | the head | `J/kg` |
    ///
    /// Range: jet level with the water, pressure outside the jet that of the air.
    /// Source: `bulten-2006`, eq. 2.56.
    /// with the energy of the wake; the last term is ours, for a craft that hardly moves.
    pub fn head(&self, flow: f64, speed: f64) -> f64 {
        let jet = flow / self.jet;
        0.5 * ((1.0 + self.nozzle) * jet * jet - self.ram(speed)) + self.sucked(flow, speed)
    }

    /// How [`Duct::head`] rises with the flow, `J s/(kg m³)`.
    pub(crate) fn rises(&self, flow: f64, speed: f64) -> f64 {
        let jet = (1.0 + self.nozzle) * flow / (self.jet * self.jet);
        if flow > speed * self.throat {
            jet + self.suction * flow / (self.throat * self.throat)
        } else {
            jet
        }
    }

    /// Twice the energy that is left of the water taken in, `m²/s²`.
    pub(crate) fn ram(&self, speed: f64) -> f64 {
        (1.0 - self.intake) * ((1.0 - self.wake) * speed).powi(2)
    }

    /// Loss of the throat at low speed, `J/kg`.
    pub(crate) fn sucked(&self, flow: f64, speed: f64) -> f64 {
        let throat = flow / self.throat;
        0.5 * self.suction * (throat * throat - speed * speed).max(0.0)
    }

    /// Thrust of the jet less the drag of taking the water along.
    ///
    /// `T = rho Q (V_j − (1 − w) V)`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `density` | of the water | `kg/m^3` |
    /// | `flow` | `Q` | `m^3/s` |
    /// | `speed` | of the craft, `V` | `m/s` |
    /// | `returns` | the thrust | `N` |
    ///
    /// Range: nozzle straight aft; no thrust deduction (small and of either sign for jets).
    /// Source: `bulten-2006`, ch. 2.
    pub fn thrust(&self, density: f64, flow: f64, speed: f64) -> f64 {
        density * flow * (flow / self.jet - (1.0 - self.wake) * speed)
    }
}

/// Share of the hydraulic power that pushes the craft.
///
/// `eta_j = 2 mu (1 − c_m mu) / [(1 + phi_n) − (1 − eps) c_e² mu²]`, `mu = V / V_j`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `mu` | speed of the craft over that of the jet | `1` |
/// | `losses` | `phi_n`, `eps` | `1` |
/// | `wake` | `c_m`, `c_e²`: momentum and energy of the water taken in, over those of the free stream | `1` |
/// | `returns` | jet efficiency | `1` |
///
/// Range: 0 < mu < 1, jet level with the water.
/// Source: `bulten-2006`, ch. 2; without losses and wake Rankine and Froude's `2 mu/(1 + mu)`.
///
/// # Errors
/// `mu` outside 0 to 1.
pub fn jet_efficiency(mu: f64, losses: [f64; 2], wake: [f64; 2]) -> Result<f64, Error> {
    within("speed over jet speed", mu, 0.0, 1.0)?;
    let ([nozzle, intake], [momentum, energy]) = (losses, wake);
    let head = (1.0 + nozzle) - (1.0 - intake) * energy * mu * mu;
    Ok(2.0 * mu * (1.0 - momentum * mu) / head)
}

/// The speed over jet speed that pushes best, without a wake.
///
/// `mu* = [a − sqrt(a² − a b)] / b`, `a = 1 + phi_n`, `b = 1 − eps`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `nozzle` | `phi_n` | `1` |
/// | `intake` | `eps` | `1` |
/// | `returns` | `mu*` | `1` |
///
/// Range: losses of 0 to 0.6.
/// Source: `bulten-2006`, p. 38, which gives 0.65 to 0.75.
///
/// # Errors
/// A loss outside that range.
pub fn best_ratio(nozzle: f64, intake: f64) -> Result<f64, Error> {
    let a = 1.0 + within("nozzle loss", nozzle, 0.0, 0.6)?;
    let b = 1.0 - within("intake loss", intake, 0.0, 0.6)?;
    Ok((a - (a * (a - b)).sqrt()) / b)
}

/// A boundary layer ahead of the intake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Its thickness, `m`.
    pub thickness: f64,
    /// `m` of the profile `(y/delta)^(1/m)`.
    pub power: f64,
}

impl Layer {
    /// The layer of a flat plate.
    ///
    /// `delta = 0.37 x Re_x^(−1/5)`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `length` | wetted ahead of the intake, `x` | `m` |
    /// | `speed` | of the craft | `m/s` |
    /// | `viscosity` | kinematic | `m^2/s` |
    /// | `returns` | the layer, `m = 7` | `m` |
    ///
    /// Range: turbulent, Re of 5e5 to 1e7, and used as far as 1e8.
    /// Source: common practice, no source.
    ///
    /// # Errors
    /// A Reynolds number outside 5e5 to 1e8.
    pub fn flat_plate(length: f64, speed: f64, viscosity: f64) -> Result<Self, Error> {
        let reynolds = within("Reynolds number", speed * length / viscosity, 5e5, 1e8)?;
        Ok(Self {
            thickness: 0.37 * length * reynolds.powf(-0.2),
            power: 7.0,
        })
    }

    /// Momentum and energy of the water taken in, over those of the free stream.
    ///
    /// Inside the layer `h = delta (q (m+1)/(m delta))^(m/(m+1))`, `c_m = (h/delta)^(1/m) (m+1)/(m+2)`,
    /// `c_e² = (h/delta)^(2/m) (m+1)/(m+3)`; beyond it `h = q + delta/(m+1)`,
    /// `c_m = (delta m/(m+2) + h − delta)/q`, `c_e² = (delta m/(m+3) + h − delta)/q`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `flow` | through the pump, over the width taken in | `m^2/s` |
    /// | `speed` | of the craft; `q = flow / speed` | `m/s` |
    /// | `returns` | `c_m`, `c_e²` | `1` |
    ///
    /// Range: a plane layer of the power law.
    /// Source: definition.
    pub fn taken_in(&self, flow: f64, speed: f64) -> [f64; 2] {
        let (delta, m, q) = (self.thickness, self.power, flow / speed);
        if q <= delta * m / (m + 1.0) {
            let height = (q * (m + 1.0) / (m * delta)).powf(m / (m + 1.0));
            [
                height.powf(1.0 / m) * (m + 1.0) / (m + 2.0),
                height.powf(2.0 / m) * (m + 1.0) / (m + 3.0),
            ]
        } else {
            let beyond = q + delta / (m + 1.0) - delta;
            [
                (delta * m / (m + 2.0) + beyond) / q,
                (delta * m / (m + 3.0) + beyond) / q,
            ]
        }
    }
}

/// Cross section of the bars of an intake grate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bar {
    /// Sharp-edged.
    Rectangular,
    /// Rounded where the water comes from.
    RoundedAhead,
    /// Rounded at both ends.
    RoundedBoth,
    /// Round rod.
    Circular,
}

/// Loss of a grate.
///
/// `h = beta (t/e)^(4/3) sin(alpha) v²/2`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `bar` | `beta`: 2.42, 1.83, 1.67, 1.79 | `1` |
/// | `share` | thickness of a bar over the gap to the next, `t/e` | `1` |
/// | `slope` | of the grate to the stream | `rad` |
/// | `speed` | of the water ahead | `m/s` |
/// | `returns` | loss; the formula tells a difference of level and so more than the loss of energy | `J/kg` |
///
/// Range: t/e of 0 to 2.
/// Source: common practice, no source.
///
/// # Errors
/// A share outside that range.
pub fn grate_loss(bar: Bar, share: f64, slope: f64, speed: f64) -> Result<f64, Error> {
    let beta = match bar {
        Bar::Rectangular => 2.42,
        Bar::RoundedAhead => 1.83,
        Bar::RoundedBoth => 1.67,
        Bar::Circular => 1.79,
    };
    within("bar over gap", share, 0.0, 2.0)?;
    Ok(beta * share.powf(4.0 / 3.0) * slope.sin() * 0.5 * speed * speed)
}

/// Area of a round bore, `m²`.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `diameter` | of the bore | `m` |
/// | `returns` | its area | `m^2` |
///
/// Range: any.
/// Source: definition.
pub fn bore_area(diameter: f64) -> f64 {
    0.25 * PI * diameter * diameter
}
