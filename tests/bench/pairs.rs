//! Every tertian pair of the 28 modes on the 12 roots, beside the plainest loop over bit masks.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom_theory::{
    ChordScale, NoteName, PairSound, PitchClass, PitchClassSet, Scale, ScaleKind, TriadPair,
    TriadQuality,
};
use ratio::Ratios;

/// Major, minor and diminished on C, and the augmented triad that is alike on four roots.
const ON_C: [(u16, i32); 4] = [(0x091, 12), (0x089, 12), (0x049, 12), (0x111, 4)];

/// The modes of major, melodic minor, harmonic minor and harmonic major on every root, each over
/// the dominant seventh of its root.
fn grounds() -> Vec<ChordScale> {
    let on_root = |root: NoteName, kind: &ScaleKind| {
        let chord = format!("{root}7").parse().unwrap();
        ChordScale::over(chord, Scale::new(root, kind.clone()))
    };
    let roots = || PitchClass::all().map(|class| NoteName::everyday(class).next().unwrap());
    let modes = ScaleKind::all().iter().take(28);
    modes.flat_map(|kind| roots().map(move |root| on_root(root, kind))).collect()
}

fn sets(grounds: &[ChordScale]) -> Vec<PitchClassSet> {
    grounds.iter().map(|chord_scale| chord_scale.scale().set()).collect()
}

/// What a page of code without types would do.
fn by_bit_masks(scales: &[u16]) -> usize {
    let moved = |triad: u16, by: i32| (triad << by | triad >> (12 - by)) & 0xFFF;
    let triads: Vec<u16> = ON_C
        .iter()
        .flat_map(|&(triad, roots)| (0..roots).map(move |by| moved(triad, by)))
        .collect();
    let mut pairs = 0;
    for scale in scales {
        let inside: Vec<u16> = triads.iter().copied().filter(|triad| triad & !scale == 0).collect();
        for (index, one) in inside.iter().enumerate() {
            pairs += inside[index + 1..].iter().filter(|other| *one & **other == 0).count();
        }
    }
    pairs
}

fn within(scales: &[PitchClassSet]) -> usize {
    let pairs = |scale: &PitchClassSet| {
        TriadPair::within(*scale, TriadQuality::TERTIAN, PitchClass::C).count()
    };
    scales.iter().map(pairs).sum()
}

fn ranked(grounds: &[ChordScale]) -> usize {
    grounds
        .iter()
        .map(|chord_scale| PairSound::ranked(chord_scale, TriadQuality::TERTIAN).len())
        .sum()
}

fn bits(scales: &[PitchClassSet]) -> Vec<u16> {
    scales.iter().map(|scale| scale.bits()).collect()
}

#[divan::bench]
fn plain_bit_masks(bencher: Bencher<'_, '_>) {
    let scales = bits(&sets(&grounds()));
    bencher.bench(|| by_bit_masks(black_box(&scales)));
}

#[divan::bench]
fn triad_pair_within(bencher: Bencher<'_, '_>) {
    let scales = sets(&grounds());
    bencher.bench(|| within(black_box(&scales)));
}

#[divan::bench]
fn sound_ranked(bencher: Bencher<'_, '_>) {
    let grounds = grounds();
    bencher.bench(|| ranked(black_box(&grounds)));
}

fn main() {
    divan::main();
    let grounds = grounds();
    let scales = sets(&grounds);
    let bits = bits(&scales);
    assert_eq!(scales.len(), 336);
    assert_eq!(within(&scales), by_bit_masks(&bits));
    assert_eq!(ranked(&grounds), by_bit_masks(&bits));
    Ratios::to("plain bit masks", || by_bit_masks(black_box(&bits)))
        .and("TriadPair::within", || within(black_box(&scales)))
        .and("PairSound::ranked, each pair judged and sorted", || ranked(black_box(&grounds)))
        .print("all tertian pairs of 336 scales");
}
