//! Reads what can be read of broken TOML: a broken line is skipped, and the others are read.
//!
//! The parser's own recovery takes a list that is never closed to go on to the end of the file, and
//! reports every later line as part of it. Here the broken line is overwritten with blanks, byte
//! for byte so that all places stay the same, and the text is parsed again.

use std::ops::Range;

use toml::de::{DeTable, Error};

/// How many lines are given up at most. A file with more broken lines is not TOML at all, and to
/// parse it again for each of them takes long.
const MOST_BROKEN_LINES: usize = 50;

/// A line that is skipped: its place without the blanks around it, and why.
pub(crate) struct BrokenLine {
    pub(crate) span: Range<usize>,
    pub(crate) message: String,
}

/// The text with its broken lines blanked, and those lines. The text is then valid TOML, or empty.
pub(crate) fn recover(text: &str) -> (String, Vec<BrokenLine>) {
    let mut text = text.to_owned();
    let mut broken = Vec::new();
    while let Err(error) = DeTable::parse(&text) {
        let line = line_to_skip(&text, &error);
        if line.is_empty() || broken.len() == MOST_BROKEN_LINES {
            return (String::new(), broken);
        }
        text = without(&text, &line);
        broken.push(BrokenLine { span: line, message: error.message().to_owned() });
    }
    (text, broken)
}

/// The line to skip. It is the line where the parser stopped, or the line before it if the parser
/// gets further without that one: an open list or string is noticed only on the next line.
fn line_to_skip(text: &str, error: &Error) -> Range<usize> {
    let stopped = last_line_until(text, error_place(text, error));
    let before = last_line_until(text, stopped.start.saturating_sub(1));
    if before.is_empty() || before == stopped {
        return stopped;
    }
    let parsed_without = |line| parsed_until(&without(text, line));
    if parsed_without(&before) > parsed_without(&stopped) { before } else { stopped }
}

/// The byte where the parser stops; beyond the end of the text where it reads everything.
fn parsed_until(text: &str) -> usize {
    match DeTable::parse(text) {
        Ok(_) => text.len() + 1,
        Err(error) => error_place(text, &error),
    }
}

fn error_place(text: &str, error: &Error) -> usize {
    error.span().map_or(text.len(), |span| span.start)
}

/// The line at this place, or the last line before it that is not blank; without blanks around it.
fn last_line_until(text: &str, place: usize) -> Range<usize> {
    let mut start = 0;
    let mut found = 0..0;
    for line in text.split_inclusive('\n') {
        if start > place {
            break;
        }
        let written = line.trim();
        if !written.is_empty() {
            let indent = line.len() - line.trim_start().len();
            found = start + indent..start + indent + written.len();
        }
        start += line.len();
    }
    found
}

fn without(text: &str, line: &Range<usize>) -> String {
    let mut rest = text.to_owned();
    if text.get(line.clone()).is_some() {
        rest.replace_range(line.clone(), &" ".repeat(line.len()));
    }
    rest
}
