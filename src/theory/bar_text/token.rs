//! Words, bar lines and comments.

use super::page::{Page, Place};
use super::pass::Pass;
use crate::ReadError;

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

/// Takes a text apart. Bar lines need no spaces around them.
pub(super) fn tokens<'a>(page: &Page<'a>) -> Result<Vec<Token<'a>>, ReadError> {
    let mut tokens = Vec::new();
    for (line, text) in page.lines().iter().enumerate() {
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
    fn read(&mut self, text: &'a str) -> Result<(), ReadError> {
        if let Some(comment) = text.trim().strip_prefix('#') {
            self.push(1, text, TokenKind::Comment(comment.trim()));
            return Ok(());
        }
        let mut character = 1;
        for piece in text.split_inclusive(char::is_whitespace) {
            self.read_between_spaces(piece.trim_end(), character)?;
            character += piece.chars().count();
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
    ) -> Result<(), ReadError> {
        while let Some((word, sign, rest)) = split_at_bar_line(text) {
            self.push_word(word, character);
            character += word.chars().count();
            let line = BarLine::read(sign)
                .ok_or_else(|| self.page.wrong(self.place(character, sign), A_BAR_LINE))?;
            self.push(character, sign, TokenKind::BarLine(line));
            character += sign.chars().count();
            text = rest;
        }
        self.push_word(text, character);
        Ok(())
    }

    fn push_word(&mut self, word: &'a str, character: usize) {
        if !word.is_empty() {
            self.push(character, word, TokenKind::Word(word));
        }
    }
}

const A_BAR_LINE: &str = "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times";

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
