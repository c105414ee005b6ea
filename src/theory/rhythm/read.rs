//! Reading a rhythm, and writing its values.

use std::borrow::Cow;
use std::str::FromStr;

use super::length::{PARTS, WIDEST_TUPLET};
use super::{Rhythm, RhythmValue, ValueKind};
use crate::ReadError;
use crate::time::Quarters;

/// The longest text that is looked at, in characters.
const LONGEST: usize = 2_000;

/// Rhythms that have a name.
const NAMED: [(&str, &str); 7] = [
    ("wholes", "1"),
    ("halves", "2"),
    ("quarters", "4"),
    ("eighths", "8"),
    ("triplets", "3:2(8 8 8)"),
    ("sixteenths", "16"),
    ("quintuplets", "5:4(16 16 16 16 16)"),
];

impl FromStr for Rhythm {
    type Err = ReadError;

    /// Reads values with spaces between them, as in `8 8 4. -8`, or a name, as in `eighths`.
    ///
    /// # Errors
    ///
    /// Where a value is none, or no note is among them; the error points at it.
    fn from_str(text: &str) -> Result<Rhythm, ReadError> {
        let name = text.trim().to_ascii_lowercase();
        if let Some((_, values)) = NAMED.iter().find(|(named, _)| *named == name) {
            return Reader::of(values).rhythm();
        }
        Reader::of(text).rhythm()
    }
}

struct Reader<'a> {
    text: &'a str,
    signs: Vec<char>,
    /// How many signs have been taken.
    at: usize,
    values: Vec<RhythmValue>,
}

impl<'a> Reader<'a> {
    fn of(text: &'a str) -> Reader<'a> {
        let signs = text.chars().take(LONGEST + 1).collect();
        Reader { text, signs, at: 0, values: Vec::new() }
    }

    fn rhythm(mut self) -> Result<Rhythm, ReadError> {
        let mut pick_up = None;
        if self.signs.len() > LONGEST {
            return Err(self.wrong(LONGEST + 1, format!("at most {LONGEST} characters")));
        }
        loop {
            self.skip_spaces();
            match self.peek() {
                None => break,
                Some('|') if pick_up.is_none() && !self.values.is_empty() => {
                    self.at += 1;
                    pick_up = Some(std::mem::take(&mut self.values));
                }
                Some('|') => return Err(self.wrong(self.at + 1, STROKE)),
                Some(_) => self.value_or_tuplet()?,
            }
        }
        let has_note = self.values.iter().any(|value| value.kind != ValueKind::Rest);
        if !has_note {
            return Err(self.wrong(self.at + 1, "at least one note, as in 8 8 4"));
        }
        let rhythm = Rhythm { pick_up: pick_up.unwrap_or_default(), cycle: self.values };
        match rhythm.round().and(rhythm.pick_up_length()) {
            Some(_) => Ok(rhythm),
            None => Err(ReadError::whole("rhythm", self.text, "values that add up exactly")),
        }
    }

    /// Takes `8.`, `4~8`, `-8`, `>8` or `3:2(…)`.
    fn value_or_tuplet(&mut self) -> Result<(), ReadError> {
        let begins_at = self.at;
        if let Some(notes) = self.number() {
            if self.take_if(':') {
                return self.tuplet(begins_at, notes);
            }
            self.at = begins_at;
        }
        let value = self.value()?;
        self.push(value)
    }

    fn tuplet(&mut self, begins_at: usize, notes: u32) -> Result<(), ReadError> {
        let normal = self.number().filter(|normal| is_tuplet(notes, *normal));
        let normal = normal.filter(|_| self.take_if('('));
        let normal = normal.ok_or_else(|| self.wrong(begins_at + 1, TUPLET))?;
        let first = self.values.len();
        loop {
            self.skip_spaces();
            if self.take_if(')') {
                break;
            }
            let value_at = self.at + 1;
            let mut value = self.value()?;
            let length = value.length.in_tuplet(notes, normal);
            value.length = length.ok_or_else(|| self.wrong(value_at, EXACT))?;
            self.push(value)?;
        }
        if self.values.len() == first {
            return Err(self.wrong(self.at, TUPLET));
        }
        Ok(())
    }

    fn push(&mut self, value: RhythmValue) -> Result<(), ReadError> {
        if self.values.len() == Rhythm::LONGEST {
            return Err(self.wrong(self.at, format!("at most {} values", Rhythm::LONGEST)));
        }
        self.values.push(value);
        Ok(())
    }

    fn value(&mut self) -> Result<RhythmValue, ReadError> {
        let kind = match self.peek() {
            Some('-') => ValueKind::Rest,
            Some('>') => ValueKind::Accent,
            _ => ValueKind::Note,
        };
        self.at += usize::from(kind != ValueKind::Note);
        let mut length = self.length()?;
        while self.take_if('~') {
            let more = self.length()?;
            length = length.checked_add(more).ok_or_else(|| self.wrong(self.at, EXACT))?;
        }
        match self.peek() {
            None | Some(')' | '|') => Ok(RhythmValue { length, kind }),
            Some(space) if space.is_whitespace() => Ok(RhythmValue { length, kind }),
            Some(_) => Err(self.wrong(self.at + 1, "a space after the value")),
        }
    }

    /// `4`, `8.`
    fn length(&mut self) -> Result<Quarters, ReadError> {
        let at = self.at + 1;
        let part = self.number().filter(|part| PARTS.contains(part));
        let part = part.ok_or_else(|| self.wrong(at, VALUE))?;
        let whole = Quarters::whole(4).divided_into(part);
        let mut dot = whole.ok_or_else(|| self.wrong(at, VALUE))?;
        let mut length = dot;
        let mut dots = 0;
        while self.take_if('.') {
            dots += 1;
            let halved = dot.divided_into(2).filter(|_| dots <= MOST_DOTS);
            dot = halved.ok_or_else(|| self.wrong(self.at, "at most three dots"))?;
            length = length.checked_add(dot).ok_or_else(|| self.wrong(self.at, EXACT))?;
        }
        Ok(length)
    }

    /// A number of at most four digits.
    fn number(&mut self) -> Option<u32> {
        let digits: String = self.rest().iter().take_while(|sign| sign.is_ascii_digit()).collect();
        let number = digits.parse().ok().filter(|_| digits.len() <= 4)?;
        self.at += digits.len();
        Some(number)
    }

    fn rest(&self) -> &[char] {
        self.signs.get(self.at..).unwrap_or_default()
    }

    fn peek(&self) -> Option<char> {
        self.signs.get(self.at).copied()
    }

    fn take_if(&mut self, sign: char) -> bool {
        let is_next = self.peek() == Some(sign);
        self.at += usize::from(is_next);
        is_next
    }

    fn skip_spaces(&mut self) {
        self.at += self.rest().iter().take_while(|sign| sign.is_whitespace()).count();
    }

    /// `at` counts characters from 1.
    fn wrong(&self, at: usize, expected: impl Into<Cow<'static, str>>) -> ReadError {
        ReadError::at_character("rhythm", self.text, at, expected)
    }
}

fn is_tuplet(notes: u32, normal: u32) -> bool {
    let sensible = 1..=WIDEST_TUPLET;
    sensible.contains(&notes) && sensible.contains(&normal)
}

const MOST_DOTS: u32 = 3;

const VALUE: &str = "a value: 1 2 4 8 16 32 or 64, as in 8, 4. or -8";
const TUPLET: &str = "a tuplet as in 3:2(8 8 8)";
const STROKE: &str = "one | alone, after the pick-up";
const EXACT: &str = "lengths that add up exactly";
