//! A chord of a chart with its scale and its pair.

use fretloom_theory::{
    ChartChoice, Chord, ChordScale, Degree, PairSound, PairStep, PlanReason, PlannedChord,
    Quarters, Reading, ScaleChoice, ScaleKind, Speller, Spelling, TriadQuality,
};

use super::hand::ShapeInHand;
use super::stretch::Stretch;
use crate::answer::pairs::{LeftOut, NamedPair, PairList, left_out};

/// A chord for as long as one pair is played over it.
#[derive(Clone, PartialEq, Debug)]
pub struct ChangesChord {
    /// When it begins.
    pub from: Quarters,
    /// When it ends.
    pub until: Quarters,
    /// What it does in its form.
    pub reading: Reading,
    /// What the player has settled for it.
    pub settled: Option<ChartChoice>,
    /// What is played over it.
    pub planned: PlannedChord,
    /// The pair; one that the player has settled is called as the player calls it.
    pub pair: NamedPair,
    /// The shape in hand, where the hand is locked to a part of the neck.
    pub hand: Option<ShapeInHand>,
    why: PlanReason,
    spelling: Spelling,
}

impl ChangesChord {
    pub(super) fn new(
        stretch: &Stretch,
        planned: &PlannedChord,
        spelling: Spelling,
    ) -> ChangesChord {
        let speller = Speller::new(planned.over().clone(), spelling);
        let settled = stretch.settled.as_ref().and_then(|choice| choice.pair);
        let settled = settled.and_then(|names| NamedPair::new(names).ok());
        let pair = planned.pair();
        let pair = settled.unwrap_or_else(|| NamedPair::of(pair, speller.pair(pair)));
        ChangesChord {
            from: stretch.from,
            until: stretch.until,
            reading: stretch.asked.reading().clone(),
            settled: stretch.settled.clone(),
            planned: planned.clone(),
            pair,
            why: planned.why().clone().calling(pair.names()),
            hand: None,
            spelling,
        }
    }

    /// The chord.
    #[must_use]
    pub fn chord(&self) -> &Chord {
        self.reading.chord()
    }

    /// The chord with its scale.
    #[must_use]
    pub fn over(&self) -> &ChordScale {
        self.planned.over()
    }

    /// What the pair says over the chord.
    #[must_use]
    pub fn sound(&self) -> &PairSound {
        self.planned.sound()
    }

    /// How the pair comes from that of the chord before; that of the first chord from the last one,
    /// or from none where the tune is played once.
    #[must_use]
    pub fn step(&self) -> Option<PairStep> {
        self.planned.step()
    }

    /// Is it the pair of the chord before?
    #[must_use]
    pub fn is_kept(&self) -> bool {
        self.step() == Some(PairStep::Kept)
    }

    /// Why the pair is there; it calls the pair as the chord does.
    #[must_use]
    pub fn why(&self) -> &PlanReason {
        &self.why
    }

    /// Names notes and triads over it.
    #[must_use]
    pub fn speller(&self) -> Speller {
        Speller::new(self.over().clone(), self.spelling)
    }

    /// How triads are written over it.
    #[must_use]
    pub fn spelling(&self) -> Spelling {
        self.spelling
    }

    /// The notes of the scale that the pair leaves out, going up from the chord's root.
    #[must_use]
    pub fn left_out(&self) -> Vec<LeftOut> {
        left_out(self.sound(), &self.speller())
    }

    /// What rubs against the chord.
    #[must_use]
    pub fn rubs(&self) -> Vec<Degree> {
        self.over().degrees(self.sound().rubs()).collect()
    }

    /// What the symbol names and the pair leaves out.
    #[must_use]
    pub fn drops_named(&self) -> Vec<Degree> {
        self.over().degrees(self.sound().drops_named()).collect()
    }

    /// The scales that it may have, in the order in which its function asks for them; the player's
    /// `own` kinds among them.
    #[must_use]
    pub fn scales(&self, own: &[ScaleKind]) -> Vec<ScaleChoice> {
        self.reading.scales_with(own)
    }

    /// The pairs of its scale in the order in which they are listed, each with what it says.
    #[must_use]
    pub fn pair_list(&self) -> PairList {
        PairList::new(self.speller(), self.ranked())
    }

    /// The names of these pairs.
    #[must_use]
    pub fn pairs(&self) -> Vec<NamedPair> {
        let speller = self.speller();
        let named = |sound: &PairSound| NamedPair::of(sound.pair(), speller.pair(sound.pair()));
        self.ranked().iter().map(named).collect()
    }

    fn ranked(&self) -> Vec<PairSound> {
        PairSound::ranked(self.over(), TriadQuality::TERTIAN)
    }
}
