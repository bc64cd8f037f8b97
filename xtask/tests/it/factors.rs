//! Conversion factors have one home.

use crate::tree::{Fault, Rule, SOURCES, Source, enforce};

const MARKER: &str = "not a conversion:";

/// Numbers that convert wherever they stand: the digits they begin with, and between what.
const FACTORS: [(&str, &str); 20] = [
    ("25.4", "inch, millimetre"),
    ("0.0254", "inch, metre"),
    ("2.54", "inch, centimetre"),
    ("0.3048", "foot, metre"),
    ("3.2808", "metre, foot"),
    ("39.37", "metre, inch"),
    ("0.45359", "pound, kilogram"),
    ("2.2046", "kilogram, pound"),
    ("4.448", "pound-force, newton"),
    ("0.2248", "newton, pound-force"),
    ("1.3558", "pound-force foot, newton metre"),
    ("0.7375", "newton metre, pound-force foot"),
    ("0.11298", "pound-force inch, newton metre"),
    ("6894.7", "psi, pascal"),
    ("0.5144", "knot, metre per second"),
    ("0.44704", "mile per hour, metre per second"),
    ("745.69", "horsepower, watt"),
    ("735.49", "metric horsepower, watt"),
    ("9.5493", "radian per second, revolution per minute"),
    ("0.10472", "revolution per minute, radian per second"),
];

/// Plain numbers that convert when something is multiplied or divided by them.
const SCALES: [f64; 7] = [30.0, 60.0, 180.0, 3600.0, 3.6, 1000.0, 0.001];

/// Kelvin and degree Celsius differ by this.
const ZERO_CELSIUS: f64 = 273.15;

fn conversions(sources: &[Source]) -> Vec<Fault> {
    let floors = ["base", "domain", "app", "edge"];
    let mut faults = Vec::new();
    for source in sources.iter().filter(|source| source.is_src_of(&floors)) {
        if source.file.path.starts_with("crates/base/quantity/") {
            continue;
        }
        for (number, line) in source.lines.iter().enumerate() {
            let excused = line.comment.split_once(MARKER);
            if line.test || excused.is_some_and(|(_, why)| !why.trim().is_empty()) {
                continue;
            }
            for found in in_line(&line.code) {
                faults.push(Fault::new(source.file.at(number), found));
            }
        }
    }
    faults
}

fn in_line(code: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (start, literal) in floats(code) {
        let digits = literal.replace('_', "");
        let factor = FACTORS.iter().find(|(begin, _)| digits.starts_with(begin));
        if let Some((_, between)) = factor {
            found.push(format!("{literal} ({between})"));
            continue;
        }
        let Ok(value) = digits.trim_end_matches("f64").parse::<f64>() else {
            continue;
        };
        let is = |known: f64| value.to_bits() == known.to_bits();
        if is(ZERO_CELSIUS) {
            found.push(format!("{literal} (kelvin, degree Celsius)"));
        } else if SCALES.into_iter().any(is) && scales(code, start, literal) {
            found.push(format!("{literal} as a factor"));
        }
    }
    found
}

/// Whether the literal is multiplied or divided by, or divides.
fn scales(code: &str, start: usize, literal: &str) -> bool {
    let before = code[..start].trim_end();
    let after = code[start + literal.len()..].trim_start();
    before.ends_with(['*', '/'])
        || before.ends_with("*=")
        || before.ends_with("/=")
        || after.starts_with(['*', '/'])
}

/// The numbers with a decimal point or an exponent, and where each begins.
fn floats(code: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut rest = 0;
    while let Some(from) = code[rest..].find(|c: char| c.is_alphanumeric() || c == '_') {
        let start = rest + from;
        let mut end = start;
        let mut last = ' ';
        for c in code[start..].chars() {
            let sign = matches!(c, '+' | '-') && matches!(last, 'e' | 'E');
            let number = code[start..].starts_with(|c: char| c.is_ascii_digit());
            if !(c.is_alphanumeric() || c == '_' || (number && (c == '.' || sign))) {
                break;
            }
            end += c.len_utf8();
            last = c;
        }
        let literal = &code[start..end];
        if literal.starts_with(|c: char| c.is_ascii_digit()) && literal.contains(['.', 'e', 'E']) {
            found.push((start, literal));
        }
        rest = end;
    }
    found
}

#[test]
fn conversion_factors_live_in_quantity() {
    let rule = Rule {
        way_out: "convert with crates/base/quantity, or end the line with `// not a conversion: why`",
        heading: "Numbers",
    };
    enforce(&rule, &conversions(&SOURCES));
}

#[test]
fn law_a_factor_is_found_however_it_is_written() {
    for code in [
        "let gap = 0.013 * 25.4;",
        "x / 0.025_4",
        "const F: f64 = 4.448_221_615;",
        "speed * 3.6",
        "n * PI / 30.0",
        "180.0 / PI * a",
        "gap *= 1e3",
        "gap * 1_000.0",
        "gap / 1e-3",
        "t - 273.15",
        "time / 60.0f64",
    ] {
        assert_eq!(in_line(code).len(), 1, "{code}");
    }
}

#[test]
fn law_other_numbers_are_left_alone() {
    for code in [
        "let water = 1000.0;",
        "x60.0",
        "rows / 60",
        "f(3.65, 30.0)",
        "125.4 * a",
        "0..60",
        "v.0 * 2.0",
    ] {
        assert_eq!(in_line(code), Vec::<String>::new(), "{code}");
    }
}

#[test]
fn law_only_a_marker_with_a_reason_excuses() {
    let text = "a * 60.0; // not a conversion: a count of cells\nb * 60.0; // not a conversion:\n\
                c(\"25.4\"); // 25.4\n#[cfg(test)]\nmod tests { const A: f64 = 25.4; }\n";
    let domain = Source::new("crates/domain/a/src/lib.rs", text);
    let home = Source::new("crates/base/quantity/src/lib.rs", text);
    let faults = conversions(&[domain, home]);
    assert_eq!(
        faults,
        [Fault::new(
            "crates/domain/a/src/lib.rs:2",
            "60.0 as a factor"
        )]
    );
}
