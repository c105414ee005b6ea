//! Which bars stand on a line, and how wide they are there.

use std::ops::Range;

use super::bar_columns::BarColumns;

/// Bars that stand on one line.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Spacing {
    pub(super) bars: Range<usize>,
    /// How much of the room that they would like their moments have.
    pub(super) ease: f64,
}

/// What fits a line with this much ease looks like print; with less it is crowded.
const COMFORT: f64 = 0.75;
/// The last line is not stretched further.
const WIDEST: f64 = 1.5;
/// No line has more bars.
const MOST_BARS: usize = 4;

/// Lines of bars. `room` is the width for bars on the line that begins with a bar; a line may begin with
/// the bars in `begins` alone or after them.
pub(super) fn lines(
    bars: &[BarColumns],
    room: impl Fn(usize) -> f64,
    begins: impl Fn(usize) -> bool,
) -> Vec<Spacing> {
    let mut lines = Vec::new();
    let mut first = 0;
    while first < bars.len() {
        let section = (first + 1..bars.len()).find(|bar| begins(*bar)).unwrap_or(bars.len());
        lines.extend(of_section(bars, first..section, &room));
        first = section;
    }
    lines
}

/// As few lines as will do, with bars shared out evenly among them.
fn of_section(
    bars: &[BarColumns],
    section: Range<usize>,
    room: &impl Fn(usize) -> f64,
) -> Vec<Spacing> {
    let greedy = broken(bars, &section, room, MOST_BARS);
    let even = section.len().div_ceil(greedy.len().max(1));
    let shared = broken(bars, &section, room, even);
    let chosen = if shared.len() <= greedy.len() { shared } else { greedy };
    let ease_of =
        |line: &Range<usize>| ease(bars.get(line.clone()).unwrap_or(&[]), room(line.start));
    // Lines that hold the same number of bars look alike.
    let eases: Vec<f64> = chosen.iter().map(ease_of).collect();
    let line = |(bars, ease)| Spacing { bars, ease };
    chosen.into_iter().zip(eases).map(line).collect()
}

fn broken(
    bars: &[BarColumns],
    section: &Range<usize>,
    room: &impl Fn(usize) -> f64,
    most: usize,
) -> Vec<Range<usize>> {
    let mut lines: Vec<Range<usize>> = Vec::new();
    let mut used = 0.0;
    for index in section.clone() {
        let width = bars.get(index).map_or(0.0, |bar| bar.width(COMFORT));
        match lines.last_mut() {
            Some(line) if line.len() < most && used + width <= room(line.start) => {
                line.end = index + 1;
                used += width;
            }
            _ => {
                lines.push(index..index + 1);
                used = width;
            }
        }
    }
    lines
}

/// How much ease fills the room, by halving.
fn ease(bars: &[BarColumns], room: f64) -> f64 {
    let width = |ease: f64| bars.iter().map(|bar| bar.width(ease)).sum::<f64>();
    let (mut low, mut high) = (0.0, 8.0);
    if width(WIDEST) <= room {
        return WIDEST;
    }
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if width(middle) > room { high = middle } else { low = middle }
    }
    low
}
