//! A chord and what its function depends on. Its neighbours are asked in a fixed order, nearest first,
//! then its home.

use super::home::Home;
use super::kind::sounds_tonic;
use super::motion::{is_dominant, resolves_to, up_to};
use crate::function::{Arrival, KeyDegree};
use crate::{Chord, Degree, Function, Key};

/// A chord among its neighbours.
pub(super) struct Place<'a> {
    pub(super) chord: &'a Chord,
    pub(super) before: Option<&'a Chord>,
    pub(super) after: Option<&'a Chord>,
    /// The chord after the next.
    pub(super) then: Option<&'a Chord>,
    /// The key of the tune, where it is known.
    pub(super) key: Option<Key>,
    /// The key that the chords speak for.
    pub(super) home: Option<Home>,
}

impl Place<'_> {
    /// What the chord does.
    pub(super) fn function(&self) -> Function {
        let chord = self.chord;
        match () {
            () if is_dominant(chord) => self.dominant(),
            () if chord.names(Degree::DIMINISHED_SEVENTH) => self.diminished(),
            () if chord.is_half_diminished() => self.half_diminished(),
            () if chord.names(Degree::MINOR_THIRD) => self.minor(),
            () => self.major(),
        }
    }

    /// How many semitones above the tonic of its home it stands.
    pub(super) fn degree(&self) -> Option<(Home, u8)> {
        self.home.map(|home| (home, home.degree(self.chord)))
    }

    /// A major chord, by its degree; where it has none, the goal of the dominant before it.
    fn major(&self) -> Function {
        if let Some(fifth) = self.fourth_over_fifth() {
            return fifth;
        }
        let is_goal =
            |before: &Chord| is_dominant(before) && matches!(up_to(before, self.chord), 2 | 5 | 11);
        match self.on_degree() {
            Function::Alone if is_tonic_major(self.chord) && self.before.is_some_and(is_goal) => {
                Function::DegreeOf { degree: KeyDegree::First, home: key_of(self.chord) }
            }
            function => function,
        }
    }

    /// A major triad over the note a whole step above its root, where that is the V of what follows or of
    /// its home.
    fn fourth_over_fifth(&self) -> Option<Function> {
        let root = self.chord.root().pitch_class();
        let bass =
            self.chord.bass().filter(|bass| root.semitones_up_to(bass.pitch_class()) == 2)?;
        if self.chord.names(Degree::MINOR_SEVENTH) || self.chord.names(Degree::SHARP_FIFTH) {
            return None;
        }
        let tonic = Key::fifth_below(bass);
        let follows = |next: &&Chord| next.root().pitch_class() == tonic.pitch_class();
        if let Some(next) = self.after.filter(follows) {
            let arrival = Arrival::Follows;
            return Some(Function::FourthOverFifth { home: key_of(next), arrival });
        }
        let home = self.degree().filter(|(_, degree)| *degree == 5).map(|(home, _)| home.key())?;
        let arrival = self.in_place_of(home).unwrap_or_else(|| self.arrival_at(home));
        Some(Function::FourthOverFifth { home, arrival })
    }

    fn diminished(&self) -> Function {
        let Some(next) = self.after else { return Function::Alone };
        let bass = next.bass().unwrap_or(next.root()).pitch_class();
        let up_to_bass = self.chord.root().pitch_class().semitones_up_to(bass);
        match (up_to_bass, up_to(self.chord, next)) {
            (up @ (1 | 11), _) => Function::Passing { next: next.clone(), up: up == 1 },
            (_, 0) => Function::CommonRoot { next: next.clone() },
            // Each of its four notes may be its root: that of the next chord is one of them.
            (_, 3 | 6 | 9) if next.names(Degree::MAJOR_THIRD) => {
                Function::CommonRoot { next: next.clone() }
            }
            _ => Function::Alone,
        }
    }

    fn half_diminished(&self) -> Function {
        if let Some(second) = self.second_of_minor() {
            return second;
        }
        match self.degree().map(|(home, degree)| (home.key(), home.is_minor(), degree)) {
            Some((home, true, 2)) => Function::SecondOfMinor { home, arrival: Arrival::Expected },
            Some((home, false, 6)) => Function::RaisedFourth { home },
            Some((home, false, 11)) => Function::LeadingTone { home },
            _ => Function::Alone,
        }
    }

    /// The ii of a minor key: before its V or what stands in for that, or right before its tonic.
    fn second_of_minor(&self) -> Option<Function> {
        let is_home = |then: &Chord, home| on_tonic(then, home) && then.is_minor();
        let of_key = |home| self.key.is_some_and(|key| is_same(key, home));
        if let Some(home) = self.its_dominant().map(|next| Key::fifth_below(next.root())) {
            let home = Key::minor(home);
            let arrival = match self.then {
                Some(then) if is_home(then, home) => Arrival::Follows,
                Some(_) if !of_key(home) => Arrival::FailsToCome,
                _ => Arrival::Expected,
            };
            return Some(Function::SecondOfMinor { home, arrival });
        }
        let over_substitute =
            self.after.filter(|next| is_dominant(next) && up_to(self.chord, next) == 11);
        let tonic = match over_substitute {
            Some(_) => self.then.filter(|then| then.is_minor()),
            None => self.after.filter(|next| sounds_tonic(next) || of_key(Key::minor(next.root()))),
        };
        let home = Key::minor(tonic.filter(|next| up_to(self.chord, next) == 10)?.root());
        is_home(tonic?, home).then_some(Function::SecondOfMinor { home, arrival: Arrival::Follows })
    }

    /// The dominant a fourth up, whose ii the chord is, where it comes next.
    pub(super) fn its_dominant(&self) -> Option<&Chord> {
        self.after.filter(|next| is_dominant(next) && resolves_to(self.chord, next))
    }

    /// Whether a home is to be expected after this dominant, where it does not come next.
    pub(super) fn arrival_at(&self, home: Key) -> Arrival {
        let open = self.after.is_none() || self.key.is_some_and(|key| is_same(key, home));
        if open { Arrival::Expected } else { Arrival::FailsToCome }
    }

    /// The chord that comes in place of a tonic: after a dominant of a major key its iii or vi, of a
    /// minor key its ♭VI.
    pub(super) fn in_place_of(&self, home: Key) -> Option<Arrival> {
        let next = self.after?;
        let degree = home.tonic().pitch_class().semitones_up_to(next.root().pitch_class());
        match (home.is_minor(), degree) {
            (false, 4) if next.is_minor() => Some(Arrival::InPlace(KeyDegree::Third)),
            (false, 9) if next.is_minor() => Some(Arrival::InPlace(KeyDegree::Sixth)),
            (true, 8) if next.names(Degree::MAJOR_THIRD) && !is_dominant(next) => {
                Some(Arrival::InPlace(KeyDegree::Sixth))
            }
            _ => None,
        }
    }
}

/// The key whose tonic the chord would be: minor for a minor or half-diminished one.
pub(super) fn key_of(tonic: &Chord) -> Key {
    if tonic.is_minor() || tonic.is_half_diminished() {
        return Key::minor(tonic.root());
    }
    Key::major(tonic.root())
}

/// Is it written as a major chord that can rest: with a major seventh or a sixth?
pub(super) fn is_tonic_major(chord: &Chord) -> bool {
    chord.names(Degree::MAJOR_THIRD)
        && (chord.names(Degree::SIXTH) || chord.names(Degree::MAJOR_SEVENTH))
}

/// Does a chord stand on the tonic of a key?
pub(super) fn on_tonic(chord: &Chord, key: Key) -> bool {
    key.tonic().pitch_class() == chord.root().pitch_class()
}

/// Is it the tonic chord of a key?
pub(super) fn is_tonic(chord: &Chord, key: Key) -> bool {
    on_tonic(chord, key) && chord.is_minor() == key.is_minor() && !is_dominant(chord)
}

/// Do two keys sound the same, however their tonics are spelled?
fn is_same(one: Key, other: Key) -> bool {
    one.is_minor() == other.is_minor() && one.tonic().pitch_class() == other.tonic().pitch_class()
}
