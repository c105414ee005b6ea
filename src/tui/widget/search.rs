//! What a list is searched for by typing.

use super::text_field::TextField;
use crate::tui::key::Key;

/// What is searched for, and where the list stands: its marked line, or the line on top.
#[derive(Clone, Debug)]
pub(in crate::tui) struct Search {
    pub(in crate::tui) field: TextField,
    pub(in crate::tui) at: usize,
}

impl Search {
    /// Nothing is searched for yet.
    pub(in crate::tui) fn new() -> Search {
        Search { field: TextField::holding(""), at: 0 }
    }

    /// Does a line hold every word of the search?
    pub(in crate::tui) fn finds(&self, line: &str) -> bool {
        let line = line.to_lowercase();
        self.field.text().to_lowercase().split_whitespace().all(|word| line.contains(word))
    }

    /// Empties the search; false if it was empty.
    pub(in crate::tui) fn empty(&mut self) -> bool {
        let was_empty = self.field.text().is_empty();
        *self = Search::new();
        !was_empty
    }

    /// Types in the search; whatever is typed, the list begins at its first line.
    pub(in crate::tui) fn press(&mut self, key: Key) {
        let before = self.field.text();
        self.field.press(key);
        if self.field.text() != before {
            self.at = 0;
        }
    }

    /// Takes a pasted text, as if it had been typed.
    pub(in crate::tui) fn insert(&mut self, text: &str) {
        self.field.insert(text);
        self.at = 0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_is_to_be_found_in_any_order_and_case() {
        let mut search = Search::new();
        assert!(search.finds("") && search.finds("anything"));
        search.insert("Pair next");
        assert!(search.finds("the next pair of the scale"));
        assert!(!search.finds("the pair before"));
    }

    #[test]
    fn what_is_typed_leads_to_the_first_line_and_a_mere_move_does_not() {
        let mut search = Search { at: 7, ..Search::new() };
        search.press("left".parse().unwrap());
        assert_eq!(search.at, 7);
        search.press("x".parse().unwrap());
        assert_eq!((search.at, search.field.text()), (0, "x".to_owned()));
        search.at = 3;
        assert!(search.empty());
        assert!(!search.empty());
        assert_eq!((search.at, search.field.text()), (0, String::new()));
    }
}
