//! What kind of chord a chord is for the ear that looks for its key.

use super::motion::is_dominant;
use crate::{Chord, Degree};

/// The kinds of chords that behave alike in a key.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    /// With a major third and no minor seventh.
    Major,
    /// A dominant seventh, suspended or not.
    Dominant,
    /// Minor, with or without its seventh.
    Minor,
    /// Minor with a major sixth or seventh.
    TonicMinor,
    /// Half-diminished.
    HalfDiminished,
    /// Diminished, with or without its seventh.
    Diminished,
    /// Without a third.
    Open,
}

impl Kind {
    pub(super) fn of(chord: &Chord) -> Kind {
        match () {
            () if is_dominant(chord) => Kind::Dominant,
            () if chord.is_half_diminished() => Kind::HalfDiminished,
            () if sounds_tonic(chord) => Kind::TonicMinor,
            () if chord.is_minor() => Kind::Minor,
            () if chord.names(Degree::MINOR_THIRD) => Kind::Diminished,
            () if chord.names(Degree::MAJOR_THIRD) => Kind::Major,
            () => Kind::Open,
        }
    }

    /// Is a chord of this kind, on the same root, the one before gone on with: does a line move in
    /// it, or a suspension or a raised fifth go where it wants to go?
    pub(super) fn goes_on(self, before: Kind, before_is_augmented: bool) -> bool {
        match (before, self) {
            (Kind::Open, Kind::Major | Kind::Minor | Kind::TonicMinor | Kind::Dominant) => true,
            (Kind::Major, Kind::Dominant) => before_is_augmented,
            (Kind::Minor | Kind::TonicMinor, Kind::Minor | Kind::TonicMinor) => true,
            (one, other) => one == other,
        }
    }
}

/// Is it written as a tonic minor: with a major sixth or seventh?
pub(super) fn sounds_tonic(chord: &Chord) -> bool {
    chord.is_minor() && (chord.names(Degree::SIXTH) || chord.names(Degree::MAJOR_SEVENTH))
}
