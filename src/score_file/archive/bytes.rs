//! Signs and numbers of ZIP archives (PKWARE's APPNOTE, from memory).

/// How what stands before each file begins, and with it every archive that is not empty.
pub(super) const FILE: &[u8] = b"PK\x03\x04";

/// How long it is without its names.
pub(super) const FILE_LENGTH: usize = 30;

/// How what the list says of a file begins, and how long it is without its names.
pub(super) const LISTED: &[u8] = b"PK\x01\x02";
pub(super) const LISTED_LENGTH: usize = 46;

/// How the end of an archive begins, and how long it is without a comment.
pub(super) const END: &[u8] = b"PK\x05\x06";
pub(super) const END_LENGTH: usize = 22;

/// The two bytes there as a number, the lower first.
pub(super) fn two(bytes: &[u8], at: usize) -> Option<u16> {
    bytes.get(at..)?.first_chunk().map(|two| u16::from_le_bytes(*two))
}

/// The four bytes there as a number, the lowest first.
pub(super) fn four(bytes: &[u8], at: usize) -> Option<usize> {
    let four = bytes.get(at..)?.first_chunk().map(|four| u32::from_le_bytes(*four))?;
    usize::try_from(four).ok()
}
