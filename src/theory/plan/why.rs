//! Why a pair stands in a plan, in one sentence.

use std::fmt::{self, Display as _};

use super::choices::Choice;
use super::chord::PlanChord;
use super::step::PairStep;
use crate::degrees::write_degrees;
use crate::text::count_in_words;
use crate::{ChordScale, Degree, SpelledTriad, Speller, Spelling};

/// Why a plan has this pair over a chord; prints with signs (`{}`) or in ASCII (`{:#}`).
///
/// It says what the pair has to do with the one before, and what a player should know of it over
/// this chord.
#[derive(Clone, PartialEq, Debug)]
pub struct PlanReason {
    pair: [SpelledTriad; 2],
    step: Option<PairStep>,
    /// For how many chords in a row it has been there.
    kept: usize,
    /// How many notes of the scale before are not in this one.
    scale_changes: usize,
    settled: bool,
    rests: bool,
    drops: Vec<Degree>,
    rubs: Vec<Degree>,
}

impl PlanReason {
    pub(super) fn of(
        asked: &PlanChord,
        choice: &Choice,
        before: &ChordScale,
        step: Option<PairStep>,
        kept: usize,
    ) -> PlanReason {
        let Choice { over, sound, .. } = choice;
        let speller = Speller::new(over.clone(), Spelling::Plain);
        let scale_changes = before.scale().set().difference(over.scale().set()).len();
        let degrees = |set| over.degrees(set).collect();
        PlanReason {
            pair: speller.pair(sound.pair()),
            step,
            kept,
            scale_changes,
            settled: asked.pair.is_some(),
            rests: asked.reading.is_home() && sound.states_third(),
            drops: degrees(sound.drops_named()),
            rubs: degrees(sound.rubs()),
        }
    }

    /// The same with other names for the triads, as those that a player has chosen.
    #[must_use]
    pub fn calling(self, pair: [SpelledTriad; 2]) -> PlanReason {
        PlanReason { pair, ..self }
    }

    fn write_step(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.step {
            None => {
                f.write_str("begins with ")?;
                self.write_pair(f)
            }
            Some(PairStep::Kept) => {
                f.write_str("keeps ")?;
                self.write_pair(f)?;
                if self.kept > 2 {
                    write!(f, " for the {} chord", ordinal(self.kept))?;
                }
                match self.scale_changes {
                    0 => Ok(()),
                    1 => f.write_str("; one note of the scale changes, and it is not in the pair"),
                    count => {
                        let count = count_in_words(count);
                        write!(f, "; {count} notes of the scale change, none of the pair")
                    }
                }
            }
            Some(PairStep::Moved(by)) => {
                self.write_pair(f)?;
                write!(f, ": the grips of the pair before, {}", frets(by))
            }
            Some(PairStep::Changed { common, half_steps }) => {
                self.write_pair(f)?;
                let stay = if common < 2 { "stays" } else { "stay" };
                write!(f, ": {} {stay}", notes(common))?;
                if half_steps > 0 {
                    let come = if half_steps == 1 { "comes" } else { "come" };
                    write!(f, ", {} {come} by a half step", count_in_words(half_steps.into()))?;
                }
                Ok(())
            }
        }
    }

    fn write_pair(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = &self.pair;
        first.fmt(f)?;
        f.write_str(" & ")?;
        second.fmt(f)
    }
}

impl fmt::Display for PlanReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_step(f)?;
        if self.settled {
            f.write_str("; as you chose")?;
        }
        if self.rests {
            f.write_str("; it has the third, on which the line can rest")?;
        }
        write_degrees(f, "; leaves out", &self.drops)?;
        write_degrees(f, "; rubs", &self.rubs)
    }
}

/// `a fret up`, `two frets down`.
fn frets(semitones: i8) -> &'static str {
    match semitones {
        1 => "a fret up",
        -1 => "a fret down",
        2.. => "two frets up",
        _ => "two frets down",
    }
}

/// `no note`, `one note`, `three notes`.
fn notes(count: u8) -> String {
    let count = usize::from(count);
    if count == 0 {
        return "no note".to_owned();
    }
    let s = if count == 1 { "" } else { "s" };
    format!("{} note{s}", count_in_words(count))
}

fn ordinal(count: usize) -> String {
    let words = ["third", "fourth", "fifth", "sixth", "seventh", "eighth"];
    let word = count.checked_sub(3).and_then(|index| words.get(index));
    word.map_or_else(|| format!("{count}th"), |word| (*word).to_owned())
}
