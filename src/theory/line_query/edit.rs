//! Lines with single notes changed.

use super::LineQuery;
use crate::line::{NotesFrom, Phrase, PhraseNote, Reach, Role};
use crate::time::Quarters;
use crate::{Direction, NoteChange, NoteEdit, Pitch, PitchClassSet, TriadPair, WhichTriad};

impl LineQuery {
    /// The notes of a line, in order of time, changed one change after the other. `phrases` are those
    /// that they were made of: a note goes on in the pair of its own, on the notes of its own.
    ///
    /// A change that leads to a note which may not be used, that makes two notes of a chord one, or
    /// that names a note which is not there has no effect.
    #[must_use]
    pub fn edited(
        &self,
        phrases: &[Phrase],
        notes: &[PhraseNote],
        edits: &[NoteEdit],
        reach: &Reach,
    ) -> Vec<PhraseNote> {
        let mut notes = notes.to_vec();
        for edit in edits {
            self.edit(phrases, &mut notes, edit, reach);
        }
        notes
    }

    fn edit(
        &self,
        phrases: &[Phrase],
        notes: &mut Vec<PhraseNote>,
        edit: &NoteEdit,
        reach: &Reach,
    ) {
        let first = notes.partition_point(|note| note.onset < edit.onset);
        let begins_there = |index: &usize| {
            notes.get(*index).is_some_and(|note: &PhraseNote| note.onset == edit.onset)
        };
        let Some(index) = first.checked_add(edit.voice).filter(begins_there) else { return };
        match edit.change {
            NoteChange::SoundsOn => sound_on(notes, edit.onset),
            NoteChange::Silent => {
                notes.remove(index);
            }
            NoteChange::Accent => notes.iter_mut().skip(index).take(1).for_each(|note| {
                note.accent = !note.accent;
            }),
            NoteChange::PairNote(_) | NoteChange::ScaleStep(_) | NoteChange::HalfStep(_) => {
                let Some(note) = notes.get(index) else { return };
                let Some(around) = self.around(phrases, note) else { return };
                let own = phrases.get(note.phrase).and_then(|phrase| phrase.reach.as_ref());
                let pitch = next_pitch(note.pitch, edit.change, &around, own.unwrap_or(reach))
                    .filter(|pitch| keeps_order(notes, index, *pitch));
                if let (Some(pitch), Some(note)) = (pitch, notes.get_mut(index)) {
                    (note.pitch, note.role) = (pitch, around.role(pitch));
                }
            }
        }
    }

    /// Where a note may go: in its phrase, where it lands in the chord on which it does, and where
    /// it was entered by itself in the chord under it.
    fn around(&self, phrases: &[Phrase], note: &PhraseNote) -> Option<Around> {
        let phrase = phrases.get(note.phrase)?;
        let landing = phrase.lands_at(note.onset);
        let chord = self.chord_at(landing.unwrap_or(note.onset))?;
        let scale = chord.over.scale().set();
        let of_pair = match (&phrase.notes, landing) {
            (NotesFrom::Entered(_), _) => None,
            (NotesFrom::Pair, Some(_)) => Some(chord.pair),
            (NotesFrom::Pair, None) => Some(phrase.pair),
        };
        Some(Around { scale, pair: of_pair.unwrap_or(chord.pair), of_pair })
    }
}

/// The notes to which a note may go.
struct Around {
    scale: PitchClassSet,
    pair: TriadPair,
    /// The pair to whose triads the note belongs wherever it goes.
    of_pair: Option<TriadPair>,
}

impl Around {
    /// A note belongs to the triad of its pair that has it.
    fn role(&self, pitch: Pitch) -> Role {
        let which = self.of_pair.and_then(|pair| WhichTriad::with(pair, pitch.pitch_class()));
        which.map_or(Role::Free, Role::Triad)
    }
}

/// Where a change of pitch leads.
fn next_pitch(from: Pitch, change: NoteChange, around: &Around, reach: &Reach) -> Option<Pitch> {
    match change {
        NoteChange::PairNote(way) => {
            let set = around.pair.set();
            next(reach.pitches().filter(|pitch| set.contains(pitch.pitch_class())), from, way)
        }
        NoteChange::ScaleStep(way) => next(reach.free_in(around.scale), from, way),
        NoteChange::HalfStep(Direction::Up) => from.up(1).filter(|up| reach.holds_free(*up)),
        NoteChange::HalfStep(Direction::Down) => from.up(-1).filter(|down| reach.holds_free(*down)),
        NoteChange::SoundsOn | NoteChange::Accent | NoteChange::Silent => None,
    }
}

fn next(
    mut pitches: impl DoubleEndedIterator<Item = Pitch>,
    from: Pitch,
    way: Direction,
) -> Option<Pitch> {
    match way {
        Direction::Up => pitches.find(|pitch| *pitch > from),
        Direction::Down => pitches.rfind(|pitch| *pitch < from),
    }
}

/// Are the notes of its chord still from the lowest up, and all different?
fn keeps_order(notes: &[PhraseNote], index: usize, pitch: Pitch) -> bool {
    let Some(onset) = notes.get(index).map(|note| note.onset) else { return false };
    let with = |index: Option<usize>| index.and_then(|index| notes.get(index));
    let beside = |index| with(index).filter(|note| note.onset == onset).map(|note| note.pitch);
    beside(index.checked_sub(1)).is_none_or(|below| below < pitch)
        && beside(index.checked_add(1)).is_none_or(|above| above > pitch)
}

/// What begins at a moment sounds until the end of what comes next, which is not played.
fn sound_on(notes: &mut Vec<PhraseNote>, onset: Quarters) {
    let next = notes.iter().map(|note| note.onset).find(|next| *next > onset);
    let Some(next) = next else { return };
    let end = notes.iter().filter(|note| note.onset == next).map(PhraseNote::end).max();
    let Some(length) = end.and_then(|end| end.checked_sub(onset)) else { return };
    notes.retain(|note| note.onset != next);
    notes.iter_mut().filter(|note| note.onset == onset).for_each(|note| note.duration = length);
}
