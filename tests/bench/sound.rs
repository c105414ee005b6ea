//! Sound: samples of a line with all that can sound beside it, beside those of a plain sine.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::f32::consts::TAU;
use std::sync::Arc;
use std::time::Instant;

use divan::{Bencher, black_box};
use fretloom::answer::{
    AskedChords, LineAnswer, LineChords, LineQuestion, TuningAnswer, find_tuning,
};
use fretloom::library::LoadedTunings;
use fretloom::sound::{CountIn, Mix, Performance, PlayStyle, RATE, Samples};
use fretloom_fretboard::Neck;
use fretloom_theory::{ClickBeats, Meter};
use ratio::Ratios;

/// How many bars the line has.
const BARS: u32 = 32;

/// As many frames as a server asks for at a time.
const BLOCK: usize = 480;

fn answer(tuning: &str) -> LineAnswer {
    let tuning: TuningAnswer = find_tuning(&LoadedTunings::load(None), tuning).unwrap();
    let asked = AskedChords {
        bars: Some(BARS),
        ..AskedChords::plain("| Dm7 | G7alt | Cmaj7 | A7 |", Meter::COMMON)
    };
    let question = LineQuestion::over(LineChords::read(&asked).unwrap());
    LineAnswer::new(&Neck::new(tuning.tuning.clone()), tuning, &question).unwrap()
}

/// All that can sound at once.
fn everything() -> PlayStyle {
    PlayStyle {
        click: ClickBeats::Every,
        count_in: CountIn::OneBar,
        swing: "2:1".parse().unwrap(),
        ..PlayStyle::default()
    }
}

fn drained(mut samples: Box<dyn Samples>) -> (u64, f32) {
    let (mut block, mut frames, mut last) = ([0.0; BLOCK], 0, 0.0);
    loop {
        let made = samples.fill(&mut block);
        frames += made as u64;
        last += block[0];
        if made < BLOCK {
            return (frames, last);
        }
    }
}

/// The least that anybody would do: one sine, as long.
fn sine(frames: u64) -> f32 {
    let mut sum = 0.0;
    for frame in 0..frames {
        sum += black_box((TAU * 440.0 * (frame as f32 / RATE as f32)).sin());
    }
    sum
}

#[divan::bench]
fn a_line_with_drone_and_click(bencher: Bencher<'_, '_>) {
    let performance = answer("guitar-standard").performance(0, &everything()).unwrap();
    let mix = Arc::new(Mix::full());
    bencher.bench(|| drained(performance.samples(black_box(&mix))));
}

#[divan::bench]
fn the_first_block(bencher: Bencher<'_, '_>) {
    let line = answer("guitar-standard");
    let mix = Arc::new(Mix::full());
    bencher.bench(|| {
        let performance = black_box(&line).performance(0, &PlayStyle::default()).unwrap();
        let mut block = [0.0; BLOCK];
        performance.samples(&mix).fill(&mut block);
        block
    });
}

/// How many times as fast as it is heard.
fn times_real_time(performance: &Performance, mix: &Arc<Mix>) -> f64 {
    let begun = Instant::now();
    let (frames, _) = black_box(drained(performance.samples(mix)));
    frames as f64 / f64::from(RATE) / begun.elapsed().as_secs_f64()
}

fn main() {
    divan::main();
    let mix = Arc::new(Mix::full());
    let [six, twelve] = ["guitar-standard", "guitar-12-string"]
        .map(|tuning| answer(tuning).performance(0, &everything()).unwrap());
    let alone = answer("guitar-standard").performance(0, &PlayStyle::default()).unwrap();
    let frames = six.frames().unwrap().0;
    for (name, performance) in [("six strings", &six), ("twelve strings", &twelve)] {
        println!("{name}: {:.0} times real time", times_real_time(performance, &mix));
    }
    Ratios::to("a sine", || sine(frames))
        .and("the line alone", || drained(alone.samples(&mix)))
        .and("with drone and click", || drained(six.samples(&mix)))
        .and("the same on twelve strings", || drained(twelve.samples(&mix)))
        .print(&format!("{BARS} bars, {:.1} s", frames as f64 / f64::from(RATE)));
}
