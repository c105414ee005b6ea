//! What is asked of a fingering.

use super::taste::Taste;
use crate::{FretRange, Hand, HandPosition, Region, StringSet};

/// A question for fingerings of a line. By default the whole neck, open strings too, an average
/// hand and taste.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{FingeringQuery, LineNote, Neck, Tuning};
/// use fretloom_theory::Pitch;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// // G B D, an eighth note each.
/// let line: Vec<LineNote> = [(0.0, 55), (0.25, 59), (0.5, 62)]
///     .into_iter()
///     .filter_map(|(onset_s, midi)| LineNote::new(onset_s, 0.25, Pitch::from_midi(midi)?))
///     .collect();
/// let best = FingeringQuery::default().best(&neck, &line).unwrap();
/// let places = best.notes().iter().map(|note| note.place);
/// let places: Vec<String> = places.map(|at| format!("{}/{}", at.string, at.fret)).collect();
/// assert_eq!(places, ["4/5", "3/4", "2/3"]);
/// let positions = best.notes().iter().map(|note| note.position.to_string());
/// assert_eq!(positions.collect::<Vec<_>>(), ["III", "III", "III"]);
/// ```
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct FingeringQuery {
    hand: Hand,
    taste: Taste,
    region: Region,
    positions: Option<(HandPosition, HandPosition)>,
}

impl FingeringQuery {
    /// For this hand.
    #[must_use]
    pub const fn for_hand(mut self, hand: Hand) -> FingeringQuery {
        self.hand = hand;
        self
    }

    /// For this taste.
    #[must_use]
    pub const fn to_taste(mut self, taste: Taste) -> FingeringQuery {
        self.taste = taste;
        self
    }

    /// In this region only.
    #[must_use]
    pub const fn in_region(mut self, region: Region) -> FingeringQuery {
        self.region = region;
        self
    }

    /// On these strings only.
    #[must_use]
    pub const fn on(mut self, strings: StringSet) -> FingeringQuery {
        self.region = self.region.on(strings);
        self
    }

    /// At these frets only; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> FingeringQuery {
        self.region = self.region.within(frets);
        self
    }

    /// With the hand in these positions only, from the lower to the higher.
    #[must_use]
    pub const fn in_positions(mut self, low: HandPosition, high: HandPosition) -> FingeringQuery {
        self.positions = Some((low, high));
        self
    }

    /// Without open strings.
    #[must_use]
    pub const fn without_open_strings(mut self) -> FingeringQuery {
        self.region = self.region.without_open_strings();
        self
    }

    /// The region that it is asked for.
    #[must_use]
    pub const fn region(&self) -> Region {
        self.region
    }

    /// The hand that it is asked for.
    #[must_use]
    pub const fn hand(&self) -> Hand {
        self.hand
    }

    pub(super) const fn taste(&self) -> Taste {
        self.taste
    }

    pub(super) fn allows_strings(&self, strings: StringSet) -> bool {
        let mine = self.region.strings();
        mine.is_none_or(|mine| strings.iter().all(|string| mine.contains(string)))
    }

    pub(super) const fn asks_for_positions(&self) -> bool {
        self.positions.is_some()
    }

    pub(super) fn allows_position(&self, position: HandPosition) -> bool {
        self.positions.is_none_or(|(low, high)| low <= position && position <= high)
    }
}
