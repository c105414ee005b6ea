//! Which function a chord has: its neighbours are asked in a fixed order, nearest first.

use super::key_around::key_around;
use super::motion::{is_chain, is_dominant, resolves_to, up_to};
use crate::function::{Arrival, KeyDegree};
use crate::{Chord, Degree, Function, Key, ScaleKind, fits};

impl Function {
    /// The function of the chord at `index`.
    pub(super) fn of(chords: &[&Chord], index: usize, key: Option<Key>) -> Option<Function> {
        let at = |index: usize| chords.get(index).copied();
        let chord = at(index)?;
        let place = Place {
            chord,
            before: index.checked_sub(1).and_then(at),
            after: at(index + 1),
            then: at(index + 2),
            key,
            home: key.or_else(|| key_around(chords, index)),
        };
        Some(match () {
            () if is_dominant(chord) => place.dominant(),
            () if chord.names(Degree::DIMINISHED_SEVENTH) => place.diminished(),
            () if chord.is_half_diminished() => place.half_diminished(),
            () if chord.names(Degree::MINOR_THIRD) => place.minor(),
            () => place.on_degree(),
        })
    }
}

/// A chord and what its function depends on.
struct Place<'a> {
    chord: &'a Chord,
    before: Option<&'a Chord>,
    after: Option<&'a Chord>,
    /// The chord after the next.
    then: Option<&'a Chord>,
    /// The key of the tune, where it is known.
    key: Option<Key>,
    /// That key, else the one that the chords speak for.
    home: Option<Key>,
}

impl Place<'_> {
    fn dominant(&self) -> Function {
        // The ii of a dominant stands a fifth above it.
        let is_second =
            |before: &&Chord| up_to(self.chord, before) == 7 && before.names(Degree::MINOR_THIRD);
        let second = self.before.filter(is_second);
        if self.begins_a_blues() {
            return Function::TonicOfBlues;
        }
        self.after
            .and_then(|next| self.bound_for(next, second))
            .or_else(|| second.map(|second| self.promised_by(second)))
            .unwrap_or_else(|| self.dominant_without_goal())
    }

    /// Is it the tonic of the tune, written as a dominant, before the IV of a blues?
    fn begins_a_blues(&self) -> bool {
        let on_tonic = self.key.is_some_and(|key| on_tonic(self.chord, key));
        on_tonic && self.after.is_some_and(|next| is_chain(self.chord, next))
    }

    fn dominant_without_goal(&self) -> Function {
        let up_to_dominant = |other: Option<&Chord>| {
            other.filter(|other| is_dominant(other)).map(|other| up_to(self.chord, other))
        };
        let (before, after) = (up_to_dominant(self.before), up_to_dominant(self.after));
        match self.key.map(|key| (key, degree_in(key, self.chord))) {
            Some((_, 0)) => return Function::TonicOfBlues,
            Some((key, 5)) if !key.is_minor() => {
                return Function::FourthOfBlues { tonic: key.tonic() };
            }
            Some((home, 7)) => return Function::Dominant { home, arrival: self.arrival_at(home) },
            Some((home, 10)) if home.is_minor() && KeyDegree::Seventh.holds(self.chord, home) => {
                return Function::DegreeOf { degree: KeyDegree::Seventh, home };
            }
            _ => {}
        }
        match (before, after, self.after) {
            (Some(5), ..) => Function::TonicOfBlues,
            // I7 IV7 I7, or V7 IV7 I7.
            (Some(_), Some(7), Some(tonic)) => Function::FourthOfBlues { tonic: tonic.root() },
            (Some(7), ..) => Function::TonicOfBlues,
            _ if self.before.is_none() && self.after.is_none() => Function::Alone,
            _ => Function::Static,
        }
    }

    /// What a dominant does by where it goes; `second` is its ii, where that stands before it.
    fn bound_for(&self, next: &Chord, second: Option<&Chord>) -> Option<Function> {
        let chord = self.chord;
        if is_chain(chord, next) && second.is_none() {
            return Some(Function::Chain { next: next.clone() });
        }
        if resolves_to(chord, next) {
            let home = key_of(next);
            if !home.is_minor() && second.is_some_and(Chord::is_half_diminished) {
                return Some(Function::DominantFromMinor { home });
            }
            let follows = !is_dominant(next) || chord.is_sus();
            let arrival = if follows { Arrival::Follows } else { self.arrival_at(home) };
            return Some(Function::Dominant { home, arrival });
        }
        if up_to(chord, next) == 11 {
            let instead_of = Key::fifth_above(next.root());
            return Some(Function::HalfStepAbove { goal: next.root(), instead_of });
        }
        let backdoor = second.is_some_and(Chord::is_minor) && is_backdoor(chord, next);
        backdoor.then(|| Function::WholeStepBelow { goal: next.root() })
    }

    /// A dominant after its ii, both of a key whose tonic does not come next.
    fn promised_by(&self, second: &Chord) -> Function {
        let tonic = Key::fifth_below(self.chord.root());
        let home = if second.is_half_diminished() { Key::minor(tonic) } else { Key::major(tonic) };
        Function::Dominant { home, arrival: self.arrival_at(home) }
    }

    /// Whether a home is to be expected after this dominant, where it does not come next.
    fn arrival_at(&self, home: Key) -> Arrival {
        let open = self.after.is_none() || self.key.is_some_and(|key| is_same(key, home));
        if open { Arrival::Expected } else { Arrival::FailsToCome }
    }

    fn diminished(&self) -> Function {
        let Some(next) = self.after else { return Function::Alone };
        match up_to(self.chord, next) {
            0 => Function::CommonRoot { next: next.clone() },
            1 => Function::Passing { next: next.clone(), up: true },
            11 => Function::Passing { next: next.clone(), up: false },
            _ => Function::Alone,
        }
    }

    fn half_diminished(&self) -> Function {
        if let Some(second) = self.second_of_minor() {
            return second;
        }
        match self.home.map(|home| (home, home.is_minor(), degree_in(home, self.chord))) {
            Some((home, true, 2)) => Function::SecondOfMinor { home, arrival: Arrival::Expected },
            Some((home, false, 6)) => Function::RaisedFourth { home },
            Some((home, false, 11)) => Function::LeadingTone { home },
            _ => Function::Alone,
        }
    }

    /// The ii of a minor key: before its V, or right before its tonic.
    fn second_of_minor(&self) -> Option<Function> {
        let is_home = |then: &Chord, home| on_tonic(then, home) && then.is_minor();
        if let Some(next) = self.its_dominant() {
            let home = Key::minor(Key::fifth_below(next.root()));
            let of_key = self.key.is_some_and(|key| is_same(key, home));
            let arrival = match self.then {
                Some(then) if is_home(then, home) => Arrival::Follows,
                Some(_) if !of_key => Arrival::FailsToCome,
                _ => Arrival::Expected,
            };
            return Some(Function::SecondOfMinor { home, arrival });
        }
        let tonic = self.after.filter(|next| up_to(self.chord, next) == 10)?;
        let home = Key::minor(tonic.root());
        let of_key = self.key.is_some_and(|key| is_same(key, home));
        (is_home(tonic, home) && (of_key || sounds_tonic(tonic)))
            .then_some(Function::SecondOfMinor { home, arrival: Arrival::Follows })
    }

    fn minor(&self) -> Function {
        let from_its_fifth =
            self.before.is_some_and(|before| is_dominant(before) && up_to(self.chord, before) == 7);
        let of_key = self.key.is_some_and(|key| key.is_minor() && on_tonic(self.chord, key));
        let at_home = (from_its_fifth || of_key) && self.chord.is_minor();
        // A minor chord written with a major sixth or seventh is a tonic: a ii rarely is.
        let sounds_tonic = sounds_tonic(self.chord);
        if at_home && sounds_tonic {
            return Function::TonicMinor;
        }
        if let Some(next) = self.its_dominant() {
            return match self.then.filter(|then| is_backdoor(next, then)) {
                Some(then) => Function::MinorFourth { home: Key::major(then.root()) },
                None => Function::SecondOfMajor { home: Key::major(Key::fifth_below(next.root())) },
            };
        }
        if at_home {
            return Function::TonicMinor;
        }
        match self.on_degree() {
            Function::Alone if sounds_tonic => Function::TonicMinor,
            elsewhere => elsewhere,
        }
    }

    /// What a chord that is no dominant does by its degree in the key, where no neighbour says more.
    fn on_degree(&self) -> Function {
        let Some(home) = self.home else { return Function::Alone };
        let minor = self.chord.names(Degree::MINOR_THIRD);
        match degree_in(home, self.chord) {
            0 if home.is_minor() && self.chord.is_minor() => return Function::TonicMinor,
            5 if minor => return Function::MinorFourth { home },
            7 if self.may_be_fifth(home) => {
                let follows = self.after.is_some_and(|next| is_home(next, home));
                let arrival = if follows { Arrival::Follows } else { Arrival::Expected };
                return Function::Dominant { home, arrival };
            }
            _ => {}
        }
        let degree = KeyDegree::at(degree_in(home, self.chord), home);
        let degree = degree.filter(|degree| degree.holds(self.chord, home));
        match degree {
            Some(degree) => Function::DegreeOf { degree, home },
            None => self.fifth_of_a_degree(home).unwrap_or(Function::Alone),
        }
    }

    /// Can a chord without a seventh be the V of a key: does its scale hold what is written?
    fn may_be_fifth(&self, home: Key) -> bool {
        let root = self.chord.root().pitch_class();
        let minor_third = self.chord.names(Degree::MINOR_THIRD);
        let scale = if home.is_minor() {
            // A chord without its third is the v of natural minor as well.
            if !self.chord.names(Degree::MAJOR_THIRD) {
                return false;
            }
            &ScaleKind::MIXOLYDIAN_FLAT_6
        } else {
            &ScaleKind::MIXOLYDIAN
        };
        !minor_third && fits(self.chord, scale.set_over(root))
    }

    /// A major chord that is foreign to the key and falls a fifth to a chord of the key is its V.
    fn fifth_of_a_degree(&self, home: Key) -> Option<Function> {
        let next = self.after.filter(|next| resolves_to(self.chord, next))?;
        KeyDegree::at(degree_in(home, next), home)?;
        let triad = self.chord.names(Degree::MAJOR_THIRD)
            && !self.chord.names(Degree::MAJOR_SEVENTH)
            && !self.chord.names(Degree::SHARP_FIFTH);
        triad.then(|| Function::Dominant { home: key_of(next), arrival: Arrival::Follows })
    }

    /// The dominant a fourth up, whose ii the chord is, where it comes next.
    fn its_dominant(&self) -> Option<&Chord> {
        self.after.filter(|next| is_dominant(next) && resolves_to(self.chord, next))
    }
}

/// Does a dominant go up a whole step to a major chord?
fn is_backdoor(dominant: &Chord, next: &Chord) -> bool {
    up_to(dominant, next) == 2
        && next.names(Degree::MAJOR_THIRD)
        && !next.names(Degree::MINOR_SEVENTH)
}

/// The key whose tonic the chord would be: minor for a minor or half-diminished one.
fn key_of(tonic: &Chord) -> Key {
    if tonic.is_minor() || tonic.is_half_diminished() {
        return Key::minor(tonic.root());
    }
    Key::major(tonic.root())
}

/// Semitones from a tonic up to the root of a chord.
fn degree_in(home: Key, chord: &Chord) -> u8 {
    home.tonic().pitch_class().semitones_up_to(chord.root().pitch_class())
}

fn on_tonic(chord: &Chord, key: Key) -> bool {
    degree_in(key, chord) == 0
}

/// Is it written as a tonic minor: with a major sixth or seventh?
fn sounds_tonic(chord: &Chord) -> bool {
    chord.is_minor() && (chord.names(Degree::SIXTH) || chord.names(Degree::MAJOR_SEVENTH))
}

/// Is it the tonic chord of a key?
fn is_home(chord: &Chord, key: Key) -> bool {
    on_tonic(chord, key) && chord.is_minor() == key.is_minor() && !is_dominant(chord)
}

/// Do two keys sound the same, however their tonics are spelled?
fn is_same(one: Key, other: Key) -> bool {
    one.is_minor() == other.is_minor() && one.tonic().pitch_class() == other.tonic().pitch_class()
}
