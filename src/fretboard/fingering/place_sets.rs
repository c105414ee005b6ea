//! Places for notes that begin together, so that one hand holds all of them.

use crate::Place;

/// How many places all the sets of one chord have together, at most. For the chords of a guitar
/// there are never as many; where unison strings leave more, those that lie closest together are
/// kept.
const MOST_PLACES: usize = 192;

/// Sets of places, each with one place for each note of a chord.
pub(super) struct PlaceSets {
    sets: Vec<Box<[Place]>>,
}

impl PlaceSets {
    /// One for each place of a single note.
    pub(super) fn of_one(places: &[Place]) -> PlaceSets {
        PlaceSets { sets: places.iter().map(|place| [*place].into()).collect() }
    }

    /// Those that one note more leaves, where it has these places and every set must be held.
    pub(super) fn with(
        &self,
        places: &[Place],
        mut is_held: impl FnMut(&[Place]) -> bool,
    ) -> PlaceSets {
        let longer = |set: &[Place], place: &Place| [set, &[*place]].concat().into_boxed_slice();
        let mut sets: Vec<Box<[Place]>> = Vec::new();
        for set in &self.sets {
            sets.extend(places.iter().map(|place| longer(set, place)));
        }
        let most = MOST_PLACES / sets.first().map_or(1, |set| set.len());
        if sets.len() > most {
            sets.sort_by_key(|set| extent(set));
        }
        let held = sets.into_iter().filter(|set| is_held(set));
        PlaceSets { sets: held.take(most).collect() }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.sets.is_empty()
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &[Place]> {
        self.sets.iter().map(AsRef::as_ref)
    }
}

/// Over how many frets a set goes, and where it begins; open strings do not count.
fn extent(set: &[Place]) -> (u8, u8) {
    let fretted = || set.iter().map(|place| place.fret.number()).filter(|fret| *fret > 0);
    let (low, high) = (fretted().min().unwrap_or(0), fretted().max().unwrap_or(0));
    (high - low, low)
}
