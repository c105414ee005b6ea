//! Pitch arithmetic of the tests' own: names and degrees to semitones, sets as sorted lists.
//!
//! It shares no code and no table with the program, so that the two can disagree.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::panic, clippy::unwrap_used, reason = "the functions of a test are a test too")]

/// Semitones of a major scale above its first note.
const MAJOR: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];

const LETTERS: &str = "CDEFGAB";

/// A note name in ASCII, as `Bb` or `F##`: its letter, C being 0, and its accidental.
pub(crate) fn letter_and_accidental(name: &str) -> (usize, i32) {
    let letter = name.get(..1).and_then(|letter| LETTERS.find(letter));
    (letter.unwrap_or_else(|| panic!("no note: {name:?}")), accidental(&name[1..]))
}

/// A note name's pitch class, C being 0.
pub(crate) fn class_of(name: &str) -> i32 {
    let (letter, accidental) = letter_and_accidental(name);
    (MAJOR[letter] + accidental).rem_euclid(12)
}

/// A degree in ASCII, as `b9`: its number and its accidental.
pub(crate) fn number_and_accidental(degree: &str) -> (usize, i32) {
    let digits = degree.trim_start_matches(['b', '#']);
    let number = digits.parse().unwrap_or_else(|_| panic!("no degree: {degree:?}"));
    (number, accidental(&degree[..degree.len() - digits.len()]))
}

/// Semitones of a degree above the root, 0 to 11.
pub(crate) fn semitones_of(degree: &str) -> i32 {
    let (number, accidental) = number_and_accidental(degree);
    (MAJOR[(number - 1) % 7] + accidental).rem_euclid(12)
}

fn accidental(signs: &str) -> i32 {
    let sign = |sign| match sign {
        'b' => -1,
        '#' => 1,
        _ => panic!("no accidental: {signs:?}"),
    };
    signs.chars().map(sign).sum()
}

/// Pitch classes in ascending order, each once.
pub(crate) fn sorted(classes: impl IntoIterator<Item = i32>) -> Vec<i32> {
    let mut classes: Vec<i32> = classes.into_iter().map(|class| class.rem_euclid(12)).collect();
    classes.sort_unstable();
    classes.dedup();
    classes
}

/// Numbers between spaces.
pub(crate) fn numbers(list: &str) -> Vec<i32> {
    list.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

/// The rows of a table of tab-separated fields below its head of `#` lines.
pub(crate) fn rows(table: &str) -> impl Iterator<Item = Vec<&str>> {
    table.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect())
}
