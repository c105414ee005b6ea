//! Phrases: what is played over a stretch of time.

use super::free_notes::FreeNotes;
use super::reach::Reach;
use crate::time::Quarters;
use crate::{
    ChordScale, Direction, Inversion, Pattern, Pitch, PitchClassSet, Rhythm, TriadPair, WhichTriad,
};

/// What is played over a stretch of time: a pair in a pattern and a rhythm.
///
/// It is a plain record of what a player decides.
#[derive(Clone, PartialEq, Debug)]
pub struct Phrase {
    /// When it may begin.
    pub from: Quarters,
    /// When the next one may.
    pub to: Quarters,
    /// The chord and its scale.
    pub over: ChordScale,
    /// The pair.
    pub pair: TriadPair,
    /// Which triad comes first.
    pub first: WhichTriad,
    /// In which order the notes come.
    pub pattern: Pattern,
    /// How long they are.
    pub rhythm: Rhythm,
    /// Whether it is a beginning, or goes on where the last phrase was.
    pub begin: Begin,
    /// Where on the ladder it begins.
    pub start: Start,
    /// How it goes from group to group.
    pub travel: Travel,
    /// How it ends.
    pub ending: Ending,
    /// What it aims at.
    pub target: Option<Target>,
    /// Where its notes come from.
    pub notes: NotesFrom,
    /// The notes that it may use, where it does not use those of the whole line.
    pub reach: Option<Reach>,
}

/// Where the notes of a phrase come from.
#[derive(Clone, PartialEq, Debug)]
pub enum NotesFrom {
    /// From its pair, by its pattern and rhythm.
    Pair,
    /// They are entered one by one and belong to no pair.
    Entered(FreeNotes),
}

/// Whether a phrase is a beginning.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Begin {
    /// Pattern and rhythm start again.
    Again,
    /// Pattern and rhythm run on from the last phrase, over the change of chord.
    RunsOn,
}

/// Where a phrase begins.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Start {
    /// On the lowest place of this inversion of its first triad.
    Lowest(Inversion),
    /// With this note as the lowest of the inversion in hand.
    Bass(Pitch),
    /// As near to this note as there is: after the last phrase, to its last note.
    Near(Pitch),
    /// As near as there is to the last note before; in the middle where there is none.
    FromBefore,
}

impl Start {
    /// The same beginning of a phrase that is so many semitones higher; `None` where the note would
    /// be none.
    #[must_use]
    pub fn up(self, semitones: i32) -> Option<Start> {
        match self {
            Start::Lowest(_) | Start::FromBefore => Some(self),
            Start::Bass(pitch) => pitch.up(semitones).map(Start::Bass),
            Start::Near(pitch) => pitch.up(semitones).map(Start::Near),
        }
    }
}

/// How a phrase goes from group to group.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Travel {
    /// To the next shape of the other triad on the ladder.
    Ladder(Direction),
    /// To the note of the other triad that the link asks for; where it lands decides the inversion.
    /// The direction decides where two are equally near.
    Linked(Link, Direction),
    /// Between two shapes.
    Stay,
    /// Up the ladder and down again, so that its one highest note comes in the third quarter.
    Arc,
}

impl Travel {
    /// The direction in which it begins.
    #[must_use]
    pub const fn direction(self) -> Direction {
        match self {
            Travel::Ladder(direction) | Travel::Linked(_, direction) => direction,
            Travel::Stay | Travel::Arc => Direction::Up,
        }
    }
}

/// To which note a group is linked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Link {
    /// The next one below.
    Below,
    /// The next one above.
    Above,
    /// The nearest.
    Nearest,
}

/// How a phrase ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ending {
    /// Wherever the pattern is.
    Anywhere,
    /// After the last whole group: what is left is a rest.
    WholeGroup,
}

/// A note to arrive at. It ends the phrase.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Target {
    /// Which notes will do, in any octave; the one that is led to best is taken.
    pub notes: PitchClassSet,
    /// When, within the phrase or where the next one begins.
    pub at: Quarters,
    /// How long it is held.
    pub length: Quarters,
    /// How it is reached.
    pub approach: Approach,
    /// Whether it comes when it should.
    pub timing: Timing,
    /// The pair that it may belong to: that of the chord on which it lands.
    pub pair: Option<TriadPair>,
}

impl Target {
    /// When it sounds; `None` where that would be before the beginning of all.
    #[must_use]
    pub fn onset(&self) -> Option<Quarters> {
        match self.timing {
            Timing::OnTime => Some(self.at),
            Timing::Early(by) => self.at.checked_sub(by),
            Timing::Late(by) => self.at.checked_add(by),
        }
    }
}

/// How a target is reached.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Approach {
    /// From wherever the pattern is, as near as may be.
    Any,
    /// By a scale step.
    Step,
    /// From a half step below.
    HalfStepBelow,
    /// From a half step above.
    HalfStepAbove,
    /// From a scale step above and a half step below, one after the other.
    Enclosure,
}

/// Whether a target comes when it should.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Timing {
    /// It does.
    OnTime,
    /// It comes so much before, and holds on.
    Early(Quarters),
    /// It comes so much later: the approach stands in its place.
    Late(Quarters),
}

impl Phrase {
    /// A phrase in threes and eighths that climbs from the lowest root position of the pair's first
    /// triad, and goes on from the last one where there was one.
    ///
    /// ```
    /// use fretloom_theory::{ChordScale, Phrase, Quarters, SpelledTriad, TriadPair};
    /// let over = ChordScale::alone("D Dorian".parse().unwrap());
    /// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    /// let pair = TriadPair::in_order(f, g).unwrap();
    /// let phrase = Phrase::new(Quarters::ZERO, Quarters::whole(4), over, pair);
    /// assert_eq!(phrase.pattern.to_string(), "123");
    /// ```
    #[must_use]
    pub fn new(from: Quarters, to: Quarters, over: ChordScale, pair: TriadPair) -> Phrase {
        Phrase {
            from,
            to,
            over,
            pair,
            first: WhichTriad::First,
            pattern: Pattern::threes_up(),
            rhythm: Rhythm::eighths(),
            begin: Begin::Again,
            start: Start::Lowest(Inversion::Root),
            travel: Travel::Ladder(Direction::Up),
            ending: Ending::Anywhere,
            target: None,
            notes: NotesFrom::Pair,
            reach: None,
        }
    }

    /// When its target should come, where the note that begins at a moment is its landing: an early
    /// one speaks a chord that is still to come.
    ///
    /// ```
    /// use fretloom_theory::{
    ///     Approach, ChordScale, Phrase, PitchClass, PitchClassSet, Quarters, SpelledTriad, Target, Timing, TriadPair,
    /// };
    /// let over = ChordScale::alone("D Dorian".parse().unwrap());
    /// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    /// let pair = TriadPair::in_order(f, g).unwrap();
    /// let (at, length) = (Quarters::whole(4), Quarters::whole(2));
    /// let notes = PitchClassSet::EMPTY.with(PitchClass::new(11));
    /// let timing = Timing::Early(Quarters::EIGHTH);
    /// let target = Target { notes, at, length, approach: Approach::Any, timing, pair: None };
    /// let phrase = Phrase::new(Quarters::ZERO, at, over, pair);
    /// let phrase = Phrase { target: Some(target), ..phrase };
    /// assert_eq!(phrase.lands_at(Quarters::new(7, 2).unwrap()), Some(at));
    /// assert_eq!(phrase.lands_at(at), None);
    /// ```
    #[must_use]
    pub fn lands_at(&self, moment: Quarters) -> Option<Quarters> {
        let target = self.target?;
        (target.onset() == Some(moment)).then_some(target.at)
    }

    /// The same onsets and figures over another chord with its pair, so much later, with an ending
    /// of its own.
    #[must_use]
    pub fn answer(
        &self,
        later: Quarters,
        over: ChordScale,
        pair: TriadPair,
        target: Option<Target>,
    ) -> Option<Phrase> {
        let (from, to) = (self.from.checked_add(later)?, self.to.checked_add(later)?);
        let (begin, start) = (Begin::Again, Start::FromBefore);
        Some(Phrase { from, to, over, pair, target, begin, start, ..self.clone() })
    }

    /// The same so much later within its time.
    #[must_use]
    pub fn displaced(&self, by: Quarters) -> Option<Phrase> {
        let from = self.from.checked_add(by).filter(|from| *from < self.to)?;
        Some(Phrase { from, ..self.clone() })
    }

    /// The same with the middle note of each triad an octave higher.
    #[must_use]
    pub fn wide(&self) -> Phrase {
        Phrase { pattern: self.pattern.wide(), ..self.clone() }
    }
}
