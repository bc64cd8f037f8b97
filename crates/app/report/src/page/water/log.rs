//! One log: its picture with the runs marked, its runs in a table, what was rejected of it.

use chart::{Part, TraceChart, trace};
use quantity::Unit;
use trial::runs::Run;
use workshop::draft::water::clock;
use workshop::water::outing::{LogSays, milliseconds};
use workshop::water::{LogState, Logged};

use super::super::forms::water as forms;
use super::super::{Section, Table};
use super::{View, say};

/// Longer than this a log is shown in minutes, `s`.
const MINUTES: f64 = 180.0;
const MINUTE: f64 = 60.0; // not a conversion: a scale of the picture

/// Picture, table, what was not taken, the form to mend runs.
pub(super) fn sections(
    view: &View<'_>,
    state: &LogState,
    says: &LogSays,
    unit: Unit,
) -> Vec<Section> {
    let log = &state.log.value;
    let mut sections = vec![picture(log, says, unit)];
    if !says.runs.is_empty() {
        sections.push(Section::Table(table(log, says, unit)));
    }
    sections.push(Section::Notes {
        heading: format!("About {}", log.name),
        notes: notes(log, says, unit),
    });
    let mend = forms::runs((&says.digest, state), &says.windows(), view.refused);
    sections.push(Section::Form(mend));
    sections
}

/// `1 ↑`: its number, and whether it goes the way of the first run or back.
fn mark(says: &LogSays, number: usize) -> String {
    let course = |run: &Run| run.course.map(|course| course.mean);
    let first = says.runs.first().and_then(course);
    let arrow = match (first, course(&says.runs[number])) {
        (Some(first), Some(mine)) => {
            if (mine - first).cos() >= 0.0 {
                " ↑"
            } else {
                " ↓"
            }
        }
        _ => "",
    };
    format!("{}{arrow}", number + 1)
}

fn picture(log: &Logged, says: &LogSays, unit: Unit) -> Section {
    let samples = log.log();
    let last = samples.stretches.iter().flatten().last();
    let minutes = last.is_some_and(|last| last.time > MINUTES);
    let along = |time: f64| if minutes { time / MINUTE } else { time };
    let shown = |speed: f64| unit.from_si(speed);
    let runs = says.runs.iter().enumerate().map(|(number, run)| Part {
        from: along(run.span.from),
        until: along(run.span.to),
        mark: mark(says, number),
        counts: true,
        words: say::speed(run.speed.value, unit),
    });
    let passed = says.passed.iter().filter(|_| !says.by_hand).zip('a'..='z');
    let passed = passed.map(|(passed, letter)| Part {
        from: along(passed.span.from),
        until: along(passed.span.to),
        mark: letter.to_string(),
        counts: false,
        words: "no run".to_owned(),
    });
    let starts = says.starts.iter().map(|start| Part {
        from: along(start.instant),
        until: along(start.span.to),
        mark: "S".to_owned(),
        counts: false,
        words: "standing start".to_owned(),
    });
    let mut parts: Vec<Part> = runs.chain(passed).chain(starts).collect();
    parts.sort_by(|a, b| a.from.total_cmp(&b.from));
    let stretch = |samples: &Vec<trial::Sample>| {
        samples
            .iter()
            .map(|sample| (along(sample.time), shown(sample.speed)))
            .collect()
    };
    Section::Picture {
        heading: log.name.clone(),
        svg: trace(&TraceChart {
            title: format!("Speed over time, {}", log.name),
            along: if minutes { "minutes" } else { "seconds" }.to_owned(),
            up: format!("speed, {}", unit.symbol()),
            decimals: 1,
            stretches: samples.stretches.iter().map(stretch).collect(),
            parts,
        }),
        caption: "Shaded between whole lines: runs, by number; an arrow up goes the way of the \
                  first, an arrow down comes back. Between broken lines: S a standing start, a small \
                  letter what looks like a run and is none."
            .to_owned(),
    }
}

fn table(log: &Logged, says: &LogSays, unit: Unit) -> Table {
    let engine = says.runs.iter().any(|run| run.engine.is_some());
    let mut head: Vec<String> = ["Run", "From", "Course", "Speed"]
        .map(str::to_owned)
        .to_vec();
    if engine {
        head.push("Engine".to_owned());
    }
    head.push("±".to_owned());
    let row = |(number, run): (usize, &Run)| {
        let mut cells = vec![
            mark(says, number),
            format!(
                "{} to {}",
                clock(milliseconds(run.span.from)),
                clock(milliseconds(run.span.to))
            ),
            run.course
                .map_or("–".to_owned(), |course| say::course(course.mean)),
            say::speed(run.speed.value, unit),
        ];
        if engine {
            cells.push(run.engine.map_or("–".to_owned(), |e| say::engine(e.mean)));
        }
        cells.push(quantity::format(run.speed.uncertainty(), unit, 2));
        cells
    };
    Table {
        heading: format!("Runs of {}", log.name),
        head,
        rows: says.runs.iter().enumerate().map(row).collect(),
        caption: format!(
            "Speed: the highest mean over 10 s inside the run, over ground, from the readings as \
             they are. ±: standard uncertainty of one run, not of the result. {}",
            if says.by_hand {
                "These runs are set by hand."
            } else {
                "Found by the program."
            }
        ),
    }
}

fn notes(log: &Logged, says: &LogSays, unit: Unit) -> Vec<String> {
    let mut notes = vec![format!(
        "{} readings, {} kept{}; speed from {}.",
        log.read,
        log.samples(),
        if log.thinned {
            " (slow parts thinned out, fast ones whole)"
        } else {
            ""
        },
        log.speed_from
    )];
    if let Some(ratio) = log.unit_ratio {
        notes.push(format!(
            "The receiver’s speed is {ratio:.3} of the speed by its positions: the unit fits."
        ));
    }
    notes.extend(of_runs(says, unit));
    for rejected in &log.rejected {
        let text = match rejected.text.trim() {
            "" => String::new(),
            text => format!(": {text}"),
        };
        notes.push(match rejected.line {
            0 => format!("{} × {}{text}.", rejected.count, rejected.why),
            line => format!(
                "Rejected: {} × {}, first at line {line}{text}",
                rejected.count, rejected.why
            ),
        });
    }
    notes
}

/// What was no run, what speaks against one, what cannot be timed.
fn of_runs(says: &LogSays, unit: Unit) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(error) = &says.refused {
        notes.push(format!("No run can be reckoned: {error}."));
    }
    if let Some(none) = &says.none {
        notes.push(format!(
            "No full-throttle run: {}.",
            say::no_run(none, unit)
        ));
    }
    for (window, error) in &says.not_runs {
        notes.push(format!(
            "{} to {}, set by hand, is no run: {error}.",
            clock(window.from_ms),
            clock(window.until_ms)
        ));
    }
    if !says.by_hand {
        for (passed, letter) in says.passed.iter().zip('a'..='z') {
            let why: Vec<String> = passed
                .why
                .iter()
                .map(|why| say::why_not(why, unit))
                .collect();
            notes.push(format!(
                "{letter}: {} to {}, {}: {}.",
                clock(milliseconds(passed.span.from)),
                clock(milliseconds(passed.span.to)),
                say::speed(passed.speed, unit),
                why.join("; ")
            ));
        }
    }
    for (number, run) in says.runs.iter().enumerate() {
        if !run.doubts.is_empty() {
            let why: Vec<String> = run
                .doubts
                .iter()
                .map(|why| say::why_not(why, unit))
                .collect();
            notes.push(format!("Against run {}: {}.", number + 1, why.join("; ")));
        }
    }
    for start in &says.untimed {
        notes.push(format!(
            "A start at {} cannot be timed: {} between two readings, at most {}.",
            clock(milliseconds(start.span.from)),
            say::time(start.step),
            say::time(start.longest)
        ));
    }
    if says.left_out > 0 {
        notes.push(format!(
            "{} lone readings no craft can have made were left out.",
            says.left_out
        ));
    }
    notes
}
