//! Music laid out in frames.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use fretloom_theory::{Bars, Click, ClickBeats, DroneChord, Quarters, Score};

use super::samples::{Frames, RATE};
use super::struck::Struck;
use super::style::{CountIn, PlayStyle, Rounds};
use super::time_map::TimeMap;

/// Music laid out in frames: what begins and ends when. Frames count from the beginning of a round.
#[derive(Debug)]
pub(super) struct Laid {
    pub(super) map: TimeMap,
    pub(super) bars: Bars,
    pub(super) rounds: Rounds,
    /// The strokes that count in, from the first of them on.
    pub(super) count_in: Vec<LaidClick>,
    /// How long the count-in is.
    pub(super) lead: u64,
    /// How long a round is, at least one frame.
    pub(super) length: u64,
    /// In order of time.
    pub(super) notes: Vec<LaidNote>,
    pub(super) chords: Vec<LaidChord>,
    /// Which beats are struck.
    click: ClickBeats,
    /// When the music ends.
    ends: Quarters,
    /// What each string is multiplied by, so that no number of them is ever too loud.
    pub(super) string_gain: f32,
}

/// A note: its strings are struck at one frame and damped at another.
#[derive(Debug)]
pub(super) struct LaidNote {
    pub(super) on: u64,
    pub(super) off: u64,
    pub(super) hertz: Vec<f64>,
    /// How hard, from 0 to 1.
    pub(super) gain: f32,
}

/// A chord that is held.
#[derive(Debug)]
pub(super) struct LaidChord {
    pub(super) on: u64,
    pub(super) off: u64,
    pub(super) hertz: Vec<f64>,
}

/// A stroke of the metronome.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct LaidClick {
    pub(super) at: u64,
    pub(super) accented: bool,
    /// Which beat of its bar it is, from 1.
    pub(super) beat: u32,
}

/// How long a string is heard after it is damped: it fades by 80 dB.
pub(super) const RELEASE: u64 = RATE as u64 * 11 / 100;

/// How hard a note is struck that has no accent; one with an accent is struck as hard as can be.
const PLAIN_GAIN: f32 = 0.8;

/// How many strings sound at once at most, those apart that are damped already. What would be struck
/// beyond that is left out: no hand plays it, and neither time nor memory may grow with it.
const MOST_STRINGS: usize = 64;

/// The strings that gains leave room for, whatever is played: a note, and the one before it that is
/// just being damped. So single notes are equally loud in every line that has no chords.
const ROOM: f32 = 2.0;

/// How many beats or bars are looked at for the next one that comes a frame later.
pub(super) const MOST_BEATS_A_FRAME: usize = 4;

/// Rounds that are shorter than this are not repeated.
const SHORTEST_ROUND: u64 = RATE as u64 / 20;

impl Laid {
    pub(super) fn new(
        score: &Score,
        struck: &[Struck],
        drone: &[DroneChord],
        style: &PlayStyle,
    ) -> Laid {
        let map = TimeMap::of(&score.tempi, &score.bars, struck, style.swing);
        let end = struck.iter().map(|note| note.end).max().unwrap_or_default().max(score.end());
        let length = frame_at(&map, end).max(1);
        let rounds = if length < SHORTEST_ROUND { Rounds::Once } else { style.rounds };
        let notes = laid_notes(&map, struck, style);
        let count_in = match style.count_in {
            CountIn::None => (Vec::new(), 0),
            CountIn::OneBar => counted_in(score),
        };
        Laid {
            string_gain: 1.0 / loudest(&notes, length, rounds).max(ROOM),
            click: style.click,
            ends: end,
            chords: drone.iter().map(|chord| laid_chord(&map, chord, style)).collect(),
            bars: score.bars.clone(),
            count_in: count_in.0,
            lead: count_in.1,
            map,
            rounds,
            length,
            notes,
        }
    }

    /// How many frames there are, what rings on at the end among them; `None` where it goes round and
    /// round.
    pub(super) fn end(&self) -> Option<u64> {
        match self.rounds {
            Rounds::Once => Some(self.lead.saturating_add(self.length).saturating_add(RELEASE)),
            Rounds::Endless => None,
        }
    }

    /// The next stroke of the metronome from this frame of a round on. They are found one by one, since
    /// there may be more than memory holds. Where beats come faster than frames there is none.
    pub(super) fn click_from(&self, frame: u64) -> Option<LaidClick> {
        let before = frame.saturating_sub(1) as f64 / f64::from(RATE);
        let clicks = self.click.clicks(&self.bars, self.map.moment_at(before), self.ends);
        let mut laid = clicks.map(|click| laid_click(&self.map, &self.bars, click));
        laid.by_ref().take(MOST_BEATS_A_FRAME).find(|click| click.at >= frame)
    }

    /// The first frame at which a moment has come, counted from the beginning of its round.
    pub(super) fn frame_at(&self, moment: Quarters) -> Frames {
        Frames(frame_at(&self.map, moment))
    }
}

/// The first frame at which a moment has come.
fn frame_at(map: &TimeMap, moment: Quarters) -> u64 {
    frame_of(map.seconds_at(moment))
}

fn frame_of(seconds: f64) -> u64 {
    // Seconds are sums of fractions that are not exact.
    const INEXACT: f64 = 1e-4;
    // What is beyond all numbers is as late as can be.
    (seconds * f64::from(RATE) - INEXACT).ceil() as u64
}

fn laid_notes(map: &TimeMap, struck: &[Struck], style: &PlayStyle) -> Vec<LaidNote> {
    let mut in_time: Vec<&Struck> = struck.iter().filter(|note| note.onset < note.end).collect();
    in_time.sort_by_key(|note| note.onset);
    let mut notes = Vec::with_capacity(in_time.len());
    let mut sounding = Sounding::default();
    for together in in_time.chunk_by(|one, next| one.onset == next.onset) {
        let strings: usize = together.iter().map(|note| note.pitches.len()).sum();
        // Strings that are struck together are together as loud as one, as the ear adds them.
        let share = 1.0 / (strings.max(1) as f32).sqrt();
        for note in together {
            let on = frame_at(map, note.onset);
            let off = frame_at(map, note.end).max(on.saturating_add(1));
            if sounding.takes(on, off, note.pitches.len()) {
                let hertz = note.pitches.iter().map(|pitch| style.concert_pitch.hertz_of(*pitch));
                let gain = if note.accent { share } else { share * PLAIN_GAIN };
                notes.push(LaidNote { on, off, hertz: hertz.collect(), gain });
            }
        }
    }
    notes
}

/// The strings that sound, and when they are damped.
#[derive(Default)]
struct Sounding {
    offs: BinaryHeap<Reverse<(u64, usize)>>,
    strings: usize,
}

impl Sounding {
    /// Strikes strings, if there is room for them.
    fn takes(&mut self, on: u64, off: u64, strings: usize) -> bool {
        while self.offs.peek().is_some_and(|Reverse((off, _))| *off <= on) {
            self.strings -= self.offs.pop().map_or(0, |Reverse((_, damped))| damped);
        }
        let fits = self.strings + strings <= MOST_STRINGS;
        if fits {
            self.strings += strings;
            self.offs.push(Reverse((off, strings)));
        }
        fits
    }
}

/// The most that the strings which sound at one time can add up to, those that are just being damped
/// among them. In rounds the end of one sounds into the beginning of the next.
fn loudest(notes: &[LaidNote], length: u64, rounds: Rounds) -> f32 {
    let turns = match rounds {
        Rounds::Once => 1,
        Rounds::Endless => 2 + RELEASE / length,
    };
    let mut changes: Vec<(u64, f32)> = Vec::with_capacity(notes.len() * 2);
    for start in (0..turns).map(|turn| length.saturating_mul(turn)) {
        for note in notes {
            let most = note.gain * note.hertz.len() as f32;
            let silent = note.off.saturating_add(RELEASE);
            changes.push((start.saturating_add(note.on), most));
            changes.push((start.saturating_add(silent), -most));
        }
    }
    // At one frame what begins comes first, so that nothing is counted too low.
    changes.sort_by(|one, next| one.0.cmp(&next.0).then(next.1.total_cmp(&one.1)));
    let mut now = 0.0_f64;
    let mut most = 0.0_f64;
    for (_, change) in changes {
        now += f64::from(change);
        most = most.max(now);
    }
    most as f32
}

fn laid_chord(map: &TimeMap, chord: &DroneChord, style: &PlayStyle) -> LaidChord {
    let hertz = chord.pitches.iter().map(|pitch| style.concert_pitch.hertz_of(*pitch));
    let (on, off) = (frame_at(map, chord.from), frame_at(map, chord.to));
    LaidChord { on, off, hertz: hertz.collect() }
}

fn laid_click(map: &TimeMap, bars: &Bars, click: Click) -> LaidClick {
    let beat = bars.at(click.at).and_then(|at| u32::try_from(at.beat).ok());
    LaidClick { at: frame_at(map, click.at), accented: click.accented, beat: beat.unwrap_or(1) }
}

/// The strokes of a bar in the first meter at the first tempo, then those of the beats before a
/// pick-up; and how long all that is.
fn counted_in(score: &Score) -> (Vec<LaidClick>, u64) {
    let Some(first) = score.bars.bar(0) else { return (Vec::new(), 0) };
    let quarter_s = score.tempi.tempo_at(Quarters::ZERO).quarter_s();
    let seconds = |moment: Quarters| moment.to_f64() * quarter_s;
    let (bar, missing) = (first.meter.bar(), first.missing);
    let until = bar.checked_add(missing).unwrap_or(bar);
    let counted = Bars::of(first.meter);
    let clicks = ClickBeats::Every.clicks(&counted, Quarters::ZERO, until);
    let laid = clicks.map(|click| {
        let beat = counted.at(click.at).and_then(|at| u32::try_from(at.beat).ok());
        let at = frame_of(seconds(click.at));
        LaidClick { at, accented: click.accented, beat: beat.unwrap_or(1) }
    });
    (laid.collect(), frame_of(seconds(until)))
}
