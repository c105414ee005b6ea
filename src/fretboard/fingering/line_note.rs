//! The notes of a line, before anyone has put them on a neck.

use fretloom_theory::Pitch;

use super::note_area::NoteArea;
use crate::{Fret, Place, StringNumber};

/// One note of a line: when it begins, how long it is, and what sounds.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{LineNote, Pin, StringNumber};
/// use fretloom_theory::Pitch;
/// let c = Pitch::from_midi(60).unwrap();
/// let note = LineNote::new(0.5, 0.25, c).unwrap();
/// assert_eq!(note.pin(), Pin::default());
/// let third = StringNumber::new(3).unwrap();
/// let pinned = note.pinned(Pin { string: Some(third), fret: None });
/// assert_eq!(pinned.pin().string, Some(third));
/// assert_eq!(LineNote::new(f64::NAN, 0.25, c), None);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LineNote {
    onset_s: f64,
    duration_s: f64,
    pitch: Pitch,
    pin: Pin,
    area: NoteArea,
}

impl LineNote {
    /// A note that may be played anywhere; `None` where a time is negative or not finite.
    #[must_use]
    pub fn new(onset_s: f64, duration_s: f64, pitch: Pitch) -> Option<LineNote> {
        let is_time = |seconds: f64| seconds.is_finite() && seconds >= 0.0;
        (is_time(onset_s) && is_time(duration_s)).then_some(LineNote {
            onset_s,
            duration_s,
            pitch,
            pin: Pin::default(),
            area: NoteArea::default(),
        })
    }

    /// The same note, to be played where `pin` says.
    #[must_use]
    pub const fn pinned(mut self, pin: Pin) -> LineNote {
        self.pin = pin;
        self
    }

    /// The same note, to be played in this part of the neck.
    #[must_use]
    pub const fn within(mut self, area: NoteArea) -> LineNote {
        self.area = area;
        self
    }

    /// When it begins, in seconds from the beginning of the line.
    #[must_use]
    pub const fn onset_s(&self) -> f64 {
        self.onset_s
    }

    /// How long it sounds, in seconds.
    #[must_use]
    pub const fn duration_s(&self) -> f64 {
        self.duration_s
    }

    /// What sounds.
    #[must_use]
    pub const fn pitch(&self) -> Pitch {
        self.pitch
    }

    /// Where the player wants it.
    #[must_use]
    pub const fn pin(&self) -> Pin {
        self.pin
    }

    /// In which part of the neck it is to be played.
    #[must_use]
    pub const fn area(&self) -> NoteArea {
        self.area
    }
}

/// Where a player wants a note: a string, a fret, both, or anywhere.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Pin {
    /// On this string.
    pub string: Option<StringNumber>,
    /// At this fret.
    pub fret: Option<Fret>,
}

impl Pin {
    /// Does it leave `place` open?
    #[must_use]
    pub fn allows(self, place: Place) -> bool {
        self.string.is_none_or(|string| string == place.string)
            && self.fret.is_none_or(|fret| fret == place.fret)
    }
}
