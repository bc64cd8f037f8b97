//! Sizes, the ring, the cone, the gap once more, and the visits.

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::{FIGURES, METALS, METHODS, POLYMERS, RING_SEATS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::inspect::{self, Inspection};

use super::super::key;
use super::{Verdict, entered, may};
use crate::body::measured::Tried;
use crate::body::of;
use crate::body::typed::{Angle, Duration, Gap, Length, Temperature};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Impeller {
    diameter: Length,
    method: String,
}

/// Bores from 12 to 6, 1:30 to 7:30, 3 to 9 and 4:30 to 10:30.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sizes {
    bores: [Option<Length>; 4],
    impeller: Option<Impeller>,
}

impl From<&inspect::Sizes> for Sizes {
    fn from(sizes: &inspect::Sizes) -> Self {
        Self {
            bores: sizes
                .bores
                .clone()
                .map(|bore| bore.as_ref().map(Length::from)),
            impeller: sizes.impeller.as_ref().map(|(diameter, method)| Impeller {
                diameter: diameter.into(),
                method: word(&METHODS, *method).to_owned(),
            }),
        }
    }
}

impl TryFrom<Sizes> for Inspection {
    type Error = String;

    fn try_from(stored: Sizes) -> Result<Self, String> {
        Ok(Self::Sizes(inspect::Sizes {
            bores: stored.bores.map(entered),
            impeller: match stored.impeller {
                Some(impeller) => Some((impeller.diameter.into(), of(&METHODS, &impeller.method)?)),
                None => None,
            },
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ring {
    seat: String,
    polymer: Option<String>,
    wall: Option<Length>,
    soaked: bool,
    impeller: String,
    bench: Option<Temperature>,
    water: Option<Temperature>,
}

impl From<&inspect::Ring> for Ring {
    fn from(ring: &inspect::Ring) -> Self {
        Self {
            seat: word(&RING_SEATS, ring.seat).to_owned(),
            polymer: (ring.polymer).map(|polymer| word(&POLYMERS, polymer).to_owned()),
            wall: ring.wall.as_ref().map(Length::from),
            soaked: ring.soaked,
            impeller: word(&METALS, ring.impeller).to_owned(),
            bench: ring.bench.as_ref().map(Temperature::from),
            water: ring.water.as_ref().map(Temperature::from),
        }
    }
}

impl TryFrom<Ring> for Inspection {
    type Error = String;

    fn try_from(stored: Ring) -> Result<Self, String> {
        Ok(Self::Ring(inspect::Ring {
            seat: of(&RING_SEATS, &stored.seat)?,
            polymer: may(&POLYMERS, stored.polymer.as_ref())?,
            wall: entered(stored.wall),
            soaked: stored.soaked,
            impeller: of(&METALS, &stored.impeller)?,
            bench: entered(stored.bench),
            water: entered(stored.water),
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Cone {
    half_angle: Angle,
    fitted: Length,
    shims: Vec<Length>,
    opens: bool,
}

impl From<&inspect::Cone> for Cone {
    fn from(cone: &inspect::Cone) -> Self {
        Self {
            half_angle: (&cone.half_angle).into(),
            fitted: (&cone.fitted).into(),
            shims: cone.shims.iter().map(Length::from).collect(),
            opens: cone.opens,
        }
    }
}

impl TryFrom<Cone> for Inspection {
    type Error = String;

    fn try_from(stored: Cone) -> Result<Self, String> {
        Ok(Self::Cone(inspect::Cone {
            half_angle: stored.half_angle.into(),
            fitted: stored.fitted.into(),
            shims: stored.shims.into_iter().map(Into::into).collect(),
            opens: stored.opens,
        }))
    }
}

/// Blade A at 12, 3, 6 and 9 o'clock.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Reread {
    clocks: [Vec<Tried>; 4],
    rubs: String,
    shown: Option<Shown>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shown {
    #[serde(with = "Verdict")]
    verdict: clearance::Verdict,
}

impl From<&inspect::Reread> for Reread {
    fn from(again: &inspect::Reread) -> Self {
        let clock = |tries: Vec<workshop::job::Tried>| tries.iter().map(Tried::from).collect();
        Self {
            clocks: again.clocks.clone().map(clock),
            rubs: again.rubs.clone(),
            shown: again.shown.map(|verdict| Shown { verdict }),
        }
    }
}

impl TryFrom<Reread> for Inspection {
    type Error = String;

    fn try_from(stored: Reread) -> Result<Self, String> {
        let clock = |tries: Vec<Tried>| tries.into_iter().map(Into::into).collect();
        Ok(Self::Reread(inspect::Reread {
            clocks: stored.clocks.map(clock),
            rubs: stored.rubs,
            shown: stored.shown.map(|shown| shown.verdict),
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Visit {
    #[expect(clippy::struct_field_names, reason = "the field is the key")]
    visit: String,
    hours: Duration,
    gap: Option<Gap>,
    figure: String,
    renewed: bool,
}

impl Visit {
    pub(super) fn new(key: &Key, visit: &inspect::Visit) -> Self {
        Self {
            visit: key.to_string(),
            hours: (&visit.hours).into(),
            gap: visit.gap.as_ref().map(Gap::from),
            figure: word(&FIGURES, visit.figure).to_owned(),
            renewed: visit.renewed,
        }
    }
}

impl TryFrom<Visit> for Inspection {
    type Error = String;

    fn try_from(stored: Visit) -> Result<Self, String> {
        Ok(Self::Visit {
            key: key(&stored.visit)?,
            visit: inspect::Visit {
                hours: stored.hours.into(),
                gap: stored.gap.map(Into::into),
                figure: of(&FIGURES, &stored.figure)?,
                renewed: stored.renewed,
            },
        })
    }
}
