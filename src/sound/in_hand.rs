//! Shapes as they are tried out: struck together, or one note after another.

use fretloom_theory::{Pitch, Quarters};

use super::struck::Struck;

/// How the notes of a shape are struck.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Strike {
    /// All at once.
    Together,
    /// One after another, an eighth apart, each ringing on.
    InTurn,
}

/// How long what has been struck rings before the next shape is.
const RINGING: Quarters = Quarters::whole(2);

/// Shapes one after another as notes, each until the next begins. A shape is what each of its strings
/// sounds (several pitches for a course), in the order of playing.
///
/// # Example
///
/// ```
/// use fretloom::sound::{Strike, struck_in_turn};
/// use fretloom_theory::{Pitch, Quarters};
/// let shape: Vec<Vec<Pitch>> =
///     [55, 59, 62].map(|midi| Pitch::from_midi(midi).into_iter().collect()).into();
/// let notes = struck_in_turn(&[shape], Strike::InTurn);
/// assert_eq!(notes[2].onset, Quarters::ONE);
/// assert!(notes.iter().all(|note| note.end == Quarters::whole(3)));
/// ```
#[must_use]
pub fn struck_in_turn(shapes: &[Vec<Vec<Pitch>>], strike: Strike) -> Vec<Struck> {
    let counts: Vec<usize> = shapes.iter().map(Vec::len).collect();
    let begins = begins_in_turn(&counts, strike);
    let ends = begins.iter().skip(1);
    let mut struck = Vec::new();
    for ((shape, from), end) in shapes.iter().zip(&begins).zip(ends) {
        for (index, pitches) in shape.iter().enumerate() {
            let onset = from.checked_add(strike.after(index)).unwrap_or(*from);
            struck.push(Struck { onset, end: *end, pitches: pitches.clone(), accent: false });
        }
    }
    struck
}

/// When each of some shapes, of so many notes each, begins, and when the last one ends.
#[must_use]
pub fn begins_in_turn(counts: &[usize], strike: Strike) -> Vec<Quarters> {
    let mut begins = vec![Quarters::ZERO];
    let mut at = Quarters::ZERO;
    for count in counts {
        let lasts = strike.after(count.saturating_sub(1)).checked_add(RINGING);
        at = lasts.and_then(|lasts| at.checked_add(lasts)).unwrap_or(at);
        begins.push(at);
    }
    begins
}

impl Strike {
    /// How long after the first note of a shape the one with this index is struck.
    fn after(self, index: usize) -> Quarters {
        let eighths = u32::try_from(index).unwrap_or(u32::MAX);
        match self {
            Strike::Together => Quarters::ZERO,
            Strike::InTurn => Quarters::EIGHTH.times(eighths).unwrap_or_default(),
        }
    }
}
