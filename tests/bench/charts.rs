//! Charts: one of 64 bars and one of 1,000 read from TOML, beside their chord symbols alone.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::library::{ReadChart, text_of_chart};
use fretloom_theory::Chord;
use ratio::Ratios;

/// What the bars hold, over and over.
const CHORDS: [&str; 8] =
    ["Ebmaj9", "Dm7b5 G7b9", "Cm9", "Bbm7 Eb9", "Abmaj7", "Abm7 Db9#11", "Gm7 C7alt", "Fm7 Bb13"];

/// A tune of so many bars, a choice on every eighth.
fn tune(bars: usize) -> String {
    let mut text = String::from("title = \"Many Doors\"\nkey = \"Eb\"\ntempo = 152\n");
    for (section, from) in (0..bars).step_by(8).enumerate() {
        let bars: Vec<&str> = (from..bars.min(from + 8)).map(|bar| CHORDS[bar % 8]).collect();
        text +=
            &format!("\n[[section]]\nname = \"{section}\"\nbars = \"| {} |\"\n", bars.join(" | "));
    }
    for bar in (1..=bars).step_by(8) {
        text += &format!("\n[[choice]]\nbar = {bar}\nscale = \"Eb Lydian\"\npair = \"F & Gm\"\n");
    }
    text
}

fn read(text: &str) -> ReadChart {
    ReadChart::of_text("own.toml", text, &[]).unwrap()
}

/// The same symbols, one after another.
fn symbols(bars: usize) -> Vec<Chord> {
    let words = (0..bars).flat_map(|bar| CHORDS[bar % 8].split(' '));
    words.map(|word| word.parse().unwrap()).collect()
}

#[divan::bench(args = [64, 1_000])]
fn read_toml(bencher: Bencher<'_, '_>, bars: usize) {
    let text = tune(bars);
    bencher.bench_local(|| read(black_box(&text)));
}

fn main() {
    divan::main();
    for bars in [64, 1_000] {
        let text = tune(bars);
        let chart = read(&text).chart;
        assert_eq!(chart.bars.bars().len(), bars);
        Ratios::to("its symbols alone", || symbols(bars))
            .and("the chart out of TOML", || read(&text))
            .and("the chart as TOML", || text_of_chart(&chart))
            .print(&format!("a chart of {bars} bars"));
    }
}
