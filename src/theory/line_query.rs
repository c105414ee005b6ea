//! From chords to phrases: what is asked for, and what a player would play.

mod edit;
mod exercise;
mod music;
mod rests;
mod written;

use crate::line::{
    Approach, Begin, Ending, Line, LineError, NotesFrom, Phrase, Reach, Start, Target, Timing,
    Travel,
};
use crate::time::{Bars, Quarters};
use crate::{ChordScale, Direction, Link, Pattern, PitchClassSet, Rest, Rhythm, TriadPair};

/// What a line is asked to be, over chords each of which has its pair.
///
/// What is left open is decided as a player would. Unasked, a line is music: it begins off the beat,
/// breathes for at least a beat in four bars, leads into the third or the seventh of the next chord,
/// and holds one of them at its end. An exercise is the pattern without a break.
///
/// # Example
///
/// ```
/// use fretloom_theory::{
///     Bars, ChordScale, ChordStretch, LineQuery, LineStyle, Meter, Quarters, Reach, SpelledTriad, TriadPair,
/// };
/// let over = ChordScale::over("Dm7".parse()?, "D Dorian".parse()?);
/// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(f, g).unwrap();
/// let chords = vec![ChordStretch { from: Quarters::ZERO, over, pair }];
/// let bars = Bars::of(Meter::COMMON);
/// let query = LineQuery::new(bars, chords, Quarters::whole(16)).styled(LineStyle::Exercise);
/// let line = query.line(&Reach::between(53, 77)).unwrap();
/// assert_eq!(line.notes().len(), 32);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct LineQuery {
    bars: Bars,
    chords: Vec<ChordStretch>,
    end: Quarters,
    style: LineStyle,
    pattern: Option<Pattern>,
    rhythm: Option<Rhythm>,
    travel: Option<Travel>,
    start: Option<Start>,
    at_change: AtChange,
    targets: Vec<AskedTarget>,
    /// In order of time; none where the line decides.
    written: Vec<WrittenPhrase>,
    /// In order of time, apart from one another.
    rests: Vec<Rest>,
}

/// A chord with its scale and its pair, until the next one begins.
#[derive(Clone, PartialEq, Debug)]
pub struct ChordStretch {
    /// When it begins.
    pub from: Quarters,
    /// The chord and its scale.
    pub over: ChordScale,
    /// The pair.
    pub pair: TriadPair,
}

/// Whether a line is music or an exercise.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LineStyle {
    /// A phrase that a player would play.
    Music,
    /// The unbroken pattern.
    Exercise,
}

/// What a pattern does where the chord changes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum AtChange {
    /// It runs on.
    RunsOn,
    /// It begins again with the chord.
    BeginsAgain,
    /// It ends with its last whole group and begins again with the chord.
    CutShort,
}

/// A note that is asked for at a moment.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct AskedTarget {
    /// When.
    pub at: Quarters,
    /// Which notes will do.
    pub notes: PitchClassSet,
    /// How it is reached.
    pub approach: Approach,
    /// Whether it comes when it should.
    pub timing: Timing,
}

/// A phrase as a player writes it: what is left out is taken from the chord and from the line.
#[derive(Clone, PartialEq, Debug)]
pub struct WrittenPhrase {
    /// When it begins.
    pub from: Quarters,
    /// When it ends, its target held until then; else with the next phrase, or with the line.
    pub to: Option<Quarters>,
    /// Do its pattern and rhythm begin again, or run on from the phrase before?
    pub begin: Begin,
    /// Its pair.
    pub pair: Option<TriadPair>,
    /// Its pattern.
    pub pattern: Option<Pattern>,
    /// Is the middle note of each triad an octave higher?
    pub is_wide: bool,
    /// Its rhythm.
    pub rhythm: Option<Rhythm>,
    /// How it goes from group to group.
    pub travel: Option<Travel>,
    /// Where it begins on the ladder.
    pub start: Option<Start>,
    /// What it aims at.
    pub target: Option<AskedTarget>,
    /// How it ends; as the line has it, if it does not say.
    pub ending: Option<Ending>,
    /// Where its notes come from.
    pub notes: NotesFrom,
    /// The notes that it may use, where it does not use those of the whole line.
    pub reach: Option<Reach>,
}

impl WrittenPhrase {
    /// The same phrase so many semitones higher, on the notes of the whole line; `None` where a note
    /// would be none.
    #[must_use]
    pub fn up(&self, semitones: i32) -> Option<WrittenPhrase> {
        let pair = self.pair.map(|pair| pair.triads().map(|triad| triad.up(semitones)));
        let moved = |target: AskedTarget| AskedTarget {
            notes: target.notes.transposed(semitones),
            ..target
        };
        Some(WrittenPhrase {
            pair: pair.and_then(|[first, second]| TriadPair::in_order(first, second)),
            start: match self.start {
                Some(start) => Some(start.up(semitones)?),
                None => None,
            },
            target: self.target.map(moved),
            notes: match &self.notes {
                NotesFrom::Pair => NotesFrom::Pair,
                NotesFrom::Entered(notes) => NotesFrom::Entered(notes.up(semitones)?),
            },
            reach: None,
            ..self.clone()
        })
    }
}

impl LineQuery {
    /// A line over these chords, in order, which end at `end`.
    #[must_use]
    pub fn new(bars: Bars, chords: Vec<ChordStretch>, end: Quarters) -> LineQuery {
        LineQuery {
            bars,
            chords,
            end,
            style: LineStyle::Music,
            pattern: None,
            rhythm: None,
            travel: None,
            start: None,
            at_change: AtChange::RunsOn,
            targets: Vec::new(),
            written: Vec::new(),
            rests: Vec::new(),
        }
    }

    /// As music or as an exercise.
    #[must_use]
    pub fn styled(self, style: LineStyle) -> LineQuery {
        LineQuery { style, ..self }
    }

    /// With this pattern.
    #[must_use]
    pub fn in_pattern(self, pattern: Pattern) -> LineQuery {
        LineQuery { pattern: Some(pattern), ..self }
    }

    /// With this rhythm.
    #[must_use]
    pub fn in_rhythm(self, rhythm: Rhythm) -> LineQuery {
        LineQuery { rhythm: Some(rhythm), ..self }
    }

    /// Going that way from group to group.
    #[must_use]
    pub fn travelling(self, travel: Travel) -> LineQuery {
        LineQuery { travel: Some(travel), ..self }
    }

    /// Beginning there.
    #[must_use]
    pub fn starting(self, start: Start) -> LineQuery {
        LineQuery { start: Some(start), ..self }
    }

    /// Doing that where the chord changes; music always begins again there.
    #[must_use]
    pub fn at_change(self, at_change: AtChange) -> LineQuery {
        LineQuery { at_change, ..self }
    }

    /// Arriving at these notes, in order of time. An exercise arrives nowhere.
    #[must_use]
    pub fn arriving(self, mut targets: Vec<AskedTarget>) -> LineQuery {
        targets.sort_by_key(|target| target.at);
        LineQuery { targets, ..self }
    }

    /// With these phrases instead of its own.
    #[must_use]
    pub fn written(self, mut written: Vec<WrittenPhrase>) -> LineQuery {
        written.sort_by_key(|phrase| phrase.from);
        LineQuery { written, ..self }
    }

    /// Resting there: nothing sounds meanwhile. Its own phrases come to rest before and begin again after;
    /// those that are written are silent there.
    #[must_use]
    pub fn resting(self, mut rests: Vec<Rest>) -> LineQuery {
        rests.sort_by_key(|rest| rest.from);
        LineQuery { rests, ..self }
    }

    /// Where the bars are.
    #[must_use]
    pub fn bars(&self) -> &Bars {
        &self.bars
    }

    /// The chords in order.
    #[must_use]
    pub fn chords(&self) -> &[ChordStretch] {
        &self.chords
    }

    /// When the chords end.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.end
    }

    /// The phrases that are to be played.
    #[must_use]
    pub fn phrases(&self) -> Vec<Phrase> {
        match self.style {
            _ if !self.written.is_empty() => self.written_phrases(),
            LineStyle::Exercise => self.between_rests(LineQuery::exercise),
            LineStyle::Music => self.between_rests(LineQuery::music),
        }
    }

    /// The line on these notes, each phrase on its own where it has some.
    ///
    /// # Errors
    ///
    /// Where it cannot be made: the condition that fails, and what would help.
    pub fn line(&self, reach: &Reach) -> Result<Line, LineError> {
        self.played(reach).map(|(line, _)| line)
    }

    /// The same with the phrases as they are played: a landing that nobody asked for may be reached
    /// otherwise than by step, or be left out.
    ///
    /// # Errors
    ///
    /// As for [`LineQuery::line`].
    pub fn played(&self, reach: &Reach) -> Result<(Line, Vec<Phrase>), LineError> {
        let mut phrases = self.phrases();
        loop {
            match (Line::make(&phrases, reach), self.style) {
                (Err(error), LineStyle::Music) => self.ask_less(&mut phrases, error)?,
                (made, _) => return made.map(|line| (line.resting(&self.rests), phrases)),
            }
        }
    }

    /// Of what nobody asked for, a landing that cannot be reached by step is reached as it may be,
    /// and one that cannot be reached is left out.
    fn ask_less(&self, phrases: &mut [Phrase], error: LineError) -> Result<(), LineError> {
        let (LineError::NoRoom { phrase, .. } | LineError::NoTarget { phrase }) = error else {
            return Err(error);
        };
        let phrase = phrases.get_mut(phrase);
        let target = phrase.as_ref().and_then(|phrase| phrase.target);
        let (Some(phrase), Some(target)) = (phrase, target) else { return Err(error) };
        let is_asked = self.targets.iter().any(|asked| asked.at == target.at);
        if is_asked || !self.written.is_empty() {
            return Err(error);
        }
        let any = Target { approach: Approach::Any, ..target };
        phrase.target = (target.approach != Approach::Any).then_some(any);
        Ok(())
    }

    /// When the chord with this index ends.
    fn end_of(&self, index: usize) -> Quarters {
        self.chords.get(index + 1).map_or(self.end, |next| next.from)
    }

    /// The chord that sounds at a moment; after the end the last one.
    fn chord_at(&self, moment: Quarters) -> Option<&ChordStretch> {
        let before = self.chords.iter().rev().find(|chord| chord.from <= moment);
        before.or(self.chords.first())
    }

    /// A phrase over a chord, as it is asked for.
    fn phrase(&self, chord: &ChordStretch, from: Quarters, to: Quarters) -> Phrase {
        let phrase = Phrase::new(from, to, chord.over.clone(), chord.pair);
        let linked = Travel::Linked(Link::Nearest, Direction::Up);
        let travel = match self.style {
            LineStyle::Exercise => phrase.travel,
            LineStyle::Music => linked,
        };
        let pattern = match self.style {
            LineStyle::Exercise => phrase.pattern.clone(),
            LineStyle::Music => Pattern::four_and_three(),
        };
        Phrase {
            pattern: self.pattern.clone().unwrap_or(pattern),
            rhythm: self.rhythm.clone().unwrap_or_default(),
            travel: self.travel.unwrap_or(travel),
            ..phrase
        }
    }
}

#[cfg(test)]
mod tests;
