//! What a minor chord does: a ii before its V, a tonic, a iv, or a degree of its home.

use super::dominant::is_backdoor;
use super::home::Home;
use super::kind::sounds_tonic;
use super::motion::{is_dominant, resolves_to, up_to};
use super::place::Place;
use crate::function::KeyDegree;
use crate::{Chord, Degree, Function, Key};

impl Place<'_> {
    pub(super) fn minor(&self) -> Function {
        let at_home = self.is_minor_tonic();
        // A minor chord written with a major sixth or seventh is a tonic: a ii rarely is.
        if at_home && sounds_tonic(self.chord) {
            return Function::TonicMinor;
        }
        if let Some(third) = self.third_before_second() {
            return third;
        }
        if let Some(next) = self.its_dominant() {
            return match self.home_by_the_back_door(next) {
                Some(home) => Function::MinorFourth { home },
                None => Function::SecondOfMajor { home: Key::major(Key::fifth_below(next.root())) },
            };
        }
        if let Some(home) = self.home_over_a_substitute() {
            return Function::SecondOfMajor { home };
        }
        if at_home {
            return Function::TonicMinor;
        }
        match self.on_degree() {
            Function::Alone if sounds_tonic(self.chord) || self.comes_from_its_fifth() => {
                Function::TonicMinor
            }
            elsewhere => elsewhere,
        }
    }

    /// The iii of a major home, before the dominant that goes on to its ii: that of a minor key, whose
    /// own ii would be half-diminished.
    fn third_before_second(&self) -> Option<Function> {
        let dominant = self.its_dominant()?;
        let second = self.then.filter(|then| resolves_to(dominant, then) && then.is_minor())?;
        let is_third = |home: &(Home, u8)| home.1 == 4 && !home.0.is_minor();
        let (home, _) = self.degree().filter(is_third)?;
        let goes_on = !sounds_tonic(second) && home.degree(second) == 2;
        let third = Function::DegreeOf { degree: KeyDegree::Third, home: home.key() };
        goes_on.then_some(third)
    }

    /// Is it the i of its home, or the goal of a dominant that is no degree of its home?
    fn is_minor_tonic(&self) -> bool {
        let of_home = self.degree().is_some_and(|(home, degree)| home.is_minor() && degree == 0);
        let sounds_so = self.comes_from_its_fifth() && sounds_tonic(self.chord);
        (of_home || sounds_so) && self.chord.is_minor()
    }

    fn comes_from_its_fifth(&self) -> bool {
        let from_fifth = |before: &Chord| is_dominant(before) && up_to(self.chord, before) == 7;
        self.chord.is_minor() && self.before.is_some_and(from_fifth)
    }

    /// The major key whose ii a chord is, before what stands in for its V.
    fn home_over_a_substitute(&self) -> Option<Key> {
        let falls = |next: &Chord| is_dominant(next) && up_to(self.chord, next) == 11;
        let tonic = self.then.filter(|_| self.after.is_some_and(falls))?;
        let comes_home = up_to(self.chord, tonic) == 10 && tonic.names(Degree::MAJOR_THIRD);
        comes_home.then(|| Key::major(tonic.root()))
    }

    /// The major key that a minor chord and the dominant after it come home to from below: its tonic
    /// follows, or the chord is the iv of its home and the dominant goes elsewhere than down a fifth.
    fn home_by_the_back_door(&self, dominant: &Chord) -> Option<Key> {
        let home = self.degree().filter(|(home, degree)| *degree == 5 && !home.is_minor());
        match self.then {
            Some(then) if is_backdoor(dominant, then) => Some(Key::major(then.root())),
            Some(then) if resolves_to(dominant, then) => None,
            _ => home.map(|(home, _)| home.key()),
        }
    }
}
