//! Notes in rising order, laid on strings so many a string.

use fretloom_theory::{Pitch, PitchClassSet};

use crate::{Neck, Place, StringNumber, StringSet};

/// The strings of `set` from the lowest sounding one up; `None` where two sound alike, or are not
/// on the neck. Strings tuned in unison count as one.
pub(crate) fn rising(neck: &Neck, set: StringSet) -> Option<Vec<StringNumber>> {
    let open = |string| Some((neck.tuning().string(string)?.pitch(), string));
    let mut strings: Vec<(Pitch, StringNumber)> = set.iter().map(open).collect::<Option<_>>()?;
    strings.sort_unstable();
    let rise = strings.windows(2).all(|two| matches!(two, [low, high] if low.0 < high.0));
    rise.then(|| strings.into_iter().map(|(_, string)| string).collect())
}

/// Every way to lay notes of `classes` on the strings of `set`, rising without a gap from one to
/// the next, `per_string` on each: lowest start first.
pub(crate) fn laid(
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
        (notes.len() == strings_times(set, per_string)).then_some(notes)
    };
    let mut laid: Vec<Vec<(Place, Pitch)>> = starts.filter_map(from).collect();
    laid.sort_by_key(|notes| notes.first().map(|(_, pitch)| *pitch));
    laid
}

fn strings_times(set: StringSet, per_string: usize) -> usize {
    set.len() * per_string
}

/// The pitches of `classes` from `start` up.
fn going_up(start: Pitch, classes: PitchClassSet) -> impl Iterator<Item = Pitch> {
    let above = std::iter::successors(Some(start), |pitch| pitch.up(1));
    above.filter(move |pitch| classes.contains(pitch.pitch_class()))
}
