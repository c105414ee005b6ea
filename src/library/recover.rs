//! Reads what can be read of broken TOML: a broken line costs that line.
//!
//! The parser's own recovery goes on inside a list that was never closed and then reports every
//! later line as part of it. Here the line at fault is blanked, byte for byte so that all places
//! stay true, and the rest is parsed again.

use std::ops::Range;

use toml::de::{DeTable, Error};

/// A file with more broken lines than this is no file of ours; trying on would take long.
const BROKEN_LINES: usize = 50;

/// A line that was given up: its place without the blanks around it, and why.
pub(crate) struct Broken {
    pub(crate) span: Range<usize>,
    pub(crate) message: String,
}

/// The text with its broken lines blanked, which then is valid TOML (or empty), and those lines.
pub(crate) fn recover(text: &str) -> (String, Vec<Broken>) {
    let mut text = text.to_owned();
    let mut broken = Vec::new();
    while let Err(error) = DeTable::parse(&text) {
        let line = line_at_fault(&text, &error);
        if line.is_empty() || broken.len() == BROKEN_LINES {
            return (String::new(), broken);
        }
        text = without(&text, &line);
        broken.push(Broken { span: line, message: error.message().to_owned() });
    }
    (text, broken)
}

/// Which line to give up: the one where the parser noticed, or the one before it if that gets
/// further, since an open list or string is only noticed on the next line.
fn line_at_fault(text: &str, error: &Error) -> Range<usize> {
    let noticed = last_line_until(text, error_place(text, error));
    let before = last_line_until(text, noticed.start.saturating_sub(1));
    if before.is_empty() || before == noticed {
        return noticed;
    }
    if reach(&without(text, &before)) > reach(&without(text, &noticed)) { before } else { noticed }
}

/// How far the parser gets; beyond the end if nothing stops it.
fn reach(text: &str) -> usize {
    match DeTable::parse(text) {
        Ok(_) => text.len() + 1,
        Err(error) => error_place(text, &error),
    }
}

fn error_place(text: &str, error: &Error) -> usize {
    error.span().map_or(text.len(), |span| span.start)
}

/// The line at this place, or the last one before it that holds anything, trimmed.
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
