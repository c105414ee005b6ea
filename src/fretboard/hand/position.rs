//! Hand positions.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use crate::{Finger, Fret, Neck, Place};

/// Where the hand stands: the fret of the first finger, or one below the second finger's; written
/// as a Roman numeral.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::HandPosition;
/// let seventh = HandPosition::new(7).unwrap();
/// assert_eq!((seventh.number(), seventh.to_string()), (7, "VII".to_owned()));
/// assert_eq!(HandPosition::new(0), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct HandPosition(u8);

impl HandPosition {
    /// The hand at the nut. By convention also where it is when only open strings sound, and
    /// where the second finger on the first fret leaves it; a capo over all strings moves this up
    /// as it moves the nut.
    pub const FIRST: HandPosition = HandPosition(1);

    /// The position with this number; `None` for 0 and above 36.
    #[must_use]
    pub const fn new(number: u8) -> Option<HandPosition> {
        if number == 0 || number > Fret::HIGHEST.number() {
            None
        } else {
            Some(HandPosition(number))
        }
    }

    /// The lowest position of a neck: the first fret above the nut, or above a capo that lies over
    /// all strings.
    #[must_use]
    pub fn lowest_on(neck: &Neck) -> HandPosition {
        HandPosition::new(neck.begins_at().number() + 1).unwrap_or(HandPosition::FIRST)
    }

    /// Where the hand is when `finger` (1 to 4) stands on `fret`, and never behind a full capo.
    pub(crate) fn with_finger(neck: &Neck, finger: u8, fret: Fret) -> HandPosition {
        let first_finger = fret.number().saturating_sub(finger.saturating_sub(1));
        let there = HandPosition::new(first_finger).unwrap_or(HandPosition::FIRST);
        there.max(HandPosition::lowest_on(neck))
    }

    /// Where the hand is when these fingers stand at these places, by the lowest of them; `None`
    /// where all strings are open.
    pub(crate) fn holding(
        neck: &Neck,
        places: &[Place],
        fingers: &[Finger],
    ) -> Option<HandPosition> {
        let pressed = places.iter().zip(fingers).filter(|(place, _)| !place.fret.is_open());
        let (place, finger) = pressed.min_by_key(|(_, finger)| **finger)?;
        Some(HandPosition::with_finger(neck, finger.number(), place.fret))
    }

    /// The fret of the first finger.
    #[must_use]
    pub const fn fret(self) -> Fret {
        match Fret::new(self.0) {
            Some(fret) => fret,
            None => Fret::HIGHEST,
        }
    }

    /// Its number, 1 to 36.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }
}

impl fmt::Display for HandPosition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const ONES: [&str; 10] = ["", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX"];
        (0..self.0 / 10).try_for_each(|_| f.write_str("X"))?;
        let ones = ONES.get(usize::from(self.0 % 10));
        f.write_str(ones.copied().unwrap_or_default())
    }
}

/// Reads a Roman numeral in either case, or a plain number: `V`, `v`, `5`.
impl FromStr for HandPosition {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<HandPosition, ReadError> {
        let trimmed = text.trim();
        let mut positions = (1..=Fret::HIGHEST.number()).filter_map(HandPosition::new);
        let is_meant = |position: &HandPosition| {
            position.to_string().eq_ignore_ascii_case(trimmed)
                || position.number().to_string() == trimmed
        };
        let at = 1 + text.chars().take_while(|c| c.is_whitespace()).count();
        positions.find(is_meant).ok_or_else(|| {
            ReadError::at_character("position", text, at, "a position, 1 to 36 or I to XXXVI")
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Capo, Tuning};

    #[test]
    fn positions_are_roman() {
        for (number, roman) in
            [(1, "I"), (4, "IV"), (9, "IX"), (10, "X"), (14, "XIV"), (36, "XXXVI")]
        {
            assert_eq!(HandPosition::new(number).unwrap().to_string(), roman);
        }
    }

    #[test]
    fn positions_are_read_as_numerals_and_numbers() {
        for number in 1..=36 {
            let position = HandPosition::new(number).unwrap();
            assert_eq!(position.to_string().parse(), Ok(position));
            assert_eq!(position.to_string().to_lowercase().parse(), Ok(position));
            assert_eq!(number.to_string().parse(), Ok(position));
        }
        for text in ["", "0", "37", "IIII", "5th", "XXXVII", "V V"] {
            assert!(text.parse::<HandPosition>().is_err(), "{text}");
        }
    }

    /// The position is one below the second finger's fret: common practice, no source.
    #[test]
    fn a_finger_and_its_fret_tell_the_position() {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        for (finger, fret, position) in [(1, 5, 5), (2, 6, 5), (4, 8, 5), (2, 1, 1), (4, 2, 1)] {
            let fret = Fret::new(fret).unwrap();
            assert_eq!(HandPosition::with_finger(&neck, finger, fret).number(), position);
        }
    }

    /// A capo over all strings is the hand's nut; a partial one leaves strings to go behind it on.
    /// Common practice, no source.
    #[test]
    fn a_full_capo_is_where_the_hand_begins() {
        let three = "4-3-2".parse().unwrap();
        let fret = |number| Fret::new(number).unwrap();
        for (capo, lowest) in [
            (Capo::NONE, 1),
            (Capo::full(fret(2)), 3),
            (Capo::full(fret(7)), 8),
            (Capo::partial(fret(2), three), 1),
        ] {
            let neck = Neck::new(Tuning::read("EADGBE").unwrap().with_capo(capo).unwrap());
            assert_eq!(HandPosition::lowest_on(&neck).number(), lowest, "{capo}");
            let second = HandPosition::with_finger(&neck, 2, fret(capo.fret().number() + 1));
            assert_eq!(second.number(), lowest.max(capo.fret().number()), "{capo}");
        }
    }
}
