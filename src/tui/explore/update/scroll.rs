//! Which frets are in view.

use fretloom_fretboard::FretRange;

use super::super::drawing::Drawing;
use super::super::neck_view::NeckView;
use super::super::state::Explore;
use crate::tui::shared::Shared;

impl Explore {
    /// Scrolls as far as the neck goes, and says where it goes no farther.
    pub(super) fn scroll_to(&mut self, first_fret: u8, shared: &mut Shared) {
        let furthest = self.furthest_scroll(shared);
        let next = first_fret.clamp(1, furthest);
        if next == self.chosen.first_fret {
            shared.tell(match furthest {
                1 => "the whole neck is in sight",
                _ if next == 1 => "the neck begins here",
                _ => "the neck ends here",
            });
        }
        self.chosen.first_fret = next;
    }

    /// Scrolls so that the position of the hand begins at the edge, with one fret below it.
    pub(super) fn scroll_to_hand(&mut self, shared: &mut Shared) {
        match self.shape_in_hand() {
            Some(shape) => self.scroll_to(shape.position().number().saturating_sub(1), shared),
            None => self.tell_no_shape(shared),
        }
    }

    /// Scrolls just so far that the shape in hand is in view; of a view that is played together, the
    /// view.
    pub(in crate::tui::explore) fn follow_hand(&mut self, shared: &Shared) {
        let furthest = self.furthest_scroll(shared);
        let frets = self.frets_to_see();
        let all = |(low, high): (u8, u8), fret: u8| (low.min(fret), high.max(fret));
        let (lowest, highest) = frets.into_iter().fold((u8::MAX, 0), all);
        if highest > 0 {
            let shown = self.frets_shown(shared);
            let too_wide = usize::from(highest - lowest) >= usize::from(shown);
            if lowest < self.chosen.first_fret || too_wide {
                self.chosen.first_fret = lowest.saturating_sub(1).max(1);
            }
            if !too_wide && highest >= self.chosen.first_fret.saturating_add(shown) {
                self.chosen.first_fret = (highest + 1).saturating_sub(shown).max(1);
            }
        }
        self.chosen.first_fret = self.chosen.first_fret.clamp(1, furthest);
    }

    /// The fretted frets that the player needs to see.
    fn frets_to_see(&self) -> Vec<u8> {
        let view = match (self.chosen.view, &self.shown.view) {
            (NeckView::Position(_) | NeckView::Across(_) | NeckView::Two(_), Some(view)) => {
                view.answer.places.iter().map(|place| place.place.fret.number()).collect()
            }
            (_, Some(_) | None) => Vec::new(),
        };
        let hand = || self.shape_in_hand().map(|shape| shape.frets().map(|fret| fret.number()));
        let frets = if view.is_empty() { hand().into_iter().flatten().collect() } else { view };
        frets.into_iter().filter(|fret: &u8| *fret > 0).collect()
    }

    /// The first fret shown when the last one is at the right edge.
    fn furthest_scroll(&self, shared: &Shared) -> u8 {
        let last = shared.neck().tuning().last_fret().number();
        (last + 1).saturating_sub(self.frets_shown(shared)).max(1)
    }

    /// How many frets the neck shows at its narrowest cells in the present width.
    fn frets_shown(&self, shared: &Shared) -> u8 {
        let drawing = Drawing::new(self, shared);
        let picture = drawing.picture().within(FretRange::WHOLE_NECK);
        let columns = picture.columns(drawing.neck_width());
        columns.last_shown().number().max(1)
    }
}
