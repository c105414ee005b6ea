//! Moving everything by a semitone changes no list.

use fretloom_theory::{ChordScale, PairKind, PairSound, Triad, TriadQuality};

use crate::{ROOTS, called, grounds};

/// A pair without its pitch: its kind, both triads above the root, and its sentence.
#[derive(PartialEq, Debug)]
struct Moved {
    kind: PairKind,
    triads: [(u8, TriadQuality); 2],
    sentence: String,
}

fn list(chord_scale: &ChordScale) -> Vec<Moved> {
    let root = chord_scale.root().pitch_class();
    let above = |triad: Triad| (root.semitones_up_to(triad.root()), triad.quality());
    let moved = |sound: &PairSound| Moved {
        kind: sound.pair().kind(),
        triads: sound.pair().triads().map(above),
        sentence: sound.reason(chord_scale).to_string(),
    };
    PairSound::ranked(chord_scale, TriadQuality::TERTIAN).iter().map(moved).collect()
}

/// Spellings of the white keys that are rare as roots; a scale on them may have to be respelled.
const RARE_ROOTS: [&str; 4] = ["Cb", "E#", "Fb", "B#"];

#[test]
fn moving_chord_and_scale_moves_every_pair_and_leaves_order_and_words() {
    let on_c: Vec<Vec<Moved>> = grounds("C").map(|chord_scale| list(&chord_scale)).collect();
    for root in ROOTS.into_iter().chain(RARE_ROOTS).skip(1) {
        for (chord_scale, expected) in grounds(root).zip(&on_c) {
            assert_eq!(&list(&chord_scale), expected, "{}", called(&chord_scale));
        }
    }
}
