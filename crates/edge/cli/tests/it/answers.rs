//! What a person reads.

use crate::bench::{Bench, EXAMPLE};

#[test]
fn practice_the_example_measured_in_words() {
    insta::assert_snapshot!(Bench::with_example().answer(&["measure", "job.toml"]));
}

#[test]
fn practice_the_example_measured_for_programs() {
    let document = Bench::with_example().answer(&["measure", "job.toml", "--json"]);
    insta::assert_snapshot!(to_ten_nanometres(&document));
}

/// The last digits may differ between machines, because each has its own logarithm.
fn to_ten_nanometres(document: &str) -> String {
    let short = |line: &str| match line.split_once(": 0.") {
        Some((key, digits)) if digits.len() > 8 => format!("{key}: 0.{}…\n", &digits[..8]),
        _ => format!("{line}\n"),
    };
    document.lines().map(short).collect()
}

#[test]
fn practice_a_job_that_only_begins() {
    let bench = Bench::new();
    let job = EXAMPLE.split("[pump]").next().unwrap();
    bench.write("job.toml", job);
    insta::assert_snapshot!(bench.answer(&["measure", "job.toml"]));
}

#[test]
fn practice_a_job_exported() {
    insta::assert_snapshot!(Bench::with_example().answer(&["export", "job.toml"]));
}

#[test]
fn practice_no_line_is_wider_than_a_terminal() {
    let bench = Bench::with_example();
    let wide = EXAMPLE
        .replace("\"thou\"", "\"mm\"")
        .replace("12 thou", "0.3048 mm")
        .replace("18 thou", "0.4572 mm")
        .replace("blades = 3", "blades = 8");
    let wide: String = wide
        .lines()
        .filter(|line| !line.contains("go\"") && !line.starts_with("thicknesses"))
        .map(|line| match line {
            "[readings]" => "[readings]\n\"A 12\" = \"0.3302 goes; 0.3556 won't go\"\n".to_owned(),
            "[leaves]" => "[leaves]\nthicknesses = \"0.3302 0.3556\"\n".to_owned(),
            line => format!("{line}\n"),
        })
        .collect();
    bench.write("wide.toml", wide);
    for name in ["job.toml", "wide.toml"] {
        let answer = bench.answer(&["measure", name]);
        let long: Vec<&str> = answer
            .lines()
            .filter(|line| line.chars().count() > 80)
            .collect();
        assert!(long.is_empty(), "{long:#?}");
    }
}

#[test]
fn practice_nothing_steers_the_terminal_in_a_pipe() {
    let answer = Bench::with_example().answer(&["measure", "job.toml"]);
    assert!(
        !answer.chars().any(|c| c.is_control() && c != '\n'),
        "{answer:?}"
    );
}

#[test]
fn practice_the_joints_of_the_example_in_words() {
    let bench = Bench::new();
    bench.write("job.toml", include_str!("../../example/patrol-craft.toml"));
    insta::assert_snapshot!(bench.answer(&["torque", "job.toml"]));
}

#[test]
fn practice_the_build_sheet_of_the_example() {
    let bench = Bench::new();
    bench.write("job.toml", include_str!("../../example/patrol-craft.toml"));
    let sheet = bench.answer(&["sheet", "job.toml"]);
    for words in [
        "Build sheet: ? ",
        "The gap is measured, but no result is taken.",
        "Bearing cover to stator: 4 of 4 in, 2 torqued, 0 marked.",
        "Preload told: 7.0 to 12.6 kN; now the same",
        "Who, when: command line, 20",
        "This sheet is a record, not a release.",
    ] {
        assert!(sheet.contains(words), "the sheet lacks “{words}”:\n{sheet}");
    }
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 80),
        "{sheet}"
    );
    // The job file writes this time at +02:00; both cells of its row tell it in the reader's zone.
    let (_, row) = sheet
        .split_once("Record it as found\n")
        .expect("the step is told");
    let mut cells = row
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>());
    let (done, said) = (
        cells.next().expect("a state"),
        cells.next().expect("who, when"),
    );
    assert_eq!(done.last(), said.get(said.len() - 2), "{row}");
}

/// The example that comes with the program, as it is on a day.
fn plan(text: &str, more: &[&str]) -> String {
    let bench = Bench::new();
    bench.write("job.toml", text);
    let at = "2026-05-09T14:00:00+02:00[Europe/Berlin]";
    bench.answer(&[&["plan", "job.toml", "--at", at], more].concat())
}

const PLANNED: &str = include_str!("../../example/patrol-craft.toml");

#[test]
fn practice_the_plan_of_the_example_in_words() {
    insta::assert_snapshot!(plan(PLANNED, &[]));
}

#[test]
fn practice_the_plan_of_the_example_for_programs() {
    insta::assert_snapshot!(plan(PLANNED, &["--json"]));
}

#[test]
fn practice_a_plan_that_does_not_fit() {
    let short = PLANNED.replace("takes = \"8 min\"", "takes = \"18 min\"");
    let short = short.replace("most = \"10 min\"", "most = \"20 min\"");
    let said = plan(&short, &[]);
    let (head, _) = said.split_once("\nNext\n").unwrap();
    insta::assert_snapshot!(head);
}

#[test]
fn practice_no_plan_yet() {
    let begun = EXAMPLE.split("[pump]").next().unwrap();
    insta::assert_snapshot!(plan(begun, &[]));
}

/// Blades alike, the gap widest at 12: off centre, with more or less of a reason in the bearing.
fn off_centre(rotor: &str) -> String {
    let bench = Bench::new();
    let (head, _) = EXAMPLE.split_once("[readings]").unwrap();
    let gaps = [18, 17, 15, 13, 12, 13, 15, 17];
    let clocks = ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"];
    let mut job = format!("{head}{rotor}\n[readings]\n");
    for blade in ["A", "B", "C"] {
        for (clock, leaf) in clocks.iter().zip(gaps) {
            let reading = format!("\"{blade} {clock}\" = \"{leaf}-{}\"\n", leaf + 1);
            job.push_str(&reading);
        }
    }
    bench.write("job.toml", job);
    let answer = bench.answer(&["measure", "job.toml"]);
    let (_, why) = answer.split_once("\nWhy\n").unwrap();
    let (why, _) = why.split_once("\nWhat these readings").unwrap();
    why.to_owned()
}

#[test]
fn practice_off_centre_and_what_the_play_explains() {
    let play = |mm: &str| format!("[rotor]\nradial_up = \"{mm} mm\"\nradial_down = \"0 mm\"\n");
    insta::assert_snapshot!(
        [
            off_centre(""),
            off_centre(&play("0.16")),
            off_centre(&play("0.04"))
        ]
        .join("\n==\n")
    );
}

#[test]
fn practice_a_measured_bore_tells_ring_from_impeller() {
    let bench = Bench::new();
    let sizes = "[sizes]\nbore_12 = \"155.6\"\nbore_3 = \"155.5\"\n\n[readings]";
    bench.write("job.toml", EXAMPLE.replace("[readings]", sizes));
    let answer = bench.answer(&["measure", "job.toml"]);
    let words: Vec<&str> = answer.split_whitespace().collect();
    let told = "The bore measures 155.550\u{a0}mm on the mean and was described as 155 mm";
    assert!(
        words
            .join(" ")
            .replace('\u{a0}', " ")
            .contains(&told.replace('\u{a0}', " ")),
        "{answer}"
    );
}

#[test]
fn practice_a_thread_held_too_short_is_named_before_the_wrench() {
    let example = include_str!("../../example/patrol-craft.toml");
    let bench = Bench::new();
    let torque = |held: &str| {
        bench.write("job.toml", example.replace("engagement = \"9 mm\"", held));
        bench.run(&["torque", "job.toml"])
    };
    let short = torque("engagement = \"3 mm\"");
    assert!(short.out.contains("this torque strips"), "{}", short.out);
    let enough = torque("engagement = \"9 mm\"");
    assert!(!enough.out.contains("this torque strips"), "{}", enough.out);
    let slip = torque("engagement = \"9 in\"");
    assert_eq!(slip.code, Some(1));
    assert!(
        slip.err.contains("engagement = \"9 in\"") && slip.err.contains("outside"),
        "{}",
        slip.err
    );
}

#[test]
fn practice_the_account_of_the_example() {
    let bench = Bench::new();
    bench.write("job.toml", PLANNED);
    let at = "2026-05-09T14:00:00+02:00[Europe/Berlin]";
    insta::assert_snapshot!(bench.answer(&["audit", "job.toml", "--at", at]));
    let document = bench.answer(&["audit", "job.toml", "--at", at, "--json"]);
    let document: serde_json::Value = serde_json::from_str(&document).unwrap();
    let count = |name: &str| document[name].as_u64().unwrap();
    assert_eq!(
        count("all"),
        count("accounted") + count("by_reason") + count("open")
    );
    let sheet = bench.answer(&["sheet", "job.toml"]);
    for words in [
        "Steering cable to the nozzle: left out: part on order, text still to be written",
        "Stern drain plug × 2: nobody has told of it.",
        "Account",
    ] {
        let sheet: String = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(sheet.contains(words), "the sheet lacks “{words}”:\n{sheet}");
    }
}

#[test]
fn practice_an_account_that_cannot_be_points_at_its_line() {
    let bench = Bench::new();
    for (old, new, words) in [
        (
            "[account.grate]\nin = 1",
            "[account.grate]\nin = 2",
            "2 of “Intake grate” are too many",
        ),
        (
            "[account.grate]",
            "[account.great]",
            "nothing “great” to account for",
        ),
        ("ready = \"on-order\"", "ready = \"lost\"", "“lost”"),
    ] {
        bench.write("job.toml", PLANNED.replace(old, new));
        let said = bench.refusal(&["audit", "job.toml"]);
        assert!(said.contains("line ") && said.contains(words), "{said}");
    }
}
