//! Lines with single notes changed.

use super::{ChordStretch, LineQuery};
use crate::line::{PhraseNote, Reach, Role};
use crate::time::Quarters;
use crate::{Direction, NoteChange, NoteEdit, Pitch, WhichTriad};

impl LineQuery {
    /// The notes of a line, in order of time, changed one change after the other.
    ///
    /// A change that leads to a note which may not be used, that makes two notes of a chord one, or
    /// that names a note which is not there has no effect.
    #[must_use]
    pub fn edited(
        &self,
        notes: &[PhraseNote],
        edits: &[NoteEdit],
        reach: &Reach,
    ) -> Vec<PhraseNote> {
        let mut notes = notes.to_vec();
        for edit in edits {
            self.edit(&mut notes, edit, reach);
        }
        notes
    }

    fn edit(&self, notes: &mut Vec<PhraseNote>, edit: &NoteEdit, reach: &Reach) {
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
                let Some(chord) = self.chord_at(edit.onset) else { return };
                let pitch = notes
                    .get(index)
                    .and_then(|note| next_pitch(note.pitch, edit.change, chord, reach));
                if let Some(pitch) = pitch.filter(|pitch| keeps_order(notes, index, *pitch)) {
                    self.take(notes, index, pitch, chord);
                }
            }
        }
    }

    /// The note takes another pitch, and belongs to the triad of the pair that has it.
    fn take(&self, notes: &mut [PhraseNote], index: usize, pitch: Pitch, chord: &ChordStretch) {
        let which = WhichTriad::with(chord.pair, pitch.pitch_class());
        if let Some(note) = notes.get_mut(index) {
            (note.pitch, note.role) = (pitch, which.map_or(Role::Free, Role::Triad));
        }
    }
}

/// Where a change of pitch leads.
fn next_pitch(
    from: Pitch,
    change: NoteChange,
    chord: &ChordStretch,
    reach: &Reach,
) -> Option<Pitch> {
    match change {
        NoteChange::PairNote(way) => {
            let set = chord.pair.set();
            next(reach.pitches().filter(|pitch| set.contains(pitch.pitch_class())), from, way)
        }
        NoteChange::ScaleStep(way) => next(reach.free_in(chord.over.scale().set()), from, way),
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
