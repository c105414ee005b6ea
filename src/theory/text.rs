//! Names and counts as text: signs, how alike two names are, and numbers as words.

use std::borrow::Cow;

/// A name with its signs: a `b` or `#` directly before a number becomes ♭ or ♯.
pub(crate) fn with_signs(name: &str) -> String {
    let chars: Vec<char> = name.chars().collect();
    let mut out = String::with_capacity(name.len() + 4);
    for (at, &char) in chars.iter().enumerate() {
        let mut run = chars.iter().skip(at).skip_while(|next| **next == char);
        let before_number = run.next().is_some_and(char::is_ascii_digit);
        let inside_word = at > 0 && chars.get(at - 1).is_some_and(|last| last.is_alphabetic());
        let doubled = at > 0 && chars.get(at - 1) == Some(&char);
        out.push(match char {
            'b' if before_number && (!inside_word || doubled) => '♭',
            '#' if before_number => '♯',
            other => other,
        });
    }
    out
}

/// How many letters to insert, drop or change to make one word of the other.
pub(crate) fn edits(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().take(64).collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, a) in a.chars().take(64).enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        for (slot, b) in row.iter_mut().skip(1).zip(&b) {
            let kept = diagonal + usize::from(a != *b);
            diagonal = *slot;
            *slot = kept.min(*slot + 1).min(left + 1);
            left = *slot;
        }
        if let Some(first) = row.first_mut() {
            *first = i + 1;
        }
    }
    row.last().copied().unwrap_or_default()
}

/// A small number as a word, a larger one in figures.
pub(crate) fn count_in_words(count: usize) -> Cow<'static, str> {
    const WORDS: [&str; 9] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"];
    WORDS.get(count).map_or_else(|| count.to_string().into(), |word| (*word).into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_stand_only_before_numbers() {
        assert_eq!(with_signs("Dorian b2"), "Dorian ♭2");
        assert_eq!(with_signs("altered bb7"), "altered ♭♭7");
        assert_eq!(with_signs("Lydian augmented #2"), "Lydian augmented ♯2");
        assert_eq!(with_signs("bebop dominant"), "bebop dominant");
    }

    #[test]
    fn edits_count_single_letters() {
        for (a, b, count) in [("", "", 0), ("lydian", "lidian", 1), ("abc", "", 3), ("ab", "ba", 2)]
        {
            assert_eq!(edits(a, b), count, "{a} {b}");
        }
    }
}
