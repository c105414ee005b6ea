//! What the player has settled once and for all: the file `settings.toml`.
//!
//! The file is read entry by entry: a wrong entry is reported with its place and leaves the default
//! in force; it costs no other entry. Every setting is a row of one table. The sample that is printed
//! (`assets/settings.toml`) is a file like a player's own, and says what [`Settings::default`] says.

mod rows;
mod value;

use std::path::Path;

use fretloom_fretboard::Hand;
use fretloom_theory::{Families, Spelling};

use crate::library::fields::Fields;
use crate::library::files::text_if_there;
use crate::library::{LoadedTunings, Problem};
use crate::picture::{FretWidths, Labels};
use rows::ROWS;

/// A file that a player can begin with: every setting, what it means, and its usual value.
pub const SAMPLE: &str = include_str!("../assets/settings.toml");

/// What the player has settled.
///
/// # Example
///
/// ```
/// use fretloom::library::LoadedTunings;
/// use fretloom::settings::{Known, Settings};
///
/// let known = Known {
///     tunings: &LoadedTunings::load(None),
///     themes: &["terminal", "dark"],
///     pedal: &|key| Ok(key.to_owned()),
/// };
/// let text = "tuning = \"guitar-dadgad\"\ntheme = \"drak\"";
/// let (settings, problems) = Settings::read("settings.toml", text, &known);
/// assert_eq!(settings.tuning, "guitar-dadgad");
/// assert_eq!(problems[0].line, 2);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Settings {
    /// The name of a theme there is.
    pub theme: String,
    /// Signs or ASCII.
    pub ascii: Ascii,
    /// How triads are written.
    pub spelling: Spelling,
    /// A tuning there is: its id, its name, or its strings.
    pub tuning: String,
    /// What stands in the marks.
    pub labels: Labels,
    /// Which triads take part.
    pub families: Families,
    /// Whose hand it is.
    pub hand: Hand,
    /// Is the neck drawn as its mirror image, with the nut at the right?
    pub left_handed: bool,
    /// Is string 1 drawn at the bottom?
    pub upside_down: bool,
    /// Does the mouse choose on the screen, rather than select text?
    pub mouse: bool,
    /// Does the screen begin afresh, and not where it was left?
    pub fresh: bool,
    /// How wide the cells of the frets are drawn.
    pub fret_widths: FretWidths,
    /// The key of the foot pedal as a key file writes it, or `none`.
    pub pedal: String,
}

/// When b and # stand in the place of signs.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Ascii {
    /// Where the locale is not UTF-8
    #[default]
    Auto,
    /// Wherever
    Always,
    /// Nowhere
    Never,
}

impl Default for Settings {
    fn default() -> Self {
        Settings {
            theme: "terminal".to_owned(),
            ascii: Ascii::Auto,
            spelling: Spelling::Plain,
            tuning: "guitar-standard".to_owned(),
            labels: Labels::default(),
            families: Families::default(),
            hand: Hand::default(),
            left_handed: false,
            upside_down: false,
            mouse: true,
            fresh: false,
            fret_widths: FretWidths::Even,
            pedal: "none".to_owned(),
        }
    }
}

impl Settings {
    /// The version of the file's form.
    pub const FORMAT: u32 = 1;

    /// The file's name in the player's folder.
    pub const FILE: &'static str = "settings.toml";

    /// Those of the player's folder, and what was wrong with them.
    #[must_use]
    pub fn load(config_folder: Option<&Path>, known: &Known<'_>) -> (Settings, Vec<Problem>) {
        let Some(folder) = config_folder else { return (Settings::default(), Vec::new()) };
        let path = folder.join(Settings::FILE);
        match text_if_there(&path) {
            Ok(None) => (Settings::default(), Vec::new()),
            Ok(Some(text)) => Settings::read(&path.display().to_string(), &text, known),
            Err(problem) => (Settings::default(), vec![problem]),
        }
    }

    /// Those in the text of a file, and what is wrong with it.
    #[must_use]
    pub fn read(file: &str, content: &str, known: &Known<'_>) -> (Settings, Vec<Problem>) {
        let mut sound = String::new();
        let mut fields = Fields::salvage(file, content, &mut sound);
        let mut settings = Settings::default();
        if fields.read_key("format", value::format).is_some_and(|format| format > Settings::FORMAT)
        {
            return (settings, vec![newer(file, &fields)]);
        }
        let names = ROWS.iter().map(|row| row.name);
        fields.report_unknown(&names.chain(["format"]).collect::<Vec<_>>());
        for row in ROWS {
            let found = fields.read_key(row.name, |value| (row.read)(value, known));
            if let Some(set) = found {
                set(&mut settings);
            }
        }
        (settings, fields.into_problems())
    }

    /// Every setting with its value as the command line takes it: the setting's name, the option's,
    /// the value.
    pub fn values(&self) -> impl Iterator<Item = (&'static str, &'static str, String)> {
        ROWS.iter().map(|row| (row.name, row.option, (row.print)(self)))
    }
}

/// What values are checked against: what else there is, and what the screen can use.
#[derive(Clone, Copy)]
pub struct Known<'a> {
    /// The tunings there are.
    pub tunings: &'a LoadedTunings,
    /// The names of the themes there are, in the order in which they are told.
    pub themes: &'a [&'a str],
    /// The key of a foot pedal in its usual notation, or what was expected in its place.
    pub pedal: &'a dyn Fn(&str) -> Result<String, String>,
}

/// That a file is of a newer version, and so is left alone.
fn newer(file: &str, fields: &Fields<'_>) -> Problem {
    let known = Settings::FORMAT;
    let expected = format!("format {known}; a newer file is left alone, and none of it is used");
    fields.problem_at_key("format", &expected).unwrap_or_else(|| Problem::of_file(file, expected))
}

#[cfg(test)]
mod tests;
