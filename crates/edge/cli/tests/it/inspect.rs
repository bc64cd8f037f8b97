//! What the file says of the parts around the gap, and what of it is refused.

use crate::bench::Bench;

const WHOLE: &str = include_str!("../../example/patrol-craft.toml");

#[test]
fn practice_the_example_torn_down_in_words() {
    let bench = Bench::new();
    bench.write("job.toml", WHOLE);
    insta::assert_snapshot!(bench.answer(&["teardown", "job.toml"]));
}

/// The refusal of the example with one text of it replaced.
fn changed(from: &str, to: &str) -> String {
    assert!(WHOLE.contains(from), "{from}");
    let bench = Bench::new();
    bench.write("job.toml", WHOLE.replacen(from, to, 1));
    bench.refusal(&["teardown", "job.toml"])
}

#[test]
fn practice_a_refusal_points_at_the_field_of_its_sheet() {
    let told = [
        changed("depth = \"1.2 mm\"", "depth = \"12 kPa\""),
        changed("depth = \"3 mm\"", "depth = \"3 m\""),
        changed("which = \"A B C\"", "which = \"A B D\""),
        changed("flaw = \"nick-leading\"", "flaw = \"bent\""),
        changed("start = \"70 kPa\"", "start = \"70 bar\""),
        changed("[settled.seal-grit]", "[settled.no-such]"),
        changed("gap = \"13-14\"", "gap = \"14-13\""),
        changed("spin = \"smooth\"", "spins = \"smooth\""),
        changed("[findings.nozzle]", "[findings.\"the nozzle\"]"),
    ];
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn practice_a_sheet_without_a_value_is_refused() {
    let bench = Bench::new();
    let (begin, _) = WHOLE.split_once("[rotor]").unwrap();
    bench.write("job.toml", format!("{begin}[rotor]\npage = \"5-9\"\n"));
    let told = bench.refusal(&["teardown", "job.toml"]);
    assert!(told.contains("Nothing is filled in."), "{told}");
}
