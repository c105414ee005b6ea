//! Notes to arrive at, as they are typed.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::{Approach, Degree, NoteName, PitchClass, Quarters, ReadError, Timing};

use super::bar_beat::{BarBeat, InBeat};

/// A note to arrive at, as it is typed: `3@5.1`, the third of the chord on the first beat of bar 5, or
/// `B@5.1`.
///
/// `&` after the beat is half a beat later: `3@2.4&`. After a colon each may stand how it is
/// reached (`any`, `step`, `below` and `above` by a half step, `enclosure`) and whether it comes an
/// eighth `early` or `late`: `7@3.1:below:early`. Unasked it is reached by a scale step, on time.
///
/// ```
/// use fretloom::answer::LineTarget;
/// let target: LineTarget = "3@5.1:below".parse()?;
/// assert_eq!((target.bar, target.beat), (5, 1));
/// assert_eq!(target.to_string(), "3@5.1:below");
/// let error = "3@5".parse::<LineTarget>().unwrap_err();
/// assert_eq!(error.at(), 4);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LineTarget {
    /// Which note.
    pub wanted: Wanted,
    /// In which bar, as bars are counted: from 1, and 0 for a pick-up.
    pub bar: u64,
    /// On which beat, from 1.
    pub beat: u32,
    /// On the beat, or half a beat after it?
    pub place: InBeat,
    /// How it is reached.
    pub approach: Approach,
    /// Whether it comes when it should.
    pub timing: Timing,
}

/// Which note a target is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Wanted {
    /// What it is over the chord of its moment.
    Degree(Degree),
    /// A note by its name, in any octave.
    Note(NoteName),
}

const WHAT: &str = "target";

/// How a target may be reached, by its word.
const APPROACHES: [(&str, Approach); 5] = [
    ("any", Approach::Any),
    ("step", Approach::Step),
    ("below", Approach::HalfStepBelow),
    ("above", Approach::HalfStepAbove),
    ("enclosure", Approach::Enclosure),
];

/// When it may come, by its word.
const TIMINGS: [(&str, Timing); 3] = [
    ("early", Timing::Early(Quarters::EIGHTH)),
    ("late", Timing::Late(Quarters::EIGHTH)),
    ("on-time", Timing::OnTime),
];

impl FromStr for LineTarget {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is not a degree, `@`, a bar, a dot and a beat, with known words after colons.
    fn from_str(text: &str) -> Result<LineTarget, ReadError> {
        let wrong = |at: usize, expected: &'static str| {
            ReadError::at_character(WHAT, text, at + 1, expected)
        };
        let mut parts = text.split(':');
        let head = parts.next().unwrap_or_default();
        let (degree, moment) = head
            .split_once('@')
            .ok_or_else(|| wrong(head.chars().count(), "@ and when, as in 3@5.1"))?;
        let start = degree.chars().count() + 2;
        let wanted =
            degree.trim().parse().map_err(|error: ReadError| error.within(WHAT, text, 1))?;
        let moment = moment.parse::<BarBeat>().map_err(|error| error.within(WHAT, text, start))?;
        let BarBeat { bar, beat, place } = moment;
        let (approach, timing) = (Approach::Step, Timing::OnTime);
        let mut target = LineTarget { wanted, bar, beat, place, approach, timing };
        let mut at = head.chars().count() + 1;
        for word in parts {
            target.take(word.trim()).ok_or_else(|| wrong(at, WORDS))?;
            at += word.chars().count() + 1;
        }
        Ok(target)
    }
}

impl Wanted {
    /// The note over the root of a chord.
    #[must_use]
    pub fn class_over(self, root: PitchClass) -> PitchClass {
        match self {
            Wanted::Degree(degree) => degree.over(root),
            Wanted::Note(name) => name.pitch_class(),
        }
    }
}

impl FromStr for Wanted {
    type Err = ReadError;

    /// A capital letter begins a note: a small `b` is a flat, as in `b7`.
    ///
    /// # Errors
    ///
    /// Where the text is neither a degree nor a note.
    fn from_str(text: &str) -> Result<Wanted, ReadError> {
        if text.starts_with(|first: char| first.is_ascii_uppercase()) {
            return text.parse().map(Wanted::Note);
        }
        text.parse().map(Wanted::Degree)
    }
}

impl fmt::Display for Wanted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wanted::Degree(degree) => degree.fmt(f),
            Wanted::Note(name) => name.fmt(f),
        }
    }
}

/// What may stand after a colon.
const WORDS: &str = "any, step, below, above, enclosure, early or late";

impl LineTarget {
    /// When it comes.
    #[must_use]
    pub fn moment(&self) -> BarBeat {
        BarBeat { bar: self.bar, beat: self.beat, place: self.place }
    }

    /// Takes what a word says; `None` for a word that says nothing.
    fn take(&mut self, word: &str) -> Option<()> {
        if let Some((_, approach)) = APPROACHES.iter().find(|(known, _)| *known == word) {
            self.approach = *approach;
            return Some(());
        }
        let (_, timing) = TIMINGS.iter().find(|(known, _)| *known == word)?;
        self.timing = *timing;
        Some(())
    }

    fn words(&self) -> impl Iterator<Item = &'static str> {
        let approach = APPROACHES.iter().find(|(_, approach)| *approach == self.approach);
        let timing = TIMINGS.iter().find(|(_, timing)| *timing == self.timing);
        let approach = approach.filter(|(_, approach)| *approach != Approach::Step);
        let timing = timing.filter(|(_, timing)| *timing != Timing::OnTime);
        approach.map(|(word, _)| *word).into_iter().chain(timing.map(|(word, _)| *word))
    }
}

impl fmt::Display for LineTarget {
    /// As it is typed; `{:#}` in ASCII.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.wanted.fmt(f)?;
        write!(f, "@{}", self.moment())?;
        self.words().try_for_each(|word| write!(f, ":{word}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_print_as_they_are_typed() {
        for text in [
            "3@5.1",
            "b7@2.4&",
            "#11@0.3:enclosure",
            "9@12.2&:above:late",
            "1@1.2:early",
            "Bb@2.1:below",
        ] {
            let target: LineTarget = text.parse().unwrap();
            assert_eq!(format!("{target:#}"), text);
        }
        let plain: LineTarget = "3@5.1:step:on-time".parse().unwrap();
        assert_eq!(plain.to_string(), "3@5.1");
    }

    #[test]
    fn each_mistake_says_where_and_what_was_expected() {
        for (text, at, expected) in [
            ("", 1, "@ and when"),
            ("3", 2, "@ and when"),
            ("8@1.1", 1, ""),
            ("H@1.1", 1, "a note letter"),
            ("Bx@1.1", 2, ""),
            ("3@", 3, "a dot and the beat"),
            ("3@5", 4, "a dot and the beat"),
            ("3@x.1", 3, "the number of a bar"),
            ("3@-1.1", 3, "the number of a bar"),
            ("3@5.0", 5, "a beat from 1"),
            ("3@5.99999999999", 5, "a beat from 1"),
            ("3@5.1:sideways", 7, "any, step, below, above, enclosure, early or late"),
            ("3@5.1:below:", 13, "any, step"),
        ] {
            let error = text.parse::<LineTarget>().unwrap_err();
            assert_eq!(error.at(), at, "{error}");
            assert!(error.expected().contains(expected), "{error}");
        }
    }
}
