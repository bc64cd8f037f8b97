//! A page as text, 80 columns wide.
//!
//! Signs stand for what colour says on a page, so nothing is lost in a pipe. On a terminal the
//! numbers that matter are bold and origins are dim.

mod grid;

use report::page::{
    Card, FactRow, Form, Next, Page, Run, Section, Step, Table, Target, Tone, flat,
};

/// Columns of a line.
const WIDTH: usize = 80;
/// A longer name of a fact stands on a line of its own.
const WIDEST_NAME: usize = 25;

/// Renders a page. `ink` allows bold and dim.
pub(crate) fn write(page: &Page, ink: bool) -> String {
    let mut sheet = Sheet {
        text: String::new(),
        ink,
    };
    if let Some(heading) = &page.heading {
        sheet.paragraph("", &[strong(&heading.title)]);
        sheet.paragraph("", &[soft(&heading.note)]);
        for one in &heading.crossed {
            sheet.gap();
            let words = format!("{}{}", sign(Tone::Open), one.words);
            sheet.paragraph("", &[Run::Plain(words)]);
        }
        sheet.gap();
    }
    for clock in &page.clocks {
        let over = if clock.over { ", run out" } else { "" };
        sheet.paragraph("", &[strong(&format!("⏱ {}{over}", clock.words))]);
    }
    sheet.gap();
    let sign = sign(page.answer.tone);
    let headline = format!("{}: {sign}{}", page.title, page.answer.headline);
    sheet.paragraph("", &[strong(&headline)]);
    sheet.paragraph("  ", &page.answer.detail);
    sheet.paragraph("  ", &[soft(&page.answer.origin)]);
    let mut drawn = Vec::new();
    for section in &page.evidence {
        match section {
            Section::Picture { heading, .. } => drawn.push(heading.as_str()),
            other => sheet.section(other),
        }
    }
    if !drawn.is_empty() {
        sheet.gap();
        sheet.paragraph(
            "",
            &[soft(&format!(
                "Drawn on the page only: {}.",
                drawn.join("; ")
            ))],
        );
    }
    sheet.heading("Next");
    sheet.next(&page.next);
    sheet.gap();
    for caution in &page.cautions {
        sheet.paragraph("", &[Run::Plain(format!("Caution: {caution}"))]);
    }
    sheet.text
}

/// What colour says on a page.
fn sign(tone: Tone) -> &'static str {
    match tone {
        Tone::Good => "✓ ",
        Tone::Open => "? ",
        Tone::Stop => "✕ ",
        Tone::Plain => "",
    }
}

fn strong(text: &str) -> Run {
    Run::Strong(text.to_owned())
}

fn soft(text: &str) -> Run {
    Run::Soft(text.to_owned())
}

fn plain(text: &str) -> Run {
    Run::Plain(text.to_owned())
}

#[derive(Clone, Copy, PartialEq)]
enum Ink {
    Plain,
    Strong,
    Soft,
}

struct Sheet {
    text: String,
    ink: bool,
}

impl Sheet {
    /// An empty line between two things.
    fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    fn links(&mut self, links: &[(Target, String, String)]) {
        for (_, words, about) in links {
            let about = match about.as_str() {
                "" => String::new(),
                about => format!(" · {about}"),
            };
            self.paragraph("  ", &[plain(words), soft(&about)]);
        }
    }

    fn heading(&mut self, heading: &str) {
        self.gap();
        self.paragraph("", &[strong(heading)]);
    }

    /// Runs, wrapped; every line but the first begins as deep as the first.
    fn paragraph(&mut self, indent: &str, runs: &[Run]) {
        self.hanging(indent, &" ".repeat(indent.chars().count()), runs);
    }

    /// Runs, wrapped, with one indent for the first line and one for the others.
    fn hanging(&mut self, first: &str, others: &str, runs: &[Run]) {
        let mut indent = first;
        for line in letters(runs).split(|(c, _)| *c == '\n') {
            for row in wrap(line, WIDTH - indent.chars().count()) {
                self.text.push_str(indent);
                self.row(&row);
                indent = others;
            }
        }
    }

    fn row(&mut self, row: &[(char, Ink)]) {
        let mut now = Ink::Plain;
        for (c, ink) in row {
            if self.ink && *ink != now {
                self.text.push_str(code(*ink));
                now = *ink;
            }
            // A space that holds a number and its unit together has done its work.
            self.text.push(if *c == '\u{a0}' { ' ' } else { *c });
        }
        if now != Ink::Plain {
            self.text.push_str(code(Ink::Plain));
        }
        self.text.push('\n');
    }

    fn section(&mut self, section: &Section) {
        match section {
            Section::Grid(grid) => {
                self.heading(&grid.heading);
                for line in grid::lines(grid, WIDTH) {
                    self.paragraph("  ", &[plain(&line)]);
                }
                self.gap();
                self.paragraph("  ", &[soft(&grid.caption)]);
                self.paragraph("  ", &[soft(&grid::legend(grid))]);
            }
            Section::Facts { heading, rows } => {
                self.heading(heading);
                for row in rows {
                    self.fact(row);
                }
            }
            Section::Table(table) => self.table(table),
            Section::Notes { heading, notes } => {
                self.heading(heading);
                for note in notes {
                    self.hanging("  - ", "    ", &[plain(note)]);
                }
            }
            Section::Folded {
                heading,
                state,
                links,
            } => {
                self.heading(&format!("{heading} · {state}"));
                self.links(links);
            }
            Section::Links { heading, links } | Section::Ways { heading, links } => {
                self.heading(heading);
                self.links(links);
            }
            Section::List(list) => {
                self.heading(&format!("{} · {}", list.heading, list.state));
                for caution in list.cautions.iter().copied() {
                    self.hanging("  ! ", "    ", &[strong(caution)]);
                }
                self.paragraph("  ", &[soft(&list.origin)]);
                for line in &list.lines {
                    self.hanging("  - ", "    ", &[plain(line)]);
                }
            }
            Section::Card(card) => self.card(card),
            Section::Step(step) => self.step(step),
            Section::Form(form) if form.open => {
                self.heading(&form.heading);
                self.paragraph("  ", &[plain(&form.intro)]);
            }
            Section::Photos(strip) if strip.shots.is_empty() => {}
            Section::Photos(strip) => {
                if !strip.heading.is_empty() {
                    self.heading(&strip.heading);
                }
                for shot in &strip.shots {
                    let name = format!(" ({})", shot.photo.short());
                    self.hanging("  - ", "    ", &[plain(&shot.alt), soft(&name)]);
                }
            }
            Section::Refused(why) => self.paragraph("  ", &[strong(why)]),
            Section::Photo(shot) => self.paragraph("  ", &[plain(&shot.alt)]),
            // What is folded away on the page is changed there, or in the job file. A label is of paper.
            Section::Form(_) | Section::Try(_) | Section::Picture { .. } | Section::Label(_) => {}
        }
    }

    fn card(&mut self, card: &Card) {
        let sign = sign(card.tone);
        self.gap();
        self.paragraph(
            "",
            &[
                strong(&format!("{sign}{}", card.heading)),
                soft(&format!(" · {}", card.state)),
            ],
        );
        self.minds(&card.notes);
        for row in &card.rows {
            self.fact(row);
        }
    }

    fn step(&mut self, step: &Step) {
        self.heading(&step.heading);
        self.minds(&step.notes);
        if !step.state.is_empty() {
            self.paragraph("  ", &[soft(&step.state)]);
        }
        for row in &step.rows {
            self.fact(row);
        }
    }

    fn minds(&mut self, notes: &[String]) {
        for note in notes {
            self.hanging("  ! ", "    ", &[plain(note)]);
        }
    }

    fn fact(&mut self, row: &FactRow) {
        let others = " ".repeat(WIDEST_NAME + 4);
        let mut first = format!("  {:WIDEST_NAME$}  ", row.name);
        if first.chars().count() > others.len() {
            self.paragraph("  ", &[plain(&row.name)]);
            first.clone_from(&others);
        }
        let origin = match row.origin.as_str() {
            "" => soft(""),
            origin => soft(&format!(" · {origin}")),
        };
        self.hanging(&first, &others, &[row.value.as_slice(), &[origin]].concat());
    }

    fn table(&mut self, table: &Table) {
        self.heading(&table.heading);
        let rows: Vec<&Vec<String>> = std::iter::once(&table.head).chain(&table.rows).collect();
        let width = |column: usize| {
            let cells = rows.iter().filter_map(|row| row.get(column));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let last = table.head.len().saturating_sub(1);
        let before: usize = (0..last).map(|column| width(column) + 2).sum();
        if before > WIDTH / 2 {
            self.stacked(table);
        } else {
            for row in &rows {
                let mut indent = "  ".to_owned();
                for (at, cell) in row.iter().enumerate().take(last) {
                    indent = format!("{indent}{cell:0$}  ", width(at));
                }
                let rest = row.get(last).map_or("", String::as_str);
                self.hanging(&indent, &" ".repeat(indent.chars().count()), &[plain(rest)]);
            }
        }
        self.paragraph("  ", &[soft(&table.caption)]);
    }

    /// A table too wide for the terminal: a row is its name, and a line a cell.
    fn stacked(&mut self, table: &Table) {
        for row in &table.rows {
            let mut cells = table.head.iter().zip(row);
            if let Some((_, name)) = cells.next() {
                self.paragraph("  ", &[plain(name)]);
            }
            for (head, cell) in cells {
                self.hanging("    ", "    ", &[soft(&format!("{head}: ")), plain(cell)]);
            }
        }
    }

    fn next(&mut self, next: &Next) {
        match next {
            Next::Ask {
                question,
                buttons,
                write,
            } => {
                self.paragraph("  ", question);
                let loud = buttons
                    .iter()
                    .filter(|b| b.weight != report::page::Weight::Quiet);
                let labels: Vec<&str> = loud.map(|button| button.label.as_str()).collect();
                self.paragraph("  ", &[strong(&labels.join(" · "))]);
                self.paragraph("  ", &[soft(&how(write.as_ref(), labels.is_empty()))]);
            }
            Next::Fill(form) => {
                self.paragraph(
                    "  ",
                    &[strong(&form.heading), plain(&format!(". {}", form.intro))],
                );
                self.paragraph("  ", &[soft(ON_THE_BENCH)]);
            }
            Next::Go { words, links } | Next::Print { words, links } => {
                self.paragraph("  ", words);
                for (_, label) in links {
                    self.paragraph("  ", &[plain(label)]);
                }
            }
        }
    }
}

const ON_THE_BENCH: &str =
    "Fill it in on the bench, opened with “pumpwright serve”, or in the job file.";

/// How to answer without buttons.
fn how(write: Option<&Form>, nothing_to_press: bool) -> String {
    let spot = write.and_then(|form| form.values.iter().find(|(key, _)| *key == "spot"));
    match spot {
        Some((_, spot)) => format!(
            "Answer on the bench, opened with “pumpwright serve”, or write it in the job file \
             under [readings], such as \"{spot}\" = \"14 goes free; 15 won't go\".",
        ),
        None if nothing_to_press => String::new(),
        None => "Do it on the bench, opened with “pumpwright serve”.".to_owned(),
    }
}

fn code(ink: Ink) -> &'static str {
    match ink {
        Ink::Plain => "\u{1b}[0m",
        Ink::Strong => "\u{1b}[0;1m",
        Ink::Soft => "\u{1b}[0;2m",
    }
}

/// The characters, each with its ink. What would steer the terminal is made visible.
fn letters(runs: &[Run]) -> Vec<(char, Ink)> {
    let mut letters = Vec::new();
    for run in runs {
        let ink = match run {
            Run::Plain(_) => Ink::Plain,
            Run::Strong(_) => Ink::Strong,
            Run::Soft(_) => Ink::Soft,
        };
        let text = flat(std::slice::from_ref(run));
        let visible = |c: char| {
            if c.is_control() && c != '\n' {
                '\u{fffd}'
            } else {
                c
            }
        };
        letters.extend(text.chars().map(|c| (visible(c), ink)));
    }
    letters
}

/// Lines of at most `width`, broken at plain spaces; a word that is longer stands alone.
fn wrap(line: &[(char, Ink)], width: usize) -> Vec<Vec<(char, Ink)>> {
    // Columns that were set out beforehand keep their spaces.
    if line.len() <= width {
        return if line.is_empty() {
            Vec::new()
        } else {
            vec![line.to_vec()]
        };
    }
    let mut rows: Vec<Vec<(char, Ink)>> = Vec::new();
    for word in line
        .split(|(c, _)| *c == ' ')
        .filter(|word| !word.is_empty())
    {
        match rows.last_mut() {
            Some(row) if row.len() + 1 + word.len() <= width => {
                row.push((' ', word[0].1));
                row.extend(word);
            }
            _ => rows.push(word.to_vec()),
        }
    }
    rows
}
