//! Typed tunings: `E A D G B E`, `DADGAD`, `D2 A2 D3 G3 A3 D4`.
//!
//! Where no octave is given, [`KNOWN`] instruments are recognised by their notes; of the rest,
//! the first string is put as near as it goes to the [`anchor`] for that many strings (the lower
//! one of two equally near), and each next string is the next higher note of its name.

use fretloom_theory::{NamedPitch, NoteName, Pitch, PitchClass, ReadError};

use super::{Instrument, OpenString, Tuning, TuningError};

impl Tuning {
    /// Reads a tuning as players write it: notes from the highest string number to string 1, with
    /// or without spaces, all of them with octaves (`D2 A2 D3 G3 A3 D4`) or none (`DADGAD`).
    ///
    /// Without octaves they are inferred, and [`octaves_inferred`](Self::octaves_inferred) says
    /// so. G C E A is a re-entrant ukulele, four strings in fifths a mandolin or tenor guitar, four
    /// others a bass, five in fourths a five-string bass. Otherwise the first string lies nearest
    /// to a guitar's (E2 for six strings, B1 for seven, F♯1 for eight) and each next one is the
    /// next higher note of its name. A banjo's short fifth string cannot be typed.
    ///
    /// Frets and scale length are those of a common instrument of that kind.
    ///
    /// # Errors
    ///
    /// Where a note cannot be read, only some have octaves, or [`Tuning::new`] refuses the whole.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_fretboard::Tuning;
    /// assert_eq!(Tuning::read("GCEA").unwrap().to_string(), "G4 C4 E4 A4");
    /// assert_eq!(Tuning::read("B E A D G").unwrap().to_string(), "B0 E1 A1 D2 G2");
    /// assert_eq!(
    ///     Tuning::read("E2 A D3").unwrap_err().to_string(),
    ///     "cannot read the tuning \"E2 A D3\" at character 4: expected an octave on every note, \
    ///      or on none"
    /// );
    /// ```
    pub fn read(text: &str) -> Result<Tuning, TuningError> {
        let typed = read_notes(text)?;
        if !(3..=12).contains(&typed.len()) {
            return Err(TuningError::StringCount(typed.len()));
        }
        let octaves_inferred = typed.iter().all(|note| note.octave.is_none());
        let notes = if octaves_inferred {
            infer(text, &typed)?
        } else {
            typed.iter().map(|note| note.with_octave(text)).collect::<Result<_, _>>()?
        };
        let body = Body::of(&notes);
        let strings = notes.into_iter().map(OpenString::new).collect();
        let tuning = Tuning::new(strings, body.frets, body.scale_mm)?;
        Ok(Tuning { instrument: body.instrument, octaves_inferred, ..tuning })
    }
}

/// A note of a typed tuning, and the character it begins at.
struct TypedNote {
    name: NoteName,
    octave: Option<i8>,
    at: usize,
}

impl TypedNote {
    fn with_octave(&self, text: &str) -> Result<NamedPitch, ReadError> {
        let octave = self
            .octave
            .ok_or_else(|| fail(text, self.at, "an octave on every note, or on none"))?;
        NamedPitch::new(self.name, octave)
            .ok_or_else(|| fail(text, self.at, "a note from C-1 to G9"))
    }

    fn class(&self) -> PitchClass {
        self.name.pitch_class()
    }

    /// This note where it sounds as `midi`; the caller answers for the class.
    fn sounding_as(&self, midi: i32) -> Option<NamedPitch> {
        let above_c =
            i32::from(self.name.letter().semitones_above_c()) + i32::from(self.name.accidental());
        let octave = (midi - above_c).div_euclid(12) - 1;
        NamedPitch::new(self.name, i8::try_from(octave).ok()?)
    }
}

fn fail(text: &str, at: usize, expected: &'static str) -> ReadError {
    ReadError::at_character("tuning", text, at, expected)
}

fn read_notes(text: &str) -> Result<Vec<TypedNote>, ReadError> {
    let separates = |c: char| c.is_whitespace() || c == ',';
    let total = text.chars().count();
    let mut notes = Vec::new();
    let mut rest = text.trim_start_matches(separates);
    while !rest.is_empty() {
        let at = total - rest.chars().count() + 1;
        let (name, after) =
            NoteName::read_prefix(rest).map_err(|error| error.within("tuning", text, at))?;
        let (octave, after) = read_octave(after).ok_or_else(|| {
            let at = total - after.chars().count() + 1;
            fail(text, at, "an octave number from -1 to 9, as in E2")
        })?;
        notes.push(TypedNote { name, octave, at });
        // More strings than any instrument has: the count says enough.
        if notes.len() > 12 {
            break;
        }
        rest = after.trim_start_matches(separates);
    }
    Ok(notes)
}

/// The octave number at the beginning of `text`, if there is one; `None` where it is none of ours.
fn read_octave(text: &str) -> Option<(Option<i8>, &str)> {
    let digits = |text: &str| text.chars().take_while(char::is_ascii_digit).count();
    let sign = usize::from(text.starts_with('-'));
    let length = sign + digits(text.get(sign..)?);
    if length == 0 {
        return Some((None, text));
    }
    let octave = text.get(..length)?.parse().ok()?;
    (-1..=9).contains(&octave).then_some((Some(octave), text.get(length..)?))
}

/// Instruments that the rule of the next higher note gets wrong, as MIDI numbers from the highest
/// string number to string 1, with what they are called.
const KNOWN: &[(&[i32], Kind)] = &[
    (&[67, 60, 64, 69], Kind::Ukulele),      // G4 C4 E4 A4
    (&[69, 62, 66, 71], Kind::Ukulele),      // A4 D4 F♯4 B4
    (&[50, 55, 59, 64], Kind::Ukulele),      // D3 G3 B3 E4, the baritone
    (&[55, 62, 69, 76], Kind::Mandolin),     // G3 D4 A4 E5
    (&[48, 55, 62, 69], Kind::Tenor),        // C3 G3 D4 A4
    (&[23, 28, 33, 38, 43, 48], Kind::Bass), // B0 E1 A1 D2 G2 C3
];

#[derive(Clone, Copy)]
enum Kind {
    Ukulele,
    Mandolin,
    Tenor,
    Bass,
}

fn infer(text: &str, typed: &[TypedNote]) -> Result<Vec<NamedPitch>, ReadError> {
    let too_high = |note: &TypedNote| {
        fail(text, note.at, "octaves, since going up at every string leaves C-1 to G9")
    };
    let place = |(note, midi): (&TypedNote, i32)| note.sounding_as(midi).ok_or(too_high(note));
    let known = KNOWN.iter().find(|(midi, _)| has_classes(typed, midi));
    match known {
        Some((midi, _)) => typed.iter().zip(midi.iter().copied()).map(place).collect(),
        None => typed.iter().zip(going_up(typed)).map(place).collect(),
    }
}

fn has_classes(typed: &[TypedNote], midi: &[i32]) -> bool {
    let classes = typed.iter().map(TypedNote::class);
    classes.eq(midi.iter().copied().map(PitchClass::new))
}

/// MIDI numbers: the first nearest to the anchor, each next the next higher of its name.
fn going_up(typed: &[TypedNote]) -> impl Iterator<Item = i32> {
    let anchor = anchor(typed);
    typed.iter().scan(None, move |before: &mut Option<i32>, note| {
        let midi = match *before {
            None => nearest(anchor, note.class()),
            Some(lower) => lower + up(lower + 1, note.class()) + 1,
        };
        *before = Some(midi);
        Some(midi)
    })
}

fn up(from: i32, to: PitchClass) -> i32 {
    i32::from(PitchClass::new(from).semitones_up_to(to))
}

fn nearest(anchor: i32, class: PitchClass) -> i32 {
    let up = up(anchor, class);
    anchor + if up >= 6 { up - 12 } else { up }
}

/// The MIDI number that the first string should lie near to.
fn anchor(typed: &[TypedNote]) -> i32 {
    let in_steps_of = |semitones: u8| {
        let mut neighbours = typed.windows(2);
        neighbours.all(|two| match two {
            [lower, upper] => lower.class().semitones_up_to(upper.class()) == semitones,
            _ => true,
        })
    };
    match typed.len() {
        ..=3 => 45,                // A2: cigar-box guitars, dulcimers
        4 if in_steps_of(7) => 55, // G3: the mandolin and what is tuned like it
        4 => 28,                   // E1: the bass
        5 if in_steps_of(5) => 23, // B0: the five-string bass
        5 => 45,                   // A2: a guitar without its sixth string
        6 => 40,                   // E2
        7 => 35,                   // B1
        8 => 30,                   // F♯1
        _ => 25,                   // C♯1
    }
}

/// Frets and scale length of a common instrument of a kind, in mm.
struct Body {
    instrument: Instrument,
    frets: u32,
    scale_mm: f64,
}

impl Body {
    fn of(notes: &[NamedPitch]) -> Body {
        let sounds = |midi: &[i32]| {
            let pitches = notes.iter().map(|note| i32::from(note.pitch().midi()));
            pitches.eq(midi.iter().copied())
        };
        let known = KNOWN.iter().find(|(midi, _)| sounds(midi));
        let lowest = notes.iter().map(|note| note.pitch()).min();
        let below_guitars = notes.len() <= 6 && lowest.map(Pitch::midi) < Some(33);
        let (instrument, frets, scale_mm) = match known.map(|(_, kind)| *kind) {
            Some(Kind::Ukulele) if lowest.map(Pitch::midi) < Some(55) => {
                (Instrument::Ukulele, 18, 510.0)
            }
            Some(Kind::Ukulele) => (Instrument::Ukulele, 15, 345.0),
            Some(Kind::Mandolin) => (Instrument::Mandolin, 20, 350.0),
            Some(Kind::Tenor) => (Instrument::Guitar, 19, 580.0),
            Some(Kind::Bass) => (Instrument::Bass, 24, 864.0),
            None if below_guitars => (Instrument::Bass, 20, 864.0),
            None if notes.len() > 6 => (Instrument::Guitar, 24, 648.0),
            None => (Instrument::Guitar, 22, 648.0),
        };
        Body { instrument, frets, scale_mm }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> String {
        format!("{:#}", Tuning::read(text).unwrap())
    }

    /// Open pitches as the instruments are tuned: common practice, no source.
    #[test]
    fn octaves_are_inferred_as_the_instruments_sound() {
        for (typed, sounding) in [
            ("E A D G B E", "E2 A2 D3 G3 B3 E4"),
            ("EADGBE", "E2 A2 D3 G3 B3 E4"),
            ("EADGCF", "E2 A2 D3 G3 C4 F4"),
            ("DADGBE", "D2 A2 D3 G3 B3 E4"),
            ("DADGAD", "D2 A2 D3 G3 A3 D4"),
            ("D G D G B D", "D2 G2 D3 G3 B3 D4"),
            ("E G# C E G# C", "E2 G#2 C3 E3 G#3 C4"),
            ("CGDAEG", "C2 G2 D3 A3 E4 G4"),
            ("Eb Ab Db Gb Bb Eb", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"),
            ("EbAbDbGbBbEb", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"),
            ("B E A D F# B", "B1 E2 A2 D3 F#3 B3"),
            ("B E A D G B E", "B1 E2 A2 D3 G3 B3 E4"),
            ("A E A D G B E", "A1 E2 A2 D3 G3 B3 E4"),
            ("D G B D G B D", "D2 G2 B2 D3 G3 B3 D4"),
            ("F# B E A D G B E", "F#1 B1 E2 A2 D3 G3 B3 E4"),
            ("E A D G", "E1 A1 D2 G2"),
            ("D A D G", "D1 A1 D2 G2"),
            ("B E A D G", "B0 E1 A1 D2 G2"),
            ("E A D G C", "E1 A1 D2 G2 C3"),
            ("B E A D G C", "B0 E1 A1 D2 G2 C3"),
            ("G D G B D", "G2 D3 G3 B3 D4"),
            ("G C E A", "G4 C4 E4 A4"),
            ("D G B E", "D3 G3 B3 E4"),
            ("G D A E", "G3 D4 A4 E5"),
            ("C G D A", "C3 G3 D4 A4"),
            ("F C G D", "F3 C4 G4 D5"),
            ("D A D", "D3 A3 D4"),
            ("Cb, E, B#", "Cb3 E3 B#3"),
        ] {
            assert_eq!(read(typed), sounding, "{typed}");
            assert!(Tuning::read(typed).unwrap().octaves_inferred(), "{typed}");
        }
    }

    #[test]
    fn octaves_that_are_given_are_kept() {
        for typed in ["D2 A2 D3 G3 A3 D4", "E3 A3 D4 G4 B3 E4", "A3 D4 F#4 B3"] {
            let tuning = Tuning::read(typed).unwrap();
            assert_eq!(format!("{tuning:#}"), typed);
            assert!(!tuning.octaves_inferred());
        }
        assert_eq!(read("E2A2D3"), "E2 A2 D3");
        assert_eq!(read("C-1 G-1 C0"), "C-1 G-1 C0");
    }

    #[test]
    fn the_instrument_follows_from_the_notes() {
        for (typed, instrument) in [
            ("EADGBE", Instrument::Guitar),
            ("EADG", Instrument::Bass),
            ("G4 C4 E4 A4", Instrument::Ukulele),
            ("GDAE", Instrument::Mandolin),
            ("BEADGBE", Instrument::Guitar),
        ] {
            assert_eq!(Tuning::read(typed).unwrap().instrument(), &instrument);
        }
    }

    #[test]
    fn mistakes_point_at_the_character() {
        for (text, at, expected) in [
            ("E A x G", 5, "a note letter, A to G"),
            ("EADGBe", 6, "a capital note letter, A to G"),
            ("E A Dbbb G", 8, "at most two flats or two sharps"),
            ("E A D-G", 6, "an octave number from -1 to 9, as in E2"),
            ("E2 A2 D10", 8, "an octave number from -1 to 9, as in E2"),
            ("E2 A2 D", 7, "an octave on every note, or on none"),
            ("E2 A2 G#9", 7, "a note from C-1 to G9"),
            ("BBBBBBBBBBBB", 10, "octaves, since going up at every string leaves C-1 to G9"),
        ] {
            let Err(TuningError::Unreadable(error)) = Tuning::read(text) else {
                panic!("{text} was read");
            };
            assert_eq!((error.at(), error.expected()), (at, expected), "{text}");
        }
        assert_eq!(Tuning::read("").unwrap_err(), TuningError::StringCount(0));
        assert_eq!(Tuning::read(&"E".repeat(9999)).unwrap_err(), TuningError::StringCount(13));
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in any::<String>()) {
            let _ = Tuning::read(&text);
        }

        #[test]
        fn what_is_read_prints_and_reads_back(text in "([A-G][b#]{0,2}[0-9]? ?){3,12}") {
            if let Ok(tuning) = Tuning::read(&text) {
                let again = Tuning::read(&tuning.to_string()).unwrap();
                prop_assert!(tuning.strings().eq(again.strings()));
                let ascii = Tuning::read(&format!("{tuning:#}")).unwrap();
                prop_assert!(tuning.strings().eq(ascii.strings()));
                prop_assert!(!again.octaves_inferred());
            }
        }
    }
}
