//! Where the costs lie on the paper, and where a name beside one lies on nothing else.

use super::{BOTTOM, Basin, BasinChart, LEFT, RIGHT, STROKES, TOP, WIDTH};
use crate::axes::TICKS;
use crate::scale::span;
use crate::trend::Foreseen;
use crate::words::{BOLD, fitted, room};
use crate::{Frame, Path, Point, Scale};

/// Costs this many times the least are off the paper: a basin is read at its bottom.
const TALLEST: f64 = 3.0;
/// The most room a name beside its curve may take; its row has it in full.
const LONGEST: f64 = 120.0;
/// Height of a name above and below its base line.
const NAME: (f64, f64) = (11.0, 4.0);
/// Columns in which a name is held against the curves.
const COLUMN: f64 = 4.0;
/// Places tried along a curve.
const TRIED: u32 = 40;
/// Half the room kept free about a dot.
const DOT: f64 = 7.0;

/// The chart on its paper.
pub(super) struct Sheet<'a> {
    pub(super) chart: &'a BasinChart,
    pub(super) frame: Frame,
    pub(super) along: Scale,
    pub(super) up: Scale,
    /// What is finite of each part that is drawn.
    pub(super) lines: Vec<Vec<Foreseen>>,
}

/// A name beside its curve.
pub(super) struct Name {
    pub(super) words: String,
    pub(super) left: f64,
    pub(super) base: f64,
}

impl<'a> Sheet<'a> {
    pub(super) fn new(chart: &'a BasinChart) -> Self {
        let frame = Frame {
            left: LEFT,
            top: TOP,
            right: RIGHT,
            bottom: BOTTOM,
        };
        let drawn = || chart.basins.iter().take(STROKES.len());
        let lines: Vec<Vec<Foreseen>> = drawn().map(finite).collect();
        let ages = lines.iter().flatten().map(|p| p.at);
        let flat = drawn().filter_map(flat);
        let flat = flat.flat_map(|(low, high)| [Some(low), high]).flatten();
        // The bars are drawn as far as the curves; alone they make the axis.
        let ages = span(ages).or_else(|| span(flat.chain([0.0])));
        let costs = lines.iter().flatten().flat_map(|p| [p.low, p.high]);
        let tallest = tallest(&lines);
        let costs = costs.map(|cost| cost.min(tallest)).chain([0.0]);
        let scale = |values: Option<(f64, f64)>, places| Scale {
            values: values.unwrap_or((0.0, 1.0)),
            places,
        };
        Self {
            chart,
            frame,
            along: scale(ages, (frame.left, frame.right)).nice(TICKS),
            up: scale(span(costs), (frame.bottom, frame.top)).nice(TICKS),
            lines,
        }
    }

    /// How many parts are drawn.
    pub(super) fn drawn(&self) -> usize {
        self.lines.len()
    }

    fn at(&self, age: f64, cost: f64) -> Point {
        Point {
            x: self.along.place(age),
            y: self.up.place(cost),
        }
    }

    /// The band, cut off at the top.
    pub(super) fn band(&self, line: &[Foreseen]) -> Path {
        let edge = |value: fn(&Foreseen) -> f64| {
            let edge: Vec<(f64, f64)> = line.iter().map(|p| (p.at, value(p))).collect();
            let stretches = self.crossed(&edge).into_iter();
            let top = self.up.values.1;
            stretches.map(move |(age, cost)| self.at(age, cost.min(top)))
        };
        let high: Vec<Point> = edge(|p| p.high).collect();
        Path::new()
            .through(edge(|p| p.low))
            .through(high.into_iter().rev())
            .close()
    }

    /// The cost, lifted where it is off the paper.
    pub(super) fn cost(&self, line: &[Foreseen]) -> Path {
        let middle: Vec<(f64, f64)> = line.iter().map(|p| (p.at, p.middle)).collect();
        let top = self.up.values.1;
        let crossed = self.crossed(&middle).into_iter();
        crossed.fold(Path::new(), |path, (age, cost)| {
            if cost > top {
                path.lift()
            } else {
                path.to(self.at(age, cost))
            }
        })
    }

    /// The points and those where they cross the top.
    fn crossed(&self, line: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let top = self.up.values.1;
        let mut crossed = Vec::new();
        for (place, (age, cost)) in line.iter().enumerate() {
            let before = place.checked_sub(1).and_then(|before| line.get(before));
            if let Some((from, was)) = before.filter(|(_, was)| (*was > top) != (*cost > top)) {
                crossed.push((from + (top - was) / (cost - was) * (age - from), top));
            }
            crossed.push((*age, *cost));
        }
        crossed
    }

    /// Where each cost is least, if that is on the paper.
    pub(super) fn dots(&self) -> Vec<Option<Point>> {
        let basins = self.chart.basins.iter().zip(&self.lines);
        let dot = |(basin, line): (&Basin, &Vec<Foreseen>)| {
            let point = between(line, basin.least?)?;
            Some(self.at(point.at, point.middle)).filter(|point| point.y >= TOP)
        };
        basins.map(dot).collect()
    }

    /// The names that find a free place, none on another or on a dot.
    pub(super) fn names(&self) -> Vec<Name> {
        let mut taken: Vec<Frame> = self.dots().into_iter().flatten().map(about).collect();
        let mut names = Vec::new();
        for (basin, line) in self.chart.basins.iter().zip(&self.lines) {
            let words = fitted(&basin.name, LONGEST);
            let long = BOLD * room(&words);
            let Some((left, base)) = self.free(line, long, &taken) else {
                continue;
            };
            taken.push(boxed(left, base, long));
            names.push(Name { words, left, base });
        }
        names
    }

    /// Of all places along a curve, just above or below it, the free one that lies on fewest curves,
    /// the rightmost of several: there the curves are apart.
    fn free(&self, line: &[Foreseen], long: f64, taken: &[Frame]) -> Option<(f64, f64)> {
        let (first, last) = (line.first()?.at, line.last()?.at);
        let mut best: Option<(u32, (f64, f64))> = None;
        for (off, tried) in tries() {
            let age = first + (last - first) * f64::from(tried) / f64::from(TRIED);
            let Some(point) = between(line, age) else {
                continue;
            };
            let Point { x, y } = self.at(age, point.middle);
            let place = (x - long / 2.0, y + off);
            let name = boxed(place.0, place.1, long);
            if !self.holds(&name) || taken.iter().any(|other| overlap(other, &name)) {
                continue;
            }
            let met = self.met(&name);
            if best.is_none_or(|(least, _)| met < least) {
                best = Some((met, place));
            }
        }
        best.map(|(_, place)| place)
    }

    fn holds(&self, name: &Frame) -> bool {
        let field = self.frame;
        let along = name.left >= field.left + 2.0 && name.right <= WIDTH - 2.0;
        along && name.top >= field.top && name.bottom <= field.bottom
    }

    /// In how many columns the name lies on a curve.
    fn met(&self, name: &Frame) -> u32 {
        let mut met = 0;
        for line in &self.lines {
            for pair in line.windows(2) {
                let (from, to) = (
                    self.at(pair[0].at, pair[0].middle),
                    self.at(pair[1].at, pair[1].middle),
                );
                let mut x = from.x.max(name.left);
                while x < to.x.min(name.right) {
                    let y = from.y + (x - from.x) / (to.x - from.x) * (to.y - from.y);
                    met += u32::from(name.top <= y && y <= name.bottom);
                    x += COLUMN;
                }
            }
        }
        met
    }
}

/// How far below the curve the base line is tried, the nearest first, and how far along.
fn tries() -> impl Iterator<Item = (f64, u32)> {
    let offs = [-6.0, -10.0, -15.0, 15.0, 19.0].into_iter();
    offs.flat_map(|off| (0..=TRIED).rev().map(move |tried| (off, tried)))
}

fn finite(basin: &Basin) -> Vec<Foreseen> {
    let finite = |p: &&Foreseen| {
        [p.at, p.low, p.middle, p.high]
            .iter()
            .all(|v| v.is_finite())
    };
    basin.points.iter().filter(finite).copied().collect()
}

/// The ages that cost hardly more, where they are numbers in order.
pub(super) fn flat(basin: &Basin) -> Option<(f64, Option<f64>)> {
    let in_order = |high: f64| high.is_finite() && basin.flat.is_some_and(|(low, _)| low <= high);
    basin
        .flat
        .filter(|(low, high)| low.is_finite() && high.is_none_or(in_order))
}

/// The highest cost on the paper.
fn tallest(lines: &[Vec<Foreseen>]) -> f64 {
    let least = |line: &Vec<Foreseen>| {
        let least = line.iter().min_by(|a, b| a.middle.total_cmp(&b.middle))?;
        Some(least.high.max(TALLEST * least.middle))
    };
    let tallest = lines.iter().filter_map(least);
    tallest.fold(f64::NEG_INFINITY, f64::max)
}

/// The curve at an age between two of its points.
pub(super) fn between(line: &[Foreseen], age: f64) -> Option<Foreseen> {
    let inside = |pair: &&[Foreseen]| pair[0].at <= age && age <= pair[1].at;
    let Some(pair) = line.windows(2).find(inside) else {
        return line.iter().find(|p| p.at.total_cmp(&age).is_eq()).copied();
    };
    let (from, to) = (pair[0], pair[1]);
    let span = to.at - from.at;
    let share = if span > 0.0 {
        (age - from.at) / span
    } else {
        0.0
    };
    let value = |from: f64, to: f64| from + share * (to - from);
    Some(Foreseen {
        at: age,
        low: value(from.low, to.low),
        middle: value(from.middle, to.middle),
        high: value(from.high, to.high),
    })
}

fn about(dot: Point) -> Frame {
    Frame {
        left: dot.x - DOT,
        top: dot.y - DOT,
        right: dot.x + DOT,
        bottom: dot.y + DOT,
    }
}

fn boxed(left: f64, base: f64, long: f64) -> Frame {
    Frame {
        left,
        top: base - NAME.0,
        right: left + long,
        bottom: base + NAME.1,
    }
}

fn overlap(one: &Frame, other: &Frame) -> bool {
    let along = one.left < other.right && other.left < one.right;
    along && one.top < other.bottom && other.top < one.bottom
}
