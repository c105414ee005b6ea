//! `finger`: from a file to the text of its ways.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use fretloom_fretboard::Tuning;

use super::args::Finger;
use super::files::in_plain_words;
use super::text::{CARE, tuning_line};
use crate::answer::{FingerAnswer, Refusal, WayAnswer};
use crate::export;
use crate::score_file::{self, Choice, LONGEST_FILE, ReadScore};

/// The score that is asked about.
pub(super) fn score(wanted: &Finger) -> Result<ReadScore, Refusal> {
    let name = wanted.file.display().to_string();
    let bytes = bytes(&wanted.file).map_err(|error| Refusal::LineFile {
        name: name.clone(),
        reason: in_plain_words(&error),
    })?;
    let choice = Choice { track: wanted.track, part: wanted.part.clone() };
    let score = score_file::read(&bytes, &choice);
    let score = score.map_err(|error| Refusal::Line { name, error })?;
    Ok(if wanted.no_pins { score.without_pins() } else { score })
}

/// The bytes of a file, or of standard input; one more than may be at most, which tells of it.
fn bytes(file: &Path) -> io::Result<Vec<u8>> {
    if file == Path::new("-") { read(io::stdin().lock()) } else { read(File::open(file)?) }
}

fn read(from: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The ways as text, each with its tablature.
pub(super) fn text(answer: &FingerAnswer, tuning: &Tuning, score: &ReadScore) -> String {
    let mut text = tuning_line(&answer.tuning);
    if !tuning.capo().is_none() {
        text += &format!("{}: frets and positions count from it\n", tuning.capo());
    }
    if !score.has_written_bars() {
        text += &format!("a bar line every {} seconds\n", ReadScore::BAR_S);
    }
    for (way, number) in answer.ways.iter().zip(1..) {
        text += &format!("\n{}\n{}", head(way, number), export::text::tab(&way.tab(tuning, score)));
        text += &late(way.fingering.late().len());
    }
    if answer.ways.iter().any(|way| way.is_wide) {
        text += &format!("\n{CARE}");
    }
    text
}

fn head(way: &WayAnswer, number: usize) -> String {
    format!("{number}  cost {}   {}\n", way.cost(), way.fingering)
}

/// What a player should know of notes that cannot sound when they should.
fn late(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => "1 note comes late: no string was left where it begins\n".to_owned(),
        _ => format!("{count} notes come late: no string was left where they begin\n"),
    }
}
