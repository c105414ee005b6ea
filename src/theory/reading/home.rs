//! Where chords are at home.

use crate::{Chord, Key, NoteName, PitchClass};

/// A key as chords speak for it: in a blues the tonic itself is a dominant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Home {
    key: Key,
    mode: Mode,
}

/// What the chords of a home are like.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Mode {
    Major,
    Minor,
    Blues,
}

impl Mode {
    pub(super) const ALL: [Mode; 3] = [Mode::Major, Mode::Minor, Mode::Blues];
}

impl Home {
    /// The home on a tonic, named as the tune's key is where that is the same, else on the flat or
    /// sharp side on which a chord stands.
    pub(super) fn on(tonic: PitchClass, mode: Mode, near: &Chord, key: Option<Key>) -> Home {
        let named = key.map(Key::tonic).filter(|name| name.pitch_class() == tonic);
        let name = named.unwrap_or_else(|| name(tonic, near.root()));
        let key = if mode == Mode::Minor { Key::minor(name) } else { Key::major(name) };
        Home { key, mode }
    }

    pub(super) fn key(self) -> Key {
        self.key
    }

    pub(super) fn mode(self) -> Mode {
        self.mode
    }

    pub(super) fn is_minor(self) -> bool {
        self.mode == Mode::Minor
    }

    /// Semitones from the tonic up to the root of a chord.
    pub(super) fn degree(self, chord: &Chord) -> u8 {
        self.key.tonic().pitch_class().semitones_up_to(chord.root().pitch_class())
    }
}

/// A tonic's name: on the flat or sharp side on which the chord stands.
fn name(tonic: PitchClass, near: NoteName) -> NoteName {
    let mut names: Vec<NoteName> = NoteName::everyday(tonic).collect();
    if near.accidental() > 0 {
        names.reverse();
    }
    names.first().copied().unwrap_or(near)
}
