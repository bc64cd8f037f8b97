//! Bad input: one clear reason, nothing changed.

use crate::bench::{Bench, EXAMPLE};

/// The refusal of the example with one text of it replaced.
fn changed(from: &str, to: &str) -> String {
    assert!(EXAMPLE.contains(from), "{from}");
    refused(&EXAMPLE.replacen(from, to, 1))
}

/// The refusal of a file, which is the same when it is measured and when it is imported.
fn refused(text: &str) -> String {
    let bench = Bench::new();
    bench.write("job.toml", text);
    let measured = bench.refusal(&["measure", "job.toml"]);
    let imported = bench.refusal(&["import", "job.toml", "--store", "sqlite:bench.sqlite"]);
    assert_eq!(measured, imported);
    let there = bench.run(&["export", "patrol-craft", "--store", "sqlite:bench.sqlite"]);
    assert_eq!(there.code, Some(1), "something was recorded");
    measured
}

#[test]
fn practice_a_unit_of_something_else() {
    assert_eq!(
        changed("bore = \"155 mm\"", "bore = \"25 N·m\""),
        "job.toml, line 18, column 12:
   |
18 | bore = \"25 N·m\"
   |            ^^^
“N·m” at column 4 of “25 N·m” is the unit of a torque: write a length in m, cm, mm, µm, in, thou or ft.
"
    );
}

#[test]
fn practice_a_number_without_quotes() {
    assert_eq!(
        changed("bore = \"155 mm\"", "bore = nan"),
        "job.toml, line 18, column 8:
   |
18 | bore = nan
   |        ^^^
Invalid type: floating point `NaN`, expected text in quotes.
"
    );
}

#[test]
fn practice_a_negative_limit() {
    assert_eq!(
        changed("least = \"12 thou\"", "least = \"-13 thou\""),
        "job.toml, line 30, column 10:
   |
30 | least = \"-13 thou\"
   |          ^^^^^^^^
“-13 thou” is outside 1.97 to 236\u{a0}thou. Check the unit and the decimal point.
"
    );
}

#[test]
fn practice_an_unknown_key() {
    assert_eq!(
        changed("bore = ", "bor = "),
        "job.toml, line 18, column 1:
   |
18 | bor = \"155 mm\"
   | ^^^
Unknown field `bor`, expected one of `blades`, `positions`, `bore`, `view`, `rotation`.
"
    );
}

#[test]
fn practice_a_missing_key() {
    assert_eq!(
        changed("bore = \"155 mm\"\n", ""),
        "job.toml, line 15, column 1:
   |
15 | [pump]
   | ^^^^^^
Missing field `bore`.
"
    );
}

#[test]
fn practice_a_newer_version() {
    let newer = EXAMPLE.replace("version = 1", "version = 2\nsurprise = true");
    assert_eq!(
        refused(&newer),
        "job.toml, line 4, column 11:
  |
4 | version = 2
  |           ^
A newer program wrote this file: it has version 2, and this program reads version 1. Open it with the newer program.
"
    );
}

#[test]
fn practice_another_format() {
    assert_eq!(
        changed("pumpwright job", "shopping list"),
        "job.toml, line 3, column 10:
  |
3 | format = \"shopping list\"
  |          ^^^^^^^^^^^^^^^
This is no job file. A job file begins with: format = \"pumpwright job\" and version = 1.
"
    );
}

#[test]
fn practice_a_reading_that_is_not_understood() {
    assert_eq!(
        changed("\"20 drags; 22 won't go\"", "\"20 drags; 22 foo won't go\""),
        "job.toml, line 56, column 23:
   |
56 | \"C 6\" = \"20 drags; 22 foo won't go\"
   |                       ^^^
“foo” at column 4 of “22 foo” is not a unit known here: write a length in m, cm, mm, µm, in, thou or ft.
"
    );
}

#[test]
fn practice_a_spot_the_pump_does_not_have() {
    assert_eq!(
        changed("\"C 6\"", "\"D 6\""),
        "job.toml, line 56, column 1:
   |
56 | \"D 6\" = \"20 drags; 22 won't go\"
   | ^^^^^
There is no blade D: this pump has 3 blades, A to C.
"
    );
    assert_eq!(
        changed("\"C 6\"", "\"C 6:30\""),
        "job.toml, line 56, column 2:
   |
56 | \"C 6:30\" = \"20 drags; 22 won't go\"
   |  ^^^^^^
“C 6:30” names no spot. Write the blade’s letter and the clock, such as A 1:30.
"
    );
}

#[test]
fn practice_a_leaf_twice() {
    assert_eq!(
        changed("\"9\", \"10\"", "\"9\", \"9\", \"10\""),
        "job.toml, line 24, column 27:
   |
24 | thicknesses = [\"8\", \"9\", \"9\", \"10\", \"11\", \"12\", \"13\", \"14\", \"15\", \"16\",
   |                           ^
The leaf “9” is in the list twice. Take one out.
"
    );
}

#[test]
fn practice_ten_thousand_readings_of_one_spot() {
    let many = vec!["20 drags"; 10_000].join("; ");
    assert_eq!(
        changed("14 drags; 15 won't go", &many),
        "job.toml, line 37, column 12:
   |
37 | \"A 1:30\" = \"20 drags; 20 drags; 20 drags; 20 drags; 20 drags; 20 drags;
   |            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
“10000 leaves” will not do here: write at most 1000 leaves at one spot.
"
    );
}

#[test]
fn practice_an_empty_file() {
    assert_eq!(
        refused(""),
        "job.toml, line 1, column 1:
  |
1 |
  | ^
This says no format. A job file begins with: format = \"pumpwright job\" and version = 1.
"
    );
}

#[test]
fn practice_a_truncated_file() {
    let (cut, _) = EXAMPLE.split_once("ial\"\npage").unwrap();
    assert_eq!(
        refused(cut),
        "job.toml, line 32, column 15:
   |
32 | measure = \"rad
   |               ^
Invalid basic string, expected `\"`.
"
    );
}

#[test]
fn practice_a_file_that_is_not_text() {
    let bench = Bench::new();
    bench.write("job.toml", b"format = \"pumpwright job\"\n\xff\xfe\x00");
    let sentence =
        "“job.toml” is not text: byte 27 is not UTF-8. Save it as UTF-8, or choose the job file.\n";
    assert_eq!(bench.refusal(&["measure", "job.toml"]), sentence);
    assert_eq!(bench.refusal(&["import", "job.toml"]), sentence);
}

#[test]
fn practice_a_huge_file_is_not_read() {
    let bench = Bench::new();
    let file = std::fs::File::create(bench.path().join("job.toml")).unwrap();
    file.set_len(100_000_000).unwrap();
    let sentence = "“job.toml” has 100 MB and a job file may have 16 MB. It was not read; is it the right file?\n";
    assert_eq!(bench.refusal(&["measure", "job.toml"]), sentence);
    assert_eq!(bench.refusal(&["import", "job.toml"]), sentence);
}

#[test]
fn practice_a_folder_and_a_missing_file() {
    let bench = Bench::new();
    assert_eq!(
        bench.refusal(&["measure", "."]),
        "“.” is a folder. Name a job file in it.\n"
    );
    assert_eq!(
        bench.refusal(&["import", "job.toml"]),
        "There is no file “job.toml”. Check its name, or give the id of a job in the store.\n"
    );
}

#[test]
fn practice_a_job_that_is_not_there() {
    let bench = Bench::with_example();
    let store = ["--store", "sqlite:bench.sqlite"];
    let measure = [&["measure", "patrol-craft"], &store[..]].concat();
    assert_eq!(
        bench.refusal(&measure),
        "There is no store at sqlite:bench.sqlite yet. Import a job file first, open the bench \
         with “pumpwright serve”, or name another store with --store.\n"
    );
    assert!(
        !bench.path().join("bench.sqlite").exists(),
        "looking made a store"
    );
    bench.answer(&[&["import", "job.toml", "--as", "mine"], &store[..]].concat());
    assert_eq!(
        bench.refusal(&measure),
        "There is no job “patrol-craft” in the store. It holds mine.\n"
    );
}

#[test]
fn practice_another_craft_under_the_same_id() {
    let bench = Bench::with_example();
    let import = ["import", "job.toml", "--store", "sqlite:bench.sqlite"];
    bench.answer(&import);
    bench.write(
        "job.toml",
        EXAMPLE.replace("Patrol craft 3", "Patrol craft 4"),
    );
    assert_eq!(
        bench.refusal(&import),
        "job.toml, line 8, column 9:
  |
8 | title = \"Patrol craft 4: gravel through the pump\"
  |         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
The job with this id is called “Patrol craft 3: gravel through the pump” here, not “Patrol craft 4: gravel through the pump”. Give the file another id.
"
    );
}

#[test]
fn practice_wrong_usage_ends_with_two() {
    let bench = Bench::new();
    for arguments in [
        &["polish"][..],
        &["measure"],
        &["serve", "--port", "99999"],
        &["serve", "--https"],
        &["serve", "--lan", "--https-port", "8158"],
        &[],
    ] {
        assert_eq!(bench.run(arguments).code, Some(2), "{arguments:?}");
    }
    assert_eq!(bench.run(&["--help"]).code, Some(0));
}

#[test]
fn practice_a_card_is_no_job_and_a_job_is_no_card() {
    let bench = Bench::with_example();
    bench.answer(&["export", "job.toml", "--card", "--to", "card.toml"]);
    let store = ["--store", "sqlite:bench.sqlite"];
    let refusal = |arguments: &[&str]| bench.refusal(&[arguments, &store].concat());
    insta::assert_snapshot!(
        [
            bench.refusal(&["measure", "card.toml"]),
            refusal(&["import", "card.toml"]),
            refusal(&["import", "card.toml", "--title", "  "]),
            refusal(&["import", "card.toml", "--title", "船"]),
            refusal(&["import", "job.toml", "--title", "Another"]),
        ]
        .join("\n")
    );
}

#[test]
fn practice_a_ring_of_steps_points_at_the_rule_that_closes_it() {
    let example = include_str!("../../example/patrol-craft.toml");
    let rule = "[[rules]]\nkind = \"after\"\nfirst = \"gap-check\"\nthen = \"ring-in\"\n\n[parts.wear-ring]";
    let bench = Bench::new();
    bench.write("job.toml", example.replacen("[parts.wear-ring]", rule, 1));
    let ring = bench.refusal(&["plan", "job.toml"]);
    bench.write(
        "job.toml",
        example.replacen(
            "[parts.wear-ring]",
            &rule.replace("ring-in", "gap-check"),
            1,
        ),
    );
    let itself = bench.refusal(&["plan", "job.toml"]);
    insta::assert_snapshot!([ring, itself].join("\n"));
}
