//! Water tests as tables. What is empty is left out.

use std::fmt::Display;

use jiff::Timestamp;
use workshop::draft::TrialDraft;
use workshop::draft::water::{FORMATS, FigureDraft, LogDraft, OutingDraft};
use workshop::draft::word;
use workshop::water::{Columns, Rejected};

use crate::write::{Page, quoted};

/// Long lists are broken before this column, so that a person can scroll the file.
const WIDEST: usize = 78;

impl Page {
    pub(crate) fn trial(&mut self, draft: &TrialDraft) {
        self.table("[outing]");
        self.text("key", &draft.key);
        self.outing(&draft.outing);
        draft.figures.iter().for_each(|figure| self.figure(figure));
        draft.logs.iter().for_each(|log| self.log(log));
    }

    fn outing(&mut self, outing: &OutingDraft) {
        self.text("name", &outing.name);
        self.text("side", &outing.side);
        self.text("unit", &outing.unit);
        self.filled("receiver", &outing.receiver);
        self.filled("water", &outing.water);
        self.filled("water_temperature", &outing.water_temperature);
        self.filled("wind", &outing.wind);
        self.filled("waves", &outing.waves);
        self.filled("air_temperature", &outing.air_temperature);
        self.filled("pressure", &outing.pressure);
        if !outing.humidity.is_empty() {
            self.line("humidity", &outing.humidity);
        }
        if outing.charged == "yes" {
            self.line("charged", "true");
        }
        self.filled("note", &outing.note);
    }

    fn figure(&mut self, figure: &FigureDraft) {
        self.table("[outing.figure]");
        self.text("what", &figure.what);
        self.filled("way", &figure.way);
        self.filled("to", &figure.to);
        self.text("value", &figure.value);
        self.text("read", &figure.read);
    }

    fn log(&mut self, draft: &LogDraft) {
        let log = &draft.log;
        self.table("[outing.log]");
        self.text("digest", &draft.digest);
        self.text("name", &log.name);
        self.line("bytes", &log.bytes.to_string());
        self.text("format", word(&FORMATS, log.format));
        self.text("speed_from", &log.speed_from);
        self.line("read", &log.read.to_string());
        if log.thinned {
            self.line("thinned", "true");
        }
        if let Some(ratio) = log.unit_ratio {
            self.line("unit_ratio", &format!("{ratio:?}"));
        }
        if let Some(layout) = &log.layout {
            self.text("layout", layout);
        }
        let zero = log.zero_ms.map(Timestamp::from_millisecond);
        if let Some(Ok(zero)) = zero {
            self.text("zero", &zero.to_string());
        }
        if !log.rejected.is_empty() {
            let rows = log.rejected.iter().map(rejected);
            self.rows("rejected", rows);
        }
        if let Some(runs) = &draft.runs {
            let pair = |from: &str, until: &str| format!("[{}, {}]", quoted(from), quoted(until));
            self.rows("runs", runs.iter().map(|run| pair(&run.from, &run.until)));
        }
        log.stretches.iter().for_each(|some| self.stretch(some));
    }

    fn stretch(&mut self, columns: &Columns) {
        self.table("[outing.log.stretch]");
        self.numbers("time_ms", columns.time_ms.iter());
        self.numbers("speed_mm_s", columns.speed_mm_s.iter());
        for (key, column) in [
            ("course_cdeg", &columns.course_cdeg),
            ("engine_rpm", &columns.engine_rpm),
        ] {
            if !column.is_empty() {
                self.numbers(key, column.iter().map(|some| some.map_or(-1, i32::from)));
            }
        }
    }

    /// A list with an item on each line.
    fn rows(&mut self, key: &str, rows: impl Iterator<Item = String>) {
        let lines: Vec<String> = rows.map(|row| format!("  {row},")).collect();
        self.list(key, &lines);
    }

    /// A list of numbers, as many on a line as it takes.
    fn numbers<T: Display>(&mut self, key: &str, numbers: impl Iterator<Item = T>) {
        let mut lines: Vec<String> = Vec::new();
        for number in numbers {
            let next = format!(" {number},");
            match lines.last_mut() {
                Some(line) if line.len() + next.len() <= WIDEST => line.push_str(&next),
                _ => lines.push(format!(" {next}")),
            }
        }
        self.list(key, &lines);
    }

    fn list(&mut self, key: &str, lines: &[String]) {
        if lines.is_empty() {
            self.line(key, "[]");
        } else {
            self.line(key, &format!("[\n{}\n]", lines.join("\n")));
        }
    }
}

/// A table on one line.
fn rejected(some: &Rejected) -> String {
    format!(
        "{{ why = {}, count = {}, line = {}, text = {} }}",
        quoted(&some.why),
        some.count,
        some.line,
        quoted(&some.text)
    )
}
