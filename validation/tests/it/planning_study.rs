//! How soon there is a plan for hands and tools, how good it is, and when it is proved: ours and
//! CP-SAT on the same invented rebuilds, in one run on one machine.

use std::time::Instant;

use assembly::{Network, Situation};
use serde_json::Value;

use crate::assembly_values::bench;
use crate::record::{number, printed};

/// Seeds of each kind of bench; the ones from 1000 on are for tuning.
const SEEDS: usize = 5;
const COUNTS: [usize; 4] = [20, 50, 100, 200];
/// Runs of which the quickest counts, for an answer of milliseconds.
const RUNS: usize = 5;

/// What became of the benches of one kind.
#[derive(Default)]
struct Row {
    first: Vec<f64>,
    gaps: Vec<f64>,
    at_once: usize,
    proved: usize,
    proofs: Vec<f64>,
    left: Vec<f64>,
    their_first: Vec<f64>,
    their_proved: usize,
    their_proofs: Vec<f64>,
    their_left: Vec<f64>,
    better: usize,
    worse: usize,
}

#[test]
#[ignore = "takes minutes and asserts little: cargo xtask study planning runs it"]
fn planning_study() {
    let seconds = option_env!("PUMPWRIGHT_SECONDS").unwrap_or("1");
    let seeds = SEEDS.to_string();
    let counts = COUNTS.map(|count| count.to_string());
    let mut words = vec!["study", seconds, "1", seeds.as_str()];
    words.extend(counts.iter().map(String::as_str));
    let found = printed("assembly", &words);
    println!(
        "| benches | first answer, ms | its gap, % | proved at once | proved | in, s | gap left, % | CP-SAT: first answer, ms | proved | in, s | gap left, % | ours sooner / later over |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|---|---|");
    let limit = seconds.parse().unwrap();
    for (kind, benches) in found.as_array().unwrap().chunks(SEEDS).enumerate() {
        let mut row = Row::default();
        for bench in benches {
            row.add(bench, limit);
        }
        let evenings = if kind % 2 == 1 { ", evenings" } else { "" };
        println!(
            "| {} steps{evenings} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} / {} |",
            COUNTS[kind / 2],
            span(&row.first, 2),
            span(&row.gaps, 2),
            row.at_once,
            row.proved,
            span(&row.proofs, 2),
            span(&row.left, 2),
            span(&row.their_first, 0),
            row.their_proved,
            span(&row.their_proofs, 2),
            span(&row.their_left, 2),
            row.better,
            row.worse
        );
    }
}

impl Row {
    #[expect(clippy::cast_precision_loss, reason = "seconds of weeks")]
    fn add(&mut self, found: &Value, limit: f64) {
        let (plan, resources) = bench(&found["bench"]);
        let situation = Situation::fresh(&plan);
        let network = Network::new(&plan, &situation).unwrap();
        let once = || {
            let begun = Instant::now();
            let schedule = network.schedule(&resources).unwrap();
            (begun.elapsed().as_secs_f64() * 1e3, schedule)
        };
        let runs: Vec<_> = (0..RUNS).map(|_| once()).collect();
        let least = runs.iter().map(|(time, _)| *time);
        self.first.push(least.fold(f64::INFINITY, f64::min));
        let schedule = &runs[0].1;
        let share = |gap: i64, finish: i64| 100.0 * gap as f64 / finish as f64;
        self.gaps.push(share(schedule.gap(), schedule.finish));
        self.at_once += usize::from(schedule.gap() == 0);
        let begun = Instant::now();
        let go_on = |_| begun.elapsed().as_secs_f64() < limit;
        let best = network.prove(&resources, Some(schedule), go_on).unwrap();
        if best.gap() == 0 {
            self.proved += 1;
            self.proofs.push(begun.elapsed().as_secs_f64());
        } else {
            self.left.push(share(best.gap(), best.finish));
        }
        let theirs = &found["found"];
        self.their_first
            .extend(theirs["first_seconds"].as_f64().map(|time| time * 1e3));
        let finish = theirs["finish"].as_i64();
        if theirs["status"] == "OPTIMAL" {
            self.their_proved += 1;
            self.their_proofs.push(number(&theirs["seconds"]));
            // Two proofs of one bench agree, and nobody beats a proof.
            let finish = finish.unwrap();
            assert!(best.bound <= finish && finish <= best.finish, "{found}");
        } else if let Some(finish) = finish {
            let bound = theirs["bound"].as_i64().unwrap();
            self.their_left.push(share(finish - bound, finish));
        }
        self.better += usize::from(finish.is_none_or(|finish| best.finish < finish));
        self.worse += usize::from(finish.is_some_and(|finish| best.finish > finish));
    }
}

/// The median and the greatest of some values.
fn span(values: &[f64], digits: usize) -> String {
    let mut values = values.to_vec();
    values.sort_unstable_by(f64::total_cmp);
    match values.last() {
        Some(last) => format!("{:.digits$}, {last:.digits$}", values[values.len() / 2]),
        None => "–".into(),
    }
}
