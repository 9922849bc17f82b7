//! Repeated times, and how they are printed: least, middle, most.

use std::time::Duration;

/// Times of one thing done many times, in milliseconds.
#[derive(Default)]
pub struct Spread {
    times: Vec<f64>,
}

impl Spread {
    /// Adds one time.
    pub fn add(&mut self, time: Duration) {
        self.add_milliseconds(time.as_secs_f64() * 1000.0);
    }

    /// Adds one time in milliseconds.
    pub fn add_milliseconds(&mut self, time: f64) {
        self.times.push(time);
        self.times.sort_by(f64::total_cmp);
    }

    /// The middle one; nought if there is none.
    pub fn median(&self) -> f64 {
        self.times
            .get(self.times.len() / 2)
            .copied()
            .unwrap_or_default()
    }

    /// Prints one line, with what was wanted at its end.
    pub fn print(&self, name: &str, wanted: &str) {
        let least = self.times.first().copied().unwrap_or_default();
        let most = self.times.last().copied().unwrap_or_default();
        println!(
            "{name:<34} {least:>6.2} ms {:>6.2} ms {most:>6.2} ms   {wanted}",
            self.median()
        );
    }

    /// Prints how many times as long as the yardstick it took, by the middle ones.
    pub fn print_ratio(&self, yardstick: &Spread) {
        println!(
            "{:<34} {:>19.1} times the yardstick",
            "",
            self.median() / yardstick.median()
        );
    }
}
