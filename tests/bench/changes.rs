//! Lines through a chart and its comping, beside the plan alone and a plain walk.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::answer::{
    ChangesAnswer, ChangesQuestion, CompingAnswer, CompingQuestion, LineChords, LineQuestion,
    LinesAnswer, TuningAnswer, find_tuning,
};
use fretloom::library::LoadedTunings;
use fretloom_fretboard::Neck;
use fretloom_theory::{BarText, Chart, Meter};
use ratio::Ratios;

/// Sixteen bars that come four times: 64 bars in several keys.
const BARS: &str = "|: Dm7 | G7 | Cmaj7 | % | Cm7 | F7 | Bbmaj7 | % | Bbm7 | Eb7 | Abmaj7 | % | \
                    Dm7b5 | G7 | Cm6 | % :|4";

/// A chart with its plan, on a guitar.
struct Tune {
    neck: Neck,
    tuning: TuningAnswer,
    chords: LineChords,
}

impl Tune {
    fn new() -> Tune {
        let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
        let neck = Neck::new(tuning.tuning.clone());
        let changes = ChangesAnswer::new(&neck, &ChangesQuestion::of(chart())).unwrap();
        let chords = LineChords::of_changes(&changes, changes.best());
        Tune { neck, tuning, chords }
    }

    fn line(&self) -> LinesAnswer {
        let question = LineQuestion::over(self.chords.clone());
        LinesAnswer::in_one_key(&self.neck, self.tuning.clone(), &question).unwrap()
    }

    fn comping(&self) -> CompingAnswer {
        let question = CompingQuestion::over(self.chords.clone());
        CompingAnswer::new(&self.neck, self.tuning.clone(), &question).unwrap()
    }
}

fn chart() -> Chart {
    Chart::of(BarText::read(BARS, Meter::COMMON).unwrap())
}

/// The least that anybody would do: from each note of the pair of a bar to the next one up, in plain
/// numbers, turning at the ends of the neck, eight a bar.
fn plain_numbers(tune: &Tune) -> Vec<u8> {
    let (mut played, mut at, mut up) = (Vec::new(), 55_u8, true);
    for bar in 0..64_u32 {
        let moment = fretloom_theory::Quarters::whole(4 * bar);
        let set = tune.chords.at(moment).unwrap().pair.pair().set();
        for _ in 0..8 {
            at = loop {
                at = if up { at + 1 } else { at - 1 };
                up = if up { at < 84 } else { at <= 42 };
                if set.bits() & (1 << (at % 12)) != 0 {
                    break at;
                }
            };
            played.push(at);
        }
    }
    played
}

#[divan::bench]
fn a_line_through_64_bars(bencher: Bencher<'_, '_>) {
    let tune = Tune::new();
    bencher.bench(|| black_box(&tune).line());
}

#[divan::bench]
fn comping_of_64_bars(bencher: Bencher<'_, '_>) {
    let tune = Tune::new();
    bencher.bench(|| black_box(&tune).comping());
}

fn main() {
    divan::main();
    let tune = Tune::new();
    let [notes, stabs] = [tune.line().lines[0].answer.notes.len(), tune.comping().stabs.len()];
    Ratios::to("a walk in plain numbers, 512 notes", || plain_numbers(black_box(&tune)))
        .and(&format!("a line with places and fingers, {notes} notes"), || black_box(&tune).line())
        .and(&format!("comping, {stabs} stabs"), || black_box(&tune).comping())
        .print("a chart of 64 bars that is planned");
}
