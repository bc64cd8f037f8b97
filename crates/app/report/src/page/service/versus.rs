//! One sort held against another of its kind: which is cheaper by the hour, and how sure that is.

use workshop::entry::Key;
use workshop::job::Job;
use workshop::upkeep::Usage;
use workshop::upkeep::answer::{Answer as Says, Flip, PartSays, Versus};

use super::{View, say};
use crate::page::choose::say::chance;
use crate::page::{FactRow, Section, plain, row};

/// Under this chance neither is called cheaper. Chosen, no source.
const TELLS: f64 = 0.65;

fn part<'a>(says: &'a Says, key: &Key) -> Option<&'a PartSays> {
    says.parts.iter().find(|part| part.key == *key)
}

fn name(says: &Says, key: &Key) -> String {
    part(says, key).map_or_else(|| key.to_string(), |part| part.name.clone())
}

/// `about 1.12 against 1.45 EUR`
fn rates(one: &Versus, says: &Says, usage: &Usage) -> Option<String> {
    let costs = |key| part(says, key)?.costs.as_ref();
    let (cheaper, dearer) = (costs(&one.cheaper)?, costs(&one.dearer)?);
    let own = if cheaper.own_time || dearer.own_time {
        format!(", {}", say::OWN_TIME)
    } else {
        String::new()
    };
    Some(format!(
        "about {} against {}{own}",
        say::bare_money(cheaper.rate[1]),
        say::money(dearer.rate[1], &usage.currency)
    ))
}

/// Which is cheaper, in two sentences.
pub(super) fn told(one: &Versus, job: &Job, says: &Says) -> String {
    let usage = job.upkeep.usage();
    let (cheaper, dearer) = (name(says, &one.cheaper), name(says, &one.dearer));
    let rates = rates(one, says, &usage);
    let first = if one.chance < TELLS {
        let rates = rates.map_or_else(String::new, |rates| format!(": {rates}"));
        format!("By the hour it is undecided between {cheaper} and {dearer}{rates}.")
    } else {
        let rates = rates.map_or_else(String::new, |rates| format!(": {rates}"));
        format!(
            "{cheaper} is cheaper by the hour than {dearer}{rates}; {} that it really is.",
            chance(one.chance)
        )
    };
    let settles = one.settles.as_ref().map_or_else(String::new, |(key, ..)| {
        format!(
            " A season more with {} would settle it most.",
            name(says, key)
        )
    });
    format!("{first}{settles}")
}

/// Every pair, with what would settle it and what would turn it round.
pub(super) fn sections<'a>(view: &'a View<'a>) -> impl Iterator<Item = Section> + use<'a> {
    view.says.versus.iter().map(|one| Section::Facts {
        heading: format!(
            "{} or {}",
            name(view.says, &one.cheaper),
            name(view.says, &one.dearer)
        ),
        rows: rows(view, one),
    })
}

fn rows(view: &View<'_>, one: &Versus) -> Vec<FactRow> {
    let says = view.says;
    let usage = view.job.upkeep.usage();
    let (cheaper, dearer) = (name(says, &one.cheaper), name(says, &one.dearer));
    let mut rows = vec![row(
        "By the hour",
        vec![plain(format!(
            "{cheaper} is the cheaper one: {}",
            chance(one.chance)
        ))],
        rates(one, says, &usage).unwrap_or_default(),
    )];
    if let Some(kept) = one.kept {
        rows.push(row(
            "Over the hours it is kept",
            vec![plain(format!(
                "{cheaper} is the cheaper one: {}",
                chance(kept)
            ))],
            "the first one with its fitting among it",
        ));
    }
    if let Some((key, through, failed)) = &one.settles {
        rows.push(row(
            "What would settle it most",
            vec![plain(format!(
                "a season more with {}: {} if it gets through, {} if it does not",
                name(says, key),
                chance(*through),
                chance(*failed)
            ))],
            format!("chance that {cheaper} is cheaper, then"),
        ));
    }
    let flips: Vec<String> = one.flips.iter().map(|flip| turned(*flip, &usage)).collect();
    let (turns, whose) = if flips.is_empty() {
        ("nothing within reason".to_owned(), String::new())
    } else {
        (
            flips.join("; or "),
            format!("then {dearer} is the cheaper one"),
        )
    };
    rows.push(row("What would turn it round", vec![plain(turns)], whose));
    rows
}

fn turned(flip: Flip, usage: &Usage) -> String {
    let currency = usage.currency.as_str();
    let instead = |figure: Option<&quantity::Plain>| {
        figure.map_or_else(
            || "instead of nothing said".to_owned(),
            |said| format!("instead of {}", say::money(said.value, currency)),
        )
    };
    match flip {
        Flip::Wage(wage) => format!(
            "an hour of labour at {} {}",
            say::money(wage, currency),
            instead(usage.wage.as_ref())
        ),
        Flip::Failure(cost) => format!(
            "a failure that costs {} {}",
            say::money(cost, currency),
            instead(usage.failure.as_ref())
        ),
        Flip::Keep(hours) => {
            let less = usage.keep.as_ref().is_none_or(|keep| hours < keep.value);
            let only = if less { "only " } else { "" };
            format!("the craft kept for {only}{} more", say::age(hours))
        }
    }
}
