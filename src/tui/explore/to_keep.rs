//! What is kept of the explorer: the pair in its view, its ladder, or the shape in hand.

use super::neck_view::NeckView;
use super::state::Explore;
use crate::answer::pair_to_keep;
use crate::store::{Kept, KeptShape, KeptThing, NewKeeper, Session};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl Explore {
    /// The pair in view; on a set of strings, where the ladder stays, that ladder.
    pub(in crate::tui) fn to_keep(&self, shared: &Shared) -> Option<NewKeeper> {
        let stays = match self.chosen.view {
            NeckView::Set(set) => Some(set),
            _ if self.chosen.locked => self.strings(),
            _ => None,
        };
        let what = if stays.is_some() { KeptThing::Ladder } else { KeptThing::Pair };
        let kept = Kept { what, strings: stays, ..self.kept(shared)? };
        Some(NewKeeper { kept, ..NewKeeper::default() })
    }

    /// Keeps the shape in hand, or says that there is none.
    pub(super) fn keep_shape(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(new) = self.shape_to_keep(shared) else {
            shared.tell("the hand holds no shape here");
            return Vec::new();
        };
        vec![ScreenEffect::Keep(Box::new(new))]
    }

    fn shape_to_keep(&self, shared: &Shared) -> Option<NewKeeper> {
        let named = self.shape(shared.neck())?;
        let shape = named.shape;
        let fingers = shape.fingers().map(Vec::from).unwrap_or_default();
        let held = KeptShape::new(&format!("{:#}", named.triad), shape.places().to_vec(), fingers)?;
        let strings = Some(shape.string_set());
        let kept = Kept { what: KeptThing::Shape(held), strings, ..self.kept(shared)? };
        Some(NewKeeper { kept, ..NewKeeper::default() })
    }

    /// Chord, scale, pair, instrument and view, and how all of it stood.
    fn kept(&self, shared: &Shared) -> Option<Kept> {
        let pair = self.pair()?;
        let mut screen = Session::default();
        self.keep(&mut screen);
        let view = match self.chosen.view {
            NeckView::Whole => None,
            NeckView::Set(_) => Some("set".to_owned()),
            view => Some(view.words()),
        };
        let kept = pair_to_keep(&self.pairs().harmony, pair, shared.setup.tuning.clone());
        let chord = Some(self.chosen.chord.in_ascii());
        Some(Kept { chord, view, screen: screen.to_toml(), ..kept })
    }
}
