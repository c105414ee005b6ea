//! Chords that begin as what is typed begins: offered while typing, never taken unasked.

use fretloom_theory::NoteName;

/// Endings of everyday chord symbols, the commonest first, as our house writes them in ASCII.
const ENDINGS: &[&str] = &[
    "maj7", "m7", "7", "m7b5", "7alt", "maj7#11", "7b9", "7#11", "m6", "6", "9", "m9", "maj9",
    "13", "7sus4", "9sus4", "13sus4", "7sus4b9", "dim7", "7#9", "7#5", "7b13", "13b9", "13#11",
    "m(maj7)", "m11", "6/9", "maj13", "maj7#5", "7b5", "7b9b13", "m", "dim", "+", "sus4", "sus2",
    "add9",
];

/// Chords that begin with `typed` and go on, the commonest first. Nothing before there is a root.
pub(super) fn suggestions(typed: &str) -> impl Iterator<Item = String> {
    let root = root_of(typed);
    let chords = ENDINGS.iter().filter_map(move |ending| Some(format!("{}{ending}", root?)));
    chords.filter(move |chord| chord.len() > typed.len() && chord.starts_with(typed))
}

/// The root that a symbol begins with, as it is typed; a sign after the letter belongs to it.
fn root_of(typed: &str) -> Option<&str> {
    let letter = typed.chars().next()?;
    let behind = typed.get(letter.len_utf8()..)?;
    let sign = behind.chars().next().filter(|sign| ['b', '#', '♭', '♯'].contains(sign));
    let root = typed.get(..letter.len_utf8() + sign.map_or(0, char::len_utf8))?;
    root.parse::<NoteName>().is_ok().then_some(root)
}

#[cfg(test)]
mod tests {
    use fretloom_theory::ReadChord;

    use super::*;

    fn first(typed: &str, count: usize) -> Vec<String> {
        suggestions(typed).take(count).collect()
    }

    #[test]
    fn what_is_typed_goes_on() {
        assert_eq!(first("Bbma", 2), ["Bbmaj7", "Bbmaj7#11"]);
        assert_eq!(first("A7b", 3), ["A7b9", "A7b13", "A7b5"]);
        assert_eq!(first("F#m7", 1), ["F#m7b5"]);
        assert_eq!(first("E", 2), ["Emaj7", "Em7"]);
        assert_eq!(first("B♭7a", 2), ["B♭7alt"]);
    }

    #[test]
    fn where_there_is_no_root_or_nothing_more_nothing_is_offered() {
        for typed in ["", "H", "♭", "b", "Cmaj7b9", "C7alt!", "Cadd9"] {
            assert_eq!(first(typed, 1), [] as [&str; 0], "{typed}");
        }
    }

    #[test]
    fn every_suggestion_is_a_chord() {
        for root in ["C", "Gb", "A#"] {
            assert!(suggestions(root).count() >= ENDINGS.len() - 1);
            for chord in suggestions(root) {
                assert!(chord.parse::<ReadChord>().is_ok(), "{chord}");
            }
        }
    }
}
