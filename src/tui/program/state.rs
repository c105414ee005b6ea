//! The state of the program, and how it begins and ends.

use fretloom_fretboard::{Capo, Neck};
use fretloom_theory::Spelling;

use super::history::History;
use super::overlay::Overlay;
use super::screens::{Page, Screens};
use super::step::Step;
use crate::answer::Refusal;
use crate::library::{ChartFile, Library, ReadChart};
use crate::settings::Settings;
use crate::sound::SoundPlaces;
use crate::store::{KeeperStore, Session};
use crate::tui::changes::ChangesScreen;
use crate::tui::explore::{Explore, TypedChord};
use crate::tui::key::Glyphs;
use crate::tui::keys::Keys;
use crate::tui::line::LineScreen;
use crate::tui::shared::Shared;
use crate::tui::theme::Theme;

/// The program on the screen.
pub struct Program {
    pub(super) shared: Shared,
    pub(super) screens: Screens,
    pub(super) overlay: Option<Overlay>,
    /// What was chosen before every change.
    pub(super) past: History<Step>,
    /// What the screens were turned to before.
    pub(super) pages: History<Page>,
}

impl Program {
    /// The program on a chord (its own, where none is given) and a tuning.
    ///
    /// # Errors
    ///
    /// Where the chord or the tuning cannot be read.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::library::Library;
    /// use fretloom::tui::event::Event;
    /// use fretloom::tui::program::Program;
    /// use fretloom::tui::runtime::App;
    ///
    /// let library = Library::load(None);
    /// let mut program =
    ///     Program::open(Some("Dm7"), "guitar-standard", library, Default::default()).unwrap();
    /// program.update(Event::Key("down".parse().unwrap()));
    /// assert_eq!(program.explore().pair().unwrap().rank, 2);
    /// assert!(Program::open(Some("Dm7"), "harp", Library::load(None), Default::default()).is_err());
    /// ```
    pub fn open(
        symbol: Option<&str>,
        tuning: &str,
        library: Library,
        spelling: Spelling,
    ) -> Result<Program, Refusal> {
        let chord = TypedChord::read(symbol.unwrap_or(Explore::FIRST_CHORD))?;
        let shared = Shared::new(tuning, library, spelling)?;
        let explore = Explore::open(chord, &shared)?;
        Ok(Program {
            shared,
            screens: Screens::new(explore),
            overlay: None,
            past: History::new(),
            pages: History::new(),
        })
    }

    /// Puts a capo on the instrument; it stays there when another tuning is chosen.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    pub fn put_capo(&mut self, capo: Capo) -> Result<(), Refusal> {
        self.screens.explore.put_capo(capo, &mut self.shared)
    }

    /// Draws b and # instead of signs.
    pub fn use_ascii(&mut self) {
        self.shared.glyphs = Glyphs::Ascii;
    }

    /// Begins as the player has settled it. Tuning and spelling come with
    /// [`open`](Self::open), since an option may differ from them.
    pub fn use_settings(&mut self, settings: &Settings) {
        self.shared.use_settings(settings);
        self.screens.use_settings(settings, &self.shared);
    }

    /// Tells something, until the next key.
    pub fn tell(&mut self, notice: String) {
        self.shared.tell(notice);
    }

    /// Listens to these keys.
    pub fn use_keys(&mut self, keys: Keys) {
        self.shared.keys = keys;
    }

    /// Draws with this theme.
    pub fn use_theme(&mut self, theme: Theme) {
        self.shared.theme = theme;
    }

    /// Looks there for the ways by which sound leaves, when the player asks for them.
    pub fn use_sound_places(&mut self, places: SoundPlaces) {
        self.shared.sound.use_places(places);
    }

    /// Keeps what the player wants to keep there.
    pub fn use_keepers(&mut self, store: KeeperStore) {
        self.shared.keeping.use_store(store);
    }

    /// Does what is still to be done with what is kept, at the end of the program. What could not be
    /// done is told, a sentence each.
    pub fn finish_keeping(&mut self) -> Vec<String> {
        self.shared.keeping.finish(self.shared.today())
    }

    /// Everything that is chosen now.
    #[must_use]
    pub fn session(&self) -> Session {
        let mut session = Session::default();
        self.shared.keep(&mut session);
        self.screens.keep(&mut session);
        session
    }

    /// Takes up what was kept, as far as it still means something. Nothing of it can be taken back:
    /// the player's evening begins here.
    pub fn take_up(&mut self, session: &Session) {
        self.shared.take_up(session);
        self.screens.take_up(session, &mut self.shared);
        self.shared.notice = None;
    }

    /// Comes up with a tune: that of a file, if one is given.
    pub fn open_tune(&mut self, tune: ReadChart, file: Option<ChartFile>) {
        self.screens.show_tune(tune, file, &self.shared);
    }

    /// The explorer.
    #[must_use]
    pub fn explore(&self) -> &Explore {
        &self.screens.explore
    }

    /// The line screen.
    #[must_use]
    pub fn line(&self) -> &LineScreen {
        &self.screens.line
    }

    /// The changes screen.
    #[must_use]
    pub fn changes(&self) -> &ChangesScreen {
        &self.screens.changes
    }

    /// The neck of the instrument.
    #[must_use]
    pub fn neck(&self) -> &Neck {
        self.shared.neck()
    }
}
