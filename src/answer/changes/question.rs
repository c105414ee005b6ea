//! What is asked of a chart.

use fretloom_fretboard::{Hand, Region};
use fretloom_theory::{Chart, Key, Melody, OptionalChords, ScaleKind, Spelling};

use super::held::HeldHere;
use super::wishes::PlanWishes;

/// A chart, and what is wanted of its plans.
#[derive(Clone, PartialEq, Debug)]
pub struct ChangesQuestion {
    /// The chart, with what the player has settled.
    pub chart: Chart,
    /// Its melody, which scales respect; empty where none is known.
    pub melody: Melody,
    /// Another key than the chart's.
    pub key: Option<Key>,
    /// What becomes of chords in brackets.
    pub optional: OptionalChords,
    /// What is wished of the pairs.
    pub wishes: PlanWishes,
    /// The part of the neck to which the hand is locked; none where pairs are planned without it.
    pub region: Option<Region>,
    /// Shapes that are held over some chords; one that is not of the pair that is settled there, or does
    /// not lie in the region, has no say.
    pub held: Vec<HeldHere>,
    /// Whose hand it is.
    pub hand: Hand,
    /// How many plans are wanted, the best first; at least one is made.
    pub plans: usize,
    /// Scales of the player's own, which are offered too.
    pub own: Vec<ScaleKind>,
    /// How triads are written.
    pub spelling: Spelling,
}

impl ChangesQuestion {
    /// The best plan of a chart, played round and round, chords in brackets left out.
    #[must_use]
    pub fn of(chart: Chart) -> ChangesQuestion {
        ChangesQuestion {
            chart,
            melody: Melody::default(),
            key: None,
            optional: OptionalChords::LeftOut,
            wishes: PlanWishes::default(),
            region: None,
            held: Vec::new(),
            hand: Hand::default(),
            plans: 1,
            own: Vec::new(),
            spelling: Spelling::default(),
        }
    }

    /// The key of the tune, where it is known.
    #[must_use]
    pub fn key(&self) -> Option<Key> {
        self.key.or(self.chart.key)
    }
}
