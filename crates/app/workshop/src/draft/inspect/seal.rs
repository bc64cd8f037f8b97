//! The sheets of compounds, seals and metals: from what was typed and back.

use quantity::Unit;

use super::fill::Filling;
use super::seal_words::{COATS, COMPOUNDS, EDGES, MEASURES, STAINLESS, WATERS};
use super::words::YES;
use super::{InspectionDraft, Sheet};
use crate::draft::{day, word};
use crate::entry::Key;
use crate::job::Job;
use crate::refusal::{Refusal, Seal as Why, Slip};
use crate::seals::{Around, OnThread, Own, OwnCure, Seal, Sealing, Stuff, Touch};

const MM: Unit = Unit::Millimetre;

/// Everything said of compounds, seals and metals that still has its joint and its compound.
pub(super) fn said(job: &Job) -> Vec<Sealing> {
    let had = job.seals();
    let known = |key: &Key| job.joints.contains_key(key);
    let mut said = Vec::new();
    said.extend(had.bench.iter().map(|f| Sealing::Bench(f.value.clone())));
    said.extend(had.compounds.iter().map(|(key, f)| Sealing::Compound {
        key: key.clone(),
        compound: f.value.clone(),
    }));
    for (joint, fact) in had.threads.iter().filter(|(key, _)| known(key)) {
        said.push(Sealing::Thread {
            joint: joint.clone(),
            thread: fact.value.clone(),
        });
    }
    for (joint, fact) in had.seals.iter().filter(|(key, _)| known(key)) {
        said.push(Sealing::Seal {
            joint: joint.clone(),
            seal: fact.value.clone(),
        });
    }
    for (joint, fact) in had.contacts.iter().filter(|(key, _)| known(key)) {
        said.push(Sealing::Contact {
            joint: joint.clone(),
            contact: fact.value.clone(),
        });
    }
    said
}

impl Stuff {
    /// The word of a class, or the key of the person's own.
    pub fn word(&self) -> String {
        match self {
            Self::Class(class) => word(&COMPOUNDS, *class).to_owned(),
            Self::Own(key) => key.to_string(),
        }
    }

    /// Reads a word; what is no class is the key of the person's own.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        let text = text.trim();
        if text.is_empty() {
            return Err(Refusal::Empty { field: "with" });
        }
        match COMPOUNDS.iter().find(|(word, _)| *word == text) {
            Some((_, class)) => Ok(Self::Class(*class)),
            None => Key::new(text).map(Self::Own).map_err(|_| {
                let key = text.to_owned();
                Refusal::Inspected(Slip::Seal(Why::NoSuchCompound { key }))
            }),
        }
    }
}

impl InspectionDraft {
    /// The sheet that reads as `said`.
    pub(super) fn of_sealing(said: &Sealing) -> Self {
        match said {
            Sealing::Bench(around) => Filling::new(Sheet::Bench, String::new()).around(around),
            Sealing::Compound { key, compound } => {
                Filling::new(Sheet::Compound, key.to_string()).own(compound)
            }
            Sealing::Thread { joint, thread } => {
                Filling::new(Sheet::Thread, joint.to_string()).on_thread(thread)
            }
            Sealing::Seal { joint, seal } => {
                Filling::new(Sheet::Seal, joint.to_string()).seal(seal)
            }
            Sealing::Contact { joint, contact } => {
                Filling::new(Sheet::Contact, joint.to_string()).touch(contact)
            }
        }
    }

    /// Reads one of these sheets.
    pub(super) fn sealing(&self) -> Result<Sealing, Refusal> {
        let key = || Key::new(&self.key);
        Ok(match self.sheet {
            Sheet::Compound => Sealing::Compound {
                key: key()?,
                compound: self.own()?,
            },
            Sheet::Thread => Sealing::Thread {
                joint: key()?,
                thread: OnThread {
                    with: Stuff::read(self.get("with"))?,
                    primed: self.may_choose("primed", &YES)?.unwrap_or(false),
                },
            },
            Sheet::Seal => Sealing::Seal {
                joint: key()?,
                seal: self.seal()?,
            },
            Sheet::Contact => Sealing::Contact {
                joint: key()?,
                contact: self.touch()?,
            },
            _ => Sealing::Bench(Around {
                water: self.choice("water", &WATERS)?,
                temperature: self.may("temperature", Unit::Celsius)?,
                humidity: self.whole(
                    "humidity",
                    "%",
                    "a whole number of per cent from 1 to 100",
                )?,
            }),
        })
    }

    /// A whole number that may have its unit behind it.
    fn whole(
        &self,
        field: &'static str,
        unit: &str,
        allowed: &'static str,
    ) -> Result<Option<u8>, Refusal> {
        if self.empty(field) {
            return Ok(None);
        }
        let text = self.get(field).trim();
        let number = text.strip_suffix(unit).unwrap_or(text).trim();
        match number.parse() {
            Ok(number) => Ok(Some(number)),
            Err(_) => Err(Refusal::NotACount {
                field,
                text: text.to_owned(),
                allowed,
            }),
        }
    }

    fn own(&self) -> Result<Own, Refusal> {
        let depth = self.may("cure_depth", MM)?;
        let full = self.may("cure_time", Unit::Hour)?;
        Ok(Own {
            name: self.text("name"),
            class: self.choice("class", &COMPOUNDS)?,
            working: self.may("working", Unit::Minute)?,
            skin: self.may("skin", Unit::Minute)?,
            cure: match (depth, full) {
                (None, None) => OwnCure::AsItsClass,
                (Some(depth), None) => OwnCure::Depth(depth),
                (None, Some(full)) => OwnCure::Time(full),
                (Some(_), Some(_)) => return Err(Refusal::TwoWays { field: "cure_time" }),
            },
            shelf: self.whole("shelf", "months", "a whole number of months from 1 to 120")?,
            made: day(self.get("made"))?,
        })
    }

    fn seal(&self) -> Result<Seal, Refusal> {
        Ok(Seal {
            with: Stuff::read(self.get("with"))?,
            sealed: self.need("sealed", MM)?,
            room: self.need("room", MM)?,
            gap: self.pair(("gap_low", "gap_high"), MM)?,
            line: self.may("line", MM)?,
            edges: self.choice("edges", &EDGES)?,
            passage: self.may("passage", MM)?,
        })
    }

    fn touch(&self) -> Result<Touch, Refusal> {
        Ok(Touch {
            screw: self.may_choose("screw", &STAINLESS)?,
            coat: self.may_choose("coat", &COATS)?,
            insulated: self.may_choose("insulated", &MEASURES)?,
            sealed: self.may_choose("sealed", &MEASURES)?,
            coated: self.may_choose("coated", &MEASURES)?,
            anode: self.may_choose("anode", &MEASURES)?,
        })
    }
}

impl Filling {
    fn around(mut self, around: &Around) -> InspectionDraft {
        self.text("water", word(&WATERS, around.water));
        self.maybe("temperature", around.temperature.as_ref(), Unit::Celsius);
        let humidity = around.humidity.map(|percent| percent.to_string());
        self.text("humidity", humidity.unwrap_or_default());
        self.0
    }

    fn own(mut self, own: &Own) -> InspectionDraft {
        self.text("name", own.name.as_str());
        self.text("class", word(&COMPOUNDS, own.class));
        self.maybe("working", own.working.as_ref(), Unit::Minute);
        self.maybe("skin", own.skin.as_ref(), Unit::Minute);
        match &own.cure {
            OwnCure::AsItsClass => {}
            OwnCure::Depth(depth) => self.maybe("cure_depth", Some(depth), MM),
            OwnCure::Time(full) => self.maybe("cure_time", Some(full), Unit::Hour),
        }
        let shelf = own.shelf.map(|months| months.to_string());
        self.text("shelf", shelf.unwrap_or_default());
        let made = own.made.map(|made| made.to_string());
        self.text("made", made.unwrap_or_default());
        self.0
    }

    fn on_thread(mut self, on: &OnThread) -> InspectionDraft {
        self.text("with", on.with.word());
        self.text("primed", word(&YES, on.primed));
        self.0
    }

    fn seal(mut self, seal: &Seal) -> InspectionDraft {
        self.text("with", seal.with.word());
        self.maybe("sealed", Some(&seal.sealed), MM);
        self.maybe("room", Some(&seal.room), MM);
        self.pair(("gap_low", "gap_high"), seal.gap.as_ref(), MM);
        self.maybe("line", seal.line.as_ref(), MM);
        self.text("edges", word(&EDGES, seal.edges));
        self.maybe("passage", seal.passage.as_ref(), MM);
        self.0
    }

    fn touch(mut self, touch: &Touch) -> InspectionDraft {
        self.text("screw", touch.screw.map_or("", |s| word(&STAINLESS, s)));
        self.text("coat", touch.coat.map_or("", |coat| word(&COATS, coat)));
        for (field, measure) in [
            ("insulated", touch.insulated),
            ("sealed", touch.sealed),
            ("coated", touch.coated),
            ("anode", touch.anode),
        ] {
            self.text(field, measure.map_or("", |m| word(&MEASURES, m)));
        }
        self.0
    }
}
