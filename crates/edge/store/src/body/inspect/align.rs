//! A reading of the driveline.

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::CARRIERS;
use workshop::draft::word;
use workshop::inspect::{Inspection, align};

use super::super::typed::{Angle, Length};
use super::super::{of, shown::Verdict};
use super::entered;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Turned {
    quarter_turns: u8,
    clock_12: Length,
    clock_3: Length,
    clock_6: Length,
    clock_9: Length,
}

impl From<&align::Turned> for Turned {
    fn from(turned: &align::Turned) -> Self {
        let [top, starboard, bottom, port] = turned.read.each_ref().map(Length::from);
        Self {
            quarter_turns: turned.quarter,
            clock_12: top,
            clock_3: starboard,
            clock_6: bottom,
            clock_9: port,
        }
    }
}

impl TryFrom<Turned> for align::Turned {
    type Error = String;

    fn try_from(stored: Turned) -> Result<Self, String> {
        if stored.quarter_turns > 3 {
            return Err(format!("{} quarter turns", stored.quarter_turns));
        }
        Ok(Self {
            quarter: stored.quarter_turns,
            read: [
                stored.clock_12.into(),
                stored.clock_3.into(),
                stored.clock_6.into(),
                stored.clock_9.into(),
            ],
        })
    }
}

fn turns(stored: Vec<Turned>) -> Result<Vec<align::Turned>, String> {
    stored.into_iter().map(TryInto::try_into).collect()
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Station {
    at: Length,
    turns: Vec<Turned>,
}

impl From<&align::Station> for Station {
    fn from(station: &align::Station) -> Self {
        Self {
            at: (&station.at).into(),
            turns: station.turns.iter().map(Into::into).collect(),
        }
    }
}

impl TryFrom<Station> for align::Station {
    type Error = String;

    fn try_from(stored: Station) -> Result<Self, String> {
        Ok(Self {
            at: stored.at.into(),
            turns: turns(stored.turns)?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "way", deny_unknown_fields)]
enum Read {
    Slides {
        free: [bool; 4],
    },
    Bar {
        aft: Station,
        forward: Option<Station>,
    },
    Dials {
        carrier: String,
        rim: Vec<Turned>,
        face: Vec<Turned>,
        across: Length,
        sag: Option<Length>,
        travel: Option<Length>,
    },
}

impl From<&align::Read> for Read {
    fn from(read: &align::Read) -> Self {
        match read {
            align::Read::Slides(free) => Self::Slides { free: *free },
            align::Read::Bar { aft, forward } => Self::Bar {
                aft: aft.into(),
                forward: forward.as_ref().map(Into::into),
            },
            align::Read::Dials(dials) => Self::Dials {
                carrier: word(&CARRIERS, dials.carrier).to_owned(),
                rim: dials.rim.iter().map(Into::into).collect(),
                face: dials.face.iter().map(Into::into).collect(),
                across: (&dials.across).into(),
                sag: dials.sag.as_ref().map(Length::from),
                travel: dials.travel.as_ref().map(Length::from),
            },
        }
    }
}

impl TryFrom<Read> for align::Read {
    type Error = String;

    fn try_from(stored: Read) -> Result<Self, String> {
        Ok(match stored {
            Read::Slides { free } => Self::Slides(free),
            Read::Bar { aft, forward } => Self::Bar {
                aft: aft.try_into()?,
                forward: forward.map(TryInto::try_into).transpose()?,
            },
            Read::Dials {
                carrier,
                rim,
                face,
                across,
                sag,
                travel,
            } => Self::Dials(align::Dials {
                carrier: of(&CARRIERS, &carrier)?,
                rim: turns(rim)?,
                face: turns(face)?,
                across: across.into(),
                sag: entered(sag),
                travel: entered(travel),
            }),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Mount {
    name: String,
    forward: Length,
    port: Length,
    shims: Length,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Plane {
    up: f64,
    port: f64,
}

impl Plane {
    fn of([up, port]: [f64; 2]) -> Self {
        Self { up, port }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shown {
    #[serde(with = "Verdict")]
    verdict: clearance::Verdict,
    offset_m: Option<Plane>,
    slope_rad: Option<Plane>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Alignment {
    read: Read,
    step: Option<Length>,
    repeat: Option<Length>,
    offset_limit: Option<Length>,
    total: bool,
    angle_limit: Option<Angle>,
    page: String,
    mounts: Vec<Mount>,
    shims: Vec<Length>,
    shown: Option<Shown>,
}

impl From<&align::Alignment> for Alignment {
    fn from(said: &align::Alignment) -> Self {
        let mount = |mount: &align::MountAt| Mount {
            name: mount.name.clone(),
            forward: (&mount.forward).into(),
            port: (&mount.port).into(),
            shims: (&mount.shims).into(),
        };
        Self {
            read: (&said.read).into(),
            step: said.step.as_ref().map(Length::from),
            repeat: said.repeat.as_ref().map(Length::from),
            offset_limit: said.offset_limit.as_ref().map(Length::from),
            total: said.total,
            angle_limit: said.angle_limit.as_ref().map(Angle::from),
            page: said.page.clone(),
            mounts: said.mounts.iter().map(mount).collect(),
            shims: said.shims.iter().map(Length::from).collect(),
            shown: said.shown.map(|shown| Shown {
                verdict: shown.verdict,
                offset_m: shown.offset.map(Plane::of),
                slope_rad: shown.slope.map(Plane::of),
            }),
        }
    }
}

impl TryFrom<Alignment> for Inspection {
    type Error = String;

    fn try_from(stored: Alignment) -> Result<Self, String> {
        let mount = |mount: Mount| align::MountAt {
            name: mount.name,
            forward: mount.forward.into(),
            port: mount.port.into(),
            shims: mount.shims.into(),
        };
        let plane = |plane: Plane| [plane.up, plane.port];
        Ok(Self::Alignment(Box::new(align::Alignment {
            read: stored.read.try_into()?,
            step: entered(stored.step),
            repeat: entered(stored.repeat),
            offset_limit: entered(stored.offset_limit),
            total: stored.total,
            angle_limit: entered(stored.angle_limit),
            page: stored.page,
            mounts: stored.mounts.into_iter().map(mount).collect(),
            shims: stored.shims.into_iter().map(Into::into).collect(),
            shown: stored.shown.map(|shown| align::Shown {
                verdict: shown.verdict,
                offset: shown.offset_m.map(plane),
                slope: shown.slope_rad.map(plane),
            }),
        })))
    }
}
