//! Going round.

/// `at` moved by one step in a circle of `count`.
pub(super) fn wrapped(at: usize, by: isize, count: usize) -> usize {
    match isize::try_from(count) {
        Ok(count) if count > 0 => {
            let moved = (at as isize + by).rem_euclid(count);
            usize::try_from(moved).unwrap_or_default()
        }
        _ => 0,
    }
}
