//! A joint that is no circle of screws, as typed: a flat list of named fields, whose names are those
//! of its kind.

mod words;

use std::collections::BTreeMap;

use quantity::{Entered, Unit};

pub use words::{
    CARRIES, CHECKS, DRIVES, ENDS, FILLS, FRONTS, HANDS, KINDS, LIPS, PRESSED, RUBBERS, TURNS,
    UNTILS,
};

use super::inspect::words::YES;
use super::{Choice, choose, count, length, optional, typed, word};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::fits::{Checked, Fill, Fit, FitKind, FitState, Impeller, Kind, Lip, Press, RingSizes};
use crate::job::Job;
use crate::refusal::{Refusal, Unfit};

const MM: Unit = Unit::Millimetre;

/// The fields that every kind has.
const COMMON: [&str; 3] = ["kind", "name", "page"];
/// What is said of how far it has come.
const PROGRESS: [&str; 2] = ["checked", "reading"];

impl Kind {
    /// The fields of its own, in order.
    pub fn fields(self) -> &'static [&'static str] {
        match self {
            Self::Impeller => &[
                "hand",
                "goes_on_from",
                "drive",
                "torque",
                "second",
                "compound",
            ],
            Self::Press => &["what", "shaft", "housing", "diameter", "front", "place"],
            Self::Lips => &["lip_1", "lip_2", "lip_3"],
            Self::ORing => &["rubber", "cord", "inner", "seat", "depth", "width"],
            Self::Fill => &["with", "product", "amount", "until"],
            Self::Spline => &["bumpers", "least", "greatest"],
            Self::Shims => &["studs"],
            Self::Hose => &["carries", "below"],
            Self::Cable => &["threads"],
            Self::Plug => &["torque"],
            Self::Anode => &["greatest"],
        }
    }
}

/// A joint that is no circle of screws, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FitDraft {
    /// Names it within the job.
    pub key: String,
    /// What stands in its fields; a field that is not there is empty.
    pub fields: BTreeMap<&'static str, String>,
}

impl FitDraft {
    /// Every field there is, of any kind.
    pub fn all_fields() -> Vec<&'static str> {
        let own = Kind::ALL.into_iter().flat_map(Kind::fields).copied();
        let mut all: Vec<&str> = COMMON.into_iter().chain(own).chain(PROGRESS).collect();
        let mut seen = std::collections::BTreeSet::new();
        all.retain(|field| seen.insert(*field));
        all
    }

    /// A draft whose fields are asked for one by one.
    pub fn new(key: String, text: impl Fn(&str) -> String) -> Self {
        let fields = Self::all_fields().into_iter();
        let fields = fields.map(|field| (field, text(field)));
        Self {
            key,
            fields: fields.filter(|(_, text)| !text.is_empty()).collect(),
        }
    }

    /// The draft that reads as this joint and how far it has come.
    pub fn of(key: &Key, state: &FitState) -> Self {
        let mut draft = Self::described(key, &state.fit.value);
        if let Some(fact) = &state.checked {
            let checked = &fact.value;
            let ticks = checked.ticks.iter().map(|tick| word(&CHECKS, *tick));
            draft.text("checked", ticks.collect::<Vec<_>>().join(" "));
            let bare = reading_unit(&state.fit.value);
            draft.maybe("reading", checked.reading.as_ref(), bare);
        }
        draft
    }

    /// The draft that reads as this joint.
    pub fn described(key: &Key, fit: &Fit) -> Self {
        let mut draft = Self {
            key: key.to_string(),
            fields: BTreeMap::new(),
        };
        draft.text("kind", word(&KINDS, fit.kind.kind()));
        draft.text("name", fit.name.as_str());
        draft.text("page", fit.page.as_str());
        draft.own(&fit.kind);
        draft
    }

    fn own(&mut self, kind: &FitKind) {
        match kind {
            FitKind::Press(press) => {
                self.text("what", word(&PRESSED, press.what));
                self.maybe("shaft", press.shaft.as_ref(), MM);
                self.maybe("housing", press.housing.as_ref(), MM);
                self.maybe("diameter", press.diameter.as_ref(), MM);
                self.text(
                    "front",
                    press.front.map_or("", |front| word(&FRONTS, front)),
                );
                self.text("place", press.place.as_str());
            }
            FitKind::Lips(lips) => {
                for (field, lip) in Kind::Lips.fields().iter().zip(lips) {
                    self.text(field, word(&LIPS, *lip));
                }
            }
            FitKind::ORing { rubber, sizes } => {
                self.text("rubber", rubber.map_or("", |rubber| word(&RUBBERS, rubber)));
                if let Some(sizes) = sizes {
                    self.maybe("cord", Some(&sizes.cord), MM);
                    self.maybe("inner", Some(&sizes.inner), MM);
                    self.maybe("seat", Some(&sizes.seat), MM);
                    self.maybe("depth", Some(&sizes.depth), MM);
                    self.maybe("width", Some(&sizes.width), MM);
                }
            }
            FitKind::Fill(fill) => {
                self.text("with", word(&FILLS, fill.oil));
                self.text("product", fill.product.as_str());
                self.text("amount", fill.amount.as_str());
                self.text("until", word(&UNTILS, fill.until));
            }
            FitKind::Spline {
                bumpers,
                least,
                greatest,
            } => {
                self.text("bumpers", word(&YES, *bumpers));
                self.maybe("least", least.as_ref(), MM);
                self.maybe("greatest", greatest.as_ref(), MM);
            }
            FitKind::Hose { carries, below } => {
                self.text("carries", word(&CARRIES, *carries));
                self.text("below", word(&YES, *below));
            }
            FitKind::Cable { threads } => {
                self.text(
                    "threads",
                    threads.map_or_else(String::new, |n| n.to_string()),
                );
            }
            FitKind::Plug { torque } => self.maybe("torque", torque.as_ref(), Unit::NewtonMetre),
            FitKind::Anode { greatest } => self.maybe("greatest", greatest.as_ref(), Unit::Ohm),
            FitKind::Shims(studs) => {
                let studs: Vec<String> = studs.iter().map(|stud| typed(stud, MM)).collect();
                self.text("studs", studs.join("; "));
            }
            FitKind::Impeller(impeller) => {
                self.text("hand", word(&HANDS, impeller.hand));
                self.text("goes_on_from", word(&ENDS, impeller.goes_on_from));
                self.text("drive", word(&DRIVES, impeller.drive));
                self.maybe("torque", impeller.torque.as_ref(), Unit::NewtonMetre);
                self.maybe("second", impeller.second.as_ref(), Unit::PoundForceFoot);
                self.text("compound", impeller.compound.as_str());
            }
        }
    }

    fn text(&mut self, field: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.fields.insert(field, text);
        }
    }

    fn maybe(&mut self, field: &'static str, entered: Option<&Entered>, bare: Unit) {
        if let Some(entered) = entered {
            self.text(field, typed(entered, bare));
        }
    }

    /// The same without what belongs to one craft: ticks, readings, threads as found.
    /// Shims are of one craft altogether.
    pub(super) fn of_any_craft(mut self) -> Option<Self> {
        for field in ["checked", "reading", "threads"] {
            self.fields.remove(field);
        }
        (self.get("kind") != word(&KINDS, Kind::Shims)).then_some(self)
    }

    /// What stands in a field.
    pub fn get(&self, field: &str) -> &str {
        self.fields.get(field).map_or("", String::as_str)
    }

    fn said(&self, field: &str) -> String {
        self.get(field).trim().to_owned()
    }

    fn may(&self, field: &'static str, bare: Unit) -> Result<Option<Entered>, Refusal> {
        optional(field, self.get(field), bare)
    }

    fn choice<T: Copy>(&self, field: &'static str, of: &[Choice<T>]) -> Result<T, Refusal> {
        choose(field, self.get(field), of)
    }

    fn may_choose<T: Copy>(
        &self,
        field: &'static str,
        of: &[Choice<T>],
    ) -> Result<Option<T>, Refusal> {
        if self.said(field).is_empty() {
            return Ok(None);
        }
        self.choice(field, of).map(Some)
    }

    /// Reads what is said of the joint itself.
    pub fn read(&self) -> Result<Fit, Refusal> {
        let kind = self.choice("kind", &KINDS)?;
        let strange = self.fields.iter().find(|(field, text)| {
            let known = COMMON.contains(field) || PROGRESS.contains(field);
            !known && !kind.fields().contains(field) && !text.trim().is_empty()
        });
        if let Some((field, _)) = strange {
            return Err(Refusal::Unfit(Unfit::NotOfKind {
                field,
                kind: word(&KINDS, kind),
                fields: kind.fields(),
            }));
        }
        Ok(Fit {
            name: self.said("name"),
            kind: self.facts(kind)?,
            page: self.said("page"),
        })
    }

    fn facts(&self, kind: Kind) -> Result<FitKind, Refusal> {
        Ok(match kind {
            Kind::Press => FitKind::Press(Press {
                what: self.choice("what", &PRESSED)?,
                shaft: self.may("shaft", MM)?,
                housing: self.may("housing", MM)?,
                diameter: self.may("diameter", MM)?,
                front: self.may_choose("front", &FRONTS)?,
                place: self.said("place"),
            }),
            Kind::Lips => FitKind::Lips(self.lips()?),
            Kind::ORing => FitKind::ORing {
                rubber: self.may_choose("rubber", &RUBBERS)?,
                sizes: self.sizes()?.map(Box::new),
            },
            Kind::Fill => FitKind::Fill(Fill {
                oil: self.choice("with", &FILLS)?,
                product: self.said("product"),
                amount: self.said("amount"),
                until: self.choice("until", &UNTILS)?,
            }),
            Kind::Spline => FitKind::Spline {
                bumpers: self.choice("bumpers", &YES)?,
                least: self.may("least", MM)?,
                greatest: self.may("greatest", MM)?,
            },
            Kind::Hose => FitKind::Hose {
                carries: self.choice("carries", &CARRIES)?,
                below: self.choice("below", &YES)?,
            },
            Kind::Cable => FitKind::Cable {
                threads: match self.said("threads").as_str() {
                    "" => None,
                    text => Some(count("threads", text, "0 to 60 threads")?),
                },
            },
            Kind::Plug => FitKind::Plug {
                torque: self.may("torque", Unit::NewtonMetre)?,
            },
            Kind::Anode => FitKind::Anode {
                greatest: self.may("greatest", Unit::Ohm)?,
            },
            Kind::Shims => FitKind::Shims(self.studs()?),
            Kind::Impeller => FitKind::Impeller(Box::new(Impeller {
                hand: self.choice("hand", &HANDS)?,
                goes_on_from: self.choice("goes_on_from", &ENDS)?,
                drive: self.choice("drive", &DRIVES)?,
                torque: self.may("torque", Unit::NewtonMetre)?,
                second: self.may("second", Unit::PoundForceFoot)?,
                compound: self.said("compound"),
            })),
        })
    }

    /// Lips without a gap between them.
    fn lips(&self) -> Result<Vec<Lip>, Refusal> {
        let fields = Kind::Lips.fields();
        let last = fields
            .iter()
            .rposition(|field| !self.said(field).is_empty());
        let named = &fields[..last.map_or(0, |last| last + 1)];
        named
            .iter()
            .map(|field| self.choice(field, &LIPS))
            .collect()
    }

    /// All sizes, or none.
    fn sizes(&self) -> Result<Option<RingSizes>, Refusal> {
        let fields = ["cord", "inner", "seat", "depth", "width"];
        if fields.iter().all(|field| self.said(field).is_empty()) {
            return Ok(None);
        }
        let need = |field: &'static str| length(field, self.get(field), MM);
        Ok(Some(RingSizes {
            cord: need("cord")?,
            inner: need("inner")?,
            seat: need("seat")?,
            depth: need("depth")?,
            width: need("width")?,
        }))
    }

    /// Stacks as written, stud by stud: the order says which is whose.
    fn studs(&self) -> Result<Vec<Entered>, Refusal> {
        let text = self.get("studs");
        let pieces = text.split([';', '\n']).map(str::trim);
        let pieces = pieces.filter(|piece| !piece.is_empty());
        pieces.map(|piece| length("studs", piece, MM)).collect()
    }

    /// Reads what is ticked and read of a joint; none where nothing is. What was told is put in by
    /// [`decide`](crate::decide::decide).
    pub fn checked(&self, fit: &Fit) -> Result<Option<Checked>, Refusal> {
        let all = fit.kind.checks();
        let mut ticks = Vec::new();
        for text in self.get("checked").split_whitespace() {
            let known = CHECKS.iter().find(|(word, _)| *word == text);
            match known.filter(|(_, check)| all.contains(check)) {
                Some((_, check)) => ticks.push(*check),
                None => {
                    return Err(Refusal::Unfit(Unfit::NoSuchCheck {
                        text: text.to_owned(),
                        checks: all.iter().map(|check| word(&CHECKS, *check)).collect(),
                    }));
                }
            }
        }
        ticks.sort_unstable();
        ticks.dedup();
        let reading = self.said("reading");
        if fit.limit().is_none() && !reading.is_empty() {
            return Err(Refusal::Unfit(Unfit::NothingToRead { text: reading }));
        }
        let reading = self.may("reading", reading_unit(fit))?;
        Ok((!ticks.is_empty() || reading.is_some()).then_some(Checked {
            ticks,
            reading,
            shown: None,
        }))
    }
}

/// What a bare reading is in.
fn reading_unit(fit: &Fit) -> Unit {
    fit.limit().map_or(MM, |limit| limit.unit)
}

/// The joints of a job as typed.
pub(super) fn drafts(job: &Job) -> Vec<FitDraft> {
    let fits = job.fits_in_order().into_iter();
    fits.map(|(key, state)| FitDraft::of(key, state)).collect()
}

/// The acts that bring `job` to these joints, where it says otherwise or nothing.
pub(super) fn acts(drafts: &[FitDraft], job: &Job) -> Result<Vec<Act>, Refusal> {
    let mut acts = Vec::new();
    for draft in drafts {
        let key = Key::new(&draft.key)?;
        let fit = draft.read()?;
        let had = job.fits.get(&key);
        let same = had.is_some_and(|had| {
            FitDraft::described(&key, &had.fit.value) == FitDraft::described(&key, &fit)
        });
        let checked = draft.checked(&fit)?;
        let unit = reading_unit(&fit);
        if !same {
            let (key, fit) = (key.clone(), fit);
            acts.push(Act::Record(Body::FitDescribed { key, fit }));
        }
        let Some(checked) = checked else { continue };
        let told = had.filter(|_| same).and_then(|had| had.checked.as_ref());
        let read = |checked: &Checked| checked.reading.as_ref().map(|reading| typed(reading, unit));
        let same = told.is_some_and(|told| {
            told.value.ticks == checked.ticks && read(&told.value) == read(&checked)
        });
        if !same {
            acts.push(Act::Record(Body::FitChecked { key, checked }));
        }
    }
    Ok(acts)
}
