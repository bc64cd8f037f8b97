//! A log of any length in bounded memory.
#![expect(clippy::format_collect, reason = "made-up logs of a few lines")]

use std::io::Write as _;

use crate::logs::{samples, text};
use trial::keep::MOST;
use trial::read::Reading;

/// Ten a second: at rest, and every ten minutes a run of so many seconds at full speed.
fn table(fixes: u32, run: u32) -> String {
    let mut rows = b"time_s,speed_ms\n".to_vec();
    for at in 0..fixes {
        let since = at % 6000;
        let speed = f64::from(since.min((10 * run).saturating_sub(since)).min(100)) / 4.0;
        writeln!(rows, "{}.{},{speed:.2}", at / 10, at % 10).unwrap();
    }
    String::from_utf8(rows).unwrap()
}

fn fast(reading: &Reading) -> usize {
    samples(reading).iter().filter(|s| s.speed >= 12.5).count()
}

#[test]
fn law_what_fits_is_kept_whole() {
    let reading = text(&table(u32::try_from(MOST).unwrap(), 60)).unwrap();
    assert_eq!((samples(&reading).len(), reading.thinned), (MOST, None));
}

#[test]
fn law_slow_parts_are_thinned_first_and_runs_stay_whole() {
    // 40 runs of a minute, the fast part of each from 5 s to 55 s.
    let reading = text(&table(240_000, 60)).unwrap();
    let thinned = reading.thinned.unwrap();
    let all = samples(&reading);
    assert!(all.len() <= MOST);
    assert_eq!(thinned.samples + u64::try_from(all.len()).unwrap(), 240_000);
    assert!(!thinned.fast);
    assert_eq!(fast(&reading), 40 * 501);
    // The run-up of 15 s before each launch is whole too: a tenth of a second from sample to sample.
    for launch in 1..40 {
        let start = f64::from(launch) * 600.0;
        let near = all
            .iter()
            .filter(|s| (start - 9.0..=start + 5.0).contains(&s.time))
            .count();
        assert!(near >= 140, "{launch}: {near}");
    }
    // One stretch: what was thinned was slow, and nothing fast is missing in between.
    assert_eq!(reading.log.stretches.len(), 1);
}

#[test]
fn law_where_all_is_fast_the_fastest_parts_stay_and_the_log_breaks_between() {
    let reading = text(&table(300_000, 590)).unwrap();
    let thinned = reading.thinned.unwrap();
    assert!(thinned.fast);
    let all = samples(&reading);
    assert!((30_000..=MOST).contains(&all.len()), "{}", all.len());
    for stretch in &reading.log.stretches {
        for two in stretch
            .windows(2)
            .filter(|two| two[1].speed.max(two[0].speed) >= 12.5)
        {
            assert!(two[1].time - two[0].time < 0.26, "{two:?}");
        }
    }
    assert_eq!(
        text(&table(300_000, 590)).unwrap(),
        reading,
        "same log, same answer"
    );
}

#[test]
fn law_a_clock_that_runs_backwards_cannot_fill_the_memory() {
    let rows: String = (0..300_000)
        .map(|at| format!("{}.5,10\n", 400_000 - at))
        .collect();
    let reading = text(&format!("time_s,speed_ms\n{rows}")).unwrap();
    assert!(samples(&reading).len() <= MOST);
    assert_eq!(reading.clock_back, 299_999);
}
