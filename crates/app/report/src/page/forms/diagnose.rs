//! The forms of what is wrong.

use diagnosis::check::Check;
use diagnosis::symptom::Symptom;
use workshop::diagnose::answer::Answer as Says;
use workshop::draft::diagnose::{CHECKS, FOUND, SYMPTOMS};
use workshop::draft::word;
use workshop::job::Job;

use super::{Blank, about, choice, choice_of, field, line};
use crate::page::diagnose::answer::waits;
use crate::page::diagnose::next::safe;
use crate::page::diagnose::{check, sign};
use crate::page::{Field, FieldKind, Form, FormName, Refused, Weight};
use crate::words::upper;

/// Yes, no, or nobody looked.
const ANSWERS: [(&str, &str); 3] = [("yes", "yes"), ("no", "no"), ("", "did not look")];
const SHOWED: [(&str, &str); 3] = [
    ("nothing", "nothing found"),
    ("something", "something found"),
    ("back", "not done after all"),
];

/// What was heard and seen: all of it, as far as it counts for this outing.
pub(crate) fn symptoms(says: &Says, refused: Option<&Refused>, open: bool) -> Form {
    let groups = sign::GROUPS.iter().flat_map(|(heading, symptoms)| {
        let heading = field("", heading, "", FieldKind::Group);
        let asked = symptoms.iter().map(|symptom| asked(says, *symptom));
        std::iter::once(heading).chain(asked)
    });
    let blank = Blank {
        name: FormName::Symptoms,
        heading: "What was heard and seen",
        intro: "As it was on this outing. What nobody looked for stays as it is, and counts neither \
                way.",
        submit: "Keep it",
        fields: groups.collect(),
    };
    blank.with(refused, open)
}

fn asked(says: &Says, symptom: Symptom) -> Field {
    let told = says.known.answers.iter().rev();
    let told = told.into_iter().find(|one| one.symptom == symptom);
    let value = told.map_or("", |one| if one.yes { "yes" } else { "no" });
    let owned = |(value, label): &(&str, &str)| ((*value).to_owned(), (*label).to_owned());
    let kind = FieldKind::Pick(ANSWERS.iter().map(owned).collect());
    field(
        word(&SYMPTOMS, symptom),
        sign::question(symptom),
        value,
        kind,
    )
}

/// What a check showed: the one that comes next, or any that may be done now.
pub(crate) fn checked(
    (job, next): (&Job, Option<Check>),
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let had = next.and_then(|check| job.diagnosis.checks.get(&check));
    let (found, note) = had.map_or(("", ""), |fact| {
        (word(&FOUND, fact.value.0), fact.value.1.as_str())
    });
    let note = line("note", "What", note).hint("In your own words; may stay empty.");
    if let Some(next) = next {
        let blank = Blank {
            name: FormName::Checked,
            heading: "Say it with a note",
            intro: "",
            submit: "Keep it",
            fields: vec![choice("found", "It showed", found, &SHOWED[..2]), note],
        };
        let key = word(&CHECKS, next).to_owned();
        let mine = refused.filter(|refused| !listed(refused));
        return about(blank, ("check", key), mine, open);
    }
    let waiting = Check::ALL.into_iter().any(|check| waits(job, check));
    let checks = Check::ALL.into_iter();
    let checks = checks.filter(|check| !waits(job, *check));
    let checks = checks.map(|one| {
        let name = upper(check::words(one).name);
        (word(&CHECKS, one).to_owned(), name)
    });
    let blank = Blank {
        name: FormName::Checked,
        heading: "Say what another check showed",
        intro: if waiting {
            "Checks beneath the craft, in its pump or at its shaft can be named as soon as somebody says \
             that it can’t start."
        } else {
            "It counts for the outing that falls short, and until the craft runs again."
        },
        submit: "Keep it",
        fields: vec![
            choice_of("check", "Check", "", checks.collect()),
            choice("found", "It showed", "", &SHOWED),
            note,
        ],
    };
    let mut form = blank.with(refused.filter(|refused| listed(refused)), open);
    form.values = vec![("from", "list".to_owned())];
    if waiting {
        let mut safe = safe(Weight::Plain);
        safe.key = None;
        form.quick = vec![safe];
    }
    form
}

/// It was sent by the form that names any check.
fn listed(refused: &Refused) -> bool {
    let named = refused.typed.iter().find(|(name, _)| name == "from");
    named.is_some_and(|(_, from)| from == "list")
}

/// Which outing falls short; nothing to choose while there is none.
pub(crate) fn suspect(job: &Job, refused: Option<&Refused>) -> Option<Form> {
    let outings = job.trials.in_order(None);
    if outings.is_empty() {
        return None;
    }
    let named = job.diagnosis.suspect.as_ref();
    let named = named.and_then(|fact| fact.value.as_ref());
    let mut of = vec![(String::new(), "the latest".to_owned())];
    of.extend(outings.into_iter().map(|(key, state)| {
        let name = state.outing.value.name.clone();
        (key.to_string(), name)
    }));
    let value = named.map_or_else(String::new, ToString::to_string);
    let blank = Blank {
        name: FormName::Suspect,
        heading: "Which outing falls short",
        intro: "What was heard, and what the bench found after it and before the next, belongs to this \
                outing.",
        submit: "Keep it",
        fields: vec![choice_of("outing", "Outing", &value, of)],
    };
    Some(blank.with(refused, false))
}
