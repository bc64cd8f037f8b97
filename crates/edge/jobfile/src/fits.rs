//! Joints that are no circle of screws, out of a job file and into one.

use std::collections::BTreeMap;

use workshop::draft::FitDraft;

use super::complaint::{Complaint, Source};
use super::inspect::{KEY, Places};
use super::shape::Shape;
use super::write::{Page, quoted};

/// The joints with the places of their values.
pub(crate) fn read(
    source: &Source,
    shape: &mut Shape,
) -> Result<(Vec<FitDraft>, Vec<Places>), Complaint> {
    let tables = std::mem::take(&mut shape.fits);
    let known = FitDraft::all_fields();
    let mut fits = Vec::new();
    for (key, values) in tables.in_order() {
        let mut places: Places = vec![(KEY, key.span())];
        let mut fields = BTreeMap::new();
        for (name, value) in values.in_order() {
            let Some(known) = known.iter().find(|known| *known == name.get_ref()) else {
                let why = format!("[fits] has no such key. It has: {}.", known.join(", "));
                return Err(source.complain(name.span(), &why));
            };
            places.push((known, value.span()));
            let text = value.into_inner().0;
            if !text.is_empty() {
                fields.insert(*known, text);
            }
        }
        let key = key.into_inner();
        fits.push((FitDraft { key, fields }, places));
    }
    Ok(fits.into_iter().unzip())
}

impl Page {
    /// A joint as its table. What is empty is left out.
    pub(crate) fn fit(&mut self, draft: &FitDraft) {
        self.table(&format!("fits.{}", draft.key));
        for field in FitDraft::all_fields() {
            if let Some(text) = draft.fields.get(field) {
                self.line(field, &quoted(text));
            }
        }
    }
}
