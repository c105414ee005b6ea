//! `finger`: from a file to the ways to play what it holds.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use crate::answer::{FingerAnswer, FingerQuestion, Refusal};
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::complain::complain;
use crate::cli::queries::fingering_query;
use crate::cli::text;
use crate::score_file::{self, Choice, LONGEST_FILE, ReadScore};
use crate::words::in_plain_words;

impl Call<'_> {
    /// What is odd about the file is said on standard error, where the line could be played.
    pub(super) fn finger(&self, wanted: &args::Finger) -> Result<String, Refusal> {
        let (neck, tuning, frets) = self.neck_within(wanted.where_to.frets.as_deref())?;
        let query = fingering_query(wanted, frets)?;
        let score = score(wanted)?;
        let question = FingerQuestion { query, count: wanted.ways.into() };
        let answer = FingerAnswer::new(&neck, tuning, &score, &question)?;
        score.remarks().iter().for_each(complain);
        Ok(self.printed(&answer, |answer| text::finger(answer, neck.tuning(), &score)))
    }
}

/// The score that is asked about.
fn score(wanted: &args::Finger) -> Result<ReadScore, Refusal> {
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
