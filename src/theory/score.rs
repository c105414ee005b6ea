//! Scores.

mod chord_symbol;
mod grace;
mod key_signature;
mod note;
mod part;
mod played_time;

pub use chord_symbol::ChordSymbol;
pub use grace::Grace;
pub use key_signature::KeySignature;
pub use note::{Note, Voice};
pub use part::{Part, Rest};
pub use played_time::PlayedTime;

use crate::time::{Bars, Meter, Quarters, TempoMap, Timeline};

/// Music in musical time: what readers of files fill, and what writers, screens and sound ask.
///
/// It is a plain record; each of its pieces keeps its own rules. Moments are [`Quarters`] from the
/// beginning of the first bar, a pick-up included. Pitches are as they sound.
///
/// It knows no instrument: strings, frets and fingers belong beside it, note by note in the order
/// of [`Part::notes`]. Nor does it know how music looks: beams, clefs, and where a note is split by
/// a bar line follow from the times.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Bars, ChordSymbol, Meter, Note, Part, Quarters, Score, Timeline};
/// let g7 = ChordSymbol::Chord("G7".parse().unwrap());
/// let eighth = Note::new(Quarters::ONE, Quarters::EIGHTH, "B3".parse().unwrap()).unwrap();
/// let score = Score {
///     bars: Bars::of(Meter::COMMON),
///     chords: Timeline::of([(Quarters::ZERO, g7)]),
///     parts: vec![Part::new([eighth])],
///     ..Score::default()
/// };
/// assert_eq!(score.end(), Quarters::new(3, 2).unwrap());
/// let played = score.played(&score.parts[0]);
/// assert_eq!((played[0].onset_s(), played[0].duration_s()), (0.5, 0.25)); // at 120
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Score {
    /// Its title.
    pub title: Option<String>,
    /// Where its bars are.
    pub bars: Bars,
    /// How fast it goes.
    pub tempi: TempoMap,
    /// The key signatures.
    pub keys: Timeline<KeySignature>,
    /// The chord symbols.
    pub chords: Timeline<ChordSymbol>,
    /// Its parts.
    pub parts: Vec<Part>,
}

impl Default for Score {
    /// No music, in 4/4 at 120.
    fn default() -> Score {
        Score {
            title: None,
            bars: Bars::of(Meter::COMMON),
            tempi: TempoMap::default(),
            keys: Timeline::default(),
            chords: Timeline::default(),
            parts: Vec::new(),
        }
    }
}

impl Score {
    /// When the last of its parts ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.parts.iter().map(Part::end).max().unwrap_or(Quarters::ZERO)
    }

    /// When each note of a part is played, in the order of [`Part::notes`]: as it was recorded,
    /// else by the tempo. Grace notes come shortly before their main note; where one would come
    /// before the beginning, all notes come so much later.
    #[must_use]
    pub fn played(&self, part: &Part) -> Vec<PlayedTime> {
        let times: Vec<(f64, f64)> = part.notes().iter().map(|note| self.seconds(note)).collect();
        let first = times.iter().map(|(onset_s, _)| *onset_s).fold(0.0, f64::min);
        let played = |(onset_s, duration_s)| PlayedTime::new(onset_s - first, duration_s);
        times.into_iter().map(|time| played(time).unwrap_or(PlayedTime::AT_ONCE)).collect()
    }

    /// Onset, which may come before the beginning, and duration.
    fn seconds(&self, note: &Note) -> (f64, f64) {
        if let Some(time) = note.recorded() {
            return (time.onset_s(), time.duration_s());
        }
        let main_s = self.tempi.seconds_at(note.onset());
        match note.grace() {
            Some(grace) => {
                let room_s = grace.after().map(|after| main_s - self.tempi.seconds_at(after));
                let step_s = grace.step_s(room_s);
                (main_s - f64::from(grace.steps()) * step_s, step_s)
            }
            None => (main_s, self.tempi.seconds_at(note.end()) - main_s),
        }
    }
}

#[cfg(test)]
mod tests;
