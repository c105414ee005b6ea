//! Key signatures.

use std::collections::HashMap;

use crate::{Key, Letter, NamedPitch, NoteName, Pitch};

/// A key signature: so many sharps or flats, of a major or a minor key.
///
/// # Example
///
/// ```
/// use fretloom_theory::{KeySignature, Pitch};
/// let two_flats = KeySignature::major(-2).unwrap();
/// assert_eq!(two_flats.key().to_string(), "B♭");
/// assert_eq!(KeySignature::minor(-2).unwrap().key().to_string(), "G minor");
/// assert_eq!(two_flats.name(Pitch::from_midi(63).unwrap()).to_string(), "E♭4");
/// assert_eq!(KeySignature::major(8), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct KeySignature {
    /// −7 to 7; flats are negative.
    sharps: i8,
    mode: Mode,
}

#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Mode {
    Major,
    Minor,
}

impl KeySignature {
    /// No sharps and no flats, C major.
    pub const NONE: KeySignature = KeySignature { sharps: 0, mode: Mode::Major };

    /// The signature of a major key with so many sharps, or flats where negative; `None` beyond
    /// seven.
    #[must_use]
    pub const fn major(sharps: i8) -> Option<KeySignature> {
        KeySignature::of(sharps, Mode::Major)
    }

    /// The signature of a minor key with so many sharps, or flats where negative; `None` beyond
    /// seven.
    #[must_use]
    pub const fn minor(sharps: i8) -> Option<KeySignature> {
        KeySignature::of(sharps, Mode::Minor)
    }

    const fn of(sharps: i8, mode: Mode) -> Option<KeySignature> {
        if sharps < -7 || sharps > 7 { None } else { Some(KeySignature { sharps, mode }) }
    }

    /// The signature of a key; `None` for one with more than seven sharps or flats.
    ///
    /// ```
    /// use fretloom_theory::KeySignature;
    /// assert_eq!(KeySignature::of_key("D minor".parse().unwrap()), KeySignature::minor(-1));
    /// assert_eq!(KeySignature::of_key("G# major".parse().unwrap()), None);
    /// ```
    #[must_use]
    pub fn of_key(key: Key) -> Option<KeySignature> {
        let all =
            (-7..=7).flat_map(|sharps| [KeySignature::major(sharps), KeySignature::minor(sharps)]);
        all.flatten().find(|signature| signature.key() == key)
    }

    /// The signature under which these notes need the fewest accidentals; of several that do, the one
    /// with the fewest sharps or flats. It is that of a major key. For music whose key nobody says, so
    /// that it is easy to read; common practice, no source.
    ///
    /// ```
    /// use fretloom_theory::{KeySignature, NoteName};
    /// let notes = ["G", "B", "D", "A", "C#", "E"].map(|name| name.parse::<NoteName>().unwrap());
    /// assert_eq!(Some(KeySignature::fewest_accidentals(notes)), KeySignature::major(2));
    /// ```
    #[must_use]
    pub fn fewest_accidentals(notes: impl IntoIterator<Item = NoteName>) -> KeySignature {
        let mut counts: HashMap<NoteName, usize> = HashMap::new();
        notes.into_iter().for_each(|note| *counts.entry(note).or_default() += 1);
        let accidentals = |key: &KeySignature| {
            let foreign = counts.iter().filter(|(note, _)| !key.signs(**note));
            foreign.map(|(_, count)| count).sum::<usize>()
        };
        let majors = (-7..=7).filter_map(KeySignature::major);
        let best = majors.min_by_key(|key| (accidentals(key), key.sharps.abs(), key.sharps));
        best.unwrap_or(KeySignature::NONE)
    }

    /// Is it a note that needs no accidental under it?
    #[must_use]
    pub fn signs(self, note: NoteName) -> bool {
        (self.sharps - 1..=self.sharps + 5).map(by_fifths).any(|signed| signed == note)
    }

    /// How many sharps it has; flats are negative.
    #[must_use]
    pub const fn sharps(self) -> i8 {
        self.sharps
    }

    /// Its key.
    #[must_use]
    pub fn key(self) -> Key {
        let tonic = by_fifths(self.tonic());
        match self.mode {
            Mode::Major => Key::major(tonic),
            Mode::Minor => Key::minor(tonic),
        }
    }

    /// A pitch by the name that is usual in the key, for sources that have no names: its own notes
    /// by theirs, the leading tone of a minor key among them, and others by an everyday name from
    /// five fifths below the tonic to six above it. Common practice, no source.
    #[must_use]
    pub fn name(self, pitch: Pitch) -> NamedPitch {
        let own = self.own_fifths().map(by_fifths);
        let near = (self.tonic() - 5..=self.tonic() + 6).map(by_fifths);
        let names = own.chain(near.filter(|name| name.is_everyday()));
        let mut named = names.filter_map(|name| NamedPitch::called(name, pitch));
        named.next().unwrap_or_else(|| NamedPitch::everyday(pitch))
    }

    /// The notes of the key, in fifths above C.
    fn own_fifths(self) -> impl Iterator<Item = i8> {
        let leading_tone = self.tonic() + 5;
        (self.sharps - 1..=self.sharps + 5).chain([leading_tone])
    }

    /// How many fifths the tonic lies above C.
    const fn tonic(self) -> i8 {
        match self.mode {
            Mode::Major => self.sharps,
            Mode::Minor => self.sharps + 3,
        }
    }
}

/// The name that lies so many fifths above C.
fn by_fifths(fifths: i8) -> NoteName {
    const LETTERS: [Letter; 7] =
        [Letter::F, Letter::C, Letter::G, Letter::D, Letter::A, Letter::E, Letter::B];
    let from_f = fifths + 1;
    let letter = LETTERS[usize::from(from_f.rem_euclid(7).unsigned_abs())];
    // From 12 fifths below C to 16 above it two accidentals do.
    NoteName::new(letter, from_f.div_euclid(7)).unwrap_or(NoteName::natural(letter))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The circle of fifths of any textbook.
    #[test]
    fn signatures_name_their_keys() {
        for (sharps, major, minor) in [
            (-7, "Cb", "Ab"),
            (-3, "Eb", "C"),
            (-1, "F", "D"),
            (0, "C", "A"),
            (1, "G", "E"),
            (4, "E", "C#"),
            (7, "C#", "A#"),
        ] {
            let key = |signature: Option<KeySignature>| signature.unwrap().key();
            assert_eq!(key(KeySignature::major(sharps)), Key::major(major.parse().unwrap()));
            assert_eq!(key(KeySignature::minor(sharps)), Key::minor(minor.parse().unwrap()));
        }
        assert_eq!(KeySignature::minor(-8), None);
    }

    #[test]
    fn pitches_have_the_names_of_the_key() {
        let names = |signature: Option<KeySignature>| -> String {
            let pitches = (60..72).filter_map(Pitch::from_midi);
            let names = pitches.map(|pitch| format!("{:#}", signature.unwrap().name(pitch).name()));
            names.collect::<Vec<_>>().join(" ")
        };
        assert_eq!(names(KeySignature::major(0)), "C Db D Eb E F F# G Ab A Bb B");
        assert_eq!(names(KeySignature::minor(0)), "C C# D D# E F F# G G# A Bb B");
        assert_eq!(names(KeySignature::major(4)), "C C# D D# E F F# G G# A A# B");
        assert_eq!(names(KeySignature::major(-6)), "C Db D Eb E F Gb G Ab A Bb Cb");
        assert_eq!(names(KeySignature::minor(4)), "B# C# D D# E F F# G G# A A# B");
    }

    #[test]
    fn every_pitch_has_a_name_that_sounds_like_it() {
        for signature in (-7..=7).flat_map(|n| [KeySignature::major(n), KeySignature::minor(n)]) {
            for pitch in (0..=127).filter_map(Pitch::from_midi) {
                assert_eq!(signature.unwrap().name(pitch).pitch(), pitch);
            }
        }
    }
}
