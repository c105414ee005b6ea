//! The state of the explorer.

use fretloom_fretboard::{Movement, Neck, Rung, Shape, StringSet};
use fretloom_theory::WhichTriad;
use fretloom_theory::{PitchClassSet, SpelledTriad};

use super::chosen::{Chosen, Page, TypedChord};
use super::in_hand::InHand;
use super::neck_view::NeckView;
use super::overlay::Overlay;
use super::shown::Shown;
use super::struck::LastStruck;
use crate::answer::{NamedShape, PairAnswer, PairPlace, PairsAnswer, Refusal};
use crate::picture::Labels;
use crate::tui::command::Section;
use crate::tui::shared::Shared;

/// The explorer: a chord, its scale, its pairs, and both triads on the neck.
pub struct Explore {
    pub(super) chosen: Chosen,
    pub(super) shown: Shown,
    pub(super) overlay: Option<Overlay>,
    /// The notes of the pair before that are in this one too, while they are marked.
    pub(super) kept_notes: PitchClassSet,
    /// What the fingers did to come to the shape in hand, while that is told.
    pub(super) moved: Option<Movement>,
    /// The shape of the ladder that the player played last. What is nearest is measured from it, not
    /// from what the hand showed while pairs and scales were looked through; and the hand comes back
    /// near it where a view held none.
    pub(super) played: Option<Shape>,
    /// What was heard last, and how.
    pub(super) struck: Option<LastStruck>,
}

impl Explore {
    /// The chord of the demo: a major seventh with a raised eleventh, whose first pair is two majors.
    pub(in crate::tui) const FIRST_CHORD: &str = "Gmaj7#11";

    /// The explorer on a chord.
    ///
    /// # Errors
    ///
    /// Where no scale fits the chord, which does not happen: the chromatic scale fits every chord.
    pub(in crate::tui) fn open(chord: TypedChord, shared: &Shared) -> Result<Explore, Refusal> {
        let chosen = Chosen::over(chord);
        let shown = Shown::of(&chosen, shared)?;
        let mut explore = Explore {
            chosen,
            shown,
            overlay: None,
            kept_notes: PitchClassSet::EMPTY,
            moved: None,
            played: None,
            struck: None,
        };
        explore.chosen.set = explore.usual_set();
        explore.lay_out(shared);
        Ok(explore)
    }

    /// What is chosen now, to be taken back to.
    pub(in crate::tui) fn chosen(&self) -> &Chosen {
        &self.chosen
    }

    /// Where keys are pressed now: on the explorer, or in what lies over it.
    pub(in crate::tui) fn section(&self) -> Section {
        self.overlay.as_ref().map_or(Section::Explore, Overlay::section)
    }

    /// The chord of the moment, with its scale and pair.
    pub(in crate::tui) fn page(&self) -> Page {
        Page {
            chord: self.chosen.chord.clone(),
            scale: self.chosen.scale,
            pair: self.pair().map(PairAnswer::name),
            hand: self.shown.hand.as_ref().map(|hand| (hand.home(), self.chosen.held)),
        }
    }

    /// The pair that is chosen; none where the scale holds none.
    #[must_use]
    pub fn pair(&self) -> Option<&PairAnswer> {
        self.shown.pair(&self.chosen)
    }

    /// The pairs of the scale that is chosen.
    #[must_use]
    pub fn pairs(&self) -> &PairsAnswer {
        &self.shown.pairs
    }

    /// The shape in hand, on the neck of the instrument.
    #[must_use]
    pub fn shape(&self, neck: &Neck) -> Option<NamedShape> {
        let hand = self.shown.hand.as_ref()?;
        let of_pair = self.pair().map(|pair| match hand.which() {
            WhichTriad::First => pair.first.name,
            WhichTriad::Second => pair.second.name,
        });
        let stacked = || {
            let root = self.chosen.chord.read.chord.root();
            SpelledTriad::stacked(root, hand.shape().triad().quality())
        };
        Some(NamedShape::new(neck, of_pair.unwrap_or_else(stacked), &hand.shape()))
    }

    /// What the view shows of the pair within the frets that are wanted; none for the whole neck.
    #[must_use]
    pub fn view_places(&self) -> Option<&[PairPlace]> {
        let view = self.shown.view.as_ref().map(|view| view.answer.places.as_slice());
        view.or(self.shown.within.as_deref())
    }

    /// Where the notes of the pair lie.
    #[must_use]
    pub fn places(&self) -> &[PairPlace] {
        &self.shown.places
    }

    /// What stands in the marks.
    #[must_use]
    pub fn labels(&self) -> Labels {
        self.chosen.labels
    }

    /// The strings that the ladder climbs.
    #[must_use]
    pub fn strings(&self) -> Option<StringSet> {
        self.shown.strings(&self.chosen)
    }

    pub(super) fn rung_in_hand(&self) -> Option<&Rung> {
        self.shown.ladder.rungs().get(self.chosen.rung?)
    }

    pub(super) fn shape_in_hand(&self) -> Option<Shape> {
        self.shown.hand.as_ref().map(InHand::shape)
    }

    /// May the hand hold this shape: on the strings, if they are locked, and where the view and the
    /// wanted frets show it whole?
    pub(super) fn may_hold(&self, shape: &Shape) -> bool {
        let is_locked_out = self.chosen.locked && Some(shape.string_set()) != self.strings();
        !is_locked_out && self.chosen.view.holds_shapes() && self.is_in_view(shape)
    }

    /// May the hand be anywhere on the neck?
    pub(super) fn is_free(&self) -> bool {
        let whole = self.chosen.view == NeckView::Whole && self.shown.within.is_none();
        whole && !self.chosen.locked
    }

    /// Does the view show every place of a shape?
    pub(super) fn is_in_view(&self, shape: &Shape) -> bool {
        self.view_places().is_none_or(|view| {
            shape.places().iter().all(|held| view.iter().any(|place| place.place == *held))
        })
    }

    /// Which set is used where none is chosen: 4-3-2 where there is one, as triads speak there.
    pub(super) fn usual_set(&self) -> usize {
        usize::from(self.shown.sets.len() > 1)
    }
}
