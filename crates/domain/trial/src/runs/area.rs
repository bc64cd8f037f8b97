//! Means over time of readings at unequal steps.

/// Readings joined by straight lines, with the area below them.
pub(super) struct Area {
    times: Vec<f64>,
    values: Vec<f64>,
    sums: Vec<f64>,
}

impl Area {
    pub(super) fn new(readings: impl Iterator<Item = (f64, f64)>) -> Self {
        let (times, values): (Vec<f64>, Vec<f64>) = readings.unzip();
        let mut sums = Vec::with_capacity(times.len());
        let mut sum = 0.0;
        for i in 0..times.len() {
            if i > 0 {
                sum += 0.5 * (values[i] + values[i - 1]) * (times[i] - times[i - 1]);
            }
            sums.push(sum);
        }
        Self {
            times,
            values,
            sums,
        }
    }

    /// First and last time; none of fewer than two readings.
    pub(super) fn span(&self) -> Option<(f64, f64)> {
        match self.times[..] {
            [first, .., last] => Some((first, last)),
            _ => None,
        }
    }

    /// Value at a time within the span.
    fn value(&self, time: f64) -> f64 {
        let i = self.piece(time);
        let share = (time - self.times[i]) / (self.times[i + 1] - self.times[i]);
        self.values[i] + share * (self.values[i + 1] - self.values[i])
    }

    fn piece(&self, time: f64) -> usize {
        let after = self.times.partition_point(|t| *t <= time);
        after.saturating_sub(1).min(self.times.len() - 2)
    }

    fn up_to(&self, time: f64) -> f64 {
        let i = self.piece(time);
        self.sums[i] + 0.5 * (self.values[i] + self.value(time)) * (time - self.times[i])
    }

    /// Mean between two times within the span.
    pub(super) fn mean(&self, from: f64, to: f64) -> f64 {
        (self.up_to(to) - self.up_to(from)) / (to - from)
    }

    /// Start of the window of this length with the highest mean, and the mean; none where it does not fit.
    ///
    /// Between two readings at either end of the window its mean is a parabola of its start: the highest lies
    /// where a reading enters or leaves, or where both ends stand at one height.
    pub(super) fn best(&self, window: f64) -> Option<(f64, f64)> {
        let (first, last) = self.span()?;
        let latest = last - window;
        if latest < first {
            return None;
        }
        let ends = self.times.iter().map(|t| t - window);
        let mut starts: Vec<f64> = self.times.iter().copied().chain(ends).collect();
        starts.retain(|start| (first..=latest).contains(start));
        starts.push(latest);
        starts.sort_by(f64::total_cmp);
        let rise = |start: f64| self.value((start + window).min(last)) - self.value(start);
        let mut tried = starts.clone();
        for pair in starts.windows(2) {
            let (here, there) = (rise(pair[0]), rise(pair[1]));
            if here > 0.0 && there < 0.0 {
                tried.push(pair[0] + (pair[1] - pair[0]) * here / (here - there));
            }
        }
        tried
            .into_iter()
            .map(|start| (start, self.mean(start, (start + window).min(last))))
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }
}
