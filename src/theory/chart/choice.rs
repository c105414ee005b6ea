//! What a player has settled.

use super::beat::ChartBeat;
use crate::{Scale, SpelledTriad, TriadPair};

/// What a player has settled for the chord that sounds at a beat of a bar: its scale, its pair, or both.
///
/// The bar is one that is heard, as [`Chorus`](crate::Chorus) counts them.
#[derive(Clone, PartialEq, Debug)]
pub struct ChartChoice {
    /// The bar, from 1; 0 is a pick-up.
    pub bar: u64,
    /// The beat.
    pub beat: ChartBeat,
    /// The scale.
    pub scale: Option<Scale>,
    /// The triads of the pair as the player writes them; they share no note.
    pub pair: Option<[SpelledTriad; 2]>,
}

impl ChartChoice {
    /// Nothing settled for this beat of this bar.
    #[must_use]
    pub fn nothing(bar: u64, beat: ChartBeat) -> ChartChoice {
        ChartChoice { bar, beat, scale: None, pair: None }
    }

    /// Is nothing settled?
    #[must_use]
    pub fn settles_nothing(&self) -> bool {
        self.scale.is_none() && self.pair.is_none()
    }

    /// The pair, its triads in the order in which they are written.
    #[must_use]
    pub fn triad_pair(&self) -> Option<TriadPair> {
        let [first, second] = self.pair.as_ref()?.each_ref().map(SpelledTriad::triad);
        TriadPair::in_order(first, second)
    }
}
