//! What is looked for on the keepers screen, as it is kept for the next start, and taken up again.

use super::chosen::{Chosen, ORDERS};
use super::state::KeepersScreen;
use crate::store::{KeeperId, KeepersSession, Session};

impl KeepersScreen {
    /// Writes what is chosen here into a session; nothing where nothing is.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        let Chosen { words, tag, serves, order } = &self.chosen;
        let some = |text: &String| Some(text.clone()).filter(|text| !text.is_empty());
        let at = ORDERS.iter().position(|(known, _)| known == order).unwrap_or_default();
        let kept = KeepersSession {
            words: some(words),
            tag: tag.clone(),
            serves: some(serves),
            order: u32::try_from(at).ok().filter(|at| *at > 0),
            marked: self.marked_id.map(KeeperId::number),
        };
        session.keepers = (kept != KeepersSession::default()).then_some(kept);
    }

    /// Takes up what was kept, as far as it still means something.
    pub(in crate::tui) fn take_up(&mut self, session: &Session) {
        let Some(kept) = &session.keepers else { return };
        let order = kept.order.and_then(|at| ORDERS.get(usize::try_from(at).ok()?));
        self.chosen = Chosen {
            words: kept.words.clone().unwrap_or_default(),
            tag: kept.tag.clone(),
            serves: kept.serves.clone().unwrap_or_default(),
            order: order.map(|(order, _)| *order).unwrap_or_default(),
        };
        self.marked_id = kept.marked.and_then(KeeperId::new);
    }
}
