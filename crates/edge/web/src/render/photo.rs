//! Photos: in a strip, large, and the form to take them.

use maud::{Markup, html};
use report::page::Form;
use report::page::photos::{Shot, Strip};

use super::form::Sender;
use super::whole;
use crate::route;

/// The long edge of a small picture, in pixels of the page.
const THUMB: u32 = picture::THUMB_EDGE;

pub(crate) fn strip(strip: &Strip, sender: Sender<'_>) -> Markup {
    html! {
        section.photos {
            @if !strip.heading.is_empty() { h3 { (strip.heading) } }
            @if !strip.shots.is_empty() {
                ul { @for shot in &strip.shots { li { (small(shot)) } } }
            } @else if !strip.none.is_empty() {
                p.none { (strip.none) }
            }
            @if let Some(form) = &strip.take { (take(form, sender)) }
        }
    }
}

fn small(shot: &Shot) -> Markup {
    let (width, height) = thumb_size(shot.size);
    html! {
        figure {
            a href=(route::link(&shot.target)) {
                @if shot.here {
                    img src=(route::thumb(&shot.photo)) alt=(shot.alt) width=(width) height=(height) loading="lazy" decoding="async";
                } @else {
                    span.absent { (shot.absent()) }
                }
            }
            @if !shot.words.is_empty() { figcaption { (whole(&shot.words)) } }
        }
    }
}

/// One photo as large as the page is wide.
pub(crate) fn large(shot: &Shot) -> Markup {
    let (width, height) = shot.size;
    html! {
        figure.photo {
            @if shot.here {
                a href=(route::photo(&shot.photo)) {
                    img src=(route::photo(&shot.photo)) alt=(shot.alt) width=(width) height=(height);
                }
            } @else {
                p.absent { (shot.absent()) " It comes when the same photo is sent again here." }
            }
        }
    }
}

/// Folded away where it is one of many.
fn take(form: &Form, sender: Sender<'_>) -> Markup {
    html! {
        details.folded open[form.open] {
            summary { (form.heading) }
            (sender.form(form))
        }
    }
}

/// The size of the small picture, so that the page does not jump when it comes.
fn thumb_size((width, height): (u32, u32)) -> (u32, u32) {
    let long = width.max(height).max(1);
    if long <= THUMB {
        return (width, height);
    }
    let scaled = |edge: u32| ((edge * THUMB + long / 2) / long).max(1);
    (scaled(width), scaled(height))
}
