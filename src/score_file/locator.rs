//! From byte offsets to lines and columns.

use super::error::At;

/// Finds the line and column of offsets that mostly grow. It goes on from the last one: counting
/// from the beginning each time would take hours where a long file is a single line.
pub(super) struct Locator<'a> {
    text: &'a str,
    offset: usize,
    line: usize,
    column: usize,
}

impl<'a> Locator<'a> {
    pub(super) fn new(text: &'a str) -> Locator<'a> {
        Locator { text, offset: 0, line: 1, column: 1 }
    }

    /// The line and column of a byte offset, both counted from 1; of the end for a later one.
    pub(super) fn at(&mut self, offset: usize) -> At {
        if offset < self.offset {
            *self = Locator::new(self.text);
        }
        let rest = self.text.get(self.offset..).unwrap_or_default();
        for (index, char) in rest.char_indices() {
            if self.offset + index >= offset {
                self.offset += index;
                return self.here();
            }
            self.pass(char);
        }
        self.offset = self.text.len();
        self.here()
    }

    fn pass(&mut self, char: char) {
        if char == '\n' {
            self.line += 1;
            self.column = 1;
        } else {
            self.column += 1;
        }
    }

    fn here(&self) -> At {
        At::Text { line: self.line, column: self.column }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_are_found_forwards_and_backwards() {
        let mut locator = Locator::new("a♭c\nde\n");
        for (offset, line, column) in [
            (0, 1, 1),
            (4, 1, 3),
            (6, 2, 1),
            (7, 2, 2),
            (9, 3, 1),
            (99, 3, 1),
            (1, 1, 2),
            (6, 2, 1),
        ] {
            assert_eq!(locator.at(offset), At::Text { line, column }, "{offset}");
        }
    }
}
