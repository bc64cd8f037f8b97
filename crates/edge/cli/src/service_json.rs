//! `service --json`: when to open the pump again, what lasts and what it costs, for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known is
//! null.

use jiff::civil::Date;
use quantity::Unit;
use report::page::flat;
use report::page::service::{View, page};
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::upkeep::{MISHAPS, POINTS, SORTS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::upkeep::answer::{
    Band, By, CostAt, Costs, Due, Flip, Hours, Lacks, Lasts, Pace, PartSays, Recheck, Says, Versus,
    When,
};
use workshop::upkeep::recheck::Point;

use crate::document::{lines, schema_of};

const VERSION: u32 = 1;

/// When to open the pump again, how long parts last and what they cost. Money is in the job's currency.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: Name,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job's id.
    job: String,
    /// The answer in one sentence.
    answer: String,
    /// What stands behind it.
    detail: String,
    /// The day it was asked, `2026-05-09`.
    today: String,
    /// What prices are in, as the person writes it.
    currency: String,
    /// The engine hours; null before the meter was read.
    meter: Option<Meter>,
    /// The recheck after the first hour.
    recheck: Checked,
    /// What falls due, the first first.
    due: Vec<Falls>,
    /// Tasks by name whose day nobody can tell yet.
    undated: Vec<String>,
    /// Hard strikes for an engine hour; null where nobody said or saw any.
    strikes_per_h: Option<f64>,
    /// Share of what is likely that a band holds.
    level: f64,
    /// The sorts of part, in the order they were named.
    parts: Vec<Sort>,
    /// The gap through the season ahead; null where it is not followed over visits that each found it wider.
    gap: Option<Gap>,
    /// Sorts of one kind held against each other.
    against: Vec<Against>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright service")]
    Service,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Meter {
    /// As read last.
    read_h: f64,
    /// The day of that.
    on: String,
    /// As it is thought to be today.
    today_h: f64,
    /// Engine hours for a day of the season; null where no pace is known.
    pace_h_per_day: Option<f64>,
    /// Where the pace is from: `stated` or `learnt`; null without one.
    pace: Option<&'static str>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Checked {
    /// Points nobody looked at.
    left: Vec<&'static str>,
    /// Points that were not as they should be.
    amiss: Vec<&'static str>,
    /// Points that were.
    well: Vec<&'static str>,
    /// Engine hours it is due at; null before the meter was read.
    due_h: Option<f64>,
    /// It is past that.
    overdue: bool,
    /// The day the job was closed; null while it is open.
    closed: Option<String>,
    /// Steps of the plan left off on purpose.
    left_off: usize,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Falls {
    /// Its key.
    task: String,
    /// What it is called.
    name: String,
    /// The first that comes.
    first: At,
    /// The others, in order.
    then: Vec<At>,
    /// It is past.
    overdue: bool,
    /// The day it was done last; null where it counts from this rebuild.
    last: Option<String>,
    /// How often it was done.
    cycle: usize,
    /// Whose figures: `stated`, `practice` or `reckoned`.
    says: &'static str,
    /// Where in the manual; null where that was not said.
    page: Option<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct At {
    /// Why then: `hours`, `months`, `strike`, `sand`, `hot`, `thrust`, `milky`, `launch`, `lay-up`, `gap`, `chance`,
    /// `cost`.
    by: &'static str,
    /// Engine hours, where these decide.
    engine_h: Option<f64>,
    /// The day; null where it cannot be told.
    on: Option<String>,
}

/// The band and its middle.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ends {
    low: f64,
    middle: f64,
    high: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Sort {
    /// Its key.
    key: String,
    /// What it is called.
    name: String,
    /// What it is; null where nobody said.
    kind: Option<&'static str>,
    /// The option under Choose that it goes with.
    option: Option<String>,
    /// What is missing before more can be said: `price`, `life`, `failure`, `season`.
    lacks: Vec<&'static str>,
    /// How long it lasts; null without a guess.
    lasts: Option<Life>,
    /// What it costs; null where something is missing.
    costs: Option<Money>,
    /// The piece in use; null where none is.
    in_use: Option<InUse>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Life {
    /// Engine hours by which one in ten are gone.
    tenth_gone_h: f64,
    /// By which half are.
    half_gone_h: f64,
    /// By which nine in ten are.
    nine_tenths_gone_h: f64,
    /// Chance that a new one gets through the season.
    season: Option<f64>,
    /// The same by the guess alone; null where no record counts.
    season_by_guess: Option<f64>,
    /// Records that count.
    records: usize,
    /// Records of other water that nobody said how to count.
    left_out: usize,
    /// Of those that end within the season, the share ended by a strike.
    struck: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Money {
    /// For an engine hour, at the cheapest age.
    rate_per_h: Ends,
    /// The cheapest age to replace; null where running it until it fails is as cheap.
    best_age_h: Option<f64>,
    /// From this age on it costs within 5 % of the least.
    flat_from_h: f64,
    /// Up to this one; null where running it until it fails is among them.
    flat_until_h: Option<f64>,
    /// For an engine hour, run until it fails.
    to_failure_per_h: f64,
    /// A planned replacement.
    planned: f64,
    /// One after a failure.
    failed: f64,
    /// In all for the hours the craft is still kept; null where nobody said how many.
    kept: Option<Ends>,
    /// The cheapest age over those hours; null where running it until it fails is, or no hours were said.
    kept_best_age_h: Option<f64>,
    /// The labour is one's own, at nothing.
    own_time: bool,
    /// What is lost while it is worn is counted.
    fade: bool,
    /// The cost over ages of replacement.
    curve: Vec<Spot>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Spot {
    age_h: f64,
    rate_per_h: Ends,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct InUse {
    /// Its key.
    piece: String,
    /// Its age today.
    age_h: f64,
    /// Chance that it gets through a season more.
    season: Option<f64>,
    /// The age up to which that chance is no less than what is wanted; null where none is.
    floor_age_h: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Gap {
    /// Visits since ring or impeller was renewed.
    visits: usize,
    /// What is left to the manual's limit.
    margin_m: f64,
    /// Chance that it stays within the limit to the end of a season from today.
    season: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Against {
    /// The one that is likely cheaper for an engine hour.
    cheaper: String,
    /// The other.
    dearer: String,
    /// Chance that it really is.
    chance: f64,
    /// The same over the hours the craft is still kept.
    chance_kept: Option<f64>,
    /// Whose season more would move that chance most.
    settles: Option<Settles>,
    /// Figures that would turn it round, each alone.
    turned_by: Vec<Turn>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Settles {
    /// The sort to run.
    sort: String,
    /// The chance, if its piece gets through.
    if_good: f64,
    /// The chance, if it does not.
    if_failed: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Turn {
    /// Which figure: `wage_per_h`, `failure` or `keep_h`.
    figure: &'static str,
    /// At which it turns.
    value: f64,
}

/// The document as text.
pub(crate) fn write(view: &View<'_>) -> String {
    let page = page(view);
    let says = view.says;
    lines(&Document {
        name: Name::Service,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        answer: page.answer.headline.clone(),
        detail: flat(&page.answer.detail),
        today: says.today.to_string(),
        currency: view.job.upkeep.usage().currency,
        meter: says.hours.as_ref().map(meter),
        recheck: checked(&says.recheck),
        due: says.due.iter().map(falls).collect(),
        undated: says.undated.clone(),
        strikes_per_h: says.strikes,
        level: 0.8,
        parts: says.parts.iter().map(sort).collect(),
        gap: says.gap.map(|gap| Gap {
            visits: gap.visits,
            margin_m: gap.margin,
            season: gap.season,
        }),
        against: says.versus.iter().map(against).collect(),
        open_items: view.objections.len(),
    })
}

/// Its schema as text.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn hours(seconds: f64) -> f64 {
    Unit::Hour.from_si(seconds)
}

fn day(on: Date) -> String {
    on.to_string()
}

fn ends([low, middle, high]: Band) -> Ends {
    Ends { low, middle, high }
}

fn meter(of: &Hours) -> Meter {
    Meter {
        read_h: hours(of.read),
        on: day(of.on),
        today_h: hours(of.today),
        pace_h_per_day: of.pace.map(|(pace, _)| hours(pace)),
        pace: of.pace.map(|(_, how)| match how {
            Pace::Stated => "stated",
            Pace::Learnt => "learnt",
        }),
    }
}

fn checked(of: &Recheck) -> Checked {
    let words = |points: &[Point]| points.iter().map(|point| word(&POINTS, *point)).collect();
    Checked {
        left: words(&of.left),
        amiss: words(&of.amiss),
        well: words(&of.well),
        due_h: of.due.map(hours),
        overdue: of.overdue,
        closed: of.closed.map(day),
        left_off: of.left_off,
    }
}

fn falls(due: &Due) -> Falls {
    let page = match &due.says {
        Says::Stated(page) if !page.is_empty() => Some(page.clone()),
        _ => None,
    };
    Falls {
        task: due.task.to_string(),
        name: due.name.clone(),
        first: at(&due.first),
        then: due.then.iter().map(at).collect(),
        overdue: due.overdue,
        last: due.last.map(|(on, _)| day(on)),
        cycle: due.cycle,
        says: match due.says {
            Says::Stated(_) => "stated",
            Says::Practice => "practice",
            Says::Reckoned => "reckoned",
        },
        page,
    }
}

fn at(when: &When) -> At {
    At {
        by: match &when.by {
            By::Hours(_) => "hours",
            By::Months(_) => "months",
            By::Mishap(what, _) => word(&MISHAPS, *what),
            By::Launch(_) => "launch",
            By::LayUp(_) => "lay-up",
            By::Gap(..) => "gap",
            By::Chance(_) => "chance",
            By::Cost(_) => "cost",
        },
        engine_h: when.hours.map(hours),
        on: when.on.map(day),
    }
}

fn sort(part: &PartSays) -> Sort {
    Sort {
        key: part.key.to_string(),
        name: part.name.clone(),
        kind: part.kind.map(|kind| word(&SORTS, kind)),
        option: part.option.as_ref().map(Key::to_string),
        lacks: part
            .lacks
            .iter()
            .map(|lacks| match lacks {
                Lacks::Price => "price",
                Lacks::Life => "life",
                Lacks::Failure => "failure",
                Lacks::Season => "season",
            })
            .collect(),
        lasts: part.lasts.as_ref().map(life),
        costs: part.costs.as_ref().map(money),
        in_use: part.in_use.as_ref().map(|piece| InUse {
            piece: piece.piece.to_string(),
            age_h: hours(piece.age),
            season: piece.season,
            floor_age_h: piece.floor.map(hours),
        }),
    }
}

fn life(lasts: &Lasts) -> Life {
    let [tenth, half, most] = lasts.gone.map(hours);
    Life {
        tenth_gone_h: tenth,
        half_gone_h: half,
        nine_tenths_gone_h: most,
        season: lasts.season,
        season_by_guess: lasts.guess,
        records: lasts.records,
        left_out: lasts.left_out,
        struck: lasts.struck,
    }
}

fn money(costs: &Costs) -> Money {
    let (from, until) = costs.flat;
    let (planned, failed) = costs.ends;
    Money {
        rate_per_h: ends(costs.rate),
        best_age_h: costs.best.map(hours),
        flat_from_h: hours(from),
        flat_until_h: until.map(hours),
        to_failure_per_h: costs.to_failure,
        planned,
        failed,
        kept: costs.kept.map(ends),
        kept_best_age_h: costs.until.map(hours),
        own_time: costs.own_time,
        fade: costs.fade,
        curve: costs.curve.iter().map(spot).collect(),
    }
}

fn spot(at: &CostAt) -> Spot {
    Spot {
        age_h: hours(at.age),
        rate_per_h: ends(at.rate),
    }
}

fn against(versus: &Versus) -> Against {
    let settles = versus.settles.as_ref();
    Against {
        cheaper: versus.cheaper.to_string(),
        dearer: versus.dearer.to_string(),
        chance: versus.chance,
        chance_kept: versus.kept,
        settles: settles.map(|(sort, if_good, if_failed)| Settles {
            sort: sort.to_string(),
            if_good: *if_good,
            if_failed: *if_failed,
        }),
        turned_by: versus.flips.iter().map(turn).collect(),
    }
}

fn turn(flip: &Flip) -> Turn {
    let (figure, value) = match flip {
        Flip::Wage(wage) => ("wage_per_h", *wage),
        Flip::Failure(failure) => ("failure", *failure),
        Flip::Keep(keep) => ("keep_h", hours(*keep)),
    };
    Turn { figure, value }
}
