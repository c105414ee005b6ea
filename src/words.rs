//! Wording that commands and screens share: “did you mean …”, lists, inversions.

use std::fmt::Display;
use std::io;

use fretloom_theory::Inversion;

/// A less similar word is no useful suggestion. A similarity of 1 means the same word.
const LEAST_SIMILARITY: f64 = 0.7;

/// The candidate that is most similar to `word`, if one is similar enough; the first of equals.
///
/// ```
/// use fretloom::words::nearest;
/// assert_eq!(nearest("pars", ["pairs", "scales"]), Some("pairs"));
/// assert_eq!(nearest("zzz", ["pairs", "scales"]), None);
/// ```
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let mut best = None;
    let mut best_similarity = LEAST_SIMILARITY;
    for candidate in candidates {
        let similarity = strsim::jaro(word, candidate);
        if similarity > best_similarity {
            best = Some(candidate);
            best_similarity = similarity;
        }
    }
    best
}

/// What the system says of a file, in plain words and without its numbers; it goes on where the file
/// has been named.
pub(crate) fn in_plain_words(error: &io::Error) -> String {
    let words = match error.kind() {
        io::ErrorKind::NotFound => "there is no such file",
        io::ErrorKind::PermissionDenied => "it may not be read or written",
        io::ErrorKind::AlreadyExists => "it is there already",
        io::ErrorKind::IsADirectory => "it is a folder",
        io::ErrorKind::NotADirectory => "a part of its path is no folder",
        io::ErrorKind::InvalidData => "it is not UTF-8 text",
        io::ErrorKind::InvalidFilename => "its name is too long, or is none",
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "the disk is full",
        io::ErrorKind::ReadOnlyFilesystem => "nothing may be written on this disk",
        io::ErrorKind::BrokenPipe => "nobody reads it any more",
        _ => return without_number(&error.to_string()),
    };
    words.to_owned()
}

/// `Too many levels of symbolic links (os error 40)` without the number.
fn without_number(said: &str) -> String {
    said.split_once(" (os error ").map_or(said, |(words, _)| words).to_owned()
}

/// Words in lines of at most so many columns; a longer word has a line of its own.
pub(crate) fn wrapped(words: &str, columns: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split(' ') {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= columns => {
                line.push(' ');
                line.push_str(word);
            }
            Some(_) | None => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Values separated by single spaces.
pub(crate) fn spaced<T: Display>(values: impl IntoIterator<Item = T>) -> String {
    values.into_iter().map(|value| value.to_string()).collect::<Vec<_>>().join(" ")
}

/// Values separated by hyphens, as frets, strings and fingers are written.
pub(crate) fn dashed<T: Display>(values: impl IntoIterator<Item = T>) -> String {
    values.into_iter().map(|value| value.to_string()).collect::<Vec<_>>().join("-")
}

/// `1 place`, `3 places`.
pub(crate) fn counted(count: usize, what: &str) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {what}{plural}")
}

/// `root position`, `1st inversion`, `2nd inversion`; of an augmented triad, which sounds alike from
/// each of its notes, `1st inversion (any root)`.
pub(crate) fn inversion(inversion: Inversion, by_name_only: bool) -> String {
    let words = match inversion {
        Inversion::Root => "root position",
        Inversion::First => "1st inversion",
        Inversion::Second => "2nd inversion",
    };
    if by_name_only { format!("{words} (any root)") } else { words.to_owned() }
}

/// `mode 4 of D major`; for a scale that is its own parent, `mode 1, C major itself`.
pub(crate) fn mode_of(mode: u8, parent: &impl Display) -> String {
    if mode == 1 { format!("mode 1, {parent} itself") } else { format!("mode {mode} of {parent}") }
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_mistyped_word_finds_its_word_and_nonsense_finds_none() {
        let words = ["pageup", "pagedown", "enter"];
        assert_eq!(nearest("pagdown", words), Some("pagedown"));
        assert_eq!(nearest("pgup", words), Some("pageup"));
        assert_eq!(nearest("qqq", words), None);
    }
}
