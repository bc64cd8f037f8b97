//! The shaded strip. All numbers are invented.

use chart::{Strip, StripCell, StripRow, strip};

fn drawn(values: &[&[f64]]) -> Strip {
    let cell = |value: &f64| {
        (!value.is_nan()).then_some(StripCell {
            value: *value,
            sign: if *value > 15.0 { "✕" } else { "" },
        })
    };
    let rows = values
        .iter()
        .zip(["A", "B", "C"])
        .map(|(row, label)| StripRow {
            label: label.to_owned(),
            cells: row.iter().map(cell).collect(),
        });
    Strip {
        title: "Gap by blade and clock".to_owned(),
        quantity: "gap, thou".to_owned(),
        decimals: 1,
        columns: ["12", "3", "6", "9"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}

fn pieces(svg: &str, of: &str) -> usize {
    svg.matches(of).count()
}

#[test]
fn regress_a_strip() {
    let svg = strip(&drawn(&[
        &[13.0, 13.2, 16.1, 13.1],
        &[13.4, f64::NAN, 15.2, 13.3],
    ]));
    insta::assert_snapshot!(svg.into_string().replace('>', ">\n"));
}

#[test]
fn law_the_least_is_heaviest_and_the_greatest_lightest() {
    let svg = strip(&drawn(&[&[10.0, 12.5, 15.0, 20.0]])).into_string();
    let shades: Vec<&str> = svg
        .split("class=\"shade-")
        .skip(1)
        .take(4)
        .map(|rest| &rest[..1])
        .collect();
    assert_eq!(shades, ["5", "4", "3", "1"]);
}

#[test]
fn law_values_all_the_same_carry_no_shade_and_no_nonsense() {
    let svg = strip(&drawn(&[&[13.0, 13.0, 13.0, 13.0]])).into_string();
    assert_eq!(
        pieces(&svg, "class=\"shade-1 "),
        5,
        "four cells and the key"
    );
    assert!(!svg.contains("NaN") && !svg.contains("inf"));
}

#[test]
fn law_what_is_not_known_is_open_and_said_so() {
    let svg = strip(&drawn(&[&[f64::NAN, f64::NAN, f64::NAN, f64::NAN]])).into_string();
    assert_eq!(pieces(&svg, ">–<"), 4);
    assert!(svg.contains("A: 12 not known, 3 not known, 6 not known, 9 not known."));
    assert!(!svg.contains("NaN") && !svg.contains("inf"));
}

#[test]
fn law_what_is_out_says_so_without_colour() {
    let svg = strip(&drawn(&[&[13.0, 16.0, 14.0, 13.5]])).into_string();
    assert!(svg.contains(">16.0\u{2009}✕<"));
}
