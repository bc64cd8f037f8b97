//! The evidence, piece by piece.

use maud::{Markup, html};
use report::page::choose::Try;
use report::page::{Card, Cell, CellMark, FactRow, Form, Grid, Section, Step, Table, Target, Tone};

use super::form::Sender;
use super::{caution_line, label, photo, runs, whole};
use crate::route::link;

/// The evidence in the order given; the style sheet sets it in columns on a wide screen.
pub(crate) fn evidence(sections: &[Section], sender: Sender<'_>) -> Markup {
    html! {
        @if !sections.is_empty() {
            div.evidence { @for one in sections { (section(one, sender)) } }
        }
    }
}

/// Sliders that follow a finger where there is a script, and a button where there is none.
fn tried(tried: &Try) -> Markup {
    let page = link(&tried.page);
    html! {
        section.try {
            h3 { (tried.heading) }
            p { (tried.intro) }
            form method="get" action=(page) data-try={ (page) "/try" } {
                @for slider in &tried.sliders {
                    label {
                        span { (slider.label) }
                        input type="range" name=(slider.key) min=(slider.least) max=(slider.greatest)
                            step=(slider.step) value=(slider.value);
                        output data-unit=(spaced(slider.unit)) { (slider.value) (spaced(slider.unit)) }
                    }
                }
                button { "Show" }
            }
            div.told.facts aria-live="polite" { (told(tried)) }
        }
    }
}

/// A degree stands close, a unit of letters does not.
fn spaced(unit: &str) -> String {
    if unit.starts_with(char::is_alphabetic) {
        format!("\u{a0}{unit}")
    } else {
        unit.to_owned()
    }
}

/// What comes of where they stand.
pub(crate) fn told(tried: &Try) -> Markup {
    html! {
        (facts(&tried.told))
        @if !tried.note.is_empty() { p { (tried.note) } }
    }
}

fn section(section: &Section, sender: Sender<'_>) -> Markup {
    match section {
        Section::Picture {
            heading,
            svg,
            caption,
        } => html! {
            figure.picture {
                h3 { (heading) }
                div.scroll { (svg) }
                figcaption { (caption) }
            }
        },
        Section::Grid(grid) => self::grid(grid),
        Section::Try(tried) => self::tried(tried),
        Section::Facts { heading, rows } => html! {
            section.facts {
                h3 { (heading) }
                (facts(rows))
            }
        },
        Section::Card(card) => self::card(card, sender),
        Section::Step(step) => self::step(step, sender),
        Section::Table(table) => self::table(table),
        Section::Notes { heading, notes } => html! {
            section.notes {
                h3 { (heading) }
                ul { @for note in notes { li { (whole(note)) } } }
            }
        },
        Section::Links { heading, links } => html! {
            section.links { h3 { (heading) } (items(links)) }
        },
        Section::Ways { heading, links } => html! {
            section.links.ways { h3 { (heading) } (items(links)) }
        },
        Section::Folded {
            heading,
            state,
            links,
        } => html! {
            details.folded.links {
                summary { (heading) " " span.soft { (state) } }
                (items(links))
            }
        },
        Section::List(list) => html! {
            details.folded.list {
                summary { (list.heading) " " span.soft { (list.state) } }
                @for caution in &list.cautions { (caution_line(caution)) }
                p.origin { (list.origin) }
                ol { @for line in &list.lines { li { (whole(line)) } } }
            }
        },
        Section::Form(form) => folded(form, sender),
        Section::Refused(why) => html! { p.refusal role="alert" { (why) } },
        Section::Photos(strip) => photo::strip(strip, sender),
        Section::Photo(shot) => photo::large(shot),
        Section::Label(one) => label::label(one),
    }
}

fn items(links: &[(Target, String, String)]) -> Markup {
    html! {
        ul { @for (target, words, more) in links {
            li { a href=(link(target)) { span.name { (words) } span.state { (whole(more)) } } }
        } }
    }
}

fn facts(rows: &[FactRow]) -> Markup {
    html! {
        dl { @for row in rows {
            div {
                dt { (row.name) }
                dd {
                    span.value { (runs(&row.value)) } " "
                    @if let Some((form, field)) = row.said_in {
                        a.origin href={ "#" (form.key()) "-" (field) } { (row.origin) }
                    } @else {
                        span.origin { (row.origin) }
                    }
                }
            }
        } }
    }
}

/// Values up to which a card keeps to its column.
const LONG: usize = 6;

fn card(card: &Card, sender: Sender<'_>) -> Markup {
    let (class, sign) = match card.tone {
        Tone::Good => ("good", "✓"),
        Tone::Open => ("open", "?"),
        Tone::Stop => ("stop", "✕"),
        Tone::Plain => ("plain", "·"),
    };
    html! {
        // Many values need the width of the page.
        section.card.facts.(class).long[card.rows.len() > LONG] {
            h3 { span.sign aria-hidden="true" { (sign) } " " (card.heading) " " span.soft { (card.state) } }
            @if !card.notes.is_empty() {
                ul.mind { @for note in &card.notes { li { (whole(note)) } } }
            }
            // What is done is out of the way, and still there.
            @if card.tone == Tone::Good && !card.rows.is_empty() {
                details.folded.values { summary { "Its values" } (facts(&card.rows)) }
            } @else {
                (facts(&card.rows))
            }
            @for form in &card.forms { (folded(form, sender)) }
        }
    }
}

fn step(step: &Step, sender: Sender<'_>) -> Markup {
    html! {
        section.step.facts {
            h3 { (step.heading) " " span.soft { (step.state) } }
            @if !step.notes.is_empty() {
                ul.mind { @for note in &step.notes { li { (whole(note)) } } }
            }
            (facts(&step.rows))
            @if !step.links.is_empty() || !step.buttons.is_empty() {
                div.buttons {
                    @for (target, words) in &step.links { a.button href=(link(target)) { (words) } }
                    @for button in &step.buttons { (sender.button(button)) }
                }
            }
            @for form in &step.forms { (folded(form, sender)) }
        }
    }
}

fn folded(form: &Form, sender: Sender<'_>) -> Markup {
    html! {
        details.folded open[form.open] {
            summary { (form.heading) }
            @if !form.quick.is_empty() {
                div.buttons.quick { @for button in &form.quick { (sender.button(button)) } }
            }
            (sender.form(form))
        }
    }
}

fn grid(grid: &Grid) -> Markup {
    html! {
        section.grid {
            h3 { (grid.heading) " " span.soft { (grid.caption) } }
            table {
                thead { tr {
                    td {}
                    @for blade in &grid.blades { th scope="col" { (blade) } }
                } }
                tbody { @for (clock, cells) in &grid.rows {
                    tr {
                        th scope="row" { (clock) }
                        @for one in cells { (cell(one)) }
                    }
                } }
            }
        }
    }
}

fn cell(cell: &Cell) -> Markup {
    let class = match cell.mark {
        CellMark::None => "none",
        CellMark::In => "in",
        CellMark::Near => "near",
        CellMark::Out => "out",
        CellMark::Contradiction => "contradiction",
    };
    html! {
        td class=(class) {
            a href=(link(&cell.target)) aria-label=(cell.words) aria-current=[cell.next.then_some("true")] {
                span.reading { (cell.text) }
                span.sign aria-hidden="true" { (cell.mark.sign()) }
            }
        }
    }
}

fn table(table: &Table) -> Markup {
    html! {
        section.table {
            h3 { (table.heading) }
            table {
                thead { tr { @for head in &table.head { th scope="col" { (head) } } } }
                tbody { @for row in &table.rows { tr {
                    @for (index, (head, text)) in table.head.iter().zip(row).enumerate() {
                        @if index == 0 { th scope="row" { (text) } } @else { td data-head=(head) { (whole(text)) } }
                    }
                } } }
            }
            @if !table.caption.is_empty() { p.caption { (table.caption) } }
        }
    }
}
