//! The answer in a sentence, with its number, its interval, its limit and its reason.

use std::collections::BTreeSet;

use clearance::{Conformity, Estimate};
use workshop::gap::{Across, Doubt, Gap, Judgement, Mark, Reading, Side, Standing};
use workshop::job::{Limits, Measure, Spot, blade_name};

use super::{View, unit, why};
use crate::page::{Answer, Run, Tone, plain, soft, strong};
use crate::words;

pub(super) fn answer(view: &View<'_>, judgement: &Judgement) -> Answer {
    let tone = match judgement.standing {
        Standing::In => Tone::Good,
        Standing::Out(_) => Tone::Stop,
        Standing::Undecided(Doubt::NoLimits | Doubt::NothingAsked | Doubt::NoReadings) => {
            Tone::Plain
        }
        Standing::Undecided(_) => Tone::Open,
    };
    let mut detail = detail(view, judgement);
    let why = judgement.why.as_ref();
    detail.extend(why.and_then(|why| why::sentence(view, why)).map(plain));
    Answer {
        tone,
        headline: headline(view, judgement),
        detail,
        origin: origin(view, judgement),
    }
}

fn headline(view: &View<'_>, judgement: &Judgement) -> String {
    let spots = |count: usize| words::count(count, "spot", "spots");
    match judgement.standing {
        Standing::In => within(view).to_owned(),
        Standing::Out(side) => out(view, judgement, side),
        Standing::Undecided(doubt) => match doubt {
            Doubt::NothingAsked => "Measured; nothing is left to judge.".to_owned(),
            Doubt::NoReadings => "No leaf tried yet.".to_owned(),
            Doubt::NoLimits => "Measured; no limit to hold it against.".to_owned(),
            Doubt::Contradiction(n) => {
                format!("The readings contradict each other at {}.", spots(n))
            }
            Doubt::Unread(n) => format!("Not decided yet: {} still to read.", spots(n)),
            Doubt::OneSided(n) => format!("Not decided: a leaf is missing at {}.", spots(n)),
            Doubt::NoUpperEnd => "Every leaf goes: how wide the gap is cannot be said.".to_owned(),
            Doubt::TooClose => "Too close to the limit to call.".to_owned(),
        },
    }
}

const ALL_ROUND: &str = "In tolerance all round.";

/// Only what was judged: a limit that is not stated is not kept.
fn within(view: &View<'_>) -> &'static str {
    let limits = view.job.limits.as_ref().map(|fact| &fact.value);
    let stated = limits.map_or((false, false), |l| {
        (l.least.is_some(), l.greatest.is_some())
    });
    match stated {
        (true, false) => {
            "Nowhere too tight. No greatest figure is stated, so too wide was not judged."
        }
        (false, true) => {
            "Nowhere too wide. No least figure is stated, so too tight was not judged."
        }
        _ => ALL_ROUND,
    }
}

/// Which limit is broken, and where round the clock.
fn out(view: &View<'_>, judgement: &Judgement, side: Side) -> String {
    let worst = |wide: bool| match (&judgement.gap, judgement.beyond) {
        (Some(gap), _) if wide => view.job.clock(gap.widest),
        (Some(gap), _) => view.job.clock(gap.tightest),
        (None, beyond) => beyond.map_or_else(String::new, |(spot, _)| view.job.clock(spot)),
    };
    match side {
        Side::Both => format!(
            "Too tight at {} and too wide at {}.",
            worst(false),
            worst(true)
        ),
        Side::Tight => format!("Too tight {}.", place(view, judgement, &worst(false))),
        Side::Wide => format!("Too wide {}.", place(view, judgement, &worst(true))),
    }
}

/// `at 6`, `at 4:30 and 6`, `all round`: the positions where a spot is beyond the limit.
fn place(view: &View<'_>, judgement: &Judgement, worst: &str) -> String {
    let beyond = judgement
        .marks
        .iter()
        .filter(|(_, mark)| **mark == Mark::Out);
    let positions: BTreeSet<u8> = beyond.map(|(spot, _)| spot.position).collect();
    let all = judgement.gap.as_ref().map_or(0, |gap| gap.positions.len());
    let clocks: Vec<String> = positions
        .iter()
        .map(|position| {
            view.job.clock(Spot {
                blade: 0,
                position: *position,
            })
        })
        .collect();
    match clocks.len() {
        0 => format!("at {worst}"),
        n if n == all => "all round".to_owned(),
        n if n > 3 => format!("at {n} of {all} clock positions"),
        n => format!("at {}", words::list(&clocks, n)),
    }
}

fn detail(view: &View<'_>, judgement: &Judgement) -> Vec<Run> {
    let Some(gap) = &judgement.gap else {
        return without_numbers(view, judgement);
    };
    let wide = matches!(judgement.standing, Standing::Out(Side::Wide));
    let mut runs = match (&gap.across, wide) {
        (Some(across), true) => together(view, across.greatest),
        (Some(across), false) => together(view, across.least),
        (None, true) => figure(view, "The greatest gap is", &gap.greatest.estimate()),
        (None, false) => figure(view, "The least gap is", &gap.least.estimate()),
    };
    runs.extend(against(view, judgement));
    if let Some(across) = &gap.across {
        runs.extend(other_pair(view, across, wide));
        runs.extend(way_out(view, judgement, gap).map(|way_out| plain(format!(" {way_out}"))));
        return runs;
    }
    runs.push(plain(if wide {
        " The least is "
    } else {
        " The greatest is "
    }));
    let rest = if wide { &gap.least } else { &gap.greatest };
    runs.push(plain(words::length(rest.value, unit(view))));
    runs.push(plain(format!(
        ", the mean {}.",
        words::length(gap.mean.value, unit(view))
    )));
    if let Some(way_out) = way_out(view, judgement, gap) {
        runs.push(plain(format!(" {way_out}")));
    }
    runs
}

fn without_numbers(view: &View<'_>, judgement: &Judgement) -> Vec<Run> {
    let no_upper_end =
        "A leaf that won’t go, or two together written as one, gives the gap its upper end.";
    let words = match judgement.standing {
        Standing::Out(_) => {
            let leaf = judgement.beyond.map_or(0.0, |(_, leaf)| leaf);
            let mut runs = vec![
                plain("The "),
                strong(format!("{}\u{a0}{}", words::short(leaf, unit(view)), unit(view).symbol())),
                plain(" leaf goes there"),
            ];
            runs.extend(against(view, judgement));
            runs.push(plain(format!(" How wide it is cannot be said yet. {no_upper_end}")));
            return runs;
        }
        Standing::Undecided(Doubt::Unread(_) | Doubt::NoUpperEnd) => {
            format!("Every leaf tried so far goes. {no_upper_end}")
        }
        Standing::Undecided(Doubt::Contradiction(_)) => {
            "A thicker leaf goes where a thinner one won’t. Wipe leaf and ring, then try both again."
                .to_owned()
        }
        _ => "Lead the leaf in gently; the answer builds up from the first one.".to_owned(),
    };
    vec![plain(words)]
}

fn figure(view: &View<'_>, name: &str, figure: &Estimate) -> Vec<Run> {
    let unit = unit(view);
    vec![
        plain(format!("{name} about ")),
        strong(words::length(figure.median, unit)),
        soft(format!(" ({})", words::sure(figure, unit))),
    ]
}

/// One blade at opposite positions: what a diametral figure asks for.
fn together(view: &View<'_>, (spot, sum): (Spot, Estimate)) -> Vec<Run> {
    let name = format!("{}: the two gaps together are", pair(view, spot));
    figure(view, &name, &sum)
}

/// `Across 12 and 6, blade A`
fn pair(view: &View<'_>, spot: Spot) -> String {
    let half = view
        .job
        .pump
        .as_ref()
        .map_or(0, |pump| pump.value.positions / 2);
    let opposite = Spot {
        position: spot.position + half,
        ..spot
    };
    format!(
        "Across {} and {}, blade {}",
        view.job.clock(spot),
        view.job.clock(opposite),
        blade_name(spot.blade)
    )
}

/// The other end of the range of pairs, and what a pair is.
fn other_pair(view: &View<'_>, across: &Across, wide: bool) -> Vec<Run> {
    let (name, (spot, sum)) = if wide {
        ("least", across.least)
    } else {
        ("greatest", across.greatest)
    };
    vec![plain(format!(
        " The {name} is {}, {}. Each pair is one blade turned to opposite sides; the numbers on \
         the ring are one side each.",
        words::length(sum.median, unit(view)),
        pair(view, spot).replacen("Across", "across", 1),
    ))]
}

/// What the manual asks for and the probability of meeting it.
fn against(view: &View<'_>, judgement: &Judgement) -> Vec<Run> {
    let Some(limits) = view.job.limits.as_ref().map(|fact| &fact.value) else {
        return vec![plain(".")];
    };
    let mut runs = vec![plain(format!("; the manual asks for {}", asked(limits)))];
    runs.push(plain(match &judgement.conformity {
        Some(conformity) if judgement.standing == Standing::In && within(view) != ALL_ROUND => {
            format!(", and that is met ({}).", words::percent(conformity.within))
        }
        Some(conformity) => probability(judgement, conformity),
        None if judgement.beyond.is_some() => ", so it is out of tolerance.".to_owned(),
        None => ".".to_owned(),
    }));
    if limits.rub_in {
        runs.push(plain(
            " It permits a new ring to rub itself in, so too tight is not held against it.",
        ));
    }
    runs
}

fn probability(judgement: &Judgement, conformity: &Conformity) -> String {
    let all_read = !matches!(
        judgement.standing,
        Standing::Undecided(Doubt::Unread(_) | Doubt::Contradiction(_))
    );
    let among = if all_read {
        ""
    } else {
        " as far as it is read"
    };
    match judgement.standing {
        Standing::Out(_) => {
            format!(
                ", so it is out of tolerance ({}).",
                words::percent(1.0 - conformity.within)
            )
        }
        Standing::In => {
            format!(
                ", so it is in tolerance ({}).",
                words::percent(conformity.within)
            )
        }
        Standing::Undecided(_) => {
            format!(
                ". It is in tolerance{among} with {}.",
                words::percent(conformity.within)
            )
        }
    }
}

/// `12 to 16 thou, radial`
pub(crate) fn asked(limits: &Limits) -> String {
    let measure = match limits.measure {
        Measure::Radial => "radial",
        Measure::Diametral => "diametral",
    };
    let figures = match (&limits.least, &limits.greatest) {
        (Some(least), Some(greatest)) => {
            if least.unit == greatest.unit {
                format!(
                    "{} to {}",
                    words::short(least.value, least.unit),
                    greatest.worded()
                )
            } else {
                format!("{} to {}", least.worded(), greatest.worded())
            }
        }
        (Some(least), None) => format!("at least {}", least.worded()),
        (None, Some(greatest)) => format!("at most {}", greatest.worded()),
        (None, None) => "nothing".to_owned(),
    };
    format!("{figures}, {measure}")
}

/// What would decide it.
fn way_out(view: &View<'_>, judgement: &Judgement, gap: &Gap) -> Option<String> {
    match judgement.standing {
        Standing::Undecided(Doubt::TooClose) => {
            let conformity = judgement.conformity.as_ref()?;
            let at = if conformity.too_tight > conformity.too_wide {
                gap.tightest
            } else {
                gap.widest
            };
            Some(if leaf_between(view, judgement, at) {
                format!(
                    "A leaf between the two tried at {} would decide it.",
                    view.job.clock(at)
                )
            } else {
                format!(
                    "No leaf you have lies between the two tried at {}: two thinner leaves \
                     together, or a finer set, would decide it.",
                    view.job.clock(at)
                )
            })
        }
        Standing::Undecided(Doubt::OneSided(_)) => Some(
            "Try a thinner or a thicker leaf there, down to one that goes and up to one that \
                  won’t."
                .to_owned(),
        ),
        Standing::Undecided(Doubt::Contradiction(_)) => {
            Some("Those spots are left out until they are tried again.".to_owned())
        }
        Standing::Undecided(Doubt::NothingAsked) => {
            Some("Only a least figure is stated, and a new ring may rub itself in.".to_owned())
        }
        Standing::Undecided(Doubt::NoLimits) => {
            Some("State what the manual allows and it will be held against that.".to_owned())
        }
        _ => None,
    }
}

/// Whether a leaf of the set lies strictly between the one that goes and the one that won’t.
fn leaf_between(view: &View<'_>, judgement: &Judgement, at: Spot) -> bool {
    let Some(Reading::Bracket(bracket)) = judgement.readings.get(&at) else {
        return false;
    };
    let leaves = view.job.leaves.as_ref().map(|fact| &fact.value.thicknesses);
    let (Some(goes), Some(wont), Some(leaves)) = (bracket.goes, bracket.wont, leaves) else {
        return false;
    };
    leaves
        .iter()
        .any(|leaf| goes < leaf.value && leaf.value < wont)
}

fn origin(view: &View<'_>, judgement: &Judgement) -> String {
    let mut parts = Vec::new();
    if let Some(limits) = view.job.limits.as_ref().map(|fact| &fact.value) {
        let page = limits.page.as_str();
        parts.push(match page {
            "" => "Limit: the craft’s manual, page not said".to_owned(),
            page => format!("Limit: the craft’s manual, p. {page}"),
        });
    }
    let read = judgement.gap.as_ref().map_or(0, |gap| gap.spots.len());
    parts.push(format!("{read} of {} spots used", judgement.readings.len()));
    parts.push("called in or out at 95\u{a0}%".to_owned());
    parts.join(" · ")
}
