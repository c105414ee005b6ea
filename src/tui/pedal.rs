//! A foot pedal, which types one key: for players whose hands are on the instrument.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use super::command::{Command, ExploreCommand, ListCommand, PracticeCommand, Section};
use super::key::Key;
use super::keys::Keys;

/// The key that the player's foot pedal types; none where there is no pedal.
///
/// # Example
///
/// ```
/// use fretloom::tui::command::{Command, ExploreCommand, Section};
/// use fretloom::tui::keys::Keys;
/// use fretloom::tui::pedal::Pedal;
///
/// let pedal: Pedal = "f12".parse().unwrap();
/// let (mut keys, _) = Keys::built_in();
/// pedal.join(&mut keys);
/// let climb = Command::Explore(ExploreCommand::Climb);
/// assert_eq!(keys.command(Section::Explore, "f12".parse().unwrap()), Some(climb));
/// assert_eq!(Pedal::NONE.to_string(), "none");
/// assert!("f13".parse::<Pedal>().is_err());
/// assert!("q".parse::<Pedal>().unwrap().free_in(&keys).is_err()); // leaves the program
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
        text.parse::<Pedal>().map_err(|_| expected.to_owned())?.free_in(keys)
    }

    /// The key that it types.
    #[must_use]
    pub fn key(self) -> Option<Key> {
        self.0
    }

    /// Gives its key to what comes next: on the neck the next shape of the ladder, in practice that
    /// something was got, in a list the next line, unless the key has another meaning there.
    pub fn join(self, keys: &mut Keys) {
        let Some(key) = self.0 else { return };
        keys.add(Section::Explore, Command::Explore(ExploreCommand::Climb), key);
        if keys.command(Section::Practice, key).is_none() {
            keys.add(Section::Practice, Command::Practice(PracticeCommand::GoOn), key);
        }
        for section in [Section::List, Section::Picking] {
            let searches = section == Section::Picking && key.typed().is_some();
            if !searches && keys.command(section, key).is_none() {
                keys.add(section, Command::List(ListCommand::Down), key);
            }
        }
    }

    /// The pedal, if its key is free for it: a key of `[always]` or `[everywhere]` is not, nor is the
    /// only key of another command of the explorer.
    ///
    /// # Errors
    ///
    /// What was expected, and which command needs the key.
    pub fn free_in(self, keys: &Keys) -> Result<Pedal, String> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pedal_says_that_something_was_got() {
        let (mut keys, pedal) = (Keys::built_in().0, "f12".parse::<Pedal>().unwrap());
        pedal.join(&mut keys);
        let got = keys.command(Section::Practice, "f12".parse().unwrap());
        assert_eq!(got, Some(Command::Practice(PracticeCommand::GoOn)));
    }

    #[test]
    fn a_pedal_goes_on_where_its_key_is_free() {
        let what = |key: &str| {
            let (mut keys, pedal) = (Keys::built_in().0, key.parse::<Pedal>().unwrap());
            pedal.join(&mut keys);
            [Section::Explore, Section::List, Section::Picking]
                .map(|section| keys.command(section, pedal.key()?))
        };
        let climb = Some(Command::Explore(ExploreCommand::Climb));
        let list = |command| Some(Command::List(command));
        let (down, page) = (list(ListCommand::Down), list(ListCommand::PageDown));
        assert_eq!(what("f12"), [climb, down, down]);
        assert_eq!(what("pagedown"), [climb, page, page]);
        // A letter searches where letters search.
        assert_eq!(what("x"), [climb, down, None]);
        assert_eq!(what("none"), [None; 3]);
    }
}
