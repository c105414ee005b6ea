//! Instruments of three to twelve strings, and what their screens say.

use fretloom::tui::text_of;

use super::{drawn, in_state};

pub(super) const TWELVE_STRINGS: &str = "C2 F2 A#2 D#3 G#3 C#4 F#4 B4 E5 A5 D6 G6";

/// Instruments, and the keys that put a capo on them, turn them round, or take other fingers.
pub(super) const NECKS: [(&str, &str, &str); 9] = [
    ("three_strings", "guitar-3-string-gdg", ""),
    ("ukulele_left_handed", "ukulele-high-g", "r"),
    ("banjo", "banjo-open-g", ""),
    ("banjo_capo", "banjo-open-g", "i"),
    ("seven_strings_capo", "guitar-7-string", "i i space"),
    ("nine_strings", "guitar-9-string", "n"),
    ("twelve_strings", TWELVE_STRINGS, ""),
    ("upside_down_left_handed_capo", "guitar-standard", "i i i r y"),
    ("other_place", "guitar-standard", "o h"),
];

/// What the screens of the instruments say at 80 columns: the instrument, the capo and the scale,
/// what is shown, the shape in hand, and how it is held.
const SAID_ON_NECKS: [(&str, [&str; 5]); 9] = [
    (
        "three_strings",
        [
            "Guitar, cigar box, G D G  G D G",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 20 ─ [G] & (A) ─ strings 3-2-1 ─ shown: note",
            "[G] 2nd inversion · frets 7-5-4 on strings 3-2-1 · pos. IV · fingers 4-2-1",
            "4 fingerings, 1 place on the neck · one finger a fret in position IV, with the little finger",
        ],
    ),
    (
        "ukulele_left_handed",
        [
            "Ukulele, high G  G C E A",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 15 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] 2nd inversion · frets 4-2-3 on strings 4-3-2 · pos. II · fingers 3-1-2",
            "4 fingerings, 3 places on the neck · one finger a fret in position II, no little finger",
        ],
    ),
    (
        "banjo",
        [
            "Banjo, open G  G D G B D",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 22 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] root position · frets 5-4-3 on strings 4-3-2 · pos. III · fingers 3-2-1",
            "4 fingerings, 4 places on the neck · one finger a fret in position III, no little finger",
        ],
    ),
    (
        "seven_strings_capo",
        [
            "B E A D G B E",
            "capo 2 · shapes of F & G · scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 24 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "(A) root position · frets 7-6-5 on strings 4-3-2 · pos. V · fingers 3-2-1",
            "4 fingerings, 5 places on the neck · one finger a fret in position V, no littl…",
        ],
    ),
    (
        "nine_strings",
        [
            "C♯ F♯ B E A D G B E",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 24 ─ [G] & (A) ─ strings 4-3-2 ─ shown: degree",
            "[G] root position · frets 5-4-3 on strings 4-3-2 · pos. III · fingers 3-2-1",
            "4 fingerings, 4 places on the neck · one finger a fret in position III, no lit…",
        ],
    ),
    (
        "twelve_strings",
        [
            "C F A♯ D♯ G♯ C♯ F♯ B E A D G",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 24 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] 1st inversion · frets 7-5-5 on strings 4-3-2 · pos. V · fingers 3-1-1 barre",
            "8 fingerings, 19 places on the neck · first finger lies flat over strings 3-2,…",
        ],
    ),
    (
        "upside_down_left_handed_capo",
        [
            "Guitar, standard  E A D G B E",
            "capo 3 · shapes of E & F♯ · scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 22 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] root position · frets 5-4-3 on strings 4-3-2 · pos. IV · fingers 2-1-0",
            "6 fingerings, 6 places on the neck · one finger a fret in position IV, no little finger",
        ],
    ),
    (
        "other_place",
        [
            "Guitar, standard  E A D G B E",
            "scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 22 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] root position · frets 10-9-7 on strings 5-4-3 · pos. VII · fingers 3-2-1",
            "2 of 4: first and second finger stretch over 2 frets, no little finger",
        ],
    ),
    (
        "banjo_capo",
        [
            "Banjo, open G  G D G B D",
            "capo 1 · shapes of F♯ & A♭ · scale 1 of 5: the ♯11 does not rub",
            "frets 1–11 of 22 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note",
            "[G] root position · frets 5-4-3 on strings 4-3-2 · pos. III · fingers 3-2-1",
            "4 fingerings, 1 place on the neck · one finger a fret in position III, no little finger",
        ],
    ),
];

#[test]
fn every_instrument_is_told_with_its_capo_and_its_shape() {
    for (name, said) in SAID_ON_NECKS {
        let (_, tuning, keys) = NECKS.into_iter().find(|neck| neck.0 == name).unwrap();
        let text = text_of(&drawn(&mut in_state(tuning, keys, (80, 24)), 80, 24));
        // Wherever the lines are broken.
        let unbroken = text.replace("\n ", " ");
        for words in said {
            assert!(unbroken.contains(words), "{name}: {words}\n{text}");
        }
    }
}
