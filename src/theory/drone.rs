//! Drones: the chords that are held under a line.

use crate::time::Quarters;
use crate::{Chord, Pitch, PitchClass, Score};

/// On which side of a line its drone lies.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum DroneSide {
    /// Below it, as under a guitar.
    Below,
    /// Above it, over a bass.
    Above,
}

/// A chord that is held: its bass and its [shell](Chord::shell).
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordSymbol, DroneChord, DroneSide, Note, Part, Quarters, Score, Timeline};
/// let note = Note::new(Quarters::ZERO, Quarters::whole(4), "A4".parse().unwrap()).unwrap();
/// let score = Score {
///     chords: Timeline::of([(Quarters::ZERO, ChordSymbol::read("Dm7"))]),
///     parts: vec![Part::new([note])],
///     ..Score::default()
/// };
/// let [held] = &DroneChord::all(&score, DroneSide::Below)[..] else { panic!() };
/// assert_eq!(held.pitches.iter().map(|pitch| pitch.midi()).collect::<Vec<_>>(), [38, 48, 53]);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct DroneChord {
    /// When it begins.
    pub from: Quarters,
    /// When it ends, which is later.
    pub to: Quarters,
    /// What sounds: the chord's bass, then the others from the lowest up.
    pub pitches: Vec<Pitch>,
}

/// Where the notes above the bass begin: the octave up from here.
#[derive(Clone, Copy)]
struct Inner {
    lowest: u8,
    side: DroneSide,
}

impl DroneChord {
    /// What is held from change to change of a score, until its end. It is silent where there is no
    /// chord and where a symbol cannot be read; a chord that comes again goes on.
    ///
    /// Below a line the inner notes lie an octave under its lowest note, yet not so low that
    /// thirds turn to mud, and the bass under them. Above a line all of it lies over the highest note.
    #[must_use]
    pub fn all(score: &Score, side: DroneSide) -> Vec<DroneChord> {
        let inner = Inner::beside(score, side);
        let changes = score.chords.changes();
        let ends = changes.iter().skip(1).map(|(from, _)| *from).chain([score.end()]);
        let mut all: Vec<DroneChord> = Vec::new();
        for ((from, symbol), to) in changes.iter().zip(ends) {
            let Some(chord) = symbol.chord().filter(|_| *from < to) else { continue };
            let to = to.min(score.end());
            let pitches = inner.pitches(chord);
            match all.last_mut() {
                Some(last) if last.to == *from && last.pitches == pitches => last.to = to,
                _ => all.push(DroneChord { from: *from, to, pitches }),
            }
        }
        all.retain(|held| held.from < held.to);
        all
    }
}

impl Inner {
    /// The lowest that inner notes may begin: G2. Thirds below about C3 are mud, as arrangers
    /// teach; a line that goes down there leaves no other place. Common practice, no source.
    const LOW: u8 = 43;
    /// The highest that they begin below a line: C3, so that they stay near their bass.
    const HIGH: u8 = 48;
    /// The highest that a drone begins above a line: C4.
    const ABOVE: u8 = 60;

    fn beside(score: &Score, side: DroneSide) -> Inner {
        let notes = || score.parts.iter().flat_map(|part| part.notes());
        let pitches = || notes().map(|note| note.pitch().pitch().midi());
        let lowest = match side {
            DroneSide::Below => {
                let under = pitches().min().map_or(Inner::HIGH, |low| low.saturating_sub(12));
                under.clamp(Inner::LOW, Inner::HIGH)
            }
            DroneSide::Above => {
                let over = pitches().max().map_or(Inner::HIGH, |high| high.saturating_add(1));
                over.clamp(Inner::HIGH, Inner::ABOVE)
            }
        };
        Inner { lowest, side }
    }

    fn pitches(self, chord: &Chord) -> Vec<Pitch> {
        let root = chord.root().pitch_class();
        let bass_class = chord.bass().map_or(root, |bass| bass.pitch_class());
        let bass = match self.side {
            DroneSide::Below => lowest_from(self.lowest - 12, bass_class),
            DroneSide::Above => lowest_from(self.lowest, bass_class),
        };
        let inner_from = bass.saturating_add(1).max(self.lowest);
        let classes = chord.shell().into_iter().map(|degree| degree.over(root));
        let others = classes.filter(|class| *class != bass_class);
        let mut inner: Vec<u8> = others.map(|class| lowest_from(inner_from, class)).collect();
        inner.sort_unstable();
        let all = [bass].into_iter().chain(inner);
        all.filter_map(Pitch::from_midi).collect()
    }
}

/// The number of the lowest pitch of a class from this one up.
fn lowest_from(from: u8, class: PitchClass) -> u8 {
    let class_of_from = PitchClass::new(i32::from(from));
    from.saturating_add(class_of_from.semitones_up_to(class))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ChordSymbol, NamedPitch, Note, Part, Timeline};

    fn score(range: [&str; 2], symbols: &[(u32, &str)]) -> Score {
        let note = |name: &str| {
            Note::new(Quarters::ZERO, Quarters::whole(16), name.parse().unwrap()).unwrap()
        };
        let at = |(from, text): &(u32, &str)| (Quarters::whole(*from), ChordSymbol::read(text));
        Score {
            chords: Timeline::of(symbols.iter().map(at)),
            parts: vec![Part::new(range.map(note))],
            ..Score::default()
        }
    }

    /// The names of what is held, and from when to when.
    fn held(score: &Score, side: DroneSide) -> Vec<(u32, u32, String)> {
        let told = |held: DroneChord| {
            let name = |pitch: &Pitch| format!("{:#}", NamedPitch::everyday(*pitch));
            let names: Vec<String> = held.pitches.iter().map(name).collect();
            let [from, to] = [held.from, held.to].map(|moment| moment.to_f64() as u32);
            (from, to, names.join(" "))
        };
        DroneChord::all(score, side).into_iter().map(told).collect()
    }

    /// By hand. The guitar's line begins at A3, so the inner notes lie from A2 up; the bass guitar's
    /// ends at B3, so all lies from C4 up.
    #[test]
    fn the_drone_lies_beside_the_line() {
        let changes = [(0, "Dm7"), (4, "G7alt"), (8, "Cmaj7/E"), (12, "F6")];
        let below = [
            (0, 4, "D2 C3 F3".to_owned()),
            (4, 8, "G2 B2 F3".to_owned()),
            (8, 12, "E2 B2 C3".to_owned()),
            (12, 16, "F2 A2 D3".to_owned()),
        ];
        assert_eq!(held(&score(["A3", "E5"], &changes), DroneSide::Below), below);
        let above = [
            (0, 4, "D4 F4 C5".to_owned()),
            (4, 8, "G4 B4 F5".to_owned()),
            (8, 12, "E4 B4 C5".to_owned()),
            (12, 16, "F4 A4 D5".to_owned()),
        ];
        assert_eq!(held(&score(["E1", "B3"], &changes), DroneSide::Above), above);
    }

    #[test]
    fn no_chord_is_silent_and_a_chord_that_comes_again_goes_on() {
        let changes = [(2, "C6"), (4, "C6"), (8, "N.C."), (10, "Hx"), (12, "C6"), (20, "G7")];
        let c6 = "C2 E3 A3".to_owned();
        let expected = [(2, 8, c6.clone()), (12, 16, c6)];
        assert_eq!(held(&score(["C5", "C6"], &changes), DroneSide::Below), expected);
    }

    /// Every chord, beside every line that an instrument has.
    #[test]
    fn a_drone_never_crosses_a_line_that_leaves_room() {
        for root in ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"] {
            for kind in ["maj7", "7", "m7b5", "dim7", "6", "7sus4", "/E", "m7/Eb"] {
                let symbol = format!("{root}{kind}");
                for midi in 24..=96 {
                    let name = NamedPitch::everyday(Pitch::from_midi(midi).unwrap()).to_string();
                    let score = score([&name, &name], &[(0, &symbol)]);
                    let below = &DroneChord::all(&score, DroneSide::Below)[0].pitches;
                    assert!((31..=47).contains(&below[0].midi()), "{symbol} {name}");
                    assert!(midi < 55 || below.iter().all(|pitch| pitch.midi() < midi));
                    let above = &DroneChord::all(&score, DroneSide::Above)[0].pitches;
                    assert!(midi > 59 || above.iter().all(|pitch| pitch.midi() > midi));
                    for pitches in [below, above] {
                        assert!(pitches.windows(2).all(|two| two[0] < two[1]), "{symbol} {name}");
                    }
                }
            }
        }
    }
}
