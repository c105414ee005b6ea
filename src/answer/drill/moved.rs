//! Notes that were kept, in another key: the same grips along the neck.

use fretloom_fretboard::{Finger, Fret, Neck, Place};
use fretloom_theory::Quarters;

use super::DrillQuestion;
use crate::answer::line::{LineAnswer, LineQuestion};
use crate::answer::opened::{HeldNote, HeldShape, OpenedKeeper};
use crate::answer::refusal::Refusal;
use crate::store::KeptNote;

impl DrillQuestion<'_> {
    /// A line in the key that is asked for: the same grips, so many frets up or down.
    pub(super) fn moved(
        &self,
        opened: &OpenedKeeper,
        line: &LineAnswer,
    ) -> Result<LineAnswer, Refusal> {
        let semitones = self.unit.key.semitones();
        if semitones == 0 {
            return Ok(line.clone());
        }
        let ways = line.ways.first().map(|way| way.way.notes.as_slice()).unwrap_or_default();
        let notes = line.notes.iter().zip(ways).map(|(told, at)| KeptNote {
            onset: told.note.onset,
            length: told.note.duration,
            pitch: at.pitch,
            place: at.place,
            finger: Some(at.finger),
        });
        let chords = line.question.chords.up(semitones);
        let question = LineQuestion { chords, phrases: Vec::new(), ..line.question.clone() };
        self.on_neck(opened, &question, &notes.collect::<Vec<_>>())
    }

    /// A shape in the key that is asked for: from its lowest note up, then together.
    pub(super) fn of_shape(
        &self,
        opened: &OpenedKeeper,
        shape: &HeldShape,
    ) -> Result<LineAnswer, Refusal> {
        let question = LineQuestion::over(self.chords()?);
        self.on_neck(opened, &question, &broken_and_together(shape))
    }

    /// The notes of the key in which they were kept, moved to where the neck has them: up, or down from an
    /// octave above, whichever is nearer.
    fn on_neck(
        &self,
        opened: &OpenedKeeper,
        question: &LineQuestion,
        notes: &[KeptNote],
    ) -> Result<LineAnswer, Refusal> {
        let up = i16::from(self.unit.key.semitones());
        let ways = match up {
            0 => [0, 12, -12],
            1..=6 => [up, up - 12, up + 12],
            _ => [up - 12, up, up + 12],
        };
        let moved = ways.into_iter().find_map(|by| {
            let moved = notes.iter().map(|note| moved(&opened.neck, *note, by));
            moved.collect::<Option<Vec<KeptNote>>>()
        });
        let moved = moved.ok_or(Refusal::LineDoesNotFit)?;
        LineAnswer::of_kept(&opened.neck, opened.tuning.clone(), question, &moved)
    }
}

/// A note so many frets up on its string; `None` where that is off the neck.
fn moved(neck: &Neck, note: KeptNote, by: i16) -> Option<KeptNote> {
    let fret = i16::from(note.place.fret.number()) + by;
    let place = Place { fret: Fret::new(u8::try_from(fret).ok()?)?, ..note.place };
    let pitch = neck.pitch_at(place)?;
    // What was open is stopped then, and what is open is stopped by no finger.
    let finger = match (note.finger, place.fret.is_open()) {
        (_, true) => Some(Finger::Open),
        (Some(Finger::Open), false) => Some(Finger::First),
        (finger, false) => finger,
    };
    (pitch == note.pitch.up(by.into())?).then_some(KeptNote { pitch, place, finger, ..note })
}

/// A shape from its lowest note up in quarters, and then together for a bar.
fn broken_and_together(shape: &HeldShape) -> Vec<KeptNote> {
    let mut notes: Vec<HeldNote> = shape.notes.clone();
    notes.sort_by_key(|note| note.pitch);
    let note = |onset: u32, length: u32, held: &HeldNote| KeptNote {
        onset: Quarters::whole(onset),
        length: Quarters::whole(length),
        pitch: held.pitch,
        place: held.place,
        finger: held.finger,
    };
    let broken = notes.iter().take(4).zip(0..).map(|(held, onset)| note(onset, 1, held));
    broken.chain(notes.iter().map(|held| note(4, 4, held))).collect()
}
