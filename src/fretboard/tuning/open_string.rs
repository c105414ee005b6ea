//! Open strings.

use fretloom_theory::{NamedPitch, Pitch};

use crate::Fret;

/// A string as it sounds when no finger stops it.
///
/// It is tuned to a [`note`](Self::note) and begins at a fret, the nut for nearly every string.
/// A capo above that moves both up: the string then sounds its [`pitch`](Self::pitch) from the
/// fret it [`sounds_from`](Self::sounds_from).
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
    /// The fret of the capo where one lies on this string, above its start or not; 0 for none.
    capo: Fret,
    pitch: Pitch,
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
        OpenString { note, starts_at: fret, capo: Fret::OPEN, pitch: note.pitch() }
    }

    /// The same string under a capo at `fret`, whatever capo lay there before; `None` where it
    /// would sound above G9.
    pub(super) fn under_capo(self, fret: Fret) -> Option<OpenString> {
        let raised = fret.number().saturating_sub(self.starts_at.number());
        let pitch = self.note.pitch().up(i32::from(raised))?;
        Some(OpenString { capo: fret, pitch, ..self })
    }

    /// What it is tuned to; a capo does not change that.
    #[must_use]
    pub const fn note(self) -> NamedPitch {
        self.note
    }

    /// What it sounds as: behind a capo, higher than its note.
    #[must_use]
    pub const fn pitch(self) -> Pitch {
        self.pitch
    }

    /// The fret of the neck where it begins; the nut for nearly every string.
    #[must_use]
    pub const fn starts_at(self) -> Fret {
        self.starts_at
    }

    /// The fret of the neck that it sounds from: its start, or the capo where that lies higher. It
    /// has no place from fret 1 up to that one.
    #[must_use]
    pub fn sounds_from(self) -> Fret {
        self.starts_at.max(self.capo)
    }

    /// Does a capo hold it down? A capo below the peg of a short string does not.
    #[must_use]
    pub fn is_behind_capo(self) -> bool {
        self.capo > self.starts_at
    }
}
