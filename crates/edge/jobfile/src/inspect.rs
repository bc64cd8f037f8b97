//! What was looked at and measured around the gap, out of a job file and into one.

use std::collections::BTreeMap;
use std::ops::Range;

use workshop::draft::InspectionDraft;

use super::complaint::{Complaint, Source};
use super::shape::inspect::{Filled, Tables};
use super::write::{Page, quoted};

/// The places of a sheet’s values, and of its key.
pub(crate) type Places = Vec<(&'static str, Range<usize>)>;

/// The name of the place where a sheet has its key.
pub(crate) const KEY: &str = "";

/// The sheets with the places of their values.
pub(crate) fn read(
    source: &Source,
    tables: Tables,
) -> Result<Vec<(InspectionDraft, Places)>, Complaint> {
    (tables.in_order().into_iter())
        .map(|filled| sheet(source, filled))
        .collect()
}

fn sheet(
    source: &Source,
    (sheet, key, values): Filled,
) -> Result<(InspectionDraft, Places), Complaint> {
    let mut places = Places::new();
    let mut fields = BTreeMap::new();
    for (name, value) in values {
        let known = sheet.fields().iter().find(|known| *known == name.get_ref());
        let Some(known) = known else {
            let all = sheet.fields().join(", ");
            let why = format!("[{}] has no such key. It has: {all}.", sheet.table());
            return Err(source.complain(name.span(), &why));
        };
        places.push((known, value.span()));
        let text = value.into_inner().0;
        if !text.is_empty() {
            fields.insert(*known, text);
        }
    }
    let key = key.map_or_else(String::new, |key| {
        places.push((KEY, key.span()));
        key.into_inner()
    });
    Ok((InspectionDraft { sheet, key, fields }, places))
}

impl Page {
    /// A sheet as its table. What is empty is left out.
    pub(crate) fn sheet(&mut self, draft: &InspectionDraft) {
        let table = draft.sheet.table();
        if draft.sheet.keyed() {
            self.table(&format!("{table}.{}", draft.key));
        } else {
            self.table(table);
        }
        for field in draft.sheet.fields() {
            if let Some(text) = draft.fields.get(field) {
                self.line(field, &quoted(text));
            }
        }
    }
}
