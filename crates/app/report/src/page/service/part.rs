//! The sorts of part: how long each lasts, what it costs, the pieces told of.

use workshop::upkeep::answer::{Answer as Says, Costs, InUse, Lacks, Lasts, PartSays};
use workshop::upkeep::{Piece, Usage};

use super::{View, say};
use crate::page::forms::service as forms;
use crate::page::{Card, FactRow, FormName, Run, Section, Tone, plain, row, soft, strong};
use crate::words::count;

/// The shares that `Lasts::gone` tells, in words.
const GONE: [&str; 3] = ["one in ten", "half", "nine in ten"];

/// `Plastic ring: a new one gets through a season of 50 h in 8 or 9 of 10 cases; …`
pub(super) fn season(part: &PartSays, season: Option<f64>) -> Option<String> {
    let (lasts, season) = (part.lasts.as_ref()?, season?);
    let new = format!(
        "a new one gets through a season of {} in {}",
        say::hours(season),
        say::cases(lasts.season?)
    );
    let fitted = part.in_use.as_ref();
    let fitted = fitted.and_then(|one| Some((one.age, one.season?)));
    let fitted = fitted.map_or_else(String::new, |(age, chance)| {
        format!(
            "; this one, with {} on it, in {}",
            say::hours(age),
            say::often(chance)
        )
    });
    Some(format!("{}: {new}{fitted}.", part.name))
}

/// `lives: a guess, moved by 3 of your own`
pub(super) fn grounds(says: &Says) -> String {
    let lasts = says.parts.iter().filter_map(|part| part.lasts.as_ref());
    let records: usize = lasts.map(|lasts| lasts.records).sum();
    format!("Lives: {}", guess(records))
}

fn guess(records: usize) -> String {
    match records {
        0 => "a guess".to_owned(),
        n => format!("a guess, moved by {n} of your own"),
    }
}

/// A card a sort, in the order they were named.
pub(super) fn cards<'a>(view: &'a View<'a>) -> impl Iterator<Item = Section> + use<'a> {
    view.says
        .parts
        .iter()
        .map(|part| Section::Card(card(view, part)))
}

fn card(view: &View<'_>, part: &PartSays) -> Card {
    let usage = view.job.upkeep.usage();
    let mut rows = Vec::new();
    if let Some(lasts) = &part.lasts {
        rows.extend(lasting(lasts, &usage));
    }
    rows.extend(part.in_use.iter().flat_map(in_use));
    if let Some(costs) = &part.costs {
        rows.extend(costing(costs, &usage));
    }
    rows.extend(part.lacks.iter().map(|lack| lacking(*lack)));
    let pieces: Vec<_> = view
        .job
        .upkeep
        .pieces_in_order()
        .into_iter()
        .filter(|(_, piece)| piece.part == part.key)
        .collect();
    rows.extend(pieces.iter().map(|(_, piece)| told(piece)));
    let said = view.job.upkeep.parts.get(&part.key);
    let said = said.map(|state| (&part.key, &state.said.value));
    let mut added = vec![forms::piece((&part.key, None), view.refused)];
    added.extend(pieces.iter().map(|(key, piece)| {
        let mut form = forms::piece((&part.key, Some((*key, *piece))), view.refused);
        form.heading = format!("Change the piece fitted at {}", piece.fitted.worded());
        form
    }));
    added.extend(said.map(|had| forms::sort(Some(had), view.job, view.refused, false)));
    Card {
        heading: part.name.clone(),
        tone: if part.lacks.is_empty() {
            Tone::Plain
        } else {
            Tone::Open
        },
        state: say::kind(part.kind).to_owned(),
        rows,
        notes: Vec::new(),
        forms: added,
    }
}

/// `half by 110 h`
fn lasting(lasts: &Lasts, usage: &Usage) -> Vec<FactRow> {
    let [tenth, half, most] = lasts.gone;
    let mut rows = vec![row(
        "It lasts",
        vec![
            strong(format!("{} are gone by {}", GONE[1], say::age(half))),
            plain(format!(
                "; {} by {}, {} by {}",
                GONE[0],
                say::age(tenth),
                GONE[2],
                say::age(most)
            )),
        ],
        guess(lasts.records),
    )];
    if let (Some(chance), Some(season)) = (lasts.season, &usage.season) {
        let alone = lasts.guess.filter(|_| lasts.records > 0);
        let alone = alone.map_or_else(String::new, |guess| {
            format!("by the guess alone {}", say::often(guess))
        });
        rows.push(row(
            format!("A season of {}", say::hours(season.value)),
            vec![plain(format!(
                "a new one gets through it in {}",
                say::cases(chance)
            ))],
            alone,
        ));
    }
    if let Some(struck) = lasts.struck {
        rows.push(row(
            "Struck",
            vec![plain(format!(
                "of those that end within the season, {} by a strike",
                say::often(struck)
            ))],
            "",
        ));
    }
    if lasts.left_out > 0 {
        let mut left = row(
            "Left out",
            vec![plain(format!(
                "{} of other water",
                count(lasts.left_out, "piece", "pieces")
            ))],
            "say how much an hour there counts",
        );
        left.said_in = Some((FormName::Usage, "silt"));
        rows.push(left);
    }
    rows
}

fn in_use(fitted: &InUse) -> Vec<FactRow> {
    let mut value = vec![strong(format!("{} on it", say::hours(fitted.age)))];
    if let Some(chance) = fitted.season {
        value.push(plain(format!(
            "; a whole season more in {}",
            say::cases(chance)
        )));
    }
    let mut rows = vec![row("The one fitted", value, "")];
    if let Some(floor) = fitted.floor {
        rows.push(row(
            "As sure as you want it",
            vec![plain(format!("up to {} on it", say::whole_hours(floor)))],
            "beyond that fewer get through a season more than you accept",
        ));
    }
    rows
}

/// `cheapest to replace around 70 h; anywhere from 50 to 100 h costs within 5 %`
pub(super) fn region(costs: &Costs) -> String {
    let (from, to) = costs.flat;
    let within = match to {
        Some(to) => format!(
            "anywhere from {} costs within 5\u{a0}%",
            say::ages(from, to)
        ),
        None => format!(
            "any age from {} on, or running it until it is worn out, costs within 5\u{a0}%",
            say::age(from)
        ),
    };
    match costs.best {
        Some(best) => format!("cheapest to replace around {}; {within}", say::age(best)),
        None => format!("cheapest to run until it is worn out; {within}"),
    }
}

fn costing(costs: &Costs, usage: &Usage) -> Vec<FactRow> {
    let currency = usage.currency.as_str();
    let own = if costs.own_time { say::OWN_TIME } else { "" };
    let join = |first: &str| match (first, own) {
        (first, "") => first.to_owned(),
        ("", own) => own.to_owned(),
        (first, own) => format!("{first}; {own}"),
    };
    let (planned, failed) = costs.ends;
    let fade = if costs.fade {
        "what is lost while it is worn is counted"
    } else {
        ""
    };
    let mut rate: Vec<Run> = vec![
        strong(say::money(costs.rate[1], currency)),
        soft(format!(" ({})", say::money_band(&costs.rate, currency))),
    ];
    if costs.best.is_some() {
        rate.push(plain(format!(
            "; run until it fails {}",
            say::money(costs.to_failure, currency)
        )));
    }
    let mut rows = vec![
        row("When to replace", vec![plain(region(costs))], fade),
        row("An hour costs", rate, join("80\u{a0}% band in brackets")),
        row(
            "A replacement costs",
            vec![plain(format!(
                "{} planned, {} after a failure",
                say::money(planned, currency),
                say::money(failed, currency)
            ))],
            own,
        ),
    ];
    if let (Some(kept), Some(keep)) = (&costs.kept, &usage.keep) {
        rows.push(row(
            format!("Over the {} it is kept", say::hours(keep.value)),
            vec![
                strong(say::money(kept[1], currency)),
                soft(format!(" ({})", say::money_band(kept, currency))),
            ],
            join("the first one with its fitting among it"),
        ));
    }
    if currency.is_empty() {
        let mut unsaid = row("Money in", vec![soft("not said")], "say it");
        unsaid.said_in = Some((FormName::Usage, "currency"));
        rows.push(unsaid);
    }
    rows
}

/// What is missing, with the field that fills it.
fn lacking(lack: Lacks) -> FactRow {
    let (name, words, field) = match lack {
        Lacks::Price => (
            "Missing: its price",
            "under “Change what is said of it”",
            None,
        ),
        Lacks::Life => (
            "Missing: how long it lasts",
            "the hours by which one in ten and half are worn out, under “Change what is said of it”",
            None,
        ),
        Lacks::Failure => (
            "Missing: what a failure costs",
            "under “How the craft is used”",
            Some("failure"),
        ),
        Lacks::Season => (
            "Missing: the hours of a season",
            "under “How the craft is used”",
            Some("season"),
        ),
    };
    let said_in = field.map(|field| (FormName::Usage, field));
    let origin = if said_in.is_some() { "say it" } else { "" };
    FactRow {
        said_in,
        ..row(name, vec![soft(words)], origin)
    }
}

/// A piece as it was told.
fn told(piece: &Piece) -> FactRow {
    let end = piece.end.as_ref().map_or_else(
        || "in use".to_owned(),
        |(end, hours)| format!("{} at {}", say::end(*end), hours.worded()),
    );
    let good = piece.good.as_ref().map_or_else(String::new, |good| {
        format!(", last seen good at {}", good.worded())
    });
    let mut more = Vec::new();
    if piece.elsewhere {
        more.push("of another craft".to_owned());
    }
    more.extend(piece.water.map(|water| say::water(water).to_owned()));
    if !piece.note.is_empty() {
        more.push(piece.note.clone());
    }
    row(
        format!("Fitted at {}", piece.fitted.worded()),
        vec![plain(format!("{end}{good}"))],
        more.join(", "),
    )
}
