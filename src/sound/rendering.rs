//! Makes the samples of a performance.

use std::sync::Arc;

use super::drone::Drone;
use super::laid::{Laid, LaidClick, LaidNote, RELEASE};
use super::mix::Mix;
use super::pluck::{PluckedString, evened};
use super::samples::{Frames, RATE, Samples};
use super::style::Rounds;
use super::tick::Tick;
use super::track::Track;

/// How large each track may become. They add up to less than one: nothing is ever cut off.
const LINE_SHARE: f32 = 0.7;
const DRONE_SHARE: f32 = 0.16;
const CLICK_SHARE: f32 = 0.13;

/// How long a gain takes from silence to its full, in frames: no change of a level clicks.
const GLIDE: f32 = RATE as f32 * 0.02;

/// A string that is struck longer ago than this is silent, whatever it was.
const LONGEST_RING: u64 = RATE as u64 * 15;

/// How far back it begins for what rings into the moment from which it is wanted.
const RING_BEFORE: u64 = RATE as u64 * 6;

/// How many frames are made at a time.
const PIECE: usize = 256;

/// The samples of a performance, made as they are asked for.
pub(super) struct Rendering {
    laid: Arc<Laid>,
    mix: Arc<Mix>,
    /// Frames since the beginning of the count-in.
    frame: u64,
    /// When the round begins.
    round_from: u64,
    next_counted: usize,
    next_note: usize,
    next_chord: usize,
    next_click: Option<LaidClick>,
    strings: Vec<Ringing>,
    drone: Drone,
    tick: Option<Tick>,
    gains: [Gain; 3],
}

/// A string that sounds.
struct Ringing {
    string: PluckedString,
    gain: f32,
    /// Frames until it is damped.
    held: u64,
    /// Frames until it is silent.
    heard: u64,
}

/// What a track is multiplied by, on its way to what the mix says.
#[derive(Clone, Copy)]
struct Gain {
    track: Track,
    now: f32,
}

impl Rendering {
    pub(super) fn new(laid: &Arc<Laid>, mix: &Arc<Mix>) -> Rendering {
        let gain = |track| Gain { track, now: mix.gain(track) };
        Rendering {
            mix: Arc::clone(mix),
            frame: 0,
            round_from: laid.lead,
            next_counted: 0,
            next_note: 0,
            next_chord: 0,
            next_click: laid.click_from(0),
            strings: Vec::new(),
            drone: Drone::new(),
            tick: None,
            gains: Track::ALL.map(gain),
            laid: Arc::clone(laid),
        }
    }

    /// From a frame of the first round on, without a count-in.
    pub(super) fn from(laid: &Arc<Laid>, mix: &Arc<Mix>, from: Frames) -> Rendering {
        let mut made = Rendering::new(laid, mix);
        let from = from.0.min(laid.length);
        let begin = from.saturating_sub(RING_BEFORE);
        made.frame = laid.lead + begin;
        made.next_counted = laid.count_in.len();
        made.next_note = laid.notes.partition_point(|note| note.on < begin);
        made.next_click = laid.click_from(begin);
        // A chord that began before is held on.
        made.next_chord = laid.chords.partition_point(|chord| chord.off <= begin);
        let mut unheard = [0.0; PIECE];
        let mut left = from - begin;
        while left > 0 {
            let now = usize::try_from(left).map_or(PIECE, |left| left.min(PIECE));
            let Some(block) = unheard.get_mut(..now) else { break };
            made.fill(block);
            left -= now as u64;
        }
        made
    }

    /// Begins the next round where this one is over.
    fn turn_round(&mut self) {
        let next = self.round_from.saturating_add(self.laid.length);
        let goes_on = match self.laid.rounds {
            Rounds::Once => false,
            Rounds::Endless => self.frame >= next,
        };
        if goes_on {
            self.drone.release(self.laid.length);
            self.round_from = next;
            (self.next_note, self.next_chord) = (0, 0);
            self.next_click = self.laid.click_from(0);
        }
    }

    /// Begins and ends what is due.
    fn begin_what_is_due(&mut self) {
        let laid = Arc::clone(&self.laid);
        while let Some(click) = laid.count_in.get(self.next_counted).filter(|c| c.at <= self.frame)
        {
            self.tick = Some(Tick::new(click.accented));
            self.next_counted += 1;
        }
        let Some(within) = self.frame.checked_sub(self.round_from) else { return };
        if let Some(click) = self.next_click.filter(|click| click.at <= within) {
            self.tick = Some(Tick::new(click.accented));
            self.next_click = laid.click_from(within + 1);
        }
        while let Some(note) = laid.notes.get(self.next_note).filter(|note| note.on <= within) {
            self.pluck(note);
            self.next_note += 1;
        }
        self.drone.release(within);
        while let Some(chord) = laid.chords.get(self.next_chord).filter(|c| c.on <= within) {
            self.drone.hold(chord);
            self.next_chord += 1;
        }
    }

    fn pluck(&mut self, note: &LaidNote) {
        let held = note.off - note.on;
        let heard = held.saturating_add(RELEASE).min(LONGEST_RING);
        let gain = note.gain * self.laid.string_gain;
        for (string, hertz) in note.hertz.iter().enumerate() {
            // The noise of the pick is that of the pitch: what is played again sounds the same.
            let seed = hertz.to_bits().wrapping_add(string as u64);
            let string = PluckedString::new(*hertz, seed);
            let gain = gain * evened(*hertz);
            self.strings.push(Ringing { string, gain, held, heard });
        }
    }

    /// How many frames go by until something begins or ends.
    fn until_next(&self) -> u64 {
        let within = self.frame.saturating_sub(self.round_from);
        let laid = &self.laid;
        let counted = laid.count_in.get(self.next_counted).map(|click| click.at);
        let in_round = [
            self.next_click.map(|click| click.at),
            laid.notes.get(self.next_note).map(|note| note.on),
            laid.chords.get(self.next_chord).map(|chord| chord.on),
            self.drone.off().filter(|off| *off > within),
            Some(laid.length).filter(|length| *length > within),
        ];
        let in_round = in_round.into_iter().flatten().map(|at| at.saturating_add(self.round_from));
        let next =
            in_round.chain(counted).chain(self.laid.end()).filter(|at| *at > self.frame).min();
        next.map_or(u64::MAX, |next| next - self.frame)
    }

    /// Makes the samples of a piece in which nothing begins.
    fn make(&mut self, piece: &mut [f32]) {
        piece.fill(0.0);
        let mut track = [0.0; PIECE];
        let Some(track) = track.get_mut(..piece.len()) else { return };
        for string in &mut self.strings {
            string.add_to(track);
        }
        self.strings.retain(|string| string.heard > 0);
        let [line, drone, click] = &mut self.gains;
        line.mix_in(&self.mix, track, LINE_SHARE, piece);
        self.drone.write(track);
        drone.mix_in(&self.mix, track, DRONE_SHARE, piece);
        track.fill(0.0);
        if let Some(tick) = &mut self.tick {
            for sample in &mut *track {
                *sample = tick.next().unwrap_or(0.0);
            }
        }
        click.mix_in(&self.mix, track, CLICK_SHARE, piece);
        self.frame += piece.len() as u64;
    }
}

impl Samples for Rendering {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let mut written = 0;
        while written < block.len() && self.laid.end().is_none_or(|end| self.frame < end) {
            self.turn_round();
            self.begin_what_is_due();
            let most = PIECE.min(block.len() - written);
            let now = usize::try_from(self.until_next()).map_or(most, |until| until.min(most));
            let Some(piece) = block.get_mut(written..written + now) else { break };
            self.make(piece);
            written += now;
        }
        written
    }
}

impl Ringing {
    /// Adds its next samples.
    fn add_to(&mut self, track: &mut [f32]) {
        for sample in track.iter_mut() {
            if self.heard == 0 {
                return;
            }
            if self.held > 0 {
                self.held -= 1;
            } else {
                self.gain *= DAMPED;
            }
            self.heard -= 1;
            *sample += self.gain * self.string.next();
        }
    }
}

/// What a damped string is multiplied by from frame to frame: 80 dB within [`RELEASE`].
const DAMPED: f32 = 0.998_257_2;

impl Gain {
    /// Adds a track, as loud as the mix wants it.
    fn mix_in(&mut self, mix: &Mix, track: &[f32], share: f32, piece: &mut [f32]) {
        let wanted = mix.gain(self.track);
        for (sample, own) in piece.iter_mut().zip(track) {
            self.now += (wanted - self.now).clamp(-1.0 / GLIDE, 1.0 / GLIDE);
            *sample += self.now * share * own;
        }
    }
}
