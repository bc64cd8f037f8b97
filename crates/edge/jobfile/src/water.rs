//! Water tests, out of a job file and into one.

mod blame;
mod write;

use std::ops::Range;
use std::sync::Arc;

use jiff::Timestamp;
use workshop::draft::TrialDraft;
use workshop::draft::water::{FORMATS, FigureDraft, LogDraft, OutingDraft, WindowDraft};
use workshop::water::{Columns, Format, Logged, Rejected};

use crate::Fields;
use crate::complaint::{Complaint, Source};
use crate::inspect::Places;
use crate::shape::Field;
use crate::shape::water::{Figure, Log, Outing, Stretch};

/// The places of an outing’s values, and of all that belongs to it.
#[derive(Debug)]
pub(crate) struct TrialPlaces {
    outing: Places,
    figures: Vec<Places>,
    logs: Vec<LogPlaces>,
}

impl TrialPlaces {
    /// Where it begins.
    pub(crate) fn first(&self) -> Option<Range<usize>> {
        self.outing.first().map(|(_, at)| at.clone())
    }
}

#[derive(Debug)]
struct LogPlaces {
    log: Places,
    runs: Vec<Places>,
    /// Where the time of each stretch stands.
    stretches: Vec<Range<usize>>,
}

/// The outings with the places of their values, in the order of the file.
pub(crate) fn read(
    source: &Source,
    outings: Vec<Outing>,
) -> Result<(Vec<TrialDraft>, Vec<TrialPlaces>), Complaint> {
    let (mut drafts, mut places) = (Vec::<TrialDraft>::new(), Vec::new());
    for outing in outings {
        let at = outing.key.span();
        let (draft, here) = trial(source, outing)?;
        if drafts.iter().any(|known| known.key == draft.key) {
            let why = format!(
                "There is an outing “{}” above already. Name this one otherwise.",
                draft.key
            );
            return Err(source.complain(at, &why));
        }
        drafts.push(draft);
        places.push(here);
    }
    twice(source, &drafts, &places)?;
    Ok((drafts, places))
}

/// A log belongs to one outing, once.
fn twice(source: &Source, drafts: &[TrialDraft], places: &[TrialPlaces]) -> Result<(), Complaint> {
    let mut seen: Vec<&str> = Vec::new();
    let logs = drafts.iter().flat_map(|draft| &draft.logs);
    let places = places.iter().flat_map(|places| &places.logs);
    for (log, places) in logs.zip(places) {
        if seen.contains(&log.digest.as_str()) {
            let at = places.log.first().map_or(0..0, |(_, at)| at.clone());
            let why = "This log is above already. A log belongs to one outing: take one away.";
            return Err(source.complain(at, why));
        }
        seen.push(&log.digest);
    }
    Ok(())
}

fn trial(source: &Source, outing: Outing) -> Result<(TrialDraft, TrialPlaces), Complaint> {
    let mut fields = Fields(Vec::new());
    let key = fields.take("key", outing.key);
    let said = OutingDraft {
        name: fields.take("name", outing.name),
        side: fields.take("side", outing.side),
        unit: fields.take("unit", outing.unit),
        receiver: fields.given("receiver", outing.receiver),
        water: fields.given("water", outing.water),
        water_temperature: fields.given("water_temperature", outing.water_temperature),
        wind: fields.given("wind", outing.wind),
        waves: fields.given("waves", outing.waves),
        air_temperature: fields.given("air_temperature", outing.air_temperature),
        pressure: fields.given("pressure", outing.pressure),
        humidity: fields.given("humidity", outing.humidity),
        charged: if outing.charged { "yes" } else { "" }.to_owned(),
        note: fields.given("note", outing.note),
    };
    let (figures, of_figures) = outing.figure.into_iter().map(figure).unzip();
    let logs = outing.log.into_iter().map(|one| log(source, one));
    let (logs, of_logs) = logs.collect::<Result<Vec<_>, _>>()?.into_iter().unzip();
    let draft = TrialDraft {
        key,
        outing: said,
        figures,
        logs,
    };
    let places = TrialPlaces {
        outing: fields.0,
        figures: of_figures,
        logs: of_logs,
    };
    Ok((draft, places))
}

fn figure(figure: Figure) -> (FigureDraft, Places) {
    let mut fields = Fields(Vec::new());
    let draft = FigureDraft {
        what: fields.take("what", figure.what),
        way: fields.given("way", figure.way),
        to: fields.given("to", figure.to),
        value: fields.take("value", figure.value),
        read: fields.take("read", figure.read),
    };
    (draft, fields.0)
}

fn log(source: &Source, log: Log) -> Result<(LogDraft, LogPlaces), Complaint> {
    let mut fields = Fields(Vec::new());
    let digest = fields.take("digest", log.digest);
    let rejected = log.rejected.into_iter().map(|some| Rejected {
        why: fields.take("why", some.why),
        count: some.count,
        line: some.line,
        text: fields.take("text", some.text),
    });
    let rejected = rejected.collect();
    let stretches: Vec<_> = log.stretch.iter().map(|some| some.time_ms.span()).collect();
    let (runs, of_runs) = match log.runs {
        Some(runs) => {
            let (runs, places) = runs.into_iter().map(window).unzip();
            (Some(runs), places)
        }
        None => (None, Vec::new()),
    };
    let logged = Logged {
        name: fields.take("name", log.name),
        bytes: log.bytes,
        format: format(source, &log.format)?,
        speed_from: fields.take("speed_from", log.speed_from),
        layout: log.layout.map(|layout| fields.take("layout", layout)),
        read: log.read,
        thinned: log.thinned,
        unit_ratio: log.unit_ratio,
        rejected,
        zero_ms: log.zero.map(|at| zero(source, &at)).transpose()?,
        stretches: log.stretch.into_iter().map(columns).collect(),
    };
    let draft = LogDraft {
        digest,
        log: Arc::new(logged),
        runs,
    };
    let places = LogPlaces {
        log: fields.0,
        runs: of_runs,
        stretches,
    };
    Ok((draft, places))
}

fn window((from, until): (Field, Field)) -> (WindowDraft, Places) {
    let mut fields = Fields(Vec::new());
    let draft = WindowDraft {
        from: fields.take("from", from),
        until: fields.take("until", until),
    };
    (draft, fields.0)
}

fn columns(stretch: Stretch) -> Columns {
    let some = |column: Vec<crate::shape::water::Maybe>| {
        let column = column.into_iter();
        column.map(|number| number.0).collect()
    };
    Columns {
        time_ms: stretch.time_ms.into_inner(),
        speed_mm_s: stretch.speed_mm_s,
        course_cdeg: some(stretch.course_cdeg),
        engine_rpm: some(stretch.engine_rpm),
    }
}

fn format(source: &Source, field: &Field) -> Result<Format, Complaint> {
    let text = &field.get_ref().0;
    let known = FORMATS.iter().find(|(word, _)| word == text);
    known.map(|(_, format)| *format).ok_or_else(|| {
        let all = FORMATS.map(|(word, _)| word).join(", ");
        let why = format!("“{text}” is no format of a log. There are: {all}.");
        source.complain(field.span(), &why)
    })
}

/// To the millisecond: a finer time would be cut without a word.
fn zero(source: &Source, field: &Field) -> Result<i64, Complaint> {
    let text = &field.get_ref().0;
    let read: Option<Timestamp> = text.parse().ok();
    let whole = read.filter(|at| at.subsec_nanosecond() % 1_000_000 == 0);
    whole.map(Timestamp::as_millisecond).ok_or_else(|| {
        let why =
            format!("“{text}” is no time to the millisecond. Write it as 2026-05-09T12:30:00.25Z.");
        source.complain(field.span(), &why)
    })
}
