//! From words and bar lines to written bars.

use std::borrow::Cow;

use super::mark::{ClosingMark, OpeningMark};
use super::page::{Page, Place};
use super::pass::Pass;
use super::pick_up::PickUp;
use super::problem::BarPlaces;
use super::sign::{ContentSign, Sign};
use super::token::{BarLine, Token, TokenKind, tokens};
use super::written_bar::{BarContent, BeatSign, WrittenBar};
use crate::ReadError;

/// The most chords and `/` in a bar.
const MOST_SIGNS: usize = 64;

/// What is written in a text, and where its bars stand there.
pub(super) struct Read {
    /// And where that is written.
    pub(super) pick_up: Option<(PickUp, Place)>,
    pub(super) bars: Vec<WrittenBar>,
    /// As many as there are bars.
    pub(super) places: Vec<BarPlaces>,
    /// The comment lines after the last bar.
    pub(super) comments: Vec<Box<str>>,
}

/// # Errors
///
/// Where a word means nothing or stands where it means nothing.
pub(super) fn read(page: &Page<'_>) -> Result<Read, ReadError> {
    let tokens = tokens(page)?;
    let mut reader = Reader {
        page,
        division: Division::of(&tokens),
        read: Read { pick_up: None, bars: Vec::new(), places: Vec::new(), comments: Vec::new() },
        draft: Draft::default(),
        bar_line: None,
    };
    for token in &tokens {
        reader.token(token)?;
    }
    reader.finish()
}

/// What divides the bars of a text.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Division {
    /// Bar lines, and the ends of lines.
    BarLines,
    /// Nothing: each chord has its bar, as no bar line is written.
    OneAChord,
}

impl Division {
    fn of(tokens: &[Token<'_>]) -> Division {
        let divides = |token: &Token<'_>| match token.kind {
            TokenKind::BarLine(_) | TokenKind::Word("/") => true,
            TokenKind::Word(_) | TokenKind::Comment(_) | TokenKind::LineEnd => false,
        };
        if tokens.iter().any(divides) { Division::BarLines } else { Division::OneAChord }
    }
}

struct Reader<'p, 'a> {
    page: &'p Page<'a>,
    division: Division,
    read: Read,
    /// The bar that is being read.
    draft: Draft,
    /// The bar line that the last token was, and where.
    bar_line: Option<(BarLine, Place)>,
}

/// What has been read of a bar.
#[derive(Default)]
struct Draft {
    comments: Vec<Box<str>>,
    repeat_begins: bool,
    opening: Vec<OpeningMark>,
    content: Vec<ContentSign>,
    closing: Vec<ClosingMark>,
    places: BarPlaces,
}

impl Reader<'_, '_> {
    fn token(&mut self, token: &Token<'_>) -> Result<(), ReadError> {
        let place = token.place;
        match token.kind {
            TokenKind::Comment(text) => self.draft.comments.push(text.into()),
            TokenKind::LineEnd => {
                self.bar_line = None;
                self.finish_bar()?;
            }
            TokenKind::BarLine(line) => {
                self.bar_line(line, place)?;
                self.bar_line = Some((line, place));
            }
            TokenKind::Word(word) => {
                self.bar_line = None;
                let sign = Sign::read(word).map_err(|error| self.page.within(place, error))?;
                self.sign(sign, word, place)?;
            }
        }
        Ok(())
    }

    fn wrong<T>(
        &self,
        place: Place,
        expected: impl Into<Cow<'static, str>>,
    ) -> Result<T, ReadError> {
        Err(self.page.wrong(place, expected))
    }

    fn bar_line(&mut self, line: BarLine, place: Place) -> Result<(), ReadError> {
        let plain_before = self.bar_line.is_some_and(|(before, _)| before.is_plain());
        if plain_before && line.is_plain() {
            return self.wrong(place, "a chord before this bar line, or % for the bar before");
        }
        if !self.draft.content.is_empty() {
            self.draft.places.end = place;
            self.finish_bar()?;
        }
        if let Some(last) = line.closes {
            self.close_repeat(last, place)?;
        }
        if line.opens && std::mem::replace(&mut self.draft.repeat_begins, true) {
            return self.wrong(place, "a bar after the |: before");
        }
        self.draft.places.beginning = Some(place);
        Ok(())
    }

    /// `:|` ends the bar before it.
    fn close_repeat(&mut self, last: Pass, place: Place) -> Result<(), ReadError> {
        if self.draft.has_marks() {
            return self.wrong(place, "a chord before this :|");
        }
        let Some(bar) = self.read.bars.last_mut().filter(|bar| bar.repeat_ends.is_none()) else {
            return self.wrong(place, "bars before this :|");
        };
        bar.repeat_ends = Some(last);
        if let Some(places) = self.read.places.last_mut() {
            places.end = place;
        }
        Ok(())
    }

    fn sign(&mut self, sign: Sign, word: &str, place: Place) -> Result<(), ReadError> {
        self.draft.places.beginning.get_or_insert(place);
        match sign {
            Sign::PickUp(pick_up) => self.pick_up(pick_up, place),
            Sign::Opening(mark) => self.opening(mark, word, place),
            Sign::Closing(mark) => self.closing(mark, word, place),
            Sign::Content(sign) => self.content(sign, word, place),
        }
    }

    fn pick_up(&mut self, pick_up: PickUp, place: Place) -> Result<(), ReadError> {
        let draft = &self.draft;
        let is_first = self.read.bars.is_empty() && draft.content.is_empty() && !draft.has_marks();
        if !is_first || self.read.pick_up.is_some() {
            return self.wrong(place, "pickup= only once, before everything else");
        }
        self.read.pick_up = Some((pick_up, place));
        Ok(())
    }

    fn opening(&mut self, mark: OpeningMark, word: &str, place: Place) -> Result<(), ReadError> {
        if !self.draft.content.is_empty() {
            match self.division {
                Division::OneAChord => self.finish_bar()?,
                Division::BarLines => {
                    return self.wrong(place, format!("{word} at the beginning of a bar"));
                }
            }
        }
        self.draft.opening.push(mark);
        self.draft.places.opening.push(place);
        Ok(())
    }

    /// A closing mark that stands alone between bar lines belongs to the bar before.
    fn closing(&mut self, mark: ClosingMark, word: &str, place: Place) -> Result<(), ReadError> {
        let (closing, places) = if !self.draft.content.is_empty() {
            (&mut self.draft.closing, &mut self.draft.places)
        } else {
            match (self.read.bars.last_mut(), self.read.places.last_mut()) {
                (Some(bar), Some(places)) if !self.draft.has_marks() => (&mut bar.closing, places),
                _ => return self.wrong(place, format!("a chord before {word}")),
            }
        };
        closing.push(mark);
        places.closing.push(place);
        Ok(())
    }

    fn content(&mut self, sign: ContentSign, word: &str, place: Place) -> Result<(), ReadError> {
        if !self.draft.content.is_empty() && self.division == Division::OneAChord {
            self.finish_bar()?;
            self.draft.places.beginning = Some(place);
        }
        if let Some(mark) = self.draft.closing.last() {
            return self.wrong(place, format!("a bar line between {mark} and {word}"));
        }
        if self.draft.content.len() == MOST_SIGNS {
            return self
                .wrong(place, format!("a bar line: a bar holds {MOST_SIGNS} chords at most"));
        }
        self.draft.content.push(sign);
        self.draft.places.content.push(place);
        self.draft.places.end = place;
        Ok(())
    }

    /// What has been read becomes a bar, if there are chords in it.
    fn finish_bar(&mut self) -> Result<(), ReadError> {
        if self.draft.content.is_empty() {
            return Ok(());
        }
        let draft = std::mem::take(&mut self.draft);
        let content = content(draft.content).map_err(|index| {
            let place = draft.places.content.get(index).copied().unwrap_or_default();
            self.page.wrong(place, "% or %% alone in its bar")
        })?;
        self.read.places.push(draft.places);
        self.read.bars.push(WrittenBar {
            comments: draft.comments,
            repeat_begins: draft.repeat_begins,
            opening: draft.opening,
            content,
            closing: draft.closing,
            repeat_ends: None,
        });
        Ok(())
    }

    fn finish(mut self) -> Result<Read, ReadError> {
        self.finish_bar()?;
        if self.draft.has_marks() {
            let place = self.draft.places.opening.last().copied();
            let place = place.or(self.draft.places.beginning).unwrap_or_default();
            return self.wrong(place, "a chord after this");
        }
        self.read.comments = self.draft.comments;
        Ok(self.read)
    }
}

impl Draft {
    /// Is there something that the next chord is waited for with?
    fn has_marks(&self) -> bool {
        self.repeat_begins || !self.opening.is_empty()
    }
}

/// # Errors
///
/// Which sign cannot stand beside the others.
fn content(signs: Vec<ContentSign>) -> Result<BarContent, usize> {
    let by_beats = signs.iter().any(|sign| matches!(sign, ContentSign::Slash));
    let count = signs.len();
    let mut beats = Vec::with_capacity(count);
    for (index, sign) in signs.into_iter().enumerate() {
        match sign {
            ContentSign::Chord(chord) => beats.push(BeatSign::Chord(chord)),
            ContentSign::Slash => beats.push(BeatSign::Slash),
            ContentSign::BarBefore if count == 1 => return Ok(BarContent::BarBefore),
            ContentSign::TwoBarsBefore if count == 1 => return Ok(BarContent::TwoBarsBefore),
            ContentSign::BarBefore | ContentSign::TwoBarsBefore => return Err(index),
        }
    }
    if by_beats {
        return Ok(BarContent::Beats(beats));
    }
    let chords = beats.into_iter().filter_map(|sign| match sign {
        BeatSign::Chord(chord) => Some(chord),
        BeatSign::Slash => None,
    });
    Ok(BarContent::Shared(chords.collect()))
}
