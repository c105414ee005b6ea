//! Reading a pattern.

use std::iter::Peekable;
use std::str::{Chars, FromStr};

use super::figures::{Figure, Figures};
use super::{Pattern, PatternGroup, PatternSign, Sign, Turn};
use crate::ReadError;

/// The longest text that is looked at, in characters.
const LONGEST: usize = 2_000;

impl FromStr for Pattern {
    type Err = ReadError;

    /// Reads groups of signs with spaces between them, as in `1232 321 a`.
    ///
    /// # Errors
    ///
    /// Where a sign is foreign or stands where it says nothing; the error points at it.
    fn from_str(text: &str) -> Result<Pattern, ReadError> {
        Reader { text, rest: text.chars().peekable(), at: 0, is_first: true }.pattern()
    }
}

struct Reader<'a> {
    text: &'a str,
    rest: Peekable<Chars<'a>>,
    /// How many characters have been taken.
    at: usize,
    /// Has nothing sounded yet?
    is_first: bool,
}

impl Reader<'_> {
    fn pattern(mut self) -> Result<Pattern, ReadError> {
        let mut pattern = Pattern { groups: Vec::new() };
        let mut sounds_before = false;
        while self.skip_spaces() {
            let turn = if self.take_if('=') { Turn::Same } else { Turn::Other };
            let stays_at = self.at;
            let group = PatternGroup { turn, signs: self.signs(&mut sounds_before)? };
            if turn == Turn::Same && !group.has_figures() {
                return Err(self.wrong(stays_at, "figures right after =, as in =32"));
            }
            pattern.groups.push(group);
            if pattern.length() > Pattern::LONGEST {
                let most = format!("at most {} signs", Pattern::LONGEST);
                return Err(self.wrong(self.at, most));
            }
        }
        if !pattern.groups.iter().any(PatternGroup::has_figures) {
            return Err(self.wrong(self.at + 1, "at least one group of figures, as in 132 32"));
        }
        Ok(pattern)
    }

    /// The signs up to the next space.
    fn signs(&mut self, sounds_before: &mut bool) -> Result<Vec<PatternSign>, ReadError> {
        let mut signs = Vec::new();
        while self.rest.peek().is_some_and(|next| !next.is_whitespace()) {
            let accent = self.take_if('>');
            let sign_at = self.at + 1;
            let sign = self.sign()?;
            if accent && matches!(sign, Sign::Rest | Sign::Hold) {
                return Err(self.wrong(sign_at, "a note after the accent"));
            }
            if sign == Sign::Hold && !*sounds_before {
                let hint = "a pattern does not begin with _, and a rest is not held";
                return Err(self.wrong(sign_at, "a note before it to hold").with_hint(hint));
            }
            if sign == Sign::FirstNote && self.is_first {
                return Err(self.wrong(sign_at, "a note before it, to which p returns"));
            }
            self.is_first &= sign == Sign::Rest;
            *sounds_before = sign != Sign::Rest;
            signs.push(PatternSign { sign, accent });
            if self.at > LONGEST {
                return Err(self.wrong(self.at, format!("at most {LONGEST} characters")));
            }
        }
        Ok(signs)
    }

    fn sign(&mut self) -> Result<Sign, ReadError> {
        Ok(match self.take() {
            Some('-') => Sign::Rest,
            Some('_') => Sign::Hold,
            Some('a') => Sign::HalfStepBelow,
            Some('A') => Sign::HalfStepAbove,
            Some('s') => Sign::ScaleStep,
            Some('p') => Sign::FirstNote,
            Some('(') => Sign::Figures(self.together()?),
            Some(digit @ '0'..='9') => Sign::Figures(Figures::one(self.figure(digit)?)),
            Some(_) => return Err(self.wrong(self.at, EXPECTED)),
            None => return Err(self.wrong(self.at + 1, EXPECTED)),
        })
    }

    /// What stands between round brackets, the first of which is taken.
    fn together(&mut self) -> Result<Figures, ReadError> {
        let mut all: Option<Figures> = None;
        loop {
            let figure = match self.take() {
                Some(digit @ '0'..='9') => self.figure(digit)?,
                Some(')') if all.is_some_and(|all| all.count() > 1) => break,
                Some(_) => return Err(self.wrong(self.at, TOGETHER)),
                None => return Err(self.wrong(self.at + 1, TOGETHER)),
            };
            let with = all.map_or(Some(Figures::one(figure)), |all| all.with(figure));
            all = Some(with.ok_or_else(|| self.wrong(self.at, TOGETHER))?);
        }
        all.ok_or_else(|| self.wrong(self.at, TOGETHER))
    }

    fn figure(&self, digit: char) -> Result<Figure, ReadError> {
        let number = digit.to_digit(10).and_then(|number| u8::try_from(number).ok());
        number.and_then(Figure::new).ok_or_else(|| {
            let hint = "4 5 6 are 1 2 3 an octave up, 0 is 3 an octave down";
            self.wrong(self.at, "a figure from 0 to 6").with_hint(hint)
        })
    }

    /// Is there anything after the spaces?
    fn skip_spaces(&mut self) -> bool {
        while self.rest.peek().is_some_and(|next| next.is_whitespace()) {
            self.take();
        }
        self.rest.peek().is_some()
    }

    fn take(&mut self) -> Option<char> {
        let next = self.rest.next();
        self.at += usize::from(next.is_some());
        next
    }

    fn take_if(&mut self, sign: char) -> bool {
        let is_next = self.rest.peek() == Some(&sign);
        if is_next {
            self.take();
        }
        is_next
    }

    /// `at` counts characters from 1.
    fn wrong(&self, at: usize, expected: impl Into<std::borrow::Cow<'static, str>>) -> ReadError {
        ReadError::at_character("pattern", self.text, at, expected)
    }
}

const EXPECTED: &str = "a figure from 0 to 6, - _ a A s p, or figures together as in (13)";
const TOGETHER: &str = "two or three different figures between brackets, as in (13)";
