//! Tables of what each key of a screen does: short triples of before, keys typed, after.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::fmt::Debug;

use fretloom::tui::command::{COMMANDS, Command, CommandRow, Section};
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::program::Effect;

use crate::player::Player;

/// What a triple looks at: a word or two of the screen.
pub(crate) type Told = fn(&Player) -> String;

/// One command: what is looked at; keys that lead to the state before, with its words; keys; words.
pub(crate) type Triple<C> = (C, Told, (&'static str, &'static str), &'static str, &'static str);

/// The triples of a screen.
pub(crate) struct KeyTable<C: 'static> {
    pub(crate) section: Section,
    /// The command as the table of all commands has it.
    pub(crate) command: fn(C) -> Command,
    pub(crate) triples: &'static [Triple<C>],
}

impl<C: Copy + Debug> KeyTable<C> {
    /// Each of them begins on a screen of its own; what comes with that is kept as long.
    pub(crate) fn assert_holds<K>(&self, opened: impl Fn() -> (K, Player)) {
        let mut wrong = Vec::new();
        for (command, told, (lead, before), keys, after) in self.triples {
            let (_kept, mut player) = opened();
            player.press(lead);
            let was = told(&player);
            player.press(keys);
            let is = told(&player);
            if (was.as_str(), is.as_str()) != (before, after) {
                wrong.push(format!("{command:?} {lead:?}: {was:?}, {keys:?}: {is:?}"));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    /// Every command of the screen has a triple, and every triple presses a key of its command: one
    /// whose keys are those of another would test nothing of its own.
    pub(crate) fn assert_is_whole(&self) {
        let (keys, _) = Keys::built_in();
        for row in self.rows() {
            let has = self.triples.iter().any(|triple| (self.command)(triple.0) == row.command);
            assert!(has, "no triple for {}", row.name);
        }
        for (command, _, _, typed, _) in self.triples {
            let row = self.rows().find(|row| row.command == (self.command)(*command)).unwrap();
            let is_pressed = |key: &str| keys.of(row).contains(&key.parse::<Key>().unwrap());
            assert!(typed.split_whitespace().any(is_pressed), "{command:?}: {typed}");
        }
    }

    /// The help page of the screen has every one of its keys and gestures, whole.
    pub(crate) fn assert_help_is_whole(&self, mut player: Player) -> String {
        player.press("?");
        player.resize(80, 200);
        let help = player.screen();
        let gestures = GESTURES.iter().filter(|row| row.spot.screen() == Some(self.section));
        let told = self.rows().map(|row| row.help).chain(gestures.map(|row| row.help));
        for told in told {
            assert!(help.lines().any(|line| line.ends_with(told)), "{told}");
        }
        assert!(!help.contains('…'), "{help}");
        help
    }

    fn rows(&self) -> impl Iterator<Item = &'static CommandRow> {
        COMMANDS.iter().filter(|row| row.section == self.section)
    }
}

/// The first line of what was copied.
pub(crate) fn copied(player: &Player) -> String {
    let copy = player.effects.iter().find_map(|effect| match effect {
        Effect::Copy(clip) => Some(clip.text().to_owned()),
        _ => None,
    });
    copy.unwrap_or_default().lines().next().unwrap_or_default().to_owned()
}
