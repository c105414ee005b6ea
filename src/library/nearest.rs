//! “Did you mean …?”

/// The name of `names` nearest to `word`: at most a third of its letters, and always one, may
/// differ. Case does not count; of equally near ones the first.
///
/// # Example
///
/// ```
/// use fretloom::library::nearest;
/// assert_eq!(nearest("scale_m", &["frets", "scale_mm"]), Some("scale_mm"));
/// assert_eq!(nearest("colour", &["frets", "scale_mm"]), None);
/// ```
#[must_use]
pub fn nearest<'a>(word: &str, names: &[&'a str]) -> Option<&'a str> {
    // Long words are no slips of the pen, and the distance is quadratic.
    let word: Vec<char> = word.chars().take(60).flat_map(char::to_lowercase).collect();
    let allowed = (word.len() / 3).max(1);
    let distances = names.iter().map(|name| (distance(&word, name), *name));
    let near = distances.filter(|(distance, _)| *distance <= allowed);
    near.min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

/// Letters to put in, leave out or change on the way from one to the other (Levenshtein).
fn distance(word: &[char], name: &str) -> usize {
    let mut row: Vec<usize> = (0..=word.len()).collect();
    for (index, letter) in name.chars().flat_map(char::to_lowercase).enumerate() {
        let mut diagonal = index;
        let mut left = index + 1;
        for (cell, &other) in row
            .iter_mut()
            .zip(std::iter::once(&'\0').chain(word))
            .skip(1)
        {
            let changed = diagonal + usize::from(other != letter);
            diagonal = *cell;
            left = changed.min(diagonal + 1).min(left + 1);
            *cell = left;
        }
        if let Some(first) = row.first_mut() {
            *first = index + 1;
        }
    }
    row.last().copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn between(word: &str, name: &str) -> usize {
        distance(&word.chars().collect::<Vec<_>>(), name)
    }

    #[test]
    fn distances_are_counted_in_letters() {
        for (word, name, letters) in [
            ("", "", 0),
            ("", "abc", 3),
            ("abc", "", 3),
            ("strings", "strings", 0),
            ("string", "strings", 1),
            ("fert", "frets", 3),
            ("kitten", "sitting", 3), // the textbook example
        ] {
            assert_eq!(between(word, name), letters, "{word} {name}");
            assert_eq!(between(name, word), letters, "{name} {word}");
        }
    }

    #[test]
    fn only_near_names_are_offered() {
        let names = ["name", "strings", "frets"];
        assert_eq!(nearest("String", &names), Some("strings"));
        assert_eq!(nearest("fret", &names), Some("frets"));
        assert_eq!(nearest("xyz", &names), None);
        assert_eq!(nearest("", &names), None);
    }
}
