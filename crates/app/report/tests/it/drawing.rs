//! The gallery of ring drawings, and what must hold of every one of them.

use report::drawing::{Drawing, Gap, Mark, Ring, STYLE, ring};
use workshop::job::{Rotation, View};

/// A gap with a little more than half a thou to either side.
fn gap(middle: f64) -> Gap {
    let (low, high) = (middle - 0.6, middle + 0.7);
    Gap { low, middle, high }
}

fn gaps(middles: &[f64]) -> Vec<Option<Gap>> {
    middles.iter().map(|middle| Some(gap(*middle))).collect()
}

/// Four blades, eight positions, all in tolerance; the numbers are invented.
fn ordinary() -> Ring {
    let middles = [13.3, 13.4, 13.1, 13.3, 13.0, 13.4, 13.2, 13.4];
    Ring {
        blades: 4,
        positions: 8,
        bore: 6102.0,
        view: View::LookingForward,
        rotation: Rotation::Clockwise,
        gaps: gaps(&middles),
        standing: vec![Mark::In; 8],
        limits: (Some(12.0), Some(16.0)),
        unit: "thou",
        decimals: 1,
        at: None,
        across: false,
    }
}

fn samples() -> Vec<(&'static str, Ring)> {
    vec![
        ("ordinary", ordinary()),
        ("empty", empty()),
        ("one_spot_out", one_spot_out()),
        ("contradiction", contradiction()),
        ("three_blades_looking_aft", looking_aft()),
        ("twelve_positions", twelve()),
        ("only_greatest", only_greatest()),
        ("no_limits", no_limits()),
        ("four_positions_millimetres", millimetres()),
    ]
}

fn empty() -> Ring {
    Ring {
        gaps: vec![None; 8],
        standing: vec![Mark::Unread; 8],
        at: Some((0, 0)),
        ..ordinary()
    }
}

fn one_spot_out() -> Ring {
    let mut ring = ordinary();
    ring.gaps[3] = Some(gap(10.5));
    ring.standing[3] = Mark::Out;
    ring.gaps[4] = Some(gap(12.2));
    ring.standing[4] = Mark::Near;
    ring.at = Some((3, 5));
    ring
}

fn contradiction() -> Ring {
    let mut ring = one_spot_out();
    ring.gaps[1] = None;
    ring.standing[1] = Mark::Contradiction;
    ring.gaps[6] = None;
    ring.standing[6] = Mark::Unread;
    ring.gaps[7] = None;
    ring.standing[7] = Mark::Unread;
    ring.at = Some((1, 6));
    ring
}

fn looking_aft() -> Ring {
    Ring {
        blades: 3,
        positions: 6,
        view: View::LookingAft,
        rotation: Rotation::Anticlockwise,
        gaps: gaps(&[13.0, 14.2, 15.6, 16.1, 15.2, 13.9]),
        standing: vec![
            Mark::In,
            Mark::In,
            Mark::Near,
            Mark::Near,
            Mark::In,
            Mark::In,
        ],
        at: Some((2, 1)),
        across: true,
        ..ordinary()
    }
}

fn twelve() -> Ring {
    let mut standing = vec![Mark::In; 12];
    standing[11] = Mark::Out;
    standing[0] = Mark::Near;
    let middles = [
        12.4, 13.1, 13.6, 13.9, 14.2, 14.1, 14.0, 13.6, 13.0, 12.9, 12.8, 10.1,
    ];
    Ring {
        blades: 8,
        positions: 12,
        gaps: gaps(&middles),
        standing,
        at: Some((0, 1)),
        ..ordinary()
    }
}

fn only_greatest() -> Ring {
    let mut ring = ordinary();
    ring.limits = (None, Some(14.0));
    ring.gaps[2] = Some(gap(21.0));
    ring.standing[2] = Mark::Out;
    ring
}

fn no_limits() -> Ring {
    Ring {
        limits: (None, None),
        standing: vec![Mark::Read; 8],
        ..ordinary()
    }
}

fn millimetres() -> Ring {
    let wide = |middle: f64| {
        let (low, high) = (middle - 0.018, middle + 0.02);
        Some(Gap { low, middle, high })
    };
    Ring {
        blades: 2,
        positions: 4,
        bore: 155.0,
        gaps: [0.330, 0.342, 0.411, 0.355].into_iter().map(wide).collect(),
        standing: vec![Mark::In, Mark::In, Mark::Out, Mark::In],
        limits: (Some(0.30), Some(0.38)),
        unit: "mm",
        decimals: 3,
        at: Some((1, 3)),
        ..ordinary()
    }
}

fn text(drawing: &Drawing) -> String {
    // One element a line, so that a change can be read.
    drawing.svg.0.replace("><", ">\n<") + "\n\n" + &drawing.caption
}

#[test]
fn regress_ring_gallery() {
    for (name, sample) in samples() {
        insta::assert_snapshot!(format!("ring_{name}"), text(&ring(&sample)));
    }
}

/// What no drawing may stumble over, though no job should hold it.
fn hostile() -> Vec<(&'static str, Ring)> {
    let odd = |low, middle, high| {
        let mut ring = ordinary();
        ring.gaps[2] = Some(Gap { low, middle, high });
        ring
    };
    let shape = |positions, blades| Ring {
        positions,
        blades,
        at: Some((9, 200)),
        ..ordinary()
    };
    let mut limits = ordinary();
    limits.limits = (Some(f64::NAN), Some(f64::INFINITY));
    limits.bore = f64::NAN;
    vec![
        ("no number", odd(f64::NAN, 13.0, 14.0)),
        ("no upper end", odd(12.0, 13.0, f64::INFINITY)),
        ("overlap", odd(-3.0, -1.0, 0.0)),
        ("nothing to draw", shape(0, 0)),
        ("more than is read", shape(255, 255)),
        ("one", shape(1, 1)),
        ("limits", limits),
    ]
}

#[test]
fn law_every_drawing_is_sound() {
    for (name, sample) in samples().into_iter().chain(hostile()) {
        let Drawing { svg, caption } = ring(&sample);
        for word in ["NaN", "inf", "style=", "-0.00", "Some("] {
            assert!(!svg.0.contains(word), "{name}: {word}");
            assert!(!caption.contains(word), "{name}: {word}");
        }
        assert_nested(name, &svg.0);
        assert_styled(name, &svg.0);
    }
}

#[test]
fn law_charts_use_the_same_style() {
    let chart = chart::IntervalChart {
        title: "gaps".to_owned(),
        axis: "gap, thou".to_owned(),
        decimals: 1,
        least: Some(12.0),
        greatest: Some(16.0),
        categories: vec![
            chart::Category {
                label: "12".to_owned(),
                intervals: vec![chart::Interval {
                    label: "A".to_owned(),
                    low: 12.5,
                    median: 13.0,
                    high: 13.5,
                }],
            },
            chart::Category {
                label: "6".to_owned(),
                intervals: Vec::new(),
            },
        ],
    };
    let svg = chart::intervals(&chart).0;
    assert_nested("chart", &svg);
    assert_styled("chart", &svg);
}

#[test]
fn law_the_picture_is_the_same_in_any_unit() {
    let thou = one_spot_out();
    let factor = 0.0254;
    let scaled = |gap: &Gap| Gap {
        low: gap.low * factor,
        middle: gap.middle * factor,
        high: gap.high * factor,
    };
    let millimetres = Ring {
        bore: thou.bore * factor,
        gaps: thou.gaps.iter().map(|g| g.as_ref().map(scaled)).collect(),
        limits: (
            thou.limits.0.map(|l| l * factor),
            thou.limits.1.map(|l| l * factor),
        ),
        unit: "mm",
        decimals: 3,
        ..thou.clone()
    };
    let (one, other) = (ring(&thou), ring(&millimetres));
    // Only the surface and the wedges: the plates are as wide as their numbers.
    for class in ["stroke-ink fine\" d", "tint-stop\" d", "fill-accent"] {
        let drawn = |svg: &str| svg.split(class).nth(1).unwrap()[..200].to_owned();
        assert_eq!(drawn(&one.svg.0), drawn(&other.svg.0), "{class}");
    }
    let said = |caption: &str| caption.split(". ").nth(1).unwrap().to_owned();
    assert_eq!(said(&one.caption), said(&other.caption));
}

#[test]
fn law_the_exaggeration_said_is_the_one_drawn() {
    for (name, sample) in samples() {
        let (Some(least), Some(greatest)) = sample.limits else {
            continue;
        };
        let Drawing { svg, caption } = ring(&sample);
        let radius = |class: &str| {
            let rest = svg.0.split(&format!("class=\"{class}\"")).nth(1).unwrap();
            let written = attributes(rest, "r").next().unwrap();
            written.parse::<f64>().unwrap()
        };
        let gap = radius("stroke-ink fine dash-long") - radius("stroke-ink fine dash-short");
        let drawn = gap / (greatest - least);
        let true_to_scale = radius("stroke-line hair") / (sample.bore / 2.0);
        let said = caption.split("about ").nth(1).unwrap();
        let said: f64 = said.split(' ').next().unwrap().parse().unwrap();
        // Two figures are said: half of the second one is 5 % at worst.
        let ratio = drawn / true_to_scale / said;
        assert!((ratio - 1.0).abs() < 0.05, "{name}: {ratio}");
    }
}

#[test]
fn law_what_is_left_out_is_said() {
    let (_, sample) = hostile().remove(0);
    let svg = ring(&sample).svg.0;
    assert!(svg.contains("At 3: not a number, left out."));
    assert!(svg.contains("At 1:30: 13.4 thou, 12.8 to 14.1, in tolerance."));
}

#[test]
fn law_a_blade_points_where_the_leaf_goes() {
    // Blade letters run with the clock: asking blade B at 3 puts A at 12.
    let mut sample = ordinary();
    sample.at = Some((1, 2));
    let asked = ring(&sample).svg.0;
    sample.at = Some((0, 0));
    let home = ring(&sample).svg.0;
    let outlines = |svg: &str| -> Vec<String> {
        let blades = svg.split("<path class=\"stroke-ink fine fill-").skip(1);
        blades
            .map(|rest| attributes(rest, "d").next().unwrap().to_owned())
            .collect()
    };
    assert_eq!(outlines(&asked), outlines(&home));
    assert_eq!(outlines(&asked).len(), 4);
    sample.rotation = Rotation::Anticlockwise;
    assert_ne!(outlines(&ring(&sample).svg.0), outlines(&home));
}

#[test]
fn practice_no_word_is_smaller_than_twelve_pixels() {
    // The ring is drawn 340 wide, the width of a phone held upright; a chart is never shrunk.
    assert!(ring(&ordinary()).svg.0.contains("viewBox=\"0 0 340 "));
    let sizes: Vec<f64> = STYLE
        .split("font-size: ")
        .skip(1)
        .map(|rest| rest.split("px").next().unwrap().parse().unwrap())
        .collect();
    assert!(sizes.len() >= 3);
    assert!(sizes.iter().all(|size| *size >= 12.0), "{sizes:?}");
}

/// The two themes as the page defines them: token, sun, shop.
const TOKENS: [(&str, u32, u32); 9] = [
    ("paper", 0x00fb_faf5, 0x0012_1518),
    ("card", 0x00ff_ffff, 0x001b_2024),
    ("ink", 0x0014_181c, 0x00ec_eae4),
    ("soft", 0x004a_525a, 0x00ae_b4b9),
    ("accent", 0x000a_5a86, 0x007f_c4ee),
    ("good", 0x0000_694a, 0x0058_c79a),
    ("warn", 0x00ff_b000, 0x00ff_b000),
    ("stop", 0x00a3_001b, 0x00ff_7a7f),
    ("dark", 0x0014_181c, 0x0014_181c),
];

/// Contrast of two colours as `wcag-2.2` counts it.
fn contrast(one: u32, other: u32) -> f64 {
    let light = |colour: u32| {
        let [_, red, green, blue] = colour.to_be_bytes();
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
    };
    let (a, b) = (light(one), light(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn computed_contrast_counts_as_another_library_does() {
    // wcag-contrast-ratio 0.9 (Python), printed to two decimals.
    let cases = [
        (0x0000_0000, 0x00ff_ffff, 21.00),
        (0x0076_7676, 0x00ff_ffff, 4.54),
        (0x00ff_b000, 0x0012_1212, 10.23),
        (0x00b0_0020, 0x00ff_ffff, 7.33),
    ];
    for (one, other, ratio) in cases {
        // Half of the last printed digit.
        assert!((contrast(one, other) - ratio).abs() < 0.005, "{one:x}");
    }
}

#[test]
fn practice_words_and_signs_stand_out_in_both_themes() {
    let colours = |token: &str| {
        let (_, sun, shop) = TOKENS.iter().find(|(name, ..)| *name == token).unwrap();
        (*sun, *shop)
    };
    let check = |over: &str, ground: &str, least: (f64, f64)| {
        let (over_both, ground_both) = (colours(over), colours(ground));
        let sun = contrast(over_both.0, ground_both.0);
        let shop = contrast(over_both.1, ground_both.1);
        assert!(sun >= least.0, "{over} on {ground}, sun: {sun:.2}");
        assert!(shop >= least.1, "{over} on {ground}, shop: {shop:.2}");
    };
    // Words: 7 to 1 in daylight, 4.5 to 1 in the shop.
    let words = [
        ("ink", "card"),
        ("ink", "paper"),
        ("soft", "card"),
        ("soft", "paper"),
        ("card", "ink"),
        ("card", "soft"),
        ("card", "accent"),
        ("card", "stop"),
        ("dark", "warn"),
    ];
    for (over, ground) in words {
        check(over, ground, (7.0, 4.5));
    }
    // Signs and lines: 3 to 1.
    for over in ["good", "accent", "stop", "soft", "ink"] {
        check(over, "card", (3.0, 3.0));
    }
}

/// Each element closed in order, and one root.
fn assert_nested(name: &str, svg: &str) {
    let mut open = Vec::new();
    for tag in svg.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap_or_default();
        let word = tag.split_whitespace().next().unwrap_or_default();
        match word.strip_prefix('/') {
            Some(closed) => assert_eq!(open.pop(), Some(closed), "{name}"),
            None => open.push(word),
        }
        assert_eq!(tag.matches('"').count() % 2, 0, "{name}: {tag}");
    }
    assert!(open.is_empty(), "{name}: {open:?}");
}

/// Every class has a rule.
fn assert_styled(name: &str, svg: &str) {
    for class in attributes(svg, "class").flat_map(str::split_whitespace) {
        let rule = [' ', '.'].map(|end| format!(".{class}{end}"));
        assert!(
            rule.iter().any(|rule| STYLE.contains(rule)),
            "{name}: class {class} has no rule"
        );
    }
}

/// The values of an attribute, in order.
fn attributes<'a>(svg: &'a str, key: &str) -> impl Iterator<Item = &'a str> {
    let start = format!(" {key}=\"");
    svg.split(&start)
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect::<Vec<_>>()
        .into_iter()
}
