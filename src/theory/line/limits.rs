//! How much a line may hold.

/// The most notes that a line has.
pub(super) const LONGEST: usize = 100_000;
