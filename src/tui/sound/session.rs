//! How music is heard, as it is kept for the next start, and taken up again.

use super::state::Sound;
use crate::sound::{CountIn, Level, Rounds, Track};
use crate::store::{Session, SoundSession};

impl Sound {
    /// Writes how music is heard into a session.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        let level = |track| Some(self.mix.level(track).percent());
        let silent = Track::ALL.into_iter().filter(|track| self.mix.is_muted(*track));
        session.sound = Some(SoundSession {
            swing: Some(self.manner.swing.to_string()),
            click: Some(self.manner.click.to_string()),
            count_in: Some(self.manner.count_in == CountIn::OneBar),
            again: Some(self.manner.rounds == Rounds::Endless),
            line_level: level(Track::Line),
            drone_level: level(Track::Drone),
            click_level: level(Track::Click),
            silent: Some(silent.map(|track| word_of(track).to_owned()).collect()),
        });
    }

    /// Takes up how it was heard.
    pub(in crate::tui) fn take_up(&mut self, session: &Session) {
        let Some(kept) = &session.sound else { return };
        let manner = &mut self.manner;
        let read = |text: &Option<String>| text.as_deref().and_then(|text| text.parse().ok());
        manner.swing = read(&kept.swing).unwrap_or(manner.swing);
        let click = kept.click.as_deref().and_then(|text| text.parse().ok());
        manner.click = click.unwrap_or(manner.click);
        manner.count_in = match kept.count_in {
            Some(true) => CountIn::OneBar,
            Some(false) => CountIn::None,
            None => manner.count_in,
        };
        manner.rounds = match kept.again {
            Some(true) => Rounds::Endless,
            Some(false) => Rounds::Once,
            None => manner.rounds,
        };
        self.take_up_mix(kept);
    }

    fn take_up_mix(&self, kept: &SoundSession) {
        for track in Track::ALL {
            let percent = match track {
                Track::Line => kept.line_level,
                Track::Drone => kept.drone_level,
                Track::Click => kept.click_level,
            };
            if let Some(level) = percent.and_then(Level::new) {
                self.mix.set_level(track, level);
            }
            match kept.silent.as_ref().map(|all| all.iter().any(|word| word == word_of(track))) {
                Some(true) => self.mix.mute(track),
                Some(false) => self.mix.unmute(track),
                None => {}
            }
        }
    }
}

fn word_of(track: Track) -> &'static str {
    match track {
        Track::Line => "line",
        Track::Drone => "drone",
        Track::Click => "click",
    }
}
