//! Every close shape of every triad, beside the plainest loop over numbers.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::library::LoadedTunings;
use fretloom_fretboard::{Neck, ShapeQuery, Tuning};
use fretloom_theory::{Triad, TriadQuality};
use ratio::Ratios;

fn tunings() -> Vec<Tuning> {
    LoadedTunings::load(None).iter().map(|(tuning, _)| tuning.clone()).collect()
}

fn standard() -> Tuning {
    LoadedTunings::load(None).get("guitar-standard").unwrap().0.clone()
}

/// An open pitch and how many frets there are above it, string by string.
fn strings(tuning: &Tuning) -> Vec<(i32, i32)> {
    let last = i32::from(tuning.last_fret().number());
    let string = |string: fretloom_fretboard::OpenString| {
        (i32::from(string.pitch().midi()), last - i32::from(string.starts_at().number()))
    };
    tuning.strings().map(|(_, open)| string(open)).collect()
}

/// What a page of code without types would do: for each three strings, triad and inversion every
/// lowest note, and whether the other two are on their strings.
fn by_plain_loops(strings: &[(i32, i32)]) -> usize {
    let mut shapes = 0;
    for three in strings.windows(3) {
        let mut three = [three[0], three[1], three[2]];
        three.sort_unstable();
        if three[0].0 == three[1].0 || three[1].0 == three[2].0 {
            continue;
        }
        for (members, roots) in [([0, 4, 7], 12), ([0, 3, 7], 12), ([0, 3, 6], 12), ([0, 4, 8], 4)]
        {
            for root in 0..roots {
                for inversion in 0..3 {
                    shapes += on_three(three, members, root, inversion);
                }
            }
        }
    }
    shapes
}

fn on_three(three: [(i32, i32); 3], members: [i32; 3], root: i32, inversion: usize) -> usize {
    let above = |steps: usize| {
        let index = inversion + steps;
        members[index % 3] + if index < 3 { 0 } else { 12 } - members[inversion]
    };
    let [low, middle, high] = three;
    let class = (root + members[inversion]) % 12;
    let fits = |fret: &i32| {
        let on =
            |string: (i32, i32), up: i32| (0..=string.1).contains(&(low.0 + fret + up - string.0));
        (low.0 + fret) % 12 == class && on(middle, above(1)) && on(high, above(2))
    };
    (0..=low.1).filter(fits).count()
}

/// Every close shape of the 40 triads.
fn shapes(neck: &Neck, query: &ShapeQuery) -> usize {
    Triad::every(TriadQuality::TERTIAN).map(|triad| query.shapes(neck, triad).len()).sum()
}

fn in_all(necks: &[Neck], query: &ShapeQuery) -> usize {
    necks.iter().map(|neck| shapes(neck, query)).sum()
}

#[divan::bench]
fn plain_loops(bencher: Bencher<'_, '_>) {
    let strings = strings(&standard());
    bencher.bench(|| by_plain_loops(black_box(&strings)));
}

#[divan::bench]
fn without_fingers(bencher: Bencher<'_, '_>) {
    let neck = Neck::new(standard());
    bencher.bench(|| shapes(black_box(&neck), &ShapeQuery::default().without_fingers()));
}

#[divan::bench]
fn with_fingers(bencher: Bencher<'_, '_>) {
    let neck = Neck::new(standard());
    bencher.bench(|| shapes(black_box(&neck), &ShapeQuery::default()));
}

#[divan::bench]
fn without_fingers_in_all_tunings(bencher: Bencher<'_, '_>) {
    let necks: Vec<Neck> = tunings().into_iter().map(Neck::new).collect();
    bencher.bench(|| in_all(black_box(&necks), &ShapeQuery::default().without_fingers()));
}

fn main() {
    divan::main();
    let (bare, fingered) = (ShapeQuery::default().without_fingers(), ShapeQuery::default());
    let (neck, plain) = (Neck::new(standard()), strings(&standard()));
    assert_eq!(shapes(&neck, &bare), by_plain_loops(&plain));
    Ratios::to("plain loops", || by_plain_loops(black_box(&plain)))
        .and("ShapeQuery without fingers", || shapes(black_box(&neck), &bare))
        .and("ShapeQuery with the best fingers", || shapes(black_box(&neck), &fingered))
        .print("close shapes of 40 triads, one guitar");
    let necks: Vec<Neck> = tunings().into_iter().map(Neck::new).collect();
    let plain: Vec<Vec<(i32, i32)>> = tunings().iter().map(strings).collect();
    let every = || plain.iter().map(|strings| by_plain_loops(black_box(strings))).sum::<usize>();
    assert_eq!(in_all(&necks, &bare), every());
    Ratios::to("plain loops", every)
        .and("ShapeQuery without fingers", || in_all(black_box(&necks), &bare))
        .print("the same in every built-in tuning");
}
