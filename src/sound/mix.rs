//! Levels that change while it sounds.

use std::sync::atomic::{AtomicBool, AtomicU8, Ordering};

use super::level::Level;
use super::track::Track;

/// How loud each track is, and which of them are silent.
///
/// Whoever plays holds it, and changes it while the samples are made elsewhere: nothing waits, and no
/// change clicks, since what sounds glides to a new level.
///
/// # Example
///
/// ```
/// use fretloom::sound::{Level, Mix, Track};
/// let mix = Mix::default();
/// mix.mute(Track::Drone);
/// assert!(mix.is_muted(Track::Drone));
/// assert_eq!(mix.level(Track::Drone), Level::USUAL_DRONE); // for when it sounds again
/// ```
#[derive(Debug)]
pub struct Mix {
    line: Fader,
    drone: Fader,
    click: Fader,
}

#[derive(Debug)]
struct Fader {
    percent: AtomicU8,
    is_muted: AtomicBool,
}

impl Default for Mix {
    /// Every track at its usual level.
    fn default() -> Mix {
        Mix {
            line: Fader::at(Level::USUAL_LINE),
            drone: Fader::at(Level::USUAL_DRONE),
            click: Fader::at(Level::USUAL_CLICK),
        }
    }
}

impl Mix {
    /// Every track as loud as can be.
    #[must_use]
    pub fn full() -> Mix {
        let full = || Fader::at(Level::FULL);
        Mix { line: full(), drone: full(), click: full() }
    }

    /// The level of a track, also of one that is muted.
    #[must_use]
    pub fn level(&self, track: Track) -> Level {
        Level::new(self.fader(track).percent.load(Ordering::Relaxed)).unwrap_or(Level::FULL)
    }

    /// Sets the level of a track.
    pub fn set_level(&self, track: Track, level: Level) {
        self.fader(track).percent.store(level.percent(), Ordering::Relaxed);
    }

    /// Is a track silent, whatever its level?
    #[must_use]
    pub fn is_muted(&self, track: Track) -> bool {
        self.fader(track).is_muted.load(Ordering::Relaxed)
    }

    /// Silences a track.
    pub fn mute(&self, track: Track) {
        self.fader(track).is_muted.store(true, Ordering::Relaxed);
    }

    /// Lets a track sound again.
    pub fn unmute(&self, track: Track) {
        self.fader(track).is_muted.store(false, Ordering::Relaxed);
    }

    /// What the samples of a track are multiplied by now.
    pub(super) fn gain(&self, track: Track) -> f32 {
        if self.is_muted(track) { 0.0 } else { self.level(track).gain() }
    }

    const fn fader(&self, track: Track) -> &Fader {
        match track {
            Track::Line => &self.line,
            Track::Drone => &self.drone,
            Track::Click => &self.click,
        }
    }
}

impl Fader {
    const fn at(level: Level) -> Fader {
        Fader { percent: AtomicU8::new(level.percent()), is_muted: AtomicBool::new(false) }
    }
}
