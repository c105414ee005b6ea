//! Shapes that the player holds over single chords.

use std::fmt;
use std::str::FromStr;

use fretloom_fretboard::{Fret, Place, StringSet};
use fretloom_theory::ReadError;

use super::moment::ChartMoment;
use crate::words::dashed;

/// A shape that is held over the chord that begins at a moment; typed `7-7-8 on 4-3-2@5.1`, its frets by
/// their strings, that with the highest number first.
///
/// ```
/// use fretloom::answer::HeldHere;
/// let held: HeldHere = "7-7-8 on 4-3-2@5.1".parse()?;
/// assert_eq!(held.places[2].fret.number(), 8);
/// assert_eq!(held.to_string(), "7-7-8 on 4-3-2@5.1");
/// assert!("7-7 on 4-3-2@5.1".parse::<HeldHere>().is_err());
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct HeldHere {
    /// Where its notes lie, that on the string with the highest number first.
    pub places: [Place; 3],
    /// When its chord begins.
    pub moment: ChartMoment,
}

const WHAT: &str = "shape";

impl FromStr for HeldHere {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is not three frets, three strings, and a moment.
    fn from_str(text: &str) -> Result<HeldHere, ReadError> {
        let wrong = || ReadError::whole(WHAT, text, "as in 7-7-8 on 4-3-2@5.1");
        let (shape, moment) = text.rsplit_once('@').ok_or_else(wrong)?;
        let (frets, strings) = shape.split_once(" on ").ok_or_else(wrong)?;
        let strings = strings.trim().parse::<StringSet>()?.three().ok_or_else(wrong)?;
        let frets: Option<Vec<Fret>> =
            frets.trim().split('-').map(|fret| Fret::new(fret.parse().ok()?)).collect();
        let frets: [Fret; 3] = frets.and_then(|frets| frets.try_into().ok()).ok_or_else(wrong)?;
        let [a, b, c] = strings;
        let [x, y, z] = frets;
        let places = [Place::new(a, x), Place::new(b, y), Place::new(c, z)];
        Ok(HeldHere { places, moment: moment.parse()? })
    }
}

impl fmt::Display for HeldHere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let frets = dashed(self.places.map(|place| place.fret));
        let strings = dashed(self.places.map(|place| place.string));
        write!(f, "{frets} on {strings}@{}", self.moment)
    }
}
