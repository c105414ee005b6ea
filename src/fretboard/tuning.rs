//! Tunings: the strings of an instrument, its frets and its scale length.
//!
//! A tuning keeps *sounding* pitches with their octaves, always. Order across the neck and order
//! by pitch are different things: nothing here assumes that a higher string number sounds lower.

mod instrument;
mod read;

use std::fmt;

use fretloom_theory::{NamedPitch, Pitch};

use crate::{Fret, ReadError, StringNumber};

pub use instrument::Instrument;

/// A string as it sounds when nothing stops it.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, OpenString};
/// let low_e = OpenString::new("E2".parse().unwrap());
/// assert_eq!(low_e.starts_at(), Fret::OPEN);
/// // A banjo's fifth string has its peg at the fifth fret.
/// let short = OpenString::starting_at("G4".parse().unwrap(), Fret::new(5).unwrap());
/// assert_eq!(short.pitch().midi(), 67);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OpenString {
    note: NamedPitch,
    starts_at: Fret,
}

impl OpenString {
    /// A string that begins at the nut.
    #[must_use]
    pub const fn new(note: NamedPitch) -> OpenString {
        OpenString::starting_at(note, Fret::OPEN)
    }

    /// A string that begins at `fret` of the neck: it has no place from fret 1 up to that one.
    #[must_use]
    pub const fn starting_at(note: NamedPitch, fret: Fret) -> OpenString {
        OpenString { note, starts_at: fret }
    }

    /// What it is tuned to.
    #[must_use]
    pub const fn note(self) -> NamedPitch {
        self.note
    }

    /// What it sounds as.
    #[must_use]
    pub const fn pitch(self) -> Pitch {
        self.note.pitch()
    }

    /// The fret of the neck where it begins; the nut for nearly every string.
    #[must_use]
    pub const fn starts_at(self) -> Fret {
        self.starts_at
    }
}

/// The strings of an instrument, with frets and scale length; checked when it is made.
///
/// Prints as its strings from the highest number to string 1, which
/// [`read`](Self::read) reads back (start frets, which a line of notes cannot say, apart).
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{StringNumber, Tuning};
/// let tuning = Tuning::read("E A D G B E").unwrap();
/// assert_eq!(tuning.to_string(), "E2 A2 D3 G3 B3 E4");
/// assert!(tuning.octaves_inferred());
/// let first = tuning.string(StringNumber::FIRST).unwrap();
/// assert_eq!(first.pitch().midi(), 64);
/// assert_eq!(Tuning::read("E A H").unwrap_err().at(), Some(5));
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Tuning {
    id: String,
    name: String,
    instrument: Instrument,
    /// From the highest string number to string 1, as tunings are written.
    strings: Vec<OpenString>,
    last_fret: Fret,
    scale_mm: f64,
    octaves_inferred: bool,
}

impl Tuning {
    /// The shortest scale length taken: less than a third of a soprano ukulele's, for toys.
    pub const SHORTEST_SCALE_MM: f64 = 100.0;
    /// The longest scale length taken: a double bass has about 1100 mm.
    pub const LONGEST_SCALE_MM: f64 = 1500.0;

    /// A tuning of `strings`, from the highest string number to string 1. Until it is
    /// [`named`](Self::named) it is called by its strings, and its instrument is a guitar.
    ///
    /// # Errors
    ///
    /// Where there are not 3 to 12 strings or 0 to 36 frets, where the scale length is not 100 to
    /// 1500 mm, where a string starts above the last fret, or sounds above G9 there.
    pub fn new(strings: Vec<OpenString>, frets: u32, scale_mm: f64) -> Result<Tuning, TuningError> {
        if !(3..=12).contains(&strings.len()) {
            return Err(TuningError::StringCount(strings.len()));
        }
        if !(Tuning::SHORTEST_SCALE_MM..=Tuning::LONGEST_SCALE_MM).contains(&scale_mm) {
            return Err(TuningError::ScaleLength(scale_mm));
        }
        let last_fret = u8::try_from(frets).ok().and_then(Fret::new);
        let last_fret = last_fret.ok_or(TuningError::FretCount(frets))?;
        let names: Vec<String> = strings.iter().map(|s| s.note().to_string()).collect();
        let tuning = Tuning {
            id: String::from("typed"),
            name: names.join(" "),
            instrument: Instrument::Guitar,
            strings,
            last_fret,
            scale_mm,
            octaves_inferred: false,
        };
        tuning.check_strings()?;
        Ok(tuning)
    }

    fn check_strings(&self) -> Result<(), TuningError> {
        self.strings().try_for_each(|(string, open)| {
            let start = open.starts_at();
            let last = self.last_fret;
            if start > last {
                return Err(TuningError::StartFret { string, start, last });
            }
            let frets = i32::from(last.number() - start.number());
            match open.pitch().up(frets) {
                Some(_) => Ok(()),
                None => Err(TuningError::TooHigh { string, note: open.note(), last }),
            }
        })
    }

    /// The same tuning under an id (its file's name), a name for people, and an instrument.
    #[must_use]
    pub fn named(self, id: &str, name: &str, instrument: Instrument) -> Tuning {
        Tuning { id: id.to_owned(), name: name.to_owned(), instrument, ..self }
    }

    /// What it is called in files and on the command line.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.id
    }

    /// What it is called on screens.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Which instrument it is for.
    #[must_use]
    pub fn instrument(&self) -> &Instrument {
        &self.instrument
    }

    /// How many strings, 3 to 12.
    #[must_use]
    pub fn string_count(&self) -> usize {
        self.strings.len()
    }

    /// One string; `None` beyond the last.
    #[must_use]
    pub fn string(&self, number: StringNumber) -> Option<OpenString> {
        let from_the_end = usize::from(number.number());
        let index = self.strings.len().checked_sub(from_the_end)?;
        self.strings.get(index).copied()
    }

    /// The strings with their numbers, from the highest to string 1, as tunings are written.
    pub fn strings(&self) -> impl Iterator<Item = (StringNumber, OpenString)> {
        let numbers = StringNumber::up_to(self.strings.len()).rev();
        numbers.zip(self.strings.iter().copied())
    }

    /// Its last fret, 0 for a neck without any.
    #[must_use]
    pub const fn last_fret(&self) -> Fret {
        self.last_fret
    }

    /// The length of the open strings in millimetres, nut to saddle.
    #[must_use]
    pub const fn scale_mm(&self) -> f64 {
        self.scale_mm
    }

    /// The fret of the capo; 0, since there is none yet.
    #[must_use]
    pub const fn capo(&self) -> Fret {
        Fret::OPEN
    }

    /// Was it typed without octaves, so that they had to be inferred? A screen should say so.
    #[must_use]
    pub const fn octaves_inferred(&self) -> bool {
        self.octaves_inferred
    }
}

impl fmt::Display for Tuning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.strings.iter().enumerate().try_for_each(|(index, s)| {
            f.write_str(if index == 0 { "" } else { " " })?;
            s.note().fmt(f)
        })
    }
}

/// Why there is no such tuning.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum TuningError {
    /// It was typed, and cannot be read.
    Unreadable(ReadError),
    /// This many strings, not 3 to 12.
    StringCount(usize),
    /// This many frets, not 0 to 36.
    FretCount(u32),
    /// This many millimetres, not 100 to 1500.
    ScaleLength(f64),
    /// A string begins above the last fret.
    StartFret {
        /// Which string.
        string: StringNumber,
        /// Where it should begin.
        start: Fret,
        /// The last fret of the neck.
        last: Fret,
    },
    /// A string would sound above MIDI 127 at the last fret.
    TooHigh {
        /// Which string.
        string: StringNumber,
        /// What it is tuned to.
        note: NamedPitch,
        /// The last fret of the neck.
        last: Fret,
    },
}

impl TuningError {
    /// The character of a typed tuning that is at fault, counted from 1.
    #[must_use]
    pub fn at(&self) -> Option<usize> {
        match self {
            TuningError::Unreadable(error) => Some(error.at()),
            _ => None,
        }
    }

    /// What was expected instead of what was found.
    #[must_use]
    pub fn expected(&self) -> String {
        match self {
            TuningError::Unreadable(error) => error.expected().to_owned(),
            TuningError::StringCount(count) => format!("3 to 12 strings, not {count}"),
            TuningError::FretCount(count) => format!("0 to 36 frets, not {count}"),
            TuningError::ScaleLength(mm) => {
                format!("a scale length of 100 to 1500 mm, not {mm}")
            }
            TuningError::StartFret { string, start, last } => format!(
                "string {string} to start at fret {last}, the last one, at most, not at {start}"
            ),
            TuningError::TooHigh { string, note, last } => {
                format!("string {string} lower than {note}, to sound at most G9 at fret {last}")
            }
        }
    }
}

impl From<ReadError> for TuningError {
    fn from(error: ReadError) -> TuningError {
        TuningError::Unreadable(error)
    }
}

impl fmt::Display for TuningError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TuningError::Unreadable(error) => error.fmt(f),
            _ => write!(f, "cannot use this tuning: expected {}", self.expected()),
        }
    }
}

impl std::error::Error for TuningError {}

#[cfg(test)]
mod tests {
    use super::*;

    fn strings(notes: &[&str]) -> Vec<OpenString> {
        let open = |note: &&str| OpenString::new(note.parse().unwrap());
        notes.iter().map(open).collect()
    }

    fn refusal(notes: &[&str], frets: u32, scale_mm: f64) -> String {
        let tuning = Tuning::new(strings(notes), frets, scale_mm);
        tuning.unwrap_err().to_string()
    }

    #[test]
    fn what_cannot_be_an_instrument_is_refused_in_words() {
        let three = ["G2", "D3", "G3"];
        for (said, expected) in [
            (refusal(&["G2", "D3"], 22, 648.0), "3 to 12 strings, not 2"),
            (refusal(&["E2"; 13], 22, 648.0), "3 to 12 strings, not 13"),
            (refusal(&three, 37, 648.0), "0 to 36 frets, not 37"),
            (refusal(&three, 22, 99.0), "a scale length of 100 to 1500 mm, not 99"),
            (refusal(&three, 22, f64::NAN), "a scale length of 100 to 1500 mm, not NaN"),
            (
                refusal(&["G2", "D3", "G8"], 22, 648.0),
                "string 1 lower than G8, to sound at most G9 at fret 22",
            ),
        ] {
            let expected = format!("cannot use this tuning: expected {expected}");
            assert_eq!(said, expected);
        }
    }

    #[test]
    fn a_string_cannot_start_above_the_last_fret() {
        let mut strings = strings(&["G4", "D3", "G3"]);
        strings[0] = OpenString::starting_at(strings[0].note(), Fret::new(5).unwrap());
        assert!(Tuning::new(strings.clone(), 5, 670.0).is_ok());
        assert_eq!(
            Tuning::new(strings, 4, 670.0).unwrap_err().to_string(),
            "cannot use this tuning: expected string 3 to start at fret 4, the last one, at most, \
             not at 5"
        );
    }

    #[test]
    fn a_neck_may_have_no_frets_and_the_highest_notes_are_allowed() {
        assert!(Tuning::new(strings(&["G9", "G9", "G9"]), 0, 100.0).is_ok());
        assert!(Tuning::new(strings(&["C-1", "C-1", "G6"]), 36, 1500.0).is_ok());
    }

    #[test]
    fn strings_are_found_by_number() {
        let tuning = Tuning::new(strings(&["G4", "C4", "E4", "A4"]), 15, 345.0).unwrap();
        let by_number: Vec<(u8, String)> = tuning
            .strings()
            .map(|(number, open)| (number.number(), open.note().to_string()))
            .collect();
        let expected = [(4, "G4"), (3, "C4"), (2, "E4"), (1, "A4")];
        assert_eq!(by_number, expected.map(|(n, note)| (n, note.to_owned())));
        assert_eq!(tuning.string(StringNumber::new(5).unwrap()), None);
        for (number, open) in tuning.strings() {
            assert_eq!(tuning.string(number), Some(open));
        }
    }
}
