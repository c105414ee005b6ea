//! A score from a file that is named on the command line.

use std::path::Path;

use crate::answer::Refusal;
use crate::cli::args::ChoiceArgs;
use crate::cli::files;
use crate::score_file::{self, ReadScore};

/// The score in a file, or on standard input; of its parts the chosen one, moved as is wanted and so
/// many octaves more.
pub(super) fn read_score(
    file: &Path,
    wanted: &ChoiceArgs,
    octaves: i8,
) -> Result<ReadScore, Refusal> {
    let name = file.display().to_string();
    let bytes = files::bytes(file)?;
    let semitones = i32::from(wanted.transpose) + 12 * i32::from(octaves);
    let read = score_file::read(&bytes, &wanted.choice());
    let moved = read.and_then(|score| score.moved(semitones));
    moved.map_err(|error| Refusal::Line { name, error })
}
