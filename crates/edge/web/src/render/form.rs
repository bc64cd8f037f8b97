//! Buttons and fields.

use maud::{Markup, html};
use report::page::{Button, Field, FieldKind, Form, FormName, Weight};
use workshop::entry::JobId;

use crate::route;

/// Where forms of a page are sent, and how each gets its entry id.
#[derive(Clone, Copy)]
pub(crate) struct Sender<'a> {
    pub(crate) job: Option<&'a JobId>,
    /// The page it stands on, where the act leads back to.
    pub(crate) back: Option<&'a str>,
    /// The position of the journal that the page was drawn at, which is what its reader saw.
    pub(crate) seen: Option<u64>,
    pub(crate) id: &'a dyn Fn() -> String,
}

impl Sender<'_> {
    fn action(&self, form: FormName) -> String {
        route::act(self.job, form)
    }

    /// Whether it may wait on its device until the bench answers: what goes on record of a job. Who is let in, or what
    /// is brought from elsewhere, is answered at once or not at all.
    fn waits(&self, form: FormName) -> bool {
        self.job.is_some() || form == FormName::Open
    }

    fn hidden(&self, values: &[(&'static str, String)]) -> Markup {
        html! {
            input type="hidden" name="id" value=((self.id)());
            @if let Some(seen) = self.seen { input type="hidden" name="act_seen" value=(seen); }
            @if let Some(back) = self.back { input type="hidden" name="back" value=(back); }
            @for (name, value) in values { input type="hidden" name=(name) value=(value); }
        }
    }

    pub(crate) fn button(&self, button: &Button) -> Markup {
        let class = match button.weight {
            Weight::Main => "main",
            Weight::Plain => "other",
            Weight::Quiet => "quiet",
        };
        html! {
            form method="post" action=(self.action(button.form)) data-live[self.waits(button.form)] {
                (self.hidden(&button.values))
                button class=(class) data-key=[button.key] {
                    (button.label)
                    @if let Some(key) = button.key { kbd aria-hidden="true" { (key) } }
                }
            }
        }
    }

    /// The one field beside the buttons, where a caliper types.
    pub(crate) fn writing(&self, form: &Form) -> Markup {
        html! {
            form.writing method="post" action=(self.action(form.name)) data-live[self.waits(form.name)] {
                (self.hidden(&form.values))
                @for one in &form.fields {
                    label for=(one.key) { (one.label) }
                    div.row {
                        (input(one))
                        button.quiet { (form.submit) }
                    }
                    (problem(one.refusal.as_deref().or(form.refusal.as_deref())))
                }
            }
        }
    }

    pub(crate) fn form(&self, form: &Form) -> Markup {
        html! {
            @let prefix = prefix(form);
            form.fields method="post" action=(self.action(form.name)) enctype=[sends_files(form).then_some("multipart/form-data")] data-live[self.waits(form.name)] novalidate {
                h3 { (form.heading) }
                @if !form.intro.is_empty() { p.intro { (form.intro) } }
                (problem(form.refusal.as_deref()))
                (self.hidden(&form.values))
                @for one in &form.fields { (field(&prefix, one)) }
                button.main { (form.submit) }
            }
        }
    }
}

fn field(prefix: &str, field: &Field) -> Markup {
    if let FieldKind::Tick = field.kind {
        return html! {
            div.field.tick {
                label {
                    input type="checkbox" name=(field.key) value="yes" checked[!field.value.is_empty()];
                    span { (field.label) }
                }
                (hint(field))
            }
        };
    }
    if let FieldKind::Photo = field.kind {
        return photos(prefix, field);
    }
    if let FieldKind::Log = field.kind {
        return log(prefix, field);
    }
    if let FieldKind::Group = field.kind {
        return html! { h4 { (field.label) } };
    }
    if let FieldKind::Pick(choices) = &field.kind {
        return pick(field, choices);
    }
    if let FieldKind::Many(choices) = &field.kind {
        return ticks(field, choices);
    }
    let id = format!("{prefix}-{}", field.key);
    html! {
        div.field {
            label for=(id) { (field.label) }
            div.row {
                @match &field.kind {
                    FieldKind::Choice(choices) => {
                        select id=(id) name=(field.key) {
                            @if !choices.iter().any(|(value, _)| *value == field.value) {
                                option value="" selected { "choose" }
                            }
                            @for (value, label) in choices {
                                option value=(value) selected[*value == field.value] { (label) }
                            }
                        }
                    }
                    FieldKind::Lines => {
                        textarea id=(id) name=(field.key) rows="3" { (field.value) }
                    }
                    FieldKind::File => {
                        textarea id=(id) name=(field.key) rows="3" spellcheck="false" { (field.value) }
                        // The script shows it: without script the text is pasted.
                        input type="file" accept=".toml,text/plain" aria-label={ (field.label) ", as a file" } data-into=(id) hidden;
                    }
                    FieldKind::Digits => {
                        input.digits id=(id) type="text" name=(field.key) value=(field.value)
                            inputmode="numeric" autocomplete="one-time-code"
                            aria-invalid=[field.refusal.as_ref().map(|_| "true")];
                    }
                    _ => {
                        input id=(id) type="text" name=(field.key) value=(field.value)
                            autocomplete="off"
                            aria-invalid=[field.refusal.as_ref().map(|_| "true")];
                    }
                }
                @if !field.unit.is_empty() { span.unit { (field.unit) } }
            }
            (problem(field.refusal.as_deref()))
            (hint(field))
        }
    }
}

fn sends_files(form: &Form) -> bool {
    form.fields
        .iter()
        .any(|field| matches!(field.kind, FieldKind::Photo | FieldKind::Log))
}

/// What a photo may be; whatever is chosen, its content decides.
const PHOTOS: &str = "image/jpeg,image/png";
const CHOOSE: &str = "Choose pictures";

/// One from the camera, or any number of those that are there. With script the first choice sends
/// them, so the browser's own fields are out of sight; the style sheet knows whether there is script.
fn photos(prefix: &str, field: &Field) -> Markup {
    html! {
        div.field.shoot {
            @let (camera, file) = (format!("{prefix}-camera"), format!("{prefix}-file"));
            div.row {
                span.pick {
                    input id=(camera) type="file" name=(field.key) accept=(PHOTOS) capture="environment" aria-label=(field.label) data-send;
                    label.button.main for=(camera) { (field.label) }
                }
                span.pick {
                    input id=(file) type="file" name=(field.key) accept=(PHOTOS) multiple aria-label=(CHOOSE) data-send;
                    label.button for=(file) { (CHOOSE) }
                }
            }
            (problem(field.refusal.as_deref()))
            (hint(field))
        }
    }
}

/// A log; whatever is chosen, its content decides.
fn log(prefix: &str, field: &Field) -> Markup {
    let id = format!("{prefix}-{}", field.key);
    html! {
        div.field {
            label for=(id) { (field.label) }
            div.row {
                input id=(id) type="file" name=(field.key) aria-invalid=[field.refusal.as_ref().map(|_| "true")];
            }
            (problem(field.refusal.as_deref()))
            (hint(field))
        }
    }
}

/// Any of a few, each a tick.
fn ticks(field: &Field, choices: &[(String, String)]) -> Markup {
    let chosen = |value: &str| field.value.split(' ').any(|one| one == value);
    html! {
        fieldset.field.ticks {
            legend { (field.label) }
            @for (value, label) in choices {
                label.tick {
                    input type="checkbox" name=(field.key) value=(value) checked[chosen(value)];
                    span { (label) }
                }
            }
            (problem(field.refusal.as_deref()))
            (hint(field))
        }
    }
}

/// One of two or three, all in sight.
fn pick(field: &Field, choices: &[(String, String)]) -> Markup {
    html! {
        fieldset.field.few {
            legend { (field.label) }
            div.row {
                @for (value, label) in choices {
                    label {
                        input type="radio" name=(field.key) value=(value) checked[*value == field.value];
                        span { (label) }
                    }
                }
            }
            (problem(field.refusal.as_deref()))
            (hint(field))
        }
    }
}

/// Names the fields of a form on its page, where the same form may stand for several things. What is
/// sent along in several lines names none.
fn prefix(form: &Form) -> String {
    let about = form.values.iter();
    let about = about.filter(|(_, value)| !value.is_empty() && !value.contains('\n'));
    about.fold(form.name.key().to_owned(), |name, (_, value)| {
        format!("{name}-{}", value.replace(' ', "-"))
    })
}

/// The field beside the buttons: it waits for whoever types without looking.
fn input(field: &Field) -> Markup {
    html! {
        input id=(field.key) type="text" name=(field.key) value=(field.value)
            enterkeyhint="next" autocomplete="off"
            placeholder=(field.hint) aria-invalid=[field.refusal.as_ref().map(|_| "true")];
        @if !field.unit.is_empty() { span.unit { (field.unit) } }
    }
}

fn hint(field: &Field) -> Markup {
    html! { @if !field.hint.is_empty() { p.hint { (field.hint) } } }
}

fn problem(refusal: Option<&str>) -> Markup {
    html! { @if let Some(why) = refusal { p.refusal role="alert" { (why) } } }
}
