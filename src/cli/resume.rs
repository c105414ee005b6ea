//! Where the player left off, taken up at the start of the screen and kept at its end.

use std::path::Path;

use super::args::Cli;
use crate::store::{Session, SessionStore};
use crate::tui::explore::Explore;

/// The session of this player; none where there is no folder for state.
///
/// It is a comfort and never in the way: what cannot be read is not used, what cannot be written is
/// not kept, and what a newer fretloom wrote is left alone.
pub(super) struct Resume(Option<SessionStore>);

impl Resume {
    pub(super) fn new(state_folder: Option<&Path>) -> Resume {
        Resume(state_folder.map(SessionStore::in_folder))
    }

    /// Takes up what was kept, but for what was asked on the command line.
    pub(super) fn take_up(&self, cli: &Cli, explore: &mut Explore) {
        let session = self.0.as_ref().and_then(|store| store.load().ok().flatten());
        if let Some(session) = session {
            explore.take_up(&beside(session, cli));
        }
    }

    /// Keeps what is chosen now.
    pub(super) fn keep(&self, explore: &Explore) {
        if let Some(store) = &self.0 {
            let _ = store.save(&explore.session());
        }
    }
}

/// A session without what the command line asks for: that wins.
fn beside(mut session: Session, cli: &Cli) -> Session {
    if !cli.chord.is_empty() {
        (session.chord, session.scale, session.pair) = (None, None, None);
        (session.wishes, session.rung) = (None, None);
    }
    if cli.typed.tuning {
        (session.tuning, session.capo) = (None, None);
        (session.strings, session.rung) = (None, None);
    }
    if cli.common.capo.is_some() {
        session.capo = None;
    }
    if cli.typed.spelling {
        session.spelling = None;
    }
    session
}
