//! Which function a chord has: its neighbours are asked in a fixed order, nearest first.

use super::key_around::key_around;
use super::motion::{is_chain, is_dominant, resolves_to, up_to};
use crate::{Chord, Degree, Function, Key, PitchClass};

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
        self.after
            .and_then(|next| bound_for(self.chord, next, second))
            .or_else(|| second.map(|second| promised_by(second, self.chord)))
            .unwrap_or_else(|| self.dominant_without_goal())
    }

    fn dominant_without_goal(&self) -> Function {
        let on = |class: PitchClass| class == self.chord.root().pitch_class();
        let from_another =
            self.before.filter(|before| is_dominant(before)).map(|b| up_to(self.chord, b));
        let on_tonic = self.key.is_some_and(|key| on(key.tonic().pitch_class()));
        if on_tonic || matches!(from_another, Some(5 | 7)) {
            return Function::TonicOfBlues;
        }
        let of_key = self.key.filter(|key| on(key.tonic().pitch_class().up(7)));
        match (of_key, self.after, self.before) {
            (Some(home), ..) => Function::Dominant { home, arrives: false },
            (None, None, None) => Function::Alone,
            _ => Function::Static,
        }
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
        if let Some(next) = self.its_dominant() {
            let home = Key::minor(Key::fifth_below(next.root()));
            let is_home = |then: &Chord| on_tonic(then, home) && then.names(Degree::MINOR_THIRD);
            return Function::SecondOfMinor { home, arrives: self.then.is_some_and(is_home) };
        }
        let home = self.home.filter(|home| !home.is_minor());
        match home.map(|home| (home, degree_in(home, self.chord))) {
            Some((home, 6)) => Function::RaisedFourth { home },
            Some((home, 11)) => Function::LeadingTone { home },
            _ => Function::Alone,
        }
    }

    fn minor(&self) -> Function {
        let from_its_fifth =
            self.before.is_some_and(|before| is_dominant(before) && up_to(self.chord, before) == 7);
        let of_key = self.key.is_some_and(|key| key.is_minor() && on_tonic(self.chord, key));
        let at_home = from_its_fifth || of_key;
        // A minor chord written with a major sixth or seventh is a tonic: a ii rarely is.
        let sounds_tonic =
            self.chord.names(Degree::SIXTH) || self.chord.names(Degree::MAJOR_SEVENTH);
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

    /// What a minor or major chord does by its degree in the key, where no neighbour says more.
    fn on_degree(&self) -> Function {
        let Some(home) = self.home else { return Function::Alone };
        let minor = self.chord.names(Degree::MINOR_THIRD);
        let degree = match degree_in(home, self.chord) {
            5 if minor => return Function::MinorFourth { home },
            _ if home.is_minor() => return Function::Alone,
            0 if !minor => 1,
            2 if minor => 2,
            4 if minor => 3,
            5 => 4,
            9 if minor => 6,
            _ => return Function::Alone,
        };
        Function::DegreeOf { degree, home }
    }

    /// The dominant a fourth up, whose ii the chord is, where it comes next.
    fn its_dominant(&self) -> Option<&Chord> {
        self.after.filter(|next| is_dominant(next) && resolves_to(self.chord, next))
    }
}

/// What a dominant does by where it goes; `second` is its ii, where that stands before it.
fn bound_for(chord: &Chord, next: &Chord, second: Option<&Chord>) -> Option<Function> {
    if is_chain(chord, next) && second.is_none() {
        return Some(Function::Chain { next: next.clone() });
    }
    if resolves_to(chord, next) {
        let arrives = !is_dominant(next) || chord.is_sus();
        return Some(Function::Dominant { home: key_of(next), arrives });
    }
    if up_to(chord, next) == 11 {
        let instead_of = Key::fifth_above(next.root());
        return Some(Function::HalfStepAbove { goal: next.root(), instead_of });
    }
    let backdoor = second.is_some_and(Chord::is_minor) && is_backdoor(chord, next);
    backdoor.then(|| Function::WholeStepBelow { goal: next.root() })
}

/// A dominant after its ii, both of a key that does not follow.
fn promised_by(second: &Chord, chord: &Chord) -> Function {
    let tonic = Key::fifth_below(chord.root());
    let home = if second.is_half_diminished() { Key::minor(tonic) } else { Key::major(tonic) };
    Function::Dominant { home, arrives: false }
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
