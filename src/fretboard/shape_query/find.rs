//! Finds shapes: for each string set, the frets of the lowest note decide the rest.

use std::cmp::Reverse;

use fretloom_theory::{Pitch, Triad};

use super::{Fingers, ShapeQuery};
use crate::shape::Meaning;
use crate::strings_going_up::strings_going_up;
use crate::{Fret, Neck, Place, Shape, StringNumber, StringSet, Voicing};
use fretloom_theory::Inversion;

impl ShapeQuery {
    /// The wanted shapes of `triad` on `neck`: string set by string set from the floor up, and on
    /// each by height. Of open and wide ones, where fingers are asked for, those that no hand can
    /// hold come last.
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
        if self.fingers == Fingers::Easiest {
            shapes.sort_by_key(|shape| shape.voicing() != Voicing::Close && shape.grip().is_none());
        }
        shapes
    }

    /// How many of the wanted shapes the end of the neck cuts off: they begin on the neck, and not
    /// all of their notes are below its end.
    ///
    /// ```
    /// use fretloom_fretboard::{Neck, ShapeQuery, Tuning};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap()); // 22 frets
    /// let d = "D".parse::<fretloom_theory::SpelledTriad>().unwrap().triad();
    /// let query = ShapeQuery::default().on("4-3-2".parse().unwrap());
    /// assert_eq!(query.cut_off(&neck, d), 1); // 24-23-22
    /// ```
    #[must_use]
    pub fn cut_off(&self, neck: &Neck, triad: Triad) -> usize {
        let last = neck.tuning().last_fret();
        let begins = |shape: &Shape| shape.fretted().any(|fret| fret <= last);
        let goes_on = |shape: &Shape| shape.fretted().any(|fret| fret > last);
        let on = |pitch, string| neck.fret_on_endless(pitch, string);
        let sets = self.sets_on(neck).filter_map(|set| strings_going_up(neck, set));
        let endless = sets.flat_map(|strings| self.found(neck, triad, strings, on));
        endless.filter(|shape| begins(shape) && goes_on(shape)).count()
    }

    fn add_shapes_on(&self, neck: &Neck, triad: Triad, set: StringSet, shapes: &mut Vec<Shape>) {
        let Some(strings) = strings_going_up(neck, set) else {
            return;
        };
        let found = self.found(neck, triad, strings, |pitch, string| neck.fret_of(pitch, string));
        shapes.extend(found.map(|shape| self.fingered(neck, shape)));
    }

    /// The wanted shapes on three strings, at the frets that `on` finds.
    fn found<'a>(
        &'a self,
        neck: &'a Neck,
        triad: Triad,
        strings: [(Pitch, StringNumber); 3],
        on: impl Fn(Pitch, StringNumber) -> Option<Fret> + Copy + 'a,
    ) -> impl Iterator<Item = Shape> + 'a {
        let [(open, string), ..] = strings;
        let found = self.meanings(triad).flat_map(move |meaning| {
            let Meaning { inversion, voicing, .. } = meaning;
            let heights = voicing.semitones(triad.quality(), inversion);
            heights.flat_map(move |heights| {
                octaves(open, meaning)
                    .take_while(move |lowest| on(*lowest, string).is_some())
                    .filter_map(move |lowest| notes(strings, heights, lowest, on))
                    .map(move |notes| Shape::at(neck, meaning, notes))
            })
        });
        found.filter(|shape| self.wants(neck, shape))
    }

    /// The voicings and inversions that are wanted.
    fn meanings(&self, triad: Triad) -> impl Iterator<Item = Meaning> {
        self.voicings.iter().flat_map(move |&voicing| {
            let inversions = Inversion::ALL.into_iter();
            let inversions = inversions.filter(|inversion| self.wants_inversion(*inversion));
            inversions.map(move |inversion| Meaning { triad, inversion, voicing })
        })
    }
}

/// Every pitch of the lowest member from an open string up, octave by octave.
fn octaves(open: Pitch, meaning: Meaning) -> impl Iterator<Item = Pitch> {
    let [root, second, third] = meaning.triad.members();
    let member = match meaning.inversion {
        Inversion::Root => root,
        Inversion::First => second,
        Inversion::Second => third,
    };
    let up = open.pitch_class().semitones_up_to(member);
    std::iter::successors(open.up(i32::from(up)), |pitch| pitch.up(12))
}

/// The three notes above and with `lowest`, highest string number first, at the frets that `on`
/// finds; `None` where one of them is not on its string.
fn notes(
    strings: [(Pitch, StringNumber); 3],
    [_, to_middle, to_high]: [i32; 3],
    lowest: Pitch,
    on: impl Fn(Pitch, StringNumber) -> Option<Fret>,
) -> Option<[(Place, Pitch); 3]> {
    let [low, middle, high] = strings.map(|(_, string)| string);
    let note = |string, semitones| {
        let pitch = lowest.up(semitones)?;
        let fret = on(pitch, string)?;
        Some((Place { string, fret }, pitch))
    };
    let mut notes = [note(low, 0)?, note(middle, to_middle)?, note(high, to_high)?];
    notes.sort_unstable_by_key(|(place, _)| Reverse(place.string));
    Some(notes)
}
