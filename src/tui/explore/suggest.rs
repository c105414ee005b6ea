//! Chords that begin as what is typed begins: offered while typing, never taken unasked.

use crate::answer::{EVERYDAY_ENDINGS, typed_root};

/// Chords that begin with `typed` and go on, the commonest first. Nothing before there is a root.
pub(super) fn suggestions(typed: &str) -> impl Iterator<Item = String> {
    let root = typed_root(typed);
    let chords =
        EVERYDAY_ENDINGS.iter().filter_map(move |ending| Some(format!("{}{ending}", root?)));
    chords.filter(move |chord| chord.len() > typed.len() && chord.starts_with(typed))
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
            assert!(suggestions(root).count() >= EVERYDAY_ENDINGS.len() - 1);
            for chord in suggestions(root) {
                assert!(chord.parse::<ReadChord>().is_ok(), "{chord}");
            }
        }
    }
}
