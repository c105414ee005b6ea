//! Recorded solos, eight notes at a time.
//!
//! Nobody has written down what these players thought, but they did not practise pairs: what is
//! called one is most likely none.

use fretloom_theory::Pitch;
use fretloom_theory::{
    ChordSymbol, Explanation, NamedPitch, Note, Part, Quarters, Score, Timeline,
};

use crate::recorded_solos::{Played, Solos};

const NOTES: usize = 8;

/// What is said of the chord under the notes.
#[derive(Clone, Copy)]
pub(crate) enum Chord {
    Unknown,
    /// The seventh chord that has the most of them.
    Plausible,
}

const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
const SEVENTH_CHORDS: [(&str, [i32; 4]); 4] =
    [("maj7", [0, 4, 7, 11]), ("7", [0, 4, 7, 10]), ("m7", [0, 3, 7, 10]), ("m7b5", [0, 3, 6, 10])];

/// How many windows there are, and those that are called a pair, as text.
pub(crate) fn called_a_pair(solos: &Solos, chord: Chord) -> (usize, Vec<String>) {
    let windows = solos.takes.iter().flat_map(|take| take.notes.windows(NOTES));
    let (mut count, mut called) = (0, Vec::new());
    for window in windows {
        count += 1;
        let symbol = match chord {
            Chord::Unknown => None,
            Chord::Plausible => Some(plausible(window)),
        };
        let score = score(window, symbol.as_deref());
        let explanation = Explanation::of(&score, &score.parts[0]);
        if explanation.bars.iter().any(|bar| bar.pair.is_some()) {
            let notes = score.parts[0].notes().iter().map(|note| format!("{:#}", note.pitch()));
            let notes: Vec<String> = notes.collect();
            called.push(format!("{}: {}", symbol.unwrap_or_default(), notes.join(" ")));
        }
    }
    (count, called)
}

/// The notes as eighths of a bar.
fn score(window: &[Played], symbol: Option<&str>) -> Score {
    let notes = window.iter().zip(0..).map(|(played, index)| {
        let pitch = NamedPitch::everyday(Pitch::from_midi(played.midi).unwrap());
        Note::new(Quarters::EIGHTH.times(index).unwrap(), Quarters::EIGHTH, pitch).unwrap()
    });
    let parts = vec![Part::new(notes)];
    let chords = symbol.map(|symbol| (Quarters::ZERO, ChordSymbol::read(symbol)));
    Score { chords: Timeline::of(chords), parts, ..Score::default() }
}

fn plausible(window: &[Played]) -> String {
    let all = (0..12).flat_map(|root| SEVENTH_CHORDS.map(|chord| (root, chord)));
    let fit = |(root, (_, tones)): &(i32, (&str, [i32; 4]))| {
        let above = |note: &Played| (i32::from(note.midi) - root).rem_euclid(12);
        window.iter().filter(|note| tones.contains(&above(note))).count()
    };
    // Of several the first, as a player asks for the plainest.
    let best = all.rev().max_by_key(fit);
    best.map(|(root, (suffix, _))| format!("{}{suffix}", ROOTS[usize::try_from(root).unwrap()]))
        .unwrap_or_default()
}
