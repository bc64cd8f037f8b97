//! Why something was not taken is told, whether or not a form on the page shows it.

use super::{Form, Next, Page, Section};

impl Page {
    /// The page with the reason in sight: at its field, or else before the evidence.
    #[must_use]
    pub fn telling(mut self, why: &str) -> Self {
        let next = match &self.next {
            Next::Ask { write, .. } => write.as_ref(),
            Next::Fill(form) => Some(form),
            Next::Go { .. } | Next::Print { .. } => None,
        };
        let shown = next.into_iter().chain(self.evidence.iter().flat_map(forms));
        if !shown.into_iter().any(|form| shows(form, why)) {
            self.evidence.insert(0, Section::Refused(why.to_owned()));
        }
        self
    }
}

fn forms(section: &Section) -> Vec<&Form> {
    match section {
        Section::Card(card) => card.forms.iter().collect(),
        Section::Step(step) => step.forms.iter().collect(),
        Section::Form(form) => vec![form],
        Section::Photos(strip) => strip.take.iter().collect(),
        _ => Vec::new(),
    }
}

fn shows(form: &Form, why: &str) -> bool {
    let fields = form.fields.iter().map(|field| field.refusal.as_deref());
    fields
        .chain([form.refusal.as_deref()])
        .any(|shown| shown == Some(why))
}
