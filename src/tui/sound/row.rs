//! The rows of the page of sound: what can be chosen there.

use fretloom_theory::{ClickBeats, Swing};

use super::state::Sound;
use crate::sound::{CountIn, Level, Rounds, Track};

/// By how much a key changes a level.
const STEP: u8 = 5;

/// A row of the page of sound.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum SoundRow {
    Level(Track),
    Click,
    Swing,
    CountIn,
    Rounds,
}

/// Which way a value is changed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum Change {
    More,
    Less,
}

impl SoundRow {
    /// All of them, from the top.
    pub(in crate::tui) const ALL: [SoundRow; 7] = [
        SoundRow::Level(Track::Line),
        SoundRow::Level(Track::Drone),
        SoundRow::Level(Track::Click),
        SoundRow::Click,
        SoundRow::Swing,
        SoundRow::CountIn,
        SoundRow::Rounds,
    ];

    /// What it is called.
    pub(super) fn name(self) -> &'static str {
        match self {
            SoundRow::Level(Track::Line) => "line, shapes",
            SoundRow::Level(Track::Drone) => "drone",
            SoundRow::Level(Track::Click) => "click",
            SoundRow::Click => "click on",
            SoundRow::Swing => "swing",
            SoundRow::CountIn => "count-in",
            SoundRow::Rounds => "loop",
        }
    }

    /// What is chosen, in words: `55  ■■■■■□□□□□`.
    pub(super) fn value(self, sound: &Sound) -> String {
        let manner = &sound.manner;
        match self {
            SoundRow::Level(track) => level_in_words(sound, track),
            SoundRow::Click => match manner.click {
                ClickBeats::Off => "no beat".to_owned(),
                ClickBeats::TwoAndFour => "2 and 4".to_owned(),
                ClickBeats::Every => "every beat".to_owned(),
            },
            SoundRow::Swing if manner.swing == Swing::STRAIGHT => "straight, 1:1".to_owned(),
            SoundRow::Swing => manner.swing.to_string(),
            SoundRow::CountIn => match manner.count_in {
                CountIn::None => "none".to_owned(),
                CountIn::OneBar => "one bar".to_owned(),
            },
            SoundRow::Rounds => match manner.rounds {
                Rounds::Once => "once".to_owned(),
                Rounds::Endless => "again and again".to_owned(),
            },
        }
    }
}

impl Sound {
    /// What is chosen in a row, in words.
    pub(in crate::tui) fn value_of(&self, row: SoundRow) -> String {
        row.value(self)
    }

    /// Changes what a row chooses: a level, or the next value of what goes round.
    pub(in crate::tui) fn change(&mut self, row: SoundRow, change: Change) {
        let manner = &mut self.manner;
        match row {
            SoundRow::Level(track) => self.change_level(track, change),
            SoundRow::Click => manner.click = stepped(&ClickBeats::ALL, manner.click, change),
            SoundRow::Swing => manner.swing = stepped(&Swing::STEPS, manner.swing, change),
            SoundRow::CountIn => {
                manner.count_in = match manner.count_in {
                    CountIn::None => CountIn::OneBar,
                    CountIn::OneBar => CountIn::None,
                }
            }
            SoundRow::Rounds => {
                manner.rounds = match manner.rounds {
                    Rounds::Once => Rounds::Endless,
                    Rounds::Endless => Rounds::Once,
                }
            }
        }
    }

    fn change_level(&self, track: Track, change: Change) {
        let now = self.mix.level(track).percent();
        let next = match change {
            Change::More => now.saturating_add(STEP),
            Change::Less => now.saturating_sub(STEP),
        };
        self.set_level(track, Level::new(next).unwrap_or(Level::FULL));
    }
}

/// The next of some values, round and round; the first where it is none of them.
fn stepped<T: Copy + PartialEq>(all: &[T], now: T, change: Change) -> T {
    let at = all.iter().position(|value| *value == now);
    let count = all.len().max(1);
    let next = match (at, change) {
        (Some(at), Change::More) => (at + 1) % count,
        (Some(at), Change::Less) => (at + count - 1) % count,
        (None, Change::More | Change::Less) => 0,
    };
    all.get(next).copied().unwrap_or(now)
}

fn level_in_words(sound: &Sound, track: Track) -> String {
    let percent = sound.mix.level(track).percent();
    let full = usize::from(percent / 10);
    let bar = "■".repeat(full) + &"□".repeat(10_usize.saturating_sub(full));
    let silent = if sound.is_silent(track) { "   silent" } else { "" };
    format!("{percent:>3}  {bar}{silent}")
}
