//! Notes with their time.

use super::grace::Grace;
use super::played_time::PlayedTime;
use crate::NamedPitch;
use crate::time::Quarters;

/// A voice of a part, counted from 1. Notes of one voice may sound together and overlap.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Voice(u8);

impl Voice {
    /// The first voice.
    pub const FIRST: Voice = Voice(1);

    /// The voice with this number; `None` for 0.
    #[must_use]
    pub const fn new(number: u8) -> Option<Voice> {
        if number == 0 { None } else { Some(Voice(number)) }
    }

    /// Its number.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }
}

/// A note of a part: when it begins, how long it is, and what sounds.
///
/// It is one note as it is heard: tied notes are one, and where the ties are is kept for whoever
/// writes it down. A grace note has the onset of its main note and no duration of its own.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Note, Quarters};
/// let pitch = "Eb4".parse().unwrap();
/// let note = Note::new(Quarters::whole(3), Quarters::whole(2), pitch).unwrap();
/// let tied = note.tied_at([Quarters::whole(4)]);
/// assert_eq!(tied.end(), Quarters::whole(5));
/// assert_eq!(tied.ties(), [Quarters::whole(4)]);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Note {
    onset: Quarters,
    duration: Quarters,
    /// Both together.
    end: Quarters,
    pitch: NamedPitch,
    voice: Voice,
    grace: Option<Grace>,
    ties: Box<[Quarters]>,
    recorded: Option<PlayedTime>,
}

impl Note {
    /// A note in the first voice; `None` where the moment of its end does not fit [`Quarters`].
    #[must_use]
    pub fn new(onset: Quarters, duration: Quarters, pitch: NamedPitch) -> Option<Note> {
        let end = onset.checked_add(duration)?;
        let (voice, grace, ties, recorded) = (Voice::FIRST, None, Box::default(), None);
        Some(Note { onset, duration, end, pitch, voice, grace, ties, recorded })
    }

    /// A note in the first voice from one moment to another; `None` where it would end before it
    /// begins, or its duration does not fit [`Quarters`].
    #[must_use]
    pub fn between(onset: Quarters, end: Quarters, pitch: NamedPitch) -> Option<Note> {
        end.checked_sub(onset).and_then(|duration| Note::new(onset, duration, pitch))
    }

    /// A grace note in the first voice before a main note that begins at `onset`.
    #[must_use]
    pub fn grace_before(onset: Quarters, grace: Grace, pitch: NamedPitch) -> Note {
        let (duration, end, voice) = (Quarters::ZERO, onset, Voice::FIRST);
        let (grace, ties, recorded) = (Some(grace), Box::default(), None);
        Note { onset, duration, end, pitch, voice, grace, ties, recorded }
    }

    /// The same note at another pitch.
    #[must_use]
    pub fn at_pitch(self, pitch: NamedPitch) -> Note {
        Note { pitch, ..self }
    }

    /// The same note in that voice.
    #[must_use]
    pub fn in_voice(self, voice: Voice) -> Note {
        Note { voice, ..self }
    }

    /// The same note, written as several with ties at these moments; those that are not within it
    /// are left out.
    #[must_use]
    pub fn tied_at(self, moments: impl IntoIterator<Item = Quarters>) -> Note {
        let within = |moment: &Quarters| self.onset < *moment && *moment < self.end;
        let mut ties: Vec<Quarters> = moments.into_iter().filter(within).collect();
        ties.sort_unstable();
        ties.dedup();
        Note { ties: ties.into(), ..self }
    }

    /// The same note with the time that a recording gives it.
    #[must_use]
    pub fn recorded_at(self, time: PlayedTime) -> Note {
        Note { recorded: Some(time), ..self }
    }

    /// When it begins; for a grace note, when its main note does.
    #[must_use]
    pub fn onset(&self) -> Quarters {
        self.onset
    }

    /// How long it is; nothing for a grace note.
    #[must_use]
    pub fn duration(&self) -> Quarters {
        self.duration
    }

    /// When it ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.end
    }

    /// What sounds, by its name.
    #[must_use]
    pub fn pitch(&self) -> NamedPitch {
        self.pitch
    }

    /// Its voice.
    #[must_use]
    pub fn voice(&self) -> Voice {
        self.voice
    }

    /// Its place before its main note, if it is a grace note.
    #[must_use]
    pub fn grace(&self) -> Option<Grace> {
        self.grace
    }

    /// The moments within it at which it is tied from one written note to the next, in order.
    #[must_use]
    pub fn ties(&self) -> &[Quarters] {
        &self.ties
    }

    /// When it was played, if the score is of a recording.
    #[must_use]
    pub fn recorded(&self) -> Option<PlayedTime> {
        self.recorded
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ties_lie_within_the_note_in_order() {
        let at = Quarters::whole;
        let note = Note::new(at(2), at(6), "C4".parse().unwrap()).unwrap();
        let tied = note.tied_at([at(7), at(2), at(4), at(4), at(8), at(9)]);
        assert_eq!(tied.ties(), [at(4), at(7)]);
    }

    #[test]
    fn a_note_whose_end_does_not_fit_is_none() {
        let [fine, other] = [u32::MAX, u32::MAX - 1].map(|below| Quarters::new(1, below).unwrap());
        let pitch = "C4".parse().unwrap();
        assert_eq!(Note::new(fine, other, pitch), None);
        assert_eq!(Note::between(Quarters::ONE, Quarters::ZERO, pitch), None);
        assert_eq!(Note::between(fine, other, pitch), None);
    }
}
