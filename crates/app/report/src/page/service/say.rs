//! The words of the page Service.

use jiff::civil::Date;
use quantity::{Unit, number};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::upkeep::answer::{Band, Hours, Pace};
use workshop::upkeep::tasks::{Task, task};
use workshop::upkeep::{Carries, Edge, End, Mishap, PartKind, Rule};

use super::CAUTIONS;
use crate::words::{count, list};

pub(crate) fn end(end: End) -> &'static str {
    match end {
        End::Worn => "found worn out",
        End::Failed => "failed under way",
        End::Struck => "ruined by a strike",
        End::Good => "taken out still good",
    }
}

pub(crate) fn mishap(what: Mishap) -> &'static str {
    match what {
        Mishap::Strike => "a hard strike",
        Mishap::Sand => "sand drawn in",
        Mishap::Hot => "an engine run hot",
        Mishap::Thrust => "a loss of thrust",
        Mishap::Milky => "milky lubricant",
    }
}

/// What is done about a mishap, after the day of it.
pub(super) fn look(what: Mishap) -> &'static str {
    match what {
        Mishap::Strike => "look at ring, blades, vanes and shaft before it runs again",
        Mishap::Sand => "rinse it out, and look at gap and edges, before it runs again",
        Mishap::Hot => "let it cool, and look at cooling, hoses and lubricant before it runs again",
        Mishap::Thrust => "look at gap, blades and edges before it runs again",
        Mishap::Milky => "look at the housing’s seal and its lubricant before it runs again",
    }
}

pub(super) fn kind(kind: Option<PartKind>) -> &'static str {
    match kind {
        Some(PartKind::Ring) => "wear ring",
        Some(PartKind::Impeller) => "impeller",
        Some(PartKind::Seal) => "shaft seal",
        Some(PartKind::Bearing) => "bearing",
        Some(PartKind::Other) | None => "a part",
    }
}

/// The words of a water.
pub(super) fn water(carries: Carries) -> &'static str {
    match carries {
        Carries::Clean => "clean water",
        Carries::Silt => "silt",
        Carries::Sand => "sand",
    }
}

/// What a task is called: by its rule, by general practice, or by its key.
pub(crate) fn named(job: &Job, key: &Key) -> String {
    let own = job.upkeep.rules.get(key).map(|fact| &fact.value.name);
    match (own.filter(|name| !name.is_empty()), task(key.as_str())) {
        (Some(own), _) => own.clone(),
        (None, Some(task)) => task.name.to_owned(),
        (None, None) => key.to_string(),
    }
}

/// `every 50 h or 12 months, at once after a hard strike`
pub(crate) fn rule(rule: &Rule) -> String {
    let hours = rule.hours.as_ref().map(quantity::Entered::worded);
    let months = rule
        .months
        .map(|n| count(usize::from(n), "month", "months"));
    let every: Vec<String> = hours.into_iter().chain(months).collect();
    let mut told = Vec::new();
    if !every.is_empty() {
        told.push(format!("every {}", every.join(" or ")));
    }
    told.extend(rule.edge.map(|edge| match edge {
        Edge::Launch => "before the season begins".to_owned(),
        Edge::LayUp => "when the season is over".to_owned(),
    }));
    if !rule.after.is_empty() {
        let after = rule.after.iter().map(|what| mishap(*what).to_owned());
        let after: Vec<String> = after.collect();
        told.push(format!("at once after {}", list(&after, after.len())));
    }
    told.join(", ")
}

/// What can hurt at a task: its own, and what holds wherever a hand goes in.
pub(super) fn cautions(task: Option<&Task>) -> Vec<&'static str> {
    let own = task.map_or("", |task| task.caution);
    let hands = (!own.contains("lanyard off")).then_some(CAUTIONS[0]);
    let own = Some(own).filter(|own| !own.is_empty());
    own.into_iter().chain(hands).collect()
}

/// A name as it stands within a sentence: one of general practice begins small.
pub(super) fn within(key: &Key, name: &str) -> String {
    let mut letters = name.chars();
    match (task(key.as_str()), letters.next()) {
        (Some(task), Some(first)) if task.name == name => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => name.to_owned(),
    }
}

/// `14 June`, and the year where it is another.
pub(crate) fn day(day: Date, today: Date) -> String {
    let words = if day.year() == today.year() {
        "%-d\u{a0}%B"
    } else {
        "%-d\u{a0}%B\u{a0}%Y"
    };
    day.strftime(words).to_string()
}

/// `125 h`, and with a decimal where it is short.
pub(crate) fn hours(seconds: f64) -> String {
    let decimals = u32::from(Unit::Hour.from_si(seconds).abs() < FEW);
    let text = number(seconds, Unit::Hour, decimals);
    let text = text.strip_suffix(".0").unwrap_or(&text);
    format!("{text}\u{a0}h")
}

/// `62 h`
pub(super) fn whole_hours(seconds: f64) -> String {
    format!("{}\u{a0}h", number(seconds, Unit::Hour, 0))
}

/// Below so many hours a decimal is told.
const FEW: f64 = 9.5;

/// An age as nobody knows it better: `around 70 h`.
pub(crate) fn age(seconds: f64) -> String {
    format!("{}\u{a0}h", bare_age(seconds))
}

fn bare_age(seconds: f64) -> String {
    let hours = Unit::Hour.from_si(seconds);
    let step = match hours {
        few if few < 20.0 => 1.0,
        some if some < 200.0 => 5.0,
        many if many < 1000.0 => 10.0,
        _ => 100.0,
    };
    number((hours / step).round() * step, Unit::Metre, 0)
}

/// `50 to 100 h`
pub(super) fn ages(from: f64, to: f64) -> String {
    format!("{} to {}", bare_age(from), age(to))
}

/// `37 h from now at 6 h a week`
pub(super) fn ahead(hours: &Hours, until: f64) -> Option<String> {
    let left = until - hours.today;
    let (pace, _) = hours.pace.filter(|_| left > 0.0)?;
    Some(format!(
        "about {} from now at {}",
        self::hours(left),
        week(pace)
    ))
}

/// `6 h a week`, of seconds a day.
pub(super) fn week(pace: f64) -> String {
    format!("{} a week", hours(7.0 * pace)) // not a conversion: days of a week
}

pub(super) fn paced(pace: Pace) -> &'static str {
    match pace {
        Pace::Stated => "the pace as it was said",
        Pace::Learnt => "the pace learnt from the hour meter",
    }
}

/// `8 or 9 of 10`, `about half`, `hardly one in 20`
pub(crate) fn often(chance: f64) -> String {
    let tenths = 10.0 * chance; // not a conversion: cases out of ten
    let near = (tenths - tenths.round()).abs() <= QUARTER;
    match chance {
        never if never < 0.01 => "hardly one in 100".to_owned(),
        rare if rare < RARE => "hardly one in 20".to_owned(),
        sure if sure > 0.99 => "more than 99 of 100".to_owned(),
        most if most > 1.0 - RARE => "about 19 of 20".to_owned(),
        _ if near && whole(tenths) == "5" => "about half".to_owned(),
        _ if near => format!("about {} of 10", whole(tenths)),
        _ => format!(
            "{} or {} of 10",
            whole(tenths.floor()),
            whole(tenths.ceil())
        ),
    }
}

/// Nearer than this to a whole number of ten it is told as that.
const QUARTER: f64 = 0.25;
/// Rarer than this tenths say too much.
const RARE: f64 = 0.075;

fn whole(value: f64) -> String {
    number(value, Unit::Metre, 0)
}

/// The same of cases: `8 or 9 of 10 cases`
pub(crate) fn cases(chance: f64) -> String {
    match often(chance).as_str() {
        "about half" => "about half of all cases".to_owned(),
        rare if rare.starts_with("hardly one") => rare.replace("one", "one case"),
        often => format!("{often} cases"),
    }
}

/// `1.12 EUR`; above what a coin matters to, none are told.
pub(crate) fn money(value: f64, currency: &str) -> String {
    with(&bare_money(value), currency)
}

pub(super) fn bare_money(value: f64) -> String {
    number(value, Unit::Metre, if value.abs() < COINS { 2 } else { 0 })
}

/// Above this nobody counts coins.
const COINS: f64 = 20.0;

/// `0.95 to 1.40 EUR`
pub(crate) fn money_band(band: &Band, currency: &str) -> String {
    let [low, _, high] = *band;
    format!("{} to {}", bare_money(low), money(high, currency))
}

fn with(figure: &str, currency: &str) -> String {
    match currency {
        "" => figure.to_owned(),
        currency => format!("{figure}\u{a0}{currency}"),
    }
}

/// Said beside a price while nobody's time is paid.
pub(super) const OWN_TIME: &str = "your own time at nothing";
