//! The themes, built in and the player's own.

use std::path::Path;

use super::depth::Depth;
use super::read;
use super::roles::Theme;
use crate::library::Problem;
use crate::library::files::{read_text, toml_files, unreadable};

/// The dark theme. Its comments say what each role is for.
const DARK: &str = include_str!("../../../assets/themes/dark.toml");

/// The files of `assets/themes/`, in the order of lists.
const BUILT_IN: [(&str, &str); 5] = [
    ("terminal", include_str!("../../../assets/themes/terminal.toml")),
    ("dark", DARK),
    ("light", include_str!("../../../assets/themes/light.toml")),
    ("high-contrast", include_str!("../../../assets/themes/high-contrast.toml")),
    ("monochrome", include_str!("../../../assets/themes/monochrome.toml")),
];

/// All themes, and what was wrong with their files.
///
/// # Example
///
/// ```
/// use fretloom::tui::theme::{Depth, Themes};
/// let themes = Themes::load(None, Depth::Full);
/// assert!(themes.problems().is_empty());
/// assert!(themes.names().any(|name| name == "high-contrast"));
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Themes {
    themes: Vec<(String, Theme)>,
    problems: Vec<Problem>,
}

impl Themes {
    /// The name of the folder of themes in the player's folder.
    pub const FOLDER: &'static str = "themes";

    /// A file that a player can begin with: the dark theme, whose comments explain the roles.
    pub const SAMPLE: &'static str = DARK;

    /// The built-in themes and those in the folder `themes` of the player's `config_folder`, with
    /// their colours mapped to those of the terminal. A player's theme with the name of a built-in
    /// one replaces it.
    #[must_use]
    pub fn load(config_folder: Option<&Path>, depth: Depth) -> Themes {
        let mut themes = Themes { themes: Vec::new(), problems: Vec::new() };
        for (name, content) in BUILT_IN {
            themes.add(&format!("assets/themes/{name}.toml"), name, content, depth);
        }
        if let Some(folder) = config_folder {
            themes.add_folder(&folder.join(Themes::FOLDER), depth);
        }
        themes
    }

    /// The names of the themes, the built-in ones first.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.themes.iter().map(|(name, _)| name.as_str())
    }

    /// The theme of that name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<Theme> {
        self.themes.iter().find(|(there, _)| there == name).map(|(_, theme)| *theme)
    }

    /// What could not be used.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    fn add_folder(&mut self, folder: &Path, depth: Depth) {
        let files = match toml_files(folder) {
            Ok(files) => files,
            Err(error) => return self.problems.push(unreadable(folder, "a folder", &error)),
        };
        for path in files {
            let name = path.file_stem().unwrap_or_default().to_string_lossy();
            match read_text(&path) {
                Ok(content) => self.add(&path.display().to_string(), &name, &content, depth),
                Err(error) => self.problems.push(unreadable(&path, "a file", &error)),
            }
        }
    }

    fn add(&mut self, file: &str, name: &str, content: &str, depth: Depth) {
        let (theme, problems) = read::read(file, content, depth);
        self.problems.extend(problems);
        match self.themes.iter_mut().find(|(there, _)| there == name) {
            Some((_, there)) => *there = theme,
            None => self.themes.push((name.to_owned(), theme)),
        }
    }
}

impl Theme {
    /// The name of the theme that is used where none is chosen.
    pub const USUAL: &'static str = "terminal";

    /// The built-in theme of that name.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::tui::theme::{Depth, Theme};
    /// let dark = Theme::built_in("dark", Depth::Full).unwrap();
    /// assert_ne!(dark.first, dark.second);
    /// assert!(Theme::built_in("pink", Depth::Full).is_none());
    /// ```
    #[must_use]
    pub fn built_in(name: &str, depth: Depth) -> Option<Theme> {
        Themes::load(None, depth).get(name)
    }

    /// The theme of the terminal's own palette. Its cyan and yellow differ for every kind of colour
    /// vision, and in grey.
    #[must_use]
    pub fn terminal() -> Theme {
        Theme::built_in(Theme::USUAL, Depth::Sixteen).unwrap_or_default()
    }

    /// The theme of modifiers alone.
    #[must_use]
    pub fn monochrome() -> Theme {
        Theme::built_in("monochrome", Depth::None).unwrap_or_default()
    }
}
