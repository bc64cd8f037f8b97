//! The answer: what comes first and when, what lasts, which is cheaper.

use workshop::job::Job;
use workshop::upkeep::answer::{Answer as Says, By, Due, Hours, Says as Whose};
use workshop::upkeep::recheck::Point;

use super::{View, due, part, recheck, say, versus};
use crate::page::{Answer, Run, Tone, plain, strong};
use crate::words::{self, upper};

/// Tasks that the pump is opened for.
const OPENS: [&str; 3] = ["gap", "strike", "splines"];
/// Names told in a row.
const NAMED: usize = 3;
/// Sorts of part whose life is told in the answer.
const LIVES: usize = 1;

pub(super) fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, detail) = told(view.job, view.says);
    Answer {
        tone,
        headline,
        detail,
        origin: origin(view.says),
    }
}

/// Where service stands, in a few words.
pub(super) fn state(view: &View<'_>) -> String {
    let says = view.says;
    if due::called(says).next().is_some() {
        return "look at it first".to_owned();
    }
    if !recheck::done(says) || says.recheck.closed.is_none() {
        return super::stage(view.job);
    }
    match due::leading(says) {
        Some(due) if due.overdue && due::renews(due) => "a part to renew".to_owned(),
        Some(due) if due.overdue => "overdue".to_owned(),
        Some(due) => due::at(&due.first, says.today),
        None => "nothing falls due".to_owned(),
    }
}

pub(super) fn told(job: &Job, says: &Says) -> (Tone, String, Vec<Run>) {
    let mut detail = Vec::new();
    let (tone, headline) = first(says, &mut detail);
    // What must be looked at stands alone.
    if tone != Tone::Stop {
        detail.extend(lives(job, says));
        let cheaper = says.versus.iter().take(1);
        detail.extend(cheaper.map(|one| plain(format!("{} ", versus::told(one, job, says)))));
        detail.extend(missing(job, says));
    }
    (tone, headline, detail)
}

/// What comes first: a mishap, the recheck, what is overdue, what is next.
fn first(says: &Says, detail: &mut Vec<Run>) -> (Tone, String) {
    if let Some(first) = mishaps(says, detail) {
        return (Tone::Stop, first);
    }
    let recheck = &says.recheck;
    if !recheck::done(says) {
        let told = rechecked(says, detail);
        detail.extend(ahead(says).map(|next| plain(format!("After it: {next} "))));
        return told;
    }
    if recheck.closed.is_none() {
        detail.extend(ahead(says).map(|next| plain(format!("{next} "))));
        return (
            Tone::Open,
            "All nine points of the recheck are as they should be: the job can be closed."
                .to_owned(),
        );
    }
    let Some(first) = due::leading(says) else {
        return (
            Tone::Plain,
            "When it is opened again cannot be told yet.".to_owned(),
        );
    };
    if first.overdue && due::renews(first) {
        (Tone::Open, past(first))
    } else if first.overdue {
        overdue(says, first, detail)
    } else {
        detail.extend(pace(says, first));
        detail.extend(along(says, first));
        (Tone::Good, next(first, says))
    }
}

/// What happened and was not looked into.
fn mishaps(says: &Says, detail: &mut Vec<Run>) -> Option<String> {
    let (_, what, on) = due::called(says).next()?;
    let headline = format!(
        "{} on {}: {}.",
        upper(say::mishap(what)),
        say::day(on, says.today),
        say::look(what)
    );
    let tasks: Vec<String> = due::called(says)
        .map(|(due, ..)| due::within(due))
        .collect();
    detail.push(strong(format!("It calls for: {}. ", tasks.join("; "))));
    if !recheck::done(says) {
        detail.push(plain(format!(
            "The recheck after the first hour is open too: {} left. ",
            points(says.recheck.left.len() + says.recheck.amiss.len())
        )));
    }
    Some(headline)
}

fn points(n: usize) -> String {
    format!("{n} of {} points", Point::ALL.len())
}

fn rechecked(says: &Says, detail: &mut Vec<Run>) -> (Tone, String) {
    let recheck = &says.recheck;
    let left = match recheck.left.len() {
        all if all == Point::ALL.len() => format!("{all} points, none looked at yet"),
        left => format!("{} left", points(left)),
    };
    if !recheck.amiss.is_empty() {
        let names = recheck.amiss.iter();
        let names: Vec<String> = names.map(|point| lower(point.name())).collect();
        for point in &recheck.amiss {
            detail.push(strong(format!("{}: ", point.name())));
            detail.push(plain(format!("{} ", point.amiss())));
        }
        if !recheck.left.is_empty() {
            detail.push(plain(format!("{}. ", upper(&left))));
        }
        let names = words::list(&names, NAMED);
        return (
            Tone::Stop,
            format!("Recheck after the first hour: amiss at {names}."),
        );
    }
    if recheck.left.len() == Point::ALL.len() && recheck.due.is_none() {
        detail.push(plain(
            "It comes when the craft has run for an hour on the water, and closes the job. ",
        ));
    }
    if let Some(due) = recheck.due {
        let now = says.hours.as_ref().map(|hours| hours.today);
        let now = now.filter(|_| recheck.overdue);
        let now = now.map_or_else(String::new, |now| {
            format!("; the meter stands at about {}", say::hours(now))
        });
        detail.push(plain(format!("It falls due at {}{now}. ", say::hours(due))));
    }
    if recheck.overdue {
        (Tone::Stop, format!("Recheck overdue: {left}."))
    } else {
        (Tone::Open, format!("Recheck after the first hour: {left}."))
    }
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

/// A part past the age it is to be renewed at.
fn past(due: &Due) -> String {
    let why = match due.first.by {
        By::Cost(_) => "it is past the age at which that is cheapest",
        _ => "it gets through a season more less often than you accept",
    };
    format!("Renew {}: {why}.", due.name)
}

fn overdue(says: &Says, first: &Due, detail: &mut Vec<Run>) -> (Tone, String) {
    let since = due::since(first, says.today);
    let others = says.due.iter();
    let others = others.filter(|due| due.overdue && due.task != first.task && !due::renews(due));
    let others: Vec<String> = others.map(due::within).collect();
    if let Some(hours) = says.hours.as_ref().filter(|_| first.first.hours.is_some()) {
        detail.push(plain(format!(
            "The meter stands at about {} today. ",
            say::hours(hours.today)
        )));
    }
    if !others.is_empty() {
        detail.push(plain(format!("Overdue too: {}. ", others.join("; "))));
    }
    (
        Tone::Open,
        format!("Overdue {since}: {}.", due::within(first)),
    )
}

/// `Open it by 14 June, or at 125 h, whichever comes first: gap by leaf, blades and edges.`
fn next(first: &Due, says: &Says) -> String {
    let when = due::first(first, says.today);
    if OPENS.contains(&first.task.as_str()) {
        format!("Open it {when}: {}.", due::within(first))
    } else {
        format!("Next, {when}: {}.", due::within(first))
    }
}

/// What comes next of what is not called for by a mishap.
pub(crate) fn ahead(says: &Says) -> Option<String> {
    let first = due::leading(says)?;
    Some(if first.overdue && due::renews(first) {
        past(first)
    } else if first.overdue {
        format!(
            "Overdue {}: {}.",
            due::since(first, says.today),
            due::within(first)
        )
    } else {
        next(first, says)
    })
}

/// `About 37 h from now at 6 h a week.`
fn pace(says: &Says, first: &Due) -> Option<Run> {
    let hours: &Hours = says.hours.as_ref()?;
    let mut whens = std::iter::once(&first.first).chain(&first.then);
    let until = whens.find_map(|when| when.hours)?;
    let ahead = say::ahead(hours, until)?;
    Some(plain(format!("{}. ", upper(&ahead))))
}

/// What may be done with it: it falls due on the same day, or at the same hours.
fn along(says: &Says, first: &Due) -> Option<Run> {
    let same = |due: &&Due| {
        let (a, b) = (&due.first, &first.first);
        a.hours.is_some() && a.hours == b.hours || a.on.is_some() && a.on == b.on
    };
    let others = says.due.iter().filter(|due| due.task != first.task);
    let names: Vec<String> = others.filter(same).map(due::within).collect();
    (!names.is_empty()).then(|| plain(format!("With it: {}. ", words::list(&names, NAMED))))
}

/// How long the parts last: those fitted first.
fn lives(job: &Job, says: &Says) -> impl Iterator<Item = Run> {
    let usage = job.upkeep.usage();
    let season = usage.season.as_ref().map(|season| season.value);
    let mut parts: Vec<_> = says.parts.iter().collect();
    parts.sort_by_key(|part| part.in_use.is_none());
    let told = parts
        .into_iter()
        .filter_map(move |part| part::season(part, season));
    told.take(LIVES).map(|told| plain(format!("{told} ")))
}

/// What nobody said that would tell more, with where it is said.
fn missing(job: &Job, says: &Says) -> Vec<Run> {
    let mut missing = Vec::new();
    match &says.hours {
        None => missing.push(
            "The hour meter was not read: read it below, and what goes by hours gets its place.",
        ),
        Some(hours) if hours.pace.is_none() => missing.push(
            "No day can be told for what goes by hours: say the hours of a week under “How the craft is \
             used”, or read the meter again in a few weeks.",
        ),
        Some(_) => {}
    }
    if job.upkeep.parts.is_empty() {
        missing.push(
            "What lasts, and what it costs, is told as soon as a sort of part is described below.",
        );
    }
    missing
        .into_iter()
        .map(|words| plain(format!("{words} ")))
        .collect()
}

fn origin(says: &Says) -> String {
    let mut from = Vec::new();
    let stated = |due: &&Due| matches!(due.says, Whose::Stated(_));
    let n = says.due.iter().filter(stated).count();
    if !says.due.is_empty() {
        from.push(match n {
            0 => "Intervals: general practice; the craft’s manual wins".to_owned(),
            n if n == says.due.len() => "Intervals as stated from the craft’s manual".to_owned(),
            _ => "Intervals as stated from the craft’s manual, else general practice".to_owned(),
        });
    }
    if let Some(hours) = &says.hours {
        let read = format!(
            "meter read at {} on {}",
            say::hours(hours.read),
            say::day(hours.on, says.today)
        );
        from.push(match hours.pace {
            Some((_, pace)) => format!("{read}, {}", say::paced(pace)),
            None => read,
        });
    }
    if says.parts.iter().any(|part| part.lasts.is_some()) {
        from.push(part::grounds(says));
    }
    from.join(" · ")
}
