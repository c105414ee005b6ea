//! Solos of a player who is a rule: nobody's recording, the same in every run, with the string and
//! the fret of each note.
//!
//! The player knows nothing of costs. The hand covers four frets, one finger each, and plays each
//! note where it lies under it; it moves while a phrase ends, or, in a climb, along the outer string
//! where the line leaves the hand. Everyday practice, no source.

use crate::recorded_solos::{Played, Solos, Take};

/// How a phrase goes on from note to note.
const STYLES: [Style; 5] = [
    Style { name: "steps", scale: &MAJOR, strides: &[1, 1, 1, -1], climbs: false },
    Style { name: "thirds", scale: &MAJOR, strides: &[2, -1, 2, -1], climbs: false },
    Style { name: "chromatic", scale: &ALL, strides: &[1, 1, -1, 1], climbs: false },
    Style { name: "pairs", scale: &PAIR, strides: &[1, 1, 1, -2], climbs: false },
    Style { name: "climbs", scale: &MAJOR, strides: &[1, 1, 1, 1], climbs: true },
];
const MAJOR: [u8; 7] = [0, 2, 4, 5, 7, 9, 11];
const ALL: [u8; 12] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
/// The triads of the fourth and the fifth degree.
const PAIR: [u8; 6] = [5, 9, 0, 7, 11, 2];

/// Takes of each style, and phrases of each take.
const TAKES: usize = 12;
const PHRASES: usize = 10;
/// A phrase ends with a note as long as this.
const REST_S: f64 = 0.7;
/// From string 6 to string 1.
const OPEN: [u8; 6] = [40, 45, 50, 55, 59, 64];
/// The hand stands no higher, so that it stays where soloists are.
const HIGHEST_POSITION: u8 = 9;

struct Style {
    name: &'static str,
    /// Semitones above the key.
    scale: &'static [u8],
    /// How many notes of the scale it goes on, in turn; in a phrase that falls, the other way.
    strides: &'static [i32],
    climbs: bool,
}

/// A small generator, so that the same solos come in every run.
struct XorShift(u64);

impl XorShift {
    fn below(&mut self, count: u64) -> u8 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        u8::try_from(self.0 % count).unwrap()
    }
}

/// All of the player's solos.
pub(crate) fn solos() -> Solos {
    let mut random = XorShift(0x50105);
    let takes = STYLES.iter().flat_map(|style| (0..TAKES).map(move |_| style));
    Solos { takes: takes.map(|style| take(style, &mut random)).collect() }
}

fn take(style: &Style, random: &mut XorShift) -> Take {
    let key = random.below(12);
    let note_s = [0.125, 0.15, 0.2, 0.3][usize::from(random.below(4))];
    let (mut notes, mut position, mut onset_s) = (Vec::new(), 3 + random.below(4), 0.0);
    for _ in 0..PHRASES {
        position = (position + random.below(7)).saturating_sub(3).clamp(1, HIGHEST_POSITION);
        for (string, fret) in phrase(style, key, &mut position, random) {
            let midi = OPEN[usize::from(6 - string)] + fret;
            notes.push(Played { onset_s, duration_s: note_s, midi, string, fret });
            onset_s += note_s;
        }
        onset_s += REST_S;
    }
    Take { style: style.name.to_owned(), notes }
}

/// The strings and frets of a phrase, up or down, which turns at the edge of the hand or climbs on.
fn phrase(style: &Style, key: u8, position: &mut u8, random: &mut XorShift) -> Vec<(u8, u8)> {
    let mut way = if random.below(2) == 0 { 1 } else { -1 };
    let mut places = under_hand(style.scale, key, *position);
    let mut at = i32::from(random.below(places.len() as u64));
    let mut phrase = Vec::new();
    for step in 0..usize::from(6 + random.below(8)) {
        let last = i32::try_from(places.len()).unwrap() - 1;
        phrase.push(places[usize::try_from(at).unwrap()]);
        let next = at + way * style.strides[step % style.strides.len()];
        if (0..=last).contains(&next) {
            at = next;
        } else if style.climbs && next > last && *position + 3 <= HIGHEST_POSITION {
            // The first finger takes over where the next note of the string is.
            let top = places[usize::try_from(last).unwrap()];
            *position = top.1 + 1;
            places = under_hand(style.scale, key, *position);
            at =
                places.iter().position(|place| place.0 == 1).map_or(0, |at| at.try_into().unwrap());
        } else {
            way = -way;
            at = (at + way).clamp(0, last);
        }
    }
    phrase
}

/// Every note of the scale under a hand of four frets, going up.
fn under_hand(scale: &[u8], key: u8, position: u8) -> Vec<(u8, u8)> {
    let strings = (1..=6).rev();
    let places =
        strings.flat_map(|string| (position..position + 4).map(move |fret| (string, fret)));
    let belongs = |&(string, fret): &(u8, u8)| {
        let midi = OPEN[usize::from(6 - string)] + fret;
        scale.contains(&((midi + 12 - key) % 12))
    };
    places.filter(belongs).collect()
}
