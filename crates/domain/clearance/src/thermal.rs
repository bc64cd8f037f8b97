//! Temperature and water in a wear ring: what the gap of the bench becomes in the water ridden in.
//!
//! A ring that is free grows as a whole, and its bore grows with it. A ring held at its outside can
//! only grow inwards: its bore **shrinks** when it swells. So the answer turns on how the ring is held,
//! and that must be asked. Figures of polymers are ranges; the data sheet of the resin is better.

use std::f64::consts::PI;

use crate::error::{finite, not_negative, positive, probability, within};
use crate::sleeve::{Sleeved, joined};
use crate::{Error, Interval, real};

/// A property as a range, with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Least and greatest value.
    pub range: Interval,
    /// Key of the bibliography, or what stands instead of one.
    pub source: &'static str,
}

const CALLISTER: &str = "callister-2007";
const PRACTICE: &str = "common practice, no source";

const fn known(low: f64, high: f64, source: &'static str) -> Known {
    Known {
        range: Interval { low, high },
        source,
    }
}

/// A metal of housings and impellers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Metal {
    /// Cast and wrought aluminium.
    Aluminium,
    /// Austenitic stainless steel.
    Stainless,
}

impl Metal {
    /// Coefficient of linear expansion, in `1/K`.
    pub fn expansion(self) -> Known {
        match self {
            // 356.0 and 6061; 316 and 304.
            Self::Aluminium => known(21.5e-6, 23.6e-6, CALLISTER),
            Self::Stainless => known(15.9e-6, 17.2e-6, CALLISTER),
        }
    }
}

/// A polymer of wear rings, unfilled. Fibres change all of this.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Polymer {
    /// Nylon 6 and 66.
    Nylon,
    /// Acetal.
    Acetal,
    /// Polyethylene of ultra-high molecular weight.
    Polyethylene,
    /// Thermoplastic polyurethane.
    Polyurethane,
}

/// What the bore of a polymer ring depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Coefficient of linear expansion, in `1/K`.
    pub expansion: Known,
    /// Water taken up when saturated, of the dry mass, in `1`.
    pub uptake: Known,
    /// Linear strain for the whole of the dry mass taken up, in `1`.
    pub swelling: Known,
    /// Poisson's ratio, in `1`.
    pub poisson: Known,
    /// Diffusivity of water near 20 degrees Celsius, in `m^2/s`; none where no figure was found.
    pub diffusivity: Option<Known>,
}

impl Polymer {
    /// What is known of it.
    ///
    /// Swelling is at most what adds the volume of the water: a third of the density over that of water.
    pub fn properties(self) -> Properties {
        match self {
            // 144e-6 is in `callister-2007`; of dry nylon 80e-6 to 100e-6 is told (from memory).
            Self::Nylon => Properties {
                expansion: known(80e-6, 144e-6, PRACTICE),
                uptake: known(0.05, 0.10, PRACTICE),
                swelling: known(0.20, 0.38, PRACTICE),
                poisson: known(0.35, 0.42, PRACTICE),
                // Wet nylon is the faster; the order of magnitude only.
                diffusivity: Some(known(1e-13, 1e-12, PRACTICE)),
            },
            Self::Acetal => Properties {
                expansion: known(85e-6, 125e-6, PRACTICE),
                uptake: known(0.006, 0.012, PRACTICE),
                swelling: known(0.20, 0.47, PRACTICE),
                poisson: known(0.35, 0.42, PRACTICE),
                diffusivity: None,
            },
            // 234e-6 to 360e-6 in `callister-2007`; other tables begin at 130e-6.
            Self::Polyethylene => Properties {
                expansion: known(130e-6, 360e-6, PRACTICE),
                uptake: known(0.0, 0.001, PRACTICE),
                swelling: known(0.0, 0.32, PRACTICE),
                poisson: known(0.40, 0.46, PRACTICE),
                diffusivity: None,
            },
            Self::Polyurethane => Properties {
                expansion: known(85e-6, 190e-6, PRACTICE),
                uptake: known(0.005, 0.03, PRACTICE),
                swelling: known(0.10, 0.40, PRACTICE),
                poisson: known(0.45, 0.49, PRACTICE),
                diffusivity: None,
            },
        }
    }
}

/// How a ring is held by what it sits in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holding {
    /// Loose, or thick beside what it sits in: it grows as a whole.
    Free,
    /// Bonded or pressed at its outside, free to grow along the shaft.
    Held,
    /// Held at its outside and between shoulders too.
    Blocked,
    /// Held all round and yielding: all of its growth in volume goes inwards. The most it can do.
    Yielded,
}

/// A thin ring in a stiff housing.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `bore` | radius of its bore | `m` |
/// | `outside` | radius of its outside | `m` |
/// | `poisson` | Poisson's ratio | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// Radius of its bore.
    pub bore: f64,
    /// Radius of its outside.
    pub outside: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Strains that ring and housing would have if each were free.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `ring` | of the ring, by temperature and water | `1` |
/// | `housing` | of the housing, by temperature | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strains {
    /// Of the ring, by temperature and water.
    pub ring: f64,
    /// Of the housing, by temperature.
    pub housing: f64,
}

/// Change of the radius of a thin ring's bore in a stiff housing.
///
/// Free: `e r`. Held: `R e_h - h (e + nu (e - e_h))`. Blocked:
/// `R e_h - h (e + 2 nu / (1 - nu) (e - e_h))`. Yielded: `R e_h - h (3 e - 2 e_h)`; `h = R - r`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `ring` | r, R, nu | radii and Poisson's ratio | |
/// | `strains` | e, `e_h` | free strains of ring and housing | `1` |
/// | `holding` | | how the ring is held | |
/// | returns | | change of the bore's radius, above zero when it opens | `m` |
///
/// Range: `0 < r < R`, `0 <= nu < 0.5`; thin and soft beside the housing, or use [`bonded`].
/// Source: `timoshenko-1970`, Hooke's law in plane stress and with both directions along the wall held.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn bore_change(ring: &Ring, strains: Strains, holding: Holding) -> Result<f64, Error> {
    let bore = positive("the radius of the bore", ring.bore)?;
    let outside = finite("the radius of the ring's outside", ring.outside)?;
    let wall = positive("the wall of the ring", outside - bore)?;
    let poisson = within("Poisson's ratio", ring.poisson, 0.0, 0.5)?;
    let (e, held) = (
        finite("the strain of the ring", strains.ring)?,
        finite("the strain of the housing", strains.housing)?,
    );
    let thicker = match holding {
        Holding::Free => return Ok(bore * e),
        Holding::Held => e + poisson * (e - held),
        Holding::Blocked => e + 2.0 * poisson / (1.0 - poisson) * (e - held),
        Holding::Yielded => 3.0 * e - 2.0 * held,
    };
    Ok(outside * held - wall * thicker)
}

/// Change of the radius of a bonded ring's bore, ring and housing both elastic.
///
/// `e r_i + u(r_i)`, u of a press fit whose interference is `(e - e_h) R`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `parts` | `r_i`, R | radii and materials | |
/// | `strains` | e, `e_h` | free strains of ring and housing | `1` |
/// | returns | | change of the bore's radius, above zero when it opens | `m` |
///
/// Range: as [`press`](crate::sleeve::press); the bond bears tension.
/// Source: `timoshenko-1970`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn bonded(parts: &Sleeved, strains: Strains) -> Result<f64, Error> {
    let e = finite("the strain of the ring", strains.ring)?;
    let held = finite("the strain of the housing", strains.housing)?;
    Ok(e * parts.bore + joined(parts, (e - held) * parts.seat)?.bore)
}

/// A polymer ring round a metal impeller.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `polymer` | of the ring | |
/// | `bore` | radius of its bore | `m` |
/// | `outside` | radius of its outside | `m` |
/// | `holding` | how it is held | |
/// | `housing` | what holds it | |
/// | `impeller` | what turns in it; its radius is taken as that of the bore | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted {
    /// Of the ring.
    pub polymer: Polymer,
    /// Radius of its bore.
    pub bore: f64,
    /// Radius of its outside.
    pub outside: f64,
    /// How it is held.
    pub holding: Holding,
    /// What holds it.
    pub housing: Metal,
    /// What turns in it.
    pub impeller: Metal,
}

/// The water ridden in, against the bench.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `warmer` | water less bench; below zero in cold water | `K` |
/// | `soaked` | change of the water in the ring since the bench, 1 from dry to saturated | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ride {
    /// Water less bench.
    pub warmer: f64,
    /// Change of the water in the ring since the bench, of saturation.
    pub soaked: Interval,
}

/// Change of the radial gap from the bench to the water ridden in.
///
/// `dg = change of the bore - r a_i dT`, at every corner of the ranges of the materials
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `fitted` | r | ring, housing, impeller | |
/// | `ride` | dT | temperature and water | |
///
/// Range: water from -100 K to 100 K warmer, `soaked` from 0 to 1 and in order. Every rotor and ring is
/// still round; heat of rubbing and of running is not in it.
/// Source: `callister-2007` for metals, see [`Known::source`] of each property; definition.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn gap_change(fitted: &Fitted, ride: Ride) -> Result<Interval, Error> {
    let warmer = within(
        "the water's temperature above the bench's",
        ride.warmer,
        -100.0,
        100.0,
    )?;
    let wet = "the share of saturation in the ring";
    let soaked = ride.soaked.check(wet, 0.0, 1.0)?;
    let ring = fitted.polymer.properties();
    let ends = |known: Known| [known.range.low, known.range.high];
    let swells = [
        soaked.low * ring.uptake.range.low * ring.swelling.range.low,
        soaked.high * ring.uptake.range.high * ring.swelling.range.high,
    ];
    let mut changes = Vec::new();
    for (expansion, swell) in ends(ring.expansion)
        .into_iter()
        .flat_map(|a| swells.map(|s| (a, s)))
    {
        for (poisson, housing) in ends(ring.poisson)
            .into_iter()
            .flat_map(|nu| ends(fitted.housing.expansion()).map(|a| (nu, a)))
        {
            let shape = Ring {
                bore: fitted.bore,
                outside: fitted.outside,
                poisson,
            };
            let strains = Strains {
                ring: expansion * warmer + swell,
                housing: housing * warmer,
            };
            let bore = bore_change(&shape, strains, fitted.holding)?;
            let impeller = ends(fitted.impeller.expansion());
            changes.extend(impeller.map(|a| bore - fitted.bore * a * warmer));
        }
    }
    Ok(Interval::around(changes))
}

/// How much warmer than when assembled a pressed sleeve comes loose.
///
/// `dT = d / (R (a_h - a_s))`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `interference` | d | radial interference as assembled | `m` |
/// | `seat` | R | radius where sleeve and housing touch | `m` |
/// | `sleeve` | `a_s` | expansion of the sleeve | `1/K` |
/// | `housing` | `a_h` | expansion of the housing | `1/K` |
/// | returns | dT | how much warmer | `K` |
///
/// Range: `d >= 0`, `R > 0`, a housing that expands more; both parts at one temperature.
/// Source: definition.
///
/// # Errors
/// [`Error::Negative`]; [`Error::NotPositive`], also when the housing expands no more: then warmth
/// tightens the sleeve.
pub fn loosens_at(interference: f64, seat: f64, sleeve: f64, housing: f64) -> Result<f64, Error> {
    let tight = not_negative("the radial interference", interference)?;
    let seat = positive("the radius of the seat", seat)?;
    let apart = "the expansion of the housing less that of the sleeve";
    Ok(tight / (seat * positive(apart, housing - sleeve)?))
}

/// Where water can enter a ring's wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Faces {
    /// From one side: it takes as long as a wall twice as thick does from both.
    One,
    /// From both.
    Both,
}

/// A wall taking up water.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `thickness` | of the wall | `m` |
/// | `faces` | that are wet | |
/// | `diffusivity` | of water in the polymer | `m^2/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Of the wall.
    pub thickness: f64,
    /// That are wet.
    pub faces: Faces,
    /// Of water in the polymer.
    pub diffusivity: f64,
}

/// Below this many diffusion times the half-space law holds to 1e-10.
const EARLY: f64 = 0.01;
/// Beyond this many diffusion times less than 1e-17 is missing.
const LATE: f64 = 4.0;

impl Wall {
    /// `D / L^2`, L twice the thickness when one face is wet.
    fn pace(&self) -> Result<f64, Error> {
        let thickness = positive("the thickness of the wall", self.thickness)?;
        let diffusivity = positive("the diffusivity", self.diffusivity)?;
        let length = match self.faces {
            Faces::One => 2.0 * thickness,
            Faces::Both => thickness,
        };
        Ok(diffusivity / (length * length))
    }

    /// Share of saturation that a dry wall has taken up.
    ///
    /// `M / M_s = 1 - 8 / PI^2 sum exp(-(2 n + 1)^2 PI^2 D t / L^2) / (2 n + 1)^2`,
    /// at first `4 sqrt(D t / (PI L^2))`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | L, D | wall; L is twice the thickness when one face is wet | |
    /// | `time` | t | in the water | `s` |
    /// | returns | | share of saturation | `1` |
    ///
    /// Range: `t >= 0`; one diffusivity throughout, though a wet polymer takes up water faster.
    /// Source: `crank-1975`.
    ///
    /// # Errors
    /// [`Error::Negative`], [`Error::NotPositive`].
    pub fn soaked(&self, time: f64) -> Result<f64, Error> {
        Ok(share(
            self.pace()? * not_negative("the time in the water", time)?,
        ))
    }

    /// Time until a dry wall has taken up a share of saturation.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `soaked` | share of saturation | `1` |
    /// | returns | time in the water | `s` |
    ///
    /// Range: `0 < soaked < 1`.
    /// Source: `crank-1975`, the inverse of [`Wall::soaked`].
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`].
    pub fn time_to(&self, soaked: f64) -> Result<f64, Error> {
        let wanted = probability("the share of saturation", soaked)?;
        let (mut low, mut high) = (0.0, LATE);
        for _ in 0..80 {
            let middle = 0.5 * (low + high);
            if share(middle) < wanted {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(high / self.pace()?)
    }
}

/// Share of saturation at `D t / L^2`.
fn share(at: f64) -> f64 {
    if at < EARLY {
        return 4.0 * (at / PI).sqrt();
    }
    let terms = (0..20).map(|n| {
        let odd = real(2 * n + 1);
        (-odd * odd * PI * PI * at).exp() / (odd * odd)
    });
    1.0 - 8.0 / (PI * PI) * terms.sum::<f64>()
}
