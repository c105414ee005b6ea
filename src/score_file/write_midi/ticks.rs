//! Moments as ticks.

use fretloom_theory::{Note, Quarters};

use crate::score_file::write_error::ScoreWriteError;
use crate::score_file::written_score::WrittenScore;

/// How many ticks a quarter note has in a file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Ticks(u16);

impl Ticks {
    /// What programs write as a rule: 32nds, triplets and quintuplets are whole numbers.
    const USUAL: u16 = 480;
    /// The most that a file can say.
    const MOST: u32 = 0x7fff;

    /// So many that all moments of a score are whole numbers, where there is such a number.
    pub(super) fn of(written: &WrittenScore) -> Result<Ticks, ScoreWriteError> {
        let common = |least: u32| {
            let mut denominators = moments(written)?.into_iter().map(Quarters::denominator);
            Ok(denominators.try_fold(least, common_multiple))
        };
        let exact = match common(u32::from(Ticks::USUAL))? {
            Some(ticks) => Some(ticks),
            None => common(1)?,
        };
        let ticks = exact.unwrap_or(Quarters::GRID);
        u16::try_from(ticks).map(Ticks).map_err(|_| ScoreWriteError::TooFine)
    }

    pub(super) const fn of_quarter(self) -> u16 {
        self.0
    }

    /// A moment, or the nearest tick to it.
    pub(super) fn at(self, moment: Quarters) -> u64 {
        let (above, below) = (u128::from(moment.numerator()), u128::from(moment.denominator()));
        let nearest = (above * u128::from(self.0) * 2 + below) / (below * 2);
        u64::try_from(nearest).unwrap_or(u64::MAX)
    }
}

/// The least common multiple, if a file can have so many ticks.
fn common_multiple(one: u32, other: u32) -> Option<u32> {
    let multiple = (one / common_divisor(one, other)).checked_mul(other)?;
    (multiple <= Ticks::MOST).then_some(multiple)
}

fn common_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { common_divisor(other, one % other) }
}

/// Every moment at which something is written.
fn moments(written: &WrittenScore) -> Result<Vec<Quarters>, ScoreWriteError> {
    let WrittenScore { score, sections, drone, click, .. } = written;
    let mut moments = vec![written.end()?];
    moments.extend(written.bars()?.iter().map(|bar| bar.from));
    moments.extend(written.played().flat_map(|(note, _)| [note.onset(), Note::end(note)]));
    moments.extend(score.chords.changes().iter().map(|(from, _)| *from));
    moments.extend(score.keys.changes().iter().map(|(from, _)| *from));
    moments.extend(score.tempi.changes().map(|(from, _)| from));
    moments.extend(sections.changes().iter().map(|(from, _)| *from));
    moments.extend(drone.iter().flat_map(|chord| [chord.from, chord.to]));
    moments.extend(click.iter().map(|click| click.at));
    Ok(moments)
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::Tuning;
    use fretloom_theory::{Part, Score};

    use super::*;

    fn ticks_of(notes: &[(u64, u32)]) -> u16 {
        let note = |(above, below): &(u64, u32)| {
            let duration = Quarters::new(*above, *below).unwrap();
            Note::new(Quarters::ZERO, duration, "C4".parse().unwrap()).unwrap()
        };
        let score = Score { parts: vec![Part::new(notes.iter().map(note))], ..Score::default() };
        let written = WrittenScore::of(score, Tuning::read("EADGBE").unwrap());
        Ticks::of(&written).unwrap().of_quarter()
    }

    /// By hand: 480 = 2^5 · 3 · 5; 480 · 7 = 3360; 480 · 7 · 11 is beyond 32767, and so are 7 · 11
    /// · 13 · 64 = 64064.
    #[test]
    fn all_moments_are_whole_numbers_of_ticks_where_that_may_be() {
        assert_eq!(ticks_of(&[(1, 2), (1, 3), (1, 5)]), 480);
        assert_eq!(ticks_of(&[(1, 7)]), 3360);
        assert_eq!(ticks_of(&[(1, 7), (1, 11)]), 77);
        assert_eq!(ticks_of(&[(1, 7), (1, 11), (1, 13), (1, 64)]), 20_160);
        assert_eq!(Ticks(480).at(Quarters::new(2, 3).unwrap()), 320);
        assert_eq!(Ticks(480).at(Quarters::new(1, 7).unwrap()), 69); // 68.57
    }
}
