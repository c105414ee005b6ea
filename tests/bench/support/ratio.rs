//! How many times as long as a plain baseline: the figure that survives a noisy machine.
//!
//! divan's table has seconds, each row measured in its own stretch of time. Here the contenders
//! take turns, so that a busy neighbour slows all of them alike, and the medians are compared.

use std::hint::black_box;
use std::time::{Duration, Instant};

use crate::effort::Effort;

/// Turns that each contender gets.
const TURNS: usize = 41;

/// A turn repeats its work until it lasts about so long.
const TURN: Duration = Duration::from_millis(5);

/// Contenders of one table; the first of them is the baseline.
pub(crate) struct Ratios<'a> {
    contenders: Vec<(String, Box<dyn FnMut() + 'a>)>,
}

impl<'a> Ratios<'a> {
    pub(crate) fn to<T>(baseline: &str, work: impl FnMut() -> T + 'a) -> Ratios<'a> {
        Ratios { contenders: Vec::new() }.and(baseline, work)
    }

    pub(crate) fn and<T>(mut self, name: &str, mut work: impl FnMut() -> T + 'a) -> Ratios<'a> {
        self.contenders.push((name.to_owned(), Box::new(move || drop(black_box(work())))));
        self
    }

    /// Measures all of them in turns and prints the table; under [`Effort::Once`] each has one turn.
    pub(crate) fn print(mut self, title: &str) {
        let effort = Effort::of_this_run();
        let (turns, turn) = effort.choose((TURNS, TURN), (1, Duration::ZERO));
        let counts: Vec<u32> =
            self.contenders.iter_mut().map(|(_, work)| count(work, turn)).collect();
        let mut times = vec![Vec::new(); counts.len()];
        for _ in 0..turns {
            for (((_, work), count), times) in
                self.contenders.iter_mut().zip(&counts).zip(&mut times)
            {
                times.push(timed(*count, work) / *count);
            }
        }
        let medians: Vec<Duration> = times.into_iter().map(median).collect();
        println!("\n{title:<44} {:>12} {:>8}", "median", "ratio");
        for ((name, _), time) in self.contenders.iter().zip(&medians) {
            let ratio = time.as_secs_f64() / medians[0].as_secs_f64();
            println!("  {name:<42} {:>12} {ratio:>8.1}", format!("{time:.1?}"));
        }
    }
}

/// How often the work fits into a turn; running it for that also warms it up.
fn count(work: &mut dyn FnMut(), turn: Duration) -> u32 {
    let mut count = 1;
    while timed(count, work) < turn && count < 1 << 20 {
        count *= 2;
    }
    count
}

fn timed(count: u32, work: &mut dyn FnMut()) -> Duration {
    let start = Instant::now();
    for _ in 0..count {
        work();
    }
    start.elapsed()
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
