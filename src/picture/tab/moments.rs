//! The moments of a bar that have a column.

use fretloom_theory::{Bar, Quarters};

/// A column of a bar to be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Moment {
    /// So long after the beginning of the bar.
    At(Quarters),
    /// Beats that are left out.
    LeftOut,
}

/// So many beats in a row without anything are all counted; of more only the first and the last.
const MOST_EMPTY_BEATS: u64 = 12;

/// The moments at which something happens, given in order. If beats are counted, the beginning of the
/// bar and the beats between are there too; a bar has one moment at least.
pub(super) fn moments(bar: &Bar, marks: &[Quarters], with_beats: bool) -> Vec<Moment> {
    let mut moments = Vec::new();
    let begins = marks.first() == Some(&Quarters::ZERO);
    let first = (!begins && (with_beats || marks.is_empty())).then_some(Quarters::ZERO);
    let marks: Vec<Quarters> = first.into_iter().chain(marks.iter().copied()).collect();
    for (mark, at) in marks.iter().zip(1..) {
        moments.push(Moment::At(*mark));
        if with_beats {
            let next = marks.get(at).copied().unwrap_or(bar.length);
            moments.extend(beats_between(bar, *mark, next).unwrap_or_default());
        }
    }
    moments
}

/// The beats after one moment of a bar and before another; `None` where numbers do not fit.
fn beats_between(bar: &Bar, from: Quarters, to: Quarters) -> Option<Vec<Moment>> {
    let beat = bar.meter.beat();
    let (first, _) = bar.missing.checked_add(from)?.divided_with_rest(beat)?;
    let (last, rest) = bar.missing.checked_add(to)?.divided_with_rest(beat)?;
    let beats = first.checked_add(1)?..if rest.is_zero() { last } else { last.checked_add(1)? };
    let moment = |index: u64| {
        let at = beat.times(u32::try_from(index).ok()?)?.checked_sub(bar.missing)?;
        Some(Moment::At(at))
    };
    if beats.end.saturating_sub(beats.start) <= MOST_EMPTY_BEATS {
        return beats.map(moment).collect();
    }
    Some(vec![moment(beats.start)?, Moment::LeftOut, moment(beats.end - 1)?])
}

/// How long after the beginning of a bar a moment is, if it is in the bar.
pub(super) fn within(bar: &Bar, moment: Quarters) -> Option<Quarters> {
    moment.checked_sub(bar.from).filter(|into| *into < bar.length)
}
