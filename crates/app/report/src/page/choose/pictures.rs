//! What options do, in pictures: a small one a quantity, and thrust over speed.

use chart::{Category, Curve, CurveChart, Foreseen, Interval, IntervalChart, curves, intervals};
use maud::{Markup, html};
use propulsion::predict::Band;
use quantity::Unit;
use workshop::choose::answer::Does;

use super::{View, name, option, unit};
use crate::page::Section;
use crate::page::water::say as water;

/// Three small pictures: engine, top speed, time.
pub(super) fn differences(view: &View<'_>) -> Vec<Section> {
    let unit = unit(view.job);
    let told: Vec<(usize, &Does)> = view
        .says
        .options
        .iter()
        .enumerate()
        .filter_map(|(place, option)| Some((place, option.does.as_ref().ok()?)))
        .collect();
    if told.is_empty() {
        return Vec::new();
    }
    let start = format!("rest to {}", water::chosen(view.says.to, unit));
    let mut charts = vec![
        chart(&told, ("engine", Unit::Rpm, 0), |does| Some(does.engine)),
        chart(&told, ("top speed", unit, 1), |does| Some(does.speed)),
    ];
    if told.iter().any(|(_, does)| does.time.is_some()) {
        charts.push(chart(&told, (&start, Unit::Second, 2), |does| does.time));
    }
    let names = told.iter().map(|(place, _)| {
        let says = &view.says.options[*place];
        format!("{} {}", option::letter(*place), name(view.job, says))
    });
    let names: Vec<String> = names.collect();
    vec![Section::Picture {
        heading: "What each would change".to_owned(),
        svg: html! {
            div.multiples { @for chart in &charts { (chart) } }
        },
        caption: format!(
            "Against what is fitted, with the 80\u{a0}% band. {}.",
            names.join(" · ")
        ),
    }]
}

fn chart(
    told: &[(usize, &Does)],
    (what, unit, decimals): (&str, Unit, u32),
    pick: fn(&Does) -> Option<Band>,
) -> Markup {
    let shown = |value: f64| unit.from_si(value);
    let interval = |band: Band| Interval {
        label: String::new(),
        low: shown(band.low),
        median: shown(band.middle),
        high: shown(band.high),
    };
    let still = Band {
        low: 0.0,
        middle: 0.0,
        high: 0.0,
    };
    let fitted = Category {
        label: "now".to_owned(),
        intervals: vec![interval(still)],
    };
    let categories = told.iter().map(|(place, does)| Category {
        label: option::letter(*place),
        intervals: pick(does).map(interval).into_iter().collect(),
    });
    intervals(&IntervalChart {
        title: format!("Change of {what}"),
        axis: format!("{what}, change in {}", unit.symbol()),
        decimals,
        least: None,
        greatest: None,
        categories: std::iter::once(fitted).chain(categories).collect(),
    })
}

/// Thrust and drag over speed as the most probable craft has them.
pub(super) fn thrust(view: &View<'_>) -> Option<Section> {
    let now = view.says.now.as_ref()?;
    let unit = unit(view.job);
    let place = |value: f64| unit.from_si(value);
    let line = |points: &[(f64, Band)]| {
        let point = |(speed, band): &(f64, Band)| Foreseen {
            at: place(*speed),
            low: band.low,
            middle: band.middle,
            high: band.high,
        };
        points.iter().map(point).collect::<Vec<_>>()
    };
    let mut drawn = vec![
        Curve {
            name: "thrust as it is".to_owned(),
            points: line(&now.thrust),
        },
        Curve {
            name: "drag".to_owned(),
            points: line(&now.drag),
        },
    ];
    let best = view
        .says
        .options
        .first()
        .filter(|option| option.does.is_ok());
    let best = best.and_then(|option| Some((name(view.job, option), view.says.ahead.as_ref()?)));
    if let Some((name, thrust)) = &best {
        drawn.push(Curve {
            name: format!("with {name}"),
            points: line(thrust),
        });
    }
    Some(Section::Picture {
        heading: "Thrust and drag".to_owned(),
        svg: curves(&CurveChart {
            title: "Thrust and drag over speed".to_owned(),
            along: format!("speed, {}", unit.symbol()),
            up: "N".to_owned(),
            decimals: 0,
            curves: drawn,
        }),
        caption: "With 80\u{a0}% bands. The craft gathers way by what thrust has over drag; where \
                  they cross is the top speed."
            .to_owned(),
    })
}
