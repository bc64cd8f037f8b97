//! The whole store as one file, and back.

use crate::bench::Bench;

fn two_jobs() -> Bench {
    let bench = Bench::with_example();
    bench.answer(&["import", "job.toml"]);
    bench.answer(&["import", "job.toml", "--as", "sister"]);
    bench
}

#[test]
fn law_what_is_backed_up_comes_back_the_same() {
    let bench = two_jobs();
    let said = bench.answer(&["backup", "kept.pumpwright"]);
    assert!(said.starts_with("2 jobs, "), "{said}");
    assert!(said.contains("read back whole"), "{said}");
    let said = bench.answer(&[
        "restore",
        "kept.pumpwright",
        "--store",
        "sqlite:again.sqlite",
    ]);
    assert!(said.contains("stand in again.sqlite"), "{said}");
    for job in ["sister", "patrol-craft"] {
        let there = bench.run(&["export", job]);
        let back = bench.run(&["export", job, "--store", "sqlite:again.sqlite"]);
        assert_eq!((there.code, &there.out), (back.code, &back.out));
    }
    // Beside the two files nothing is left behind.
    let mut names: Vec<String> = (bench.path().read_dir().unwrap())
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(
        names,
        ["again.sqlite", "data", "job.toml", "kept.pumpwright"]
    );
}

#[test]
fn law_nothing_is_overwritten() {
    let bench = two_jobs();
    bench.answer(&["backup", "kept"]);
    let kept = std::fs::read(bench.path().join("kept")).unwrap();
    let refused = bench.run(&["backup", "kept"]);
    assert_eq!(refused.code, Some(1));
    assert!(
        refused.err.contains("is not overwritten"),
        "{}",
        refused.err
    );
    let refused = bench.run(&["restore", "kept"]);
    assert_eq!(refused.code, Some(1));
    assert!(refused.err.contains("A store stands in"), "{}", refused.err);
    assert_eq!(std::fs::read(bench.path().join("kept")).unwrap(), kept);
}

#[test]
fn law_a_damaged_backup_is_refused_and_leaves_nothing() {
    let bench = two_jobs();
    bench.answer(&["backup", "kept"]);
    let whole = std::fs::read(bench.path().join("kept")).unwrap();
    let mut spoilt = whole.clone();
    let last = spoilt.len() - 4096;
    spoilt[last..].fill(0x5a);
    for (name, bytes) in [
        ("spoilt", &spoilt[..]),
        ("short", &whole[..whole.len() / 2]),
        (
            "text",
            b"no database at all, but long enough to be looked at as one might be",
        ),
        ("nothing", b""),
    ] {
        bench.write(name, bytes);
        let refused = bench.run(&["restore", name, "--store", "sqlite:new.sqlite"]);
        assert_eq!(
            refused.code,
            Some(1),
            "{name}: {} {}",
            refused.out,
            refused.err
        );
        assert!(!refused.err.is_empty(), "{name}");
        assert!(!bench.path().join("new.sqlite").exists(), "{name}");
        assert!(!refused.err.contains("panicked"), "{name}: {}", refused.err);
    }
    let refused = bench.run(&["restore", "none-such", "--store", "sqlite:b.sqlite"]);
    assert_eq!(refused.code, Some(1));
    assert!(refused.err.contains("none-such"), "{}", refused.err);
}
