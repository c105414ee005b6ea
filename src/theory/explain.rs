//! Lines explained: which pairs they are made of, bar by bar.
//!
//! [`Explanation::of`] reads notes under chords as a teacher reads them: here is a pair, so it goes
//! on, this note leads into it, that group speaks the next chord already. It is the way back from a
//! line to what it was made of, and knows nothing of how it was made.
//!
//! # What counts as a pair
//!
//! A pair explains a bar where each of its triads sounds whole within one group. Where one does, the
//! bar before or after, which has the same pair, shows the other; if notes are free or the chords
//! differ, that bar shows both. At most a quarter of the notes are free; they lead by a step into
//! the next note of the pair, two in a row at most. Players speak a chord up to two beats early and
//! let it hang over as long: such a group belongs to the chord that it speaks. A pair that is in none
//! of the usual scales of the chord needs a clean bar: both triads, no free note, all on time. An
//! arpeggio from the root or third of its chord holds two triads by nature and counts as a pair only
//! beside a bar that shows it.
//!
//! A bar of which that cannot be said has no pair, however many of its notes some pair has: scales,
//! thirds, arpeggios and chromatic lines are what they are, and are called so.
//!
//! A line that was made of pairs knows more than its notes tell: [`Explanation::of_made`] takes up
//! what it says of them, where they agree.
//!
//! # How the reading is found
//!
//! Of all readings that hold to this the cheapest is told; `explain/cost.rs` lists the costs, which
//! are whole numbers. A note that no pair explains costs as much as a group; a free note that leads
//! into a group about half of that, within a group more; notes out of the time of their chord, and
//! triads that are whole only with them, more again. The search over the pairs that are looked at (at
//! most 24 a bar) is exact, and its time and memory grow with the length of the line and no faster.

mod arrival;
mod bar;
mod candidate;
mod cost;
mod field;
mod ground;
mod landing;
mod line;
mod made_note;
mod made_of;
mod movement;
mod readings;
mod search;
mod sentence;
mod sounded;
mod span;
mod tell;

pub use arrival::Arrival;
pub use bar::{ExplainedApproach, ExplainedBar, ExplainedGroup, GroupTiming};
pub use landing::Landing;
pub use made_note::MadeNote;
pub use movement::Movement;
pub use sentence::Why;

use crate::{Part, Quarters, Score};
use candidate::Candidate;
use field::Field;
use ground::Ground;
use line::Line;
use made_of::MadeOf;
use sounded::Sounded;
use span::Span;
use tell::Read;

/// A line, explained bar by bar.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordSymbol, Explanation, Note, Part, Quarters, Score, Spelling, Timeline};
/// let notes = ["F3", "A3", "C4", "B3", "D4", "G4", "F4", "C4"].into_iter().enumerate();
/// let eighth = |(at, pitch): (usize, &str)| {
///     let onset = Quarters::EIGHTH.times(at as u32).unwrap();
///     Note::new(onset, Quarters::EIGHTH, pitch.parse().unwrap()).unwrap()
/// };
/// let line = Part::new(notes.map(eighth));
/// let chords = Timeline::of([(Quarters::ZERO, ChordSymbol::read("Dm7"))]);
/// let score = Score { chords, ..Score::default() };
///
/// let explanation = Explanation::of(&score, &line);
/// let bar = &explanation.bars[0];
/// assert_eq!(bar.scale.as_ref().unwrap().to_string(), "D Dorian");
/// assert_eq!(bar.groups[1].notes, [3, 4, 5]);
/// assert_eq!(
///     bar.why(Spelling::Plain).to_string(),
///     "F & G over Dm7: F in root position up, G in first inversion up, two notes of F."
/// );
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Explanation {
    /// Its bars in order, those with several chords once for each. Bars in which nothing begins
    /// are left out where there are more than anybody reads.
    pub bars: Vec<ExplainedBar>,
}

impl Explanation {
    /// What the notes of a part do over the chords and in the bars of a score. The part need not
    /// be one of the score's.
    #[must_use]
    pub fn of(score: &Score, part: &Part) -> Explanation {
        Explanation::of_made(score, part, &[])
    }

    /// The same of a part that says of its notes, in their order, which triad of which pair they are
    /// of; `None` for one that is free, and of a part that says nothing an empty list.
    ///
    /// What it says is taken up bar by bar where the notes agree: where each is one of its triad and
    /// both triads are heard, if not in one group then in several, and in the bars beside it. So
    /// pairs are told that a stranger would take for thirds or for a scale. All else is read as by
    /// [`of`](Self::of).
    #[must_use]
    pub fn of_made(score: &Score, part: &Part, said: &[Option<MadeNote>]) -> Explanation {
        let onsets: Vec<Quarters> = {
            let notes = part.notes();
            part.by_time().iter().filter_map(|at| notes.get(*at)).map(|note| note.onset()).collect()
        };
        let spans = Span::all(score, &onsets, part.end());
        let grounds = Ground::all(score);
        let notes = Sounded::all(part, &spans);
        let fields = Field::all(&spans, &notes);
        let mut candidates = Candidate::all(&fields, &notes, &grounds);
        let roles = if said.iter().all(Option::is_none) {
            Line::new(&notes, &fields, &candidates).read()
        } else {
            MadeOf::new(&spans, &grounds, &notes, &fields, said).roles(&mut candidates)
        };
        let read = Read {
            spans: &spans,
            grounds: &grounds,
            notes: &notes,
            fields: &fields,
            candidates: &candidates,
            roles: &roles,
        };
        Explanation { bars: read.bars() }
    }
}

#[cfg(test)]
mod tests;
