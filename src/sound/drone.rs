//! The chords that are held.

use super::held_tone::{HeldTone, Wave};
use super::laid::LaidChord;
use super::samples::RATE;

/// How long a chord takes to come or to go, in frames. They fade along straight lines of one slope,
/// so that those that go and the one that comes are never more together than one.
const FADE: f32 = RATE as f32 * 0.06;

/// How many tones a chord has at most: a bass, and a half-diminished chord over it.
const MOST_TONES: f32 = 5.0;

/// The chords that are held: one, and those before it that fade.
pub(super) struct Drone {
    wave: Wave,
    chords: Vec<HeldChord>,
}

struct HeldChord {
    hertz: Vec<f64>,
    tones: Vec<HeldTone>,
    /// From 0 to 1.
    level: f32,
    /// When it is released, counted from the beginning of its round; `None` once it is.
    off: Option<u64>,
}

impl Drone {
    pub(super) fn new() -> Drone {
        Drone { wave: Wave::new(), chords: Vec::new() }
    }

    /// Holds a chord; what is held already is released, unless it is the same.
    pub(super) fn hold(&mut self, chord: &LaidChord) {
        let off = Some(chord.off);
        for held in &mut self.chords {
            held.off = None;
        }
        match self.chords.iter_mut().find(|held| held.hertz == chord.hertz) {
            Some(same) => same.off = off,
            None => {
                let tones = chord.hertz.iter().map(|hertz| HeldTone::new(*hertz)).collect();
                self.chords.push(HeldChord { hertz: chord.hertz.clone(), tones, level: 0.0, off });
            }
        }
    }

    /// Releases what is over at this frame of the round.
    pub(super) fn release(&mut self, within: u64) {
        for held in &mut self.chords {
            held.off = held.off.filter(|off| *off > within);
        }
    }

    /// When the chord that is held is released.
    pub(super) fn off(&self) -> Option<u64> {
        self.chords.iter().find_map(|held| held.off)
    }

    /// Writes its next samples, each from -1 to 1.
    pub(super) fn write(&mut self, track: &mut [f32]) {
        track.fill(0.0);
        for held in &mut self.chords {
            held.add_to(track, &self.wave);
        }
        self.chords.retain(|held| held.off.is_some() || held.level > 0.0);
    }
}

impl HeldChord {
    fn add_to(&mut self, track: &mut [f32], wave: &Wave) {
        let step = if self.off.is_some() { 1.0 / FADE } else { -1.0 / FADE };
        for sample in track {
            self.level = (self.level + step).clamp(0.0, 1.0);
            let tones: f32 = self.tones.iter_mut().map(|tone| tone.next(wave)).sum();
            *sample += self.level * tones / MOST_TONES;
        }
    }
}
