//! Where the player left off, taken up at the start of the screen and kept at its end.

use std::path::Path;

use super::args::Cli;
use crate::store::{Session, SessionStore};
use crate::tui::program::Program;

/// The session of this player; none where there is no folder for state.
///
/// It is a comfort and never in the way: what cannot be read is not used, what cannot be written is
/// not kept, what a newer fretloom wrote is left alone; and each of them is told, unless a signal
/// ends the program.
pub(super) struct Resume(Option<SessionStore>);

impl Resume {
    pub(super) fn new(state_folder: Option<&Path>) -> Resume {
        Resume(state_folder.map(SessionStore::in_folder))
    }

    /// Takes up what was kept, but for what was asked on the command line: options, and the chord with
    /// this symbol.
    pub(super) fn take_up(&self, cli: &Cli, symbol: Option<&str>, program: &mut Program) {
        match self.0.as_ref().map(SessionStore::load) {
            Some(Ok(Some(session))) => {
                program.take_up(&without_what_is_typed(session, cli, symbol));
            }
            Some(Err(error)) => program.tell(error.to_string()),
            Some(Ok(None)) | None => {}
        }
    }

    /// Keeps what is chosen now, or says why not.
    pub(super) fn keep(&self, program: &Program) -> Result<(), String> {
        let Some(store) = &self.0 else { return Ok(()) };
        let folder = store.folder().display();
        let why = |error| format!("nothing is kept for the next start in {folder}: {error}");
        store.save(&program.session()).map_err(why)
    }
}

/// A session without what the command line asks for: that wins.
fn without_what_is_typed(mut session: Session, cli: &Cli, symbol: Option<&str>) -> Session {
    if symbol.is_some() {
        (session.chord, session.scale, session.pair) = (None, None, None);
        session.screen = None;
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
