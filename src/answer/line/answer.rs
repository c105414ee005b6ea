//! A line with all that is known of it.

use fretloom_fretboard::{HandPosition, Neck};
use fretloom_theory::{
    BarLabel, ComesRound, Explanation, Line, LineError, LineQuery, MadeNote, Note, NotesFrom, Part,
    Pattern, Phrase, PhraseNote, Quarters, Rhythm, Role, Score, Start,
};

use super::bar_beat::BarBeat;
use super::ground::LineGround;
use super::note::{Teller, ToldNote, landing_of};
use super::played::LineWay;
use super::question::LineQuestion;
use super::target::{LineTarget, Wanted};
use crate::answer::pairs::NamedPair;
use crate::answer::refusal::Refusal;
use crate::answer::tunings::TuningAnswer;
use crate::picture::{Tab, TabEvent, TabMusic, TimesFrom};

/// The answer of `line CHORDS` in one key.
#[derive(Clone, PartialEq, Debug)]
pub struct LineAnswer {
    /// What was asked for.
    pub question: LineQuestion,
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The phrases in order.
    pub phrases: Vec<LinePhrase>,
    /// The notes in order of time.
    pub notes: Vec<ToldNote>,
    /// The ways to play them, the best first; at least one.
    pub ways: Vec<LineWay>,
    /// How many changes of single notes do not fit it as it is now: they lead to no note, or the note
    /// is not there.
    pub unmade_edits: usize,
    /// What was played over which stretch of time.
    made_of: Vec<Phrase>,
}

/// A phrase of a line, as it is told.
#[derive(Clone, PartialEq, Debug)]
pub struct LinePhrase {
    /// In which bar it begins.
    pub bar: BarLabel,
    /// Its pair and how that is played; `None` where its notes were entered one by one.
    pub of_pair: Option<PairPhrase>,
    /// Where it lands, if it is aimed at something.
    pub target: Option<LineTarget>,
}

/// What a phrase makes of a pair.
#[derive(Clone, PartialEq, Debug)]
pub struct PairPhrase {
    /// The pair.
    pub pair: NamedPair,
    /// In which order the notes come.
    pub pattern: Pattern,
    /// How long they are.
    pub rhythm: Rhythm,
}

impl LineAnswer {
    /// The line that is asked for, on this neck.
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for, where the line cannot be made there, with
    /// what would help, and where no hand can play it.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
    ) -> Result<LineAnswer, Refusal> {
        LineAnswer::on(&LineGround::of(neck, question)?, neck, tuning, question)
    }

    /// The same on what it may use, which has been found already.
    ///
    /// # Errors
    ///
    /// Where the line cannot be made there, with what would help, and where no hand can play it.
    pub fn on(
        ground: &LineGround,
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
    ) -> Result<LineAnswer, Refusal> {
        let query = ground.query(question)?;
        let (line, made_of) = made(&query, question, ground)?;
        LineAnswer::of(neck, tuning, question, ground, made_of, line.notes())
    }

    pub(super) fn of(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
        ground: &LineGround,
        made_of: Vec<Phrase>,
        notes: &[PhraseNote],
    ) -> Result<LineAnswer, Refusal> {
        let notes = told(question, &made_of, notes);
        let ways = LineWay::all(neck, question, ground, &notes, &[])?;
        Ok(LineAnswer::played(tuning, question, made_of, notes, ways))
    }

    /// Notes with the ways to play them.
    pub(super) fn played(
        tuning: TuningAnswer,
        question: &LineQuestion,
        made_of: Vec<Phrase>,
        notes: Vec<ToldNote>,
        ways: Vec<LineWay>,
    ) -> LineAnswer {
        let phrase =
            |(index, phrase): (usize, &Phrase)| LinePhrase::of(question, &notes, index, phrase);
        let phrases = made_of.iter().enumerate().filter_map(phrase).collect();
        let question = question.clone();
        LineAnswer { question, tuning, phrases, notes, ways, unmade_edits: 0, made_of }
    }

    /// What was played over which stretch of time, one for each of its phrases.
    #[must_use]
    pub fn made_of(&self) -> &[Phrase] {
        &self.made_of
    }

    /// Which of the phrases that the player wrote this one is, or is a part of, from 0; where none
    /// are written, it is itself.
    #[must_use]
    pub fn asked_phrase(&self, index: usize) -> usize {
        self.question.phrases.get(index).map_or(index, |phrase| phrase.asked)
    }

    /// The phrases that are parts of one that the player wrote, or are that one: a phrase that goes
    /// through several notes comes in a part up to each.
    pub fn parts_of(&self, asked: usize) -> impl Iterator<Item = usize> + '_ {
        (0..self.made_of.len()).filter(move |index| self.asked_phrase(*index) == asked)
    }

    /// When the pattern of its first phrase comes round with the bar; `None` where that is after
    /// more bars than anybody plays.
    #[must_use]
    pub fn comes_round(&self) -> Option<ComesRound> {
        let phrase = self.phrases.iter().find_map(|phrase| phrase.of_pair.as_ref())?;
        let meter = self.question.chords.bars().bar(0)?.meter;
        ComesRound::of(&phrase.pattern, &phrase.rhythm, meter)
    }

    /// When it ends: with the last bar of its chords, or with its last note.
    #[must_use]
    pub fn end(&self) -> Quarters {
        let last = self.notes.iter().map(|told| told.note.end()).max();
        self.question.chords.end().max(last.unwrap_or_default())
    }

    /// Its music: a score of one part, in the order of its notes.
    #[must_use]
    pub fn score(&self) -> Score {
        let note = |told: &ToldNote| {
            let PhraseNote { onset, duration, .. } = told.note;
            let note = Note::new(onset, duration, told.named_pitch())?;
            Some(note.tied_at(told.ties.iter().copied()))
        };
        let part = Part::new(self.notes.iter().filter_map(note)).lasting(self.end());
        self.question.chords.score(part, self.question.tempo)
    }

    /// What it does, bar by bar.
    #[must_use]
    pub fn explanation(&self) -> Explanation {
        let score = self.score();
        let part = score.parts.first().cloned().unwrap_or_else(|| Part::new([]));
        let made: Vec<Option<MadeNote>> =
            self.notes.iter().map(|told| self.made_note(&told.note)).collect();
        Explanation::of_made(&score, &part, &made)
    }

    /// What is known of a note of a pair. A landing in another pair speaks the chord on which it
    /// lands.
    fn made_note(&self, note: &PhraseNote) -> Option<MadeNote> {
        let Role::Triad(which) = note.role else { return None };
        let phrase = self.made_of.get(note.phrase)?;
        let landing = phrase.lands_at(note.onset);
        let next = landing.and(phrase.target).and_then(|target| target.pair);
        let pair = next.unwrap_or(phrase.pair);
        let speaks = landing.filter(|_| pair.set() != phrase.pair.set()).unwrap_or(note.onset);
        Some(MadeNote { pair, which, phrase: note.phrase, group: note.group, speaks })
    }

    /// One of its ways as tablature; frets and positions count from the capo.
    #[must_use]
    pub fn tab(&self, way: &LineWay) -> Tab {
        let score = self.score();
        let events: Vec<TabEvent> =
            (0..self.notes.len()).filter_map(|index| self.tab_event(way, index)).collect();
        let music = TabMusic { end: self.end(), ..TabMusic::of(&score, TimesFrom::Writing) };
        Tab::new(&music, &self.tuning.tuning, &events)
    }

    fn tab_event(&self, way: &LineWay, index: usize) -> Option<TabEvent> {
        let (told, at) = (self.notes.get(index)?, way.way.notes.get(index)?);
        let capo = self.tuning.tuning.capo().fret().number();
        let from_capo = HandPosition::new(at.position.number().saturating_sub(capo));
        let PhraseNote { onset, duration, role, accent, .. } = told.note;
        let which = match role {
            Role::Triad(which) => Some(which),
            Role::Free => None,
        };
        Some(TabEvent {
            ties: told.ties.clone(),
            finger: Some(at.finger),
            position: Some(from_capo.unwrap_or(HandPosition::FIRST)),
            degree: Some(told.degree),
            name: Some(told.name),
            triad: which,
            accent,
            slurred_to_next: way.slurs.get(index + 1).copied().flatten().is_some(),
            stroke: way.strokes.get(index).copied().flatten(),
            ..TabEvent::new(onset, duration, at.place.string, at.tab)
        })
    }
}

/// The line on what may be used of the neck. Where a drill has no root position to begin with and
/// nobody asks for one, it begins as low as may be. With it the phrases as they are played.
pub(super) fn made(
    query: &LineQuery,
    question: &LineQuestion,
    ground: &LineGround,
) -> Result<(Line, Vec<Phrase>), Refusal> {
    let reach = ground.reach();
    let made = match (query.played(&reach), ground.of_phrase(0).lowest()) {
        (Err(LineError::NoStart { .. }), Some(lowest)) if question.start.is_none() => {
            query.clone().starting(Start::Near(lowest)).played(&reach)
        }
        (made, _) => made,
    };
    made.map_err(|error| Refusal::NoLine { error })
}

/// What notes are over the chords.
pub(super) fn told(
    question: &LineQuestion,
    made_of: &[Phrase],
    notes: &[PhraseNote],
) -> Vec<ToldNote> {
    let teller = Teller::new(&question.chords, made_of);
    notes.iter().filter_map(|note| teller.told(*note)).collect()
}

impl LinePhrase {
    fn of(
        question: &LineQuestion,
        notes: &[ToldNote],
        index: usize,
        phrase: &Phrase,
    ) -> Option<LinePhrase> {
        let at = question.chords.bars().at(phrase.from)?;
        let mut own = notes.iter().rev().filter(|told| told.note.phrase == index);
        let landing = own.find_map(|told| Some((told, landing_of(phrase, &told.note)?)));
        Some(LinePhrase {
            bar: at.bar.label,
            of_pair: PairPhrase::of(question, phrase),
            target: landing.and_then(|(told, at)| target_of(question, phrase, told, at)),
        })
    }
}

impl PairPhrase {
    fn of(question: &LineQuestion, phrase: &Phrase) -> Option<PairPhrase> {
        let NotesFrom::Pair = phrase.notes else { return None };
        Some(PairPhrase {
            pair: question.chords.at(phrase.from)?.named(phrase.pair),
            pattern: phrase.pattern.clone(),
            rhythm: phrase.rhythm.clone(),
        })
    }
}

/// A landing as it would be typed; `None` where no part of a beat says when it comes.
fn target_of(
    question: &LineQuestion,
    phrase: &Phrase,
    landing: &ToldNote,
    moment: Quarters,
) -> Option<LineTarget> {
    let aimed = phrase.target?;
    let BarBeat { bar, beat, place } = question.chords.bar_beat(moment)?;
    let (wanted, timing) = (Wanted::Degree(landing.degree), aimed.timing);
    Some(LineTarget { wanted, bar, beat, place, approach: aimed.approach, timing })
}
