//! A line that was kept note by note.

use fretloom_fretboard::{Neck, Pin};
use fretloom_theory::{PhraseNote, Role, WhichTriad};

use super::answer::{LineAnswer, told};
use super::ground::LineGround;
use super::played::LineWay;
use super::question::LineQuestion;
use crate::answer::refusal::Refusal;
use crate::answer::tunings::TuningAnswer;
use crate::store::KeptNote;

impl LineAnswer {
    /// A line that was kept note by note: each where it was played, with the finger that it had. Of the
    /// question its chords, its tempo and its picking count. A note that lies in the pair of its chord is
    /// taken as one of its triad, together with those beside it.
    ///
    /// # Errors
    ///
    /// Where a note does not sound at its place on this neck.
    pub fn of_kept(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
        kept: &[KeptNote],
    ) -> Result<LineAnswer, Refusal> {
        let mut kept = kept.to_vec();
        kept.sort_by_key(|note| (note.onset, note.pitch));
        let ground = LineGround::of(neck, question)?;
        let made_of = ground.query(question)?.phrases();
        let mut notes: Vec<PhraseNote> = Vec::with_capacity(kept.len());
        for note in &kept {
            let after = made_of.partition_point(|phrase| phrase.from <= note.onset);
            let phrase = after.saturating_sub(1);
            let pair = question.chords.at(note.onset).map(|chord| chord.pair.pair());
            let which = pair.and_then(|pair| WhichTriad::with(pair, note.pitch.pitch_class()));
            let role = which.map_or(Role::Free, Role::Triad);
            let group = match notes.last() {
                Some(last) if goes_on(last, note, role, phrase) => last.group,
                Some(last) => last.group + 1,
                None => 0,
            };
            let (onset, duration, pitch) = (note.onset, note.length, note.pitch);
            notes.push(PhraseNote { onset, duration, pitch, role, phrase, group, accent: false });
        }
        let notes = told(question, &made_of, &notes);
        let pin =
            |note: &KeptNote| Pin { string: Some(note.place.string), fret: Some(note.place.fret) };
        let pins: Vec<Pin> = kept.iter().map(pin).collect();
        let way = LineWay::as_before(neck, question, &ground, &notes, &pins);
        let mut way = way.filter(|way| way.way.notes.len() == kept.len()).ok_or_else(|| {
            let reason =
                "a note does not sound where it was played; expected the tuning that it was \
                          kept with"
                    .to_owned();
            Refusal::Fingering { reason }
        })?;
        for (at, note) in way.way.notes.iter_mut().zip(&kept) {
            at.finger = note.finger.unwrap_or(at.finger);
        }
        let line = LineAnswer::played(tuning, question, made_of, notes, vec![way]);
        Ok(line.without_patterns())
    }

    /// The same, where nobody knows in which pattern and rhythm it was made.
    pub(super) fn without_patterns(mut self) -> LineAnswer {
        self.phrases.clear();
        self
    }
}

/// Does a note belong to the same group as the one before: to the same triad of the same phrase, without a
/// rest between the two?
fn goes_on(before: &PhraseNote, note: &KeptNote, role: Role, phrase: usize) -> bool {
    before.role == role && before.phrase == phrase && note.onset <= before.end()
}
