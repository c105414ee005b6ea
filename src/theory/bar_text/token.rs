//! Words, bar lines and comments.

use super::fault::BarFault;
use super::page::{Page, Place};
use super::pass::Pass;

/// A piece of a text.
pub(super) struct Token<'a> {
    pub(super) place: Place,
    pub(super) kind: TokenKind<'a>,
}

pub(super) enum TokenKind<'a> {
    /// A comment line, without its `#`.
    Comment(&'a str),
    BarLine(BarLine),
    /// Anything else between spaces and bar lines.
    Word(&'a str),
    /// A line that was no comment ends.
    LineEnd,
}

/// `|`, `||`, `|:`, `:|`, `:|3`, `:|:`.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) struct BarLine {
    /// The last time through a repeat that ends here.
    pub(super) closes: Option<Pass>,
    /// Does a repeat begin here?
    pub(super) opens: bool,
}

/// Takes one of the texts of a page apart. Bar lines need no spaces around them.
pub(super) fn tokens<'a>(page: &Page<'a>, text: usize) -> Result<Vec<Token<'a>>, BarFault> {
    let mut tokens = Vec::new();
    for (line, text) in page.lines_of(text) {
        Line { page, line, tokens: &mut tokens }.read(text)?;
    }
    Ok(tokens)
}

struct Line<'l, 'a> {
    page: &'l Page<'a>,
    line: usize,
    tokens: &'l mut Vec<Token<'a>>,
}

impl<'a> Line<'_, 'a> {
    fn read(&mut self, text: &'a str) -> Result<(), BarFault> {
        if let Some(comment) = text.trim().strip_prefix('#') {
            self.push(1, text, TokenKind::Comment(comment.trim()));
            return Ok(());
        }
        let mut character = 1;
        let mut rest = text;
        while let Some((piece, after)) = split_after_spaces(rest) {
            self.read_between_spaces(piece.trim_end(), character)?;
            character += piece.chars().count();
            rest = after;
        }
        self.push(character, "", TokenKind::LineEnd);
        Ok(())
    }

    fn push(&mut self, character: usize, text: &str, kind: TokenKind<'a>) {
        let place = self.place(character, text);
        self.tokens.push(Token { place, kind });
    }

    fn place(&self, character: usize, text: &str) -> Place {
        Place { line: self.line, character, characters: text.chars().count() }
    }

    /// Reads what holds no space and begins at this character.
    fn read_between_spaces(
        &mut self,
        mut text: &'a str,
        mut character: usize,
    ) -> Result<(), BarFault> {
        while let Some((word, sign, rest)) = split_at_bar_line(text) {
            self.push_word(word, character)?;
            character += word.chars().count();
            let line = BarLine::read(sign)
                .ok_or_else(|| self.page.wrong(self.place(character, sign), A_BAR_LINE))?;
            self.push(character, sign, TokenKind::BarLine(line));
            character += sign.chars().count();
            text = rest;
        }
        self.push_word(text, character)
    }

    /// Words after a `#` could be chords or not, and how many bars there are would be uncertain.
    fn push_word(&mut self, word: &'a str, character: usize) -> Result<(), BarFault> {
        if word.starts_with('#') {
            return Err(self.page.wrong(self.place(character, word), A_LINE_OF_ITS_OWN));
        }
        if !word.is_empty() {
            self.push(character, word, TokenKind::Word(word));
        }
        Ok(())
    }
}

const A_LINE_OF_ITS_OWN: &str = "a comment on a line of its own that begins with #";

const A_BAR_LINE: &str = "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times";

/// What comes before the first space that is in no section's name, with that space, and what comes
/// after it; `None` at the end.
fn split_after_spaces(text: &str) -> Option<(&str, &str)> {
    if text.is_empty() {
        return None;
    }
    let space = text.find(char::is_whitespace).unwrap_or(text.len());
    let from = text.get(..space).and_then(|word| end_of_name(word, text)).unwrap_or(space);
    let space = text.get(from..)?.char_indices().find(|(_, sign)| sign.is_whitespace());
    text.split_at_checked(space.map_or(text.len(), |(at, sign)| from + at + sign.len_utf8()))
}

/// Where the section's name ends that begins in the first word of a text and holds spaces.
fn end_of_name(word: &str, text: &str) -> Option<usize> {
    let (before, name) = word.split_once('[')?;
    if !(before.is_empty() || before.ends_with(['|', ':'])) || name.contains(']') {
        return None;
    }
    let from = before.len() + 1;
    let end = from + text.get(from..)?.find(['[', ']', '|'])?;
    text.get(end..)?.starts_with(']').then_some(end)
}

/// The word before the first bar line, that bar line, and what comes after it.
fn split_at_bar_line(text: &str) -> Option<(&str, &str, &str)> {
    let stroke = text.find('|')?;
    let word = text.get(..stroke)?.trim_end_matches(':');
    let signs = text.get(word.len()..)?;
    let rest = signs.trim_start_matches(['|', ':']);
    let digits = rest.trim_start_matches(|next: char| next.is_ascii_digit());
    let ends = digits.is_empty() || digits.starts_with('|');
    // `:|2.` is an ending after a repeat, and `:|3/4` a meter.
    let rest = if signs.starts_with(':') && ends { digits } else { rest };
    Some((word, signs.strip_suffix(rest)?, rest))
}

impl BarLine {
    fn read(sign: &str) -> Option<BarLine> {
        let after_colon = sign.strip_prefix(':');
        let strokes = after_colon.unwrap_or(sign);
        let number = strokes.trim_start_matches(['|', ':']);
        let strokes = strokes.strip_suffix(number)?;
        let before_colon = strokes.strip_suffix(':');
        if !matches!(before_colon.unwrap_or(strokes), "|" | "||") {
            return None;
        }
        let last = match number {
            "" => Pass::SECOND,
            number => Pass::read(number).filter(|last| *last != Pass::FIRST)?,
        };
        Some(BarLine { closes: after_colon.map(|_| last), opens: before_colon.is_some() })
    }

    /// Is it no part of a repeat?
    pub(super) fn is_plain(self) -> bool {
        self.closes.is_none() && !self.opens
    }
}
