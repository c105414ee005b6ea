//! What a word between bar lines means.

use super::mark::{ClosingMark, OpeningMark};
use super::page::WHAT;
use super::pass::Pass;
use super::pick_up::PickUp;
use super::section::BarSection;
use super::written_bar::WrittenChord;
use crate::{Chord, ChordSymbol, Meter, ReadError};

/// What a word means.
pub(super) enum Sign {
    PickUp(PickUp),
    Opening(OpeningMark),
    Closing(ClosingMark),
    Content(ContentSign),
}

/// What a word of a bar's content means.
pub(super) enum ContentSign {
    Chord(WrittenChord),
    /// `/`
    Slash,
    /// `%`
    BarBefore,
    /// `%%`
    TwoBarsBefore,
}

/// Why a word means nothing; places count in the word.
pub(super) enum UnreadWord {
    /// It was meant as a mark, so that the form is uncertain without it.
    Mark(ReadError),
    /// It was meant as a chord.
    Chord(ReadError),
}

impl Sign {
    /// # Errors
    ///
    /// Where the word means nothing.
    pub(super) fn read(word: &str) -> Result<Sign, UnreadWord> {
        if let Some(mark) = ClosingMark::all().find(|mark| mark.word() == word) {
            return Ok(Sign::Closing(mark));
        }
        match word {
            "/" => Ok(Sign::Content(ContentSign::Slash)),
            "%" => Ok(Sign::Content(ContentSign::BarBefore)),
            "%%" => Ok(Sign::Content(ContentSign::TwoBarsBefore)),
            "Segno" => Ok(Sign::Opening(OpeningMark::Segno)),
            "Coda" => Ok(Sign::Opening(OpeningMark::Coda)),
            _ if word.starts_with('[') => {
                read_section(word).map(Sign::Opening).map_err(UnreadWord::Mark)
            }
            _ if word.starts_with(|first: char| first.is_ascii_digit()) => {
                read_number(word).map(Sign::Opening).map_err(UnreadWord::Mark)
            }
            _ => match word.strip_prefix("pickup=") {
                Some(beats) => {
                    read_pick_up(word, beats).map(Sign::PickUp).map_err(UnreadWord::Mark)
                }
                None => read_chord(word).map(ContentSign::Chord).map(Sign::Content),
            },
        }
    }
}

fn wrong(word: &str, expected: &'static str) -> ReadError {
    ReadError::at_character(WHAT, word, 1, expected)
}

fn read_section(word: &str) -> Result<OpeningMark, ReadError> {
    let name = word.strip_prefix('[').and_then(|word| word.strip_suffix(']'));
    match name.and_then(BarSection::name_in_brackets) {
        Some(name) => Ok(OpeningMark::Section(name.into())),
        None => Err(wrong(word, "a section's name in brackets, as in [A]")),
    }
}

/// `3/4` or `1.`
fn read_number(word: &str) -> Result<OpeningMark, ReadError> {
    let ending = word.strip_suffix('.').and_then(Pass::read).map(OpeningMark::Ending);
    let meter = || word.parse::<Meter>().ok().map(OpeningMark::Meter);
    ending
        .or_else(meter)
        .ok_or_else(|| wrong(word, "a chord, an ending as in 1. or a meter as in 3/4"))
}

fn read_pick_up(word: &str, beats: &str) -> Result<PickUp, ReadError> {
    let expected = "a number of beats after pickup=, as in pickup=1 or pickup=1/2";
    PickUp::read(beats).ok_or_else(|| wrong(word, expected))
}

fn read_chord(word: &str) -> Result<WrittenChord, UnreadWord> {
    let inner = in_round_brackets(word);
    let optional = inner.is_some();
    let text = inner.unwrap_or(word);
    if Chord::is_no_chord(text) {
        return Ok(WrittenChord { symbol: ChordSymbol::NoChord, optional });
    }
    let chord: Chord = text.parse().map_err(|error: ReadError| {
        let at = if optional { 2 } else { 1 };
        match meant_mark(word) {
            Some(mark) => UnreadWord::Mark(wrong(word, mark)),
            None if is_half_bracketed(word) => UnreadWord::Chord(wrong(word, ALONE_IN_BRACKETS)),
            None => UnreadWord::Chord(error.within(WHAT, word, at)),
        }
    })?;
    Ok(WrittenChord { symbol: ChordSymbol::Chord(chord), optional })
}

const ALONE_IN_BRACKETS: &str = "an optional chord in brackets of its own, as in (G7)";

/// What stands in the brackets, where one pair of them holds the whole word.
fn in_round_brackets(word: &str) -> Option<&str> {
    let inner = word.strip_prefix('(')?.strip_suffix(')')?;
    let mut depth = 0_usize;
    for sign in inner.chars() {
        match sign {
            '(' => depth += 1,
            ')' => depth = depth.checked_sub(1)?,
            _ => {}
        }
    }
    (depth == 0).then_some(inner)
}

/// Is it part of what someone has put into brackets?
fn is_half_bracketed(word: &str) -> bool {
    in_round_brackets(word).is_none()
        && (word.starts_with('(') || word.ends_with(')') && !word.contains('('))
}

/// The mark that a word which is no chord was meant to be, where that is easy to see.
fn meant_mark(word: &str) -> Option<&'static str> {
    let plain = |text: &str| text.replace('.', "").to_lowercase();
    let typed = plain(word);
    let mut marks = ClosingMark::all().map(ClosingMark::word).chain(["Segno", "Coda"]);
    match typed.as_str() {
        "al" => Some("D.C.alCoda and its like in one word"),
        "to" => Some("ToCoda in one word"),
        _ if typed.starts_with("pickup") => Some("pickup=1, in one word"),
        _ => marks.find(|mark| plain(mark) == typed),
    }
}
