//! Passages as a player writes them, with the reading that a teacher would give. All are our own.
//!
//! Notes share their bar evenly, so that eight are eighths and twelve triplets; `-` is a rest, `_`
//! holds the note before, `+` sounds notes together. A reading has an entry for each chord: the
//! pair, the groups in order, and after `;` the free notes; or `none`.

use fretloom_theory::Arrival;

/// Chords, notes, reading.
pub(crate) type Passage = (&'static str, &'static str, &'static str);

/// All that a teacher reads.
pub(crate) fn all() -> impl Iterator<Item = &'static Passage> {
    [PLAIN, WITH_FREE_NOTES, EARLY_AND_LATE, OF_NO_PAIR, OVER_SEVERAL_CHORDS, OF_TWO_SPLITS]
        .into_iter()
        .flatten()
}

/// Groups and nothing else.
pub(crate) const PLAIN: &[Passage] = &[
    ("Dm7", "F4 A4 C5 G4 B4 D5 A4 C5 F5 B4 D5 G5", "F & G: F A C, G B D, A C F, B D G"),
    ("G7", "B4 D5 G5 D5 C5 A4 F4 A4", "F & G: B D G D, C A F A"),
    ("Cmaj7#11", "C5 E5 G5 F#5 D5 A4 G4 E4 C4 D4 F#4 A4", "C & D: C E G, F# D A, G E C, D F# A"),
    (
        "A7alt",
        "Db5 A4 F4 Eb4 G4 Bb4 Db5 F5 Eb5 Bb4 G4 -",
        "C#+ & Eb: Db A F, Eb G Bb, Db F, Eb Bb G",
    ),
    ("C7b9", "C5 G4 E4 F#4 A#4 C#5 E5 G5", "C & F#: C G E, F# A# C#, E G"),
    ("G7#5", "G4 B4 D#5 F5 C#5 A4 B4 G4", "G+ & A+: G B D#, F C# A, B G"),
    ("Cm6", "F4 A4 C5 B4 G4 Eb4 F4 C5", "Eb+ & F: F A C, B G Eb, F C"),
    ("Em7b5", "D4 F#4 A4 Bb4 G4 E4 F#4 D4", "D & Edim: D F# A, Bb G E, F# D"),
    ("G7sus4", "A4 C5 E5 D5 B4 G4 E4 C4", "G & Am: A C E, D B G, E C"),
    ("Fmaj7", "F3 C4 A4 G3 D4 B4 C5 A4", "F & G: F C A, G D B, C A"),
    (
        "Abmaj7 | Abmaj7",
        "Ab4 C5 Eb5 Ab5 F5 D5 Bb4 D5 | Eb5 C5 Ab4 C5 Bb4 F4 D4 -",
        "Ab & Bb: Ab C Eb Ab, F D Bb D | Ab & Bb: Eb C Ab C, Bb F D",
    ),
    ("Dm7", "F4+A4+C5 - - G4+B4+D5 - - - -", "F & G: F A C, G B D"),
    ("N.C.", "F4 A4 C5 G4 B4 D5 A4 C5", "F & G: F A C, G B D, A C"),
    // A half step above the chord, as players step outside and come back.
    ("Dm7", "Gb4 Bb4 Db5 C5 Ab4 Eb4 Db4 Gb4", "Gb & Ab: Gb Bb Db, C Ab Eb, Db Gb"),
];

/// Notes that lead into those of the pair.
pub(crate) const WITH_FREE_NOTES: &[Passage] = &[
    // 4+3 and a half step into the third of the next chord.
    ("Dm7 | G7", "A4 C5 F5 C5 D5 B4 G4 Bb4 | B4 _ _ _ - - - -", "F & G: A C F C, D B G; Bb | none"),
    ("Bbmaj7", "Bb4 D5 F5 Db5 B4 C5 E5 G5", "Bb & C: Bb D F, C E G; Db B"),
    ("Dm7", "C5 A4 F4 F#4 G4 B4 D5 -", "F & G: C A F, G B D; F#"),
    ("Dm7", "A4 C5 F5 E5 D5 B4 G4 -", "F & G: A C F, D B G; E"),
    ("G7", "D5 B4 G4 G#4 A4 C5 F5 C5", "F & G: D B G, A C F C; G#"),
    ("Cmaj7", "B4 B4 C5 E5 G5 F#5 D5 A4", "C & D: C E G, F# D A; B B"),
    (
        "Em7 | Em7",
        "B4 _ _ _ C5 E5 G5 - | F#5 D5 A4 G4 E4 C4 D4 F#4",
        "C & D: C E G; B | C & D: F# D A, G E C, D F#",
    ),
    (
        "Dm7 | Dbmaj7",
        "C5 A4 F4 G4 B4 D5 - E5 | Eb5 Bb4 G4 F4 Ab4 Db5 - -",
        "F & G: C A F, G B D; E | Db & Eb: Eb Bb G, F Ab Db",
    ),
    (
        "Gm7 | Gm7",
        "Bb4 D5 F5 F#5 G5 E5 C5 B4 | Bb4 F4 D4 - - - - -",
        "Bb & C: Bb D F, G E C; F# B | Bb & C: Bb F D",
    ),
];

/// The next chord is spoken early, or the last one hangs over.
pub(crate) const EARLY_AND_LATE: &[Passage] = &[
    (
        "Dm7 | Dm7 | Dbmaj7",
        "F4 A4 C5 G4 B4 D5 F5 C5 | B4 D5 G5 - Bb4 G4 Eb4 Bb4 | Ab4 F4 Db4 Eb4 G4 Bb4 Db5 -",
        "F & G: F A C, G B D, F C | F & G: B D G \
         | Db & Eb: Bb G Eb Bb (2 early), Ab F Db, Eb G Bb, Db",
    ),
    (
        "G7 | Cmaj7#11",
        "A4 F4 C5 B4 G4 D4 - E4 | G4 C5 A4 F#4 D4 C4 E4 G4",
        "F & G: A F C, B G D | C & D: E G C (1/2 early), A F# D, C E G",
    ),
    (
        "Cm7 | B7",
        "G4 Bb4 Eb5 C5 A4 F4 E4 C#4 | A3 B3 D#4 F#4 E4 C#4 A3 -",
        "Eb & F: G Bb Eb, C A F | A & B: E C# A (1 early), B D# F#, E C# A",
    ),
    (
        "Gm7 | C7 | Fmaj7",
        "Bb4 D5 F5 E5 C5 G4 - - | F4 D4 Bb3 C4 E4 B4 D5 G5 | F5 C5 A4 G4 B4 D5 - -",
        "Bb & C: Bb D F, E C G | Bb & C: F D Bb, C E | F & G: B D G (3/2 early), F C A, G B D",
    ),
    (
        "Dm7 | Dbmaj7 | Dbmaj7",
        "F4 A4 C5 G4 B4 D5 - C5 | A4 F4 - - Ab4 F4 Db4 - | Eb4 G4 Bb4 Ab4 F4 Db4 - -",
        "F & G: F A C, G B D, C A F (late) | Db & Eb: Ab F Db | Db & Eb: Eb G Bb, Ab F Db",
    ),
    (
        "Am7 | D7alt | D7alt",
        "C5 E5 G5 F#5 D5 A4 - - | G4 E4 C4 - Ab4 C5 Eb5 - | F5 D5 Bb4 C5 Ab4 Eb4 - -",
        "C & D: C E G, F# D A, G E C (late) | Ab & Bb: Ab C Eb | Ab & Bb: F D Bb, C Ab Eb",
    ),
];

/// What players play besides, which no pair explains.
pub(crate) const OF_NO_PAIR: &[Passage] = &[
    ("Dm7", "D4 E4 F4 G4 A4 B4 C5 D5", "none"),
    ("Dm7", "D4 F4 A4 C5 E5 G5 E5 C5", "none"),
    ("G7", "G4 G#4 A4 A#4 B4 C5 C#5 D5", "none"),
    ("Cmaj7", "C4 E4 D4 F4 E4 G4 F4 A4", "none"),
    ("G7", "G5 F#5 F5 E5 D5 C5 B4 A4", "none"),
    ("Am7", "A4 C5 D5 E5 G5 E5 D5 C5", "none"),
    ("Cmaj7", "C4 D4 E4 G4 D4 E4 F#4 A4", "none"),
    ("Cmaj7", "C4 E4 G4 C5 G4 E4 C4 -", "none"),
    ("Fmaj7", "Bb4 G#4 A4 - D5 B4 C5 -", "none"),
    ("Cmaj7 | Am7", "E5 _ _ D5 C5 _ B4 _ | G4 _ _ _ - - - -", "none | none"),
    ("Dm7 | G7", "D4 F4 A4 C5 E5 C5 A4 F4 | G4 B4 D5 F5 A5 F5 D5 B4", "none | none"),
];

/// Tunes in small: pairs and other things over several chords.
pub(crate) const OVER_SEVERAL_CHORDS: &[Passage] = &[
    (
        "Dm7 | G7 | Cmaj7",
        "A4 F4 C4 D4 G4 B4 C5 A4 | G4 B4 D5 F5 C5 A4 G4 D4 | E4 F4 G4 A4 B4 C5 D5 E5",
        "F & G: A F C, D G B, C A | F & G: G B D, F C A, G D | none",
    ),
    (
        "Dm7 G7 | Cmaj7",
        "F4 A4 C5 A4 B4 G4 D4 B3 | E4 _ _ _ _ _ _ _",
        "F & G: F A C A | F & G: B G D B | none",
    ),
    (
        "Dm7 Db7 | Cmaj7#11",
        "F4 A4 C5 G4 B4 D5 A4 C5 Eb5 Bb4 G4 F4 Db4 Ab3 G3 Bb3 | C4 E4 G4 A4 F#4 D4 C4 E4",
        "F & G: F A C, G B D, A C | Db & Eb: Eb Bb G, F Db Ab, G Bb \
         | C & D: C E G, A F# D, C E",
    ),
    ("Dm7 | Dm7", "- | F4 A4 C5 D5 B4 G4 F4 -", "none | F & G: F A C, D B G, F"),
    (
        "Cmaj7 | A7alt | Dm7 | G7",
        "E4 G4 C5 A4 F#4 D4 C4 E4 | Db4 F4 A4 G4 Eb4 Bb3 A3 Db4 \
         | C4 F4 A4 G4 D4 B3 A3 C4 | B3 D4 G4 F4 C4 A3 B3 -",
        "C & D: E G C, A F# D, C E | C#+ & Eb: Db F A, G Eb Bb, A Db \
         | F & G: C F A, G D B, A C | F & G: B D G, F C A, B",
    ),
    (
        "Em7b5 | A7alt | Dm6",
        "Bb4 G4 E4 F#4 A4 D5 - - | Bb4 G4 Eb4 F4 A4 Db5 - - | B4 G4 D4 C#4 F4 A4 B4 -",
        "D & Edim: Bb G E, F# A D | C#+ & Eb: Bb G Eb, F A Db | F+ & G: B G D, C# F A, B",
    ),
];

/// Chord, notes, the pair: six notes that split into two pairs, first in an order that only one of
/// them explains, then in one that only the other does.
pub(crate) const OF_TWO_SPLITS: &[Passage] = &[
    ("C7b9", "C5 G4 E4 F4 Ab4 Db5 E5 G5", "C & Db: C G E, F Ab Db, E G"),
    ("C7b9", "F4 Ab4 C5 Db5 E5 G5 Ab5 F5", "Fm & C#dim: F Ab C, Db E G, Ab F"),
    ("C7b9", "C4 E4 G4 Gb4 Eb4 Bb3 C4 G4", "C & Ebm: C E G, Gb Eb Bb, C G"),
    ("C7b9", "C4 Eb4 Gb4 G4 E4 Bb4 C5 Gb4", "Cdim & Edim: C Eb Gb, G E Bb, C Gb"),
    ("C7b9", "E4 G4 C5 Db5 A4 Gb4 G4 E4", "C & F#m: E G C, Db A Gb, G E"),
    ("C7b9", "Db4 E4 G4 Gb4 A4 C5 Db5 G4", "C#dim & F#dim: Db E G, Gb A C, Db G"),
    ("N.C.", "C4 E4 G4 Ab4 F4 B3 C4 E4", "C & Fdim: C E G, Ab F B, C E"),
    ("N.C.", "E4 G4 B4 C5 Ab4 F4 G4 E4", "Em & Fm: E G B, C Ab F, G E"),
    ("G7b9", "C4 E4 G4 Ab4 D5 B4 G4 C5", "C & G#dim: C E G, Ab D B, G C"),
    ("G7b9", "G4 B4 D5 E5 C5 Ab4 B4 D5", "G & C+: G B D, E C Ab, B D"),
    ("G7b9", "C4 Eb4 G4 Ab4 F4 B3 Eb4 C4", "Cm & Fdim: C Eb G, Ab F B, Eb C"),
    ("G7b9", "F4 Ab4 C5 B4 G4 Eb4 F4 C5", "Fm & Eb+: F Ab C, B G Eb, F C"),
];

/// Chord, notes, and the two pairs that explain them equally well.
pub(crate) const OF_EQUAL_READINGS: &[(&str, &str, [&str; 2])] = &[
    ("C7b9", "E4 G4 C5 F5 Ab5 Db5 E5 G5", ["C & Db", "Fm & C#dim"]),
    ("C7b9", "E4 G4 C5 Eb5 Gb5 Bb5 G5 E5", ["C & Ebm", "Cdim & Edim"]),
    ("C7b9", "E4 G4 C5 A4 Gb4 Db4 E4 G4", ["C & F#m", "C#dim & F#dim"]),
    ("N.C.", "E4 G4 C5 Ab4 F4 B3 E4 G4", ["C & Fdim", "Em & Fm"]),
    ("G7b9", "E4 C4 G4 B4 D5 Ab4 C5 E5", ["C & G#dim", "G & C+"]),
    ("G7b9", "Eb4 G4 C5 F5 Ab5 B4 Eb5 G5", ["Cm & Fdim", "Fm & Eb+"]),
];

/// Chords, notes, where the line lands on the second chord, and how it comes there.
pub(crate) const LANDINGS: &[(&str, &str, &str, Arrival)] = &[
    (
        "Dm7 | G7",
        "A4 C5 F5 C5 D5 B4 G4 Bb4 | B4 _ _ _ - - - -",
        "3 of G7 by a half step",
        Arrival::HalfStep,
    ),
    (
        "Am7 | Cm6",
        "C5 E5 G5 F#5 D5 A4 F#4 D4 | Eb4 G4 B4 C5 A4 F4 - -",
        "3 of Cm6 by a half step",
        Arrival::HalfStep,
    ),
    ("G7 | Cmaj7", "D4 G4 B4 D5 C5 A4 F4 - | E4 _ _ _", "3 of Cmaj7", Arrival::HalfStep),
    ("G7 | Cmaj7", "D5 B4 G4 F4 A4 C5 A4 F4 | G4 _ _ _", "5 of Cmaj7", Arrival::WholeStep),
    ("Cm7 | Fm7", "F4 A4 C5 Bb4 G4 Eb4 - Eb4 | Eb4 _ _ _", "7 of Fm7", Arrival::Repeated),
    ("Dm7 | Cmaj7", "F4 A4 C5 G4 B4 D5 A4 C5 | E5 _ _ _", "3 of Cmaj7", Arrival::Leap),
    ("Cmaj7 | F7", "C4 D4 E4 F4 G4 A4 B4 C5 | D5 _ _ _", "13 of F7", Arrival::WholeStep),
];
