//! A score from a file that is named on the command line.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use crate::answer::Refusal;
use crate::cli::args::ChoiceArgs;
use crate::score_file::{self, LONGEST_FILE, ReadScore};
use crate::words::in_plain_words;

/// The score in a file, or on standard input; of its parts the chosen one, moved as is wanted and so
/// many octaves more.
pub(super) fn read_score(
    file: &Path,
    wanted: &ChoiceArgs,
    octaves: i8,
) -> Result<ReadScore, Refusal> {
    let name = file.display().to_string();
    let bytes = bytes(file).map_err(|error| Refusal::LineFile {
        name: name.clone(),
        reason: in_plain_words(&error),
    })?;
    let semitones = i32::from(wanted.transpose) + 12 * i32::from(octaves);
    let read = score_file::read(&bytes, &wanted.choice());
    let moved = read.and_then(|score| score.moved(semitones));
    moved.map_err(|error| Refusal::Line { name, error })
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
