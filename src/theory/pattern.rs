//! Patterns: in which order the notes of two triads come.

mod figures;
mod read;

pub use figures::{Figure, Figures};

use std::fmt;

/// In which order the notes of a pair come, whatever pair it is: groups that go round and round.
///
/// Figures count the notes of a triad upward from the lowest of the inversion in hand: `1 2 3`, then
/// `4 5 6` the same an octave up, and `0` the highest an octave down. Beside them
///
/// | sign | meaning |
/// |---|---|
/// | `-` | a rest |
/// | `_` | holds the note before |
/// | `a` `A` | a half step below, above the note that follows |
/// | `s` | the scale note between its neighbours, next to the one that follows |
/// | `p` | the first note of the phrase again |
/// | `(13)` | sound together |
/// | `>` | accents what follows |
/// | `=` | before a group: it stays on the triad of the group before |
///
/// Other groups alternate between the two triads. A group without figures belongs to neither.
///
/// # Example
///
/// ```
/// use fretloom_theory::Pattern;
/// let pattern: Pattern = "1232 321 a".parse().unwrap();
/// assert_eq!((pattern.groups().len(), pattern.length()), (3, 8));
/// let error = "12 8".parse::<Pattern>().unwrap_err();
/// assert_eq!(error.at(), 4);
/// ```
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Pattern {
    groups: Vec<PatternGroup>,
}

/// Signs that belong together.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct PatternGroup {
    turn: Turn,
    signs: Vec<PatternSign>,
}

/// Whose turn it is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Turn {
    /// The triad's that did not have the group before.
    Other,
    /// The same one's again: `=`.
    Same,
}

/// One sign with its accent.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct PatternSign {
    /// What is played.
    pub sign: Sign,
    /// Is it accented?
    pub accent: bool,
}

/// What is played for one value of the rhythm.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Sign {
    /// Notes of the triad.
    Figures(Figures),
    /// Nothing.
    Rest,
    /// The note before goes on.
    Hold,
    /// A half step below the note that follows.
    HalfStepBelow,
    /// A half step above it.
    HalfStepAbove,
    /// The scale note between.
    ScaleStep,
    /// The first note of the phrase.
    FirstNote,
}

impl Pattern {
    /// The most signs that a pattern has.
    pub const LONGEST: usize = 256;

    /// `123`: the notes of each triad, going up.
    #[must_use]
    pub fn threes_up() -> Pattern {
        Pattern { groups: vec![PatternGroup::of(&[1, 2, 3])] }
    }

    /// `1232 321`: four of one triad and three of the other, turning round.
    #[must_use]
    pub fn four_and_three() -> Pattern {
        Pattern { groups: vec![PatternGroup::of(&[1, 2, 3, 2]), PatternGroup::of(&[3, 2, 1])] }
    }

    /// Its groups, at least one of which has figures.
    #[must_use]
    pub fn groups(&self) -> &[PatternGroup] {
        &self.groups
    }

    /// How many values of a rhythm it takes: one a sign.
    #[must_use]
    pub fn length(&self) -> usize {
        self.groups.iter().map(|group| group.signs.len()).sum()
    }

    /// Its last sign.
    pub(crate) fn last_sign(&self) -> Option<Sign> {
        self.groups.last()?.signs.last().map(|sign| sign.sign)
    }

    /// After how many signs it begins again with the same triad: its length, or twice that.
    #[must_use]
    pub fn period(&self) -> usize {
        let swaps = |group: &&PatternGroup| group.has_figures() && group.turn == Turn::Other;
        let is_odd = self.groups.iter().filter(swaps).count() % 2 == 1;
        self.length() * if is_odd { 2 } else { 1 }
    }

    /// The same with the middle note of each triad an octave higher: wide leaps.
    ///
    /// ```
    /// use fretloom_theory::Pattern;
    /// let close: Pattern = "123 (12)".parse().unwrap();
    /// assert_eq!(close.wide().to_string(), "153 (15)");
    /// ```
    #[must_use]
    pub fn wide(&self) -> Pattern {
        self.with_each_sign(|sign| match sign {
            Sign::Figures(figures) => Sign::Figures(figures.wide()),
            other => other,
        })
    }

    fn with_each_sign(&self, change: impl Fn(Sign) -> Sign) -> Pattern {
        let mut pattern = self.clone();
        for sign in pattern.groups.iter_mut().flat_map(|group| &mut group.signs) {
            sign.sign = change(sign.sign);
        }
        pattern
    }
}

impl PatternGroup {
    /// One figure after the other; numbers that are none are left out.
    fn of(numbers: &[u8]) -> PatternGroup {
        let figures = numbers.iter().filter_map(|number| Figure::new(*number));
        let sign =
            |figure| PatternSign { sign: Sign::Figures(Figures::one(figure)), accent: false };
        PatternGroup { turn: Turn::Other, signs: figures.map(sign).collect() }
    }

    /// Whose turn it is.
    #[must_use]
    pub fn turn(&self) -> Turn {
        self.turn
    }

    /// Its signs, at least one.
    #[must_use]
    pub fn signs(&self) -> &[PatternSign] {
        &self.signs
    }

    /// Does it belong to a triad?
    #[must_use]
    pub fn has_figures(&self) -> bool {
        self.signs.iter().any(|sign| matches!(sign.sign, Sign::Figures(_)))
    }
}

impl fmt::Display for Pattern {
    /// `132 =32`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, group) in self.groups.iter().enumerate() {
            let gap = if index > 0 { " " } else { "" };
            let stays = if group.turn == Turn::Same { "=" } else { "" };
            write!(f, "{gap}{stays}")?;
            group.signs.iter().try_for_each(|sign| sign.fmt(f))?;
        }
        Ok(())
    }
}

impl fmt::Display for PatternSign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.accent {
            f.write_str(">")?;
        }
        match self.sign {
            Sign::Figures(figures) => figures.fmt(f),
            Sign::Rest => f.write_str("-"),
            Sign::Hold => f.write_str("_"),
            Sign::HalfStepBelow => f.write_str("a"),
            Sign::HalfStepAbove => f.write_str("A"),
            Sign::ScaleStep => f.write_str("s"),
            Sign::FirstNote => f.write_str("p"),
        }
    }
}

#[cfg(test)]
mod tests;
