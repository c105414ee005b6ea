//! Runs: notes that rise without a gap, so many on each string.

use fretloom_theory::{Pitch, PitchClassSet};

use crate::{Neck, Place, StringNumber, StringSet};

/// The strings of `set` from the lowest sounding one up; `None` where two sound alike, or are not
/// on the neck. Strings tuned in unison count as one.
fn rising(neck: &Neck, set: StringSet) -> Option<Vec<StringNumber>> {
    let open = |string| Some((neck.tuning().string(string)?.pitch(), string));
    let mut strings: Vec<(Pitch, StringNumber)> = set.iter().map(open).collect::<Option<_>>()?;
    strings.sort_unstable();
    let rise = strings.windows(2).all(|two| matches!(two, [low, high] if low.0 < high.0));
    rise.then(|| strings.into_iter().map(|(_, string)| string).collect())
}

/// Every run of the notes of `classes` over the strings of `set`, `per_string` notes on each: it
/// takes every note of `classes` from its start to its end. The lowest start comes first.
pub(crate) fn runs(
    neck: &Neck,
    set: StringSet,
    classes: PitchClassSet,
    per_string: usize,
) -> Vec<Vec<(Place, Pitch)>> {
    let Some(strings) = rising(neck, set) else {
        return Vec::new();
    };
    let starts = neck.places().filter(|(place, pitch)| {
        strings.first() == Some(&place.string) && classes.contains(pitch.pitch_class())
    });
    let from = |(_, start): (Place, Pitch)| {
        let strings = strings.iter().flat_map(|string| std::iter::repeat_n(*string, per_string));
        let pitches = going_up(start, classes);
        let note =
            |(string, pitch)| Some((Place::new(string, neck.fret_of(pitch, string)?), pitch));
        let notes = strings.zip(pitches).map(note).collect::<Option<Vec<_>>>()?;
        (notes.len() == set.len() * per_string).then_some(notes)
    };
    let mut runs: Vec<Vec<(Place, Pitch)>> = starts.filter_map(from).collect();
    runs.sort_by_key(|notes| notes.first().map(|(_, pitch)| *pitch));
    runs
}

/// The pitches of `classes` from `start` up.
fn going_up(start: Pitch, classes: PitchClassSet) -> impl Iterator<Item = Pitch> {
    let above = std::iter::successors(Some(start), |pitch| pitch.up(1));
    above.filter(move |pitch| classes.contains(pitch.pitch_class()))
}
