//! One file of an archive, as the list tells of it.

use miniz_oxide::inflate::decompress_to_vec_with_limit;

use super::bytes::{FILE, FILE_LENGTH, four, two};
use super::crc::crc;
use crate::score_file::error::ScoreFileError;

/// How a file is packed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Method {
    Stored,
    Deflated,
}

/// One file of an archive: where it is, and what is said of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Entry {
    method: Method,
    crc: usize,
    packed: usize,
    unpacked: usize,
    /// Where its own head begins in the archive.
    head: usize,
}

impl Entry {
    /// What a list says of a file, from there on.
    pub(super) fn read(listed: &[u8]) -> Result<Entry, ScoreFileError> {
        let of = |at| four(listed, at).unwrap_or_default();
        let flags = two(listed, 8).unwrap_or_default();
        if flags & 1 == 1 {
            let expected = "a score that can be read without a password";
            return Err(ScoreFileError::whole("what is in it is encrypted", expected));
        }
        let method = match two(listed, 10).unwrap_or_default() {
            0 => Method::Stored,
            8 => Method::Deflated,
            other => {
                let wrong = format!("what is in it is packed by method {other}");
                let expected = "method 8, as in every .mxl file, or 0, not packed at all";
                return Err(ScoreFileError::whole(wrong, expected));
            }
        };
        Ok(Entry { method, crc: of(16), packed: of(20), unpacked: of(24), head: of(42) })
    }

    /// What is in the file of that name, which may be so long.
    pub(super) fn unpacked(
        &self,
        archive: &[u8],
        name: &str,
        longest: usize,
    ) -> Result<Vec<u8>, ScoreFileError> {
        if self.unpacked > longest {
            let wrong = format!("{name} in it is {} bytes long", self.unpacked);
            return Err(ScoreFileError::whole(wrong, format!("{longest} at most")));
        }
        let bytes = self.packed_bytes(archive).and_then(|packed| match self.method {
            Method::Stored => Some(packed.to_vec()),
            // More than its list says is as good as damaged, and is not unpacked to its end.
            Method::Deflated => decompress_to_vec_with_limit(packed, self.unpacked).ok(),
        });
        bytes.filter(|bytes| self.is_as_listed(bytes)).ok_or_else(|| {
            let expected = "what its length and its checksum say: fetch or save the file again";
            ScoreFileError::whole(format!("{name} in it is damaged"), expected)
        })
    }

    fn is_as_listed(&self, bytes: &[u8]) -> bool {
        bytes.len() == self.unpacked && usize::try_from(crc(bytes)) == Ok(self.crc)
    }

    /// What follows the file's own head.
    fn packed_bytes<'a>(&self, archive: &'a [u8]) -> Option<&'a [u8]> {
        let head = archive.get(self.head..).filter(|head| head.starts_with(FILE))?;
        let names = usize::from(two(head, 26)?) + usize::from(two(head, 28)?);
        head.get(FILE_LENGTH + names..)?.get(..self.packed)
    }
}
