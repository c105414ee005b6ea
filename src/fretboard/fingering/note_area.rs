//! The part of a neck in which a single note is played.

use crate::{HandPosition, Neck, Place, Region};

/// The part of a neck in which a note is to be played, beside what is asked of the whole line: by
/// default all of it, with the hand anywhere.
///
/// So a line may go on elsewhere, and the way there is weighed as any other shift is.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{FingeringQuery, LineNote, Neck, NoteArea, Region, Tuning};
/// use fretloom_theory::Pitch;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let on = |strings: &str| NoteArea::of(Region::default().on(strings.parse().unwrap()));
/// // D on the lower strings, then the same D on the upper ones.
/// let d = Pitch::from_midi(62).unwrap();
/// let low = LineNote::new(0.0, 0.5, d).unwrap().within(on("5-4-3"));
/// let high = LineNote::new(0.5, 0.5, d).unwrap().within(on("2-1"));
/// let best = FingeringQuery::default().best(&neck, &[low, high]).unwrap();
/// let strings: Vec<u8> = best.notes().iter().map(|note| note.place.string.number()).collect();
/// assert!(strings[0] >= 3 && strings[1] == 2);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct NoteArea {
    region: Region,
    position: Option<HandPosition>,
}

impl NoteArea {
    /// This region, with the hand anywhere.
    #[must_use]
    pub const fn of(region: Region) -> NoteArea {
        NoteArea { region, position: None }
    }

    /// The same with the hand in this position.
    #[must_use]
    pub const fn in_position(self, position: HandPosition) -> NoteArea {
        NoteArea { position: Some(position), ..self }
    }

    pub(super) fn allows(self, neck: &Neck, place: Place) -> bool {
        self.region.contains(neck, place)
    }

    pub(super) fn allows_position(self, position: HandPosition) -> bool {
        self.position.is_none_or(|own| own == position)
    }
}
