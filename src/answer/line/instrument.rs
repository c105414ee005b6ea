//! The same line on another instrument.

use fretloom_fretboard::Neck;
use fretloom_theory::PhraseNote;

use super::answer::LineAnswer;
use super::ground::LineGround;
use super::keys::InKey;
use crate::answer::refusal::Refusal;
use crate::answer::tunings::TuningAnswer;

/// In the order in which they are tried: as it is, then ever further away.
const OCTAVES: [i8; 7] = [0, -1, 1, -2, 2, -3, 3];

/// Where the hand is at home on the first positions, nobody moves a line by an octave.
const HIGH_POSITION: f64 = 9.0;

impl LineAnswer {
    /// The same notes fingered for another neck, as they are or moved by octaves, and made anew where
    /// none of that fits; how, is told beside it. A line that would lie high up the neck is moved
    /// where it lies lower.
    ///
    /// # Errors
    ///
    /// As [`LineAnswer::new`].
    pub fn on_instrument(
        &self,
        neck: &Neck,
        tuning: &TuningAnswer,
    ) -> Result<(LineAnswer, InKey), Refusal> {
        let ground = LineGround::of(neck, &self.question)?;
        match self.moved(&ground, neck, tuning) {
            Some(moved) => Ok(moved),
            None => {
                let anew = LineAnswer::on(&ground, neck, tuning.clone(), &self.question)?;
                Ok((anew, InKey::MadeAnew))
            }
        }
    }

    /// The same notes for another neck, as they are or moved by octaves, of a line of which nobody knows
    /// how it was made. `None` where none of that fits.
    pub(in crate::answer) fn moved_to(
        &self,
        neck: &Neck,
        tuning: &TuningAnswer,
    ) -> Option<(LineAnswer, InKey)> {
        let ground = LineGround::of(neck, &self.question).ok()?;
        let (line, how) = self.moved(&ground, neck, tuning)?;
        Some((line.without_patterns(), how))
    }

    fn moved(
        &self,
        ground: &LineGround,
        neck: &Neck,
        tuning: &TuningAnswer,
    ) -> Option<(LineAnswer, InKey)> {
        let mut best: Option<(f64, LineAnswer, InKey)> = None;
        for octaves in OCTAVES {
            let Some(moved) = self.moved_on(ground, neck, tuning, octaves) else { continue };
            let height = height(&moved);
            let how = if octaves == 0 { InKey::Here } else { InKey::Octaves(octaves) };
            if height <= HIGH_POSITION {
                return Some((moved, how));
            }
            if best.as_ref().is_none_or(|(least, ..)| height < *least) {
                best = Some((height, moved, how));
            }
        }
        best.map(|(_, answer, how)| (answer, how))
    }

    fn moved_on(
        &self,
        ground: &LineGround,
        neck: &Neck,
        tuning: &TuningAnswer,
        octaves: i8,
    ) -> Option<LineAnswer> {
        let up = 12 * i32::from(octaves);
        let moved = |note: &PhraseNote| Some(PhraseNote { pitch: note.pitch.up(up)?, ..*note });
        let notes: Vec<PhraseNote> =
            self.notes.iter().map(|told| moved(&told.note)).collect::<Option<_>>()?;
        let made_of = self.made_of().to_vec();
        let fits = notes.iter().all(|note| ground.holds(&made_of, note));
        let answer =
            || LineAnswer::of(neck, tuning.clone(), &self.question, ground, made_of, &notes);
        if fits { answer().ok() } else { None }
    }
}

/// In which position the hand is on average.
fn height(answer: &LineAnswer) -> f64 {
    let Some(way) = answer.ways.first() else { return 0.0 };
    let positions = way.way.notes.iter().map(|at| f64::from(at.position.number()));
    let count = way.way.notes.len().max(1) as f64;
    positions.sum::<f64>() / count
}
