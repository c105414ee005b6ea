//! The list of files at the end of an archive.

use super::bytes::{END, END_LENGTH, LISTED, LISTED_LENGTH, four, two};
use super::entry::Entry;
use crate::score_file::error::ScoreFileError;

/// The list of files at the end of an archive, in its bytes.
pub(super) struct Listing<'a> {
    listed: &'a [u8],
}

/// The longest comment that may follow the end.
const LONGEST_COMMENT: usize = 65_535;

impl<'a> Listing<'a> {
    pub(super) fn of(archive: &'a [u8]) -> Result<Listing<'a>, ScoreFileError> {
        let listed = end(archive).and_then(|end| {
            let (length, from) = (four(end, 12)?, four(end, 16)?);
            archive.get(from..)?.get(..length)
        });
        listed.map(|listed| Listing { listed }).ok_or_else(|| {
            let wrong = "it is compressed, as .mxl files are, and the list at its end is missing";
            ScoreFileError::whole(wrong, "a whole file: fetch or save it again")
        })
    }

    /// The first file of that name, if there is one.
    pub(super) fn find(&self, name: &str) -> Result<Option<Entry>, ScoreFileError> {
        let mut rest = self.listed;
        while let Some((named, after)) = split(rest) {
            if named == name.as_bytes() {
                return Entry::read(rest).map(Some);
            }
            rest = after;
        }
        Ok(None)
    }
}

/// The name of the first file that is listed, and what is listed after it.
fn split(listed: &[u8]) -> Option<(&[u8], &[u8])> {
    if !listed.starts_with(LISTED) {
        return None;
    }
    let [name, extra, comment] = [28, 30, 32].map(|at| two(listed, at).map(usize::from));
    let (named, rest) = listed.get(LISTED_LENGTH..)?.split_at_checked(name?)?;
    Some((named, rest.get(extra? + comment?..)?))
}

/// The end of an archive: the last place that looks like one, since a comment may follow.
fn end(archive: &[u8]) -> Option<&[u8]> {
    let last = archive.len().checked_sub(END_LENGTH)?;
    let first = last.saturating_sub(LONGEST_COMMENT);
    let mut ends = (first..=last).rev().filter_map(|at| archive.get(at..));
    ends.find(|end| end.starts_with(END))
}
