//! The resistance of a transom-stern craft before it planes, by the regression of Mercier and Savitsky.

use super::planing::fits::{friction, roughened};
use super::planing::{Beyond, Line, Roughness, State};
use super::{GRAVITY, told};
use crate::Error;
use crate::error::within;

/// What the regression knows of the shape.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `length` | of the waterline | `m` |
/// | `beam` | of the waterline | `m` |
/// | `entrance` | half the angle of entrance of the waterline | `rad` |
/// | `transom` | area of the transom under water over the largest section | `1` |
/// | `beam_draft` | beam over draft | `1` |
/// | `roughness` | of the bottom | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// Of the waterline.
    pub length: f64,
    /// Of the waterline.
    pub beam: f64,
    /// Half the angle of entrance of the waterline.
    pub entrance: f64,
    /// Area of the transom under water over the largest section.
    pub transom: f64,
    /// Beam over draft.
    pub beam_draft: f64,
    /// Of the bottom.
    pub roughness: Roughness,
}

/// What the craft asks for before it planes.
#[derive(Clone, Debug, PartialEq)]
#[must_use]
pub struct Preplaning {
    /// Over the weight, for a craft of 100 000 lb, as the regression has it, `1`.
    pub reference: f64,
    /// Over the weight, with this craft's own friction, `1`.
    pub ratio: f64,
    /// Of this craft, `N`.
    pub resistance: f64,
    /// `V/sqrt(g vol^(1/3))`, `1`.
    pub volume_froude: f64,
    /// What lies outside the shapes the regression was made from; empty where it holds.
    pub beyond: Vec<Beyond>,
}

/// Columns of the regression: from here, so far apart.
const FIRST: f64 = 1.0;
const APART: f64 = 0.1;
/// Where the regression ends.
pub(super) const LAST: f64 = 2.0;

/// Table VI, a row for each Froude number of volume from 1.0 to 2.0, for the terms
/// `1, X, U, W, XZ, XU, XW, ZU, ZW, W^2, XW^2, ZX^2, UW^2, WU^2`.
#[rustfmt::skip]
const TABLE: [[f64; 14]; 11] = [
    [0.064_73, -0.486_30, -0.010_30, -0.064_90, 0.0, 0.106_28, 0.973_10, -0.002_72, 0.010_89, 0.0, -1.409_62, 0.291_36, 0.029_71, -0.001_50],
    [0.107_76, -0.887_87, -0.016_34, -0.134_44, 0.0, 0.181_86, 1.830_80, -0.003_89, 0.014_67, 0.0, -2.466_96, 0.473_05, 0.058_77, -0.003_56],
    [0.094_83, -0.637_20, -0.015_40, -0.135_80, -0.160_46, 0.168_03, 1.559_72, -0.003_09, 0.034_81, 0.0, -2.155_56, 1.029_92, 0.051_98, -0.003_03],
    [0.034_75, 0.0, -0.009_78, -0.050_97, -0.218_80, 0.104_34, 0.435_10, -0.001_98, 0.041_13, 0.0, -0.926_63, 1.063_92, 0.022_09, -0.001_05],
    [0.030_13, 0.0, -0.006_64, -0.055_40, -0.193_59, 0.096_12, 0.518_20, -0.002_15, 0.039_01, 0.0, -0.952_76, 0.977_57, 0.024_13, -0.001_40],
    [0.031_63, 0.0, 0.0, -0.105_43, -0.205_40, 0.060_07, 0.582_30, -0.003_72, 0.047_94, 0.083_17, -0.708_95, 1.197_37, 0.0, 0.0],
    [0.031_94, 0.0, 0.0, -0.085_99, -0.194_42, 0.061_91, 0.523_49, -0.003_60, 0.044_36, 0.073_66, -0.720_57, 1.181_19, 0.0, 0.0],
    [0.043_43, 0.0, 0.0, -0.132_89, -0.180_62, 0.054_87, 0.781_95, -0.003_32, 0.041_87, 0.121_47, -0.959_29, 1.015_62, 0.0, 0.0],
    [0.050_36, 0.0, 0.0, -0.155_97, -0.178_13, 0.050_99, 0.928_59, -0.003_08, 0.041_11, 0.149_28, -1.121_78, 0.931_44, 0.0, 0.0],
    [0.056_12, 0.0, 0.0, -0.186_61, -0.182_88, 0.047_44, 1.185_69, -0.002_44, 0.041_24, 0.180_90, -1.386_44, 0.784_14, 0.0, 0.0],
    [0.059_67, 0.0, 0.0, -0.197_58, -0.201_52, 0.046_45, 1.300_26, -0.002_12, 0.043_43, 0.197_69, -1.551_27, 0.782_82, 0.0, 0.0],
];

/// Resistance before planing.
///
/// `R/W = sum A_j(F) term_j + (C_F(Re) + dC_F - C_F(Re_ref)) S_v F^2/2`, `F = V/sqrt(g vol^(1/3))`,
/// `X = vol^(1/3)/L`, `U = sqrt(2 i_E)` in degrees, `Z = vol/b^3`, `W` the transom,
/// `S_v = 2.262 sqrt(L/vol^(1/3)) (1 + 0.046 B/T + 0.00287 (B/T)^2)`, columns in between by straight lines.
///
/// Range: `1 <= F <= 2`, refused beyond; entrance 10 to 55 degrees, `L/vol^(1/3)` 2 to 12, `L/B` 2 to 14,
/// told beyond. Near the short end good to 30 % (from memory).
/// Source: `mercier-1973`.
///
/// # Errors
/// A size that is no size, and a speed outside the regression.
pub fn preplaning(form: &Form, state: &State) -> Result<Preplaning, Error> {
    let volume = checked(form, state)?;
    let root = volume.cbrt();
    let froude = state.speed / (GRAVITY * root).sqrt();
    within("Froude number of volume", froude, FIRST, LAST)?;
    let slender = form.length / root;
    let reference = regression(form, volume, froude);
    let reynolds = state.speed * form.length / state.water.viscosity;
    // 100 000 lb at 64 lb to the cubic foot in feet and seconds, as the regression has it.
    let (gravity, standard, viscosity) = (32.2, 1e5 / 64.0, 1.2817e-5_f64);
    let reference_reynolds = froude * slender * f64::sqrt(gravity * standard) / viscosity;
    let wide = form.beam_draft;
    let wetted = 2.262 * slender.sqrt() * (1.0 + wide * (0.046 + 0.002_87 * wide));
    let more = friction(Line::Ittc1957, reynolds)
        + roughened(form.roughness, form.length, reynolds)
        - friction(Line::Ittc1957, reference_reynolds);
    let ratio = reference + more * wetted * froude * froude / 2.0;
    let degrees = |x: f64| x.to_radians();
    let mut beyond = Vec::new();
    let entrance = (degrees(10.0), degrees(55.0));
    told(
        &mut beyond,
        "half angle of entrance",
        form.entrance,
        entrance,
    );
    told(
        &mut beyond,
        "length in cube roots of the volume",
        slender,
        (2.0, 12.0),
    );
    told(
        &mut beyond,
        "length in beams",
        form.length / form.beam,
        (2.0, 14.0),
    );
    Ok(Preplaning {
        reference,
        ratio,
        resistance: ratio * state.mass * GRAVITY,
        volume_froude: froude,
        beyond,
    })
}

/// The volume displaced at rest, of sizes that can be sizes.
fn checked(form: &Form, state: &State) -> Result<f64, Error> {
    const LEAST: f64 = f64::MIN_POSITIVE;
    const MOST: f64 = f64::MAX;
    within("length of the waterline", form.length, LEAST, MOST)?;
    within("beam", form.beam, LEAST, MOST)?;
    within(
        "half angle of entrance",
        form.entrance,
        LEAST,
        std::f64::consts::FRAC_PI_2,
    )?;
    within(
        "area of the transom over the largest section",
        form.transom,
        0.0,
        1.0,
    )?;
    within("beam over draft", form.beam_draft, LEAST, MOST)?;
    within("mass", state.mass, LEAST, MOST)?;
    within("density of water", state.water.density, LEAST, MOST)?;
    within("viscosity of water", state.water.viscosity, LEAST, MOST)?;
    Ok(state.mass / state.water.density)
}

fn regression(form: &Form, volume: f64, froude: f64) -> f64 {
    let x = volume.cbrt() / form.length;
    let u = (2.0 * form.entrance.to_degrees()).sqrt();
    let z = volume / form.beam.powi(3);
    let w = form.transom;
    let terms = [
        1.0,
        x,
        u,
        w,
        x * z,
        x * u,
        x * w,
        z * u,
        z * w,
        w * w,
        x * w * w,
        z * x * x,
        u * w * w,
        w * u * u,
    ];
    let of = |row: &[f64; 14]| {
        row.iter()
            .zip(&terms)
            .map(|(a, term)| a * term)
            .sum::<f64>()
    };
    let place = (froude - FIRST) / APART;
    let (mut low, mut at) = (0, 0.0);
    while low + 2 < TABLE.len() && place >= at + 1.0 {
        (low, at) = (low + 1, at + 1.0);
    }
    let share = place - at;
    of(&TABLE[low]) * (1.0 - share) + of(&TABLE[low + 1]) * share
}
