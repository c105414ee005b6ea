//! Chords by plain symbols, the scales that players use over them, and the triads in those scales.
//!
//! All of it by hand in semitones: nothing here asks the library what a chord, a scale or a triad
//! is. Common practice, no source.

use fretloom_theory::{PitchClass, Triad, TriadQuality};

use crate::dice::Dice;
use crate::grid::BAR;

/// A chord and its scale.
#[derive(Clone, Copy)]
pub(crate) struct Harmony {
    /// Semitones above C.
    pub(crate) root: i32,
    /// What follows the root in the symbol.
    suffix: &'static str,
    /// The chord in thirds up to the ninth or eleventh, in semitones above its root.
    pub(crate) stack: &'static [i32],
    /// The scale, in semitones above the root.
    pub(crate) scale: &'static [i32],
}

/// A triad of the scale.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct ThreeNotes {
    pub(crate) root: i32,
    quality: TriadQuality,
    members: [i32; 3],
}

const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

const IONIAN: &[i32] = &[0, 2, 4, 5, 7, 9, 11];
const DORIAN: &[i32] = &[0, 2, 3, 5, 7, 9, 10];
const PHRYGIAN: &[i32] = &[0, 1, 3, 5, 7, 8, 10];
const LYDIAN: &[i32] = &[0, 2, 4, 6, 7, 9, 11];
const MIXOLYDIAN: &[i32] = &[0, 2, 4, 5, 7, 9, 10];
const AEOLIAN: &[i32] = &[0, 2, 3, 5, 7, 8, 10];
const LOCRIAN: &[i32] = &[0, 1, 3, 5, 6, 8, 10];
const LOCRIAN_NATURAL_TWO: &[i32] = &[0, 2, 3, 5, 6, 8, 10];
const LYDIAN_DOMINANT: &[i32] = &[0, 2, 4, 6, 7, 9, 10];
const ALTERED: &[i32] = &[0, 1, 3, 4, 6, 8, 10];
const MELODIC_MINOR: &[i32] = &[0, 2, 3, 5, 7, 9, 11];
const LYDIAN_AUGMENTED: &[i32] = &[0, 2, 4, 6, 8, 9, 11];
const HALF_WHOLE: &[i32] = &[0, 1, 3, 4, 6, 7, 9, 10];
const WHOLE_HALF: &[i32] = &[0, 2, 3, 5, 6, 8, 9, 11];
const PHRYGIAN_DOMINANT: &[i32] = &[0, 1, 4, 5, 7, 8, 10];
const WHOLE_TONE: &[i32] = &[0, 2, 4, 6, 8, 10];

const MAJOR_NINTH: &[i32] = &[0, 4, 7, 11, 14];
const MAJOR_SHARP_ELEVENTH: &[i32] = &[0, 4, 7, 11, 14, 18];
const MINOR_ELEVENTH: &[i32] = &[0, 3, 7, 10, 14, 17];
const NINTH: &[i32] = &[0, 4, 7, 10, 14];
const SHARP_ELEVENTH: &[i32] = &[0, 4, 7, 10, 14, 18];
const SUSPENDED: &[i32] = &[0, 5, 7, 10, 14];
const HALF_DIMINISHED: &[i32] = &[0, 3, 6, 10, 14, 17];
const FLAT_NINTH: &[i32] = &[0, 4, 7, 10, 13];
const ALTERED_NINTH: &[i32] = &[0, 4, 8, 10, 13];
const MINOR_SIXTH: &[i32] = &[0, 3, 7, 9, 14];
const DIMINISHED: &[i32] = &[0, 3, 6, 9, 14];
const MAJOR_SHARP_FIFTH: &[i32] = &[0, 4, 8, 11, 14];
const SHARP_FIFTH: &[i32] = &[0, 4, 8, 10, 14];

/// One chord of a progression: semitones above the tonic, suffix, stack, and the scales in use.
type Step = (i32, &'static str, &'static [i32], &'static [&'static [i32]]);

/// Progressions of a few chords.
const PROGRESSIONS: &[&[Step]] = &[
    &[
        (2, "m7", MINOR_ELEVENTH, &[DORIAN]),
        (7, "7", NINTH, &[MIXOLYDIAN, LYDIAN_DOMINANT]),
        (0, "maj7", MAJOR_NINTH, &[IONIAN, LYDIAN]),
        (0, "maj7", MAJOR_NINTH, &[IONIAN, LYDIAN]),
    ],
    &[
        (2, "m7b5", HALF_DIMINISHED, &[LOCRIAN, LOCRIAN_NATURAL_TWO]),
        (7, "7alt", ALTERED_NINTH, &[ALTERED]),
        (0, "m6", MINOR_SIXTH, &[MELODIC_MINOR]),
        (0, "m6", MINOR_SIXTH, &[MELODIC_MINOR]),
    ],
    &[
        (2, "m7b5", HALF_DIMINISHED, &[LOCRIAN]),
        (7, "7b9", FLAT_NINTH, &[HALF_WHOLE, PHRYGIAN_DOMINANT]),
        (0, "m7", MINOR_ELEVENTH, &[AEOLIAN, DORIAN]),
    ],
    &[
        (0, "maj7", MAJOR_NINTH, &[IONIAN]),
        (9, "m7", MINOR_ELEVENTH, &[AEOLIAN]),
        (2, "m7", MINOR_ELEVENTH, &[DORIAN]),
        (7, "7", NINTH, &[MIXOLYDIAN]),
    ],
    &[
        (0, "maj7", MAJOR_NINTH, &[IONIAN]),
        (5, "m7", MINOR_ELEVENTH, &[DORIAN]),
        (10, "7", SHARP_ELEVENTH, &[LYDIAN_DOMINANT]),
        (0, "maj7", MAJOR_NINTH, &[IONIAN]),
    ],
    &[
        (0, "7", NINTH, &[MIXOLYDIAN]),
        (5, "7", NINTH, &[MIXOLYDIAN, LYDIAN_DOMINANT]),
        (0, "7", NINTH, &[MIXOLYDIAN]),
        (0, "7", NINTH, &[ALTERED, MIXOLYDIAN]),
    ],
    &[
        (0, "m7", MINOR_ELEVENTH, &[DORIAN, AEOLIAN]),
        (0, "m7", MINOR_ELEVENTH, &[DORIAN]),
        (0, "m7", MINOR_ELEVENTH, &[DORIAN, PHRYGIAN]),
        (0, "m7", MINOR_ELEVENTH, &[DORIAN]),
    ],
    &[
        (0, "maj7#11", MAJOR_SHARP_ELEVENTH, &[LYDIAN]),
        (0, "maj7#11", MAJOR_SHARP_ELEVENTH, &[LYDIAN]),
        (3, "maj7#11", MAJOR_SHARP_ELEVENTH, &[LYDIAN]),
        (3, "maj7#11", MAJOR_SHARP_ELEVENTH, &[LYDIAN]),
    ],
    &[
        (7, "7sus4", SUSPENDED, &[MIXOLYDIAN]),
        (7, "7sus4", SUSPENDED, &[MIXOLYDIAN]),
        (7, "7b9", FLAT_NINTH, &[HALF_WHOLE]),
        (0, "maj7", MAJOR_NINTH, &[IONIAN]),
    ],
    &[
        (0, "maj7", MAJOR_NINTH, &[IONIAN]),
        (1, "dim7", DIMINISHED, &[WHOLE_HALF]),
        (2, "m7", MINOR_ELEVENTH, &[DORIAN]),
        (7, "7#5", SHARP_FIFTH, &[WHOLE_TONE]),
    ],
    &[
        (0, "maj7#5", MAJOR_SHARP_FIFTH, &[LYDIAN_AUGMENTED]),
        (9, "m(maj7)", &[0, 3, 7, 11, 14], &[MELODIC_MINOR]),
        (2, "7#11", SHARP_ELEVENTH, &[LYDIAN_DOMINANT]),
        (7, "7b9", FLAT_NINTH, &[HALF_WHOLE]),
    ],
];

/// The qualities of triads in thirds, in semitones.
const QUALITIES: [(TriadQuality, [i32; 3]); 4] = [
    (TriadQuality::Major, [0, 4, 7]),
    (TriadQuality::Minor, [0, 3, 7]),
    (TriadQuality::Diminished, [0, 3, 6]),
    (TriadQuality::Augmented, [0, 4, 8]),
];

/// A chord of a tune.
#[derive(Clone, Copy)]
pub(crate) struct Placed {
    pub(crate) harmony: Harmony,
    /// When it begins and ends, in parts of a quarter.
    pub(crate) from: u32,
    pub(crate) to: u32,
}

/// Of a hundred progressions, those with two chords a bar.
const TWO_A_BAR: usize = 12;

/// The chords of a tune of so many bars: mostly one a bar, sometimes two.
pub(crate) fn chords(bars: u32, dice: &mut Dice) -> Vec<Placed> {
    let mut chords = Vec::new();
    let mut from = 0;
    while from < bars * BAR {
        let key = i32::try_from(dice.below(12)).unwrap();
        let progression = *dice.one_of(PROGRESSIONS);
        let length = if dice.happens(TWO_A_BAR) && progression.len().is_multiple_of(2) {
            BAR / 2
        } else {
            BAR
        };
        for (above, suffix, stack, scales) in progression {
            let (root, scale) = ((key + above) % 12, *dice.one_of(scales));
            let harmony = Harmony { root, suffix, stack, scale };
            chords.push(Placed { harmony, from, to: from + length });
            from += length;
        }
    }
    chords.retain(|chord| chord.to <= bars * BAR);
    joined(chords)
}

/// A chord that is played twice in a bar is one.
fn joined(chords: Vec<Placed>) -> Vec<Placed> {
    let mut joined: Vec<Placed> = Vec::new();
    for chord in chords {
        match joined.last_mut() {
            Some(last)
                if last.from / BAR == chord.from / BAR
                    && last.harmony.symbol() == chord.harmony.symbol() =>
            {
                last.to = chord.to;
            }
            _ => joined.push(chord),
        }
    }
    joined
}

impl Harmony {
    pub(crate) fn symbol(&self) -> String {
        format!("{}{}", ROOTS[usize::try_from(self.root).unwrap()], self.suffix)
    }

    /// Is the pitch a note of the scale?
    pub(crate) fn has(&self, pitch: i32) -> bool {
        self.scale.contains(&(pitch - self.root).rem_euclid(12))
    }

    /// Is the pitch a note of the seventh chord?
    pub(crate) fn sounds(&self, pitch: i32) -> bool {
        self.stack[..4].contains(&(pitch - self.root).rem_euclid(12))
    }

    /// The couples of triads in the scale that have no note in common.
    pub(crate) fn pairs(&self) -> Vec<[ThreeNotes; 2]> {
        let triads = self.triads();
        let couples = triads
            .iter()
            .enumerate()
            .flat_map(|(index, one)| triads[index + 1..].iter().map(move |other| [*one, *other]));
        couples.filter(|[one, other]| !one.members.iter().any(|note| other.has(*note))).collect()
    }

    fn triads(&self) -> Vec<ThreeNotes> {
        let all = (0..12).flat_map(|root| QUALITIES.map(|quality| ThreeNotes::on(root, quality)));
        // An augmented triad has three names; one is enough.
        let one_name =
            |three: &ThreeNotes| three.quality != TriadQuality::Augmented || three.root < 4;
        let inside = |three: &ThreeNotes| three.members.iter().all(|note| self.has(*note));
        all.filter(one_name).filter(inside).collect()
    }
}

impl ThreeNotes {
    fn on(root: i32, (quality, above): (TriadQuality, [i32; 3])) -> ThreeNotes {
        ThreeNotes { root, quality, members: above.map(|above| (root + above) % 12) }
    }

    /// Is the pitch one of its notes, in any octave?
    pub(crate) fn has(&self, pitch: i32) -> bool {
        self.members.contains(&pitch.rem_euclid(12))
    }

    /// Its notes from one pitch to another, going up.
    pub(crate) fn ladder(&self, from: i32, to: i32) -> Vec<i32> {
        (from..=to).filter(|pitch| self.has(*pitch)).collect()
    }

    pub(crate) fn triad(&self) -> Triad {
        Triad::new(PitchClass::new(self.root), self.quality)
    }
}

/// By hand: modes of the major and of the melodic minor scale hold seven pairs, that of the
/// harmonic minor nine, diminished scales 36, the whole tone scale one.
#[test]
fn the_tables_hold_the_pairs_of_their_scales() {
    let mut counts = std::collections::BTreeSet::new();
    for (_, suffix, stack, scales) in PROGRESSIONS.iter().copied().flatten() {
        for scale in *scales {
            let harmony = Harmony { root: 0, suffix, stack, scale };
            counts.insert((scale.len(), harmony.pairs().len()));
            assert!(stack[..4].iter().all(|tone| harmony.has(*tone) || *suffix == "7"), "{suffix}");
        }
    }
    assert_eq!(counts.into_iter().collect::<Vec<_>>(), [(6, 1), (7, 7), (7, 9), (8, 36)]);
}
