//! The answer: which to fit, in a sentence.

use propulsion::calibrate::Poor;
use quantity::Unit;
use workshop::choose::Want;
use workshop::choose::answer::{Advice, Answer as Says, Decides, Does, Learnt};
use workshop::choose::craft::NoCraft;
use workshop::entry::Key;
use workshop::job::Job;

use super::{View, say, unit};
use crate::page::water::say as water;
use crate::page::{Answer, Run, Tone, plain, soft, strong};
use crate::words::upper;

pub(super) fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, detail) = told(view.job, view.says);
    let origin = match &view.says.learnt {
        Learnt::Well(_) => {
            "Reckoned from blades, nozzle, engine and hull, learnt from this craft’s own runs · 80 % \
             bands of 200 beliefs, the model’s own error in them"
        }
        Learnt::Nothing if !view.says.options.is_empty() => {
            "Reckoned without a run of this craft: differences only, in wide bands"
        }
        _ => "",
    };
    Answer {
        tone,
        headline,
        detail,
        origin: origin.to_owned(),
    }
}

pub(super) fn told(job: &Job, says: &Says) -> (Tone, String, Vec<Run>) {
    match &says.advice {
        Advice::NoCraft => no_craft(says),
        Advice::Unlearnt => unlearnt(job, says),
        Advice::NoOptions => (
            Tone::Plain,
            "Nothing to choose from yet.".to_owned(),
            vec![plain(
                "Say what could be fitted: another impeller by its two angles, a ring by its gap, a \
                 nozzle by its bore.",
            )],
        ),
        Advice::NoneTold => (
            Tone::Open,
            "None of these can be held against what is fitted.".to_owned(),
            vec![plain("Each option says below what it is lacking.")],
        ),
        Advice::NoLaunch => (
            Tone::Open,
            "Cannot say which pulls harder.".to_owned(),
            vec![plain(
                "How a craft leaves the line is ruled by where its suction breaks down, and only a \
                 logged start shows that. Log a start with the engine’s speed under Water test, or \
                 wish for top speed. What each option does at speed stands below.",
            )],
        ),
        advice => advised(job, says, advice),
    }
}

/// One is ahead, none is, or nobody can tell.
fn advised(job: &Job, says: &Says, advice: &Advice) -> (Tone, String, Vec<Run>) {
    let (mut detail, decides) = (Vec::new(), decides(advice));
    let (tone, headline) = match advice {
        Advice::Fit {
            option,
            chance,
            next,
            ..
        } => {
            detail.extend(does(job, says, option));
            let (next, theirs) = (who(job, next.0.as_ref()), say::chance(next.1));
            detail.push(plain(format!(
                "It is the best of these with a chance of {}; next comes {next}, {theirs}. ",
                say::chance(*chance)
            )));
            let tone = match says.learnt {
                Learnt::Well(_) => Tone::Good,
                _ => Tone::Open,
            };
            (tone, format!("Fit {}{}.", called(job, option), wish(says)))
        }
        Advice::Close { first, second, .. } => {
            let (one, other) = (who(job, first.0.as_ref()), who(job, second.0.as_ref()));
            if let Some(key) = &first.0 {
                detail.extend(does(job, says, key));
            }
            detail.push(plain(format!(
                "{} is the best of these with a chance of {}, {other} with {}. ",
                upper(&one),
                say::chance(first.1),
                say::chance(second.1)
            )));
            let headline = format!("Too close to call: {one} or {other}.");
            (Tone::Open, headline)
        }
        Advice::Stay { chance, next, .. } => {
            detail.push(plain(format!(
                "With a chance of {} no option gains{}. ",
                say::chance(*chance),
                wish(says)
            )));
            if let Some((key, chance)) = next {
                let (key, chance) = (called(job, key), say::chance(*chance));
                detail.push(plain(format!("Next comes {key}, {chance}. ")));
            }
            (Tone::Plain, "Leave what is fitted.".to_owned())
        }
        _ => (Tone::Plain, String::new()),
    };
    detail.extend(decides.map(|one| soft(say::decides(one))));
    (tone, headline, detail)
}

fn decides(advice: &Advice) -> Option<&Decides> {
    match advice {
        Advice::Fit { decides, .. }
        | Advice::Stay { decides, .. }
        | Advice::Close { decides, .. } => decides.as_ref(),
        _ => None,
    }
}

fn who(job: &Job, option: Option<&Key>) -> String {
    option.map_or_else(|| "what is fitted now".to_owned(), |key| called(job, key))
}

fn called(job: &Job, key: &Key) -> String {
    let state = job.choices.options.get(key);
    let name = state.map_or(key.as_str(), |state| state.fitting.value.name.as_str());
    format!("“{name}”")
}

/// What it is best at.
fn wish(says: &Says) -> &'static str {
    match says.want {
        Want::Pull => " for the hardest pull",
        Want::Speed => " for top speed",
        Want::Both if says.launches => " for pull and top speed alike",
        Want::Both => " for top speed (pull can’t be told yet)",
    }
}

fn does(job: &Job, says: &Says, key: &Key) -> Vec<Run> {
    let option = says.options.iter().find(|option| option.key == *key);
    let does: Option<&Does> = option.and_then(|option| option.does.as_ref().ok());
    let Some(does) = does else {
        return Vec::new();
    };
    let unit = unit(job);
    let mut told = vec![
        plain("Engine "),
        strong(say::change(&does.engine, Unit::Rpm)),
        plain(", top speed "),
        strong(say::change(&does.speed, unit)),
    ];
    if let Some(time) = &does.time {
        told.push(plain(format!(
            ", rest to {} ",
            water::chosen(says.to, unit)
        )));
        told.push(strong(say::change(time, Unit::Second)));
    }
    told.push(plain(". "));
    told
}

fn no_craft(says: &Says) -> (Tone, String, Vec<Run>) {
    let detail = match &says.setup {
        Err(NoCraft::Needs(needed)) => {
            let names: Vec<&str> = needed.iter().map(|one| say::needed(*one)).collect();
            format!("Still missing: {}.", names.join("; "))
        }
        Err(NoCraft::Refused(error)) => {
            format!(
                "What was said of it can’t be reckoned with: {}",
                say::error(error)
            )
        }
        _ => "Say what the craft is: the engine’s rating, the impeller and the nozzle it was run \
              with. The rest is assumed until somebody says it, and shown."
            .to_owned(),
    };
    (
        Tone::Plain,
        "The craft is not described yet.".to_owned(),
        vec![plain(detail)],
    )
}

fn unlearnt(job: &Job, says: &Says) -> (Tone, String, Vec<Run>) {
    let unit = unit(job);
    let off = match &says.learnt {
        Learnt::Poorly(Poor::TopEngine(off)) => format!(
            "The engine’s speed at full throttle is {} off what any such craft would turn. Was it \
             full throttle? Are angles and nozzle those of that run?",
            water::engine(*off)
        ),
        Learnt::Poorly(Poor::TopSpeed(off)) => format!(
            "The top speed is {} off what any such craft would reach.",
            water::speed(*off, unit)
        ),
        Learnt::Poorly(Poor::Way(off)) => format!(
            "While it gathers way the log and the best-fitting craft are {} apart, second by second.",
            water::speed(*off, unit)
        ),
        Learnt::Poorly(Poor::WayEngine(off)) => format!(
            "While it gathers way the engine’s speed is {} apart from the best-fitting craft’s.",
            water::engine(*off)
        ),
        Learnt::Poorly(Poor::Strained(of, _)) => format!(
            "To fit these runs, “{}” would have to be far from anything believable. Part throttle, \
             another impeller than the one described, or a rating of another engine would do that.",
            say::unknown(*of)
        ),
        Learnt::PartThrottle(share) => format!(
            "The engine turned {} of its rated speed. That is no full-throttle run, or the engine \
             is held back: limp mode, a limiter, a blocked intake. Runs at part throttle belong \
             under “Steady readings”.",
            say::percent(*share)
        ),
        Learnt::Refused(error) => format!("Why: {}", say::error(error)),
        Learnt::Well(_) | Learnt::Nothing => String::new(),
    };
    (
        Tone::Stop,
        "Cannot say: its runs and the reckoning do not agree.".to_owned(),
        vec![plain(off), plain(" Until they do, nothing is predicted.")],
    )
}
