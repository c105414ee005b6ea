//! Where the hand may be: in a position, at some frets, on three strings.

use std::fmt;

use fretloom_fretboard::{Fret, FretRange, HandPosition, Neck, Region, StringSet};
use fretloom_theory::ReadError;

use super::refusal::Refusal;

/// Where the hand may be, as it is typed in one line: `V 1-12 3-2-1`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct HandArea {
    /// Where it stands; none where it may stand anywhere.
    pub position: Option<HandPosition>,
    /// The frets.
    pub frets: FretRange,
    /// The three strings side by side that it stays on; none where it may be on any.
    pub strings: Option<StringSet>,
}

/// Words that may stand before what they name.
const NOUNS: [&str; 6] = ["position", "pos", "fret", "frets", "string", "strings"];

impl HandArea {
    /// The whole neck.
    pub const WHOLE_NECK: HandArea =
        HandArea { position: None, frets: FretRange::WHOLE_NECK, strings: None };

    /// Reads a position (`V` or `5`), a range of frets (`1-12`) and three strings (`3-2-1`), each
    /// once at most and in any order; nothing is the whole neck.
    ///
    /// # Errors
    ///
    /// Where a word is none of the three, or one of them stands twice.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::HandArea;
    /// let area = HandArea::read_line("frets 1–12, position v")?;
    /// assert_eq!(area.to_string(), "V 1-12");
    /// assert_eq!(HandArea::read_line("")?, HandArea::WHOLE_NECK);
    /// assert!(HandArea::read_line("V VII").is_err());
    /// # Ok::<(), fretloom::answer::Refusal>(())
    /// ```
    pub fn read_line(line: &str) -> Result<HandArea, Refusal> {
        let (mut position, mut frets, mut strings) = (None, None, None);
        let mut at = 1;
        for word in line.split([',', ' ']) {
            let plain = word.replace('–', "-");
            let slot = match plain.matches('-').count() {
                _ if word.is_empty() || NOUNS.contains(&word.to_lowercase().as_str()) => Ok(true),
                0 => plain.parse().map(|read| position.replace(read).is_none()),
                1 => plain.parse().map(|read| frets.replace(read).is_none()),
                _ => plain.parse().map(|read| strings.replace(read).is_none()),
            };
            let is_new = slot.map_err(|error: ReadError| error.within(WHAT, line, at))?;
            if !is_new {
                let expected = "one position, one range of frets and three strings at most";
                return Err(ReadError::at_character(WHAT, line, at, expected).into());
            }
            at += word.chars().count() + 1;
        }
        Ok(HandArea { position, frets: frets.unwrap_or(FretRange::WHOLE_NECK), strings })
    }

    /// Is there such a place on a neck?
    ///
    /// # Errors
    ///
    /// Where it names a position, frets or strings that the neck does not have, strings that are no
    /// three side by side, or a position that has none of its frets.
    pub fn check(&self, neck: &Neck) -> Result<(), Refusal> {
        Region::default().within(self.frets).check(neck)?;
        if let Some(set) = self.strings {
            Refusal::unless_on(neck, set)?;
            Refusal::unless_side_by_side(set)?;
            Refusal::unless_three(set)?;
        }
        let Some(position) = self.position else { return Ok(()) };
        Refusal::unless_reached(neck, position)?;
        let number = position.number();
        let (lowest, highest) = (number.saturating_sub(1), number.saturating_add(4));
        if self.frets.last().number() < lowest || self.frets.first().number() > highest {
            return Err(Refusal::OutsideFrets { position, frets: self.frets });
        }
        Ok(())
    }

    /// The part of the neck to which the hand is locked; `None` for the whole neck, where it is not.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::HandArea;
    /// let region = HandArea::read_line("V 4-3-2").unwrap().region().unwrap();
    /// assert_eq!(region.frets().to_string(), "4-9");
    /// assert_eq!(HandArea::WHOLE_NECK.region(), None);
    /// ```
    #[must_use]
    pub fn region(&self) -> Option<Region> {
        if *self == HandArea::WHOLE_NECK {
            return None;
        }
        let region = Region::default().within(self.frets_under_hand());
        Some(self.strings.map_or(region, |strings| region.on(strings)))
    }

    /// The frets that are wanted and lie under the hand.
    fn frets_under_hand(&self) -> FretRange {
        let Some(position) = self.position else { return self.frets };
        let reach = reach(position);
        let low = reach.first().max(self.frets.first());
        let high = reach.last().min(self.frets.last());
        FretRange::new(low, high).unwrap_or(reach)
    }

    /// `in position V, at frets 1 to 12, on strings 3-2-1`; `on the whole neck`.
    #[must_use]
    pub fn in_words(&self) -> String {
        let frets = (self.frets != FretRange::WHOLE_NECK)
            .then(|| format!("at frets {} to {}", self.frets.first(), self.frets.last()));
        let words = [
            self.position.map(|position| format!("in position {position}")),
            frets,
            self.strings.map(|strings| format!("on strings {strings}")),
        ];
        let words: Vec<String> = words.into_iter().flatten().collect();
        if words.is_empty() { "on the whole neck".to_owned() } else { words.join(", ") }
    }
}

/// The frets that a hand in a position reaches: four, and one more on either side.
fn reach(position: HandPosition) -> FretRange {
    let number = position.number();
    let fret = |number: u8| Fret::new(number).unwrap_or(Fret::HIGHEST);
    let (low, high) = (fret(number.saturating_sub(1)), fret(number.saturating_add(4)));
    FretRange::new(low, high).unwrap_or(FretRange::WHOLE_NECK)
}

/// What the line is called in errors.
const WHAT: &str = "place of the hand";

impl fmt::Display for HandArea {
    /// The line that [`read_line`](HandArea::read_line) reads.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let frets = (self.frets != FretRange::WHOLE_NECK).then(|| self.frets.to_string());
        let strings = self.strings.map(|strings| strings.to_string());
        let position = self.position.map(|position| position.to_string());
        let words: Vec<String> = [position, frets, strings].into_iter().flatten().collect();
        f.write_str(&words.join(" "))
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::Tuning;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_line_is_read_in_any_order_and_printed_in_one() {
        for (line, printed) in [
            ("V", "V"),
            ("5", "V"),
            ("1-12", "1-12"),
            ("3-2-1 0-4", "0-4 3-2-1"),
            ("strings 4-3-2, position vii", "VII 4-3-2"),
            ("  ", ""),
        ] {
            let area = HandArea::read_line(line).unwrap();
            assert_eq!(area.to_string(), printed);
            assert_eq!(HandArea::read_line(printed).unwrap(), area);
        }
    }

    #[test]
    fn mistakes_say_what_was_expected() {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        for (line, said) in [
            ("V q", "at character 3: expected a position, 1 to 36 or I to XXXVI"),
            ("V 12-1", "at character 6: expected a fret not below the first"),
            ("V 7", "expected one position, one range of frets and three strings at most"),
            ("XXIII", "there is no position XXIII on this instrument"),
            ("30-36", "there are no frets 30-36 on this instrument"),
            ("5-4-2", "5-4-2 skips a string"),
            ("4-3-2-1", "4-3-2-1 does not hold a triad"),
            ("7-6-5", "there are no strings 7-6-5 on this instrument"),
            ("V 10-15", "position V reaches frets 4 to 9"),
        ] {
            let read = HandArea::read_line(line);
            let refusal = read.and_then(|area| area.check(&neck)).unwrap_err();
            assert!(refusal.to_string().contains(said), "{line}: {refusal}");
        }
    }

    proptest! {
        #[test]
        fn any_line_is_read_or_refused(line in any::<String>()) {
            if let Ok(area) = HandArea::read_line(&line) {
                prop_assert_eq!(HandArea::read_line(&area.to_string()).unwrap(), area);
            }
        }
    }
}
