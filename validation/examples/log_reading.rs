//! How fast logs are read, and in how much memory: made-up logs of any length.
//!
//!     log_reading write gpx|nmea|table FILE MEGABYTES
//!     log_reading time FILE
//!     log_reading compare
//!     log_reading stream gpx|nmea|table|worst MEGABYTES
//!
//! `compare` times this project's readers and, by `PUMPWRIGHT_PYTHON`, the libraries of
//! `python/readers.py` on the same two files of 20 MB, one after the other, and prints the ratios.
//! `stream` makes the log while it is read, so nothing but the reader takes memory, and prints the most
//! memory the process ever had.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a measuring tool for the shop floor of this project"
)]

use std::fmt::Write as _;
use std::fs::File;
use std::io::{self, BufReader, Read, Write as _};
use std::process::Command;
use std::time::Instant;

use trial::read::{Options, read};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words[..] {
        ["write", kind, file, megabytes] => {
            let mut log = Made::new(kind, megabytes);
            io::copy(&mut log, &mut File::create(file).unwrap()).unwrap();
        }
        ["time", file] => {
            let size = std::fs::metadata(file).unwrap().len();
            report(
                BufReader::with_capacity(1 << 16, File::open(file).unwrap()),
                size,
            );
        }
        ["stream", kind, megabytes] => {
            let log = Made::new(kind, megabytes);
            let size = log.left;
            report(
                BufReader::with_capacity(1 << 16, log),
                u64::try_from(size).unwrap(),
            );
        }
        ["compare"] => {
            for kind in ["gpx", "nmea"] {
                compare(kind);
            }
        }
        _ => panic!("see the head of this file"),
    }
}

/// The least of three runs of each, so that what else the machine does counts little.
fn compare(kind: &str) {
    let file = std::env::temp_dir().join(format!("made-up-{}.{kind}", std::process::id()));
    io::copy(
        &mut Made::new(kind, "20"),
        &mut File::create(&file).unwrap(),
    )
    .unwrap();
    let python =
        std::env::var("PUMPWRIGHT_PYTHON").expect("PUMPWRIGHT_PYTHON names the locked Python");
    let recipe = concat!(env!("CARGO_MANIFEST_DIR"), "/python/readers.py");
    let (mut ours, mut theirs) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..3 {
        let start = Instant::now();
        let log = BufReader::with_capacity(1 << 16, File::open(&file).unwrap());
        let fixes = read(log, &Options::default()).unwrap().fixes;
        ours = ours.min(start.elapsed().as_secs_f64());
        let out = Command::new(&python)
            .arg(recipe)
            .arg("time")
            .arg(&file)
            .output()
            .unwrap();
        let out: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        theirs = theirs.min(out["seconds"].as_f64().unwrap());
        assert_eq!(out["fixes"].as_u64(), Some(fixes), "both read all");
    }
    std::fs::remove_file(&file).unwrap();
    println!(
        "{kind}: {ours:.3} s here, {theirs:.3} s there, {:.1} times as fast",
        theirs / ours
    );
}

fn report(log: impl io::BufRead, size: u64) {
    let start = Instant::now();
    let reading = read(log, &Options::default()).unwrap();
    let took = start.elapsed().as_secs_f64();
    let samples: usize = reading.log.stretches.iter().map(Vec::len).sum();
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status
        .lines()
        .find(|line| line.starts_with("VmHWM"))
        .unwrap_or("VmHWM: unknown");
    println!(
        "{{\"seconds\": {took:.4}, \"bytes\": {size}, \"fixes\": {}, \"samples\": {samples}, \
         \"stretches\": {}, \"thinned\": \"{:?}\", \"most_memory\": \"{}\"}}",
        reading.fixes,
        reading.log.stretches.len(),
        reading.thinned,
        most.split_whitespace()
            .skip(1)
            .collect::<Vec<_>>()
            .join(" "),
    );
    io::stdout().flush().unwrap();
}

/// A log that is made while it is read: runs of two minutes, ten times a second.
struct Made {
    kind: String,
    left: usize,
    at: u32,
    ready: String,
    given: usize,
    ended: bool,
}

impl Made {
    fn new(kind: &str, megabytes: &str) -> Self {
        let megabytes: f64 = megabytes.parse().unwrap();
        let ready = match kind {
            "gpx" => "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\"><trk><trkseg>\n",
            "table" => "time_s,speed_kmh,rpm,cog_deg\n",
            _ => "",
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a size"
        )]
        let left = (megabytes * 1e6) as usize;
        Self {
            kind: kind.to_owned(),
            left,
            at: 0,
            ready: ready.to_owned(),
            given: 0,
            ended: false,
        }
    }

    fn more(&mut self) {
        self.ready.clear();
        self.given = 0;
        for _ in 0..100 {
            self.fix();
            self.at += 1;
        }
    }

    fn fix(&mut self) {
        let tenths = f64::from(self.at);
        let phase = tenths / 1200.0 * std::f64::consts::TAU;
        // Never slow where it is to be the worst for the memory.
        let low = if self.kind == "worst" { 0.9 } else { 0.0 };
        let speed = 25.0 * (low + (1.0 - low) * phase.sin().max(0.0));
        let (whole, part) = (self.at / 10, self.at % 10);
        let (h, m, s) = (whole / 3600 % 24, whole / 60 % 60, whole % 60);
        let day = 1 + whole / 86_400 % 28;
        let month = 1 + whole / 86_400 / 28 % 12;
        let year = 26 + whole / 86_400 / 28 / 12;
        let to = &mut self.ready;
        match self.kind.as_str() {
            "gpx" => {
                let latitude = 45.0 + 1e-3 * (phase / 40.0).sin();
                let _ = writeln!(
                    to,
                    "<trkpt lat=\"{latitude:.7}\" lon=\"-93.0000000\"><ele>100.0</ele>\
                     <time>20{year:02}-{month:02}-{day:02}T{h:02}:{m:02}:{s:02}.{part}00Z</time>\
                     <extensions><speed>{speed:.3}</speed></extensions></trkpt>",
                );
            }
            "table" => {
                let _ = writeln!(
                    to,
                    "{:.1},{:.2},{:.0},90.0",
                    tenths / 10.0,
                    speed * 3.6,
                    300.0 * speed
                );
            }
            _ => {
                let knots = speed * 3600.0 / 1852.0;
                for body in [
                    format!(
                        "GPRMC,{h:02}{m:02}{s:02}.{part}0,A,4500.0000,N,09300.0000,W,{knots:.3},090.0,\
                         {day:02}{month:02}{year:02},,,D"
                    ),
                    format!(
                        "GPGGA,{h:02}{m:02}{s:02}.{part}0,4500.0000,N,09300.0000,W,2,12,0.8,100.0,M,-30.0,M,,"
                    ),
                    format!("GPVTG,90.0,T,,M,{knots:.3},N,{:.3},K,D", speed * 3.6),
                ] {
                    let sum = body.bytes().fold(0, |sum, c| sum ^ c);
                    let _ = write!(to, "${body}*{sum:02X}\r\n");
                }
            }
        }
    }
}

impl Read for Made {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        if self.given == self.ready.len() {
            if self.left > 0 {
                self.more();
            } else if self.kind == "gpx" && !self.ended {
                self.ended = true;
                "</trkseg></trk></gpx>\n".clone_into(&mut self.ready);
                self.given = 0;
            } else {
                return Ok(0);
            }
        }
        let some = &self.ready.as_bytes()[self.given..];
        let count = some.len().min(to.len());
        to[..count].copy_from_slice(&some[..count]);
        self.given += count;
        self.left = self.left.saturating_sub(count);
        Ok(count)
    }
}
