//! What is wished of a tune, as one line that is typed.

use std::fmt;

use fretloom_theory::{GuideTones, OptionalChords, ReadError};

use super::moment::ChartMoment;
use super::wishes::{NeverHere, PlanWishes};

/// All that is wished of a tune and its plan, typed in one line with commas between:
/// `major & minor, thirds, 4 pairs, contrast, brackets, once, never B@5`.
///
/// # Example
///
/// ```
/// use fretloom::answer::TuneWishes;
/// use fretloom_theory::GuideTones;
/// let wishes = TuneWishes::read_line("guide tones, never 11@5.3", None)?;
/// assert_eq!(wishes.plan.states, GuideTones::Both);
/// assert_eq!(wishes.to_string(), "guide tones, never 11@5.3");
/// assert!(TuneWishes::read_line("guides", None).is_err());
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct TuneWishes {
    /// What is wished of the pairs.
    pub plan: PlanWishes,
    /// What becomes of chords in brackets.
    pub optional: OptionalChords,
}

const WHAT: &str = "wish";
const GUIDE_TONES: &str = "guide tones";
const THIRDS: &str = "thirds";
const PAIRS: [&str; 2] = [" pairs", " pair"];
/// The most pairs that may be wished for.
const MOST_PAIRS: usize = 99;
const CONTRAST: &str = "contrast";
const BRACKETS: &str = "brackets";
const ONCE: &str = "once";
const NEVER: &str = "never ";

impl TuneWishes {
    /// Nothing is wished.
    pub const NONE: TuneWishes =
        TuneWishes { plan: PlanWishes::NONE, optional: OptionalChords::LeftOut };

    /// Words of a wish that need nothing more, as they are typed.
    pub const WORDS: [&str; 6] = ["major & minor", GUIDE_TONES, THIRDS, CONTRAST, BRACKETS, ONCE];

    /// Wishes as they are typed. A note that is never to be played is meant for the chord that sounds
    /// `here` where nothing else is said.
    ///
    /// # Errors
    ///
    /// Where a part between commas is no wish, with its place in the line.
    pub fn read_line(text: &str, here: Option<ChartMoment>) -> Result<TuneWishes, ReadError> {
        let mut wishes = TuneWishes::NONE;
        let mut at = 1;
        for part in text.split(',') {
            let before = part.chars().take_while(|sign| sign.is_whitespace()).count();
            let wish = part.trim();
            if !wish.is_empty() {
                let read = wishes.take(wish, here);
                read.map_err(|error| error.within(WHAT, text, at + before))?;
            }
            at += part.chars().count() + 1;
        }
        Ok(wishes)
    }

    fn take(&mut self, wish: &str, here: Option<ChartMoment>) -> Result<(), ReadError> {
        match wish.to_lowercase().as_str() {
            GUIDE_TONES => self.plan.states = GuideTones::Both,
            // Who has wished for both has wished for these.
            THIRDS => self.plan.states = self.plan.states.max(GuideTones::Third),
            CONTRAST => self.plan.contrasts_sections = true,
            ONCE => self.plan.ends = true,
            BRACKETS => self.optional = OptionalChords::Played,
            lower if lower.starts_with(NEVER) => {
                let note = wish.get(NEVER.len()..).unwrap_or_default();
                let read = never(note, here);
                let never = read.map_err(|error| error.within(WHAT, wish, NEVER.len() + 1))?;
                if !self.plan.never.contains(&never) {
                    self.plan.never.push(never);
                }
            }
            lower if most_pairs(lower).is_some() => self.plan.most_pairs = most_pairs(lower),
            lower if self.plan.kinds.is_none() => {
                let expected = "major & minor or other triads, guide tones, thirds, 4 pairs, \
                                contrast, brackets, once, or never B@5";
                let kinds = lower.parse();
                self.plan.kinds =
                    Some(kinds.map_err(|_| ReadError::at_character(WHAT, wish, 1, expected))?);
            }
            _ => {
                let expected =
                    "guide tones, thirds, 4 pairs, contrast, brackets, once, or never B@5";
                return Err(ReadError::at_character(WHAT, wish, 1, expected));
            }
        }
        Ok(())
    }

    /// Is nothing wished?
    #[must_use]
    pub fn are_none(&self) -> bool {
        *self == TuneWishes::NONE
    }
}

/// `4 pairs`: so many at most.
fn most_pairs(wish: &str) -> Option<usize> {
    let number = PAIRS.iter().find_map(|word| wish.strip_suffix(word))?;
    number.trim().parse().ok().filter(|most| (1..=MOST_PAIRS).contains(most))
}

/// `B@5`; `B` alone over the chord that sounds here.
fn never(note: &str, here: Option<ChartMoment>) -> Result<NeverHere, ReadError> {
    match here.filter(|_| !note.contains('@')) {
        Some(moment) => Ok(NeverHere { note: note.trim().parse()?, moment }),
        None => note.parse(),
    }
}

impl fmt::Display for TuneWishes {
    /// The line that [`read_line`](TuneWishes::read_line) reads; `{:#}` in ASCII.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let PlanWishes { kinds, states, most_pairs, contrasts_sections, ends, never } = &self.plan;
        let is_played = self.optional == OptionalChords::Played;
        let words = [
            (*states == GuideTones::Both, GUIDE_TONES),
            (*states == GuideTones::Third, THIRDS),
            (*contrasts_sections, CONTRAST),
            (is_played, BRACKETS),
            (*ends, ONCE),
        ];
        let words = words.into_iter().filter(|(is_on, _)| *is_on).map(|(_, word)| word.to_owned());
        let never = never.iter().map(|never| {
            let NeverHere { note, moment } = never;
            match f.alternate() {
                true => format!("{NEVER}{note:#}@{moment}"),
                false => format!("{NEVER}{note}@{moment}"),
            }
        });
        let kinds = kinds.iter().map(ToString::to_string);
        let pairs = most_pairs.iter().map(|most| {
            let [several, one] = PAIRS;
            format!("{most}{}", if *most == 1 { one } else { several })
        });
        f.write_str(&kinds.chain(pairs).chain(words).chain(never).collect::<Vec<_>>().join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<TuneWishes, ReadError> {
        TuneWishes::read_line(text, "3.2".parse().ok())
    }

    #[test]
    fn a_line_is_read_and_printed_again() {
        for (typed, printed) in [
            ("", ""),
            (" , ", ""),
            ("major", "major"),
            ("Minor & Major", "minor & major"),
            ("once,contrast , guide tones", "guide tones, contrast, once"),
            ("brackets, never Bb", "brackets, never B♭@3.2"),
            ("once, thirds, 4 Pairs", "4 pairs, thirds, once"),
            ("1 pair", "1 pair"),
            ("guide tones, thirds", "guide tones"),
            ("never 11@5, never b9@2.3, never 11@5", "never 11@5.1, never ♭9@2.3"),
        ] {
            let wishes = read(typed).unwrap();
            assert_eq!(wishes.to_string(), printed, "{typed}");
            assert_eq!(read(&format!("{wishes:#}")).unwrap(), wishes, "{typed}");
            assert_eq!(wishes.are_none(), printed.is_empty());
        }
    }

    #[test]
    fn what_is_no_wish_is_told_with_its_place() {
        for (typed, at) in [
            ("major & sus", 1),
            ("once, guide", 7),
            ("once,  never H@5", 14),
            ("never B@0x", 9),
            ("once, 0 pairs", 7),
            ("100 pairs", 1),
            ("major, minor", 8),
        ] {
            assert_eq!(read(typed).unwrap_err().at(), at, "{typed}");
        }
        let said = TuneWishes::read_line("never B", None).unwrap_err().to_string();
        assert!(said.ends_with("expected @ and the bar, as in B@5 or 11@5.3"), "{said}");
    }
}
