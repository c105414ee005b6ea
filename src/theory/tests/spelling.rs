//! Spelling, both policies, over every everyday root, a list of chords, and every scale that fits.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

use fretloom_theory::{
    Chord, ChordScale, Interval, NoteName, PitchClass, Scale, ScaleChoice, SpelledTriad, Speller,
    Spelling, Triad, TriadQuality,
};

/// The seventeen roots with at most one accidental that players write unprompted, and the two
/// white keys in disguise that keys of six and seven flats need.
const ROOTS: [&str; 19] = [
    "C", "C#", "Db", "D", "D#", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "A#", "Bb", "B",
    "Cb", "Fb",
];

const CHORDS: [&str; 26] = [
    "", "m", "6", "m6", "maj7", "maj7#11", "maj7#5", "m7", "m9", "m(maj7)", "m7b5", "dim7", "7",
    "7#11", "7b9", "7#9", "7#5", "7b5", "7b13", "7b9b13", "13b9", "7alt", "7sus4", "7sus4b9", "+",
    "6/9",
];

/// Every chord of the list on every root, over every scale that fits it.
fn every_ground() -> impl Iterator<Item = ChordScale> {
    let chords = ROOTS.into_iter().flat_map(|root| {
        CHORDS.into_iter().map(move |suffix| format!("{root}{suffix}").parse::<Chord>().unwrap())
    });
    chords.flat_map(|chord| {
        let choices = ScaleChoice::for_chord(&chord);
        let over =
            move |choice: ScaleChoice| ChordScale::over(chord.clone(), choice.scale().clone());
        choices.into_iter().map(over).collect::<Vec<_>>()
    })
}

fn triads(chord_scale: &ChordScale) -> Vec<Triad> {
    chord_scale.scale().triads(TriadQuality::TERTIAN)
}

/// The member on its own letter, if it can be written at all.
fn stacked(root: NoteName, interval: Interval) -> Option<NoteName> {
    root.up(interval)
}

/// A member that plain spelling takes off its letter: one that would need a double accidental, and
/// an augmented fifth that would be a white key in disguise where the scale does not write the triad
/// so.
fn must_leave_its_letter(name: Option<NoteName>, interval: Interval, written: bool) -> bool {
    let Some(name) = name else { return true };
    let fifth = interval == Interval::AUGMENTED_FIFTH;
    name.accidental().abs() > 1 || (fifth && !written && !name.is_everyday())
}

/// Does the scale write all of these notes?
fn writes(scale: &Scale, notes: &[Option<NoteName>]) -> bool {
    notes.iter().all(|note| scale.notes().any(|written| Some(written) == *note))
}

#[test]
fn a_plain_triad_stands_on_alternate_letters_or_takes_an_everyday_name_where_it_must() {
    let mut count = 0;
    for chord_scale in every_ground() {
        let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
        for triad in triads(&chord_scale) {
            let spelled = speller.triad(triad);
            assert_eq!(spelled.notes().map(NoteName::pitch_class), triad.members());
            let [root, second, third] = spelled.notes();
            let intervals = triad.quality().intervals();
            let in_letters = intervals.map(|interval| stacked(root, interval));
            let written = writes(chord_scale.scale(), &[&[Some(root)], &in_letters[..]].concat());
            for (member, interval) in [second, third].into_iter().zip(intervals) {
                let on_letter = stacked(root, interval);
                let context = || {
                    format!(
                        "{spelled:#} over {:#?} in {}",
                        chord_scale.chord(),
                        chord_scale.scale()
                    )
                };
                if must_leave_its_letter(on_letter, interval, written) {
                    assert!(member.is_everyday(), "{}", context());
                } else {
                    assert_eq!(Some(member), on_letter, "{}", context());
                }
            }
            count += 1;
        }
    }
    assert!(count > 40_000, "{count}");
}

#[test]
fn plain_spelling_has_at_most_single_accidentals() {
    for chord_scale in every_ground() {
        let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
        for class in PitchClass::all() {
            let name = speller.note(class);
            assert!(name.accidental().abs() <= 1, "{name} over {:?}", chord_scale.chord());
            assert_eq!(name.pitch_class(), class);
        }
        for triad in triads(&chord_scale) {
            let notes = speller.triad(triad).notes();
            assert!(notes.iter().all(|note| note.accidental().abs() <= 1));
        }
    }
}

#[test]
fn strict_spelling_keeps_the_letters_of_the_scale() {
    for chord_scale in every_ground() {
        let speller = Speller::new(chord_scale.clone(), Spelling::Strict);
        let scale = chord_scale.scale();
        for triad in triads(&chord_scale) {
            let expected = triad.members().map(|class| scale.name_of(class).unwrap());
            assert_eq!(speller.triad(triad).notes(), expected, "{triad:?} in {scale}");
        }
    }
}

#[test]
fn both_spellings_of_a_triad_sound_alike_and_read_back() {
    for chord_scale in every_ground() {
        for triad in triads(&chord_scale) {
            for policy in [Spelling::Plain, Spelling::Strict] {
                let spelled = Speller::new(chord_scale.clone(), policy).triad(triad);
                let read: SpelledTriad = format!("{spelled:#}").parse().unwrap();
                assert_eq!(read.triad(), triad, "{spelled}");
            }
        }
    }
}

fn told(chord: &str, scale: &str, policy: Spelling) -> String {
    let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
    let speller = Speller::new(chord_scale.clone(), policy);
    let words = triads(&chord_scale).into_iter().map(|triad| {
        let spelled = speller.triad(triad);
        let notes: Vec<String> = spelled.notes().iter().map(|note| format!("{note:#}")).collect();
        format!("{spelled:#}={}", notes.join("-"))
    });
    words.collect::<Vec<_>>().join(" ")
}

/// The keys in which spelling hurts, written out by hand: the scale's letters, then the triads as
/// players write them: a chord tone on the letter that the symbol gives it (E# is the 7 of F#maj7),
/// any other root by its everyday name (B in G flat). Common practice, no source.
#[test]
fn the_keys_of_six_and_seven_accidentals_written_out() {
    for (chord, scale, expected) in [
        (
            "F#maj7",
            "F# Ionian",
            "F#=F#-A#-C# G#m=G#-B-D# A#m=A#-C#-E# B=B-D#-F# C#=C#-E#-G# D#m=D#-F#-A# E#dim=E#-G#-B",
        ),
        (
            "Gbmaj7",
            "Gb Ionian",
            "Gb=Gb-Bb-Db Abm=Ab-Cb-Eb Bbm=Bb-Db-F Cb=Cb-Eb-Gb Db=Db-F-Ab Ebm=Eb-Gb-Bb Fdim=F-Ab-Cb",
        ),
        (
            "C#maj7",
            "C# Ionian",
            "C#=C#-E#-G# D#m=D#-F#-A# E#m=E#-G#-B# F#=F#-A#-C# G#=G#-B#-D# A#m=A#-C#-E# \
             B#dim=B#-D#-F#",
        ),
        (
            "Dbmaj7",
            "Db Ionian",
            "Db=Db-F-Ab Ebm=Eb-Gb-Bb Fm=F-Ab-C Gb=Gb-Bb-Db Ab=Ab-C-Eb Bbm=Bb-Db-F Cdim=C-Eb-Gb",
        ),
    ] {
        assert_eq!(told(chord, scale, Spelling::Strict), expected, "{scale}, strict");
    }
    for (chord, scale, expected) in [
        (
            "F#maj7",
            "F# Ionian",
            "F#=F#-A#-C# G#m=G#-B-D# A#m=A#-C#-E# B=B-D#-F# C#=C#-E#-G# D#m=D#-F#-A# E#dim=E#-G#-B",
        ),
        (
            "Gbmaj7",
            "Gb Ionian",
            "Gb=Gb-Bb-Db Abm=Ab-Cb-Eb Bbm=Bb-Db-F B=B-D#-F# Db=Db-F-Ab Ebm=Eb-Gb-Bb Fdim=F-Ab-Cb",
        ),
        (
            "Dbmaj7",
            "Db Ionian",
            "Db=Db-F-Ab Ebm=Eb-Gb-Bb Fm=F-Ab-C Gb=Gb-Bb-Db Ab=Ab-C-Eb Bbm=Bb-Db-F Cdim=C-Eb-Gb",
        ),
        (
            "C#maj7",
            "C# Ionian",
            "C#=C#-E#-G# D#m=D#-F#-A# E#m=E#-G#-B# F#=F#-A#-C# G#=G#-B#-D# A#m=A#-C#-E# \
             B#dim=B#-D#-F#",
        ),
        (
            "C#m7",
            "C# Dorian",
            "C#m=C#-E-G# D#m=D#-F#-A# E=E-G#-B F#=F#-A#-C# G#m=G#-B-D# A#dim=A#-C#-E B=B-D#-F#",
        ),
        (
            "F#7",
            "F# Mixolydian",
            "F#=F#-A#-C# G#m=G#-B-D# A#dim=A#-C#-E B=B-D#-F# C#m=C#-E-G# D#m=D#-F#-A# E=E-G#-B",
        ),
        (
            "Gb7alt",
            "Gb altered",
            "F#dim=F#-A-C Gm=G-Bb-D Am=A-C-E Bb+=Bb-D-F# C=C-E-G D=D-F#-A Edim=E-G-Bb",
        ),
        (
            "Db7alt",
            "Db altered",
            "C#dim=C#-E-G Dm=D-F-A Em=E-G-B F+=F-A-C# G=G-B-D A=A-C#-E Bdim=B-D-F",
        ),
    ] {
        assert_eq!(told(chord, scale, Spelling::Plain), expected, "{scale}, plain");
    }
}

/// What a note is over the chord, whatever letter the scale gives it. Common practice, no source.
#[test]
fn degree_labels_follow_the_chord_not_the_scale() {
    for (chord, scale, note, degree) in [
        ("C7", "C half-whole", "Eb", "#9"),
        ("C7#9", "C altered", "Eb", "#9"),
        ("C7alt", "C altered", "Eb", "#9"),
        ("C7alt", "C altered", "E", "3"),
        ("Cm7", "C Dorian", "Eb", "b3"),
        ("Cm7b5", "C Locrian", "Eb", "b3"),
        ("C7#11", "C Lydian dominant", "F#", "#11"),
        ("Cmaj7", "C Lydian", "F#", "#11"),
        ("C7b5", "C whole tone", "Gb", "b5"),
        ("C7alt", "C altered", "Gb", "b5"),
        ("Cm7b5", "C Locrian", "Gb", "b5"),
        ("C7b13", "C Mixolydian b6", "Ab", "b13"),
        ("C7#5", "C whole tone", "Ab", "#5"),
        ("C7alt", "C altered", "Ab", "#5"),
        ("Cm7", "C Aeolian", "Ab", "b13"),
        ("C6", "C Ionian", "A", "6"),
        ("Cm6", "C Dorian", "A", "6"),
        ("C13", "C Mixolydian", "A", "13"),
        ("C7", "C Mixolydian", "A", "13"),
        ("Cm7", "C Dorian", "A", "13"),
        ("Cdim7", "C whole-half", "A", "bb7"),
        ("C7sus4", "C Mixolydian", "F", "4"),
        ("C9sus4", "C Mixolydian", "F", "4"),
        ("C7sus4", "C Mixolydian", "E", "3"),
        ("C7", "C Mixolydian", "F", "11"),
        ("Cm11", "C Dorian", "F", "11"),
        ("Csus2", "C Ionian", "D", "2"),
        ("Cadd9", "C Ionian", "D", "9"),
        ("C7b9", "C half-whole", "Db", "b9"),
    ] {
        let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
        let class = note.parse::<NoteName>().unwrap().pitch_class();
        assert_eq!(format!("{:#}", chord_scale.degree(class)), degree, "{note} over {chord}");
    }
}

/// The label depends on the distance alone: the same on every root.
#[test]
fn degree_labels_are_the_same_on_every_root() {
    let labels = |root: &str, suffix: &str| -> Vec<String> {
        let chord: Chord = format!("{root}{suffix}").parse().unwrap();
        let class = chord.root().pitch_class();
        let choices = ScaleChoice::for_chord(&chord);
        let mut rows: Vec<String> = Vec::new();
        for choice in choices {
            let kind = choice.scale().kind().name().to_owned();
            let chord_scale = ChordScale::over(chord.clone(), choice.scale().clone());
            let row = (0..12).map(|up| format!("{:#}", chord_scale.degree(class.up(up))));
            rows.push(format!("{kind}: {}", row.collect::<Vec<_>>().join(" ")));
        }
        rows
    };
    for suffix in CHORDS {
        let on_c = labels("C", suffix);
        for root in ROOTS {
            assert_eq!(labels(root, suffix), on_c, "{root}{suffix}");
        }
    }
}
