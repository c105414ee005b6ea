//! Finds shapes: for each string set, the frets of the lowest note decide the rest.

use std::cmp::Reverse;

use fretloom_theory::{Pitch, Triad};

use super::{Inversion, Meaning, Shape, ShapeQuery, Voicing};
use crate::{Neck, Place, StringNumber, StringSet};

impl ShapeQuery {
    /// The wanted shapes of `triad` on `neck`: string set by string set from the floor up, and on
    /// each by height.
    #[must_use]
    pub fn shapes(&self, neck: &Neck, triad: Triad) -> Vec<Shape> {
        let mut shapes = Vec::new();
        for set in self.sets_on(neck) {
            let before = shapes.len();
            self.add_shapes_on(neck, triad, set, &mut shapes);
            if let Some(on_this_set) = shapes.get_mut(before..) {
                on_this_set.sort_by(Shape::cmp_height);
            }
        }
        shapes
    }

    fn add_shapes_on(&self, neck: &Neck, triad: Triad, set: StringSet, shapes: &mut Vec<Shape>) {
        let Some(strings) = going_up(neck, set) else {
            return;
        };
        let voicings = Voicing::ALL.into_iter();
        for voicing in voicings.filter(|voicing| self.wants_voicing(*voicing)) {
            let inversions = Inversion::ALL.into_iter();
            for inversion in inversions.filter(|inversion| self.wants_inversion(*inversion)) {
                let meaning = Meaning { triad, inversion, voicing };
                let found = lowest_notes(neck, strings, meaning)
                    .filter_map(|lowest| notes(neck, strings, meaning, lowest))
                    .map(|notes| Shape::at(neck, meaning, notes))
                    .filter(|shape| self.wants(neck, shape));
                shapes.extend(found.map(|shape| shape.taken(neck, self.hand(), self.fingering())));
            }
        }
    }
}

/// The strings of `set` with their open pitches, from the lowest sounding one up. None where two
/// sound alike: strings tuned in unison count as one, and never stand in one shape together.
pub(super) fn going_up(neck: &Neck, set: StringSet) -> Option<[(Pitch, StringNumber); 3]> {
    let [one, two, three] = set.three()?;
    let open = |string| Some((neck.tuning().string(string)?.pitch(), string));
    let mut strings = [open(one)?, open(two)?, open(three)?];
    strings.sort_unstable();
    let [lowest, middle, highest] = strings.map(|(pitch, _)| pitch);
    (lowest < middle && middle < highest).then_some(strings)
}

/// Every pitch of the lowest member on the lowest string, octave by octave.
fn lowest_notes(
    neck: &Neck,
    [(open, string), ..]: [(Pitch, StringNumber); 3],
    meaning: Meaning,
) -> impl Iterator<Item = Pitch> {
    let [root, second, third] = meaning.triad.members();
    let member = match meaning.inversion {
        Inversion::Root => root,
        Inversion::First => second,
        Inversion::Second => third,
    };
    let up = open.pitch_class().semitones_up_to(member);
    let lowest = open.up(i32::from(up));
    std::iter::successors(lowest, |pitch| pitch.up(12))
        .take_while(move |pitch| neck.fret_of(*pitch, string).is_some())
}

/// The three notes above and with `lowest`, highest string number first; `None` where one of them
/// is not on its string.
fn notes(
    neck: &Neck,
    strings: [(Pitch, StringNumber); 3],
    meaning: Meaning,
    lowest: Pitch,
) -> Option<[(Place, Pitch); 3]> {
    let [low, middle, high] = strings.map(|(_, string)| string);
    let quality = meaning.triad.quality();
    let [_, to_middle, to_high] = meaning.voicing.semitones(quality, meaning.inversion);
    let note = |string, semitones| {
        let pitch = lowest.up(semitones)?;
        let fret = neck.fret_of(pitch, string)?;
        Some((Place { string, fret }, pitch))
    };
    let mut notes = [note(low, 0)?, note(middle, to_middle)?, note(high, to_high)?];
    notes.sort_unstable_by_key(|(place, _)| Reverse(place.string));
    Some(notes)
}
