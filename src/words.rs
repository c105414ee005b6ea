//! “Did you mean …”: the known word most like the one that was written.

/// Below this likeness a suggestion confuses more than it helps; 1 is the same word.
const LIKE_ENOUGH: f64 = 0.7;

/// The candidate most like `word`, if one is like enough; the first of equals.
///
/// ```
/// use fretloom::words::nearest;
/// assert_eq!(nearest("pars", ["pairs", "scales"]), Some("pairs"));
/// assert_eq!(nearest("zzz", ["pairs", "scales"]), None);
/// ```
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let mut best = None;
    let mut best_likeness = LIKE_ENOUGH;
    for candidate in candidates {
        let likeness = strsim::jaro(word, candidate);
        if likeness > best_likeness {
            best = Some(candidate);
            best_likeness = likeness;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_finds_its_word_and_nonsense_finds_none() {
        let words = ["pageup", "pagedown", "enter"];
        assert_eq!(nearest("pagdown", words), Some("pagedown"));
        assert_eq!(nearest("pgup", words), Some("pageup"));
        assert_eq!(nearest("qqq", words), None);
    }
}
