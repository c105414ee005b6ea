//! Tracks of notes.

use fretloom_theory::Pitch;
use midly::num::{u4, u7};
use midly::{MetaMessage, MidiMessage, TrackEventKind};

use super::event::Event;
use super::lanes::Lanes;
use super::ticks::Ticks;
use crate::score_file::written_score::WrittenScore;

/// How hard notes are struck, 1 to 127; common practice, no source.
const PLAIN: u8 = 80;
const ACCENTED: u8 = 108;
const DRONE: u8 = 48;
const CLICK: u8 = 72;
const ACCENTED_CLICK: u8 = 100;

/// The drums' channel, 10 as players count, and two of its keys: the high and the low wood block
/// (General MIDI, from memory).
const DRUMS: u8 = 9;
const HIGH_BLOCK: u8 = 76;
const LOW_BLOCK: u8 = 77;

/// A note as a track has it.
struct Struck {
    key: u8,
    velocity: u8,
    from: u64,
    to: u64,
}

/// The line.
pub(super) fn line<'a>(written: &WrittenScore, ticks: Ticks, name: &'a str) -> Vec<Event<'a>> {
    let struck = written.played().map(|(note, beside)| {
        let velocity = if beside.accent { ACCENTED } else { PLAIN };
        let (from, to) = (ticks.at(note.onset()), ticks.at(note.end()));
        Struck::of(note.pitch().pitch(), velocity, from, to)
    });
    pitched(name, struck.collect())
}

/// The drone.
pub(super) fn drone(written: &WrittenScore, ticks: Ticks) -> Vec<Event<'static>> {
    let struck = written.drone.iter().flat_map(|chord| {
        let (from, to) = (ticks.at(chord.from), ticks.at(chord.to));
        chord.pitches.iter().map(move |pitch| Struck::of(*pitch, DRONE, from, to))
    });
    pitched("Drone", struck.collect())
}

/// The click.
pub(super) fn click(written: &WrittenScore, ticks: Ticks) -> Vec<Event<'static>> {
    // A stroke on wood: a 32nd is more than it lasts.
    let lasting = u64::from(ticks.of_quarter() / 8).max(1);
    let events = written.click.iter().flat_map(|click| {
        let from = ticks.at(click.at);
        let (key, velocity) =
            if click.accented { (HIGH_BLOCK, ACCENTED_CLICK) } else { (LOW_BLOCK, CLICK) };
        Struck { key, velocity, from, to: from + lasting }.events(DRUMS)
    });
    named("Click", events.collect())
}

impl Struck {
    /// A note that sounds for a tick at least, else no program shows it.
    fn of(pitch: Pitch, velocity: u8, from: u64, to: u64) -> Struck {
        Struck { key: pitch.midi(), velocity, from, to: to.max(from.saturating_add(1)) }
    }

    fn events(&self, channel: u8) -> [Event<'static>; 2] {
        // All three are below their limits: pitches have seven bits.
        let channel = u4::try_from(channel).unwrap_or_default();
        let [key, vel] =
            [self.key, self.velocity].map(|byte| u7::try_from(byte).unwrap_or_default());
        let event = |tick, message| Event::new(tick, TrackEventKind::Midi { channel, message });
        let off = MidiMessage::NoteOff { key, vel: u7::default() };
        [event(self.from, MidiMessage::NoteOn { key, vel }), event(self.to, off)]
    }
}

/// A track of pitches: what ends at a tick comes before what begins there.
fn pitched(name: &str, mut struck: Vec<Struck>) -> Vec<Event<'_>> {
    struck.sort_by_key(|note| note.from);
    let mut lanes = Lanes::new();
    let mut events: Vec<Event<'_>> = Vec::with_capacity(2 * struck.len() + 2);
    let mut begins = Vec::with_capacity(struck.len());
    for note in &struck {
        let [begin, end] = note.events(lanes.channel(note.key, note.from, note.to));
        events.push(end);
        begins.push(begin);
    }
    events.append(&mut begins);
    named(name, events)
}

fn named<'a>(name: &'a str, events: Vec<Event<'a>>) -> Vec<Event<'a>> {
    let name = TrackEventKind::Meta(MetaMessage::TrackName(name.as_bytes()));
    let mut named = vec![Event::new(0, name)];
    named.extend(events);
    named
}
