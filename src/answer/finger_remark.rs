//! What a player should know of the ways to play a line.

use std::fmt;

use fretloom_fretboard::{BrokenBy, BrokenChord};
use fretloom_theory::NamedPitch;

use super::refusal::AndMore;
use crate::score_file::ReadScore;

/// What a player should know of the ways to play a line; prints as a sentence.
#[derive(Clone, PartialEq, Debug)]
pub enum FingerRemark {
    /// A chord of the line cannot sound at once.
    Broken {
        /// The bar, counted from 1.
        bar: u64,
        /// What sounds together instead, one group after another.
        groups: Vec<Vec<NamedPitch>>,
        /// Why.
        by: BrokenBy,
    },
    /// So many chords more cannot.
    MoreBroken(usize),
    /// The line is too long to look for every way.
    CutShort,
    /// The line lies high, and would have a place an octave lower.
    High,
}

/// How many broken chords are told, and how many notes of one.
const FEW: usize = 8;

impl FingerRemark {
    /// What is to be said of these broken chords of a score; of many, the first few and how many
    /// there are.
    pub(super) fn of_broken<'a>(
        chords: &'a [BrokenChord],
        score: &'a ReadScore,
    ) -> impl Iterator<Item = FingerRemark> + 'a {
        let told = chords.iter().take(FEW).map(|chord| FingerRemark::broken(chord, score));
        let more = chords.len().saturating_sub(FEW);
        told.chain((more > 0).then_some(FingerRemark::MoreBroken(more)))
    }

    fn broken(chord: &BrokenChord, score: &ReadScore) -> FingerRemark {
        let first = chord.groups.iter().flatten().find_map(|index| score.note(*index));
        let named = |index: &usize| Some(score.note(*index)?.note.pitch());
        let group = |group: &Vec<usize>| group.iter().filter_map(named).collect();
        FingerRemark::Broken {
            bar: first.map_or(1, |read| read.source.bar + 1),
            groups: chord.groups.iter().map(group).collect(),
            by: chord.by,
        }
    }
}

impl fmt::Display for FingerRemark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FingerRemark::Broken { bar, groups, by } => {
                let notes = Listed(groups.iter().flatten().collect());
                write!(f, "bar {bar}: ")?;
                match (by, f.alternate()) {
                    (BrokenBy::Hand, true) => write!(f, "no hand holds {notes:#} at once")?,
                    (BrokenBy::Hand, false) => write!(f, "no hand holds {notes} at once")?,
                    (BrokenBy::Strings, true) => write!(f, "no strings for {notes:#} at once")?,
                    (BrokenBy::Strings, false) => write!(f, "no strings for {notes} at once")?,
                }
                f.write_str(", so they come one after another")?;
                if notes.0.len() <= FEW { one_after_another(groups, f) } else { Ok(()) }
            }
            FingerRemark::MoreBroken(1) => f.write_str("one chord more is broken up like this"),
            FingerRemark::MoreBroken(more) => {
                write!(f, "{more} chords more are broken up like this")
            }
            FingerRemark::CutShort => {
                f.write_str("the line is long: there may be other ways that were not looked for")
            }
            FingerRemark::High => f.write_str(
                "the line lies high, half of it or more in position X or above: --octave -1 plays it \
                 an octave lower, as guitars sound what is written for them",
            ),
        }
    }
}

/// `: E4 F4, then F♯4`
fn one_after_another(groups: &[Vec<NamedPitch>], f: &mut fmt::Formatter<'_>) -> fmt::Result {
    for (index, group) in groups.iter().enumerate() {
        f.write_str(if index == 0 { ": " } else { ", then " })?;
        fmt::Display::fmt(&Listed(group.iter().collect()), f)?;
    }
    Ok(())
}

/// Pitches in a row, of many the first few and how many there are: `E4 F4`.
struct Listed<'a>(Vec<&'a NamedPitch>);

impl fmt::Display for Listed<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, pitch) in self.0.iter().take(FEW).enumerate() {
            f.write_str(if index == 0 { "" } else { " " })?;
            fmt::Display::fmt(pitch, f)?;
        }
        fmt::Display::fmt(&AndMore(self.0.len().saturating_sub(FEW)), f)
    }
}
