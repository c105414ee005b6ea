//! When notes are played, in seconds.

/// When a note is played: seconds from the beginning, and how long. Both finite, neither negative.
///
/// Seconds are what a clock shows, so they are no fractions. Those of a recording are kept as they
/// were given.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct PlayedTime {
    onset_s: f64,
    duration_s: f64,
}

impl PlayedTime {
    /// At the beginning, for no time.
    pub const AT_ONCE: PlayedTime = PlayedTime { onset_s: 0.0, duration_s: 0.0 };

    /// `None` where a number is negative or not finite.
    #[must_use]
    pub fn new(onset_s: f64, duration_s: f64) -> Option<PlayedTime> {
        let is_time = |seconds: f64| seconds >= 0.0 && seconds.is_finite();
        (is_time(onset_s) && is_time(duration_s)).then_some(PlayedTime { onset_s, duration_s })
    }

    /// When it begins.
    #[must_use]
    pub const fn onset_s(self) -> f64 {
        self.onset_s
    }

    /// How long it sounds.
    #[must_use]
    pub const fn duration_s(self) -> f64 {
        self.duration_s
    }
}
