//! What was fitted, looked at and taken out, and what befell the craft meanwhile.

mod signs;

use maud::{Markup, html};

use self::signs::{Mark, sign};
use crate::plane::real;
use crate::scale::span;
use crate::words::{BOLD, fitted, lines, room};
use crate::{Path, Point, Scale, px};

/// Pieces over engine hours or dates, one a row.
#[derive(Clone, Debug, PartialEq)]
pub struct HistoryChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis, with its unit: `engine hours`.
    pub along: String,
    /// Where the axis is marked, and with what.
    pub ticks: Vec<(f64, String)>,
    /// The end of what is known: a piece that still runs is drawn this far.
    pub now: When,
    /// The pieces, in order.
    pub pieces: Vec<Piece>,
    /// What befell the craft.
    pub events: Vec<Happening>,
}

/// A time on the axis, and the same in words.
#[derive(Clone, Debug, PartialEq)]
pub struct When {
    /// On the axis.
    pub at: f64,
    /// In words: `88 h`.
    pub text: String,
}

/// One piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its name.
    pub label: String,
    /// What else is known of it; may be empty.
    pub note: String,
    /// When it was fitted; none where that is not known.
    pub fitted: Option<When>,
    /// When it was looked at, and what was found.
    pub looks: Vec<Look>,
    /// When it was taken out; none where it still runs.
    pub out: Option<When>,
}

/// One look at a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// When.
    pub when: When,
    /// What was found.
    pub found: Found,
}

/// What a look can find.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Found {
    /// Good.
    Good,
    /// Worn, and it may run on.
    Worn,
    /// It failed.
    Failed,
    /// A strike ruined it.
    Struck,
}

/// Something that befell the whole craft.
#[derive(Clone, Debug, PartialEq)]
pub struct Happening {
    /// When.
    pub when: When,
    /// A letter or two: `S`. Events of one kind share it.
    pub mark: String,
    /// What it was, for the key: `strike`.
    pub words: String,
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 10.0;
/// Keeps room for the arrow of a piece that still runs.
const RIGHT: f64 = WIDTH - 18.0;
const ROW: f64 = 50.0;
/// From the top of a row to its line, and from there to the signs.
const DOWN: f64 = 24.0;
const HANG: f64 = 14.0;
/// Height of a line of words.
const LINE: f64 = 17.0;

/// Draws the pieces: a name, under it a line from its fitting, with an end stroke, to where it was taken out,
/// with another, or with an open arrow where it still runs; the looks hang from the line as signs. What befell
/// the craft goes as a broken upright across all rows with its letter on top. A key under the axis names the
/// signs and letters used.
///
/// Signs that would lie on each other are moved apart and keep a thread to their time. A time that is not
/// finite, and a look there is no room for, are left out, and the description says so.
pub fn history(chart: &HistoryChart) -> Markup {
    let sheet = Sheet::new(chart);
    let (key, under) = sheet.key();
    let height = under + 6.0;
    let view = format!("0 0 {WIDTH} {height}");
    html! {
        svg class="drawing chart strip" viewBox=(view) width=[px(WIDTH)] height=[px(height)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            (sheet.axis())
            (sheet.uprights())
            @for (place, piece) in chart.pieces.iter().enumerate() {
                (sheet.row(piece, sheet.top + real(place) * ROW))
            }
            (sheet.letters())
            (key)
        }
    }
}

struct Sheet<'a> {
    chart: &'a HistoryChart,
    along: Scale,
    /// Of the first row.
    top: f64,
    bottom: f64,
    /// The events that are drawn, earliest first: where, on which line their letter stands.
    events: Vec<(f64, usize, &'a Happening)>,
}

impl<'a> Sheet<'a> {
    fn new(chart: &'a HistoryChart) -> Self {
        let ends = chart.pieces.iter().flat_map(|piece| {
            let looks = piece.looks.iter().map(|look| &look.when);
            piece.fitted.iter().chain(&piece.out).chain(looks)
        });
        let events = chart.events.iter().map(|event| &event.when);
        let times = ends.chain(events).chain([&chart.now]);
        let along = Scale {
            values: span(times.map(|when| when.at)).unwrap_or((0.0, 1.0)),
            places: (LEFT, RIGHT),
        };
        let (events, levels) = placed(chart, &along);
        let top = 4.0 + real(levels) * LINE;
        Self {
            chart,
            along,
            top,
            bottom: top + real(chart.pieces.len()) * ROW,
            events,
        }
    }

    fn down(&self, x: f64, from: f64) -> Path {
        let (top, bottom) = (Point { x, y: from }, Point { x, y: self.bottom });
        Path::new().to(top).to(bottom)
    }

    /// The ticks that have room, the base line and the title.
    fn axis(&self) -> Markup {
        let (low, high) = self.along.values;
        let mut free = 0.0;
        let mut ticks = Vec::new();
        for (at, words) in &self.chart.ticks {
            if !(low..=high).contains(at) {
                continue;
            }
            let (x, long) = (self.along.place(*at), room(words));
            let middle = x.min(WIDTH - long / 2.0 - 2.0).max(long / 2.0 + 2.0);
            let named = middle - long / 2.0 >= free;
            if named {
                free = middle + long / 2.0 + 6.0;
            }
            ticks.push((x, middle, named.then_some(words)));
        }
        let base = [LEFT, RIGHT].map(|x| Point { x, y: self.bottom });
        html! {
            @for (x, middle, words) in ticks {
                path class="stroke-line hair" d=(self.down(x, self.top).d()) {}
                @if let Some(words) = words {
                    text class="label middle text-soft" x=[px(middle)] y=[px(self.bottom + 17.0)] { (words) }
                }
            }
            path class="stroke-ink fine" d=(Path::new().through(base).d()) {}
            text class="label end strong text-ink" x=[px(RIGHT)] y=[px(self.bottom + 36.0)] { (self.chart.along) }
        }
    }

    /// What befell the craft, across all rows.
    fn uprights(&self) -> Markup {
        html! {
            @for (x, level, _) in &self.events {
                path class="stroke-ink fine dash-short" d=(self.down(*x, self.letter(*level) + 3.0).d()) {}
            }
        }
    }

    fn letters(&self) -> Markup {
        html! {
            @for (x, level, event) in &self.events {
                @let mark = fitted(&event.mark, MARK);
                @let half = BOLD * room(&mark) / 2.0 + 2.0;
                text class="mark middle text-ink halo" x=[px(x.min(WIDTH - half).max(half))] y=[px(self.letter(*level))] { (mark) }
            }
        }
    }

    /// The base line of a letter.
    fn letter(&self, level: usize) -> f64 {
        self.top - 4.0 - real(level) * LINE
    }

    fn row(&self, piece: &Piece, top: f64) -> Markup {
        let label = fitted(&piece.label, (WIDTH - 20.0) / BOLD);
        let left = WIDTH - 20.0 - BOLD * room(&label) - room(" · ");
        let note = fitted(&piece.note, left.max(0.0));
        let y = top + DOWN;
        let (marks, _) = signs::hung(piece, &self.along);
        html! {
            text class="label start text-ink halo" x=[px(LEFT)] y=[px(top + 16.0)] {
                tspan class="strong" { (label) }
                @if !piece.note.is_empty() && note != "…" { tspan class="text-soft" { " · " (note) } }
            }
            (self.life(piece, y))
            @for Mark { time, x, found } in marks {
                @let thread = [Point { x: time, y }, Point { x, y: y + HANG - 5.0 }];
                path class="stroke-ink fine" d=(Path::new().through(thread).d()) {}
                (sign(found, Point { x, y: y + HANG }))
            }
        }
    }

    /// From its fitting to its end; broken where its fitting is not known.
    fn life(&self, piece: &Piece, y: f64) -> Markup {
        let end = piece.out.as_ref().unwrap_or(&self.chart.now).at;
        let begin = piece.fitted.as_ref().map(|when| when.at);
        if !end.is_finite() || begin.is_some_and(|begin| !begin.is_finite() || begin > end) {
            return html! {};
        }
        let at = |x: f64, up: f64| Point { x, y: y - up };
        let from = begin.map_or(LEFT, |begin| self.along.place(begin));
        let to = self.along.place(end);
        let to = if piece.out.is_some() { to } else { to + 8.0 };
        let stroke = |path: Path, x: f64| path.lift().to(at(x, 5.0)).to(at(x, -5.0));
        let mut ends = Path::new();
        if begin.is_some() {
            ends = stroke(ends, from);
        }
        ends = match piece.out {
            Some(_) => stroke(ends, to),
            None => ends
                .lift()
                .through([at(to - 6.0, 6.0), at(to, 0.0), at(to - 6.0, -6.0)]),
        };
        let line = Path::new().to(at(from, 0.0)).to(at(to, 0.0));
        let class = match begin {
            Some(_) => "stroke-ink heavy",
            None => "stroke-ink heavy dash-short",
        };
        html! {
            path class=(class) d=(line.d()) {}
            path class="stroke-ink bold" d=(ends.d()) {}
        }
    }

    /// The signs and letters that are used, with their words; and where the paper ends.
    fn key(&self) -> (Markup, f64) {
        let mut base = self.bottom + 58.0;
        let used = signs::ALL.iter().filter(|(found, _)| {
            let mut looks = self.chart.pieces.iter().flat_map(|piece| &piece.looks);
            looks.any(|look| look.found == *found)
        });
        let mut x = LEFT;
        let mut placed = Vec::new();
        for (found, words) in used {
            placed.push((x, base, *found, *words));
            x += 26.0 + room(words);
            if x > WIDTH - 90.0 {
                (x, base) = (LEFT, base + LINE + 1.0);
            }
        }
        if x > LEFT {
            base += LINE + 1.0;
        }
        let mut named: Vec<(f64, String, String)> = Vec::new();
        for (mark, words) in self.meanings() {
            for (place, line) in lines(words, WIDTH - LEFT - MARK - 14.0)
                .into_iter()
                .enumerate()
            {
                let mark = if place == 0 {
                    fitted(mark, MARK)
                } else {
                    String::new()
                };
                named.push((base, mark, line));
                base += LINE;
            }
        }
        let key = html! {
            @for (x, base, found, words) in placed {
                (sign(found, Point { x: x + 6.0, y: base - 4.5 }))
                text class="label start text-soft" x=[px(x + 17.0)] y=[px(base)] { (words) }
            }
            @for (base, mark, line) in named {
                @if !mark.is_empty() {
                    text class="mark start text-ink" x=[px(LEFT)] y=[px(base)] { (mark) }
                }
                text class="label start text-soft" x=[px(LEFT + MARK + 6.0)] y=[px(base)] { (line) }
            }
        };
        (key, base - LINE)
    }

    /// Each letter with its words, once.
    fn meanings(&self) -> Vec<(&'a str, &'a str)> {
        let mut meanings: Vec<(&str, &str)> = Vec::new();
        for (.., event) in &self.events {
            let meaning = (event.mark.as_str(), event.words.as_str());
            if !meanings.contains(&meaning) {
                meanings.push(meaning);
            }
        }
        meanings
    }
}

/// The most room a letter takes.
const MARK: f64 = 30.0;

/// The events on the axis, earliest first, each letter on the first line where it lies on no other; and how
/// many lines that takes.
fn placed<'a>(chart: &'a HistoryChart, along: &Scale) -> (Vec<(f64, usize, &'a Happening)>, usize) {
    let finite = chart
        .events
        .iter()
        .filter(|event| event.when.at.is_finite());
    let mut events: Vec<&Happening> = finite.collect();
    events.sort_by(|a, b| a.when.at.total_cmp(&b.when.at));
    let mut free: Vec<f64> = Vec::new();
    let mut placed = Vec::new();
    for event in events {
        let x = along.place(event.when.at);
        let half = BOLD * room(&fitted(&event.mark, MARK)) / 2.0 + 2.0;
        let middle = x.min(WIDTH - half).max(half);
        let level = free.iter().position(|free| middle - half >= *free);
        let level = level.unwrap_or_else(|| {
            free.push(0.0);
            free.len() - 1
        });
        free[level] = middle + half;
        placed.push((x, level, event));
    }
    (placed, free.len())
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &HistoryChart) -> String {
    let along = Sheet::new(chart).along;
    let mut said = vec![format!("{}, up to {}.", chart.along, chart.now.text)];
    for piece in &chart.pieces {
        let mut told = vec![match &piece.fitted {
            Some(when) => format!("fitted at {}", when.text),
            None => "fitted at a time not known".to_owned(),
        }];
        let looks = piece.looks.iter();
        told.extend(looks.map(|look| {
            let (found, when) = (signs::words(look.found), &look.when.text);
            format!("{found} at {when}")
        }));
        told.push(match &piece.out {
            Some(when) => format!("taken out at {}", when.text),
            None => "still running".to_owned(),
        });
        said.push(format!("{}: {}.", piece.label, told.join(", ")));
        let ends = piece.fitted.iter().chain(&piece.out);
        let looks = piece.looks.iter().map(|look| &look.when);
        let times = ends.chain(looks);
        match times.filter(|when| !when.at.is_finite()).count() {
            0 => {}
            1 => said.push("A time is no number and left out.".to_owned()),
            many => said.push(format!("{many} times are no numbers and left out.")),
        }
        match signs::hung(piece, &along).1 {
            0 => {}
            1 => said.push("There is no room to draw one look.".to_owned()),
            many => said.push(format!("There is no room to draw {many} looks.")),
        }
    }
    for event in &chart.events {
        let Happening { when, mark, words } = event;
        let left_out = if when.at.is_finite() {
            ""
        } else {
            ", left out: no number"
        };
        said.push(format!("{mark}: {words} at {}{left_out}.", when.text));
    }
    said.join(" ")
}
