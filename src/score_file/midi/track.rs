//! The events of tracks: tempo, bars and notes.

use std::collections::{HashMap, VecDeque};

use fretloom_theory::{KeySignature, Meter, Pitch, Tempo};
use midly::{EventIter, MetaMessage, MidiMessage, TrackEventKind};

use super::chunks::Chunk;
use crate::score_file::error::{At, ScoreFileError};
use crate::score_file::limits::{LONGEST_NAME, MOST_NOTES};
use crate::score_file::offer::{Offer, Tally};
use crate::score_file::read_score::too_many;

/// The channel of drums, 10 as players count, which holds no pitches (General MIDI, from memory).
const DRUMS: u8 = 9;

/// A note of a track, in ticks from the beginning.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct TrackNote {
    pub(super) from_tick: u64,
    pub(super) to_tick: u64,
    pub(super) pitch: Pitch,
}

/// What all tracks together say about time, and what notes each has. Times are in ticks from the
/// beginning.
#[derive(Default, Debug)]
pub(super) struct Survey {
    pub(super) tempi: Vec<(u64, Tempo)>,
    pub(super) meters: Vec<(u64, Meter)>,
    pub(super) keys: Vec<(u64, KeySignature)>,
    /// The first name of each track that has one.
    names: Vec<(usize, String)>,
    /// Of each track with notes; in order.
    tallies: Vec<(usize, Tally)>,
    with_drums: Vec<usize>,
    /// The tracks that cannot be read to their end.
    damaged: Vec<(usize, ScoreFileError)>,
    /// When the last event of any track comes.
    pub(super) end: u64,
}

impl Survey {
    /// Adds what a track says, as far as it can be read; tracks are numbered from 1.
    pub(super) fn add(&mut self, track: Chunk<'_>, number: usize) {
        for event in Events::of(track, number) {
            let (tick, kind) = match event {
                Ok(event) => event,
                Err(error) => return self.damaged.push((number, error)),
            };
            self.end = self.end.max(tick);
            match kind {
                TrackEventKind::Meta(message) => self.note_meta(tick, message, number),
                TrackEventKind::Midi { channel, message: MidiMessage::NoteOn { key, vel } }
                    if vel.as_int() > 0 =>
                {
                    self.note_on(channel.as_int(), key.as_int(), number);
                }
                _ => {}
            }
        }
    }

    fn note_meta(&mut self, tick: u64, message: MetaMessage<'_>, number: usize) {
        match message {
            MetaMessage::Tempo(quarter) => {
                // A quarter note of no length is not in any music: the shortest there is stands in.
                let quarter_us = quarter.as_int().max(1);
                self.tempi.extend(Tempo::of_quarter_us(quarter_us).map(|tempo| (tick, tempo)));
            }
            MetaMessage::TimeSignature(units, power, ..) => {
                self.meters.extend(meter(units, power).map(|meter| (tick, meter)));
            }
            MetaMessage::KeySignature(sharps, is_minor) => {
                let of = if is_minor { KeySignature::minor } else { KeySignature::major };
                self.keys.extend(of(sharps).map(|key| (tick, key)));
            }
            MetaMessage::TrackName(name)
                if self.names.last().is_none_or(|(of, _)| *of != number) =>
            {
                let name = String::from_utf8_lossy(name);
                let name: String = name.trim().chars().take(LONGEST_NAME).collect();
                self.names.extend((!name.is_empty()).then_some((number, name)));
            }
            _ => {}
        }
    }

    fn note_on(&mut self, channel: u8, key: u8, number: usize) {
        if channel == DRUMS {
            if self.with_drums.last() != Some(&number) {
                self.with_drums.push(number);
            }
            return;
        }
        // A key has seven bits, so there is such a pitch.
        let Some(pitch) = Pitch::from_midi(key) else { return };
        match self.tallies.last_mut() {
            Some((of, tally)) if *of == number => tally.count(pitch),
            _ => {
                let mut tally = Tally::default();
                tally.count(pitch);
                self.tallies.push((number, tally));
            }
        }
    }

    /// The tracks with notes that can be read to their end; those that cannot, where no other has
    /// any.
    pub(super) fn offers(&self) -> Vec<Offer> {
        let is_whole = |number: usize| self.damage_of(number).is_none();
        let any_whole = self.tallies.iter().any(|(number, _)| is_whole(*number));
        let kept = self.tallies.iter().filter(|(number, _)| !any_whole || is_whole(*number));
        let offer = |(number, tally): &(usize, Tally)| Offer {
            number: *number,
            id: None,
            name: self.name_of(*number).map(str::to_owned),
            tally: *tally,
        };
        kept.map(offer).collect()
    }

    /// Does this track have notes?
    pub(super) fn has_notes(&self, number: usize) -> bool {
        self.tallies.iter().any(|(of, _)| *of == number)
    }

    /// What keeps a track from being read to its end.
    pub(super) fn damage_of(&self, number: usize) -> Option<&ScoreFileError> {
        let mut damaged = self.damaged.iter();
        damaged.find(|(of, _)| *of == number).map(|(_, error)| error)
    }

    /// What keeps any track from that.
    pub(super) fn damage(&self) -> Option<&ScoreFileError> {
        self.damaged.first().map(|(_, error)| error)
    }

    /// The same as it is told beside a track that was read: of many the first few.
    pub(super) fn damage_told(&self) -> impl Iterator<Item = String> {
        const TOLD: usize = 4;
        self.damaged.iter().take(TOLD).map(|(number, error)| {
            let what = if self.has_notes(*number) { "track" } else { "the rest of track" };
            format!("left out {what} {number}: {error}")
        })
    }

    /// The name of a track.
    pub(super) fn name_of(&self, number: usize) -> Option<&str> {
        let named = self.names.iter().find(|(of, _)| *of == number);
        named.map(|(_, name)| name.as_str())
    }

    pub(super) fn has_drums(&self, number: usize) -> bool {
        self.with_drums.contains(&number)
    }
}

/// `units` over two to the power of `power`; `None` where no music is written so: without units, or
/// in units shorter than a 64th.
fn meter(units: u8, power: u8) -> Option<Meter> {
    let kind = 1u8.checked_shl(u32::from(power)).filter(|kind| *kind <= 64)?;
    Meter::new(units, kind)
}

/// The notes of a track in order of their beginnings.
pub(super) fn notes(track: Chunk<'_>, number: usize) -> Result<Vec<TrackNote>, ScoreFileError> {
    let mut held = Held::default();
    let mut end = 0;
    for event in Events::of(track, number) {
        let (tick, kind) = event?;
        end = tick;
        if let TrackEventKind::Midi { channel, message } = kind {
            held.hear(tick, channel.as_int(), message)?;
        }
    }
    Ok(held.ended(end))
}

/// Notes so far, and which of them still sound.
#[derive(Default)]
struct Held {
    notes: Vec<TrackNote>,
    sounding: HashMap<(u8, u8), VecDeque<usize>>,
}

impl Held {
    fn hear(&mut self, tick: u64, channel: u8, message: MidiMessage) -> Result<(), ScoreFileError> {
        match message {
            _ if channel == DRUMS => Ok(()),
            MidiMessage::NoteOn { key, vel } if vel.as_int() > 0 => {
                self.begin(tick, channel, key.as_int())
            }
            MidiMessage::NoteOn { key, .. } | MidiMessage::NoteOff { key, .. } => {
                self.end(tick, channel, key.as_int());
                Ok(())
            }
            _ => Ok(()),
        }
    }

    fn begin(&mut self, tick: u64, channel: u8, key: u8) -> Result<(), ScoreFileError> {
        if self.notes.len() == MOST_NOTES {
            return Err(too_many());
        }
        // A key has seven bits, so there is such a pitch.
        if let Some(pitch) = Pitch::from_midi(key) {
            self.sounding.entry((channel, key)).or_default().push_back(self.notes.len());
            self.notes.push(TrackNote { from_tick: tick, to_tick: tick, pitch });
        }
        Ok(())
    }

    fn end(&mut self, tick: u64, channel: u8, key: u8) {
        let first = self.sounding.get_mut(&(channel, key)).and_then(VecDeque::pop_front);
        if let Some(note) = first.and_then(|index| self.notes.get_mut(index)) {
            note.to_tick = tick;
        }
    }

    /// All notes, those that still sound ended at `tick`.
    fn ended(mut self, tick: u64) -> Vec<TrackNote> {
        for index in self.sounding.into_values().flatten() {
            if let Some(note) = self.notes.get_mut(index) {
                note.to_tick = tick;
            }
        }
        self.notes
    }
}

/// The events of a track with their ticks from the beginning.
struct Events<'a> {
    track: Chunk<'a>,
    number: usize,
    events: EventIter<'a>,
    tick: u64,
}

impl<'a> Events<'a> {
    fn of(track: Chunk<'a>, number: usize) -> Events<'a> {
        Events { track, number, events: EventIter::new(track.content), tick: 0 }
    }
}

impl<'a> Iterator for Events<'a> {
    type Item = Result<(u64, TrackEventKind<'a>), ScoreFileError>;

    fn next(&mut self) -> Option<Self::Item> {
        let before = self.track.content.len() - self.events.unread().len();
        let offset = self.track.offset + before;
        Some(match self.events.next()? {
            Ok(event) => {
                self.tick += u64::from(event.delta.as_int());
                Ok((self.tick, event.kind))
            }
            Err(_) => {
                let at = At::Byte { offset, track: Some(self.number) };
                Err(ScoreFileError::new(at, "an event that cannot be read", "a whole MIDI event"))
            }
        })
    }
}
