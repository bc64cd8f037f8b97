//! How long a person waits for the example: the figures of the notes, by one command.

use std::time::{Duration, Instant};

use crate::bench::{Bench, Open};

/// Least, median, greatest of the times, in milliseconds.
fn row(what: &str, mut times: Vec<Duration>) -> String {
    times.sort();
    let shown = [times[0], times[times.len() / 2], times[times.len() - 1]];
    let [least, median, greatest] = shown.map(|time| time.as_secs_f64() * 1e3);
    format!("| {what} | {least:.1} | {median:.1} | {greatest:.1} |")
}

fn timed<T>(act: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = act();
    (start.elapsed(), done)
}

/// A start with a new store, until the whole first page is here; and the greatest memory, in MiB.
fn start() -> (Duration, f64) {
    let bench = Bench::new();
    let (time, open) = timed(|| {
        let open = Open::new(&bench, &[]);
        assert!(open.page().starts_with("HTTP/1.1 200"));
        open
    });
    let status = std::fs::read_to_string(format!("/proc/{}/status", open.child.id()));
    let peak = status.unwrap_or_default();
    let peak = peak.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let peak = peak.and_then(|peak| peak.trim().trim_end_matches(" kB").parse().ok());
    (time, peak.unwrap_or(f64::NAN) / 1024.0)
}

#[test]
#[ignore = "study: cargo xtask study waiting"]
fn waiting_study() {
    let runs = std::env::var("PUMPWRIGHT_RUNS").map_or(3, |text| text.parse().unwrap());
    println!("| wait, ms (example job, {runs} times) | least | median | greatest |");
    println!("|---|---|---|---|");
    let starts: Vec<_> = (0..runs).map(|_| start()).collect();
    let times = starts.iter().map(|(time, _)| *time).collect();
    println!(
        "{}",
        row("start with a new store, to the first whole page", times)
    );
    let bench = Bench::new();
    let open = Open::new(&bench, &[]);
    let seen = |path: String, what: String| {
        let look = || {
            let (time, page) = timed(|| open.get(&path));
            assert!(page.starts_with("HTTP/1.1 200"), "{page}");
            time
        };
        look();
        println!("{}", row(&what, (0..runs).map(|_| look()).collect()));
    };
    for page in ["measure", "torque", "assemble", "plan", "record", "sheet"] {
        let path = format!("job/patrol-craft/{page}");
        seen(path, format!("page {page}, seen before"));
    }
    let sixty = bench.write(
        "sixty.toml",
        crate::tools::sixty().replace("patrol-craft", "sixty"),
    );
    bench.answer(&["import", sixty.to_str().unwrap()]);
    let what = "page torque with 64 joints, seen before".to_owned();
    seen("job/sixty/torque".to_owned(), what);
    for command in ["measure", "torque", "plan", "sheet"] {
        let answer = || timed(|| bench.answer(&[command, "patrol-craft"])).0;
        println!(
            "{}",
            row(
                &format!("command {command}"),
                (0..runs).map(|_| answer()).collect()
            )
        );
    }
    let peak = starts.iter().map(|(_, peak)| *peak).fold(0.0, f64::max);
    println!("| memory at most after the first page: {peak:.1} MiB | | | |");
}
