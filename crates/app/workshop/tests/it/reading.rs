//! The short writing of readings and spots.

use clearance::Answer::{self, Drags, Goes, GoesFree, WontGo};
use quantity::{Unit, parse};
use workshop::reading::{read, read_spot, write, write_spot};

use crate::journal::spot;

/// What is written, the unit of a bare number, and each leaf with its answer.
type Case = (&'static str, Unit, &'static [(&'static str, Answer)]);

#[test]
fn law_a_reading_means_what_it_says() {
    let cases: &[Case] = &[
        (
            "13-14",
            Unit::Thou,
            &[("13 thou", Goes), ("14 thou", WontGo)],
        ),
        (
            "13 - 14",
            Unit::Thou,
            &[("13 thou", Goes), ("14 thou", WontGo)],
        ),
        (
            "13–14 thou",
            Unit::Millimetre,
            &[("13 thou", Goes), ("14 thou", WontGo)],
        ),
        (
            "13 thou–14 thou",
            Unit::Millimetre,
            &[("13 thou", Goes), ("14 thou", WontGo)],
        ),
        (
            "0,33-0,36 mm",
            Unit::Thou,
            &[("0.33 mm", Goes), ("0.36 mm", WontGo)],
        ),
        (
            "1/64-1/32 in",
            Unit::Thou,
            &[("1/64 in", Goes), ("1/32 in", WontGo)],
        ),
        ("<10", Unit::Thou, &[("10 thou", WontGo)]),
        ("> 20", Unit::Thou, &[("20 thou", Goes)]),
        ("13", Unit::Thou, &[("13 thou", Drags)]),
        (" 0.33 ", Unit::Millimetre, &[("0.33 mm", Drags)]),
        ("13 drags", Unit::Thou, &[("13 thou", Drags)]),
        ("13 thou drags", Unit::Millimetre, &[("13 thou", Drags)]),
        (
            "13 free; 14 won't go",
            Unit::Thou,
            &[("13 thou", GoesFree), ("14 thou", WontGo)],
        ),
        (
            "13 goes free;14 won’t go;",
            Unit::Thou,
            &[("13 thou", GoesFree), ("14 thou", WontGo)],
        ),
        (
            "13 goes; 14 no",
            Unit::Thou,
            &[("13 thou", Goes), ("14 thou", WontGo)],
        ),
        (
            "12-13; 13 drags",
            Unit::Thou,
            &[("12 thou", Goes), ("13 thou", WontGo), ("13 thou", Drags)],
        ),
    ];
    for (text, unit, wanted) in cases {
        let found = read(text, *unit).unwrap();
        assert_eq!(found.len(), wanted.len(), "{text}");
        for (tried, (leaf, answer)) in found.iter().zip(*wanted) {
            let leaf = parse(leaf, Unit::Millimetre).unwrap();
            assert_eq!(tried.leaf.value.to_bits(), leaf.value.to_bits(), "{text}");
            assert_eq!(tried.answer, *answer, "{text}");
        }
    }
}

#[test]
fn law_what_is_written_reads_the_same() {
    for text in [
        "13-14",
        "13 thou drags",
        "0,33 free; <0.36 mm",
        ">1/64 in",
        "½ drags",
    ] {
        for written_in in [Unit::Thou, Unit::Millimetre] {
            let first = read(text, written_in).unwrap();
            for read_in in [Unit::Thou, Unit::Millimetre] {
                let second = read(&write(&first, read_in), read_in).unwrap();
                assert_eq!(first.len(), second.len());
                for (a, b) in first.iter().zip(&second) {
                    assert_eq!(a.answer, b.answer, "{text}");
                    assert_eq!(a.leaf.value.to_bits(), b.leaf.value.to_bits(), "{text}");
                }
            }
        }
    }
}

#[test]
fn law_garbage_is_refused_with_the_part_that_is_not_understood() {
    let sentence = |text: &str| read(text, Unit::Thou).unwrap_err().to_string();
    assert_eq!(
        sentence("13 drags; tight"),
        "“tight” in “13 drags; tight” is not understood. Write 13-14 (13 goes, 14 won’t), 13 \
         drags, <10 (10 won’t go) or >20 (20 goes)."
    );
    assert_eq!(sentence(" "), "This is empty and must be filled in.");
    for text in [
        "drags",
        "13 13",
        "13 bananas",
        "<",
        ">x",
        "-",
        "13-",
        "13-14-15",
        "1.2.3",
        "13 N",
        ";",
    ] {
        let refusal = read(text, Unit::Thou).unwrap_err();
        assert_eq!(refusal.field(), Some("reading"), "{text}");
    }
}

#[test]
fn law_spots_read_as_they_are_written() {
    for positions in [4, 6, 8, 12] {
        for blade in 0..8 {
            for position in 0..positions {
                let written = write_spot(spot(blade, position), positions);
                assert_eq!(
                    read_spot(&written, positions).unwrap(),
                    spot(blade, position)
                );
            }
        }
    }
    assert_eq!(write_spot(spot(0, 1), 8), "A 1:30");
    assert_eq!(read_spot(" B 3:00 ", 4).unwrap(), spot(1, 1));
    for text in [
        "", "A", "A1:30", "a 12", "AB 12", "A 1:30", "A 13", "Å 12", "1 12",
    ] {
        assert_eq!(
            read_spot(text, 4).unwrap_err().to_string(),
            format!(
                "“{text}” names no spot. Write the blade’s letter and the clock, such as A 1:30."
            )
        );
    }
}

#[test]
fn practice_half_a_pair_and_two_leaves_in_one_are_not_understood() {
    for text in ["13-", "0.40-", "12 thou 13 mm", "13 14"] {
        let refused = read(text, Unit::Thou).unwrap_err().to_string();
        assert!(
            refused.contains("is not understood. Write 13-14"),
            "{text}: {refused}"
        );
    }
    // A fraction has a space of its own.
    assert!(read("1/64 in", Unit::Thou).is_ok());
}
