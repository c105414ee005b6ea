//! Melodies, as far as they bear on what is played under them.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::fmt;
use std::str::FromStr;

use crate::{Bars, Part, PitchClass, PitchClassSet, Quarters, ReadError};

/// A melody: which note sounds when, one at a time.
///
/// It says what is [held](Self::held) over a chord, which a scale under it should have.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Bars, Melody, Meter, Note, Part, PitchClassSet, Quarters};
/// let at = Quarters::whole;
/// let note = |onset, length, name: &str| Note::new(at(onset), at(length), name.parse().unwrap());
/// let part = Part::new([note(0, 1, "C4").unwrap(), note(1, 3, "F#4").unwrap()]);
/// let held = Melody::of_part(&part).held(at(0), at(2), &Bars::of(Meter::COMMON));
/// assert_eq!(held.len(), 2);
/// ```
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Melody {
    /// One after another.
    notes: Vec<MelodyNote>,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct MelodyNote {
    from: Quarters,
    until: Quarters,
    class: PitchClass,
}

impl Melody {
    /// The highest notes of a part, grace notes apart: one that begins under a higher one is
    /// accompaniment, and one that is still sounding when a higher one begins ends there.
    #[must_use]
    pub fn of_part(part: &Part) -> Melody {
        let written = part.notes().iter().filter(|note| note.grace().is_none());
        let mut all: Vec<_> =
            written.map(|note| (note.onset(), note.end(), note.pitch())).collect();
        all.sort_by_key(|(from, _, pitch)| (*from, Reverse(pitch.pitch())));
        let mut sounding = BinaryHeap::new();
        let mut notes: Vec<MelodyNote> = Vec::new();
        for (from, until, pitch) in all {
            while sounding.peek().is_some_and(|(_, ends)| *ends <= from) {
                sounding.pop();
            }
            let is_highest = sounding.peek().is_none_or(|(highest, _)| *highest < pitch.pitch());
            sounding.push((pitch.pitch(), until));
            if is_highest && from < until {
                if let Some(last) = notes.last_mut() {
                    last.until = last.until.min(from);
                }
                notes.push(MelodyNote { from, until, class: pitch.pitch().pitch_class() });
            }
        }
        Melody { notes }
    }

    /// Does nothing ever sound?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.notes.is_empty()
    }

    /// What it holds between two moments: each note that sounds there for a beat or longer, or that
    /// begins on a strong beat and sounds for half a beat or longer. Strong is the first beat of a bar,
    /// and the middle one of four or more where the bar has a middle.
    #[must_use]
    pub fn held(&self, from: Quarters, until: Quarters, bars: &Bars) -> PitchClassSet {
        let first = self.notes.partition_point(|note| note.until <= from);
        let notes = self.notes.iter().skip(first).take_while(|note| note.from < until);
        let held = notes.filter(|note| is_held(note, from, until, bars));
        held.fold(PitchClassSet::EMPTY, |set, note| set.with(note.class))
    }
}

impl fmt::Display for Melody {
    /// Each note by its beginning and its end in quarter notes, and its semitones above C:
    /// `0:3/2:4 3/2:4:11`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let note =
            |note: &MelodyNote| format!("{}:{}:{}", note.from, note.until, note.class.number());
        f.write_str(&self.notes.iter().map(note).collect::<Vec<_>>().join(" "))
    }
}

impl FromStr for Melody {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where a note is not told as it is printed, or does not come after the one before.
    fn from_str(text: &str) -> Result<Melody, ReadError> {
        let mut notes: Vec<MelodyNote> = Vec::new();
        for word in text.split_whitespace() {
            let after = notes.last().map_or(Quarters::ZERO, |last| last.until);
            let note = read_note(word).filter(|note| note.from >= after);
            let expected = "its notes one after another, as in 0:3/2:4 3/2:4:11";
            notes.push(note.ok_or_else(|| ReadError::whole("melody", word, expected))?);
        }
        Ok(Melody { notes })
    }
}

fn read_note(word: &str) -> Option<MelodyNote> {
    let (times, class) = word.rsplit_once(':')?;
    let (from, until) = times.split_once(':')?;
    let class = class.parse::<u8>().ok().filter(|class| *class < 12)?;
    let (from, until) = (read_quarters(from)?, read_quarters(until)?);
    (from < until).then(|| MelodyNote { from, until, class: PitchClass::new(class.into()) })
}

/// `3`, `1/3`
fn read_quarters(text: &str) -> Option<Quarters> {
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    Quarters::new(above.parse().ok()?, below.parse().ok()?)
}

fn is_held(note: &MelodyNote, from: Quarters, until: Quarters, bars: &Bars) -> bool {
    let begins = note.from.max(from);
    let Some(at) = bars.at(begins) else { return false };
    let Some(length) = note.until.min(until).checked_sub(begins) else { return false };
    let meter = at.bar.meter;
    let is_strong = || {
        let place = at.into.checked_add(at.bar.missing).unwrap_or_default();
        let has_middle = meter.beats() >= 4 && meter.beats() % 2 == 0;
        let middle = meter.beat().times(u32::from(meter.beats() / 2));
        note.from >= from && (place.is_zero() || has_middle && Some(place) == middle)
    };
    let half = meter.beat().divided_into(2).unwrap_or_default();
    length >= meter.beat() || length >= half && is_strong()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Meter, Note};

    /// Onset and length in eighths, and the note.
    fn melody(notes: &[(u64, u64, &str)]) -> Melody {
        let eighths = |count| Quarters::new(count, 2).unwrap();
        let notes = notes.iter().map(|(onset, length, name)| {
            Note::new(eighths(*onset), eighths(*length), name.parse().unwrap()).unwrap()
        });
        Melody::of_part(&Part::new(notes))
    }

    fn held(melody: &Melody, from: u32, until: u32, meter: &str) -> Vec<u8> {
        let bars = Bars::of(meter.parse::<Meter>().unwrap());
        let held = melody.held(Quarters::whole(from), Quarters::whole(until), &bars);
        held.iter().map(PitchClass::number).collect()
    }

    /// Eighths in passing count on 1 and 3 only, quarters everywhere.
    #[test]
    fn long_notes_and_those_on_strong_beats_are_held() {
        let line = melody(&[
            (0, 1, "C5"),
            (1, 1, "C#5"),
            (2, 1, "D5"),
            (3, 1, "D#5"),
            (4, 1, "E5"),
            (5, 1, "F5"),
            (6, 2, "F#5"),
        ]);
        assert_eq!(held(&line, 0, 4, "4/4"), [0, 4, 6]);
        assert_eq!(held(&line, 0, 4, "3/4"), [0, 6]);
        // An eighth of 6/8 is a third of a beat, and passes.
        assert_eq!(held(&line, 0, 3, "6/8"), []);
    }

    /// A push: the note comes an eighth before its bar and is held over it.
    #[test]
    fn a_note_that_is_tied_over_is_held_where_it_sounds_for_a_beat() {
        let push = melody(&[(7, 5, "A5")]);
        assert_eq!(held(&push, 0, 4, "4/4"), []);
        assert_eq!(held(&push, 4, 8, "4/4"), [9]);
        let short = melody(&[(6, 3, "A5")]);
        assert_eq!(held(&short, 4, 8, "4/4"), []);
    }

    #[test]
    fn what_begins_under_a_higher_note_is_no_melody() {
        let chords =
            melody(&[(0, 8, "C3"), (0, 8, "E4"), (2, 2, "G3"), (8, 8, "G3"), (8, 4, "F5")]);
        assert_eq!(held(&chords, 0, 4, "4/4"), [4]);
        assert_eq!(held(&chords, 4, 8, "4/4"), [5]);
        assert!(melody(&[]).is_empty());
    }

    #[test]
    fn it_prints_and_is_read_again() {
        let line = melody(&[(0, 3, "C5"), (3, 5, "B4"), (9, 1, "F#4")]);
        assert_eq!(line.to_string(), "0:3/2:0 3/2:4:11 9/2:5:6");
        assert_eq!(line.to_string().parse::<Melody>().unwrap(), line);
        assert!("".parse::<Melody>().unwrap().is_empty());
        for wrong in ["0:1", "1:1:0", "0:2:0 1:3:0", "0:1:12", "0:1/0:3", "a:b:c", "0:1:2:3"] {
            assert!(wrong.parse::<Melody>().is_err(), "{wrong}");
        }
    }
}
