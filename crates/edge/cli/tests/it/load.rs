//! A shop at work: many devices act at once, many listen, and the journal is looked at afterwards.
//!
//! Devices keep a pace of their own and do not wait for one another; one that falls behind sends the next act at
//! once. What was acknowledged must be on record once, in positions without a gap, and every listener must have
//! heard of the last one.

use std::collections::BTreeMap;
use std::io::{BufRead as _, BufReader, ErrorKind, Read as _, Write as _};
use std::net::TcpStream;
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use store::Store;
use workshop::entry::JobId;

use crate::bench::{Bench, EXAMPLE, Open};
use crate::postgres::Server;

/// How much is going on, and for how long.
#[derive(Clone, Copy)]
struct Shop {
    devices: usize,
    listeners: usize,
    jobs: usize,
    length: Duration,
    /// From one act of a device to its next.
    pace: Duration,
}

/// What came of it.
#[derive(Debug, Default)]
struct Tally {
    acknowledged: usize,
    lost: usize,
    doubled: usize,
    /// Listeners that never heard of the last entry of their job.
    deaf: usize,
    /// How long each act waited for its answer, shortest first.
    answers: Vec<Duration>,
    /// By how much the last act of a device was late, the latest of all.
    late: Duration,
}

impl Tally {
    fn share(&self, part: f64) -> f64 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "an index"
        )]
        let at = (part * (self.answers.len() - 1) as f64) as usize;
        self.answers[at].as_secs_f64() * 1e3
    }
}

/// A connection kept open, as a browser keeps it.
struct Line {
    host: String,
    stream: BufReader<TcpStream>,
}

impl Line {
    fn to(host: &str) -> Self {
        let stream = TcpStream::connect(host).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_mins(1)))
            .unwrap();
        stream.set_nodelay(true).unwrap();
        Self {
            host: host.to_owned(),
            stream: BufReader::new(stream),
        }
    }

    /// Sends a form; the status of the answer, and all of it read.
    fn post(&mut self, path: &str, body: &str) -> u16 {
        let request = format!(
            "POST {path} HTTP/1.1\r\nHost: {}\r\nContent-Type: application/x-www-form-urlencoded\r\n\
             Content-Length: {}\r\n\r\n{body}",
            self.host,
            body.len()
        );
        self.stream.get_mut().write_all(request.as_bytes()).unwrap();
        let (status, length) = self.head();
        let mut body = vec![0; length];
        self.stream.read_exact(&mut body).unwrap();
        status
    }

    /// The status and the length of what follows.
    fn head(&mut self) -> (u16, usize) {
        let mut line = String::new();
        self.stream.read_line(&mut line).unwrap();
        let status = line.split(' ').nth(1).unwrap().parse().unwrap();
        let mut length = 0;
        loop {
            line.clear();
            self.stream.read_line(&mut line).unwrap();
            let Some((name, value)) = line.trim_end().split_once(": ") else {
                return (status, length);
            };
            if name.eq_ignore_ascii_case("content-length") {
                length = value.parse().unwrap();
            }
        }
    }
}

/// One device: acts at its pace, and tells which were acknowledged and when.
fn device(
    shop: Shop,
    host: &str,
    number: usize,
) -> (Vec<(usize, String)>, Vec<Duration>, Duration) {
    let job = number % shop.jobs;
    let mut line = Line::to(host);
    let (mut done, mut answers, mut late) = (Vec::new(), Vec::new(), Duration::ZERO);
    let begun = Instant::now();
    for n in 0_u32.. {
        let due = shop.pace * n;
        if due >= shop.length {
            break;
        }
        if let Some(early) = due.checked_sub(begun.elapsed()) {
            thread::sleep(early);
        }
        late = begun.elapsed().saturating_sub(due);
        let id = format!("load-{number}-{n}");
        let spot = ["A+12", "A+3", "A+6", "A+9"][number % 4];
        let reading = ["13-14", "14-15"][n as usize % 2];
        let sent = Instant::now();
        let status = line.post(
            &format!("/job/load-{job}/act/reading"),
            &format!("id={id}&spot={spot}&reading={reading}"),
        );
        answers.push(sent.elapsed());
        assert_eq!(status, 303, "{id}");
        done.push((job, id));
    }
    (done, answers, late)
}

/// One listener: the last position it hears, told as it comes, until nobody asks any more.
fn listen(host: &str, job: usize) -> Receiver<u64> {
    let (tell, told) = channel();
    let mut line = Line::to(host);
    let request = format!("GET /job/load-{job}/live HTTP/1.1\r\nHost: {host}\r\n\r\n");
    line.stream.get_mut().write_all(request.as_bytes()).unwrap();
    thread::spawn(move || {
        let (status, _) = line.head();
        assert_eq!(status, 200);
        let mut text = String::new();
        loop {
            text.clear();
            match line.stream.read_line(&mut text) {
                Ok(0) => break,
                Ok(_) => {}
                Err(error) if error.kind() == ErrorKind::ConnectionReset => break,
                Err(error) => panic!("a listener: {error}"),
            }
            let position = text.trim_end().strip_prefix("id: ");
            let position = position.or_else(|| text.trim_end().strip_prefix("id:"));
            if let Some(position) = position
                && tell.send(position.parse().unwrap()).is_err()
            {
                break;
            }
        }
    });
    told
}

/// Runs the shop before the store at `url` and looks at the journal.
async fn work(shop: Shop, url: &str) -> Tally {
    let bench = Bench::new();
    for job in 0..shop.jobs {
        let text = EXAMPLE.replace("id = \"patrol-craft\"", &format!("id = \"load-{job}\""));
        let file = bench.write(&format!("{job}.toml"), text);
        bench.answer(&["import", file.to_str().unwrap(), "--store", url]);
    }
    let open = Open::new(&bench, &["--store", url]);
    let host = open.link().0.to_owned();
    let ears: Vec<_> = (0..shop.listeners)
        .map(|n| (n % shop.jobs, listen(&host, n % shop.jobs)))
        .collect();
    let hands: Vec<_> = (0..shop.devices)
        .map(|n| {
            let host = host.clone();
            thread::spawn(move || device(shop, &host, n))
        })
        .collect();
    let mut tally = Tally::default();
    let mut done = Vec::new();
    for hand in hands {
        let (acts, answers, late) = hand.join().unwrap();
        done.extend(acts);
        tally.answers.extend(answers);
        tally.late = tally.late.max(late);
    }
    tally.answers.sort();
    tally.acknowledged = done.len();
    let store = Store::open(url).await.unwrap();
    let mut last = Vec::new();
    for job in 0..shop.jobs {
        let id = JobId::new(&format!("load-{job}")).unwrap();
        let entries = store.entries(&id).await.unwrap();
        let mut times = BTreeMap::new();
        for (position, entry) in (1..).zip(&entries) {
            assert_eq!(entry.position, position, "a gap in the positions");
            *times.entry(entry.new.id.as_str()).or_insert(0) += 1;
        }
        tally.doubled += times.values().filter(|times| **times > 1).count();
        let of_job = done.iter().filter(|(of, _)| *of == job);
        tally.lost += of_job
            .filter(|(_, id)| !times.contains_key(id.as_str()))
            .count();
        last.push(entries.len() as u64);
    }
    store.close().await;
    tally.deaf = ears
        .iter()
        .filter(|(job, ear)| !hears(ear, last[*job]))
        .count();
    tally
}

/// Whether the listener has heard of this position, or does within ten seconds.
fn hears(ear: &Receiver<u64>, last: u64) -> bool {
    let patience = Instant::now() + Duration::from_secs(10);
    while let Ok(position) = ear.recv_timeout(patience.saturating_duration_since(Instant::now())) {
        if position == last {
            return true;
        }
    }
    false
}

fn twenty_seconds() -> Shop {
    Shop {
        devices: 20,
        listeners: 40,
        jobs: 4,
        length: Duration::from_secs(20),
        pace: Duration::from_secs(1),
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn law_a_shop_at_work_for_twenty_seconds_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let url = format!("sqlite:{}", folder.path().join("shop.sqlite").display());
    let tally = work(twenty_seconds(), &url).await;
    assert_eq!(
        (tally.acknowledged, tally.lost, tally.doubled, tally.deaf),
        (400, 0, 0, 0)
    );
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn law_a_shop_at_work_on_a_server_loses_nothing() {
    let tally = work(twenty_seconds(), &Server::shared().database()).await;
    assert_eq!(
        (tally.acknowledged, tally.lost, tally.doubled, tally.deaf),
        (400, 0, 0, 0)
    );
}

/// A row of the table.
fn row(store: &str, shop: Shop, tally: &Tally) -> String {
    format!(
        "| {store} | {} | {} | {} | {} | {} | {} | {:.0} / {:.0} / {:.0} ms | {:.1} s |",
        shop.jobs,
        shop.listeners,
        tally.acknowledged,
        tally.lost,
        tally.doubled,
        tally.deaf,
        tally.share(0.5),
        tally.share(0.99),
        tally.share(1.0),
        tally.late.as_secs_f64(),
    )
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "study: cargo xtask study shop"]
async fn shop_study() {
    let seconds = std::env::var("PUMPWRIGHT_SECONDS").map_or(30, |text| text.parse().unwrap());
    println!(
        "| store | jobs | listeners | entries acknowledged | lost | doubled | listeners that missed the last | answer: \
         median / 99 % / longest | last act late by |\n|---|---|---|---|---|---|---|---|---|"
    );
    for jobs in [4, 1] {
        let shop = Shop {
            listeners: 100,
            jobs,
            length: Duration::from_secs(seconds),
            ..twenty_seconds()
        };
        let folder = tempfile::tempdir().unwrap();
        let file = format!("sqlite:{}", folder.path().join("shop.sqlite").display());
        let server = Server::shared().database();
        for (store, url) in [("SQLite", file), ("PostgreSQL", server)] {
            let tally = work(shop, &url).await;
            println!("{}", row(store, shop, &tally));
            assert_eq!((tally.lost, tally.doubled, tally.deaf), (0, 0, 0));
        }
    }
}
