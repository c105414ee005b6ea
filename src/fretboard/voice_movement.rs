//! How the voices go from one shape to another.

use std::fmt;

use crate::{Neck, Place, Shape};

/// How the three voices go along the neck from one shape to another, string by string; prints as a
/// player would say it, as in `string 4 stays, string 3 up a fret (25 mm), string 2 stays`.
///
/// Voices are paired in the order of the strings, from the one with the highest number. What the
/// fingers do is a [`Movement`](crate::Movement): one finger may serve two voices, and another may
/// take over a voice that stays.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Neck, ShapeQuery, Tuning, VoiceMovement};
/// use fretloom_theory::SpelledTriad;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let query = ShapeQuery::default().on("3-2-1".parse().unwrap());
/// let shape = |name: &str, frets: [u8; 3]| {
///     let triad = name.parse::<SpelledTriad>().unwrap().triad();
///     let shapes = query.shapes(&neck, triad);
///     *shapes.iter().find(|shape| shape.frets().map(|fret| fret.number()) == frets).unwrap()
/// };
/// let (g, e_flat) = (shape("G", [7, 8, 7]), shape("Eb", [8, 8, 6]));
/// let movement = VoiceMovement::between(&neck, &g, &e_flat);
/// assert_eq!(movement.voices().map(|voice| voice.frets()), [1, 0, -1]);
/// assert!((movement.largest_mm() - 25.7).abs() < 0.1);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct VoiceMovement {
    voices: [VoiceMove; 3],
}

/// How one voice goes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct VoiceMove {
    from: Place,
    to: Place,
    mm: f64,
}

impl VoiceMovement {
    /// From one shape to another on the same neck.
    #[must_use]
    pub fn between(neck: &Neck, from: &Shape, to: &Shape) -> VoiceMovement {
        let ([a, b, c], [d, e, f]) = (from.places(), to.places());
        let voice = |(from, to)| VoiceMove::between(neck, from, to);
        VoiceMovement { voices: [(a, d), (b, e), (c, f)].map(voice) }
    }

    /// The voices, that on the string with the highest number first.
    #[must_use]
    pub const fn voices(&self) -> [VoiceMove; 3] {
        self.voices
    }

    /// The longest way that a voice goes along the neck, in millimetres.
    #[must_use]
    pub fn largest_mm(&self) -> f64 {
        self.voices.iter().map(|voice| voice.mm).fold(0.0, f64::max)
    }

    /// All ways together, in millimetres.
    #[must_use]
    pub fn total_mm(&self) -> f64 {
        self.voices.iter().map(|voice| voice.mm).sum()
    }
}

impl VoiceMove {
    fn between(neck: &Neck, from: Place, to: Place) -> VoiceMove {
        // An open string begins at the nut, or at the capo that holds it.
        let [nut_from, nut_to] = [from, to].map(|place| neck.distance_mm(neck.fret_number(place)));
        VoiceMove { from, to, mm: (nut_to - nut_from).abs() }
    }

    /// Where it comes from.
    #[must_use]
    pub const fn from(&self) -> Place {
        self.from
    }

    /// Where it goes.
    #[must_use]
    pub const fn to(&self) -> Place {
        self.to
    }

    /// How many strings it goes over, in either direction.
    #[must_use]
    pub fn strings(&self) -> u8 {
        self.from.string.number().abs_diff(self.to.string.number())
    }

    /// How many frets it goes up the neck; towards the nut they are negative.
    #[must_use]
    pub fn frets(&self) -> i8 {
        let [from, to] = [self.from, self.to].map(|place| i16::from(place.fret.number()));
        i8::try_from(to - from).unwrap_or(0)
    }

    /// How far that is along the neck, in millimetres; an open string begins at the nut, or at its capo.
    #[must_use]
    pub const fn mm(&self) -> f64 {
        self.mm
    }
}

impl fmt::Display for VoiceMove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "string {} ", self.from.string)?;
        if self.to.string != self.from.string {
            write!(f, "to string {}, ", self.to.string)?;
        }
        let frets = self.frets();
        let way = if frets < 0 { "down" } else { "up" };
        match frets.unsigned_abs() {
            0 => f.write_str("stays"),
            1 => write!(f, "{way} a fret ({:.0} mm)", self.mm),
            count => write!(f, "{way} {count} frets ({:.0} mm)", self.mm),
        }
    }
}

impl fmt::Display for VoiceMovement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second, third] = self.voices;
        write!(f, "{first}, {second}, {third}")
    }
}
