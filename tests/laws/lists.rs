//! What is so of every list of pairs.

use fretloom::answer::{Harmony, PairAnswer, Wishes, pairs_over};
use fretloom_theory::{Families, PairSound, ScaleKind, Spelling, TriadQuality};

use crate::arithmetic::{class_of, sorted};
use crate::{ROOTS, called, grounds};

#[test]
fn the_triads_of_a_pair_share_no_note_and_lie_in_the_scale() {
    for chord_scale in grounds("C").chain(grounds("F#")) {
        let scale = sorted(chord_scale.scale().notes().map(|note| class_of(&format!("{note:#}"))));
        for sound in PairSound::ranked(&chord_scale, TriadQuality::ALL) {
            let notes = sound.pair().triads().map(|triad| triad.members()).concat();
            let six = sorted(notes.iter().map(|class| i32::from(class.number())));
            assert_eq!(six.len(), 6, "{:?} in {}", sound.pair(), called(&chord_scale));
            assert!(six.iter().all(|note| scale.contains(note)), "{}", called(&chord_scale));
            assert!(sound.outside().is_empty());
        }
    }
}

/// The numbers of the degrees on which both triads stand and which is left out.
fn numbers(pair: &PairAnswer) -> (u8, u8, Vec<u8>) {
    let left_out = pair.left_out.iter().map(|left| left.degree.number());
    (pair.first.degrees[0].number(), pair.second.degrees[0].number(), left_out.collect())
}

/// On degrees n and n + 1, leaving out the one below n; going up from the root the pair of the
/// seventh and the first degree is named from the first.
fn neighbours() -> Vec<(u8, u8, Vec<u8>)> {
    let mut pairs: Vec<(u8, u8, Vec<u8>)> = (2..=6).map(|n| (n, n + 1, vec![n - 1])).collect();
    pairs.extend([(1, 2, vec![7]), (1, 7, vec![6])]);
    pairs.sort();
    pairs
}

#[test]
fn in_each_of_the_28_modes_seven_pairs_are_spelled_in_thirds_and_they_are_the_neighbours() {
    let modes: Vec<&ScaleKind> = ScaleKind::all()
        .iter()
        .filter(|kind| kind.parent().is_some_and(|(parent, _)| parent != "double harmonic"))
        .collect();
    assert_eq!(modes.len(), 28);
    for kind in modes {
        for root in ROOTS {
            let scale = format!("{root} {}", kind.name());
            let harmony = Harmony::of_scale(&scale).unwrap();
            let answer =
                pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::Strict);
            let in_thirds: Vec<&PairAnswer> =
                answer.pairs.iter().filter(|pair| pair.sound.in_thirds()).collect();
            let mut found: Vec<_> = in_thirds.iter().map(|pair| numbers(pair)).collect();
            found.sort();
            assert_eq!(found, neighbours(), "{scale}");
            assert!(in_thirds.iter().all(|pair| pair.pair().interleaves()), "{scale}");
            assert!(answer.pairs.iter().take(7).all(|pair| pair.sound.in_thirds()), "{scale}");
        }
    }
}
