//! Plans of a chart beside the first pair of every chord; its line and its comping beside a plain walk.

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
use fretloom_fretboard::{Neck, Region};
use fretloom_theory::{
    BarText, Chart, ChordScale, Meter, OptionalChords, PairSound, PlanChord, TriadQuality,
};
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

/// So many bars whose chords differ, in twelve keys.
fn many(bars: usize) -> String {
    let roots = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"];
    let kinds = ["m7", "7", "maj7", "m7b5", "7alt", "6", "7sus4", "m6"];
    let bar = |n: usize| format!("| {}{} ", roots[n * 5 % 12], kinds[(n + n / 12) % 8]);
    (0..bars).map(bar).collect()
}

/// Bars read, and so many plans for them, with the hand locked to a region or not.
fn planned(neck: &Neck, bars: &str, plans: usize, region: Option<[&str; 2]>) -> ChangesAnswer {
    let chart = Chart::of(BarText::read(bars, Meter::COMMON).unwrap());
    let region = region.map(|[strings, frets]| {
        Region::default().on(strings.parse().unwrap()).within(frets.parse().unwrap())
    });
    let question = ChangesQuestion { plans, region, ..ChangesQuestion::of(chart) };
    ChangesAnswer::new(neck, &question).unwrap()
}

/// The least that anybody would do: the first pair of the first scale of every chord, each by itself.
fn first_pairs(bars: &str) -> Vec<PairSound> {
    let text = BarText::read(bars, Meter::COMMON).unwrap();
    let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::LeftOut), None);
    let first = |(_, chord): (_, PlanChord)| {
        let scale = chord.reading().scales()[0].scale().clone();
        let over = ChordScale::over(chord.reading().chord().clone(), scale);
        PairSound::ranked(&over, TriadQuality::TERTIAN).remove(0)
    };
    chords.into_iter().map(first).collect()
}

#[divan::bench(args = [64, 1_000])]
fn plans_8(bencher: Bencher<'_, '_>, bars: usize) {
    let (neck, bars) = (Tune::new().neck, many(bars));
    bencher.bench_local(|| planned(&neck, black_box(&bars), 8, None));
}

/// What a key costs that changes a bar: the chart is read and planned anew.
#[divan::bench]
fn one_of_64_bars_changed(bencher: Bencher<'_, '_>) {
    let neck = Tune::new().neck;
    bencher.bench_local(|| planned(&neck, black_box(BARS), 1, None));
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
    let differ = many(64);
    for (bars, title) in
        [(BARS, "64 bars, sixteen four times"), (differ.as_str(), "64 bars that differ")]
    {
        let locked = |region| planned(&tune.neck, black_box(bars), 8, Some(region));
        Ratios::to("the first pair of every chord", || first_pairs(black_box(bars)))
            .and("read and planned, once", || planned(&tune.neck, black_box(bars), 1, None))
            .and("read and planned, 8 plans", || planned(&tune.neck, black_box(bars), 8, None))
            .and("the same on strings 4-3-2, frets 5-10", || locked(["4-3-2", "5-10"]))
            .and("the same on strings 4-3-2, frets 0-22", || locked(["4-3-2", "0-22"]))
            .print(title);
    }
    let many = [64, 250, 1_000].map(many);
    let plans = |bars: &str| planned(&tune.neck, black_box(bars), 8, None);
    Ratios::to("64 bars, 8 plans", || plans(&many[0]))
        .and("250 bars", || plans(&many[1]))
        .and("1,000 bars", || plans(&many[2]))
        .print("charts of bars that differ, read and planned");
}
