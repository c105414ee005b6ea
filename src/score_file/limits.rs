//! How much of a file is read.

/// The longest file that is read, in bytes: 16 MiB. A whole score in MusicXML takes a few.
pub const LONGEST_FILE: usize = 16 * 1024 * 1024;

/// The most notes that a part may have: some fourteen hours of eighths at 120.
pub const MOST_NOTES: usize = 200_000;

/// The longest part in seconds: a day.
pub const LONGEST_PART_S: f64 = 86_400.0;

/// How deep XML may nest. MusicXML itself goes about ten deep.
pub const DEEPEST_NESTING: usize = 100;

/// How long a name or a title may be, in characters; longer ones are cut.
pub(super) const LONGEST_NAME: usize = 200;

/// The longest score in a compressed file, in bytes once it is unpacked: 32 MiB. The largest real
/// ones have some ten.
pub const LONGEST_SCORE: usize = 32 * 1024 * 1024;

/// The longest list of what a compressed file holds, unpacked: 64 KiB, where a few hundred bytes do.
pub(super) const LONGEST_CONTAINER: usize = 64 * 1024;

/// The most bars that a score is written with.
pub const MOST_BARS: usize = 200_000;
