//! Measures one after another as they are heard, with all that stands in them.

use fretloom_theory::{Bar, Grace, Quarters};

use super::raw_note::RawNote;
use super::time::Time;
use crate::score_file::error::ScoreFileError;
use crate::score_file::limits::MOST_NOTES;
use crate::score_file::read_score::too_many;

/// When a measure of the file begins, and how long it is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Measure {
    pub(super) from: Time,
    pub(super) length: Time,
    /// Where it stands in the file, in bytes.
    pub(super) offset: usize,
}

/// A measure as it is heard.
struct Heard {
    /// Which measure of the file it is.
    written: usize,
    /// When it begins there.
    was: Time,
    /// When that one ends there.
    ended: Time,
    /// When it is heard.
    from: Time,
    /// Does it follow another one than in the file?
    is_entered: bool,
}

/// Measures in the order in which they are heard.
pub(super) struct Unfolding {
    heard: Vec<Heard>,
    end: Time,
}

impl Unfolding {
    pub(super) fn new(measures: &[Measure], order: &[usize]) -> Unfolding {
        let mut end = Time::ZERO;
        let mut next = 0;
        let mut heard = Vec::with_capacity(order.len());
        for written in order.iter().copied() {
            let Some(Measure { from: was, length, .. }) = measures.get(written).copied() else {
                continue;
            };
            let is_entered = written != next;
            heard.push(Heard { written, was, ended: was.plus(length), from: end, is_entered });
            end = end.plus(length);
            next = written + 1;
        }
        Unfolding { heard, end }
    }

    /// When the last of them ends.
    pub(super) fn end(&self) -> Quarters {
        self.end.quarters()
    }

    /// The notes, in the order of the file within each measure.
    pub(super) fn notes(&self, notes: &[RawNote]) -> Result<Vec<RawNote>, ScoreFileError> {
        let mut all = Vec::new();
        for (heard, index) in self.heard.iter().zip(0..) {
            let number = |note: &RawNote| usize::try_from(note.bar_index).unwrap_or(usize::MAX);
            let from = notes.partition_point(|note| number(note) < heard.written);
            let here = notes.iter().skip(from).take_while(|note| number(note) == heard.written);
            for note in here {
                if all.len() == MOST_NOTES {
                    return Err(too_many());
                }
                let mut note = note.clone();
                note.from = heard.moved(note.from);
                note.grace = note.grace.and_then(|grace| {
                    let after = grace.after().map(|after| heard.moved_moment(after));
                    Grace::new(grace.steps(), grace.of(), after)
                });
                note.bar_index = index;
                all.push(note);
            }
        }
        Ok(all)
    }

    /// The bars; those without length are left out.
    pub(super) fn bars(&self, bars: &[Bar]) -> Vec<Bar> {
        let of = |heard: &Heard| {
            let index = bars.partition_point(|bar| bar.from < heard.was.quarters());
            let bar = bars.get(index).filter(|_| heard.was < heard.ended)?;
            Some(Bar { from: heard.from.quarters(), ..bar.clone() })
        };
        self.heard.iter().filter_map(of).collect()
    }

    /// What begins at moments: in each measure what begins there, and before it what still holds
    /// where one comes from elsewhere.
    pub(super) fn changes<T: Clone>(
        &self,
        changes: &[(Quarters, T)],
    ) -> Result<Vec<(Quarters, T)>, ScoreFileError> {
        let mut sorted = changes.to_vec();
        sorted.sort_by_key(|(at, _)| *at);
        let mut all = Vec::new();
        for heard in &self.heard {
            let (was, ended) = (heard.was.quarters(), heard.ended.quarters());
            let first = sorted.partition_point(|(at, _)| *at < was);
            let before = first.checked_sub(1).and_then(|index| sorted.get(index));
            if let Some((_, value)) = before.filter(|_| heard.is_entered) {
                all.push((heard.from.quarters(), value.clone()));
            }
            for (at, value) in sorted.iter().skip(first).take_while(|(at, _)| *at < ended) {
                if all.len() > 2 * MOST_NOTES {
                    return Err(too_many());
                }
                all.push((heard.moved_moment(*at), value.clone()));
            }
        }
        Ok(all)
    }
}

impl Heard {
    fn moved(&self, moment: Time) -> Time {
        self.from.plus(moment.minus(self.was))
    }

    /// A moment before the measure is as far before it as it was, not before the beginning.
    fn moved_moment(&self, moment: Quarters) -> Quarters {
        let moment = Time::at(moment);
        let before = self.was.minus(moment);
        if before > Time::ZERO { self.from.minus(before) } else { self.moved(moment) }.quarters()
    }
}
