//! The same line in one key after another.

use fretloom_fretboard::{Fret, HandPosition, Neck, Place};
use fretloom_theory::{Letter, Line, LineQuery, NoteName, Phrase, Pitch, Start, Target};

use super::answer::{LineAnswer, made, told};
use super::area::LineArea;
use super::ground::LineGround;
use super::keys::{InKey, KeyCycle, KeyFingering};
use super::note::ToldNote;
use super::played::LineWay;
use super::question::LineQuestion;
use crate::answer::finger::{FingeredAnswer, WayAnswer};
use crate::answer::refusal::Refusal;
use crate::answer::tunings::TuningAnswer;

/// The answer of `line CHORDS`: a line in one key, or in one after another.
#[derive(Clone, PartialEq, Debug)]
pub struct LinesAnswer {
    /// At least one.
    pub lines: Vec<KeyLine>,
}

/// A line in one of its keys.
#[derive(Clone, PartialEq, Debug)]
pub struct KeyLine {
    /// The key, called by the root of its last chord.
    pub key: NoteName,
    /// How the line came into it.
    pub how: InKey,
    /// The line.
    pub answer: LineAnswer,
}

impl LinesAnswer {
    /// The line in the key of its chords alone.
    ///
    /// # Errors
    ///
    /// As [`LineAnswer::new`].
    pub fn in_one_key(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
    ) -> Result<LinesAnswer, Refusal> {
        let answer = LineAnswer::new(neck, tuning, question)?;
        Ok(LinesAnswer { lines: vec![KeyLine::of(InKey::Here, answer)] })
    }

    /// A line that is there already.
    #[must_use]
    pub fn of_one(answer: LineAnswer) -> LinesAnswer {
        LinesAnswer { lines: vec![KeyLine::of(InKey::Here, answer)] }
    }

    /// The line in the twelve keys. In each it begins as near as may be to where it last began, and
    /// stays on the neck; where that takes another octave or another line, it is
    /// [said](KeyLine::how).
    ///
    /// # Errors
    ///
    /// As [`LineAnswer::new`], and where the line has no place on the neck in one of the keys.
    pub fn in_keys(
        neck: &Neck,
        tuning: TuningAnswer,
        question: &LineQuestion,
        cycle: KeyCycle,
        fingering: KeyFingering,
    ) -> Result<LinesAnswer, Refusal> {
        let ground = LineGround::of(neck, question)?;
        let query = ground.query(question)?;
        let (line, made_of) = made(&query, question, &ground)?;
        let first = LineAnswer::of(neck, tuning, question, &ground, made_of, line.notes())?;
        let mut travelling = Travelling { neck, first: &first, line: &line, up: 0, begins: None };
        let mut lines = vec![KeyLine::of(InKey::Here, first.clone())];
        for semitones in cycle.semitones_up().into_iter().skip(1) {
            let next = match fingering {
                KeyFingering::Anew => travelling.anew(semitones),
                KeyFingering::Grip => travelling.grip(semitones),
            };
            lines.push(next?);
        }
        Ok(LinesAnswer { lines })
    }
}

impl KeyLine {
    fn of(how: InKey, answer: LineAnswer) -> KeyLine {
        // There is at least one chord.
        let key = answer.question.chords.key();
        let key = key.unwrap_or(NoteName::natural(Letter::C));
        KeyLine { key, how, answer }
    }
}

/// A line on its way through the keys.
struct Travelling<'a> {
    neck: &'a Neck,
    first: &'a LineAnswer,
    line: &'a Line,
    /// How many semitones above the first the last one was.
    up: i32,
    /// Where the last one began, if it was made anew.
    begins: Option<Pitch>,
}

impl Travelling<'_> {
    /// The line in the key so many semitones up, in the same area.
    fn anew(&mut self, semitones: u8) -> Result<KeyLine, Refusal> {
        let mut question = self.question_in(semitones);
        let ground = LineGround::of(self.neck, &question)?;
        let made_of = self.phrases_of(&ground.query(&question)?);
        for (up, how) in self.ways(semitones) {
            let fits = self.line.up(up).filter(|line| fits(line, &made_of, &ground));
            let Some(line) = fits else { continue };
            let tuning = self.first.tuning.clone();
            let (made_of, notes) = (made_of.clone(), line.notes());
            let answer = LineAnswer::of(self.neck, tuning, &question, &ground, made_of, notes);
            if let Ok(answer) = answer {
                (self.up, self.begins) = (up, None);
                return Ok(KeyLine::of(how, answer));
            }
        }
        let begins = self.begins.or_else(|| self.first_pitch()?.up(self.up));
        question.start = question.start.or(begins.map(Start::Near));
        let made_anew = LineAnswer::new(self.neck, self.first.tuning.clone(), &question);
        let answer = made_anew.map_err(|refusal| self.in_key(&question, refusal))?;
        self.begins = answer.notes.first().map(|told| told.note.pitch);
        // Later keys are counted from where this line began.
        let by = self.first_pitch().zip(self.begins);
        self.up = by.map_or(self.up, |(first, now)| first.semitones_up_to(now));
        Ok(KeyLine::of(InKey::MadeAnew, answer))
    }

    /// The line in the key so many semitones up, with the same grip.
    fn grip(&mut self, semitones: u8) -> Result<KeyLine, Refusal> {
        let question = self.question_in(semitones);
        let query = question.query(None, &[])?;
        for (up, how) in self.ways(semitones) {
            if let Some(answer) = self.moved_grip(&question, &query, up) {
                self.up = up;
                return Ok(KeyLine::of(how, answer));
            }
        }
        let key = question.chords.key().map(|key| key.to_string()).unwrap_or_default();
        Err(Refusal::NoGrip { key, has_open: self.has_open() })
    }

    fn moved_grip(
        &self,
        question: &LineQuestion,
        query: &LineQuery,
        up: i32,
    ) -> Option<LineAnswer> {
        let line = self.line.up(up)?;
        let made_of = self.phrases_of(query);
        let notes = told(question, &made_of, line.notes());
        let ways = self.first.ways.iter().map(|way| {
            let moved = way.way.notes.iter().zip(&notes).map(|(at, told)| self.moved(at, told, up));
            let way = WayAnswer { notes: moved.collect::<Option<_>>()?, ..way.way.clone() };
            Some(LineWay::of(question, &notes, way))
        });
        let ways = ways.collect::<Option<Vec<_>>>()?;
        Some(LineAnswer::played(self.first.tuning.clone(), question, made_of, notes, ways))
    }

    /// A note so many frets up on its string; `None` for an open string, and beyond the neck and
    /// the frets that are wanted.
    fn moved(&self, at: &FingeredAnswer, told: &ToldNote, up: i32) -> Option<FingeredAnswer> {
        let neck = self.neck;
        let higher = |number: u8| u8::try_from(i32::from(number) + up).ok();
        let fret = Fret::new(higher(at.place.fret.number())?).filter(|fret| !fret.is_open())?;
        let place = Place::new(at.place.string, fret);
        let sounds = neck.pitch_at(place) == Some(told.note.pitch) && !at.place.fret.is_open();
        let is_wanted = self.area_of(told)?.region.contains(neck, place);
        let position = HandPosition::new(higher(at.position.number())?)?;
        (sounds && is_wanted).then_some(FingeredAnswer {
            pitch: told.note.pitch,
            place,
            fret: neck.fret_number(place),
            tab: neck.tab_number(place),
            finger: at.finger,
            position,
        })
    }

    /// Where the phrase of a note is played.
    fn area_of(&self, told: &ToldNote) -> Option<LineArea> {
        let question = &self.first.question;
        match question.own_area(told.note.phrase) {
            Some((own, _)) => question.area.of_phrase(&own, self.neck).ok(),
            None => Some(question.area),
        }
    }

    /// How far the line may be moved for a key, nearest to where it last began first.
    fn ways(&self, semitones: u8) -> Vec<(i32, InKey)> {
        let away = |up: i32| (up - self.up).abs();
        let mut ups: Vec<i32> = (-5..=5).map(|octave| i32::from(semitones) + 12 * octave).collect();
        ups.sort_by_key(|up| (away(*up), up.abs()));
        let nearest = ups.first().copied().unwrap_or_default();
        let how = |up: i32| match (up - nearest) / 12 {
            0 => InKey::Moved,
            octaves => InKey::Octaves(octaves as i8),
        };
        ups.into_iter().map(|up| (up, how(up))).collect()
    }

    fn question_in(&self, semitones: u8) -> LineQuestion {
        self.first.question.up(semitones)
    }

    /// The phrases of the line in another key, which land as they do in the first.
    fn phrases_of(&self, query: &LineQuery) -> Vec<Phrase> {
        let landing = |(phrase, first): (Phrase, &Phrase)| {
            let target = phrase.target.zip(first.target);
            let target = target.map(|(own, first)| Target { approach: first.approach, ..own });
            Phrase { target, ..phrase }
        };
        query.phrases().into_iter().zip(self.first.made_of()).map(landing).collect()
    }

    fn first_pitch(&self) -> Option<Pitch> {
        self.line.notes().first().map(|note| note.pitch)
    }

    fn has_open(&self) -> bool {
        let best = self.first.ways.first();
        best.is_some_and(|way| way.way.notes.iter().any(|at| at.place.fret.is_open()))
    }

    fn in_key(&self, question: &LineQuestion, refusal: Refusal) -> Refusal {
        let key = question.chords.key().map(|key| key.to_string()).unwrap_or_default();
        Refusal::InKey { key, refusal: Box::new(refusal) }
    }
}

/// Do all notes of a line lie where its phrases may?
fn fits(line: &Line, made_of: &[Phrase], ground: &LineGround) -> bool {
    line.notes().iter().all(|note| ground.holds(made_of, note))
}
