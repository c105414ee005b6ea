//! What stands before what in a list of pairs.

use fretloom_theory::{ChordScale, PairSound, TriadQuality};

use crate::arithmetic::{number_and_accidental, semitones_of, sorted};
use crate::scene::Scene;
use crate::{ROOTS, called, grounds};

/// Does the symbol stand there for the sake of this note? Third, seventh and plain fifth are in every
/// chord of the kind. common practice, no source
fn is_a_colour(degree: &str) -> bool {
    !matches!(number_and_accidental(degree), (1 | 3 | 7, _) | (5, 0))
}

struct Row {
    by_sound_only: bool,
    drops_colour: bool,
    holds_all: bool,
    rubs: usize,
}

fn rows(chord_scale: &ChordScale) -> Vec<Row> {
    let scene = Scene::of(chord_scale);
    let chord = scene.chord.as_ref().unwrap();
    let required = |degree: &&String| {
        degree.as_str() != "1"
            && !(chord.alt && number_and_accidental(degree).1 != 0 && **degree != "b7")
    };
    let required: Vec<&String> = chord.degrees.iter().filter(required).collect();
    let sounds = PairSound::ranked(chord_scale, TriadQuality::ALL);
    let row = |sound: &PairSound| {
        let six = sorted(scene.above(sound.pair()).concat());
        let dropped: Vec<&&String> =
            required.iter().filter(|degree| !six.contains(&semitones_of(degree))).collect();
        Row {
            by_sound_only: scene.scale.len() == 7 && !sound.in_thirds(),
            drops_colour: dropped.iter().any(|degree| is_a_colour(degree)),
            holds_all: dropped.is_empty(),
            rubs: six.into_iter().filter(|note| scene.rubs(*note)).count(),
        }
    };
    sounds.iter().map(row).collect()
}

#[test]
fn a_pair_without_a_colour_that_is_written_never_stands_before_one_that_holds_all_and_rubs_no_more()
{
    let mut behind = 0;
    for root in ROOTS {
        for chord_scale in grounds(root).filter(|ground| ground.chord().is_some()) {
            let rows = rows(&chord_scale);
            for (at, row) in rows.iter().enumerate().filter(|(_, row)| row.drops_colour) {
                let better = |later: &&Row| {
                    later.by_sound_only == row.by_sound_only
                        && later.holds_all
                        && later.rubs <= row.rubs
                };
                let place = called(&chord_scale);
                assert_eq!(rows[at..].iter().filter(better).count(), 0, "{place}, {}", at + 1);
                behind += rows[..at].iter().filter(better).count();
            }
        }
    }
    assert!(behind > 10_000, "{behind}");
}
