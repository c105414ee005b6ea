//! Comping with all that is known of it.

use fretloom_fretboard::{FretRange, HandPosition, Neck, VoiceMovement};
use fretloom_theory::{
    BarLabel, NamedPitch, Note, NoteName, Part, Pitch, Quarters, Score, SpelledTriad, WhichTriad,
};

use super::moments::{Moment, struck};
use super::question::CompingQuestion;
use super::refused::refused;
use crate::answer::changes::ChangesAnswer;
use crate::answer::line::LineChord;
use crate::answer::refusal::Refusal;
use crate::answer::shapes::{NamedShape, to_a_tenth};
use crate::answer::tunings::TuningAnswer;
use crate::picture::{Tab, TabEvent, TabMusic, TimesFrom};

/// Pairs as stabs, and where the hand takes them.
///
/// # Example
///
/// ```
/// use fretloom::answer::{
///     ChangesAnswer, ChangesQuestion, CompingAnswer, CompingQuestion, LineChords, find_tuning,
/// };
/// use fretloom::library::LoadedTunings;
/// use fretloom_fretboard::Neck;
/// use fretloom_theory::{BarText, Chart, Meter};
/// let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
/// let neck = Neck::new(tuning.tuning.clone());
/// let chart = Chart::of(BarText::read("| Dm7 | G7 | Cmaj7 | % |", Meter::COMMON).unwrap());
/// let changes = ChangesAnswer::new(&neck, &ChangesQuestion::of(chart)).unwrap();
/// let chords = LineChords::of_changes(&changes, changes.best());
/// let question = CompingQuestion::over(chords);
/// let comping = CompingAnswer::new(&neck, tuning, &question).unwrap();
/// assert_eq!(comping.stabs.len(), 8);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct CompingAnswer {
    /// What was asked for.
    pub question: CompingQuestion,
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The frets between which all of it lies.
    pub area: FretRange,
    /// The stabs in order of time.
    pub stabs: Vec<CompedStab>,
}

/// The answer of `changes FILE --comping`: a chart with its plan, and how that is comped.
#[derive(Clone, PartialEq, Debug)]
pub struct CompedChanges {
    /// The chart with its plan.
    pub changes: ChangesAnswer,
    /// How the pairs of the plan are comped.
    pub comping: CompingAnswer,
}

/// A triad that is struck all at once.
#[derive(Clone, PartialEq, Debug)]
pub struct CompedStab {
    /// When it begins.
    pub onset: Quarters,
    /// How long it sounds.
    pub duration: Quarters,
    /// In which bar.
    pub bar: BarLabel,
    /// Over which of the chords, from 0.
    pub chord: usize,
    /// Which triad of the chord's pair.
    pub which: WhichTriad,
    /// Where it lies, under its name.
    pub shape: NamedShape,
    /// How the voices come to it from the stab before, to the first one from the last where it goes
    /// round.
    pub movement: Option<VoiceMovement>,
}

impl CompingAnswer {
    /// How are the pairs of these chords comped?
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for, and where there is no way: the condition that
    /// fails, where, and what would help.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &CompingQuestion,
    ) -> Result<CompingAnswer, Refusal> {
        let struck = struck(&question.chords);
        let query = question.query(neck, struck.iter().map(|struck| struck.comped))?;
        let comping = query.comping(neck).map_err(|error| refused(question, &struck, error))?;
        let moments = struck.iter().flat_map(|struck| &struck.moments);
        let stabs = comping.stabs();
        let last = if question.ends { None } else { stabs.last() };
        let before = [last].into_iter().chain(stabs.iter().map(Some));
        let told = stabs.iter().zip(before).zip(moments).filter_map(|((stab, before), moment)| {
            let movement =
                before.map(|before| VoiceMovement::between(neck, &before.shape, &stab.shape));
            let (which, triad) = named(question, moment, stab.shape.triad())?;
            Some(CompedStab {
                onset: moment.onset,
                duration: moment.duration,
                bar: question.chords.bars().at(moment.onset)?.bar.label,
                chord: moment.chord,
                which,
                shape: NamedShape::new(neck, triad, &stab.shape),
                movement,
            })
        });
        let stabs = told.collect();
        Ok(CompingAnswer { question: question.clone(), tuning, area: comping.area(), stabs })
    }

    /// The chord of a stab.
    #[must_use]
    pub fn chord_of(&self, stab: &CompedStab) -> Option<&LineChord> {
        self.question.chords.chords().get(stab.chord)
    }

    /// Its music: a score of one part, the three notes of each stab one after another in the order
    /// of its strings.
    #[must_use]
    pub fn score(&self) -> Score {
        let notes = self.stabs.iter().flat_map(|stab| {
            stab.notes().filter_map(|(_, pitch)| Note::new(stab.onset, stab.duration, pitch))
        });
        let part = Part::new(notes).lasting(self.question.chords.end());
        self.question.chords.score(part, self.question.tempo)
    }

    /// All of it as tablature; frets and positions count from the capo.
    #[must_use]
    pub fn tab(&self, neck: &Neck) -> Tab {
        let score = self.score();
        let events: Vec<TabEvent> =
            self.stabs.iter().flat_map(|stab| self.tab_events(neck, stab)).collect();
        let music = TabMusic {
            end: self.question.chords.end(),
            ..TabMusic::of(&score, TimesFrom::Writing)
        };
        Tab::new(&music, &self.tuning.tuning, &events)
    }

    fn tab_events(&self, neck: &Neck, stab: &CompedStab) -> Vec<TabEvent> {
        let shape = &stab.shape.shape;
        let capo = neck.tuning().capo().fret().number();
        let from_capo = HandPosition::new(shape.position().number().saturating_sub(capo));
        let over = self.chord_of(stab).map(|chord| &chord.over);
        let event = |(index, (name, pitch)): (usize, (NoteName, NamedPitch))| {
            let place = shape.places().get(index).copied()?;
            Some(TabEvent {
                finger: shape.fingers().and_then(|fingers| fingers.get(index).copied()),
                position: Some(from_capo.unwrap_or(HandPosition::FIRST)),
                degree: over.map(|over| over.degree(pitch.pitch().pitch_class())),
                name: Some(name),
                triad: Some(stab.which),
                ..TabEvent::new(stab.onset, stab.duration, place.string, neck.tab_number(place))
            })
        };
        stab.notes().enumerate().filter_map(event).collect()
    }
}

impl CompedStab {
    /// The highest of its notes.
    #[must_use]
    pub fn top(&self) -> Pitch {
        let [_, _, top] = self.shape.shape.going_up();
        top
    }

    /// The longest way that a voice goes to it, to a tenth of a millimetre; `None` where nothing comes
    /// before.
    #[must_use]
    pub fn moved_mm(&self) -> Option<f64> {
        self.movement.map(|movement| to_a_tenth(movement.largest_mm()))
    }

    /// Its notes, from the highest string number to the lowest, each with its name.
    pub fn notes(&self) -> impl Iterator<Item = (NoteName, NamedPitch)> {
        self.shape.shape.pitches().into_iter().map(|pitch| {
            let named = self.shape.triad.member(pitch.pitch_class()).map(|(_, name)| name);
            let of_pitch = NamedPitch::everyday(pitch);
            let called = named.and_then(|name| NamedPitch::called(name, pitch));
            (named.unwrap_or(of_pitch.name()), called.unwrap_or(of_pitch))
        })
    }
}

/// Which triad of its chord's pair a triad is, and what it is called there.
fn named(
    question: &CompingQuestion,
    moment: &Moment,
    triad: fretloom_theory::Triad,
) -> Option<(WhichTriad, SpelledTriad)> {
    let pair = question.chords.chords().get(moment.chord)?.pair;
    let which = WhichTriad::BOTH.into_iter().zip(pair.names());
    which.into_iter().find(|(which, _)| which.triad_of(pair.pair()).set() == triad.set())
}
