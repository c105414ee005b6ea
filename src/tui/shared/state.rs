//! The state that all screens share.

use std::borrow::Cow;

use fretloom_fretboard::{Hand, Neck, Tuning};
use fretloom_theory::Spelling;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use ratatui::layout::{Rect, Size};

use super::setup::Setup;
use crate::answer::{Refusal, TuningAnswer, find_tuning};
use crate::library::Library;
use crate::picture::{Handed, NeckPicture, Top};
use crate::practice::PracticeRules;
use crate::settings::Settings;
use crate::tui::command::{COMMANDS, Command, Section};
use crate::tui::gesture::Spot;
use crate::tui::keeping::Keeping;
use crate::tui::key::Glyphs;
use crate::tui::keys::Keys;
use crate::tui::mouse::Mouse;
use crate::tui::sound::Sound;
use crate::tui::theme::Theme;
use crate::tui::widget::{Footer, ListLine};

/// What every screen is given, and may change.
pub(in crate::tui) struct Shared {
    pub(in crate::tui) keys: Keys,
    pub(in crate::tui) theme: Theme,
    pub(in crate::tui) glyphs: Glyphs,
    pub(in crate::tui) library: Library,
    /// The player's hand.
    pub(in crate::tui) hand: Hand,
    pub(in crate::tui) setup: Setup,
    /// The neck of the tuning that is set up.
    pub(super) neck: Neck,
    /// That tuning, and where it comes from.
    pub(super) tuning: TuningAnswer,
    /// The tuning that was typed last, if one was.
    pub(super) typed: Option<Tuning>,
    /// The size of the window, last told of.
    pub(in crate::tui) size: Size,
    pub(in crate::tui) mouse: Mouse,
    /// What is played, and how.
    pub(in crate::tui) sound: Sound,
    /// What is kept.
    pub(in crate::tui) keeping: Keeping,
    /// The numbers by which the player practises.
    pub(in crate::tui) practice: PracticeRules,
    /// The time that was told last; long ago, where none was told yet.
    pub(in crate::tui) now: ZonedDateTime,
    /// The line of a list that the mouse chose last, as it was seen then, and in which list; no key
    /// was pressed since.
    pub(in crate::tui) clicked: Option<(Spot, ListLine)>,
    /// What the last key has to tell.
    pub(in crate::tui) notice: Option<String>,
}

impl Shared {
    /// The built-in keys and theme, a hand of usual reach, and this tuning.
    ///
    /// # Errors
    ///
    /// Where the tuning cannot be read.
    pub(in crate::tui) fn new(
        tuning: &str,
        library: Library,
        spelling: Spelling,
    ) -> Result<Shared, Refusal> {
        let tuning = find_tuning(&library.tunings, tuning)?;
        let known = library.tunings.get(tuning.tuning.id()).is_some();
        Ok(Shared {
            keys: Keys::built_in().0,
            theme: Theme::terminal(),
            glyphs: Glyphs::Unicode,
            library,
            hand: Hand::default(),
            setup: Setup::usual(tuning.tuning.clone(), spelling),
            neck: Neck::new(tuning.tuning.clone()),
            typed: (!known).then(|| tuning.tuning.clone()),
            tuning,
            size: Size::new(80, 24),
            mouse: Mouse::Free,
            sound: Sound::new(),
            keeping: Keeping::default(),
            practice: PracticeRules::default(),
            now: Timestamp::UNIX_EPOCH.to_zoned_datetime(TimeZone::UTC),
            clicked: None,
            notice: None,
        })
    }

    /// Begins as the player has settled it, as far as all screens are concerned.
    pub(in crate::tui) fn use_settings(&mut self, settings: &Settings) {
        self.hand = settings.hand;
        self.practice = settings.practice;
        self.setup.handed = if settings.left_handed { Handed::Left } else { Handed::Right };
        self.setup.top = if settings.upside_down { Top::Last } else { Top::First };
        self.setup.fret_widths = settings.fret_widths;
        self.sound.use_settings(&settings.sound);
        self.mouse = if settings.mouse { Mouse::Taken } else { Mouse::Free };
    }

    /// Tells something, until the next key.
    pub(in crate::tui) fn tell(&mut self, notice: impl Into<String>) {
        self.notice = Some(notice.into());
    }

    /// The day it is where the player is.
    pub(in crate::tui) fn today(&self) -> Date {
        self.now.date()
    }

    /// The whole window.
    pub(in crate::tui) fn window(&self) -> Rect {
        Rect::new(0, 0, self.size.width, self.size.height)
    }

    /// The line that the mouse chose last, if it was one of this kind.
    pub(in crate::tui) fn clicked(&self, spot: Spot) -> Option<ListLine> {
        self.clicked.filter(|(there, _)| *there == spot).map(|(_, line)| line)
    }

    /// The first key of a command, as it is labelled; never written in a string.
    pub(in crate::tui) fn key_of(&self, command: Command) -> String {
        self.keys.first(command).map(|key| key.label(self.glyphs)).unwrap_or_default()
    }

    /// The footer for where keys are heard now; a command that is `idle` does nothing there.
    pub(in crate::tui) fn footer(&self, section: Section, idle: Option<Command>) -> Footer<'_> {
        let matters = COMMANDS.iter().filter(|row| {
            let there = row.section.is_heard_with(section);
            there && !row.label.is_empty() && Some(row.command) != idle
        });
        let entries =
            matters.filter_map(|row| Some((*self.keys.of(row).first()?, row.label.into())));
        Footer::new(entries, &self.theme, self.glyphs)
    }

    /// The footer with these commands, each with its word.
    pub(in crate::tui) fn footer_of(
        &self,
        commands: impl IntoIterator<Item = (Command, Cow<'static, str>)>,
    ) -> Footer<'_> {
        let entry = |(command, word)| Some((self.keys.first(command)?, word));
        Footer::new(commands.into_iter().filter_map(entry), &self.theme, self.glyphs)
    }

    /// A neck as it lies before the player.
    pub(in crate::tui) fn lying(&self, picture: NeckPicture) -> NeckPicture {
        picture.for_hand(self.setup.handed).with_top(self.setup.top)
    }
}
