//! A foot pedal, which types one key: for players whose hands are on the instrument.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use super::command::Keys;
use super::key::Key;

/// The key that the player's foot pedal types; none where there is no pedal.
///
/// # Example
///
/// ```
/// use fretloom::tui::command::{Command, Keys, Section};
/// use fretloom::tui::pedal::Pedal;
///
/// let pedal: Pedal = "f12".parse().unwrap();
/// let (mut keys, _) = Keys::built_in();
/// keys.use_pedal(pedal);
/// assert_eq!(keys.command(Section::Explore, "f12".parse().unwrap()), Some(Command::Climb));
/// assert_eq!(Pedal::NONE.to_string(), "none");
/// assert!("f13".parse::<Pedal>().is_err());
/// assert!("q".parse::<Pedal>().unwrap().beside(&keys).is_err()); // leaves the program
/// assert_eq!(Pedal::settled("f12", &keys), Ok(pedal));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pedal(Option<Key>);

impl Pedal {
    /// No pedal.
    pub const NONE: Pedal = Pedal(None);

    /// The pedal that a settings file names.
    ///
    /// # Errors
    ///
    /// What was expected: `none`, or a key that is free for a pedal.
    pub fn settled(text: &str, keys: &Keys) -> Result<Pedal, String> {
        let expected = "\"none\" or a key as keys.toml writes it, as in \"f12\"";
        text.parse::<Pedal>().map_err(|_| expected.to_owned())?.beside(keys)
    }

    /// The key that it types.
    #[must_use]
    pub fn key(self) -> Option<Key> {
        self.0
    }

    /// The pedal, if its key is free for it: a key of `[always]` or `[everywhere]` is not, nor is the
    /// only key of another command of the explorer.
    ///
    /// # Errors
    ///
    /// What was expected, and which command needs the key.
    pub fn beside(self, keys: &Keys) -> Result<Pedal, String> {
        let Some(key) = self.0 else { return Ok(self) };
        let needed = keys.on_every_screen(key).or_else(|| keys.only_key_of(key));
        match needed.map(|row| row.name) {
            Some(name) => Err(format!(
                "a key that is free for a pedal, as in \"f12\"; `{key}` is for `{name}`"
            )),
            None => Ok(self),
        }
    }
}

impl FromStr for Pedal {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Pedal, ReadError> {
        Ok(if text == "none" { Pedal::NONE } else { Pedal(Some(text.parse()?)) })
    }
}

impl fmt::Display for Pedal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Some(key) => key.fmt(f),
            None => f.write_str("none"),
        }
    }
}
