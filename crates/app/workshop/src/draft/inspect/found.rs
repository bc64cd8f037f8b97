//! The as-found record, as typed.

use quantity::Unit;

use super::read::ends;
use super::words::{FOUND_STATES, MARKS, SORTS};
use super::{InspectionDraft, Sheet};
use crate::draft::list::list;
use crate::draft::{count, typed, word};
use crate::entry::Key;
use crate::inspect::Inspection;
use crate::inspect::found::{AsFound, Clock, Seen, Sort, Stack};
use crate::refusal::{Refusal, Slip};

const MM: Unit = Unit::Millimetre;

/// The fields that belong to one sort only.
const OWN: [(&str, Sort); 8] = [
    ("gap", Sort::Gap),
    ("marks", Sort::Witness),
    ("moved", Sort::Witness),
    ("shims", Sort::Shims),
    ("from", Sort::Hose),
    ("to", Sort::Hose),
    ("clamp", Sort::Hose),
    ("threads", Sort::Cable),
];

impl InspectionDraft {
    pub(super) fn as_found(&self, unit: Unit) -> Result<Inspection, Refusal> {
        let sort = self.choice("sort", &SORTS)?;
        let state = self.may_choose("state", &FOUND_STATES)?.flatten();
        self.only_its_own(sort, state.is_some())?;
        let seen = match (state, sort) {
            (Some(false), _) => Seen::NoSuch,
            (Some(true), _) => Seen::Apart,
            (None, Sort::Gap) => {
                let (least, greatest) = ends(self.get("gap").trim(), unit)?;
                Seen::Gap(least, greatest)
            }
            (None, Sort::Witness) => self.marks()?,
            (None, Sort::Shims) => Seen::Shims(stacks(self.get("shims"))?),
            (None, Sort::Hose) => Seen::Hose {
                from: self.text("from"),
                to: self.text("to"),
                clamp: self.text("clamp"),
            },
            (None, Sort::Cable) => Seen::Cable(count(
                "threads",
                self.get("threads"),
                "the number of threads showing, 0 to 60",
            )?),
            (None, Sort::Ring) => {
                let text = self.text("clock");
                if text.is_empty() {
                    return Err(Refusal::Empty { field: "clock" });
                }
                let clock = Clock::read(&text);
                Seen::Ring(clock.ok_or(Refusal::Inspected(Slip::NoClock { text }))?)
            }
            (None, Sort::Other) => Seen::Words,
        };
        Ok(Inspection::AsFound {
            key: Key::new(&self.key)?,
            found: AsFound {
                sort,
                at: self.text("at"),
                seen,
                words: self.text("words"),
            },
        })
    }

    /// What is filled in and would count for nothing is refused, so that nothing typed is lost.
    fn only_its_own(&self, sort: Sort, absent: bool) -> Result<(), Refusal> {
        let own = OWN.into_iter().chain([("clock", Sort::Ring)]);
        for (field, of) in own {
            if !self.empty(field) && (absent || of != sort) {
                return Err(Refusal::Inspected(Slip::NotOfThisSort { field, absent }));
            }
        }
        Ok(())
    }

    fn marks(&self) -> Result<Seen, Refusal> {
        let moved = self.may("moved", MM)?;
        match (self.choice("marks", &MARKS)?, moved) {
            (true, None) => Ok(Seen::InLine),
            (true, Some(_)) => Err(Refusal::Inspected(Slip::InLineAndMoved)),
            (false, moved) => Ok(Seen::Moved(moved)),
        }
    }

    pub(super) fn of_found(key: &Key, found: &AsFound, unit: Unit) -> Self {
        let mut sheet = super::fill::Filling::new(Sheet::AsFound, key.to_string());
        sheet.text("sort", word(&SORTS, found.sort));
        sheet.text("at", found.at.as_str());
        match &found.seen {
            Seen::NoSuch => sheet.text("state", word(&FOUND_STATES, Some(false))),
            Seen::Apart => sheet.text("state", word(&FOUND_STATES, Some(true))),
            Seen::Gap(low, high) => sheet.gap(low, high, unit),
            Seen::InLine => sheet.text("marks", word(&MARKS, true)),
            Seen::Moved(far) => {
                sheet.text("marks", word(&MARKS, false));
                sheet.maybe("moved", far.as_ref(), MM);
            }
            Seen::Shims(stacks) => {
                let stacks: Vec<String> = stacks.iter().map(written).collect();
                sheet.text("shims", stacks.join("; "));
            }
            Seen::Hose { from, to, clamp } => {
                sheet.text("from", from.as_str());
                sheet.text("to", to.as_str());
                sheet.text("clamp", clamp.as_str());
            }
            Seen::Cable(threads) => sheet.text("threads", threads.to_string()),
            Seen::Ring(clock) => sheet.text("clock", clock.to_string()),
            Seen::Words => {}
        }
        sheet.text("words", found.words.as_str());
        sheet.0
    }
}

fn written(stack: &Stack) -> String {
    let shims: Vec<String> = stack.shims.iter().map(|shim| typed(shim, MM)).collect();
    match shims.as_slice() {
        [] => format!("{}: none", stack.stud),
        shims => format!("{}: {}", stack.stud, shims.join(", ")),
    }
}

/// `A: 0.5, 0.2; B: none`: a stud, a colon, its shims.
fn stacks(text: &str) -> Result<Vec<Stack>, Refusal> {
    let pieces = text.split([';', '\n']).map(str::trim);
    let pieces: Vec<&str> = pieces.filter(|piece| !piece.is_empty()).collect();
    if pieces.is_empty() {
        return Err(Refusal::Empty { field: "shims" });
    }
    let mut stacks: Vec<Stack> = Vec::new();
    for piece in pieces {
        let named = piece
            .split_once(':')
            .map(|(stud, shims)| (stud.trim(), shims.trim()));
        let Some((stud, shims)) = named.filter(|(stud, _)| !stud.is_empty()) else {
            let text = piece.to_owned();
            return Err(Refusal::Inspected(Slip::NoStud { text }));
        };
        if stacks.iter().any(|there| there.stud == stud) {
            let text = stud.to_owned();
            return Err(Refusal::Inspected(Slip::StudTwice { text }));
        }
        let none = matches!(shims.to_lowercase().as_str(), "none" | "0" | "-");
        if shims.is_empty() {
            let text = piece.to_owned();
            return Err(Refusal::Inspected(Slip::NoStud { text }));
        }
        stacks.push(Stack {
            stud: stud.to_owned(),
            shims: if none {
                Vec::new()
            } else {
                list("shims", &shims.replace('+', ", "), MM)?
            },
        });
    }
    Ok(stacks)
}
