//! Tunings: the strings of an instrument, its frets and its scale length.
//!
//! A tuning keeps *sounding* pitches with their octaves, always. Order across the neck and order
//! by pitch are different things: nothing here assumes that a higher string number sounds lower.

mod capo;
mod error;
mod instrument;
mod open_string;
mod read;

use std::fmt;

use fretloom_theory::{NamedPitch, Pitch};

use crate::{Fret, StringNumber};

pub use capo::Capo;
pub use error::TuningError;
pub use instrument::Instrument;
pub use open_string::OpenString;

/// The strings of an instrument, with frets and scale length; checked when it is made.
///
/// Prints as its strings from the highest number to string 1, as they are tuned, which
/// [`read`](Self::read) reads back (start frets, courses and a capo, which a line of notes cannot
/// say, apart).
///
/// A string may be a *course*: a principal note, which counts for order and inversion, and strings
/// that [double](Self::doublings) it, which are stopped and struck together with it.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{StringNumber, Tuning, TuningError};
/// let tuning = Tuning::read("E A D G B E").unwrap();
/// assert_eq!(tuning.to_string(), "E2 A2 D3 G3 B3 E4");
/// assert!(tuning.octaves_inferred());
/// let first = tuning.string(StringNumber::FIRST).unwrap();
/// assert_eq!(first.pitch().midi(), 64);
/// assert!(matches!(Tuning::read("E A H"), Err(TuningError::Unreadable(error)) if error.at() == 5));
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Tuning {
    id: String,
    name: String,
    instrument: Instrument,
    /// From the highest string number to string 1, as tunings are written.
    strings: Vec<OpenString>,
    /// What doubles each string, in the same order; empty where there are no courses.
    doublings: Vec<Vec<NamedPitch>>,
    capo: Capo,
    last_fret: Fret,
    scale_mm: f64,
    octaves_inferred: bool,
}

impl Tuning {
    /// The shortest scale length taken: less than a third of a soprano ukulele's, for toys.
    pub(crate) const SHORTEST_SCALE_MM: f64 = 100.0;
    /// The longest scale length taken: a double bass has about 1100 mm.
    pub(crate) const LONGEST_SCALE_MM: f64 = 1500.0;
    /// The most strings of one course: three, as in the middle of a tiple.
    pub(crate) const WIDEST_COURSE: usize = 3;

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
            doublings: Vec::new(),
            capo: Capo::NONE,
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
            self.check_height(string, open.note())
        })
    }

    /// Can a note of `string` sound at the last fret?
    fn check_height(&self, string: StringNumber, note: NamedPitch) -> Result<(), TuningError> {
        let last = self.last_fret;
        let start = self.string(string).map_or(Fret::OPEN, OpenString::starts_at);
        let frets = last.number().saturating_sub(start.number());
        match note.pitch().up(i32::from(frets)) {
            Some(_) => Ok(()),
            None => Err(TuningError::TooHigh { string, note, last }),
        }
    }

    /// The same tuning with courses: for each string, from the highest number to string 1, the
    /// notes that double it. An empty list is a single string.
    ///
    /// # Errors
    ///
    /// Where there is not one list a string, where a course has more than
    /// three strings, or sounds above G9 at the last fret.
    pub fn with_courses(self, doublings: Vec<Vec<NamedPitch>>) -> Result<Tuning, TuningError> {
        if doublings.len() != self.strings.len() {
            let (lists, strings) = (doublings.len(), self.strings.len());
            return Err(TuningError::CourseCount { lists, strings });
        }
        for ((string, _), more) in self.strings().zip(&doublings) {
            if more.len() >= Tuning::WIDEST_COURSE {
                return Err(TuningError::WideCourse { string, count: more.len() + 1 });
            }
            more.iter().try_for_each(|note| self.check_height(string, *note))?;
        }
        let single = doublings.iter().all(Vec::is_empty);
        Ok(Tuning { doublings: if single { Vec::new() } else { doublings }, ..self })
    }

    /// The same tuning under `capo` instead of the one it had; [`Capo::NONE`] takes it away.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_fretboard::{Capo, Fret, StringNumber, Tuning};
    /// let tuning = Tuning::read("EADGBE").unwrap();
    /// let capoed = tuning.clone().with_capo(Capo::full(Fret::new(3).unwrap())).unwrap();
    /// let first = capoed.string(StringNumber::FIRST).unwrap();
    /// assert_eq!(first.pitch().midi(), 67); // G4
    /// assert_eq!(capoed.to_string(), "E2 A2 D3 G3 B3 E4"); // still tuned so
    /// assert_eq!(capoed.with_capo(Capo::NONE), Ok(tuning));
    /// ```
    pub fn with_capo(self, capo: Capo) -> Result<Tuning, TuningError> {
        let (last, count) = (self.last_fret, self.strings.len());
        if capo.fret() > last {
            return Err(TuningError::CapoFret { fret: capo.fret(), last });
        }
        if let Some(strings) = capo.strings().filter(|strings| !strings.is_on(count)) {
            return Err(TuningError::CapoStrings { strings, count });
        }
        let under = |(string, open): (StringNumber, OpenString)| {
            let fret = if capo.covers(string) { capo.fret() } else { Fret::OPEN };
            open.under_capo(fret).ok_or(TuningError::TooHigh { string, note: open.note(), last })
        };
        let strings = self.strings().map(under).collect::<Result<_, _>>()?;
        // Strings without a fret to lie at are no part of a capo.
        let capo = if capo.is_none() { Capo::NONE } else { capo };
        Ok(Tuning { strings, capo, ..self })
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

    /// Its capo; [`Capo::NONE`] where there is none.
    #[must_use]
    pub const fn capo(&self) -> Capo {
        self.capo
    }

    /// Is any string a course of several?
    #[must_use]
    pub fn has_courses(&self) -> bool {
        !self.doublings.is_empty()
    }

    /// What the strings are tuned to that double a string in its course; empty for a single string.
    #[must_use]
    pub fn doublings(&self, string: StringNumber) -> &[NamedPitch] {
        let index = self.doublings.len().checked_sub(usize::from(string.number()));
        index.and_then(|index| self.doublings.get(index)).map_or(&[], Vec::as_slice)
    }

    /// What sounds when `string` is struck open: its principal, then what doubles it, all of
    /// it raised by a capo that holds the string.
    pub(crate) fn course(&self, string: StringNumber) -> impl Iterator<Item = Pitch> {
        let raised = self.string(string).map(|open| {
            let semitones = open.note().pitch().semitones_up_to(open.pitch());
            (open.note(), semitones)
        });
        raised.into_iter().flat_map(move |(principal, semitones)| {
            let notes = std::iter::once(principal).chain(self.doublings(string).iter().copied());
            notes.filter_map(move |note| note.pitch().up(semitones))
        })
    }

    /// Do the strings not rise, as tuned, from the highest number to string 1?
    #[must_use]
    pub fn is_reentrant(&self) -> bool {
        let pitches = || self.strings.iter().map(|open| open.note().pitch());
        pitches().zip(pitches().skip(1)).any(|(one, next)| next < one)
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

#[cfg(test)]
mod tests;
