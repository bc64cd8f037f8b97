//! The program is killed while it appends, and the journal is looked at afterwards.
//!
//! A child process does acts and acknowledges each on its output; the parent kills it, opens the
//! store and compares. The kill is real (`SIGKILL` on Unix) and falls at a random moment, and at
//! every fifth time exactly after the append returned and before the acknowledgement is written.
//!
//! Power loss is not tested: what the system had taken over when the process died is still there.
//! Against power loss stands `synchronous = FULL` alone, which every connection is tested to keep.

use std::collections::BTreeSet;
use std::env;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Duration;

use ::store::Store;
use rand_pcg::Pcg32;
use rand_pcg::rand_core::{Rng, SeedableRng};
use workshop::entry::JobId;

use crate::bench::{job, later, leaves, opened, pump, stamp, tried, url};
use crate::postgres::Server;

/// Set in the child only: the address of the store.
const URL: &str = "PUMPWRIGHT_KILL_URL";
/// Set in the child only: the job to write in.
const JOB: &str = "PUMPWRIGHT_KILL_JOB";
/// Set in the child only: how many acts to acknowledge before it stops short of the next answer.
const PARK: &str = "PUMPWRIGHT_KILL_PARK";
/// One seed for all, so that a failure can be repeated as far as a clock allows.
const SEED: u64 = 20_261_124;

#[derive(Default)]
struct Tally {
    kills: u64,
    acknowledged: u64,
    /// Ids acknowledged and not on record.
    lost: BTreeSet<String>,
    /// Ids on record twice.
    doubled: BTreeSet<String>,
    /// Killed after the act was on record and before its answer.
    unanswered: u64,
}

impl Tally {
    /// Kills, lost, doubled.
    fn counts(&self) -> (u64, usize, usize) {
        (self.kills, self.lost.len(), self.doubled.len())
    }
}

/// What the check does.
const KILLS: u64 = 20;

#[tokio::test]
async fn kill_twenty_times() {
    if env::var_os(URL).is_some() {
        return work().await;
    }
    let folder = tempfile::tempdir().unwrap();
    held_up(&kill(&url(&folder), KILLS).await);
}

#[tokio::test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn kill_twenty_times_on_a_server() {
    held_up(&kill(&Server::shared().database(), KILLS).await);
}

fn held_up(tally: &Tally) {
    assert_eq!(tally.counts(), (KILLS, 0, 0));
    assert!(tally.acknowledged > 0 && tally.unanswered > 0);
}

#[tokio::test]
#[ignore = "study: cargo xtask study kill"]
async fn kill_study() {
    let kills = env::var("PUMPWRIGHT_KILLS").map_or(200, |text| text.parse().unwrap());
    println!(
        "| store | kills | entries acknowledged | lost | doubled | on record, killed before the answer |\n\
         |---|---|---|---|---|---|",
    );
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start();
    for (store, url) in [("a file", url(&folder)), ("a server", server.database())] {
        let tally = kill(&url, kills).await;
        println!(
            "| {store} | {} | {} | {} | {} | {} |",
            tally.kills,
            tally.acknowledged,
            tally.lost.len(),
            tally.doubled.len(),
            tally.unanswered
        );
        assert_eq!(tally.counts(), (kills, 0, 0));
    }
}

fn act_id(job: &JobId, n: u64) -> String {
    format!("{job}-{n}")
}

/// The child: acts and acknowledges until it is killed.
async fn work() {
    let store = Store::open(&env::var(URL).unwrap()).await.unwrap();
    let job = job(&env::var(JOB).unwrap());
    let park = env::var(PARK).ok().map(|text| text.parse::<u64>().unwrap());
    for n in 0.. {
        let stamp = stamp(&act_id(&job, n));
        store.act(&job, tried(0, 0), stamp, later(0)).await.unwrap();
        let parked = park == Some(n);
        let mut out = std::io::stdout().lock();
        writeln!(out, "\n{} {n}", if parked { "parked" } else { "done" }).unwrap();
        out.flush().unwrap();
        drop(out);
        if parked {
            tokio::time::sleep(Duration::from_mins(1)).await;
        }
    }
}

async fn kill(url: &str, kills: u64) -> Tally {
    let mut random = Pcg32::seed_from_u64(SEED);
    let mut tally = Tally::default();
    let mut acknowledged = Vec::new();
    for n in 0..kills {
        let job = job(&format!("kill-{n}"));
        describe(url, &job).await;
        let answers = u64::from(random.next_u32() % 8);
        let park = (n % 5 == 4).then_some(answers);
        let moment = Duration::from_micros(u64::from(random.next_u32() % 8000));
        let mut child = start(url, &job, park);
        let heard = hear_until_killed(&mut child, answers, park.is_some(), moment);
        tally.kills += 1;
        tally.acknowledged += heard;
        acknowledged.push((job, heard));
        let (job, heard) = acknowledged.last().unwrap();
        look(url, job, *heard, &mut tally).await;
        if park.is_some() {
            assert_eq!(heard, &answers, "it parked where it was told to");
        }
    }
    // What was right after its own kill must be right after all the later ones.
    let store = Store::open(url).await.unwrap();
    for (job, heard) in &acknowledged {
        compare(&store, job, *heard + 1, &mut tally).await;
    }
    tally
}

async fn describe(url: &str, job: &JobId) {
    let store = Store::open(url).await.unwrap();
    for (name, act) in [
        ("job", opened("Kill")),
        ("pump", pump()),
        ("leaves", leaves()),
    ] {
        let stamp = stamp(&format!("{job}-{name}"));
        store.act(job, act, stamp, later(0)).await.unwrap();
    }
    store.close().await;
}

/// This very test, run again as the child.
fn start(url: &str, job: &JobId, park: Option<u64>) -> Child {
    let mut command = Command::new(env::current_exe().unwrap());
    command
        .args(["kill::kill_twenty_times", "--exact", "--nocapture"])
        .env(URL, url)
        .env(JOB, job.as_str())
        .stdout(Stdio::piped());
    if let Some(park) = park {
        command.env(PARK, park.to_string());
    }
    command.spawn().unwrap()
}

/// Kills the child a moment after its first `answers`, or where it parks after them, and returns
/// how many acts it acknowledged, with the acknowledgements that were under way when it died.
fn hear_until_killed(child: &mut Child, answers: u64, park: bool, moment: Duration) -> u64 {
    let mut out = BufReader::new(child.stdout.take().unwrap());
    let mut heard = 0;
    while park || heard < answers {
        match hear(&mut out) {
            Some(Heard::Done) => heard += 1,
            Some(Heard::Parked) => break,
            None => panic!("the child ended by itself"),
        }
    }
    std::thread::sleep(moment);
    child.kill().unwrap();
    child.wait().unwrap();
    while let Some(more) = hear(&mut out) {
        heard += u64::from(matches!(more, Heard::Done));
    }
    heard
}

enum Heard {
    Done,
    Parked,
}

fn hear(out: &mut BufReader<ChildStdout>) -> Option<Heard> {
    let mut line = String::new();
    while out.read_line(&mut line).unwrap() > 0 {
        if line.starts_with("done ") && line.ends_with('\n') {
            return Some(Heard::Done);
        }
        if line.starts_with("parked ") {
            return Some(Heard::Parked);
        }
        line.clear();
    }
    None
}

/// Opens the store after a kill, compares, and sends the unanswered act again.
async fn look(url: &str, job: &JobId, heard: u64, tally: &mut Tally) {
    let store = Store::open(url).await.unwrap();
    compare(&store, job, heard, tally).await;
    let entries = store.entries(job).await.unwrap();
    let unanswered = act_id(job, heard);
    let there = entries
        .iter()
        .any(|entry| entry.new.id.as_str() == unanswered);
    tally.unanswered += u64::from(there);

    let sent = || store.act(job, tried(0, 0), stamp(&unanswered), later(1));
    let first = sent().await.unwrap();
    assert_eq!(first.again, there);
    let second = sent().await.unwrap();
    assert_eq!((second.again, second.positions), (true, first.positions));
    compare(&store, job, heard + 1, tally).await;
    store.close().await;
}

/// Notes which of the acknowledged acts are not on record, and which are twice.
async fn compare(store: &Store, job: &JobId, heard: u64, tally: &mut Tally) {
    let entries = store.entries(job).await.unwrap();
    for (position, entry) in (1..).zip(&entries) {
        assert_eq!(entry.position, position, "a gap in the positions");
    }
    let mut ids = BTreeSet::new();
    for entry in &entries {
        if !ids.insert(entry.new.id.to_string()) {
            tally.doubled.insert(entry.new.id.to_string());
        }
    }
    let acknowledged = (0..heard).map(|n| act_id(job, n));
    tally
        .lost
        .extend(acknowledged.filter(|id| !ids.contains(id)));
}
