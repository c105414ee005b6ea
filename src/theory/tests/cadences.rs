//! Cadences as they are taught and played, with the scale that players reach for first over each
//! chord: common practice, no source. Where two are as usual both stand there.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_theory::{Chord, Interval, Reading};

/// What stands for a scale.
const SCALES: [(&str, &str); 20] = [
    ("L", "Lydian"),
    ("I", "Ionian"),
    ("M", "Mixolydian"),
    ("D", "Dorian"),
    ("P", "Phrygian"),
    ("A", "Aeolian"),
    ("Lo", "Locrian"),
    ("L2", "Locrian natural 2"),
    ("Mm", "melodic minor"),
    ("Hm", "harmonic minor"),
    ("Ld", "Lydian dominant"),
    ("Alt", "altered"),
    ("M6", "Mixolydian b6"),
    ("Pd", "Phrygian dominant"),
    ("Hw", "half-whole diminished"),
    ("Wh", "whole-half diminished"),
    ("Wt", "whole tone"),
    ("La", "Lydian augmented"),
    ("Db2", "Dorian b2"),
    ("A7", "altered bb7"),
];

/// The chords of a cadence, each with what is played over it after a colon; a chord without is there
/// for the others.
const CADENCES: &[&str] = &[
    // To major.
    "Dm7:D G7:M Cmaj7:L/I",
    "Dm9:D G13:M C6/9:I/L",
    "Dm7:D G7:M C6:I",
    "Dm7:D G9:M Cmaj9:L/I",
    "Dm7:D G7sus4:M Cmaj7:L/I",
    "Dm7:D G7sus4:M G7:M Cmaj7:L/I",
    "G7sus4:M Cmaj7:L/I",
    "G9sus4:M G7:M C6:I",
    "G13:M Cmaj7:L/I",
    "G7:M C:I/L",
    "F6:L G7:M C6:I",
    "Fmaj7:L G7:M Cmaj7:L/I",
    "C:I F:L G7:M C:I",
    "C:I Am:A Dm:D G7:M",
    "Cmaj7:L/I Am7:A Dm7:D G7:M",
    "Em7:P/A Am7:A Dm7:D G7:M Cmaj7:L/I",
    "Cmaj7:L/I Dm7:D Em7:P Fmaj7:L G7 C6",
    "Cmaj7 Fmaj7:L Em7:P Dm7:D G7",
    "Dm7:D G7b9:Hw/Alt/Pd Cmaj7:L/I",
    "Dm7:D G13b9:Hw Cmaj7:L/I",
    "Dm7:D G7alt:Alt Cmaj7:L/I",
    "Dm7:D G7#9:Hw/Alt Cmaj7:L/I",
    "Dm7:D G7#11:Ld Cmaj7:L/I",
    "Dm7:D G7#5:Alt/Wt Cmaj7:L/I",
    "Dm7 G7#5#9:Alt Cmaj7",
    "Dm7 G7b9b13:Pd/Alt Cmaj7",
    "Dm7 G9#5:Wt Cmaj7",
    "G7#5:Alt/Wt G7 C6:I",
    "G+ C6:I",
    "Dm7/G Cmaj7:L/I",
    "F/G Cmaj7:L/I",
    "Dm11:D G7:M Cmaj7",
    "Dm6:D G7:M C6:I",
    "Fmaj7:L Cmaj7:L/I",
    "Fmaj7 Em7:P/A Dm7:D Cmaj7:L/I",
    "Dm7:D Em7:P/A Fmaj7:L G7:M Cmaj7",
    "Bm7b5:Lo Cmaj7:L/I",
    "G7/B:M Cmaj7:L/I",
    // To minor.
    "Dm7b5:Lo/L2 G7:Alt/Pd Cm6:Mm",
    "Dm7b5:Lo/L2 G7alt:Alt Cm6:Mm",
    "Dm7b5:Lo/L2 G7b9:Alt/Pd Cm(maj7):Mm/Hm",
    "Dm7b5:Lo/L2 G7b9:Alt/Pd Cm7:D/A",
    "Dm7b5:Lo/L2 G7b9b13:Pd Cm:Mm/D/A",
    "Dm7b5:Lo/L2 G7#5:Alt Cm6:Mm",
    "Dm7b5:Lo/L2 G7sus4 G7:Alt/Pd Cm6:Mm",
    "Dm9b5:L2 G7alt:Alt Cm6:Mm",
    "G7:Alt/Pd Cm6:Mm",
    "G7:Alt/Pd Cm:Mm/D/A",
    "G7b9:Alt/Pd Cm6:Mm",
    "G7#9:Alt Cm7:D/A",
    "G7#5:Alt Cm(maj7):Mm",
    "Cm6:Mm Fm7:D G7:Alt/Pd Cm6:Mm",
    "Cm7:D/A Fm7:D Cm7:D/A",
    "Cm6:Mm Abmaj7:L Dm7b5:Lo/L2 G7:Alt/Pd Cm6",
    "Cm:Mm/D/A Ab7:Ld G7:Alt/Pd Cm6:Mm",
    "Cm6 Ab7:Ld G7alt:Alt Cm6:Mm",
    "Cm:Mm/A/D Bb:M Ab:L G7:Alt/Pd",
    "Cm6:Mm Am7b5:Lo/L2 Dm7b5:Lo/L2 G7:Alt/Pd",
    "Fm7:D Bb7:M Ebmaj7:L/I Abmaj7:L Dm7b5:Lo/L2 G7:Alt/Pd Cm6:Mm",
    "Fm6:Mm/D Cm6:Mm",
    "Bdim7:Wh/A7 Cm6:Mm",
    "Dm7b5 G7 Cm6:Mm",
    "Dbmaj7:L Cm6:Mm",
    "Dm7b5:Lo/L2 Db7:Ld Cm6:Mm",
    "Db7:Ld Cm7:D/A/Mm",
    // A minor ii–V that goes to major, and a ii–V that goes to minor.
    "Dm7b5:Lo/L2 G7b9:Pd/Alt/Hw Cmaj7:L/I",
    "Dm7b5:Lo/L2 G7:Pd/Alt Cmaj7:L/I",
    "Em7b5:Lo/L2 A7b9:Alt/Pd Dm7:D G7:M Cmaj7:L/I",
    "Em7b5:Lo/L2 A7:Alt/Pd Dm7:D G7:M",
    "Em7b5:L2 A7:Alt/Pd Cm7:D F7:M",
    "Bm7b5:Lo/L2 E7:Alt/Pd Am7:A/D",
    "Bm7b5:Lo/L2 E7b9:Alt/Pd Am7 D7 Dm7:D G7:M",
    "F#m7b5:Lo/L2 B7:Alt/Pd Em7:D/A/P Am7 Dm7 G7 Cmaj7",
    "F#m7b5:Lo/L2 B7b9:Alt/Pd Em7 A7:M/Alt/Pd Dm7:D G7:M",
    "F#m7b5:Lo/L2 B7alt:Alt Em6:Mm",
    "Cm7b5:Lo/L2 F7b9:Alt/Pd/Hw Bbmaj7:L/I",
    "Dm7:D G7:Alt/Pd Cm6:Mm",
    // Dominants of other degrees, and chains.
    "Cmaj7 A7:Alt/Pd Dm7:D G7:M",
    "Cmaj7:L/I A7b9:Alt/Pd Dm7:D G7:M Cmaj7",
    "Cmaj7 A7b13 Dm7:D G7:M",
    "Cmaj7 E7:Alt/Pd Am7:A/D Dm7:D",
    "Cmaj7 E7b9:Alt/Pd Am7:A/D",
    "Cmaj7 B7:Alt/Pd Em7:P/A/D Am7",
    "Cmaj7 C7:M Fmaj7:L",
    "Cmaj7 Gm7:D C7:M Fmaj7:L",
    "Gm7:D C7:M F6:L/I Fm6:Mm C6",
    "Cmaj7 D7:Ld Dm7:D G7:M",
    "Cmaj7 D7:Ld/M G7sus4:M Cmaj7",
    "C6 D7:Ld/M G7:M C6:I",
    "E7:M A7:M D7:M G7:M C6:I",
    "E7 A7:M D7:M G7:M Cmaj7:L/I",
    "Em7:D/P/A A7:Alt/Pd/M Dm7:D G7:M Cmaj7",
    "Em7:D/P/A A7:M Dmaj7:L/I",
    "Am7:D D7:M/Alt/Pd Gm7:D C7:M Fmaj7:L/I",
    "Bm7:D E7:M/Alt/Pd Am7:D/A D7:M Gmaj7:L/I",
    "Bm7:D E7:M Bbm7:D Eb7:M Abmaj7:L/I",
    "Fm7:D Bb7:M Ebmaj7:L/I Cm7:A/D",
    "Dm7:D G7:M/Alt/Pd Cm7:D F7:M Bbmaj7:L/I",
    "Cmaj7:L/I Cm7:D F7:M Bbmaj7:L/I Bbm7:D Eb7:M Abmaj7:L/I",
    "Fm7:D Bb7:M Ebmaj7:L/I Ebm7:D Ab7:M Dbmaj7:L/I",
    "Cmaj7:L/I Em7b5:Lo/L2 A7:Alt/Pd Dm7:D",
    // Deceptive ways: iii or vi for I.
    "Dm7:D G7:M Em7:P/A/D A7:Alt/Pd Dm7:D G7:M Cmaj7:L/I",
    "Dm7:D G7:M Am7:A Dm7:D G7:M Cmaj7",
    "C6 F6 G7:M Am7:A Dm7 G7 C6",
    "Cmaj7 Dm7:D G7:M Abmaj7:L G7:M Cmaj7",
    "Dm7b5:Lo/L2 G7:Alt/Pd Abmaj7:L Dm7b5:Lo/L2 G7 Cm6",
    "Cm6 Fm7 G7 Abmaj7:L G7:Alt/Pd Cm6",
    // In place of the V.
    "Dm7:D Db7:Ld Cmaj7:L/I",
    "Dm7:D Db9:Ld C6:I",
    "Dm7 Db7#11:Ld Cmaj7:L/I",
    "Abm7:D Db7:Ld Cmaj7:L/I",
    "Dm7:D G7:M Abm7:D Db7:Ld Cmaj7:L/I",
    "Cmaj7 Eb7:Ld Dm7:D Db7:Ld Cmaj7",
    "Cmaj7:L/I Ebmaj7:L Abmaj7:L Dbmaj7:L Cmaj7",
    "Em7:P/A/D Eb7:Ld Dm7:D Db7:Ld Cmaj7:L/I",
    "Em7 Eb7:Ld Dm7:D G7:M Cmaj7:L/I",
    "Bbm7:D Eb7:Ld Dm7:D G7:M",
    "Dm7 G7 Gb7:Ld Fmaj7:L/I",
    "Gm7:D Gb7:Ld Fmaj7:L/I",
    "Cmaj7 Ab7:Ld G7:M Cmaj7:L/I",
    "C6 Ab7:Ld G7 C6:I",
    "Dm7 Db7:Ld C7",
    "F#7:Ld F7 Bb7 Eb7",
    "Em7b5:Lo/L2 Eb7:Ld Dm6:Mm",
    "Dm7:D Dbmaj7:L Cmaj7:L/I",
    "Cmaj7 Bbm7 Eb7:Ld Dm7:D G7",
    // The back door.
    "Fm7:D Bb7:Ld Cmaj7:L/I",
    "Fm6:Mm Bb7:Ld Cmaj7:L/I",
    "Cmaj7 Fm7:D Bb7:Ld Cmaj7:L/I",
    "Fmaj7:L Fm7:D Bb7:Ld Cmaj7:L/I",
    "Fmaj7:L Bb7:Ld Cmaj7:L/I",
    "Cmaj7 Bb7:Ld Cmaj7:L/I",
    "Dm7 G7 Cmaj7 Fm7:D Bb7:Ld Em7:P/A/D A7 Dm7 G7",
    "Cmaj7 Fm7:D Bb7:Ld C6/9:I/L",
    "Fm7:D Bb9:Ld Cmaj9:L/I",
    "Fmaj7:L Fm6:Mm Cmaj7:L/I",
    "F:L Fm:Mm/D C:I",
    "F6:L Fm6:Mm Em7:P/A/D A7:Alt/Pd Dm7 G7 C6",
    "Fmaj7 Fm(maj7):Mm Cmaj7:L/I",
    "Cmaj7 C7:M Fmaj7:L Fm7:D Bb7:Ld Cmaj7",
    // Colours of the key.
    "Cmaj7 F#m7b5:Lo Fm6 Em7",
    "Cmaj7:L/I F#m7b5:Lo Fmaj7:L G7 Cmaj7",
    "F#m7b5:Lo Fm7:D Em7:P/A/D Ebdim7:Wh Dm7:D G7:M C6:I",
    "Cmaj7 C#dim7:Wh Dm7:D G7:M",
    "Cmaj7 C#dim7:Wh Dm7:D D#dim7:Wh Em7:P/A",
    "Em7:P/A Ebdim7:Wh Dm7:D G7:M",
    "C6 Ebdim7:Wh Dm7:D G7:M",
    "Fmaj7:L F#dim7:Wh Cmaj7/G:L/I",
    "Dm7:D D#dim7:Wh C6/E",
    "Cmaj7:L/I Cdim7:Wh Cmaj7:L/I",
    "Cdim7:Wh Cmaj7:L/I",
    "G7 G#dim7:Wh Am7:A/D",
    "Cmaj7:L/I Abmaj7:L Dbmaj7:L G7 Cmaj7",
    "Cmaj7:L/I Ebmaj7:L Abmaj7:L Dbmaj7:L",
    "Cmaj7#11:L Bm7b5:Lo/L2 E7:Alt/Pd Am6:Mm",
    "Cmaj7 C+:Wt/La C6",
    "Cmaj7#5:La Fmaj7",
    "Cm6:Mm Cm(maj7):Mm Cm6:Mm",
    "Cm:Mm/D/A Cm(maj7):Mm Cm7:D/A Cm6:Mm",
    "Dm:D/A/Mm Dm(maj7):Mm Dm7:D Dm6:Mm/D G7:M",
    // Blues.
    "C7:M F7:Ld/M C7:M C7 F7:Ld/M F7 C7:M A7 Dm7:D G7:M C7:M",
    "C7 F7 C7 Gm7:D C7:M F7:Ld/M F#dim7:Wh C7:M A7:Alt/Pd Dm7:D G7:M C7:M G7:M",
    "C7:M F7:Ld/M C7:M G7:M F7:Ld/M C7:M",
    "C7:M F7:Ld/M F#dim7:Wh C7/G:M",
    "G7 C7:M F7:Ld/M C7:M",
    "F7 C7:M Ab7:Ld G7:M C7",
    "Cm7:D/A Fm7:D Cm7:D/A Ab7:Ld G7:Alt/Pd Cm7:D/A",
    "Cm6:Mm Fm6:Mm Cm6:Mm Dm7b5:Lo/L2 G7alt:Alt Cm6",
    "Fmaj7:L/I Em7b5:Lo/L2 A7:Alt/Pd Dm7:D G7:M/Alt/Pd Cm7:D F7:M Bb7:Ld Bbm7:D Eb7:Ld Am7",
    "Am7:D/P/A D7:M/Alt/Pd Abm7:D Db7:Ld Gm7:D C7:M F6",
    // Suspended, static, modal.
    "Dm7:D Dm7 Dm7 Ebm7:D Ebm7 Dm7",
    "Dm7:D Em7/D Dm7:D",
    "Am7:D/A Am7",
    "G7sus4:M F7sus4:M G7sus4:M",
    "G7sus4b9:P Cmaj7",
    "C7sus4:M Eb7sus4:M",
    "Cmaj7:L/I Dbmaj7:L Cmaj7:L/I",
    "D7:Ld/M C7:Ld/M D7",
    "G7sus4:M/Pd G7alt:Alt Cm6:Mm",
    "C:I Bb:M/L F:L C:I G7:M C:I",
    "Cmaj7:L/I Bbmaj7:L Cmaj7",
    "Gm7:D C7sus4:M C7:M Fmaj7:L/I",
    "Gm7:D/A/P Cmaj7",
    "Em7:A/D/P F#m7:D/A/P Em7",
];

struct Case {
    chord: Chord,
    scales: Vec<&'static str>,
}

fn cases(cadence: &str) -> Vec<Case> {
    let full = |short: &str| SCALES.iter().find(|(name, _)| *name == short).unwrap().1;
    let case = |word: &str| {
        let (symbol, scales) = word.split_once(':').unwrap_or((word, ""));
        let scales = scales.split('/').filter(|scale| !scale.is_empty());
        Case { chord: symbol.parse().unwrap(), scales: scales.map(full).collect() }
    };
    cadence.split(' ').map(case).collect()
}

/// A cadence so many semitones higher.
fn moved(chords: &[Chord], semitones: i8) -> Vec<Chord> {
    let steps = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6][semitones as usize];
    chords.iter().map(|chord| chord.up(Interval::new(steps, semitones)).unwrap()).collect()
}

#[test]
fn the_usual_scale_stands_first_in_every_key() {
    let (mut asked, mut wrong) = (0, Vec::new());
    for cadence in CADENCES {
        let cases = cases(cadence);
        let written: Vec<Chord> = cases.iter().map(|case| case.chord.clone()).collect();
        let mut in_c: Vec<String> = Vec::new();
        for up in 0..12 {
            let chords = moved(&written, up);
            let readings = Reading::tune(&chords, None);
            let kind = |reading: &Reading| reading.scales()[0].scale().kind().name().to_owned();
            let kinds: Vec<String> = readings.iter().map(kind).collect();
            if up == 0 {
                in_c.clone_from(&kinds);
            }
            assert_eq!(in_c, kinds, "{cadence}, {up} semitones up");
            for ((case, kind), reading) in cases.iter().zip(&kinds).zip(&readings) {
                if case.scales.is_empty() {
                    continue;
                }
                asked += 1;
                if !case.scales.contains(&kind.as_str()) {
                    wrong.push(format!("{cadence}: {:#} {reading}: {kind}", reading.chord()));
                }
            }
        }
    }
    assert!(CADENCES.len() >= 150, "{}", CADENCES.len());
    let right = 1.0 - wrong.len() as f64 / asked as f64;
    assert!(right >= 0.95, "{right} of {asked}\n{}", wrong.join("\n"));
}
