//! A score moved higher or lower.

use fretloom_theory::{
    ChordSymbol, Interval, KeySignature, NamedPitch, Note, Part, Score, Timeline,
};

/// The score so many semitones higher, with its keys and chord symbols, in names as near to those
/// of the first key as can be; `None` where a note would sound lower or higher than MIDI counts.
/// Octaves change no name.
pub(super) fn moved(score: &Score, semitones: i32) -> Option<Score> {
    let first = score.keys.changes().first().map_or(0, |(_, key)| i32::from(key.sharps()));
    let fifths = fifths(first, semitones);
    let interval = interval(fifths, semitones);
    let parts = score.parts.iter().map(|part| part_moved(part, semitones, interval));
    let chords = score.chords.changes().iter();
    let keys = score.keys.changes().iter();
    Some(Score {
        parts: parts.collect::<Option<_>>()?,
        chords: Timeline::of(chords.map(|(at, symbol)| (*at, symbol_moved(symbol, interval)))),
        keys: Timeline::of(keys.filter_map(|(at, key)| Some((*at, key_moved(*key, fifths)?)))),
        ..score.clone()
    })
}

/// How many fifths the keys go up: so that the first has no more than six sharps or flats.
fn fifths(first: i32, semitones: i32) -> i32 {
    let up = (7 * semitones).rem_euclid(12);
    if up == 0 {
        return 0;
    }
    [up, up - 12].into_iter().min_by_key(|fifths| (first + fifths).abs()).unwrap_or(up)
}

/// The interval within an octave; a fifth is four letters.
fn interval(fifths: i32, semitones: i32) -> Interval {
    // Both remainders are below twelve.
    Interval::new((4 * fifths).rem_euclid(7) as u8, semitones.rem_euclid(12) as i8)
}

fn part_moved(part: &Part, semitones: i32, interval: Interval) -> Option<Part> {
    let notes = part.notes().iter().map(|note| note_moved(note, semitones, interval));
    let moved = Part::new(notes.collect::<Option<Vec<_>>>()?).lasting(part.end());
    Some(match part.name() {
        Some(name) => moved.named(name),
        None => moved,
    })
}

fn note_moved(note: &Note, semitones: i32, interval: Interval) -> Option<Note> {
    let pitch = note.pitch().pitch().up(semitones)?;
    let name = note.pitch().name().up(interval);
    let named = name.and_then(|name| NamedPitch::called(name, pitch));
    Some(note.clone().at_pitch(named.unwrap_or_else(|| NamedPitch::everyday(pitch))))
}

fn symbol_moved(symbol: &ChordSymbol, interval: Interval) -> ChordSymbol {
    match symbol {
        ChordSymbol::Chord(chord) => match chord.up(interval) {
            Some(moved) => ChordSymbol::Chord(moved),
            None => ChordSymbol::Unread(chord.to_string()),
        },
        ChordSymbol::NoChord => ChordSymbol::NoChord,
        ChordSymbol::Unread(text) => ChordSymbol::Unread(text.clone()),
    }
}

fn key_moved(key: KeySignature, fifths: i32) -> Option<KeySignature> {
    let sharps = i32::from(key.sharps()) + fifths;
    let near = [sharps, sharps - 12, sharps + 12].into_iter().min_by_key(|sharps| sharps.abs());
    let near = near.and_then(|sharps| i8::try_from(sharps).ok())?;
    let is_minor = KeySignature::minor(key.sharps()) == Some(key);
    if is_minor { KeySignature::minor(near) } else { KeySignature::major(near) }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Quarters;

    use super::*;

    fn score() -> Score {
        let note = |at, name: &str| {
            Note::new(Quarters::whole(at), Quarters::ONE, name.parse().unwrap()).unwrap()
        };
        Score {
            keys: Timeline::of([(Quarters::ZERO, KeySignature::minor(-3).unwrap())]),
            chords: Timeline::of([(Quarters::ZERO, ChordSymbol::read("Cm7/Bb"))]),
            parts: vec![Part::new([note(0, "Eb4"), note(1, "B3")]).named("Horn")],
            ..Score::default()
        }
    }

    fn told(score: &Score) -> String {
        let notes = score.parts[0].notes().iter().map(|note| format!("{:#}", note.pitch()));
        let notes: Vec<String> = notes.collect();
        let (_, chord) = &score.chords.changes()[0];
        let (_, key) = &score.keys.changes()[0];
        format!("{} | {chord:#} | {:#}", notes.join(" "), key.key())
    }

    /// By hand, from C minor.
    #[test]
    fn keys_chords_and_names_go_along() {
        for (semitones, expected) in [
            (0, "Eb4 B3 | Cm7/Bb | C minor"),
            (-12, "Eb3 B2 | Cm7/Bb | C minor"),
            (2, "F4 C#4 | Dm7/C | D minor"),
            (-3, "C4 G#3 | Am7/G | A minor"),
            (1, "E4 B#3 | C#m7/B | C# minor"),
            (14, "F5 C#5 | Dm7/C | D minor"),
        ] {
            assert_eq!(told(&moved(&score(), semitones).unwrap()), expected, "{semitones}");
        }
        assert_eq!(moved(&score(), 65), None);
        assert_eq!(moved(&score(), -60), None);
    }
}
