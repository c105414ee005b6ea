//! In which order the twelve keys are practised.

use std::fmt;
use std::str::FromStr;

use crate::ReadError;

/// The twelve keys in the order in which they are practised, the one in hand first.
///
/// ```
/// use fretloom_theory::KeyCycle;
/// let fourths: KeyCycle = "fourths".parse()?;
/// assert_eq!(fourths.semitones_up()[..4], [0, 5, 10, 3]);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum KeyCycle {
    /// Up a fourth each time.
    Fourths,
    /// Up a semitone each time.
    Semitones,
    /// Up a whole tone each time; after six keys the other six.
    Tones,
    /// In an order that depends on this number alone.
    Shuffled(u64),
}

impl KeyCycle {
    /// How many semitones above the first each key is, twelve in all.
    #[must_use]
    pub fn semitones_up(self) -> [u8; 12] {
        let numbers: [u8; 12] = std::array::from_fn(|index| index as u8);
        match self {
            KeyCycle::Fourths => numbers.map(|number| number * 5 % 12),
            KeyCycle::Semitones => numbers,
            KeyCycle::Tones => numbers.map(|number| (number * 2 + number / 6) % 12),
            KeyCycle::Shuffled(seed) => shuffled(numbers, seed),
        }
    }
}

/// The first in its place, the others shuffled.
fn shuffled(mut keys: [u8; 12], seed: u64) -> [u8; 12] {
    let mut state = seed;
    for last in (2..keys.len()).rev() {
        keys.swap(last, 1 + (next(&mut state) % last as u64) as usize);
    }
    keys
}

/// The next number of splitmix64, which is good enough for the order of twelve things.
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

impl FromStr for KeyCycle {
    type Err = ReadError;

    /// Reads `fourths`, `semitones`, `tones`, `shuffled` and `shuffled:7`.
    ///
    /// # Errors
    ///
    /// Where the text is none of them.
    fn from_str(text: &str) -> Result<KeyCycle, ReadError> {
        match text.split_once(':') {
            None if text == "fourths" => Ok(KeyCycle::Fourths),
            None if text == "semitones" => Ok(KeyCycle::Semitones),
            None if text == "tones" => Ok(KeyCycle::Tones),
            None if text == "shuffled" => Ok(KeyCycle::Shuffled(0)),
            Some(("shuffled", seed)) => seed.parse().map(KeyCycle::Shuffled).map_err(|_| {
                let at = "shuffled:".len() + 1;
                ReadError::at_character(
                    "order of keys",
                    text,
                    at,
                    "a whole number, as in shuffled:7",
                )
            }),
            _ => Err(ReadError::whole(
                "order of keys",
                text,
                "fourths, semitones, tones, shuffled or shuffled:7",
            )),
        }
    }
}

impl fmt::Display for KeyCycle {
    /// As it is read: `fourths`, `shuffled:7`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            KeyCycle::Fourths => f.write_str("fourths"),
            KeyCycle::Semitones => f.write_str("semitones"),
            KeyCycle::Tones => f.write_str("tones"),
            KeyCycle::Shuffled(seed) => write!(f, "shuffled:{seed}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    fn keys(text: &str) -> [u8; 12] {
        text.parse::<KeyCycle>().unwrap().semitones_up()
    }

    /// By hand.
    #[test]
    fn keys_come_in_the_order_of_their_name() {
        assert_eq!(keys("fourths"), [0, 5, 10, 3, 8, 1, 6, 11, 4, 9, 2, 7]);
        assert_eq!(keys("semitones"), [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
        assert_eq!(keys("tones"), [0, 2, 4, 6, 8, 10, 1, 3, 5, 7, 9, 11]);
    }

    #[test]
    fn shuffled_keys_are_all_twelve_and_depend_on_the_seed_alone() {
        for seed in 0..200 {
            let order = KeyCycle::Shuffled(seed).semitones_up();
            assert_eq!(order[0], 0);
            assert_eq!(order.iter().collect::<BTreeSet<_>>().len(), 12, "{seed}");
            assert_eq!(order, keys(&format!("shuffled:{seed}")));
        }
        assert_ne!(keys("shuffled:1"), keys("shuffled:2"));
        // Each key comes second about as often as the others.
        let second =
            |key| (0..1100).filter(move |s| KeyCycle::Shuffled(*s).semitones_up()[1] == key);
        assert!((1..12).all(|key| (60..=140).contains(&second(key).count())));
    }

    #[test]
    fn what_is_no_order_says_what_is() {
        for text in ["", "Fourths", "fourths:1", "shuffled:", "shuffled:x", "shuffled:-1"] {
            let said = text.parse::<KeyCycle>().unwrap_err().to_string();
            assert!(said.contains("shuffled:7"), "{said}");
        }
    }
}
