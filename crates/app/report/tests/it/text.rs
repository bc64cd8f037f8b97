//! A page in plain lines, so that a change of what it says can be read.

use report::page::{Button, Card, FactRow, Form, Next, Page, Section, Step, flat};

pub(crate) fn text(page: &Page) -> String {
    let mut lines = vec![page.title.clone()];
    lines.extend(page.clocks.iter().map(|clock| {
        let over = if clock.over { ", run out" } else { "" };
        format!("clock: {} [{}{over}]", clock.words, clock.by)
    }));
    let answer = &page.answer;
    lines.push(format!("\n{:?}: {}", answer.tone, answer.headline));
    lines.push(flat(&answer.detail));
    lines.push(answer.origin.clone());
    lines.extend(page.cautions.iter().map(|caution| format!("! {caution}")));
    for one in &page.evidence {
        lines.push(String::new());
        section(&mut lines, one);
    }
    lines.push(String::new());
    next(&mut lines, &page.next);
    lines.join("\n")
}

fn section(lines: &mut Vec<String>, section: &Section) {
    match section {
        Section::Picture {
            heading, caption, ..
        } => lines.extend([format!("## {heading} (picture)"), caption.clone()]),
        Section::Facts { heading, rows } => {
            lines.push(format!("## {heading}"));
            facts(lines, rows);
        }
        Section::Notes { heading, notes } => {
            lines.push(format!("## {heading}"));
            lines.extend(notes.iter().map(|note| format!("- {note}")));
        }
        Section::Links { heading, links } | Section::Ways { heading, links } => {
            lines.push(format!("## {heading}"));
            lines.extend(links.iter().map(|(_, name, more)| format!("{name} {more}")));
        }
        Section::Folded {
            heading,
            state,
            links,
        } => {
            lines.push(format!("## + {heading} {state}"));
            lines.extend(links.iter().map(|(_, name, more)| format!("{name} {more}")));
        }
        Section::List(list) => {
            lines.push(format!("## + {} {}", list.heading, list.state));
            lines.push(list.origin.clone());
            lines.extend(list.cautions.iter().map(|caution| format!("! {caution}")));
            lines.extend(list.lines.iter().map(|line| format!("- {line}")));
        }
        Section::Card(card) => self::card(lines, card),
        Section::Step(step) => self::step(lines, step),
        Section::Form(form) => self::form(lines, form),
        Section::Photos(strip) => {
            lines.push(format!("## {} (photos)", strip.heading));
            lines.extend(strip.shots.iter().map(|shot| shot.alt.clone()));
        }
        Section::Refused(why) => lines.push(why.clone()),
        Section::Try(tried) => {
            lines.push(format!("## {} (sliders)", tried.heading));
            lines.extend(
                tried
                    .told
                    .iter()
                    .map(|row| format!("{}: {}", row.name, flat(&row.value))),
            );
            lines.push(tried.note.clone());
        }
        Section::Photo(shot) => lines.push(format!("photo: {}", shot.alt)),
        Section::Label(label) => {
            lines.push(format!("## {} (label)", label.title));
            let rows = label.rows.iter();
            lines.extend(rows.map(|(name, value)| format!("{name}: {value}")));
            lines.push(format!("{} {}", label.short, label.note));
            lines.extend(label.refusal.clone());
        }
        Section::Table(_) | Section::Grid(_) => lines.push(format!("{section:?}")),
    }
}

fn card(lines: &mut Vec<String>, card: &Card) {
    lines.push(format!(
        "## {:?}: {} {}",
        card.tone, card.heading, card.state
    ));
    lines.extend(card.notes.iter().map(|note| format!("- {note}")));
    facts(lines, &card.rows);
    for one in &card.forms {
        form(lines, one);
    }
}

fn step(lines: &mut Vec<String>, step: &Step) {
    lines.push(format!("## {} ({})", step.heading, step.state));
    lines.extend(step.notes.iter().map(|note| format!("! {note}")));
    facts(lines, &step.rows);
    lines.extend(step.links.iter().map(|(_, words)| format!("> {words}")));
    lines.extend(step.buttons.iter().map(button));
    for one in &step.forms {
        form(lines, one);
    }
}

fn facts(lines: &mut Vec<String>, rows: &[FactRow]) {
    let row = |row: &FactRow| format!("{}: {} [{}]", row.name, flat(&row.value), row.origin);
    lines.extend(rows.iter().map(row));
}

fn form(lines: &mut Vec<String>, form: &Form) {
    let fields = form.fields.iter().map(|field| &field.label);
    let fields: Vec<_> = fields.map(String::as_str).collect();
    let (name, heading, submit) = (form.name.key(), &form.heading, &form.submit);
    lines.push(format!(
        "+ {heading} ({name}: {}; {submit})",
        fields.join(", ")
    ));
}

fn next(lines: &mut Vec<String>, next: &Next) {
    match next {
        Next::Ask {
            question,
            buttons,
            write,
        } => {
            lines.push(format!("Next: {}", flat(question)));
            lines.extend(buttons.iter().map(button));
            if let Some(write) = write {
                form(lines, write);
            }
        }
        Next::Fill(fill) => form(lines, fill),
        Next::Go { words, links } | Next::Print { words, links } => {
            lines.push(format!("Next: {}", flat(words)));
            lines.extend(links.iter().map(|(_, words)| format!("> {words}")));
        }
    }
}

fn button(button: &Button) -> String {
    let values = button.values.iter().map(|(_, value)| format!(" {value}"));
    let key = button.key.map_or_else(String::new, String::from);
    let sends = values.collect::<String>();
    let (name, weight) = (button.form.key(), button.weight);
    format!("[{}] {key}, {weight:?}: {name}{sends}", button.label)
}
