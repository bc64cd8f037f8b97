//! The answer: what is most likely wrong, in a sentence.

use diagnosis::check::Check;
use diagnosis::fault::Fault;
use workshop::diagnose::answer::{Against, Answer as Says, TELLS};
use workshop::diagnose::cannot_start;
use workshop::job::Job;

use super::check::words;
use super::{View, pieces, say};
use crate::page::{Answer, Run, Tone, plain, soft, strong};

/// Below this chance of what was seen under the best of them, no single cause explains it.
const UNFIT: f64 = 0.01;
/// Pieces of evidence told beside the answer.
const PIECES: usize = 3;

pub(super) fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, detail) = told(view.job, view.says);
    Answer {
        tone,
        headline,
        detail,
        origin: origin(view.job, &view.says.against),
    }
}

/// Where the search stands, in a few words.
pub(super) fn state(says: &Says) -> String {
    let [(first, chance), _] = says.leaders();
    if good(says) {
        return "better than it should be".to_owned();
    }
    if says.dangers.is_empty() && chance < TELLS {
        return "can’t tell yet".to_owned();
    }
    let (name, chance) = (say::fault(first), crate::page::choose::say::chance(chance));
    if says.dangers.is_empty() {
        format!("{name}, {chance}")
    } else {
        "stop: it runs hot".to_owned()
    }
}

pub(super) fn told(job: &Job, says: &Says) -> (Tone, String, Vec<Run>) {
    let [(first, chance), (second, other)] = says.leaders();
    let about = say::about(chance);
    let mut detail = Vec::new();
    let (tone, headline) = if !says.dangers.is_empty() {
        detail.push(strong(
            "Engine off, and let it cool. It does not run again before the reason is found: the \
             cooling hoses, then the intake. ",
        ));
        detail.extend(likeliest(first, chance));
        (Tone::Stop, "Stop: it runs hot.".to_owned())
    } else if good(says) {
        detail.push(plain(
            "Nothing falls short, so no cause is looked for. What was heard and found is weighed below \
             all the same. ",
        ));
        detail.extend(likeliest(first, chance));
        (Tone::Good, "It does better than it should.".to_owned())
    } else if chance < TELLS {
        detail.extend(likeliest(first, chance));
        (
            Tone::Plain,
            format!("Can’t tell yet: {}.", ahead(job, says)),
        )
    } else {
        match first {
            Fault::Nothing => (
                Tone::Good,
                format!("Nothing says that anything is wrong: {about} that it runs as it should."),
            ),
            Fault::Unlisted => (
                Tone::Open,
                format!("None of the known causes explains this: {about} that it is another."),
            ),
            fault => (
                Tone::Open,
                format!("Most likely {}: {about}.", say::so(fault)),
            ),
        }
    };
    detail.push(plain(format!(
        "After it: {}, {}. ",
        say::fault(second),
        say::about(other)
    )));
    detail.extend(pieces(job, says, first));
    detail.extend(together(says));
    if let Some(taken) = &job.diagnosis.taken
        && taken.value.evidence == says.evidence
    {
        let name = say::fault(taken.value.fault);
        detail.push(soft(format!("On record as the cause: {name}. ")));
    }
    (tone, headline, detail)
}

/// It does better than it should, and nothing else says that something is wrong.
pub(super) fn good(says: &Says) -> bool {
    let [(first, chance), _] = says.leaders();
    let named = chance >= TELLS && !matches!(first, Fault::Nothing | Fault::Unlisted);
    says.dangers.is_empty() && says.better() && !named
}

/// The likeliest, where the headline does not say it.
fn likeliest(first: Fault, chance: f64) -> [Run; 2] {
    [
        plain("Likeliest so far is "),
        strong(format!("{}, {}. ", say::fault(first), say::about(chance))),
    ]
}

/// What to do next, in the headline.
fn ahead(job: &Job, says: &Says) -> String {
    let Some(check) = says.offers.first().map(|offer| offer.check) else {
        return "every check is done, and none of them settles it".to_owned();
    };
    let first = if says.known.items().is_empty() {
        "say what was heard and seen, or begin with "
    } else {
        "next comes "
    };
    let name = words(check).name;
    let waits = if waits(job, check) {
        ", once it can’t start"
    } else {
        ""
    };
    format!("{first}{name}{waits}")
}

/// Nobody may do this check before the craft can't start.
///
/// Asked of the job and not of an answer, which may have been reckoned before somebody said so.
pub(crate) fn waits(job: &Job, check: Check) -> bool {
    check.reach().must_not_start() && !cannot_start(job)
}

/// The pieces that carried most.
fn pieces(job: &Job, says: &Says, first: Fault) -> Option<Run> {
    let telling = says.carried.iter().filter(|one| pieces::tells(one.weight));
    let telling: Vec<String> = telling
        .filter(|one| one.weight > 0.0)
        .take(PIECES)
        .map(|one| pieces::piece(job, says, one.item))
        .collect();
    let name = say::fault(first);
    let told = telling.join("; ");
    (!telling.is_empty()).then(|| plain(format!("What speaks most for {name}: {told}. ")))
}

/// Two causes at once, where no single one explains what was seen.
fn together(says: &Says) -> Option<Run> {
    let (first, second, share) = says.weighed.pairs.first()?;
    (says.weighed.fit < UNFIT).then(|| {
        plain(format!(
            "No single cause explains all of it; two at once would: {} with {} ({} of such pairs). ",
            say::fault(*first),
            say::fault(*second),
            say::about(*share)
        ))
    })
}

fn origin(job: &Job, against: &Against) -> String {
    let held = match against {
        Against::Run(key) => {
            let state = job.trials.outings.get(key);
            let name = state.map_or(key.as_str(), |state| state.outing.value.name.as_str());
            format!("Held against “{name}”, with what is known to have changed since")
        }
        Against::Description => {
            "The engine’s speed held against what a craft of this description should turn; speeds and \
             times need another run of it"
                .to_owned()
        }
        Against::NotRun => "By signs and checks alone: it has not been run".to_owned(),
        Against::NoCraft(_) => {
            "By signs and checks alone: the craft is not described under Choose".to_owned()
        }
        Against::Unreckoned => {
            "By signs and checks alone: no engine speed was read off, or too few craft of this \
             description get on the plane to reckon with"
                .to_owned()
        }
    };
    let changes = match against {
        Against::Run(_) | Against::Description => {
            "what each changes, from this craft’s model and from invented craft; "
        }
        Against::NotRun | Against::NoCraft(_) | Against::Unreckoned => "",
    };
    format!(
        "{held} · chances by Bayes’ rule over {} causes; {changes}how often each comes, and each sign \
         with it, is from memory",
        Fault::ALL.len()
    )
}
