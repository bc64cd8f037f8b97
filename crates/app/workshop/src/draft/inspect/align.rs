//! The driveline as typed.

use quantity::{Entered, Unit};

use super::InspectionDraft;
use super::fill::Filling;
use super::read::shims;
use super::words::{CARRIERS, LIMITS_OF, WAYS, YES};
use crate::draft::list::row;
use crate::draft::{typed, word};
use crate::inspect::align::{Alignment, Dials, MountAt, Read, Station, Turned, Way};
use crate::refusal::{Refusal, Skew, Slip};

const MM: Unit = Unit::Millimetre;

/// The fields of the sheet.
pub(super) const FIELDS: [&str; 35] = [
    "way",
    "free_0",
    "free_90",
    "free_180",
    "free_270",
    "aft_at",
    "aft_0",
    "aft_90",
    "aft_180",
    "aft_270",
    "forward_at",
    "forward_0",
    "forward_90",
    "forward_180",
    "forward_270",
    "carrier",
    "rim_0",
    "rim_90",
    "rim_180",
    "rim_270",
    "face_0",
    "face_90",
    "face_180",
    "face_270",
    "across",
    "sag",
    "travel",
    "step",
    "repeat",
    "offset_limit",
    "limit_of",
    "angle_limit",
    "page",
    "mounts",
    "shims",
];

const FREE: [&str; 4] = ["free_0", "free_90", "free_180", "free_270"];
pub(crate) const AFT: [&str; 4] = ["aft_0", "aft_90", "aft_180", "aft_270"];
pub(crate) const FORWARD: [&str; 4] = ["forward_0", "forward_90", "forward_180", "forward_270"];
pub(crate) const RIM: [&str; 4] = ["rim_0", "rim_90", "rim_180", "rim_270"];
pub(crate) const FACE: [&str; 4] = ["face_0", "face_90", "face_180", "face_270"];

fn skew<T>(skew: Skew) -> Result<T, Refusal> {
    Err(Refusal::Inspected(Slip::Skew(skew)))
}

impl InspectionDraft {
    pub(super) fn alignment(&self) -> Result<Alignment, Refusal> {
        let way = self.choice("way", &WAYS)?;
        self.only(way)?;
        let read = match way {
            Way::Slides => Read::Slides([
                self.choice(FREE[0], &YES)?,
                self.choice(FREE[1], &YES)?,
                self.choice(FREE[2], &YES)?,
                self.choice(FREE[3], &YES)?,
            ]),
            Way::Bar => self.bar()?,
            Way::Dials => Read::Dials(self.dials()?),
        };
        Ok(Alignment {
            step: match way {
                Way::Slides => None,
                Way::Bar | Way::Dials => Some(self.need("step", MM)?),
            },
            read,
            repeat: self.may("repeat", MM)?,
            offset_limit: self.may("offset_limit", MM)?,
            total: self.may_choose("limit_of", &LIMITS_OF)?.unwrap_or(false),
            angle_limit: self.may("angle_limit", Unit::Degree)?,
            page: self.text("page"),
            mounts: mounts(self.get("mounts"))?,
            shims: shims(self.get("shims"))?,
            shown: None,
        })
    }

    /// Refuses what belongs to another way, so that nothing typed is dropped.
    fn only(&self, way: Way) -> Result<(), Refusal> {
        let bar = [&["aft_at", "forward_at"][..], &AFT, &FORWARD].concat();
        let dials = [&["across", "sag", "travel"][..], &RIM, &FACE].concat();
        let measured = [
            "step",
            "repeat",
            "offset_limit",
            "angle_limit",
            "mounts",
            "shims",
        ];
        let strangers: Vec<&'static str> = match way {
            Way::Slides => [bar, dials, measured.to_vec()].concat(),
            Way::Bar => [dials, FREE.to_vec()].concat(),
            Way::Dials => [bar, FREE.to_vec()].concat(),
        };
        match strangers.into_iter().find(|field| !self.empty(field)) {
            Some(field) => skew(Skew::Elsewhere {
                field,
                text: self.text(field),
            }),
            None => Ok(()),
        }
    }

    fn turns(&self, fields: [&'static str; 4]) -> Result<Vec<Turned>, Refusal> {
        if fields.iter().all(|field| self.empty(field)) {
            return Err(Refusal::Empty { field: fields[0] });
        }
        let mut turns = Vec::new();
        for (quarter, field) in (0..).zip(fields) {
            if self.empty(field) {
                continue;
            }
            let read = row(field, self.get(field), MM)?;
            let count = read.len();
            let Ok(read) = <[Entered; 4]>::try_from(read) else {
                return skew(Skew::NotFour { field, count });
            };
            turns.push(Turned { quarter, read });
        }
        Ok(turns)
    }

    fn bar(&self) -> Result<Read, Refusal> {
        let station = |at, fields| -> Result<Station, Refusal> {
            Ok(Station {
                at: self.need(at, MM)?,
                turns: self.turns(fields)?,
            })
        };
        let second = !self.empty("forward_at") || FORWARD.iter().any(|field| !self.empty(field));
        Ok(Read::Bar {
            aft: station("aft_at", AFT)?,
            forward: if second {
                Some(station("forward_at", FORWARD)?)
            } else {
                None
            },
        })
    }

    fn dials(&self) -> Result<Dials, Refusal> {
        Ok(Dials {
            carrier: self.choice("carrier", &CARRIERS)?,
            rim: self.turns(RIM)?,
            face: self.turns(FACE)?,
            across: self.need("across", MM)?,
            sag: self.may("sag", MM)?,
            travel: self.may("travel", MM)?,
        })
    }
}

/// One mount a line: `front port: 160, 190, 1.2 mm`.
fn mounts(text: &str) -> Result<Vec<MountAt>, Refusal> {
    let lines = text.split([';', '\n']).map(str::trim);
    lines
        .filter(|line| !line.is_empty())
        .map(|line| {
            let bad = || Skew::Mount {
                text: line.to_owned(),
            };
            let (name, lengths) = match line.split_once(':') {
                Some((name, lengths)) if !name.trim().is_empty() => (name.trim(), lengths),
                _ => return skew(bad()),
            };
            let Ok([forward, port, shims]) = <[Entered; 3]>::try_from(row("mounts", lengths, MM)?)
            else {
                return skew(bad());
            };
            Ok(MountAt {
                name: name.to_owned(),
                forward,
                port,
                shims,
            })
        })
        .collect()
}

impl Filling {
    pub(super) fn alignment(mut self, said: &Alignment) -> InspectionDraft {
        self.text("way", word(&WAYS, said.read.way()));
        match &said.read {
            Read::Slides(free) => {
                for (field, free) in FREE.into_iter().zip(free) {
                    self.text(field, word(&YES, *free));
                }
            }
            Read::Bar { aft, forward } => {
                self.station(("aft_at", AFT), aft);
                if let Some(forward) = forward {
                    self.station(("forward_at", FORWARD), forward);
                }
            }
            Read::Dials(dials) => {
                self.text("carrier", word(&CARRIERS, dials.carrier));
                self.turns(RIM, &dials.rim);
                self.turns(FACE, &dials.face);
                self.maybe("across", Some(&dials.across), MM);
                self.maybe("sag", dials.sag.as_ref(), MM);
                self.maybe("travel", dials.travel.as_ref(), MM);
            }
        }
        self.maybe("step", said.step.as_ref(), MM);
        self.maybe("repeat", said.repeat.as_ref(), MM);
        self.maybe("offset_limit", said.offset_limit.as_ref(), MM);
        if said.offset_limit.is_some() || said.total {
            self.text("limit_of", word(&LIMITS_OF, said.total));
        }
        self.maybe("angle_limit", said.angle_limit.as_ref(), Unit::Degree);
        self.text("page", said.page.as_str());
        let mounts = said.mounts.iter().map(|mount| {
            let lengths = [&mount.forward, &mount.port, &mount.shims];
            let lengths = lengths.map(|length| typed(length, MM));
            format!("{}: {}", mount.name, lengths.join(", "))
        });
        self.text("mounts", mounts.collect::<Vec<_>>().join("; "));
        let shims: Vec<String> = said.shims.iter().map(|shim| typed(shim, MM)).collect();
        self.text("shims", shims.join("; "));
        self.0
    }

    fn station(&mut self, (at, fields): (&'static str, [&'static str; 4]), station: &Station) {
        self.maybe(at, Some(&station.at), MM);
        self.turns(fields, &station.turns);
    }

    fn turns(&mut self, fields: [&'static str; 4], turns: &[Turned]) {
        for turned in turns {
            let read = turned.read.each_ref().map(|read| typed(read, MM));
            self.text(fields[usize::from(turned.quarter % 4)], read.join(", "));
        }
    }
}
