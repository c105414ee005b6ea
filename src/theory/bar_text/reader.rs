//! From words and bar lines to written bars.

use std::borrow::Cow;

use super::fault::{BarFault, UnreadBar};
use super::mark::{ClosingMark, OpeningMark};
use super::page::{Page, Place, WHAT};
use super::pass::Pass;
use super::pick_up::PickUp;
use super::problem::BarPlaces;
use super::section::BarSection;
use super::sign::{ContentSign, Sign, UnreadWord};
use super::token::{BarLine, Token, TokenKind, tokens};
use super::written_bar::{BarContent, BeatSign, WrittenBar};
use crate::ReadError;

/// The most chords and `/` in a bar.
const MOST_SIGNS: usize = 64;

/// What becomes of a bar that cannot be read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Faults {
    /// It is the mistake of the whole text.
    Refused,
    /// It is kept as it is written, and the rest is read.
    Marked,
}

/// What is written in a text, and where its bars stand there.
pub(super) struct Read {
    /// And where that is written.
    pub(super) pick_up: Option<(PickUp, Place)>,
    pub(super) bars: Vec<WrittenBar>,
    /// As many as there are bars.
    pub(super) places: Vec<BarPlaces>,
    /// The comment lines after the last bar.
    pub(super) comments: Vec<Box<str>>,
    /// What is wrong with bars that are kept as they are written.
    pub(super) faults: Vec<BarFault>,
}

/// Reads sections, whose texts are those of the page, one after another.
///
/// # Errors
///
/// Where a word means nothing or stands where it means nothing; where faults are marked, only where
/// the form is uncertain without it.
pub(super) fn read(
    page: &Page<'_>,
    sections: &[BarSection<'_>],
    pick_up: Option<PickUp>,
    faults: Faults,
) -> Result<Read, BarFault> {
    let mut reader = Reader {
        page,
        division: Division::BarLines,
        faults,
        read: Read {
            pick_up: pick_up.map(|pick_up| (pick_up, Place::default())),
            bars: Vec::new(),
            places: Vec::new(),
            comments: Vec::new(),
            faults: Vec::new(),
        },
        section: None,
        draft: Draft::default(),
        bar_line: None,
    };
    for (text, section) in sections.iter().enumerate() {
        reader.section(text, section)?;
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
    faults: Faults,
    read: Read,
    /// The name of the section that begins with the next bar.
    section: Option<(Box<str>, Place)>,
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
    /// What is wrong with it, and with which word of its content.
    fault: Option<(usize, BarFault)>,
}

impl Reader<'_, '_> {
    fn section(&mut self, text: usize, section: &BarSection<'_>) -> Result<(), BarFault> {
        let page = self.page;
        let tokens = tokens(page, text)?;
        self.division = Division::of(&tokens);
        let place = page.beginning_of(text);
        self.section = section.name.map(|name| (name.into(), place));
        let before = self.read.bars.len();
        for token in &tokens {
            self.token(token)?;
        }
        self.finish_bar()?;
        match self.read.bars.len() > before {
            true => Ok(()),
            false if self.draft.has_marks() => self.refuse_marks_alone(),
            false => {
                let error = nothing_in(section.text);
                Err(BarFault { section: text, word: Box::default(), error })
            }
        }
    }

    fn token(&mut self, token: &Token<'_>) -> Result<(), BarFault> {
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
                match Sign::read(word) {
                    Ok(sign) => self.sign(sign, word, place)?,
                    Err(UnreadWord::Mark(error)) => return Err(self.page.within(place, error)),
                    Err(UnreadWord::Chord(error)) => {
                        let fault = self.page.within(place, error);
                        self.draft.places.beginning.get_or_insert(place);
                        self.content(Err(fault), word, place)?;
                    }
                }
            }
        }
        Ok(())
    }

    fn wrong<T>(
        &self,
        place: Place,
        expected: impl Into<Cow<'static, str>>,
    ) -> Result<T, BarFault> {
        Err(self.page.wrong(place, expected))
    }

    /// Something is wrong with the word of the bar's content that was read last.
    fn fault(&mut self, fault: BarFault) -> Result<(), BarFault> {
        match self.faults {
            Faults::Refused => Err(fault),
            Faults::Marked => {
                let word = self.draft.places.content.len().saturating_sub(1);
                self.draft.fault.get_or_insert((word, fault));
                Ok(())
            }
        }
    }

    fn bar_line(&mut self, line: BarLine, place: Place) -> Result<(), BarFault> {
        let plain_before = self.bar_line.is_some_and(|(before, _)| before.is_plain());
        if plain_before && line.is_plain() {
            return self.wrong(place, "a chord before this bar line, or % for the bar before");
        }
        if !self.draft.places.content.is_empty() {
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
    fn close_repeat(&mut self, last: Pass, place: Place) -> Result<(), BarFault> {
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

    fn sign(&mut self, sign: Sign, word: &str, place: Place) -> Result<(), BarFault> {
        self.draft.places.beginning.get_or_insert(place);
        match sign {
            Sign::PickUp(pick_up) => self.pick_up(pick_up, place),
            Sign::Opening(mark) => self.opening(mark, word, place),
            Sign::Closing(mark) => self.closing(mark, word, place),
            Sign::Content(sign) => self.content(Ok(sign), word, place),
        }
    }

    fn pick_up(&mut self, pick_up: PickUp, place: Place) -> Result<(), BarFault> {
        let draft = &self.draft;
        let is_first =
            self.read.bars.is_empty() && draft.places.content.is_empty() && !draft.has_marks();
        if !is_first || self.read.pick_up.is_some() {
            return self.wrong(place, "pickup= only once, before everything else");
        }
        self.read.pick_up = Some((pick_up, place));
        Ok(())
    }

    fn opening(&mut self, mark: OpeningMark, word: &str, place: Place) -> Result<(), BarFault> {
        if !self.draft.places.content.is_empty() {
            match self.division {
                Division::OneAChord => self.finish_bar()?,
                Division::BarLines => {
                    self.draft.places.content.push(place);
                    self.draft.places.end = place;
                    let expected = format!("{word} at the beginning of a bar");
                    return self.fault(self.page.wrong(place, expected));
                }
            }
        }
        self.draft.opening.push(mark);
        self.draft.places.opening.push(place);
        Ok(())
    }

    /// A closing mark that stands alone between bar lines belongs to the bar before.
    fn closing(&mut self, mark: ClosingMark, word: &str, place: Place) -> Result<(), BarFault> {
        let (closing, places) = if !self.draft.places.content.is_empty() {
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

    fn content(
        &mut self,
        sign: Result<ContentSign, BarFault>,
        word: &str,
        place: Place,
    ) -> Result<(), BarFault> {
        if !self.draft.places.content.is_empty() && self.division == Division::OneAChord {
            self.finish_bar()?;
            self.draft.places.beginning = Some(place);
        }
        if let Some(mark) = self.draft.closing.last() {
            let expected = format!("a bar line between {mark} and {word}");
            return Err(sign.err().unwrap_or_else(|| self.page.wrong(place, expected)));
        }
        self.draft.places.content.push(place);
        self.draft.places.end = place;
        match sign {
            Ok(_) if self.draft.content.len() == MOST_SIGNS => {
                let expected = format!("a bar line: a bar holds {MOST_SIGNS} chords at most");
                self.fault(self.page.wrong(place, expected))
            }
            Ok(sign) => {
                self.draft.content.push(sign);
                Ok(())
            }
            Err(fault) => self.fault(fault),
        }
    }

    /// What has been read becomes a bar, if there are chords in it.
    fn finish_bar(&mut self) -> Result<(), BarFault> {
        if self.draft.places.content.is_empty() {
            return Ok(());
        }
        let mut draft = std::mem::take(&mut self.draft);
        let content = match (draft.fault, content(draft.content)) {
            (Some((word, fault)), _) => Err((word, fault)),
            (None, Ok(content)) => Ok(content),
            (None, Err(word)) => {
                let place = draft.places.content.get(word).copied().unwrap_or_default();
                Err((word, self.page.wrong(place, "% or %% alone in its bar")))
            }
        };
        let content = match content {
            Ok(content) => content,
            Err((_, fault)) if self.faults == Faults::Refused => return Err(fault),
            Err((word, fault)) => {
                let unread = unread(self.page, &draft.places, word, &fault);
                self.read.faults.push(fault);
                BarContent::Unread(unread)
            }
        };
        if let Some((name, place)) = self.section.take() {
            draft.opening.insert(0, OpeningMark::Section(name));
            draft.places.opening.insert(0, place);
        }
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

    fn refuse_marks_alone<T>(&self) -> Result<T, BarFault> {
        let place = self.draft.places.opening.last().copied();
        let place = place.or(self.draft.places.beginning).unwrap_or_default();
        self.wrong(place, "a chord after this")
    }

    fn finish(mut self) -> Result<Read, BarFault> {
        if self.draft.has_marks() {
            return self.refuse_marks_alone();
        }
        self.read.comments = self.draft.comments;
        Ok(self.read)
    }
}

/// What is said of a text without bars.
fn nothing_in(text: &str) -> ReadError {
    ReadError::whole(WHAT, text, "a chord, or bars as in | Dm7 | G7 |")
}

/// A bar as it is written, with a fault in the word of its content with this index.
pub(super) fn unread(
    page: &Page<'_>,
    places: &BarPlaces,
    word: usize,
    fault: &BarFault,
) -> UnreadBar {
    let words: Vec<String> = places.content.iter().map(|place| page.word(*place)).collect();
    let from = places.content.get(word).map_or(1, |place| place.character);
    let at = (fault.error.at() + 1).saturating_sub(from).max(1);
    UnreadBar::of(&words, word, at, &fault.error)
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
