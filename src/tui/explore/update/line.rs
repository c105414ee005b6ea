//! A line of the pair in hand.

use fretloom_theory::Pitch;

use super::super::neck_view::{Across, NeckView};
use super::super::state::Explore;
use crate::tui::line_place::{ChordSeed, LinePlace, LineSeed, LineView};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl Explore {
    /// Asks for a line of the pair over its chord, under the view in use; says where there is none.
    pub(super) fn make_line(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(pair) = self.pair() else {
            shared.tell("no pair, no line");
            return Vec::new();
        };
        let chord = ChordSeed {
            symbol: self.chosen.chord.in_ascii(),
            scale: format!("{:#}", self.shown.pairs.harmony.scale().scale()),
            pair: format!("{:#}", pair.name()),
        };
        let seed = LineSeed::of(chord, self.line_place(), self.lowest_in_hand(shared));
        vec![ScreenEffect::MakeLine(seed)]
    }

    fn lowest_in_hand(&self, shared: &Shared) -> Option<Pitch> {
        let shape = self.shape_in_hand().or(self.played)?;
        shape.places().into_iter().filter_map(|place| shared.neck().pitch_at(place)).min()
    }

    /// Where the player looks at the pair. On the whole neck that is the strings in use, on which
    /// its shapes are climbed.
    fn line_place(&self) -> LinePlace {
        let (frets, in_use) = (self.chosen.frets, self.strings());
        let locked = in_use.filter(|_| self.chosen.locked);
        let (view, strings) = match self.chosen.view {
            NeckView::Whole => (LineView::Anywhere, in_use),
            NeckView::Position(position) => (LineView::Position(position), locked),
            NeckView::Set(set) => (LineView::Anywhere, Some(set)),
            NeckView::Across(Across { through, way }) => (LineView::Across(through, way), None),
            NeckView::Two(way) => (LineView::Two(way), in_use),
        };
        LinePlace { view, strings, frets }
    }
}
