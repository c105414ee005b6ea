//! Everyday chord symbols: what a player who types the beginning of one, or one with a slip, may mean.

use fretloom_theory::{NoteName, ReadChord};

use crate::words::nearest;

/// Endings of everyday chord symbols, the commonest first, as our house writes them in ASCII.
pub const EVERYDAY_ENDINGS: &[&str] = &[
    "maj7", "m7", "7", "m7b5", "7alt", "maj7#11", "7b9", "7#11", "m6", "6", "9", "m9", "maj9",
    "13", "7sus4", "9sus4", "13sus4", "7sus4b9", "dim7", "7#9", "7#5", "7b13", "13b9", "13#11",
    "m(maj7)", "m11", "6/9", "maj13", "maj7#5", "7b5", "7b9b13", "m", "dim", "+", "sus4", "sus2",
    "add9",
];

/// The root that a symbol begins with, as it is typed; a sign after the letter belongs to it.
#[must_use]
pub fn typed_root(typed: &str) -> Option<&str> {
    let letter = typed.chars().next()?;
    let behind = typed.get(letter.len_utf8()..)?;
    let sign = behind.chars().next().filter(|sign| ['b', '#', '♭', '♯'].contains(sign));
    let root = typed.get(..letter.len_utf8() + sign.map_or(0, char::len_utf8))?;
    root.parse::<NoteName>().is_ok().then_some(root)
}

/// The everyday chord that a symbol with a slip is nearest to: `Gmaj7` for `Gmja7`. `None` where the
/// symbol has no root, or is near to nothing.
///
/// ```
/// use fretloom::answer::near_chord;
/// assert_eq!(near_chord("Gmja7").as_deref(), Some("Gmaj7"));
/// assert_eq!(near_chord("Gx"), None);
/// ```
#[must_use]
pub fn near_chord(typed: &str) -> Option<String> {
    let root = typed_root(typed)?;
    let ending = typed.get(root.len()..)?;
    let is_a_word = ending.len() > SHORTEST && ending.chars().all(char::is_alphanumeric);
    let near = nearest(ending, EVERYDAY_ENDINGS.iter().copied()).filter(|_| is_a_word)?;
    let meant = format!("{root}{near}");
    meant.parse::<ReadChord>().is_ok().then_some(meant)
}

/// Of fewer letters nothing can be told.
const SHORTEST: usize = 2;

#[cfg(test)]
mod tests {
    use super::*;

    /// Slips of the fingers: letters swapped, missing, doubled, and a neighbour on the keyboard.
    #[test]
    fn a_slip_is_near_to_what_was_meant() {
        for (typed, meant) in [
            ("Gmja7", "Gmaj7"),
            ("Bbmaaj7", "Bbmaj7"),
            ("F#msj7", "F#maj7"),
            ("C7atl", "C7alt"),
            ("Ebdmi7", "Ebdim7"),
            ("Asu4", "Asus4"),
        ] {
            assert_eq!(near_chord(typed).as_deref(), Some(meant), "{typed}");
        }
        for typed in ["", "H7", "Cx", "C?", "G7(b9", "hello", "Cqqqq"] {
            assert_eq!(near_chord(typed), None, "{typed}");
        }
    }
}
