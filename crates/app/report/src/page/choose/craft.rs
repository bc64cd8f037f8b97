//! The craft as it is reckoned, and what was learnt of it.

use propulsion::calibrate::Fit;
use propulsion::unknown::{PRIORS, Unknown};
use quantity::Unit;
use workshop::choose::answer::Learnt;
use workshop::choose::craft::Known;
use workshop::sourced::Origin;

use super::{View, say, unit};
use crate::page::forms::choose as forms;
use crate::page::water::say as water;
use crate::page::{FactRow, FormName, Section, plain, row, soft, strong};

pub(super) fn sections(view: &View<'_>) -> Vec<Section> {
    let mut sections = Vec::new();
    sections.extend(now(view));
    if let Ok(setup) = &view.says.setup {
        sections.push(Section::Facts {
            heading: "The craft as it is reckoned".to_owned(),
            rows: setup.known.iter().map(known).collect(),
        });
    }
    let described = view.job.choices.craft.is_some() && view.says.setup.is_ok();
    if described {
        sections.push(Section::Form(forms::craft(view.job, view.refused, false)));
    }
    if let Learnt::Well(fit) = &view.says.learnt {
        sections.push(Section::Facts {
            heading: "What its runs taught".to_owned(),
            rows: learnt(fit),
        });
    }
    sections
}

/// What the craft does now, by its runs.
fn now(view: &View<'_>) -> Option<Section> {
    let now = view.says.now.as_ref()?;
    let unit = unit(view.job);
    let outing = view.says.outing.as_ref();
    let outing = outing.and_then(|key| view.job.trials.outings.get(key));
    let name = outing.map_or("", |state| state.outing.value.name.as_str());
    let mut rows = vec![
        row(
            "Top speed",
            vec![strong(say::level(&now.speed, unit))],
            format!("fitted to “{name}”"),
        ),
        row(
            "Engine, full throttle",
            vec![strong(say::level(&now.engine, Unit::Rpm))],
            "",
        ),
    ];
    if let Some(time) = &now.time {
        let to = water::chosen(view.says.to, unit);
        rows.push(row(
            format!("Rest to {to}"),
            vec![strong(say::level(time, Unit::Second))],
            "engine speed without lag",
        ));
    }
    Some(Section::Facts {
        heading: "As it is, by its own runs".to_owned(),
        rows,
    })
}

/// What a field of the craft is called.
fn called(field: &str) -> &'static str {
    match field {
        "mass" => "Craft, ready to go",
        "riders" => "On board",
        "length" => "Length on the water",
        "beam" => "Beam at the chines",
        "deadrise" => "Deadrise aft",
        "balance" => "Balance point from the transom",
        "power" => "Rated power",
        "rated" => "Rated at",
        "limiter" => "Held back at",
        "gap" => "Radial gap",
        "impeller" => "Impeller’s diameter",
        "hub" => "Hub’s diameter",
        "leading" => "Leading edge",
        "trailing" => "Trailing edge",
        "nozzle" => "Nozzle’s bore",
        "water_temperature" => "Water",
        "air_temperature" => "Air",
        _ => "Other",
    }
}

fn known(known: &Known) -> FactRow {
    let unit = known.unit;
    let decimals = match unit {
        Unit::Rpm | Unit::Kilogram | Unit::Pound | Unit::Celsius | Unit::Fahrenheit => 0,
        Unit::Inch | Unit::Metre => 3,
        _ => 1,
    };
    let decimals = if known.field == "gap" { 2 } else { decimals };
    let value = quantity::format(known.value, unit, decimals);
    let (value, origin) = match &known.origin {
        Origin::Assumed(_) if known.field.ends_with("temperature") => {
            (soft(value), "assumed, until the outing says it".to_owned())
        }
        Origin::Assumed(_) => (soft(value), "assumed, until somebody says it".to_owned()),
        Origin::Manual { page, .. } => (plain(value), format!("craft’s manual, page {page}")),
        Origin::Computed { formula, .. } => (plain(value), (*formula).to_owned()),
        _ => (plain(value), "as stated or measured".to_owned()),
    };
    let mut row = row(called(known.field), vec![value], origin);
    let of_the_outing = known.field.ends_with("temperature");
    if matches!(known.origin, Origin::Assumed(_)) && !of_the_outing {
        row.said_in = Some((FormName::Craft, known.field));
    }
    row
}

/// Every unknown with how much the runs said of it.
fn learnt(fit: &Fit) -> Vec<FactRow> {
    let mut rows: Vec<(f64, FactRow)> = Unknown::ALL
        .iter()
        .map(|of| {
            let ratio = fit.learnt[*of as usize];
            let value = fit.best[*of];
            let spread = ratio * PRIORS[*of as usize].spread;
            let told = if *of == Unknown::Deviation {
                format!(
                    "{} ± {}",
                    quantity::format(value, Unit::Degree, 1),
                    quantity::format(spread, Unit::Degree, 1)
                )
            } else {
                let value = format!("{value:.2}").replace('-', "−");
                let value = if value == "−0.00" { "0.00" } else { &value };
                format!("{value} ± {spread:.2}")
            };
            let origin = if fit.has_learnt(*of) {
                format!("its runs narrowed this to {ratio:.2} of what was believed")
            } else {
                "not learnt: as believed beforehand".to_owned()
            };
            (ratio, row(say::unknown(*of), vec![plain(told)], origin))
        })
        .collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    rows.into_iter().map(|(_, row)| row).collect()
}
