//! What lies under the mouse. It is asked of the layout by which the explorer is drawn.

use ratatui::layout::{Position, Rect};

use super::drawing::Drawing;
use super::overlay::Overlay;
use crate::picture::NeckHit;
use crate::tui::gesture::Spot;
use crate::tui::key::Key;
use crate::tui::widget::{ListLine, NeckWidget};

/// Something on the explorer that can be pointed at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum Hit {
    Pair(ListLine),
    /// The list of pairs beside its rows.
    Pairs,
    Scale(ListLine),
    /// The scales beside their rows.
    Scales,
    OnNeck(NeckHit),
    /// The neck beside its strings.
    Neck,
    Line(ListLine),
    /// A list laid over the screen, beside its lines.
    List,
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    pub(in crate::tui) fn spot(self) -> Spot {
        match self {
            Hit::Pair(_) => Spot::Pair,
            Hit::Pairs => Spot::Pairs,
            Hit::Scale(_) => Spot::Scale,
            Hit::Scales => Spot::Scales,
            Hit::OnNeck(NeckHit::Place(_)) => Spot::Note,
            Hit::OnNeck(NeckHit::Name(_)) => Spot::StringName,
            Hit::Neck => Spot::Neck,
            Hit::Line(_) => Spot::Line,
            Hit::List => Spot::List,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl Drawing<'_> {
    /// What lies at a place of the window.
    pub(in crate::tui) fn hit(&self, place: Position) -> Option<Hit> {
        let screen = self.shared.window();
        if let Some(key) = self.footer().key_at(self.footer_area(screen), place) {
            return Some(Hit::Footer(key));
        }
        match &self.explore.overlay {
            None => self.hit_explorer(screen, place),
            // What is typed is not to be lost by a slip of the mouse.
            Some(Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_)) => None,
            Some(Overlay::Scales(_) | Overlay::Tunings(_) | Overlay::Details(_)) => {
                self.hit_list(screen, place)
            }
        }
    }

    fn hit_explorer(&self, screen: Rect, place: Position) -> Option<Hit> {
        let [pairs, scales, neck, _] = self.places_to_point_at(screen)?;
        if pairs.contains(place) {
            return Some(self.pair_lines(pairs).at(place).map_or(Hit::Pairs, Hit::Pair));
        }
        if scales.contains(place) {
            return Some(self.scale_lines(scales).at(place).map_or(Hit::Scales, Hit::Scale));
        }
        let hit = || NeckWidget::hit(&self.picture(), neck, place).map_or(Hit::Neck, Hit::OnNeck);
        neck.contains(place).then(hit)
    }

    /// All of a list is one spot down to its footer, in which only the keys are spots.
    fn hit_list(&self, screen: Rect, place: Position) -> Option<Hit> {
        let above_footer = Rect { height: screen.height.saturating_sub(1), ..screen };
        let line = || self.lines_over(screen)?.at(place);
        above_footer.contains(place).then(|| line().map_or(Hit::List, Hit::Line))
    }
}
