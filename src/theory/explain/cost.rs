//! What a reading of a line costs.
//!
//! The reading of a line that is told is the one whose cost is least, and it is found exactly. All
//! costs are in twentieths of a note that no pair explains. A field (a bar, or the part of it under
//! one chord) without a pair costs [`UNEXPLAINED`] for each of its notes; one with a pair costs
//! [`pair`], or [`SAME_PAIR`], and what its groups and free notes cost. What a reading must hold
//! anyway (both triads, few free notes that lead by a step) is the business of the search.
//!
//! The weights were set by hand, so that passages are read as a teacher reads them; the rates that
//! they reach on made-up lines stand in `tests/explain.rs`.

/// A note that no pair explains.
pub(super) const UNEXPLAINED: u32 = 20;

/// A field without a pair though its own notes show one: it is rarely given up for a neighbour.
pub(super) const DENIED: u32 = 60;

/// A group. Three notes that are one triad thus cost a third of three that are nothing.
pub(super) const GROUP: u32 = 20;

/// What a group costs beyond that where it lacks notes of its triad: whole ones are meant.
pub(super) const PART_OF_TRIAD: u32 = 8;

/// A free note outside the pair that leads by a step into it.
pub(super) const FREE: u32 = 12;

/// A free note that belongs to the pair by sound, but leads by a half step as an approach does.
/// Cheaper than a group of its own, dearer than a note of the group that sounds anyway.
pub(super) const FREE_IN_PAIR: u32 = 24;

/// A free note that ends the line and so leads nowhere.
pub(super) const LAST_FREE: u32 = 24;

/// What free notes cost beyond that where a rest of less than a beat stands before the note to
/// which they lead.
pub(super) const ACROSS_REST: u32 = 10;

/// What free notes cost beyond that where they stand within a group and not before one.
pub(super) const INSIDE: u32 = 30;

/// A group that begins before its chord, or hangs over the next one …
pub(super) const OUT_OF_TIME: u32 = 26;

/// … and each note of it there. A bar without a pair thus gives two notes away, never one.
pub(super) const NOTE_OUT_OF_TIME: u32 = 4;

/// A group out of time that takes its note away from a group beside it, which has that note too.
pub(super) const TORN: u32 = 110;

/// A pair one of whose triads is only whole with notes before its chord, or behind it.
pub(super) const SHOWN_OUT_OF_TIME: u32 = 40;

/// A pair of which only one triad is whole under its chord, and the other under the chord before or
/// after.
pub(super) const SHOWN_BESIDE: u32 = 30;
/// What that costs more where notes are free.
pub(super) const LED_BESIDE: u32 = 60;

/// A pair in the usual scale that stands so many places behind the first one over its chord; `None`
/// for a pair that none of the usual scales holds.
pub(super) fn pair(place: Option<usize>) -> u32 {
    const IN_USUAL_SCALE: u32 = 20;
    const FURTHEST: u32 = 8;
    const UNUSUAL: u32 = 75;
    match place {
        Some(place) => IN_USUAL_SCALE + u32::try_from(place).unwrap_or(FURTHEST).min(FURTHEST),
        None => UNUSUAL,
    }
}

/// What the pair of the bar before costs where it goes on, in place of [`pair`].
pub(super) const SAME_PAIR: u32 = 10;
