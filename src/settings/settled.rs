//! The settings: every value that a player can set.

use fretloom_fretboard::Hand;
use fretloom_theory::{Families, Spelling};

use super::ascii::Ascii;
use crate::picture::page::Paper;
use crate::picture::{FretWidths, Labels};
use crate::practice::PracticeRules;
use crate::sound::SoundChoices;

/// The player's settings.
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
    /// The name of a theme, built in or the player's own.
    pub theme: String,
    /// When output is plain ASCII.
    pub ascii: Ascii,
    /// How triads are written.
    pub spelling: Spelling,
    /// The tuning: its id, its name, or its strings.
    pub tuning: String,
    /// What the marks on the neck show.
    pub labels: Labels,
    /// Which triads are paired.
    pub families: Families,
    /// The fretting hand, by its reach.
    pub hand: Hand,
    /// Is the neck drawn as its mirror image, with the nut at the right?
    pub left_handed: bool,
    /// Is string 1 drawn at the bottom?
    pub upside_down: bool,
    /// Does the mouse work in the program? Otherwise the terminal selects text with it.
    pub mouse: bool,
    /// Does the program ignore the last session when it starts?
    pub fresh: bool,
    /// How wide the frets are drawn.
    pub fret_widths: FretWidths,
    /// The paper of pages.
    pub paper: Paper,
    /// The key of the foot pedal as a key file writes it, or `none`.
    pub pedal: String,
    /// What is heard, and how loud.
    pub sound: SoundChoices,
    /// How much is practised in a day, and how.
    pub practice: PracticeRules,
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
            paper: Paper::A4,
            pedal: "none".to_owned(),
            sound: SoundChoices::default(),
            practice: PracticeRules::default(),
        }
    }
}

impl Settings {
    /// The version of the file format.
    pub const FORMAT: u32 = 1;

    /// The file's name in the player's folder.
    pub const FILE: &'static str = "settings.toml";
}
