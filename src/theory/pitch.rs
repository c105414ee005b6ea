//! Sounding notes: MIDI numbers, and names with an octave.
//!
//! Pitches here are *sounding* pitches; the guitar's written octave is a matter of staff output.

use std::fmt;
use std::str::FromStr;

use crate::{Letter, NoteName, PitchClass, ReadError};

/// A sounding note as a MIDI number, 0 to 127; 60 is middle C.
///
/// Pitches are ordered by height. The way between two is [`semitones_up_to`](Self::semitones_up_to)
/// and may be negative; adding two pitches has no meaning and does not exist.
///
/// # Example
///
/// ```
/// use fretloom_theory::Pitch;
/// let middle_c = Pitch::from_midi(60).unwrap();
/// let a = middle_c.up(9).unwrap();
/// assert_eq!(a.midi(), 69);
/// assert_eq!(a.semitones_up_to(middle_c), -9);
/// assert_eq!(Pitch::from_midi(127).unwrap().up(1), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Pitch(u8);

impl Pitch {
    /// The pitch with this MIDI number; `None` above 127.
    #[must_use]
    pub const fn from_midi(number: u8) -> Option<Pitch> {
        if number > 127 { None } else { Some(Pitch(number)) }
    }

    /// Its MIDI number.
    #[must_use]
    pub const fn midi(self) -> u8 {
        self.0
    }

    /// The pitch `semitones` higher (lower where negative); `None` outside 0 to 127.
    #[must_use]
    pub const fn up(self, semitones: i32) -> Option<Pitch> {
        let number = self.0 as i32 + semitones;
        if number < 0 || number > 127 { None } else { Some(Pitch(number as u8)) }
    }

    /// How many semitones `other` lies higher; negative where it lies lower.
    #[must_use]
    pub const fn semitones_up_to(self, other: Pitch) -> i32 {
        other.0 as i32 - self.0 as i32
    }

    /// Its class, octave forgotten.
    #[must_use]
    pub const fn pitch_class(self) -> PitchClass {
        PitchClass::new(self.0 as i32)
    }
}

/// A pitch as it is named, octave included: `E2`, `B♭3`.
///
/// The octave number belongs to the *letter*: C♭4 sounds as B3, and B♯3 as C4.
///
/// # Example
///
/// ```
/// use fretloom_theory::NamedPitch;
/// let c_flat: NamedPitch = "Cb4".parse().unwrap();
/// let b: NamedPitch = "B3".parse().unwrap();
/// assert_eq!(c_flat.pitch(), b.pitch());
/// assert!("E".parse::<NamedPitch>().is_err()); // no octave
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct NamedPitch {
    name: NoteName,
    octave: i8,
    sounds: Pitch,
}

impl NamedPitch {
    /// `name` in the octave numbered `octave`; `None` where that sounds outside MIDI 0 to 127.
    #[must_use]
    pub fn new(name: NoteName, octave: i8) -> Option<NamedPitch> {
        let letter = i32::from(name.letter().semitones_above_c());
        let number = 12 * (i32::from(octave) + 1) + letter + i32::from(name.accidental());
        let sounds = u8::try_from(number).ok().and_then(Pitch::from_midi)?;
        Some(NamedPitch { name, octave, sounds })
    }

    /// `pitch` by that name; `None` where the name sounds otherwise.
    ///
    /// ```
    /// use fretloom_theory::{NamedPitch, Pitch};
    /// let b = Pitch::from_midi(59).unwrap();
    /// let c_flat = NamedPitch::called("Cb".parse().unwrap(), b).unwrap();
    /// assert_eq!(c_flat.to_string(), "C♭4");
    /// assert_eq!(NamedPitch::called("C".parse().unwrap(), b), None);
    /// ```
    #[must_use]
    pub fn called(name: NoteName, pitch: Pitch) -> Option<NamedPitch> {
        let semitones = i32::from(name.letter().semitones_above_c()) + i32::from(name.accidental());
        let above = i32::from(pitch.midi()) - semitones;
        let octave = i8::try_from(above.div_euclid(12) - 1).ok()?;
        (above.rem_euclid(12) == 0).then_some(NamedPitch { name, octave, sounds: pitch })
    }

    /// `pitch` by its everyday name, the flat one of a black key.
    #[must_use]
    pub fn everyday(pitch: Pitch) -> NamedPitch {
        let everyday = NoteName::everyday(pitch.pitch_class()).next();
        let named = everyday.and_then(|name| NamedPitch::called(name, pitch));
        // Every class has an everyday name.
        let c = NoteName::natural(Letter::C);
        named.unwrap_or(NamedPitch { name: c, octave: 4, sounds: pitch })
    }

    /// The note without its octave.
    #[must_use]
    pub const fn name(self) -> NoteName {
        self.name
    }

    /// The number of the octave that its letter stands in.
    #[must_use]
    pub const fn octave(self) -> i8 {
        self.octave
    }

    /// What it sounds as.
    #[must_use]
    pub const fn pitch(self) -> Pitch {
        self.sounds
    }
}

impl fmt::Display for NamedPitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.name.fmt(f)?;
        write!(f, "{}", self.octave)
    }
}

impl FromStr for NamedPitch {
    type Err = ReadError;

    /// Reads a note with its octave, as in `Eb4`.
    ///
    /// # Errors
    ///
    /// Where the text does not begin with a note, where the octave is no number -1 to 9, and where
    /// the pitch is out of range.
    fn from_str(text: &str) -> Result<NamedPitch, ReadError> {
        let (name, rest) = NoteName::read_prefix(text)?;
        let at = text.chars().count() - rest.chars().count() + 1;
        let octave = rest.parse().ok().filter(|octave| (-1..=9).contains(octave));
        let error = |expected: &'static str| ReadError::at_character("note", text, at, expected);
        let octave = octave.ok_or_else(|| error("an octave number from -1 to 9, as in E2"))?;
        NamedPitch::new(name, octave).ok_or_else(|| error("a note from C-1 to G9"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn midi(text: &str) -> u8 {
        text.parse::<NamedPitch>().unwrap().pitch().midi()
    }

    /// Numbers of the MIDI specification and of an open textbook (Open Music Theory, Pitches).
    #[test]
    fn octaves_belong_to_the_letter() {
        for (text, number) in
            [("C4", 60), ("A4", 69), ("Cb4", 59), ("B#4", 72), ("C-1", 0), ("G9", 127), ("E2", 40)]
        {
            assert_eq!(midi(text), number, "{text}");
        }
    }

    #[test]
    fn a_pitch_needs_an_octave_in_range() {
        let octave = "an octave number from -1 to 9, as in E2";
        let in_range = "a note from C-1 to G9";
        for (text, expected) in
            [("E", octave), ("E10", octave), ("Ex", octave), ("G#9", in_range), ("Cb-1", in_range)]
        {
            assert_eq!(text.parse::<NamedPitch>().unwrap_err().expected(), expected, "{text}");
        }
    }

    #[test]
    fn every_pitch_has_its_everyday_name() {
        for midi in 0..=127 {
            let pitch = Pitch::from_midi(midi).unwrap();
            let named = NamedPitch::everyday(pitch);
            assert!(named.name().is_everyday());
            assert_eq!(NamedPitch::new(named.name(), named.octave()), Some(named));
        }
        assert_eq!(NamedPitch::everyday(Pitch::from_midi(61).unwrap()).to_string(), "D♭4");
    }
}
