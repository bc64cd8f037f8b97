//! How a log of any length is kept in little memory, in one pass.
//!
//! Everything is kept until there is too much. Then what matters least is given up first: slow parts
//! come down to one sample a second, then to one in ten seconds; last, only the fastest parts stay
//! as they are and what lies between is left out. The quarter of a minute before each launch counts
//! as fast. Same samples, same answer.

/// The most samples a log hands on.
pub const MOST: usize = 60_000;

/// Of these, as many may lie in the fastest parts once nothing else helps.
const FASTEST: usize = 40_000;
/// What a part is when parts are ranked, and what is spared before a launch.
const PART: i64 = 30 * SECOND;
const RUN_UP: i64 = 15 * SECOND;
const SECOND: i64 = 1_000_000_000;

/// A sample while a log is being read. What is absent is not a number.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kept {
    /// In nanoseconds.
    pub(crate) time: i64,
    /// As the receiver gave it.
    pub(crate) speed: f64,
    pub(crate) course: f64,
    pub(crate) engine: f64,
    /// From the place before: metres east and north, and the seconds it took.
    pub(crate) leg: [f32; 3],
    /// The longest step, in seconds, since the sample before this one that is still kept.
    pub(crate) gap: f32,
    /// The log broke off before this sample.
    pub(crate) broken: bool,
}

impl Kept {
    /// The receiver's speed, else that from places, else nothing.
    pub(crate) fn pace(&self) -> f64 {
        if self.speed.is_nan() {
            let [east, north, over] = self.leg.map(f64::from);
            let pace = east.hypot(north) / over;
            if pace.is_nan() { 0.0 } else { pace }
        } else {
            self.speed
        }
    }
}

/// What was given up so that the log fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thinned {
    /// Samples given up.
    pub samples: u64,
    /// Slow parts have one sample in this many seconds.
    pub spacing: f64,
    /// Whether faster parts had to be left out as well, all but the fastest.
    pub fast: bool,
}

#[derive(Debug, Default)]
pub(crate) struct Keep {
    samples: Vec<Kept>,
    best: f64,
    given_up: u64,
    spacing: i64,
    fast: bool,
}

impl Keep {
    pub(crate) fn push(&mut self, sample: Kept) {
        self.best = self.best.max(sample.pace());
        self.samples.push(sample);
        if self.samples.len() >= 2 * MOST {
            self.compact();
        }
    }

    pub(crate) fn finish(mut self) -> (Vec<Kept>, Option<Thinned>) {
        if self.samples.len() > MOST {
            self.compact();
        }
        #[expect(clippy::cast_precision_loss, reason = "a few seconds")]
        let thinned = (self.given_up > 0).then_some(Thinned {
            samples: self.given_up,
            spacing: (self.spacing / SECOND) as f64,
            fast: self.fast,
        });
        (self.samples, thinned)
    }

    fn compact(&mut self) {
        for seconds in [1, 10] {
            let spared = self.spared();
            self.thin(&spared, seconds * SECOND);
            if self.samples.len() <= MOST {
                return;
            }
        }
        self.only_fastest();
    }

    /// Which samples are fast, or within the run-up to a launch.
    fn spared(&self) -> Vec<bool> {
        let mut spared: Vec<bool> = self.samples.iter().map(|s| self.is_fast(s)).collect();
        // A launch may follow the last sample, if the log is not at its end.
        let mut launch = self.samples.last().map(|last| last.time);
        for at in (0..spared.len()).rev() {
            let sample = &self.samples[at];
            if spared[at] {
                launch = Some(sample.time);
            } else if let Some(start) = launch {
                let ahead = start.saturating_sub(sample.time);
                if (0..=RUN_UP).contains(&ahead) {
                    spared[at] = true;
                } else {
                    launch = None;
                }
            }
            if sample.broken {
                launch = None;
            }
        }
        spared
    }

    fn is_fast(&self, sample: &Kept) -> bool {
        sample.pace() >= 0.5 * self.best
    }

    /// Gives up what is not spared and follows another within the spacing.
    fn thin(&mut self, spared: &[bool], spacing: i64) {
        let mut last: Option<i64> = None;
        self.spacing = self.spacing.max(spacing);
        self.retain(|at, sample| {
            let near =
                last.is_some_and(|last| (0..spacing).contains(&sample.time.saturating_sub(last)));
            let keep = spared[at] || sample.broken || !near;
            if keep {
                last = Some(sample.time);
            }
            (keep, false)
        });
    }

    /// Keeps those for which the answer begins with yes; where it ends with yes, the log breaks there.
    fn retain(&mut self, mut keep: impl FnMut(usize, &Kept) -> (bool, bool)) {
        let before = self.samples.len();
        let (mut gap, mut broken, mut at) = (0.0_f32, false, 0);
        self.samples.retain_mut(|sample| {
            let (stays, breaks) = keep(at, sample);
            at += 1;
            gap = gap.max(sample.gap);
            broken |= sample.broken || breaks;
            if stays {
                sample.gap = gap;
                sample.broken = broken;
                (gap, broken) = (0.0, false);
            }
            stays
        });
        self.given_up += u64::try_from(before - self.samples.len()).unwrap_or(u64::MAX);
    }

    /// Ranks parts by their mean pace, keeps the fastest whole and leaves the other fast ones out.
    fn only_fastest(&mut self) {
        let top = self.fastest_parts();
        self.fast = true;
        let best = self.best;
        self.retain(|at, sample| {
            let slow = sample.pace() < 0.5 * best;
            (top[at] || slow, !(top[at] || slow))
        });
        let mut spacing = 20 * SECOND;
        while self.samples.len() > MOST {
            let top = self.fastest_parts();
            self.thin(&top, spacing);
            spacing = spacing.saturating_mul(2);
            // A clock that runs backwards makes no spacing: then by count.
            if self.samples.len() > MOST {
                let (top, mut odd) = (self.fastest_parts(), false);
                self.retain(|at, _| {
                    odd = !odd;
                    (top[at] || odd, !(top[at] || odd))
                });
            }
        }
    }

    fn fastest_parts(&self) -> Vec<bool> {
        let mut parts: Vec<(usize, usize)> = Vec::new();
        let mut start = 0;
        for (at, sample) in self.samples.iter().enumerate() {
            let since = sample.time.saturating_sub(self.samples[start].time);
            if at > start && (sample.broken || !(0..PART).contains(&since)) {
                parts.push((start, at));
                start = at;
            }
        }
        parts.push((start, self.samples.len()));
        #[expect(clippy::cast_precision_loss, reason = "a part has few samples")]
        let mean = |&(from, to): &(usize, usize)| {
            self.samples[from..to].iter().map(Kept::pace).sum::<f64>() / (to - from) as f64
        };
        let mut ranked: Vec<(f64, usize, usize)> =
            parts.iter().map(|p| (mean(p), p.0, p.1)).collect();
        ranked.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut top = vec![false; self.samples.len()];
        let mut room = FASTEST;
        for (_, from, to) in ranked {
            let taken = room.min(to - from);
            top[from..from + taken].fill(true);
            room -= taken;
        }
        top
    }
}
