//! One outing: what it was, what it shows, what may be added.

use quantity::Unit;
use trial::figure::{Figure, Origin};
use trial::reduce::{Circle, Current, Method, Reduced, ScatterFrom};
use workshop::entry::Key;
use workshop::water::outing::{OutingSays, Times, Top};
use workshop::water::{Outing, OutingState, Side, Water};

use super::super::forms::water as forms;
use super::super::{Card, FactRow, Form, Section, Table, Tone, plain, row, soft, strong};
use super::{View, log, next, say};

/// Its card, then its logs.
pub(super) fn sections(
    view: &View<'_>,
    (key, state): (&Key, &OutingState),
    says: &OutingSays,
    unit: Unit,
) -> Vec<Section> {
    let mut sections = vec![Section::Card(card(view, (key, state), says, unit))];
    if let Top::Reduced(all) = &says.top {
        let name = &state.outing.value.name;
        let tables = all
            .iter()
            .map(|one| Section::Table(budget(name, one, unit)));
        sections.extend(tables);
    }
    for says in &says.logs {
        if let Some(state) = view.job.trials.logs.get(&says.digest) {
            sections.extend(log::sections(view, state, says, unit));
        }
    }
    sections
}

fn card(
    view: &View<'_>,
    (key, state): (&Key, &OutingState),
    says: &OutingSays,
    unit: Unit,
) -> Card {
    let outing = &state.outing.value;
    let side = match outing.side {
        Side::Before => "before",
        Side::After => "after",
    };
    let (tone, told) = match &says.top {
        Top::Reduced(all) => {
            let speeds: Vec<String> = all
                .iter()
                .map(|one| say::speed(one.speed.value, unit))
                .collect();
            (Tone::Plain, format!("{} both ways", speeds.join(", ")))
        }
        Top::Headings(speed, _) => (
            Tone::Plain,
            format!("{} by its headings", say::speed(speed.value, unit)),
        ),
        Top::OneWay(speed) => (
            Tone::Open,
            format!("{} one way only", say::speed(speed.value, unit)),
        ),
        Top::None => (Tone::Open, "no run yet".to_owned()),
    };
    Card {
        heading: outing.name.clone(),
        tone,
        state: format!("{side} · {told}"),
        rows: rows(outing, says, unit),
        notes: notes(state, says),
        forms: added(view, (key, state)),
    }
}

/// What may be added to it; not a second time what the next step asks for.
fn added(view: &View<'_>, (key, state): (&Key, &OutingState)) -> Vec<Form> {
    let outing = &state.outing.value;
    let asked = next::bare(&view.job.trials).is_some_and(|(bare, _)| bare == key);
    let log = (!asked).then(|| forms::log(key, view.refused, false));
    let rest = [
        forms::figures((key, state), outing.unit, view.refused, false),
        forms::outing(
            Some((key, state)),
            (outing.side, outing.unit),
            view.refused,
            false,
        ),
    ];
    log.into_iter().chain(rest).collect()
}

fn rows(outing: &Outing, says: &OutingSays, unit: Unit) -> Vec<FactRow> {
    let mut rows = Vec::new();
    if let Top::Reduced(all) = &says.top {
        for reduced in all {
            rows.extend(reduced_rows(reduced, unit));
        }
    }
    if let Top::Headings(speed, circle) = &says.top {
        rows.extend(circled(speed, circle, unit));
    }
    if let Top::OneWay(speed) = &says.top {
        rows.push(row(
            "Speed over ground",
            vec![
                strong(say::speed(speed.value, unit)),
                soft(format!(" {}", say::interval(&say::ends(speed), unit))),
            ],
            "one way: current and wind are in it",
        ));
    }
    rows.extend(says.starts.iter().map(|times| started(times, unit)));
    rows.extend(described(outing));
    rows
}

fn notes(state: &OutingState, says: &OutingSays) -> Vec<String> {
    let mut notes = Vec::new();
    match &says.air {
        Some(Err(trial::Error::NoCorrection { .. })) => notes.push(
            "Air: no correction for an engine whose air is pressed; its control holds the pressure."
                .to_owned(),
        ),
        Some(Err(error)) => notes.push(format!("Air: {error}.")),
        Some(Ok(_)) | None => {}
    }
    if says.rough {
        notes.push(
            "Wind over 6 m/s or waves over 0.1 m: indicative only. A double run takes wind out to \
             first order; chop cannot be corrected."
                .to_owned(),
        );
    }
    if state.outing.value.receiver.is_none() && !says.logs.is_empty() {
        notes.push(
            "Nobody said what measured the speed, so it is taken for a phone. A receiver of its own \
             would narrow the interval."
                .to_owned(),
        );
    }
    let figures = state.figures.iter().flat_map(|fact| &fact.value);
    let figures: Vec<String> = figures.map(say::figure).collect();
    if !figures.is_empty() {
        notes.push(format!("Read off: {}.", figures.join("; ")));
    }
    notes
}

fn reduced_rows(reduced: &Reduced, unit: Unit) -> Vec<FactRow> {
    let count = reduced.weights.len();
    let method = match reduced.method {
        Method::MeanOfMeans => format!("computed: mean of means of {count} runs"),
        Method::LeastSquares(_) => {
            format!("computed: least squares, {count} runs not evenly spaced")
        }
    };
    let ends = say::interval(&say::ends(&reduced.speed), unit);
    let mut rows = vec![row(
        "Speed through the water",
        vec![
            strong(say::speed(reduced.speed.value, unit)),
            soft(format!(" 95\u{a0}% interval {ends}")),
        ],
        method,
    )];
    let along: Vec<String> = reduced
        .along
        .iter()
        .map(|along| say::signed(*along, unit))
        .collect();
    let free = match reduced.current {
        Current::Untold => "two runs cannot tell whether it changed between them",
        Current::Free { .. } => "it changed by less than the answer is uncertain by",
        Current::Left { .. } => {
            "it changed by more than the answer is uncertain by: the answer is not free of it"
        }
    };
    rows.push(row(
        "Current along the first run",
        vec![plain(format!(
            "{}\u{a0}{}",
            along.join(", "),
            unit.symbol()
        ))],
        free,
    ));
    if reduced.still.stands {
        rows.push(row(
            "If the water stood still",
            vec![plain(say::speed(reduced.still.speed.value, unit))],
            "plain mean of the runs; they are consistent with no current",
        ));
    }
    rows
}

/// The speed and the current by three headings or more.
fn circled(speed: &Figure, circle: &Circle, unit: Unit) -> [FactRow; 2] {
    let ends = say::interval(&say::ends(speed), unit);
    let toward = circle.east.atan2(circle.north);
    [
        row(
            "Speed through the water",
            vec![
                strong(say::speed(speed.value, unit)),
                soft(format!(" 95\u{a0}% interval {ends}")),
            ],
            "computed: radius of the circle through the ends of the velocities over ground",
        ),
        row(
            "Current",
            vec![plain(format!(
                "{} toward {}",
                say::speed(circle.current(), unit),
                say::course(toward)
            ))],
            "centre of that circle; wind is in it too",
        ),
    ]
}

/// What the speed may be off by, part by part.
fn budget(name: &str, reduced: &Reduced, unit: Unit) -> Table {
    let size = |value: f64| quantity::format(value, unit, 2);
    let parts = reduced.speed.parts.iter();
    let mut rows: Vec<Vec<String>> = parts
        .map(|part| vec![say::part(part.part).to_owned(), size(part.uncertainty)])
        .filter(|row| row[1] != size(0.0))
        .collect();
    rows.push(vec![
        "together".to_owned(),
        size(reduced.speed.uncertainty()),
    ]);
    let scatter = match reduced.scatter_from {
        ScatterFrom::Runs => "as these runs show",
        ScatterFrom::Pooled => "with earlier days",
        ScatterFrom::Floor => "assumed, too few runs to tell it",
        ScatterFrom::Within => "as the readings within the runs show",
    };
    Table {
        heading: format!("What the speed of “{name}” may be off by"),
        head: ["Because", "Standard uncertainty"]
            .map(str::to_owned)
            .to_vec(),
        rows,
        caption: format!(
            "A run scatters by {}, {scatter}. What measured the speed errs alike in \
             every run. It, current, riders and air: assumed, common practice. Together: JCGM 100, equation 10.",
            size(reduced.scatter)
        ),
    }
}

fn started(times: &Times, unit: Unit) -> FactRow {
    let each: Vec<String> = times.each.iter().map(|one| say::time(one.value)).collect();
    let coarse = match times.coarse {
        0 => String::new(),
        n => format!("; {n} too coarse to time: five readings a second or more would do"),
    };
    let value = if each.is_empty() {
        "not timed".to_owned()
    } else {
        each.join(", ")
    };
    row(
        format!("Rest to {}", say::chosen(times.to, unit)),
        vec![plain(format!("{value}{coarse}"))],
        if times.each.iter().all(|one| one.origin == Origin::Typed) && times.coarse == 0 {
            "as it was read off"
        } else {
            "start by a line through 1 to 6.5 m/s, readings as they are"
        },
    )
}

/// What was said of the day.
fn described(outing: &Outing) -> Vec<FactRow> {
    let mut said = Vec::new();
    let mut add = |name: &str, value: Option<String>| {
        said.extend(value.map(|value| format!("{name} {value}")));
    };
    let typed = |entered: &Option<quantity::Entered>| {
        let entered = entered.as_ref()?;
        let text = entered.text.trim();
        Some(if entered.is_bare() {
            format!("{text}\u{a0}{}", entered.unit.symbol())
        } else {
            text.to_owned()
        })
    };
    add("wind", typed(&outing.wind));
    add("waves", typed(&outing.waves));
    add("air", typed(&outing.air_temperature));
    add("pressure", typed(&outing.pressure));
    add("humidity", outing.humidity.map(|p| format!("{p}\u{a0}%")));
    add("water", typed(&outing.water_temperature));
    if let Some(water) = outing.water {
        said.push(
            match water {
                Water::Fresh => "fresh water",
                Water::Salt => "salt water",
            }
            .to_owned(),
        );
    }
    if !outing.note.is_empty() {
        said.push(outing.note.clone());
    }
    if said.is_empty() {
        return Vec::new();
    }
    vec![row(
        "The day",
        vec![plain(said.join(" · "))],
        "as you stated it",
    )]
}
