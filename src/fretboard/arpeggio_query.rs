//! Which arpeggios are wanted.

use fretloom_theory::{Pitch, Triad};

use crate::runs::runs;
use crate::{Arpeggio, FretRange, Hand, Neck, PerString, Place, Region, StringSet};
use fretloom_theory::Inversion;

/// A query for arpeggios; by default six notes (the triad twice) on every two or three neighbouring
/// strings, from every start, over the whole neck, nothing dropped for being hard.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ArpeggioQuery {
    per_string: PerString,
    region: Region,
    inversion: Option<Inversion>,
    widest_mm: f64,
    hand: Hand,
}

impl ArpeggioQuery {
    /// Arpeggios with so many notes on each string.
    #[must_use]
    pub fn new(per_string: PerString) -> ArpeggioQuery {
        ArpeggioQuery {
            per_string,
            region: Region::WHOLE_NECK,
            inversion: None,
            widest_mm: f64::INFINITY,
            hand: Hand::default(),
        }
    }

    /// In this region only; where it names strings, over all of them, as with [`on`](Self::on).
    #[must_use]
    pub const fn in_region(mut self, region: Region) -> ArpeggioQuery {
        self.region = region;
        self
    }

    /// Over exactly these strings, one or more. A set that skips a string, or is beyond the neck, holds
    /// none.
    #[must_use]
    pub const fn on(mut self, set: StringSet) -> ArpeggioQuery {
        self.region = self.region.on(set);
        self
    }

    /// From this member only; an augmented triad's by name.
    #[must_use]
    pub const fn inverted(mut self, inversion: Inversion) -> ArpeggioQuery {
        self.inversion = Some(inversion);
        self
    }

    /// With all frets in `frets`; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> ArpeggioQuery {
        self.region = self.region.within(frets);
        self
    }

    /// Stretching over at most `mm` on one string.
    #[must_use]
    pub const fn up_to_mm(mut self, mm: f64) -> ArpeggioQuery {
        self.widest_mm = mm;
        self
    }

    /// Without open strings.
    #[must_use]
    pub const fn without_open_strings(mut self) -> ArpeggioQuery {
        self.region = self.region.without_open_strings();
        self
    }

    /// Fingered by this hand. It drops nothing: what the hand cannot reach has no fingers.
    #[must_use]
    pub const fn for_hand(mut self, hand: Hand) -> ArpeggioQuery {
        self.hand = hand;
        self
    }

    /// The wanted arpeggios of `triad` on `neck`: string set by string set from the floor up, and
    /// on each from the lowest start.
    #[must_use]
    pub fn arpeggios(&self, neck: &Neck, triad: Triad) -> Vec<Arpeggio> {
        let notes = usize::from(self.per_string.number());
        let sets = self.sets_on(neck).into_iter();
        let runs = sets.flat_map(|set| runs(neck, set, triad.set(), notes));
        let named = runs.flat_map(|notes| self.named(neck, triad, &notes));
        named.filter(|arpeggio| self.wants(neck, arpeggio)).collect()
    }

    fn sets_on(&self, neck: &Neck) -> Vec<StringSet> {
        let count = neck.tuning().string_count();
        match self.region.strings() {
            Some(set) => {
                (set.is_on(count) && set.is_unbroken()).then_some(set).into_iter().collect()
            }
            None => StringSet::neighbours(count, self.per_string.strings_for_six()).collect(),
        }
    }

    /// The notes under the name of their inversion.
    fn named(&self, neck: &Neck, triad: Triad, notes: &[(Place, Pitch)]) -> Option<Arpeggio> {
        let lowest = notes.first()?.1.pitch_class();
        let members = triad.members().into_iter().zip(Inversion::ALL);
        let (_, inversion) = members.into_iter().find(|(member, _)| *member == lowest)?;
        let wanted = self.inversion.is_none_or(|wanted| wanted == inversion);
        wanted.then(|| Arpeggio::of(neck, self.hand, (triad, inversion), notes.to_vec()))
    }

    fn wants(&self, neck: &Neck, arpeggio: &Arpeggio) -> bool {
        let mut places = arpeggio.notes().iter().map(|(place, _)| *place);
        arpeggio.stretch_mm() <= self.widest_mm
            && places.all(|place| self.region.contains(neck, place))
    }
}

#[cfg(test)]
mod tests;
