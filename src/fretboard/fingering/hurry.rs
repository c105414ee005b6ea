//! How pressing the time from one note to the next is.

/// What even the quickest change takes of the time there is, in seconds.
const QUICKEST_S: f64 = 0.06;

/// Times that differ by less, in seconds, are the same: seconds are sums of floats, whose last bits
/// say nothing.
pub(super) const A_MOMENT_S: f64 = 1e-6;

/// A pause this long, in seconds, lets the hand go where it likes.
const PAUSE_S: f64 = 0.5;

/// How pressing the time from one note to the next is: one over seconds.
#[derive(Clone, Copy)]
pub(super) struct Hurry(f64);

impl Hurry {
    /// Between two notes that begin `seconds` apart.
    pub(super) fn within_s(seconds: f64) -> Hurry {
        Hurry(1.0 / (seconds.max(0.0) + QUICKEST_S))
    }

    /// One over seconds.
    pub(super) fn per_s(self) -> f64 {
        self.0
    }

    /// Is the time as long as a pause?
    pub(super) fn is_a_pause(self) -> bool {
        self.0 <= Hurry::within_s(PAUSE_S - A_MOMENT_S).0
    }
}
