//! Pump and engine shaft from the side and from above, with what each mount must do.

use chart::{Path, Point, px};
use maud::{Markup, html};
use quantity::Unit;

use super::Drawing;
use crate::words;

/// Where the coupling stands, and where the engine's shaft ends.
const COUPLING: f64 = 104.0;
const AFT: f64 = 18.0;
const FORWARD: f64 = 330.0;
const HEIGHT: f64 = 178.0;
/// How far the engine's shaft is drawn off at most.
const MOST: f64 = 34.0;
/// Where no mount was told, so much of the engine is drawn, `m`.
const ENGINE: f64 = 0.4;

/// The engine's axis in one plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lie {
    /// Off the pump's at the coupling, up or to port, `m`.
    pub offset: f64,
    /// And so much more a metre forward.
    pub slope: f64,
}

/// A mount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foot {
    /// Its number in the list.
    pub number: usize,
    /// Forward of the coupling, `m`.
    pub forward: f64,
    /// How far up it must go.
    pub up: Option<f64>,
    /// How far to port.
    pub port: Option<f64>,
}

/// Pump and engine.
#[derive(Clone, Debug, PartialEq)]
pub struct Driveline {
    /// From the side, seen from starboard: forward is to the right.
    pub side: Lie,
    /// From above: port is up.
    pub top: Lie,
    /// The mounts.
    pub feet: Vec<Foot>,
    /// The unit of the numbers.
    pub unit: Unit,
}

/// Draws both views.
pub fn driveline(of: &Driveline) -> Drawing {
    let far = of.feet.iter().map(|foot| foot.forward).fold(0.0, f64::max);
    let length = if far > 0.0 { far * 1.12 } else { ENGINE };
    let ends = |lie: Lie| [lie.offset, lie.offset + lie.slope * length];
    let most = [of.side, of.top]
        .into_iter()
        .flat_map(ends)
        .fold(1e-6, |most: f64, off| most.max(off.abs()));
    let scale = Scale {
        along: (FORWARD - COUPLING) / length,
        across: MOST / most,
    };
    let times = scale.across / scale.along;
    let side = View {
        name: "FROM THE SIDE",
        ways: ("up", "down"),
        lie: of.side,
        moves: |foot| foot.up,
        zero: 0.0,
    };
    let top = View {
        name: "FROM ABOVE",
        ways: ("port", "starboard"),
        lie: of.top,
        moves: |foot| foot.port,
        zero: HEIGHT,
    };
    let svg = html! {
        svg class="drawing ring strip" viewBox="0 0 340 364" role="img" aria-label="Pump and engine shaft" {
            title { "Pump and engine shaft" }
            desc { (spoken(of)) }
            (view(of, &side, scale))
            (view(of, &top, scale))
        }
    };
    Drawing {
        svg,
        caption: format!(
            "Aft is to the left. Thick: the pump’s shaft, which stays; its line goes on dashed. Thin: the \
             engine’s shaft, drawn {} times too far off. Arrows: how the mount of that number must \
             move, with the true figure.",
            round(times)
        ),
    }
}

#[derive(Clone, Copy)]
struct Scale {
    along: f64,
    across: f64,
}

struct View {
    name: &'static str,
    ways: (&'static str, &'static str),
    lie: Lie,
    moves: fn(&Foot) -> Option<f64>,
    zero: f64,
}

fn view(of: &Driveline, view: &View, scale: Scale) -> Markup {
    let middle = view.zero + 88.0;
    let at = |forward: f64, off: f64| Point {
        x: COUPLING + forward * scale.along,
        y: middle - off * scale.across,
    };
    let end = (FORWARD - COUPLING) / scale.along;
    let lie = |forward: f64| at(forward, view.lie.offset + view.lie.slope * forward);
    let line = |from: Point, to: Point| Path::new().to(from).to(to);
    let level = |x: f64| Point { x, y: middle };
    let cross = |point: Point| {
        line(
            Point {
                y: point.y - 13.0,
                ..point
            },
            Point {
                y: point.y + 13.0,
                ..point
            },
        )
    };
    html! {
        text class="label start strong text-ink" x=[px(AFT)] y=[px(view.zero + 14.0)] { (view.name) }
        text class="label start text-soft" x=[px(AFT)] y=[px(middle - 42.0)] { (view.ways.0) " ↑" }
        text class="label start text-soft" x=[px(AFT)] y=[px(middle + 52.0)] { (view.ways.1) " ↓" }
        path class="stroke-soft hair dash-long" d=(line(level(COUPLING), level(FORWARD)).d()) {}
        path class="stroke-ink heavy" d=(line(level(AFT), level(COUPLING - 4.0)).d()) {}
        path class="stroke-ink heavy" d=(cross(level(COUPLING - 4.0)).d()) {}
        path class="stroke-accent bold" d=(line(lie(0.0), lie(end)).d()) {}
        path class="stroke-accent bold" d=(cross(lie(0.0)).d()) {}
        text class="label start text-ink" x=[px(AFT)] y=[px(middle + 18.0)] { "pump" }
        @for (group, share) in groups(of, view).iter().zip(0..) {
            (arrow(of, group, lie(group.forward), (middle, share)))
        }
    }
}

/// Mounts at one distance that move alike.
struct Group {
    forward: f64,
    numbers: Vec<String>,
    moves: f64,
}

fn groups(of: &Driveline, view: &View) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for foot in &of.feet {
        let Some(moves) = (view.moves)(foot) else {
            continue;
        };
        let number = foot.number.to_string();
        match groups
            .iter_mut()
            .find(|group| (group.forward - foot.forward).abs() < 1e-6)
        {
            Some(group) => group.numbers.push(number),
            None => groups.push(Group {
                forward: foot.forward,
                numbers: vec![number],
                moves,
            }),
        }
    }
    groups
}

/// From the engine's line to the pump's, with its figure at the foot of the view.
fn arrow(of: &Driveline, group: &Group, from: Point, (middle, share): (f64, i32)) -> Markup {
    let gap = middle - from.y;
    // Too short an arrow has no shaft: only its head is drawn.
    let size = gap.abs().min(8.0);
    let way = gap.signum();
    let head = Path::new()
        .to(Point { y: middle, ..from })
        .to(Point {
            x: from.x - 0.6 * size,
            y: middle - way * size,
        })
        .to(Point {
            x: from.x + 0.6 * size,
            y: middle - way * size,
        })
        .close();
    let shaft = Path::new().to(from).to(Point {
        y: middle - way * size,
        ..from
    });
    let (x, anchor) = if from.x > 250.0 {
        (FORWARD + 6.0, "end")
    } else {
        (from.x - 30.0, "start")
    };
    let y = middle + 52.0 + f64::from(share % 2) * 17.0;
    html! {
        path class="stroke-ink fine" d=(shaft.d()) {}
        path class="fill-ink" d=(head.d()) {}
        text class="label middle text-soft" x=[px(from.x)] y=[px(middle - 42.0)] { (group.numbers.join(" ")) }
        text class=(format!("label {anchor} text-ink")) x=[px(x)] y=[px(y)] {
            (group.numbers.join(" ")) ": " (signed(group.moves, of.unit))
        }
    }
}

/// `+0.361 mm`, with a sign that stands for up or port.
fn signed(value: f64, unit: Unit) -> String {
    let sign = if value < 0.0 { "−" } else { "+" };
    let other = words::other(unit);
    format!(
        "{sign}{} ({})",
        words::length(value.abs(), unit),
        words::length(value.abs(), other)
    )
}

/// Two figures of a number above one.
fn round(value: f64) -> String {
    if value < 10.0 {
        return format!("{value:.1}");
    }
    let ten = 10.0_f64.powf(value.log10().floor() - 1.0);
    format!("{:.0}", (value / ten).round() * ten)
}

/// The picture in words.
fn spoken(of: &Driveline) -> String {
    let one = |lie: Lie, (high, low): (&str, &str)| {
        let way = if lie.offset < 0.0 { low } else { high };
        format!(
            "{} {way} at the coupling",
            words::length(lie.offset.abs(), of.unit)
        )
    };
    let feet = of.feet.iter().filter_map(|foot| {
        Some(format!(
            "; mount {}: {} up, {} to port",
            foot.number,
            signed(foot.up?, of.unit),
            signed(foot.port?, of.unit)
        ))
    });
    format!(
        "The engine’s shaft is {} and {}{}.",
        one(of.side, ("high", "low")),
        one(of.top, ("to port", "to starboard")),
        feet.collect::<String>()
    )
}
