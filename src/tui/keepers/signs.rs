//! What a keeper says in ASCII, with the signs of music.

use fretloom_theory::{Chord, Scale, SpelledTriad};

use crate::glyphs::printable_line;

/// Chords, with the lines between bars as they are: `Dm7 | G7♭9`.
pub(super) fn chords(text: &str) -> String {
    each(text, ' ', " ", |word| word.parse::<Chord>().map(|chord| chord.to_string()).ok())
}

/// A pair: `F♯ & G♯m`.
pub(super) fn pair(text: &str) -> String {
    each(text, '&', " & ", |name| {
        name.trim().parse::<SpelledTriad>().map(|triad| triad.to_string()).ok()
    })
}

/// A scale: `B♭ Lydian`.
pub(super) fn scale(text: &str) -> String {
    text.parse::<Scale>().map_or_else(|_| printable_line(text), |scale| scale.to_string())
}

/// Each part as it is read; one that is not is shown as it stands.
fn each(text: &str, at: char, between: &str, read: impl Fn(&str) -> Option<String>) -> String {
    let parts = text.split(at).map(|part| read(part).unwrap_or_else(|| printable_line(part)));
    parts.collect::<Vec<_>>().join(between)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_can_be_read_has_signs_and_the_rest_is_harmless() {
        assert_eq!(chords("Bbmaj7#11"), "B♭maj7♯11");
        assert_eq!(chords("Dm7 | G7 Db7 |"), "Dm7 | G7 D♭7 |");
        assert_eq!(pair("F# & G#m"), "F♯ & G♯m");
        assert_eq!(scale("Bb Lydian"), "B♭ Lydian");
        for odd in ["\u{1b}[31m & \n", "", "&&"] {
            let all = [chords(odd), pair(odd), scale(odd)].concat();
            assert!(!all.contains(['\u{1b}', '\n']), "{all:?}");
        }
    }
}
