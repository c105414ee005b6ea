//! Pairs found the slow way: every six notes of a scale, split into three and three.

use std::collections::BTreeSet;

use fretloom_theory::{ChordScale, PairSound, ScaleKind, TriadQuality};

use crate::arithmetic::{class_of, sorted};
use crate::{ROOTS, scale};

/// Three notes by the steps between them, going up and round to the first again: the name of the
/// quality follows from the order of the steps. common practice, no source
const STEPS: [(&str, [i32; 3]); 6] = [
    ("major", [4, 3, 5]),
    ("minor", [3, 4, 5]),
    ("diminished", [3, 3, 6]),
    ("augmented", [4, 4, 4]),
    ("sus", [5, 2, 5]),
    ("flat-five", [4, 2, 6]),
];

/// Two triads by quality and notes, in no order: the smaller first.
type Couple = [(&'static str, Vec<i32>); 2];

fn couple(mut triads: Couple) -> Couple {
    triads.sort();
    triads
}

/// The quality of three notes, if they are a triad.
fn quality(three: &[i32]) -> Option<&'static str> {
    let step = |from: usize| (three[(from + 1) % 3] - three[from % 3]).rem_euclid(12);
    let turned = |start: usize| [step(start), step(start + 1), step(start + 2)];
    let known = |start: usize| STEPS.iter().find(|(_, steps)| *steps == turned(start));
    (0..3).find_map(known).map(|(name, _)| *name)
}

/// Every way to pick `count` of `notes`.
fn choices(notes: &[i32], count: usize) -> Vec<Vec<i32>> {
    let Some((first, rest)) = notes.split_first() else {
        return if count == 0 { vec![Vec::new()] } else { Vec::new() };
    };
    let mut all = choices(rest, count);
    if count > 0 {
        let with_first = choices(rest, count - 1).into_iter();
        all.extend(with_first.map(|chosen| [&[*first][..], &chosen].concat()));
    }
    all
}

/// The ten ways to split six notes: the first note's half, and the other.
fn halves(six: &[i32]) -> impl Iterator<Item = [Vec<i32>; 2]> {
    choices(&six[1..], 2).into_iter().map(|two| {
        let half = [&six[..1], &two].concat();
        let other = six.iter().copied().filter(|note| !half.contains(note)).collect();
        [half, other]
    })
}

/// Every pair in a scale, by brute force.
fn searched(notes: &[i32]) -> BTreeSet<Couple> {
    let named = |[one, other]: [Vec<i32>; 2]| {
        Some(couple([(quality(&one)?, one), (quality(&other)?, other)]))
    };
    choices(notes, 6).iter().flat_map(|six| halves(six)).filter_map(named).collect()
}

fn found(chord_scale: &ChordScale, qualities: &[TriadQuality]) -> Vec<Couple> {
    let triad = |triad: fretloom_theory::Triad| {
        let notes = triad.members().map(|class| i32::from(class.number()));
        (triad.quality().word(), sorted(notes))
    };
    let sounds = PairSound::ranked(chord_scale, qualities);
    sounds.iter().map(|sound| couple(sound.pair().triads().map(triad))).collect()
}

fn is_tertian(couple: &Couple) -> bool {
    couple.iter().all(|(quality, _)| !matches!(*quality, "sus" | "flat-five"))
}

#[test]
fn every_pair_that_a_slow_search_finds_is_listed_once_and_no_other() {
    for root in ROOTS {
        for kind in ScaleKind::all() {
            let scale = scale(root, kind);
            let notes = sorted(scale.notes().map(|note| class_of(&format!("{note:#}"))));
            let chord_scale = ChordScale::alone(scale);
            let all = searched(&notes);
            let tertian: BTreeSet<Couple> =
                all.iter().filter(|couple| is_tertian(couple)).cloned().collect();
            for (expected, qualities) in
                [(all, TriadQuality::ALL), (tertian, TriadQuality::TERTIAN)]
            {
                let listed = found(&chord_scale, qualities);
                assert_eq!(listed.len(), expected.len(), "{}", chord_scale.scale());
                assert_eq!(listed.into_iter().collect::<BTreeSet<_>>(), expected);
            }
        }
    }
}
