//! The sentences of the devices page.

use super::{Answer, Lan, MINUTES, Number, Reader, Section, TRIES, Tone, View, paired, plain};

pub(super) fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, detail) = match (view.reader, view.lan) {
        (Reader::Bench, None) => closed(view),
        (Reader::Bench, Some(lan)) => open(view, lan),
        (Reader::Device(_), _) => (
            Tone::Plain,
            paired(view.devices),
            "Numbers for other devices, and taking devices off, are at the bench itself: a device that \
             is lost must not be able to let others in. This one you can name, and take off, here."
                .to_owned(),
        ),
    };
    Answer {
        tone,
        headline,
        detail: vec![plain(detail)],
        origin: String::new(),
    }
}

fn closed(view: &View<'_>) -> (Tone, String, String) {
    let detail = match view.devices.len() {
        0 => "To let a tablet or a phone in, close the bench with Ctrl-C and open it with “pumpwright \
              serve --lan”. It then prints an address and a pairing number."
            .to_owned(),
        _ => "The devices below stay paired, and reach the bench when it is opened with “pumpwright \
              serve --lan”."
            .to_owned(),
    };
    let headline = "The bench is open on this machine only.".to_owned();
    (Tone::Plain, headline, detail)
}

fn open(view: &View<'_>, lan: &Lan) -> (Tone, String, String) {
    match &lan.number {
        Number::Open {
            digits, minutes, ..
        } => (
            Tone::Open,
            format!("Pairing number {}", spaced(digits)),
            format!(
                "Open the address below on the device and type it there, or scan the code. It lets in one \
                 device and is good for {} more {}. After {TRIES} wrong tries it is void.",
                minutes,
                if *minutes == 1 { "minute" } else { "minutes" },
            ),
        ),
        Number::None => (Tone::Plain, paired(view.devices), WHY.to_owned()),
        Number::Used => (
            Tone::Good,
            paired(view.devices),
            "The last number let a device in and is spent. Is it yours? If none of yours took it, remove \
             the newest below."
                .to_owned(),
        ),
        Number::Expired => (
            Tone::Plain,
            paired(view.devices),
            format!("The last number was good for {MINUTES} minutes and nobody used it."),
        ),
        Number::Void => (
            Tone::Stop,
            "The pairing number was guessed at and is void.".to_owned(),
            format!(
                "{TRIES} wrong numbers came. If it was not somebody mistyping, a stranger is in this \
                 network. {}",
                paired(view.devices)
            ),
        ),
    }
}

const WHY: &str = "A device that is not paired sees nothing of the bench. A number exists only while \
                   somebody at the bench asks for one.";

/// `481 923`.
fn spaced(digits: &str) -> String {
    match digits.split_at_checked(3) {
        Some((first, rest)) => format!("{first}\u{a0}{rest}"),
        None => digits.to_owned(),
    }
}

/// What the way to the bench means for the devices.
pub(super) fn takes_away(lan: Option<&Lan>) -> Section {
    let secure = lan.is_some_and(|lan| lan.secure);
    let notes: &[&str] = if secure {
        &[
            "Other devices come by HTTPS: nobody else in the network can read along or change anything.",
            "Each device must take the authority of this bench once; the page at the plain address says how.",
        ]
    } else {
        &[
            "Over plain HTTP everybody in the same network can read along, and who is skilled can change \
             what is sent. Use it in a network of your own.",
            "Browsers keep some things for HTTPS: the camera inside a page, a screen that stays awake, \
             copying by a button, work without the network. The bench does without them; photos are taken \
             with the camera of the device.",
            "For HTTPS, open the bench with “pumpwright serve --lan --https”. Each device then takes the \
             authority of this bench once.",
        ]
    };
    Section::Notes {
        heading: if secure {
            "Who can read along"
        } else {
            "What plain HTTP takes away"
        }
        .to_owned(),
        notes: notes.iter().map(|note| (*note).to_owned()).collect(),
    }
}
