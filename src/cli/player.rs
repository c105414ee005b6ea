//! Everything of the player's own, read once at the start.

use crate::library::{Folders, Library, Problem, unread_files};
use crate::settings::{Known, Settings};
use crate::tui::keys::Keys;
use crate::tui::pedal::Pedal;
use crate::tui::theme::{Depth, Theme, Themes};
use crate::words::nearest;

use super::outcome::Failure;

/// What was found in the player's folder, and what was wrong with it.
pub(super) struct Player {
    pub(super) folders: Folders,
    pub(super) library: Library,
    pub(super) settings: Settings,
    pub(super) settings_problems: Vec<Problem>,
    pub(super) keys: Keys,
    keys_problems: Vec<Problem>,
    themes: Themes,
    depth: Depth,
}

impl Player {
    pub(super) fn from_environment() -> Player {
        Player::load(Folders::from_environment(), Depth::from_environment())
    }

    fn load(folders: Folders, depth: Depth) -> Player {
        let config = folders.config.as_deref();
        let (library, themes) = (Library::load(config), Themes::load(config, depth));
        let (keys, keys_problems) = Keys::load(config);
        let (settings, settings_problems) = Settings::load(
            config,
            &Known {
                tunings: &library.tunings,
                themes: &themes.names().collect::<Vec<_>>(),
                pedal: &|text| Pedal::settled(text, &keys).map(|pedal| pedal.to_string()),
            },
        );
        Player { folders, library, settings, settings_problems, keys, keys_problems, themes, depth }
    }

    /// Everything that is wrong, file by file.
    pub(super) fn problems(&self) -> Vec<Problem> {
        self.settings_problems
            .iter()
            .chain(&self.keys_problems)
            .chain(self.themes.problems())
            .chain(self.library.problems())
            .cloned()
            .chain(self.library.charts.problems(self.library.scales.kinds()))
            .chain(self.folders.config.iter().flat_map(|folder| unread_files(folder)))
            .collect()
    }

    /// Hands every problem to the library, by which the screen tells them.
    pub(super) fn tell_all_in_library(&mut self) {
        let others = [&self.settings_problems, &self.keys_problems, self.themes.problems()];
        self.library.add_problems(others.concat());
    }

    /// The theme of that name. Where there is no colour, the one that is made for that.
    pub(super) fn theme(&self, name: &str) -> Result<Theme, Failure> {
        let theme = self.themes.get(name).ok_or_else(|| self.unknown_theme(name))?;
        Ok(if self.depth == Depth::None { Theme::monochrome() } else { theme })
    }

    fn unknown_theme(&self, name: &str) -> Failure {
        let names: Vec<&str> = self.themes.names().collect();
        let near = nearest(name, names.iter().copied());
        let near = near.map(|near| format!("; did you mean {near}?")).unwrap_or_default();
        let all = names.join(", ");
        Failure::Input(format!("there is no theme \"{name}\"; expected one of {all}{near}"))
    }
}
