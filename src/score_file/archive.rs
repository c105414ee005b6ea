//! A compressed score, `.mxl`: a ZIP archive whose `META-INF/container.xml` names the score in it.
//!
//! Two files of it are unpacked, in memory and within limits, and nothing else is looked at. Nothing
//! is ever written, and a name that leads out of the archive is refused. The list at the end of the
//! archive says where a file lies, how long it is and its checksum, and is held to that.

mod bytes;
mod container;
mod crc;
mod entry;
mod listing;

use super::error::ScoreFileError;
use super::limits::{LONGEST_CONTAINER, LONGEST_SCORE};
use bytes::FILE;
use listing::Listing;

const CONTAINER: &str = "META-INF/container.xml";

/// A file of an archive.
#[derive(PartialEq, Eq, Debug)]
pub(super) struct Unpacked {
    /// Its name in the archive.
    pub(super) name: String,
    pub(super) bytes: Vec<u8>,
}

/// Do these bytes begin as an archive does that is not empty?
pub(super) fn is_archive(bytes: &[u8]) -> bool {
    bytes.starts_with(FILE)
}

/// The score in an archive.
pub(super) fn score(archive: &[u8]) -> Result<Unpacked, ScoreFileError> {
    let listing = Listing::of(archive)?;
    let container = listing.find(CONTAINER)?.ok_or_else(no_container)?;
    let container = container.unpacked(archive, CONTAINER, LONGEST_CONTAINER)?;
    let name = container::score_name(&container).map_err(|error| error.within(CONTAINER))?;
    let score = listing.find(&name)?.ok_or_else(|| not_there(&name))?;
    let bytes = score.unpacked(archive, &name, LONGEST_SCORE)?;
    if is_archive(&bytes) {
        let wrong = format!("{name} in it is an archive again");
        return Err(ScoreFileError::whole(wrong, "the score itself"));
    }
    Ok(Unpacked { name, bytes })
}

fn no_container() -> ScoreFileError {
    let wrong = format!("it is a ZIP archive without {CONTAINER}");
    ScoreFileError::whole(wrong, "a compressed score (.mxl), in which that names the score")
}

fn not_there(name: &str) -> ScoreFileError {
    let wrong = format!("{CONTAINER} names {name} as the score, and the archive does not have it");
    ScoreFileError::whole(wrong, "the score in the archive")
}
