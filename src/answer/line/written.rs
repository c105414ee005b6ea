//! A line as it is written to files of music.

use fretloom_fretboard::Instrument;
use fretloom_theory::{
    Chord, ChordSymbol, ClickBeats, DroneChord, KeySignature, Quarters, Reading, Score, Swing,
    Timeline,
};

use super::answer::LineAnswer;
use super::lines::LinesAnswer;
use super::note::ToldNote;
use super::played::LineWay;
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
        let of_chords = self.question.chords.chords().iter().filter_map(|chord| chord.over.chord());
        let chords: Vec<Chord> = of_chords.cloned().collect();
        let home = Reading::home(&chords).and_then(KeySignature::of_key);
        let names = || self.notes.iter().map(|told: &ToldNote| told.name);
        home.unwrap_or_else(|| KeySignature::fewest_accidentals(names()))
    }

    /// `Line over Dm7 G7 Cmaj7`
    fn title(&self) -> String {
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

/// `Guitar`
fn part_name(instrument: &Instrument) -> String {
    let mut letters = instrument.word().chars();
    let first = letters.next().map(|letter| letter.to_uppercase().collect::<String>());
    first.unwrap_or_default() + letters.as_str()
}
