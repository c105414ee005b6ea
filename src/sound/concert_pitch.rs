//! What instruments are tuned to.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::{Pitch, ReadError};

/// How high A4 is, in hertz: 440, the pitch of ISO 16, unless the player says otherwise.
///
/// # Example
///
/// ```
/// use fretloom::sound::ConcertPitch;
/// use fretloom_theory::Pitch;
/// let a3 = Pitch::from_midi(57).unwrap();
/// assert_eq!(ConcertPitch::default().hertz_of(a3), 220.0);
/// let baroque = ConcertPitch::new(415.0).unwrap();
/// assert_eq!(baroque.hertz_of(a3), 207.5);
/// assert_eq!(ConcertPitch::new(4400.0), None);
/// ```
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct ConcertPitch {
    hertz: f64,
}

impl Default for ConcertPitch {
    fn default() -> ConcertPitch {
        ConcertPitch { hertz: 440.0 }
    }
}

impl ConcertPitch {
    /// The lowest and the highest that are taken, in hertz: a tone and a half below 440 to as much
    /// above it.
    pub const RANGE: std::ops::RangeInclusive<f64> = 380.0..=480.0;

    /// A4 at so many hertz; `None` outside the [range](Self::RANGE).
    #[must_use]
    pub fn new(hertz: f64) -> Option<ConcertPitch> {
        ConcertPitch::RANGE.contains(&hertz).then_some(ConcertPitch { hertz })
    }

    /// A4 in hertz.
    #[must_use]
    pub const fn hertz(self) -> f64 {
        self.hertz
    }

    /// How high a pitch is, in hertz, in equal temperament.
    #[must_use]
    pub fn hertz_of(self, pitch: Pitch) -> f64 {
        const A4: f64 = 69.0;
        self.hertz * ((f64::from(pitch.midi()) - A4) / 12.0).exp2()
    }
}

impl fmt::Display for ConcertPitch {
    /// Hertz: `440`, `442.5`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.hertz.fmt(f)
    }
}

impl FromStr for ConcertPitch {
    type Err = ReadError;

    /// Reads hertz.
    ///
    /// # Errors
    ///
    /// Where they are outside the [range](Self::RANGE).
    fn from_str(text: &str) -> Result<ConcertPitch, ReadError> {
        let read = text.trim().parse().ok().and_then(ConcertPitch::new);
        let expected = "hertz from 380 to 480, as in 440 or 442.5";
        read.ok_or_else(|| ReadError::whole("concert pitch", text, expected))
    }
}
