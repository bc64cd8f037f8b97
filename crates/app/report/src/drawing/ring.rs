//! The wear ring in section, seen along the shaft.
//!
//! Datum is the circle of the blade tips: the ring's surface stands outside it by the gap, enlarged.
//! Metal that is surely there is hatched, where it may be there is a clear band, and the line in the
//! band is the middle. What is surely free takes the tint of its state, a wedge a position.

use std::f64::consts::{FRAC_1_SQRT_2, TAU};

use chart::{Path, Point, Polar, num, px};
use maud::{Markup, html};
use workshop::job::{Rotation, View, blade_name, clock_name};

use super::{Drawing, Gap, Mark, Ring, impeller, plate};

pub(super) const CLOCK: Polar = Polar {
    centre: Point { x: 170.0, y: 172.0 },
};
/// Outside of the ring.
pub(super) const OUTER: f64 = 148.0;
/// The ring's surface where the gap is the largest drawn; outside it there is room for a number.
pub(super) const WORN: f64 = 106.0;
/// Circle of the blade tips.
pub(super) const TIP: f64 = 60.0;
/// Distance of the hatching lines.
const HATCH: f64 = 7.0;
/// Points along the ring's surface, all round.
const FINENESS: u8 = 120;

/// Draws the ring.
pub fn ring(ring: &Ring) -> Drawing {
    let round = Round::new(ring);
    let caption = round.caption();
    let svg = html! {
        svg class="drawing ring" viewBox="0 0 340 344" role="img" aria-label="Wear ring and impeller in section" {
            title { "Wear ring and impeller in section" }
            desc { (caption) @for position in round.positions() { " " (round.words(position)) } }
            (metal())
            @for position in round.positions() { (round.wedge(position)) }
            (round.surface())
            (round.limits())
            (impeller::draw(ring))
            (round.leaf())
            @for position in round.positions() {
                (plate::draw(&round.plate(position)))
                (round.name(position))
            }
            (turning(ring.rotation))
            @if !ring.across { (up()) }
        }
    };
    Drawing { svg, caption }
}

/// The angle of a clock position out of `positions`, with the clock from twelve, `rad`.
pub(super) fn angle(position: u8, positions: u8) -> f64 {
    f64::from(position) / f64::from(positions.max(1)) * TAU
}

/// An end of the interval, or its middle.
type End = fn(&Gap) -> f64;

/// The ring with the scale its gap is drawn at.
struct Round<'a> {
    ring: &'a Ring,
    /// Pixels for one display unit of gap.
    scale: f64,
}

impl<'a> Round<'a> {
    fn new(ring: &'a Ring) -> Self {
        let limits = [ring.limits.0, ring.limits.1];
        let limits = limits.into_iter().flatten().filter(|l| l.is_finite());
        let largest = (0..ring.positions)
            .filter_map(|position| gap(ring, position))
            .map(|gap| gap.high)
            .chain(limits)
            .fold(0.0, f64::max);
        let scale = if largest > 0.0 {
            (WORN - TIP) / largest
        } else {
            0.0
        };
        Self { ring, scale }
    }

    fn positions(&self) -> std::ops::Range<u8> {
        0..self.ring.positions
    }

    fn mark(&self, position: u8) -> Mark {
        let mark = self.ring.standing.get(usize::from(position));
        mark.copied().unwrap_or(Mark::Unread)
    }

    fn asked(&self, position: u8) -> bool {
        self.ring.at.is_some_and(|(_, asked)| asked == position)
    }

    fn radius(&self, gap: f64) -> f64 {
        TIP + self.scale * gap
    }

    /// The ring's surface in the wedge of a position, from half a wedge before it to half a wedge
    /// after. Between neighbours that are both read it runs smoothly; else it stays as read.
    fn edge(&self, position: u8, end: End) -> Option<Vec<Point>> {
        let positions = self.ring.positions;
        let here = end(&gap(self.ring, position)?);
        let beside = |other| gap(self.ring, other).map_or(here, |gap| end(&gap));
        let before = beside(position.checked_sub(1).unwrap_or(positions - 1));
        let after = beside(if position + 1 < positions {
            position + 1
        } else {
            0
        });
        let steps = FINENESS / positions.min(FINENESS);
        let point = |step| {
            let share = f64::from(step) / f64::from(steps) - 0.5;
            let towards = if share < 0.0 { before } else { after };
            let value = here + (towards - here) * smooth(share.abs());
            let turn = share * TAU / f64::from(positions);
            CLOCK.at(self.radius(value), angle(position, positions) + turn)
        };
        Some((0..=steps).map(point).collect())
    }

    /// Points of the circle with this radius, in the wedge of a position.
    fn circle(&self, position: u8, radius: f64) -> Vec<Point> {
        let positions = f64::from(self.ring.positions);
        let at = |share: f64| (f64::from(position) + share) * TAU / positions;
        (-6..=6)
            .map(|step| CLOCK.at(radius, at(f64::from(step) / 12.0)))
            .collect()
    }

    /// What is free, and what may be metal, at one position.
    fn wedge(&self, position: u8) -> Markup {
        let between = |outer: Vec<Point>| {
            let inner = self.circle(position, TIP).into_iter().rev();
            Path::new().through(outer).through(inner).close()
        };
        let (Some(low), Some(high)) = (
            self.edge(position, |gap| gap.low),
            self.edge(position, |gap| gap.high),
        ) else {
            let unknown = self.circle(position, WORN);
            let brim = Path::new().through(unknown.clone());
            let all = between(unknown);
            return html! {
                path class="fill-card" d=(all.d()) {}
                @if self.mark(position) == Mark::Contradiction {
                    path class="tint-ink" d=(all.d()) {}
                }
                path class="stroke-soft fine dots" d=(brim.d()) {}
            };
        };
        let tint = match self.mark(position) {
            Mark::Unread | Mark::Read => "tint-steel",
            Mark::In => "tint-good",
            Mark::Near => "tint-warn",
            Mark::Out => "tint-stop",
            Mark::Contradiction => "tint-ink",
        };
        let free = between(low);
        html! {
            path class="fill-card" d=(between(high).d()) {}
            path class=(tint) d=(free.d()) {}
        }
    }

    /// The ring's surface where it was read, and the borders of the wedges.
    fn surface(&self) -> Markup {
        let middle = self
            .positions()
            .filter_map(|position| self.edge(position, |gap| gap.middle))
            .fold(Path::new(), |path, edge| path.lift().through(edge));
        let borders = self.positions().fold(Path::new(), |path, position| {
            let (inner, outer) = (self.circle(position, TIP), self.edge(position, |g| g.low));
            let outer = outer.unwrap_or_else(|| self.circle(position, WORN));
            path.lift()
                .through(inner.first().copied())
                .through(outer.first().copied())
        });
        html! {
            path class="stroke-card fine" d=(borders.d()) {}
            path class="stroke-ink fine" d=(middle.d()) {}
        }
    }

    fn limits(&self) -> Markup {
        let circle = |limit: Option<f64>, class: &str| {
            let limit = limit.filter(|l| l.is_finite() && self.scale > 0.0);
            html! {
                @if let Some(limit) = limit {
                    circle class=(class) cx=[px(CLOCK.centre.x)] cy=[px(CLOCK.centre.y)] r=[px(self.radius(limit))] {}
                }
            }
        };
        html! {
            (circle(self.ring.limits.0, "stroke-ink fine dash-short"))
            (circle(self.ring.limits.1, "stroke-ink fine dash-long"))
        }
    }

    /// The leaf about to be tried, flat in the gap at the spot asked next.
    fn leaf(&self) -> Markup {
        let Some((_, position)) = self.ring.at else {
            return html! {};
        };
        let surface = gap(self.ring, position).map_or(WORN, |gap| self.radius(gap.middle));
        let angle = angle(position, self.ring.positions);
        let corner = |along: f64, out: f64| {
            let foot = CLOCK.at(f64::midpoint(TIP, surface) + out, angle);
            Point {
                x: foot.x + along * angle.cos(),
                y: foot.y + along * angle.sin(),
            }
        };
        let leaf = Path::new().through([
            corner(-19.0, -2.5),
            corner(19.0, -2.5),
            corner(19.0, 2.5),
            corner(-19.0, 2.5),
        ]);
        html! { path class="fill-accent stroke-card fine" d=(leaf.close().d()) {} }
    }

    fn plate(&self, position: u8) -> plate::Plate {
        plate::Plate {
            angle: angle(position, self.ring.positions),
            number: gap(self.ring, position).and_then(|gap| num(gap.middle, self.ring.decimals)),
            mark: self.mark(position),
            asked: self.asked(position),
        }
    }

    /// The clock reading outside the ring; boxed where the next leaf goes.
    fn name(&self, position: u8) -> Markup {
        let name = clock_name(position, self.ring.positions);
        let angle = angle(position, self.ring.positions);
        let half = match name.len() {
            1 => 8.0,
            2 => 11.0,
            _ => 19.0,
        };
        let asked = self.asked(position);
        // Long names stand farther out, so that none touches the ring.
        let clear = if asked { 8.5 } else { 5.0 };
        let reach = (half - 3.0) * angle.sin().abs() + 6.0 * angle.cos().abs();
        let Point { x, y } = CLOCK.at(OUTER + clear + reach, angle);
        html! {
            @if asked {
                rect class="fill-accent" x=[px(x - half)] y=[px(y - 9.0)] width=[px(2.0 * half)] height="18" {}
            }
            text class={ "label middle " (if asked { "text-card strong" } else { "text-soft" }) }
                x=[px(x)] y=[px(y + 4.5)] { (name) }
        }
    }

    /// One position in words, for those who do not see the drawing.
    fn words(&self, position: u8) -> String {
        let name = clock_name(position, self.ring.positions);
        let state = match self.mark(position) {
            Mark::Unread => "not read",
            Mark::Read => "read",
            Mark::In => "in tolerance",
            Mark::Near => "near a limit",
            Mark::Out => "out of tolerance",
            Mark::Contradiction => "readings contradict each other",
        };
        let number = |value| num(value, self.ring.decimals).unwrap_or_default();
        let given = self.ring.gaps.get(usize::from(position)).copied().flatten();
        match (gap(self.ring, position), given) {
            (Some(gap), _) => format!(
                "At {name}: {} {}, {} to {}, {state}.",
                number(gap.middle),
                self.ring.unit,
                number(gap.low),
                number(gap.high)
            ),
            (None, Some(_)) => format!("At {name}: not a number, left out."),
            (None, None) => format!("At {name}: {state}."),
        }
    }

    fn caption(&self) -> String {
        let ring = self.ring;
        let mut said = vec![match ring.view {
            View::LookingForward => "Looking forward from behind".to_owned(),
            View::LookingAft => "Looking aft from ahead".to_owned(),
        }];
        if ring.across {
            said.push("Shaft upright".to_owned());
        }
        if let Some(times) = self.enlarged() {
            said.push(format!("Gap drawn about {times} times larger"));
        }
        let number = |limit: Option<f64>| limit.and_then(|limit| num(limit, ring.decimals));
        match (number(ring.limits.0), number(ring.limits.1)) {
            (Some(least), Some(greatest)) => said.push(format!(
                "Dashed: the manual's limits, {least} (inner) and {greatest} {} (outer)",
                ring.unit
            )),
            (Some(least), None) => {
                said.push(format!("Dashed: the manual's least, {least} {}", ring.unit));
            }
            (None, Some(greatest)) => said.push(format!(
                "Dashed: the manual's greatest, {greatest} {}",
                ring.unit
            )),
            (None, None) => {}
        }
        if self.positions().any(|p| gap(ring, p).is_some()) {
            said.push("Clear band at the ring's edge: 90 % interval".to_owned());
        }
        if let Some((blade, position)) = ring.at {
            said.push(format!(
                "Bar in the gap: the next leaf, blade {} at {}",
                blade_name(blade),
                clock_name(position, ring.positions)
            ));
        }
        said.join(". ") + "."
    }

    /// How much larger than the ring itself the gap is drawn, to two figures.
    fn enlarged(&self) -> Option<String> {
        let times = self.scale * self.ring.bore / 2.0 / TIP;
        if !(times.is_finite() && times > 0.0) {
            return None;
        }
        let step = 10_f64.powf(times.log10().floor() - 1.0);
        num((times / step).round() * step, u32::from(step < 1.0))
    }
}

/// The gap at a position, if it can be drawn.
fn gap(ring: &Ring, position: u8) -> Option<Gap> {
    let gap = ring.gaps.get(usize::from(position)).copied().flatten()?;
    [gap.low, gap.middle, gap.high]
        .iter()
        .all(|end| end.is_finite())
        .then_some(gap)
}

/// The whole ring as hatched metal; what the gap leaves free is painted over it.
fn metal() -> Markup {
    let centre = CLOCK.centre;
    let count = (2.0 * OUTER / HATCH).floor();
    let hatch = std::iter::successors(Some(0.5), |n| Some(n + 1.0))
        .take_while(|n| *n < count)
        .fold(Path::new(), |path, n| {
            let across = (n - count / 2.0) * HATCH;
            let half = (OUTER * OUTER - across * across).max(0.0).sqrt();
            let end = |along: f64| Point {
                x: centre.x + (across + along) * FRAC_1_SQRT_2,
                y: centre.y + (across - along) * FRAC_1_SQRT_2,
            };
            path.lift().to(end(-half)).to(end(half))
        });
    html! {
        circle class="fill-steel" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(OUTER)] {}
        path class="stroke-hatch hair" d=(hatch.d()) {}
        circle class="stroke-ink bold" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(OUTER)] {}
        circle class="fill-card" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(TIP)] {}
    }
}

/// From 0 to 1 without a kink at either end.
fn smooth(share: f64) -> f64 {
    share * share * (3.0 - 2.0 * share)
}

/// A curved arrow outside the ring beside twelve, and what it says.
fn turning(rotation: Rotation) -> Markup {
    let (tail, head) = match rotation {
        Rotation::Clockwise => (0.12, 0.38),
        Rotation::Anticlockwise => (0.38, 0.12),
    };
    html! {
        (impeller::arrow(159.0, tail, head))
        text class="label end text-soft" x="337" y="16" { "turns this way" }
    }
}

/// Which side of the ring is up as it was measured.
fn up() -> Markup {
    let shaft = Path::new()
        .to(Point { x: 16.0, y: 44.0 })
        .to(Point { x: 16.0, y: 14.0 });
    let head = Path::new()
        .to(Point { x: 16.0, y: 4.0 })
        .to(Point { x: 21.5, y: 16.0 })
        .to(Point { x: 10.5, y: 16.0 });
    html! {
        path class="stroke-ink bold" d=(shaft.d()) {}
        path class="fill-ink" d=(head.close().d()) {}
        text class="label start strong text-ink" x="27" y="19" { "UP" }
    }
}
