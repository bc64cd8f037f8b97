//! A label for the pump: how it is chosen, and the label itself.

use maud::{Markup, html};
use report::page::label::{LONGEST_ADDRESS, Label, SIZES};

use super::whole;
use crate::route::link;

pub(crate) fn label(label: &Label) -> Markup {
    html! {
        // Sent by GET: what is chosen stands in the address of the page and nowhere else.
        form.fields.choose-label method="get" action=(link(&label.page)) {
            div.field {
                label for="label-size" { "Size" }
                select #label-size name="size" {
                    @for (key, words) in SIZES { option value=(key) selected[key == label.size] { (words) } }
                }
            }
            div.field {
                label for="label-address" { "The bench’s address, as a phone opens it" }
                input #label-address type="text" name="address" value=(label.typed) maxlength=(2 * LONGEST_ADDRESS)
                    inputmode="url" autocapitalize="off" spellcheck="false" placeholder="http://192.168.1.20:8080"
                    aria-invalid=[label.refusal.as_ref().map(|_| "true")];
                @if let Some(why) = &label.refusal { p.refusal role="alert" { (why) } }
            }
            button { "Show" }
        }
        div.labels data-size=(label.size) {
            @for copy in 0..label.copies { (one(label, copy > 0)) }
        }
    }
}

/// A copy is the same once more, and is not read out again.
fn one(label: &Label, copy: bool) -> Markup {
    html! {
        section.tag aria-label="Pump label" aria-hidden=[copy.then_some("true")] {
            h3 { (label.title) }
            dl { @for (name, value) in &label.rows {
                div { dt { (name) } dd { (whole(value)) } }
            } }
            div.code {
                @match &label.code {
                    Ok(code) => { (code) p.short { (label.short) } },
                    Err(why) => { p.short { (why) } },
                }
            }
            @if !label.note.is_empty() { p.note { (label.note) } }
        }
    }
}
