//! The chords of a tune, each that goes on standing once.

use super::home::Home;
use super::homes::homes;
use super::kind::Kind;
use super::motion::up_to;
use super::place::Place;
use crate::{Chord, Degree, Function, Key};

/// The chords of a tune with their homes.
///
/// Chords on one root that follow one another are one where nothing but a line moves in them: a
/// suspension or a raised fifth goes to its own chord, a minor chord changes its seventh, however
/// often the writer alters it on the way.
pub(super) struct Progression<'a> {
    tune: &'a [Chord],
    stands: Vec<Stand<'a>>,
    /// Which of them each chord of the tune belongs to.
    places: Vec<usize>,
    homes: Vec<Option<Home>>,
    key: Option<Key>,
}

/// A chord for as long as it goes on, by its first and its last symbol.
struct Stand<'a> {
    first: &'a Chord,
    last: &'a Chord,
}

impl Stand<'_> {
    /// The chord that stands for it: of a dominant the last, which is what it goes to.
    fn chord(&self) -> &Chord {
        if Kind::of(self.last) == Kind::Dominant { self.last } else { self.first }
    }

    fn is_gone_on_by(&self, next: &Chord) -> bool {
        let augmented = self.last.names(Degree::SHARP_FIFTH);
        up_to(self.last, next) == 0 && Kind::of(next).goes_on(Kind::of(self.last), augmented)
    }
}

impl<'a> Progression<'a> {
    pub(super) fn of(tune: &'a [Chord], key: Option<Key>) -> Progression<'a> {
        let mut stands: Vec<Stand<'_>> = Vec::new();
        let mut places = Vec::with_capacity(tune.len());
        for chord in tune {
            match stands.last_mut() {
                Some(stand) if stand.is_gone_on_by(chord) => stand.last = chord,
                _ => stands.push(Stand { first: chord, last: chord }),
            }
            places.push(stands.len() - 1);
        }
        let chords: Vec<&Chord> = stands.iter().map(Stand::chord).collect();
        let homes = homes(&chords, key);
        Progression { tune, places, homes, key, stands }
    }

    /// The home of the last chord.
    pub(super) fn last_home(&self) -> Option<Key> {
        self.homes.last().copied().flatten().map(Home::key)
    }

    /// What the chord at `index` of the tune does.
    pub(super) fn function_at(&self, index: usize) -> Option<Function> {
        let (own, place) = (self.tune.get(index)?, *self.places.get(index)?);
        let at = |place: usize| self.stands.get(place).map(Stand::chord);
        let stand = at(place)?;
        // A suspension does what its dominant does; other chords speak for themselves.
        let chord = if Kind::of(stand) == Kind::Dominant { stand } else { own };
        let place = Place {
            chord,
            before: place.checked_sub(1).and_then(at),
            after: at(place + 1),
            then: at(place + 2),
            key: self.key,
            home: self.homes.get(place).copied().flatten(),
        };
        Some(place.function())
    }
}
