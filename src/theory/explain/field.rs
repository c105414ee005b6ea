//! The spans in which notes begin, as the search sees them.

use std::ops::Range;

use super::movement::bottom_of_stack;
use super::sounded::Sounded;
use super::span::Span;
use crate::{Pitch, Quarters};

/// A span in which at least one note begins.
#[derive(Clone, Debug)]
pub(super) struct Field {
    /// Which of all spans it is.
    pub(super) span: usize,
    /// Which of the chords stands over it.
    pub(super) chord: Option<usize>,
    /// The notes that begin in it.
    pub(super) notes: Range<usize>,
    /// The notes that begin in it, or so near that they may belong to it.
    pub(super) near: Range<usize>,
    /// How many of its notes may be free.
    pub(super) most_free: u8,
    /// Does the field before end where this one begins?
    pub(super) follows: bool,
    /// Has it the same chord as the field before?
    pub(super) same_chord: bool,
    /// Does it lie in the same bar as the field before?
    pub(super) same_bar: bool,
    /// Are its notes thirds on top of one another, from the root or the third of its chord? Such an
    /// arpeggio holds two triads, too.
    pub(super) stacked: bool,
}

/// How long before its chord a group may begin, and how long after the next one it may still: two
/// beats.
const BEATS_OUT_OF_TIME: u32 = 2;
/// How many notes it may have there: those of two beats of sixteenth triplets and more.
const NOTES_OUT_OF_TIME: usize = 32;
/// One note of so many may be free.
const FREE_OF: usize = 4;

impl Field {
    /// The fields of a line, in order.
    pub(super) fn all(spans: &[Span], notes: &[Sounded]) -> Vec<Field> {
        let mut fields: Vec<Field> = Vec::new();
        let mut first = 0;
        while let Some(note) = notes.get(first) {
            let count = notes[first..].iter().take_while(|other| other.span == note.span).count();
            let range = first..first + count;
            let follows = fields.last().is_some_and(|last| last.span + 1 == note.span);
            fields.push(Field::new(note.span, spans, notes, range, follows));
            first += count;
        }
        fields
    }

    fn new(
        at: usize,
        spans: &[Span],
        notes: &[Sounded],
        own: Range<usize>,
        follows: bool,
    ) -> Field {
        let span = &spans[at];
        let window = span.beat.times(BEATS_OUT_OF_TIME).unwrap_or(Quarters::ZERO);
        let from = span.from.checked_sub(window).unwrap_or(Quarters::ZERO);
        let to = span.to.checked_add(window).unwrap_or(span.to);
        let before = notes[..own.start].iter().rev().take(NOTES_OUT_OF_TIME);
        let after = notes[own.end..].iter().take(NOTES_OUT_OF_TIME);
        let first = own.start - before.take_while(|note| note.onset >= from).count();
        let end = own.end + after.take_while(|note| note.onset < to).count();
        let pitches: Vec<Pitch> = notes[own.clone()].iter().map(|note| note.pitch).collect();
        Field {
            span: at,
            chord: span.chord,
            near: first..end,
            most_free: u8::try_from(own.len() / FREE_OF).unwrap_or(u8::MAX),
            follows,
            same_bar: follows && spans[at - 1].bar == span.bar,
            same_chord: follows && spans[at - 1].symbol == span.symbol,
            stacked: bottom_of_stack(&pitches).is_some_and(|bottom| span.begins_on(bottom)),
            notes: own,
        }
    }

    /// The notes that begin in it.
    pub(super) fn own_notes<'a>(&self, notes: &'a [Sounded]) -> &'a [Sounded] {
        &notes[self.notes.clone()]
    }

    /// Those that begin in it or near it.
    pub(super) fn near_notes<'a>(&self, notes: &'a [Sounded]) -> &'a [Sounded] {
        &notes[self.near.clone()]
    }
}
