//! What the README shows is what the program says.

use crate::bench::Bench;

const README: &str = include_str!("../../../../../README.md");

/// The text between a fence of this kind and its end.
fn fenced(kind: &str) -> &'static str {
    let fence = format!("```{kind}\n");
    let (_, rest) = README.split_once(&fence).unwrap();
    rest.split_once("```").unwrap().0
}

#[test]
fn practice_the_worked_case_of_the_readme() {
    let bench = Bench::new();
    bench.write("sled.toml", fenced("toml"));
    let ended = bench.run(&["measure", "sled.toml"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let shown = fenced("text");
    assert!(
        ended.out.starts_with(shown),
        "the README shows:\n{shown}\nthe program says:\n{}",
        ended.out
    );

    let greatest = fenced("toml").replace("least = ", "greatest = ");
    bench.write("sled.toml", greatest);
    let ended = bench.run(&["measure", "sled.toml"]);
    assert!(ended.out.contains("Too wide all round."), "{}", ended.out);
}
