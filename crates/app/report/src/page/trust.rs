//! The one page of the plain address while devices come by HTTPS: how a device takes the authority.

use super::{Answer, List, Next, Page, Run, Section, Target, Tone, frame, plain, row, strong};

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The fingerprint of the authority.
    pub fingerprint: &'a str,
    /// Where the bench is by HTTPS, under the name this device knows.
    pub secure: &'a str,
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let fingerprint = Section::Facts {
        heading: "Compare before you trust it".to_owned(),
        rows: vec![row(
            "Fingerprint, SHA-256",
            grouped(view.fingerprint),
            "it must be the one on the screen where the bench was opened; this page could be somebody else’s",
        )],
    };
    let mut evidence = vec![fingerprint];
    evidence.extend(SYSTEMS.iter().map(steps));
    let answer = Answer {
        tone: Tone::Open,
        headline: "This device must take the authority of the bench once.".to_owned(),
        detail: vec![plain(
            "The bench comes by HTTPS, so that nobody in the network can read along. No public office \
                 vouches for a bench in a workshop; it vouches for itself, by an authority that may speak \
                 for addresses of local networks only. Take it, then open the bench.",
        )],
        origin: String::new(),
    };
    let next = Next::Go {
        words: vec![plain("First take the authority, then open the bench.")],
        links: vec![
            (Target::Authority, "Take the authority".to_owned()),
            (
                Target::Address(view.secure.to_owned()),
                "Open the bench by HTTPS".to_owned(),
            ),
        ],
    };
    Page {
        evidence,
        ..frame::bare("Trust this bench", answer, next)
    }
}

/// A fingerprint that a narrow page breaks between its groups, as an eye reads it.
fn grouped(fingerprint: &str) -> Vec<Run> {
    let pairs: Vec<&str> = fingerprint.split(':').collect();
    let groups = pairs.chunks(4).map(|group| strong(group.join(":")));
    groups.flat_map(|group| [group, plain(" ")]).collect()
}

/// What is done on a system, in the words it uses.
struct System {
    name: &'static str,
    lines: &'static [&'static str],
}

fn steps(system: &System) -> Section {
    Section::List(List {
        heading: system.name.to_owned(),
        state: "once".to_owned(),
        origin: "Written from memory: names of menus differ with the version.".to_owned(),
        cautions: Vec::new(),
        lines: system.lines.iter().map(|line| (*line).to_owned()).collect(),
    })
}

const SYSTEMS: [System; 6] = [
    System {
        name: "iPhone and iPad",
        lines: &[
            "Press “Take the authority” in Safari and allow the download of a configuration profile.",
            "Settings: “Profile Downloaded”, or General › VPN & Device Management. Choose it and press Install.",
            "Compare the fingerprint under More Details.",
            "Settings › General › About › Certificate Trust Settings: switch on full trust for it. Without \
             this second switch the bench still counts as not secure.",
        ],
    },
    System {
        name: "Android",
        lines: &[
            "Press “Take the authority”; the file authority.crt is saved.",
            "Settings: search for “CA certificate” (Security & privacy › More security settings › Encryption \
             & credentials › Install a certificate › CA certificate).",
            "Confirm “Install anyway” and choose authority.crt.",
            "Compare the fingerprint under Trusted credentials › User.",
        ],
    },
    System {
        name: "Windows",
        lines: &[
            "Press “Take the authority” and open authority.crt.",
            "Details: compare the thumbprint only if it is shown as SHA-256; older dialogs show SHA-1.",
            "Install Certificate › Current User › Place all certificates in the following store › Trusted \
             Root Certification Authorities.",
        ],
    },
    System {
        name: "macOS",
        lines: &[
            "Press “Take the authority” and open authority.crt: Keychain Access takes it.",
            "Open it there, compare the fingerprint, and under Trust choose “Always Trust”.",
        ],
    },
    System {
        name: "Linux",
        lines: &[
            "Press “Take the authority”. The fingerprint: openssl x509 -in authority.crt -noout -sha256 -fingerprint",
            "Chromium: Settings › Privacy and security › Security › Manage certificates › Authorities › Import, \
             and trust it for websites.",
        ],
    },
    System {
        name: "Firefox, on any system",
        lines: &[
            "Settings › Privacy & Security › View Certificates › Authorities › Import: choose authority.crt \
             and trust it to identify websites.",
        ],
    },
];
