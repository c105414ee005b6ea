//! What is wrong in a data file, and where.

use std::fmt;

/// A part of a file that could not be used. Typed text has
/// [`ReadError`](fretloom_theory::ReadError) instead.
///
/// Prints as one line, as compilers do: ``file:line:column: found `text`, expected …``.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Problem {
    /// The path or the name of the file.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// The column, counted in characters from 1.
    pub column: usize,
    /// The text that stands there; empty where the whole file is meant.
    pub text: String,
    /// What was expected instead.
    pub expected: String,
}

impl Problem {
    /// How much of the text is quoted, in characters.
    const SHOWN: usize = 40;

    /// A problem with bytes `from..to` of `content`.
    pub(crate) fn at(file: &str, content: &str, span: (usize, usize), expected: String) -> Problem {
        let (from, to) = span;
        let found = content.get(from..to).unwrap_or_default();
        Problem::quoting(file, line_and_column(content, from), found, expected)
    }

    /// A problem at a line and a column, where this text stands.
    pub(crate) fn quoting(
        file: &str,
        (line, column): (usize, usize),
        found: &str,
        expected: String,
    ) -> Problem {
        let found = found.lines().next().unwrap_or_default();
        // An escape sequence in the file must not reach the terminal.
        let shown = found.trim().chars().filter(|c| !c.is_control());
        Problem {
            file: file.to_owned(),
            line,
            column,
            text: shown.take(Problem::SHOWN).collect(),
            expected,
        }
    }

    /// A problem with the whole file.
    pub(crate) fn of_file(file: &str, expected: String) -> Problem {
        Problem::at(file, "", (0, 0), expected)
    }
}

/// The line and the column of a byte, both counted from 1, the column in characters.
pub(crate) fn line_and_column(content: &str, at: usize) -> (usize, usize) {
    let before = content.get(..at).unwrap_or(content);
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let in_line = before.get(line_start..).unwrap_or_default();
    (before.matches('\n').count() + 1, in_line.chars().count() + 1)
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        write!(f, "{}:{}:{}: ", self.file, self.line, self.column)?;
        if !self.text.is_empty() {
            write!(f, "found `{}`, ", one_line(&self.text))?;
        }
        write!(f, "expected {}", one_line(&self.expected))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_counted_in_lines_and_characters() {
        let content = "name = \"x\"\n♭♭ = \"H2\"\n";
        let from = content.find("\"H2\"").unwrap();
        let problem = Problem::at("a.toml", content, (from, from + 4), "a note".to_owned());
        assert_eq!((problem.line, problem.column), (2, 6));
        assert_eq!(problem.to_string(), "a.toml:2:6: found `\"H2\"`, expected a note");
    }

    #[test]
    fn a_whole_file_shows_no_text() {
        let problem = Problem::of_file("a.toml", "a file\nthat can be read".to_owned());
        assert_eq!(problem.to_string(), "a.toml:1:1: expected a file that can be read");
    }
}
