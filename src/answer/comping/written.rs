//! Comping as it is written to files of music, and heard.

use fretloom_fretboard::Finger;
use fretloom_theory::{ClickBeats, DroneChord, KeySignature, Quarters, Score, Swing, Timeline};

use super::answer::{CompedStab, CompingAnswer};
use crate::answer::heard::performed;
use crate::answer::part_name::part_name;
use crate::score_file::{WrittenNote, WrittenScore};
use crate::sound::{Performance, PlayStyle, drone_side};

impl CompingAnswer {
    /// It as it is written to a file, with its drone and its click.
    #[must_use]
    pub fn written(&self, swing: Swing, click: ClickBeats) -> WrittenScore {
        let score = self.written_score();
        let click = click.clicks(&score.bars, Quarters::ZERO, self.question.chords.end()).collect();
        let drone = DroneChord::all(&score, drone_side(&self.tuning.tuning));
        let notes = self.stabs.iter().flat_map(CompedStab::written).collect();
        let tuning = self.tuning.tuning.clone();
        WrittenScore { notes, swing, drone, click, ..WrittenScore::of(score, tuning) }
    }

    /// It as it is heard, with the chords beside it.
    #[must_use]
    pub fn performance(&self, style: &PlayStyle) -> Performance {
        performed(&self.written(style.swing, ClickBeats::Off), style)
    }

    fn written_score(&self) -> Score {
        let names = || self.stabs.iter().flat_map(CompedStab::notes).map(|(name, _)| name);
        let key = self.question.chords.signature();
        let key = key.unwrap_or_else(|| KeySignature::fewest_accidentals(names()));
        let part_name = part_name(self.tuning.tuning.instrument());
        let Score { parts, bars, tempi, chords, .. } = self.score();
        Score {
            title: Some(match self.question.chords.title() {
                Some(title) => format!("Comping: {title}"),
                None => "Comping".to_owned(),
            }),
            keys: Timeline::of([(Quarters::ZERO, key)]),
            parts: parts.into_iter().map(|part| part.named(&part_name)).collect(),
            bars,
            tempi,
            chords,
        }
    }
}

impl CompedStab {
    fn written(&self) -> impl Iterator<Item = WrittenNote> {
        let shape = &self.shape.shape;
        let fingers: Vec<Finger> = shape.fingers().into_iter().flatten().collect();
        shape.places().into_iter().enumerate().map(move |(index, place)| WrittenNote {
            place: Some(place),
            finger: fingers.get(index).copied(),
            ..WrittenNote::default()
        })
    }
}
