//! From a sheet as typed to what it says.

use quantity::{Entered, Unit};

use super::words::{
    AREAS, FIGURES, FLAWS, HOWS, METALS, METHODS, POLYMERS, PUSHES, RING_SEATS, SEVERITIES, SOAKED,
    SPINS, STACKS, TODOS, TRACKS, YES,
};
use super::{InspectionDraft, Sheet};
use crate::draft::list::list;
use crate::draft::{Choice, choose, length, optional};
use crate::entry::Key;
use crate::inspect::{
    Cone, Finding, Inspection, LeakTest, Reread, Ring, Rotor, Runout, Settled, Sizes, Track, Visit,
};
use crate::job::Tried;
use crate::reading;
use crate::refusal::{Refusal, Slip};

const MM: Unit = Unit::Millimetre;

impl InspectionDraft {
    /// Reads it; a bare gap takes `unit`.
    pub fn read(&self, unit: Unit) -> Result<Inspection, Refusal> {
        Ok(match self.sheet {
            Sheet::AsFound => self.as_found(unit)?,
            Sheet::Supply => self.supply()?,
            Sheet::Rotor => Inspection::Rotor(Box::new(self.rotor()?)),
            Sheet::Leak => Inspection::Leak(self.leak()?),
            Sheet::Alignment => Inspection::Alignment(Box::new(self.alignment()?)),
            Sheet::Finding => Inspection::Found {
                key: Key::new(&self.key)?,
                finding: self.finding()?,
            },
            Sheet::Settled => Inspection::Settled {
                finding: Key::new(&self.key)?,
                settled: Settled {
                    how: self.choice("how", &HOWS)?,
                    reason: self.text("reason"),
                },
            },
            Sheet::Sizes => Inspection::Sizes(self.sizes()?),
            Sheet::Ring => Inspection::Ring(self.ring()?),
            Sheet::Cone => Inspection::Cone(self.cone()?),
            Sheet::Reread => Inspection::Reread(self.reread(unit)?),
            Sheet::Visit => Inspection::Visit {
                key: Key::new(&self.key)?,
                visit: self.visit(unit)?,
            },
            Sheet::Bench | Sheet::Compound | Sheet::Thread | Sheet::Seal | Sheet::Contact => {
                Inspection::Sealing(self.sealing()?)
            }
        })
    }

    pub(super) fn text(&self, field: &str) -> String {
        self.get(field).trim().to_owned()
    }

    pub(super) fn empty(&self, field: &str) -> bool {
        self.get(field).trim().is_empty()
    }

    pub(super) fn need(&self, field: &'static str, bare: Unit) -> Result<Entered, Refusal> {
        length(field, self.get(field), bare)
    }

    pub(super) fn may(&self, field: &'static str, bare: Unit) -> Result<Option<Entered>, Refusal> {
        optional(field, self.get(field), bare)
    }

    /// Both, or neither.
    pub(super) fn pair(
        &self,
        (one, other): (&'static str, &'static str),
        bare: Unit,
    ) -> Result<Option<(Entered, Entered)>, Refusal> {
        if self.empty(one) && self.empty(other) {
            return Ok(None);
        }
        Ok(Some((self.need(one, bare)?, self.need(other, bare)?)))
    }

    pub(super) fn choice<T: Copy>(
        &self,
        field: &'static str,
        of: &[Choice<T>],
    ) -> Result<T, Refusal> {
        choose(field, self.get(field), of)
    }

    pub(super) fn may_choose<T: Copy>(
        &self,
        field: &'static str,
        of: &[Choice<T>],
    ) -> Result<Option<T>, Refusal> {
        if self.empty(field) {
            return Ok(None);
        }
        self.choice(field, of).map(Some)
    }

    fn rotor(&self) -> Result<Rotor, Refusal> {
        Ok(Rotor {
            float: self.pair(("float_aft", "float_forward"), MM)?,
            radial: self.pair(("radial_up", "radial_down"), MM)?,
            runout: self.runout()?,
            track: self.track()?,
            spline_step: self.may_choose("spline_step", &YES)?,
            spin: self.may_choose("spin", &SPINS)?,
            dial: self.may("dial", MM)?,
            float_limit: self.may("float_limit", MM)?,
            radial_limit: self.may("radial_limit", MM)?,
            runout_limit: self.may("runout_limit", MM)?,
            page: self.text("page"),
        })
    }

    fn runout(&self) -> Result<Option<Runout>, Refusal> {
        let fields = [
            "runout_first",
            "runout_second",
            "runout_apart",
            "runout_beyond",
        ];
        if fields.iter().all(|field| self.empty(field)) {
            return Ok(None);
        }
        Ok(Some(Runout {
            first: self.need("runout_first", MM)?,
            second: self.need("runout_second", MM)?,
            apart: self.need("runout_apart", MM)?,
            beyond: self.need("runout_beyond", MM)?,
        }))
    }

    fn track(&self) -> Result<Option<Track>, Refusal> {
        let groove = self.may("groove", MM)?;
        Ok(match (self.may_choose("track", &TRACKS)?, groove) {
            (None, None) => None,
            (Some(false), None) => Some(Track::Smooth),
            (Some(true), None) => Some(Track::Felt),
            (Some(true), Some(depth)) => Some(Track::Groove(depth)),
            // A depth of nothing.
            (Some(false) | None, Some(_)) => return Err(Refusal::Inspected(Slip::GrooveOfNone)),
        })
    }

    fn leak(&self) -> Result<LeakTest, Refusal> {
        let kelvins = ("start_temperature", "end_temperature");
        Ok(LeakTest {
            push: self.choice("push", &PUSHES)?,
            start: self.need("start", Unit::Kilopascal)?,
            end: self.need("end", Unit::Kilopascal)?,
            hold: self.need("hold", Unit::Minute)?,
            temperatures: self.pair(kelvins, Unit::Celsius)?,
            turned: self.may_choose("turned", &YES)?.unwrap_or(false),
            step: self.need("step", Unit::Kilopascal)?,
            allowed: self.may("allowed", Unit::Kilopascal)?,
            page: self.text("page"),
            shown: None,
        })
    }

    fn finding(&self) -> Result<Finding, Refusal> {
        let area = self.choice("area", &AREAS)?;
        let flaw = self.choice("flaw", &FLAWS)?;
        let which = self.text("which");
        let severity = self.may_choose("severity", &SEVERITIES)?;
        Ok(Finding {
            area,
            // Letters and numbers; a name stays as it was written.
            which: if area.named() {
                which
            } else {
                which.to_ascii_uppercase()
            },
            flaw,
            words: self.text("words"),
            place: self.text("place"),
            depth: self.may("depth", MM)?,
            length: self.may("length", MM)?,
            tip: self.may("tip", MM)?,
            severity: severity.unwrap_or_else(|| flaw.usual_severity(area)),
            severity_why: self.text("severity_why"),
            todo: self.choice("todo", &TODOS)?,
            reason: self.text("reason"),
        })
    }

    fn sizes(&self) -> Result<Sizes, Refusal> {
        let impeller = self.may("impeller", MM)?;
        Ok(Sizes {
            bores: [
                self.may("bore_12", MM)?,
                self.may("bore_130", MM)?,
                self.may("bore_3", MM)?,
                self.may("bore_430", MM)?,
            ],
            impeller: match impeller {
                Some(diameter) => Some((diameter, self.choice("method", &METHODS)?)),
                None => None,
            },
        })
    }

    fn ring(&self) -> Result<Ring, Refusal> {
        Ok(Ring {
            seat: self.choice("seat", &RING_SEATS)?,
            polymer: self.may_choose("polymer", &POLYMERS)?,
            wall: self.may("wall", MM)?,
            soaked: self.may_choose("soaked", &SOAKED)?.unwrap_or(false),
            impeller: self.choice("turning", &METALS)?,
            bench: self.may("bench", Unit::Celsius)?,
            water: self.may("water", Unit::Celsius)?,
        })
    }

    fn cone(&self) -> Result<Cone, Refusal> {
        Ok(Cone {
            half_angle: self.need("half_angle", Unit::Degree)?,
            fitted: self.need("fitted", MM)?,
            shims: shims(self.get("shims"))?,
            opens: self.choice("stack", &STACKS)?,
        })
    }

    fn reread(&self, unit: Unit) -> Result<Reread, Refusal> {
        let clock = |field: &'static str| -> Result<Vec<Tried>, Refusal> {
            if self.empty(field) {
                return Ok(Vec::new());
            }
            reading::read(self.get(field), unit).map_err(|refusal| refusal.at(field))
        };
        let rubs = self.text("rubs");
        let free = [("free", true), ("rubs", false)];
        let rubs = match (self.choice("turns", &free)?, rubs.is_empty()) {
            (true, true) => String::new(),
            (false, false) => rubs,
            (true, false) => return Err(Refusal::Inspected(Slip::FreeAndRubs)),
            (false, true) => return Err(Refusal::Empty { field: "rubs" }),
        };
        Ok(Reread {
            clocks: [
                clock("clock_12")?,
                clock("clock_3")?,
                clock("clock_6")?,
                clock("clock_9")?,
            ],
            rubs,
            shown: None,
        })
    }

    fn visit(&self, unit: Unit) -> Result<Visit, Refusal> {
        let gap = self.get("gap").trim();
        Ok(Visit {
            hours: self.need("hours", Unit::Hour)?,
            gap: if gap.is_empty() {
                None
            } else {
                Some(ends(gap, unit)?)
            },
            figure: self.choice("figure", &FIGURES)?,
            renewed: self.may_choose("renewed", &YES)?.unwrap_or(false),
        })
    }
}

/// `0.1; 0.3` or `3 x 0.1; 0.3`: so many of a thickness.
pub(super) fn shims(text: &str) -> Result<Vec<Entered>, Refusal> {
    let mut shims = Vec::new();
    for piece in text.split([';', '\n']).flat_map(|piece| piece.split(", ")) {
        let counted = piece.split_once(['x', '×']);
        let counted = counted.and_then(|(many, one)| Some((many.trim().parse().ok()?, one)));
        let (many, thickness): (u8, &str) = counted.unwrap_or((1, piece));
        let these = list("shims", thickness, MM)?;
        shims.extend((0..many).flat_map(|_| these.clone()));
    }
    shims.sort_by(|a, b| a.value.total_cmp(&b.value));
    Ok(shims)
}

/// `13-14 thou`: the unit behind the pair counts for both; `13.5` is both its ends.
pub(super) fn ends(text: &str, unit: Unit) -> Result<(Entered, Entered), Refusal> {
    // A single number first: 6-1/8 in is one, and 6-1/8 - 6-1/4 in are two.
    let whole = length("gap", text, unit);
    let pair = text.split_once(" - ");
    let pair = pair.or_else(|| text.split_once(['-', '–']));
    let (Err(_), Some((low, high))) = (&whole, pair) else {
        return whole.map(|one| (one.clone(), one));
    };
    let high = length("gap", high, unit)?;
    Ok((length("gap", low, high.unit)?, high))
}
