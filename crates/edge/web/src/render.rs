//! A page of `report` as HTML. Nothing is worded here but the furniture of every page.

mod form;
mod label;
mod photo;
pub(crate) mod section;

use maud::{DOCTYPE, Markup, PreEscaped, html};
use report::page::{Answer, Clock, Heading, Next, PRINT, PRINT_BY_MENU, Page, Run, Tone, Weight};

use self::form::Sender;
use crate::assets;
use crate::route::{self, link};
use crate::visitor::{Theme, Visitor};

/// The whole document. `id` gives a fresh entry id for each form, so that sending one twice records
/// once.
pub(crate) fn document(page: &Page, visitor: &Visitor, id: &dyn Fn() -> String) -> Markup {
    let back = page.here.as_ref().map(link);
    let job = page.heading.as_ref().map(|heading| &heading.job);
    let sender = Sender {
        job,
        back: back.as_deref(),
        seen: page.heading.as_ref().map(|heading| heading.position),
        id,
    };
    let title = match &page.heading {
        Some(heading) => format!("{} · {}", page.title, heading.title),
        None => page.title.clone(),
    };
    html! {
        (DOCTYPE)
        // What stands at the foot of every sheet of paper.
        html lang="en" data-theme=[visitor.theme.map(Theme::key)] data-title=(title) data-printed=(today()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) " · Pumpwright" }
                link rel="stylesheet" href=(assets::address("bench.css"));
                script type="module" src=(assets::address("bench.js")) {}
            }
            body {
                (top(page.heading.as_ref(), visitor))
                (clocks(&page.clocks))
                div.frame {
                    @if !page.stages.is_empty() { (stages(page)) }
                    main #main data-position=[page.heading.as_ref().map(|h| h.position)]
                        data-listen=[job.map(route::live)] data-since=[job.map(route::since)] {
                        (answer(&page.answer))
                        @if let Some(heading) = &page.heading {
                            @for one in &heading.crossed {
                                p.caution.crossed {
                                    (sign())
                                    span { (one.words) " " a href=(link(&one.target)) { "Go there" } }
                                }
                            }
                        }
                        @for caution in &page.cautions { (caution_line(caution)) }
                        (section::evidence(&page.evidence, sender))
                        (next(&page.next, sender))
                    }
                }
            }
        }
    }
}

fn top(heading: Option<&Heading>, visitor: &Visitor) -> Markup {
    html! {
        header.top {
            div.where {
                @if let Some(heading) = heading {
                    a.back href="/" { "All jobs" }
                    h1 { (heading.title) }
                    @if !heading.note.is_empty() { p.note { (heading.note) } }
                } @else {
                    h1 { "Pumpwright" }
                    p.note { "The bench for a jet pump." }
                }
            }
            @if !visitor.stranger { div.tools {
                @if let Some(heading) = heading {
                    p.saved #saved role="status" { "Saved " (heading.saved) }
                }
                details.who {
                    summary { (if visitor.who.is_empty() { "Who is working?" } else { &visitor.who }) }
                    form method="post" action="/who" {
                        label { "Name for the record" input name="who" value=(visitor.who) maxlength="200" autocomplete="name"; }
                        button.quiet { "Keep" }
                        // The script shows what this browser can do.
                        @for (setting, words) in SETTINGS {
                            button.quiet type="button" data-setting=(setting) aria-pressed="false" hidden { (words) }
                        }
                    }
                }
                form.theme method="post" action="/theme" {
                    button.quiet name="theme" value="sun" aria-pressed=(pressed(visitor, Theme::Sun)) { "Sun" }
                    button.quiet name="theme" value="shop" aria-pressed=(pressed(visitor, Theme::Shop)) { "Shop" }
                }
            } }
        }
    }
}

/// `Printed 29 November 2026`, as long as no script knows better.
fn today() -> String {
    let today = crate::handlers::clock();
    today.strftime("Printed %-d %B %Y").to_string()
}

/// What a device may keep for itself.
const SETTINGS: [(&str, &str); 2] = [
    ("aloud", "Read questions aloud"),
    (
        "turner",
        "A page-turner answers: forward goes free, back won’t go",
    ),
];

/// The working times that run; the script counts them down.
fn clocks(clocks: &[Clock]) -> Markup {
    html! {
        @if !clocks.is_empty() {
            section #clocks .clocks aria-label="Working time" {
                @for clock in clocks {
                    p.clock.over[clock.over] {
                        span { (clock.words) } " "
                        time datetime=(clock.by) data-left { @if clock.over { "run out" } }
                    }
                }
            }
        }
    }
}

fn pressed(visitor: &Visitor, theme: Theme) -> &'static str {
    if visitor.theme == Some(theme) {
        "true"
    } else {
        "false"
    }
}

fn stages(page: &Page) -> Markup {
    html! {
        nav.stages aria-label="Stages" {
            @for stage in &page.stages {
                a href=(link(&stage.target)) aria-current=[stage.here.then_some("page")] {
                    span.name { (stage.name) }
                    span.state { (stage.state) }
                }
            }
        }
    }
}

fn answer(answer: &Answer) -> Markup {
    let (class, sign, meaning) = match answer.tone {
        Tone::Good => ("good", GOOD, "Good"),
        Tone::Open => ("open", OPEN, "Open"),
        Tone::Stop => ("stop", STOP, "Stop"),
        Tone::Plain => ("plain", "", ""),
    };
    html! {
        section #answer .answer .(class) aria-live="polite" {
            @if !sign.is_empty() {
                svg.sign viewBox="0 0 56 56" role="img" aria-label=(meaning) { (PreEscaped(sign)) }
            }
            div {
                h2 { (answer.headline) }
                p.detail { (runs(&answer.detail)) }
                @if !answer.origin.is_empty() { p.origin { (answer.origin) } }
            }
        }
    }
}

// One shape each, so that the colour is never the only signal.
const GOOD: &str = "<circle cx='28' cy='28' r='26'/><path d='M16 29l8 8 16-18'/>";
const OPEN: &str = "<rect x='3' y='3' width='50' height='50'/>\
    <path d='M20 22a8 8 0 1 1 11 7c-3 1.4-3 3-3 6M28 42v1'/>";
const STOP: &str = "<path class='plate' d='M18 3h20l15 15v20L38 53H18L3 38V18z'/>\
    <path d='M19 19l18 18M37 19L19 37'/>";

pub(crate) fn caution_line(caution: &str) -> Markup {
    html! {
        p.caution {
            (sign())
            span { (caution) }
        }
    }
}

fn sign() -> Markup {
    html! {
        svg viewBox="0 0 24 24" role="img" aria-label="Caution" {
            path d="M12 2.5 22.5 21h-21z" {}
            path d="M12 9v6M12 17.6v.6" {}
        }
    }
}

fn next(next: &Next, sender: Sender<'_>) -> Markup {
    match next {
        Next::Ask {
            question,
            buttons,
            write,
        } => html! {
            section.next #next aria-label="Next" {
                p.question { b { "Next: " } (runs(question)) }
                div.act {
                    @let (quiet, answers): (Vec<_>, Vec<_>) =
                        buttons.iter().partition(|button| button.weight == Weight::Quiet);
                    @if !answers.is_empty() {
                        div.buttons.answers { @for button in answers { (sender.button(button)) } }
                    }
                    @if let Some(write) = write { (sender.writing(write)) }
                    @if !quiet.is_empty() {
                        div.buttons { @for button in quiet { (sender.button(button)) } }
                    }
                }
            }
        },
        Next::Fill(form) => html! {
            section.fill #next aria-label="Next" {
                (sender.form(form))
                @if !form.quick.is_empty() {
                    div.buttons { @for button in &form.quick { (sender.button(button)) } }
                }
            }
        },
        Next::Print { words, links } => html! {
            section.next.screen #next aria-label="Next" {
                noscript { p.question { (PRINT_BY_MENU) } }
                @if !words.is_empty() { p.question { (runs(words)) } }
                div.act { div.buttons {
                    button.main type="button" data-print hidden { (PRINT) }
                    @for (target, words) in links { a.button href=(link(target)) { (words) } }
                } }
            }
        },
        Next::Go { words, links } => html! {
            section.next.screen #next aria-label="Next" {
                @if !words.is_empty() { p.question { b { "Next: " } (runs(words)) } }
                div.act { div.buttons { @for (target, words) in links {
                    a.button href=(link(target)) { (words) }
                } } }
            }
        },
    }
}

pub(crate) fn runs(runs: &[Run]) -> Markup {
    html! {
        @for run in runs {
            @match run {
                Run::Plain(text) => { (whole(text)) }
                Run::Strong(text) => { strong { (whole(text)) } }
                Run::Soft(text) => { span.soft { (whole(text)) } }
            }
        }
    }
}

/// A text whose dates and page numbers, such as 2026-05-09 and 5-14, do not break at their hyphens.
pub(crate) fn whole(text: &str) -> Markup {
    let hyphened = |word: &str| {
        let number = |place: &[u8]| {
            place[0].is_ascii_digit() && place[1] == b'-' && place[2].is_ascii_digit()
        };
        word.len() <= LONGEST_WHOLE && word.as_bytes().windows(3).any(number)
    };
    html! {
        @for word in text.split_inclusive(' ') {
            @if hyphened(word) { span.whole { (word) } } @else { (word) }
        }
    }
}

/// A longer word may break anywhere, or it would be wider than a phone.
const LONGEST_WHOLE: usize = 16;
