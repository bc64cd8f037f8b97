//! What was looked at and measured around the gap.

use toml::Spanned;
use workshop::draft::inspect::Sheet;

use super::{Field, Rows, Shape};

/// A table of fields, whose names are those of its sheet.
type Flat = Rows<Field>;

/// One sheet of the file: which, its key, and its fields with their names.
pub(crate) type Filled = (
    Sheet,
    Option<Spanned<String>>,
    Vec<(Spanned<String>, Field)>,
);

/// All tables of the inspection.
pub(crate) struct Tables {
    pub(crate) once: [(Sheet, Option<Flat>); 8],
    pub(crate) keyed: [(Sheet, Rows<Flat>); 9],
}

impl Shape {
    /// Takes the tables of the inspection out.
    pub(crate) fn inspections(&mut self) -> Tables {
        Tables {
            once: [
                (Sheet::Rotor, self.rotor.take()),
                (Sheet::Leak, self.leak_test.take()),
                (Sheet::Alignment, self.alignment.take()),
                (Sheet::Sizes, self.sizes.take()),
                (Sheet::Ring, self.ring.take()),
                (Sheet::Cone, self.cone.take()),
                (Sheet::Reread, self.reread.take()),
                (Sheet::Bench, self.bench.take()),
            ],
            keyed: [
                (Sheet::AsFound, std::mem::take(&mut self.as_found)),
                (Sheet::Supply, std::mem::take(&mut self.supplies)),
                (Sheet::Finding, std::mem::take(&mut self.findings)),
                (Sheet::Settled, std::mem::take(&mut self.settled)),
                (Sheet::Visit, std::mem::take(&mut self.visits)),
                (Sheet::Compound, std::mem::take(&mut self.compounds)),
                (Sheet::Thread, std::mem::take(&mut self.threads)),
                (Sheet::Seal, std::mem::take(&mut self.seals)),
                (Sheet::Contact, std::mem::take(&mut self.contacts)),
            ],
        }
    }
}

impl Tables {
    /// Every sheet, in the order that a job is brought to what they say.
    pub(crate) fn in_order(self) -> Vec<Filled> {
        let once = (self.once.into_iter())
            .filter_map(|(sheet, fields)| Some((sheet, None, fields?.in_order())));
        let keyed = self.keyed.into_iter().flat_map(|(sheet, rows)| {
            let rows = rows.in_order().into_iter();
            rows.map(move |(key, fields)| (sheet, Some(key), fields.in_order()))
        });
        let mut all: Vec<Filled> = once.chain(keyed).collect();
        all.sort_by_key(|(sheet, ..)| *sheet);
        all
    }
}
