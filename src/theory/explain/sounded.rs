//! Notes in the order in which they sound, each in the span that it falls into.

use super::span::Span;
use crate::{Part, Pitch, PitchClassSet, Quarters};

/// A note of the line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sounded {
    /// Its index in the part.
    pub(super) index: usize,
    pub(super) pitch: Pitch,
    pub(super) onset: Quarters,
    pub(super) end: Quarters,
    /// The span in whose time it begins: which of all spans.
    pub(super) span: usize,
}

/// A note that begins so shortly before a span, in quarters, is played on its first beat: some
/// 25 ms at 120.
const EARLY_HAND: (u64, u32) = (1, 20);

impl Sounded {
    /// The notes of a part by time. `spans` are in order, and not empty.
    pub(super) fn all(part: &Part, spans: &[Span]) -> Vec<Sounded> {
        let mut at = 0;
        let last = spans.len().saturating_sub(1);
        let notes = part
            .by_time()
            .into_iter()
            .filter_map(|index| part.notes().get(index).map(|note| (index, note)));
        let sounded = notes.map(|(index, note)| {
            while at < last && falls_behind(note.onset(), spans[at].to) {
                at += 1;
            }
            let (pitch, onset, end) = (note.pitch().pitch(), note.onset(), note.end());
            Sounded { index, pitch, onset, end, span: at }
        });
        sounded.collect()
    }
}

/// Does a note belong behind a line between two spans?
fn falls_behind(onset: Quarters, line: Quarters) -> bool {
    let tolerance = Quarters::new(EARLY_HAND.0, EARLY_HAND.1).unwrap_or(Quarters::ZERO);
    line.checked_sub(onset).is_none_or(|before| before < tolerance)
}

/// What sounds in these notes.
pub(super) fn classes(notes: &[Sounded]) -> PitchClassSet {
    notes.iter().map(|note| note.pitch.pitch_class()).collect()
}
