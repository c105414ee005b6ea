//! What sounds when a pair is to be named.

use fretloom_fretboard::Tuning;
use fretloom_theory::{
    ChordSymbol, NamedPitch, Note, Part, Pitch, Quarters, Score, Timeline, TriadPair,
};

use crate::answer::harmony::Harmony;
use crate::sound::{CountIn, Performance, PlayStyle, Rounds, Struck, drone_side};

/// A pair over its chord, as it is heard where it is to be named.
///
/// At 120 in 4/4: a bar of the chord's drone alone; a bar with the first triad, broken upwards in quarter
/// notes that ring on; a bar with the second; then the first struck together for two beats and the second
/// for four, over the drone to the end. Triads lie close, in root position, within the octave and a half that ends
/// an octave above the highest open string, so that they speak on a guitar and do not growl on a bass.
#[derive(Clone, PartialEq, Debug)]
pub struct EarMusic {
    score: Score,
    struck: Vec<Struck>,
}

/// How many semitones the notes of two triads take up at most, with their roots in one octave.
const SPAN: u8 = 11 + 8;

/// When each triad begins, and when it is damped, in quarter notes.
const BROKEN: [(u32, u32); 2] = [(4, 8), (8, 12)];
const TOGETHER: [(u32, u32); 2] = [(12, 14), (14, 18)];

impl EarMusic {
    /// A pair over a chord, for an instrument.
    #[must_use]
    pub fn new(harmony: &Harmony, pair: TriadPair, tuning: &Tuning) -> EarMusic {
        let lowest = lowest(tuning);
        let triads = pair.triads().map(|triad| {
            let class = Pitch::from_midi(lowest).map(Pitch::pitch_class);
            let up = class.map_or(0, |class| class.semitones_up_to(triad.root()));
            let root = lowest.saturating_add(up);
            let members = triad.quality().semitones();
            members.map(|above| Pitch::from_midi(root)?.up(above))
        });
        let mut struck = Vec::new();
        for (members, (from, to)) in triads.iter().zip(BROKEN) {
            for (pitch, onset) in members.iter().zip(from..) {
                struck.extend(pitch.map(|pitch| one(pitch, onset, to)));
            }
        }
        for (members, (from, to)) in triads.iter().zip(TOGETHER) {
            struck.extend(members.iter().flatten().map(|pitch| one(*pitch, from, to)));
        }
        let notes = struck.iter().filter_map(|struck: &Struck| {
            let pitch = NamedPitch::everyday(*struck.pitches.first()?);
            Note::between(struck.onset, struck.end, pitch)
        });
        let score = Score {
            chords: Timeline::of([(Quarters::ZERO, held(harmony))]),
            parts: vec![Part::new(notes)],
            ..Score::default()
        };
        EarMusic { score, struck }
    }

    /// The notes as they are struck.
    #[must_use]
    pub fn struck(&self) -> &[Struck] {
        &self.struck
    }

    /// As it is heard: once, straight, without a click, at the player's pitch.
    #[must_use]
    pub fn performance(&self, tuning: &Tuning, style: &PlayStyle) -> Performance {
        let style = PlayStyle {
            concert_pitch: style.concert_pitch,
            count_in: CountIn::None,
            rounds: Rounds::Once,
            drone: drone_side(tuning),
            ..PlayStyle::default()
        };
        Performance::new(&self.score, &self.struck, &style)
    }
}

fn one(pitch: Pitch, from: u32, to: u32) -> Struck {
    Struck {
        onset: Quarters::whole(from),
        end: Quarters::whole(to),
        pitches: vec![pitch],
        accent: false,
    }
}

/// The lowest note that a triad may begin on.
fn lowest(tuning: &Tuning) -> u8 {
    let open = || tuning.strings().map(|(_, string)| string.pitch().midi());
    let highest = open().max().unwrap_or_default().saturating_add(12);
    highest.saturating_sub(SPAN).max(open().min().unwrap_or_default())
}

/// The chord that is held; under a scale by itself its root alone.
fn held(harmony: &Harmony) -> ChordSymbol {
    match harmony.chord() {
        Some(chord) => ChordSymbol::Chord(chord.read.chord.clone()),
        None => ChordSymbol::read(&format!("{:#}5", harmony.chord_scale().root())),
    }
}
