//! Where suction runs out: the head a pump loses when the water ahead of it boils.

/// The head above boiling ahead of the pump, with one over its power 3/4 squared ready.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Suction {
    /// `(S/S_b)² / (Om² Q)`.
    per: f64,
}

/// Standard gravity, `m/s²`.
pub const GRAVITY: f64 = 9.806_65;
/// How steeply the head breaks down. A proposal of ours, no source.
const STEEP: i32 = 5;
/// The power follows the head with this exponent. A proposal of ours, no source.
const POWER: f64 = 0.7;

/// Net positive suction energy ahead of the pump.
///
/// `g NPSH = (p_a − p_v)/rho + (1 − eps)(1 − w)² V²/2 − h_d`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `over_boiling` | `(p_a − p_v)/rho` | `J/kg` |
/// | `ram` | `(1 − eps)(1 − w)² V²` | `J/kg` |
/// | `lost` | in the throat at low speed, `h_d` | `J/kg` |
/// | `returns` | `g NPSH` | `J/kg` |
///
/// Range: pump level with the water.
/// Source: `bulten-2006`, eq. 2.64.
pub fn suction_energy(over_boiling: f64, ram: f64, lost: f64) -> f64 {
    over_boiling + 0.5 * ram - lost
}

/// Suction specific speed.
///
/// `S = Om Q^(1/2) / (g NPSH)^(3/4)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `speed` | of the shaft | `rad/s` |
/// | `flow` | `Q` | `m^3/s` |
/// | `energy` | `g NPSH` | `J/kg` |
/// | `returns` | `S` | `1` |
///
/// Range: energy above 0.
/// Source: `brennen-1994`, ch. 5.
pub fn suction_speed(speed: f64, flow: f64, energy: f64) -> f64 {
    speed * flow.sqrt() / energy.powf(0.75)
}

/// What breakdown leaves of the head and of the power.
///
/// `B = 1/(1 + (S/S_b)^10)`, power `B^0.7`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `over` | `S/S_b` | `1` |
/// | `returns` | shares of head and power | `1` |
///
/// Range: any.
/// Source: common practice, no source.
pub fn left(over: f64) -> [f64; 2] {
    let head = 1.0 / (1.0 + (over * over).powi(STEEP));
    [head, head.powf(POWER)]
}

impl Suction {
    /// Ready for one state of the water ahead of the pump.
    pub(crate) fn new(energy: f64, breaks: f64) -> Self {
        Self {
            per: 1.0 / (breaks * breaks * energy * energy.sqrt()),
        }
    }

    /// Share of the head left, and how it changes with the flow.
    pub(crate) fn head(self, speed: f64, flow: f64) -> [f64; 2] {
        let square = speed * speed * flow * self.per;
        let power = square.powi(STEEP);
        let head = 1.0 / (1.0 + power);
        let slope = -f64::from(STEEP) * power * head * head / flow;
        [head, slope]
    }

    /// Share of the power left where so much of the head is.
    pub(crate) fn power(head: f64) -> f64 {
        head.powf(POWER)
    }

    /// `S/S_b`.
    pub(crate) fn over(self, speed: f64, flow: f64) -> f64 {
        (speed * speed * flow * self.per).sqrt()
    }
}
