//! Take a photo, and say what it shows.

use workshop::job::Job;
use workshop::photos::{Photo, PhotoHash, Subject};

use super::{Blank, about, choice_of, field, line};
use crate::page::{FieldKind, Form, FormName, Refused, photos};

/// Take a photo of something.
pub(crate) fn take(subject: &Subject, refused: Option<&Refused>, open: bool) -> Form {
    let blank = Blank {
        name: FormName::Photo,
        heading: "Take a photo",
        intro: "JPEG or PNG, up to 25 MB each. Place and time are left behind.",
        submit: "Keep the photo",
        fields: vec![
            line("words", "What it shows", "").hint("May stay empty, and be said later."),
            field("photo", "Take a photo", "", FieldKind::Photo),
        ],
    };
    about(blank, ("subject", subject.to_string()), refused, open)
}

/// Say what a photo shows, and what it is of.
pub(crate) fn caption(
    job: &Job,
    photo: &PhotoHash,
    said: &Photo,
    refused: Option<&Refused>,
) -> Form {
    let subjects = photos::subjects(job, &said.subject);
    let blank = Blank {
        name: FormName::Caption,
        heading: "What it shows",
        intro: "It is found again by these words, on the page of what it is of and on the build \
                sheet.",
        submit: "Keep the words",
        fields: vec![
            field("words", "Words", &said.words, FieldKind::Lines),
            choice_of(
                "subject",
                "It is a photo of",
                &said.subject.to_string(),
                subjects,
            ),
        ],
    };
    about(blank, ("photo", photo.to_string()), refused, true)
}
