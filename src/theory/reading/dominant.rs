//! What a dominant does: by where it goes, then by the ii before it, then by its home.

use super::home::{Home, Mode};
use super::kind::sounds_tonic;
use super::motion::{is_chain, is_dominant, resolves_to, up_to};
use super::place::{Place, is_tonic_major, key_of};
use crate::function::{Arrival, KeyDegree};
use crate::{Chord, Degree, Function, Key};

impl Place<'_> {
    pub(super) fn dominant(&self) -> Function {
        let second = self.second();
        self.of_blues(second)
            .or_else(|| self.bound_for(self.after?, second))
            .or_else(|| self.back_door(second))
            .or_else(|| self.up_a_half_step())
            .or_else(|| self.above_the_next_dominant(second))
            .or_else(|| self.back_door_elsewhere(second?))
            .or_else(|| Some(self.promised_by(second?)))
            .unwrap_or_else(|| self.dominant_without_goal())
    }

    /// The ii of a dominant stands a fifth above it.
    fn second(&self) -> Option<&Chord> {
        let is_second =
            |before: &&Chord| up_to(self.chord, before) == 7 && before.names(Degree::MINOR_THIRD);
        self.before.filter(is_second)
    }

    /// The tonic of a blues, and its IV, which fall a fifth or a half step without being bound for
    /// anything; with a ii before it even the tonic goes to the IV as its V.
    fn of_blues(&self, second: Option<&Chord>) -> Option<Function> {
        let (home, degree) = self.degree().filter(|(home, _)| home.mode() == Mode::Blues)?;
        match degree {
            0 if second.is_none() => Some(Function::TonicOfBlues),
            5 if !self.after.is_some_and(|next| resolves_to(self.chord, next)) => {
                Some(Function::FourthOfBlues { tonic: home.key().tonic() })
            }
            _ => None,
        }
    }

    /// A dominant a half step above the next one, whose ii comes between them, on a degree where the
    /// home has no dominant of its own. After a half-diminished ii it is the V that this promised.
    fn above_the_next_dominant(&self, own_second: Option<&Chord>) -> Option<Function> {
        if own_second.is_some_and(Chord::is_half_diminished) {
            return None;
        }
        let (second, goal) = (self.after?, self.then?);
        let falls = is_dominant(goal) && up_to(self.chord, goal) == 11;
        let comes_between = up_to(second, goal) == 5 && second.names(Degree::MINOR_THIRD);
        let of_key = self.degree().is_some_and(|(_, degree)| !matches!(degree, 1 | 3 | 6 | 8));
        (falls && comes_between && !of_key).then(|| half_step_above(goal))
    }

    /// Does the same root go on as a minor chord, so that it was bound for nothing?
    fn turns_minor(&self) -> bool {
        self.after.is_some_and(|next| up_to(self.chord, next) == 0 && next.is_minor())
    }

    fn dominant_without_goal(&self) -> Function {
        let alone = self.before.is_none() && self.after.is_none();
        let Some((home, degree)) = self.degree() else {
            return if alone { Function::Alone } else { Function::Static };
        };
        let key = home.key();
        match (degree, home.is_minor()) {
            (0, false) if home.mode() == Mode::Blues || self.key.is_some() => {
                Function::TonicOfBlues
            }
            (5, false) if home.mode() == Mode::Blues || self.key.is_some() => {
                Function::FourthOfBlues { tonic: key.tonic() }
            }
            (7, _) if !self.turns_minor() && (!self.chord.is_sus() || !home.is_minor()) => {
                let arrival = self.in_place_of(key).unwrap_or_else(|| self.arrival_at(key));
                Function::Dominant { home: key, arrival }
            }
            (10, true) if KeyDegree::Seventh.holds(self.chord, key) => {
                Function::DegreeOf { degree: KeyDegree::Seventh, home: key }
            }
            _ if alone => Function::Alone,
            _ => Function::Static,
        }
    }

    /// What a dominant does by where it goes; `second` is its ii, where that stands before it.
    fn bound_for(&self, next: &Chord, second: Option<&Chord>) -> Option<Function> {
        let chord = self.chord;
        let from_minor = second.is_some_and(Chord::is_half_diminished);
        if is_chain(chord, next) && !from_minor {
            return Some(Function::Chain { next: next.clone() });
        }
        if resolves_to(chord, next) {
            let home = key_of(next);
            if !home.is_minor() && from_minor {
                return Some(Function::DominantFromMinor { home });
            }
            let arrival = match () {
                () if is_dominant(next) && !chord.is_sus() => self.arrival_at(home),
                () if !from_minor && self.goal_is_second(next) => Arrival::FollowsAsSecond,
                () => Arrival::Follows,
            };
            return Some(Function::Dominant { home, arrival });
        }
        // After a half-diminished ii it is the V that its ii has promised, wherever it goes.
        (up_to(chord, next) == 11 && !from_minor).then(|| half_step_above(next))
    }

    /// Is the chord that it goes to a ii, which goes on to its own dominant or what stands in for that?
    fn goal_is_second(&self, goal: &Chord) -> bool {
        let goes_on = |then: &Chord| is_dominant(then) && matches!(up_to(goal, then), 5 | 11);
        goal.is_minor() && !sounds_tonic(goal) && self.then.is_some_and(goes_on)
    }

    /// A dominant that goes up a whole step to a major tonic, or to the iii in its place: after its
    /// ii, where that tonic is its home, or where what comes is written as a chord to rest on and the
    /// dominant is not the V of its home.
    fn back_door(&self, second: Option<&Chord>) -> Option<Function> {
        let next = self.after?;
        let of_home = |home: &(Home, u8)| home.1 == 10 && !home.0.is_minor();
        let home = self.degree().filter(of_home).map(|(home, _)| home.key());
        let from_minor = second.filter(|second| second.is_minor());
        let is_fifth = self.degree().is_some_and(|(_, degree)| degree == 7);
        let rests = is_tonic_major(next) && !is_fifth;
        if is_backdoor(self.chord, next) && (home.is_some() || from_minor.is_some() || rests) {
            return Some(Function::BackDoor { home: key_of(next), arrival: Arrival::Follows });
        }
        let home = home?;
        let arrival = self.in_place_of(home)?;
        Some(Function::BackDoor { home, arrival })
    }

    /// The V of a minor chord of a major home, with the major chord of that home in place of its goal that
    /// is a half step above it: the IV in place of the vi, the I in place of the iii.
    fn up_a_half_step(&self) -> Option<Function> {
        let next = self.after.filter(|next| up_to(self.chord, next) == 1)?;
        let (_, degree) = self.degree().filter(|(home, _)| !home.is_minor())?;
        let home = Key::minor(Key::fifth_below(self.chord.root()));
        let leads = matches!(degree, 4 | 11) && !self.chord.is_sus() && !is_dominant(next);
        let arrival = self.in_place_of(home)?;
        leads.then_some(Function::Dominant { home, arrival })
    }

    /// A dominant after the iv of a major home, which has borrowed both and goes on elsewhere.
    fn back_door_elsewhere(&self, fourth: &Chord) -> Option<Function> {
        let is_borrowed = |home: &(Home, u8)| home.1 == 10 && !home.0.is_minor();
        let (home, _) = self.degree().filter(is_borrowed).filter(|_| fourth.is_minor())?;
        let arrival = self.arrival_at(home.key());
        Some(Function::BackDoor { home: home.key(), arrival })
    }

    /// A dominant after its ii, both of a key whose tonic does not come next.
    fn promised_by(&self, second: &Chord) -> Function {
        let tonic = Key::fifth_below(self.chord.root());
        let home = if second.is_half_diminished() { Key::minor(tonic) } else { Key::major(tonic) };
        let arrival = self.in_place_of(home).unwrap_or_else(|| self.arrival_at(home));
        Function::Dominant { home, arrival }
    }
}

fn half_step_above(goal: &Chord) -> Function {
    Function::HalfStepAbove { goal: goal.root(), instead_of: Key::fifth_above(goal.root()) }
}

/// Does a dominant go up a whole step to a major chord?
pub(super) fn is_backdoor(dominant: &Chord, next: &Chord) -> bool {
    up_to(dominant, next) == 2
        && next.names(Degree::MAJOR_THIRD)
        && !next.names(Degree::MINOR_SEVENTH)
}
