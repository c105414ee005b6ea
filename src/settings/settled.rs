//! Every setting with its value.

use fretloom_fretboard::Hand;
use fretloom_theory::{Families, Spelling};

use super::ascii::Ascii;
use crate::picture::{FretWidths, Labels};

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
}
