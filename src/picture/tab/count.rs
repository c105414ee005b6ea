//! Counting aloud: how a moment of a bar is called.

use std::fmt;

use fretloom_theory::{Bar, Quarters};

/// How a moment of a bar is counted aloud.
///
/// Prints as it is said: `2`, `&`, `la`, `3/5`.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Count {
    /// A beat, counted from 1.
    Beat(u64),
    /// A part of the beat before: 1/2, 1/4, 3/4, 1/3, 2/3, 1/6 or 5/6 of it, which have a syllable.
    Syllable(&'static str),
    /// Another part of the beat before.
    Part {
        /// How many parts after the beat.
        parts: u32,
        /// How many parts a beat has.
        of: u32,
    },
    /// A moment that no one counts.
    Between,
    /// Beats that are left out, since nothing begins for long.
    LeftOut,
    /// A grace note before the next moment.
    Grace,
    /// Notes of the same moment as those before.
    Rolled,
    /// So many bars in which nothing begins.
    Bars(u64),
}

/// The parts of a beat that have a syllable, as parts and how many a beat has.
pub(super) const SYLLABLES: [((u32, u32), &str); 7] = [
    ((1, 2), "&"),
    ((1, 4), "e"),
    ((3, 4), "a"),
    ((1, 3), "la"),
    ((2, 3), "li"),
    ((1, 6), "ta"),
    ((5, 6), "ti"),
];

impl Count {
    /// The finest part of a beat that is counted: a 256th note in 4/4.
    const FINEST: u32 = 64;

    /// How a moment is counted that comes `into` after the beginning of a bar.
    pub(super) fn of(bar: &Bar, into: Quarters) -> Count {
        let beats = bar.missing.checked_add(into).map(|at| at.divided_with_rest(bar.meter.beat()));
        let Some(Some((beats, after))) = beats else { return Count::Between };
        match part(after, bar.meter.beat()) {
            Some((0, _)) => Count::Beat(beats.saturating_add(1)),
            Some(part) => Count::of_part(part),
            None => Count::Between,
        }
    }

    fn of_part((parts, of): (u32, u32)) -> Count {
        let syllable = SYLLABLES.iter().find(|(part, _)| *part == (parts, of));
        syllable.map_or(Count::Part { parts, of }, |(_, syllable)| Count::Syllable(syllable))
    }
}

/// How much `length` is of a beat, in lowest terms; `None` where that is finer than is counted.
pub(super) fn part(length: Quarters, beat: Quarters) -> Option<(u32, u32)> {
    let (parts, of) = length.part_of(beat).filter(|(_, of)| *of <= Count::FINEST)?;
    Some((u32::try_from(parts).ok()?, of))
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Count::Beat(beat) => write!(f, "{beat}"),
            Count::Syllable(syllable) => f.write_str(syllable),
            Count::Part { parts, of } => write!(f, "{parts}/{of}"),
            Count::Between => f.write_str("*"),
            Count::LeftOut => f.write_str(".."),
            Count::Grace => f.write_str("g"),
            Count::Rolled => f.write_str("'"),
            Count::Bars(count) => write!(f, "{count} bars"),
        }
    }
}
