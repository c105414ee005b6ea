//! Whether the moments of a tab can be counted.

use std::collections::BTreeSet;

use fretloom_theory::{Bars, Quarters};

use super::count::part;
use super::event::{TabMusic, TimesFrom};
use super::timed::Timed;

/// What can be said of the rhythm of a tab.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum TabRhythm {
    /// Where notes begin and how long they last.
    Counted,
    /// Where notes begin; how long they last is rounded, since the ends are not counted.
    LengthsRounded,
    /// Nothing: notes do not begin where anyone counts, as in a recording.
    NotCounted,
}

/// Into how many parts a beat is divided where music is written, tuplets of other numbers apart.
const USUAL: [u32; 8] = [1, 2, 3, 4, 6, 8, 12, 16];

/// Into how many parts a beat may be divided in times that were seconds. Finer ones come about by
/// chance: tenths of a second are fifths of a beat.
const OF_SECONDS: [u32; 5] = [1, 2, 3, 4, 6];

/// Settles whether these notes are counted, and rounds their ends if need be.
pub(super) fn settle(notes: &mut [Timed<'_>], music: &TabMusic<'_>) -> TabRhythm {
    let Some(divisions) = divisions(notes, music) else {
        notes.iter_mut().for_each(|note| note.end = note.event.onset);
        return TabRhythm::NotCounted;
    };
    let onsets: Vec<Quarters> = notes.iter().map(|note| note.event.onset).collect();
    let mut rhythm = TabRhythm::Counted;
    for note in notes.iter_mut().filter(|note| !note.is_grace()) {
        let division = division(music.bars, note.end);
        let is_counted = division.is_some_and(|of| {
            music.times == TimesFrom::Writing || divisions.iter().any(|other| other % of == 0)
        });
        if !is_counted || note.end == note.event.onset {
            note.end = rounded(music.bars, &onsets, note).unwrap_or(note.end);
            rhythm = TabRhythm::LengthsRounded;
        }
    }
    rhythm
}

/// Into how many parts beats are divided; `None` where a note begins at a moment that is not
/// counted.
fn divisions(notes: &[Timed<'_>], music: &TabMusic<'_>) -> Option<BTreeSet<u32>> {
    let mut divisions = BTreeSet::from(USUAL);
    let mut last = None;
    for note in notes {
        if last.replace(note.event.onset) == Some(note.event.onset) {
            continue;
        }
        let of = division(music.bars, note.event.onset)?;
        if music.times == TimesFrom::Seconds && !OF_SECONDS.contains(&of) {
            return None;
        }
        divisions.insert(of);
    }
    Some(divisions)
}

/// Into how many parts a beat must be divided so that a moment is one of them.
fn division(bars: &Bars, moment: Quarters) -> Option<u32> {
    let at = bars.at(moment)?;
    part(at.after_beat, at.bar.meter.beat()).map(|(_, of)| of)
}

/// The end of a note at a moment that is counted: where another begins, if that is near, else at a
/// quarter of a beat.
fn rounded(bars: &Bars, onsets: &[Quarters], note: &Timed<'_>) -> Option<Quarters> {
    let at = bars.at(note.end)?;
    let quarter = at.bar.meter.beat().divided_into(4)?;
    let near = quarter.divided_into(2)?;
    let later = onsets.partition_point(|onset| *onset <= note.event.onset);
    let later = onsets.get(later..).unwrap_or_default();
    let after = later.partition_point(|onset| *onset < note.end);
    let around = [after.checked_sub(1), Some(after)].into_iter().flatten();
    let around = around.filter_map(|index| later.get(index).copied());
    let nearest = around.min_by_key(|onset| distance(*onset, note.end));
    if let Some(nearest) = nearest.filter(|onset| distance(*onset, note.end) <= Some(near)) {
        return Some(nearest);
    }
    let on_grid = at.bar.from.checked_add(nearest_multiple(at.into, at.bar.missing, quarter)?)?;
    if on_grid > note.event.onset {
        return Some(on_grid);
    }
    let shortest = note.event.onset.checked_add(quarter)?;
    Some(later.first().map_or(shortest, |next| shortest.min(*next)))
}

fn distance(one: Quarters, other: Quarters) -> Option<Quarters> {
    one.checked_sub(other).or_else(|| other.checked_sub(one))
}

/// The moment of a bar nearest to `into` at which parts of this length begin.
fn nearest_multiple(into: Quarters, missing: Quarters, part: Quarters) -> Option<Quarters> {
    let (count, rest) = into.checked_add(missing)?.divided_with_rest(part)?;
    let count = count + u64::from(rest.times(2)? >= part);
    part.times(u32::try_from(count).ok()?)?.checked_sub(missing)
}
