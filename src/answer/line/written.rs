//! A line as it is written to files of music.

use fretloom_theory::{
    ChordSymbol, ClickBeats, DroneChord, KeySignature, Quarters, Score, Swing, Timeline,
};

use super::answer::LineAnswer;
use super::lines::LinesAnswer;
use super::note::ToldNote;
use super::played::LineWay;
use crate::answer::part_name::part_name;
use crate::score_file::{WrittenNote, WrittenScore};
use crate::sound::drone_side;

/// How many chords a title names.
const TITLE_CHORDS: usize = 8;

impl LinesAnswer {
    /// The line in all its keys, one after another, each played in its first way.
    #[must_use]
    pub fn written(&self, swing: Swing, click: ClickBeats) -> Option<WrittenScore> {
        let mut keys = self.lines.iter().filter_map(|line| {
            let way = line.answer.ways.first()?;
            Some((format!("in {:#}", line.key), line.answer.written(way, swing, click)))
        });
        let (name, first) = keys.next()?;
        if self.lines.len() == 1 {
            return Some(first);
        }
        let first = WrittenScore { sections: Timeline::of([(Quarters::ZERO, name)]), ..first };
        Some(keys.fold(first, |written, (name, next)| written.followed_by(next, name)))
    }
}

impl LineAnswer {
    /// One of its ways as it is written to a file, with its drone and its click.
    #[must_use]
    pub fn written(&self, way: &LineWay, swing: Swing, click: ClickBeats) -> WrittenScore {
        let score = self.written_score();
        let click = click.clicks(&score.bars, Quarters::ZERO, self.end()).collect();
        let drone = DroneChord::all(&score, drone_side(&self.tuning.tuning));
        let tuning = self.tuning.tuning.clone();
        let notes = (0..self.notes.len()).map(|index| self.written_note(way, index)).collect();
        WrittenScore { notes, swing, drone, click, ..WrittenScore::of(score, tuning) }
    }

    /// The music with its title, its key and the name of its part.
    fn written_score(&self) -> Score {
        let Score { parts, bars, tempi, chords, .. } = self.score();
        let key = self.key_signature();
        let part_name = part_name(self.tuning.tuning.instrument());
        Score {
            title: Some(self.title()),
            keys: Timeline::of([(Quarters::ZERO, key)]),
            parts: parts.into_iter().map(|part| part.named(&part_name)).collect(),
            ..Score { bars, tempi, chords, ..Score::default() }
        }
    }

    /// That of the key in which the chords come home; where they say none, the one in which the notes
    /// are easiest to read.
    fn key_signature(&self) -> KeySignature {
        let names = || self.notes.iter().map(|told: &ToldNote| told.name);
        let of_chords = self.question.chords.signature();
        of_chords.unwrap_or_else(|| KeySignature::fewest_accidentals(names()))
    }

    /// `Line over Dm7 G7 Cmaj7`, `Line over` the title of the tune.
    fn title(&self) -> String {
        if let Some(title) = self.question.chords.title() {
            return format!("Line over {title}");
        }
        let symbols = self.question.chords.symbols().changes().iter();
        let mut named: Vec<String> = symbols
            .map(|(_, symbol): &(Quarters, ChordSymbol)| format!("{symbol:#}"))
            .take(TITLE_CHORDS + 1)
            .collect();
        if let Some(last) = named.get_mut(TITLE_CHORDS) {
            "...".clone_into(last);
        }
        format!("Line over {}", named.join(" "))
    }

    fn written_note(&self, way: &LineWay, index: usize) -> WrittenNote {
        let fingered = way.way.notes.get(index);
        WrittenNote {
            place: fingered.map(|at| at.place),
            finger: fingered.map(|at| at.finger),
            slur: way.slurs.get(index).copied().flatten(),
            stroke: way.strokes.get(index).copied().flatten(),
            accent: self.notes.get(index).is_some_and(|told| told.note.accent),
        }
    }
}
