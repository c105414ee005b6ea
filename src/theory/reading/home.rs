//! Keys, and which one a chord is at home in.

use std::fmt;
use std::str::FromStr;

use crate::{Chord, Interval, NoteName, PitchClass, ReadError};

/// A key: a tonic, major or minor.
///
/// ```
/// use fretloom_theory::Key;
/// assert_eq!(Key::minor("D".parse().unwrap()).to_string(), "D minor");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Key {
    tonic: NoteName,
    minor: bool,
}

impl Key {
    /// The major key of `tonic`.
    #[must_use]
    pub const fn major(tonic: NoteName) -> Key {
        Key { tonic, minor: false }
    }

    /// The minor key of `tonic`.
    #[must_use]
    pub const fn minor(tonic: NoteName) -> Key {
        Key { tonic, minor: true }
    }

    /// The key whose tonic the chord would be: minor for a minor or half-diminished one.
    pub(super) fn like(chord: &Chord) -> Key {
        Key { tonic: chord.root(), minor: chord.is_minor() || chord.is_half_diminished() }
    }

    /// Its tonic.
    #[must_use]
    pub const fn tonic(self) -> NoteName {
        self.tonic
    }

    /// Is it minor?
    #[must_use]
    pub const fn is_minor(self) -> bool {
        self.minor
    }

    /// The tonic whose V stands on `dominant`.
    pub(super) fn fifth_below(dominant: NoteName) -> NoteName {
        moved(dominant, Interval::PERFECT_FOURTH)
    }

    /// The root of the V of `tonic`.
    pub(super) fn fifth_above(tonic: NoteName) -> NoteName {
        moved(tonic, Interval::PERFECT_FIFTH)
    }
}

/// The note an interval above, by its everyday name where the letter would not do.
fn moved(from: NoteName, interval: Interval) -> NoteName {
    let class = from.pitch_class().up(i32::from(interval.semitones()));
    from.up(interval)
        .filter(|name| name.is_everyday())
        .or_else(|| NoteName::everyday(class).next())
        .unwrap_or(from)
}

impl fmt::Display for Key {
    /// `C` for a major key, `C minor` for a minor one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.tonic.fmt(f)?;
        if self.minor { f.write_str(" minor") } else { Ok(()) }
    }
}

impl FromStr for Key {
    type Err = ReadError;

    /// Reads `Bb`, `Bb major`, `D minor` or `Dm`.
    ///
    /// # Errors
    ///
    /// Where the text does not begin with a note, or goes on with anything else than a mode.
    fn from_str(text: &str) -> Result<Key, ReadError> {
        let error = || ReadError::whole("key", text, "a tonic, as in Bb or D minor");
        let (tonic, mode) = NoteName::read_prefix(text.trim()).map_err(|_| error())?;
        match mode.trim() {
            "" | "major" | "maj" => Ok(Key::major(tonic)),
            "m" | "minor" | "min" => Ok(Key::minor(tonic)),
            _ => Err(error()),
        }
    }
}

/// Does the root fall a fifth to the next chord?
pub(super) fn resolves_to(chord: &Chord, next: &Chord) -> bool {
    chord.root().pitch_class().semitones_up_to(next.root().pitch_class()) == 5
}

/// Is the next chord a dominant too, a fifth below?
pub(super) fn is_chain(chord: &Chord, next: &Chord) -> bool {
    resolves_to(chord, next) && next.is_dominant()
}

/// How many chords on each side are asked about a key.
const HORIZON: usize = 4;

/// The major key that the chords around `index` speak for; `None` where none does. A chord speaks
/// for every key that holds it on a usual degree, the louder the nearer it stands; a dominant that
/// falls to its tonic speaks loudest.
pub(super) fn home_of(chords: &[Chord], index: usize) -> Option<Key> {
    let voice = |tonic: PitchClass| -> usize {
        let heard = chords.iter().enumerate().map(|(at, chord)| {
            let nearness = (HORIZON + 1).saturating_sub(at.abs_diff(index));
            let falls_home = chords
                .get(at + 1)
                .is_some_and(|next| next.root().pitch_class() == tonic && chord.is_dominant());
            nearness * weight(chord, tonic) * if falls_home { 2 } else { 1 }
        });
        heard.sum()
    };
    let loudest = PitchClass::all().max_by_key(|tonic| (voice(*tonic), 12 - tonic.number()))?;
    // One chord alone speaks for several keys alike: that says nothing.
    let rivals = PitchClass::all().filter(|tonic| voice(*tonic) == voice(loudest)).count();
    let own = chords.get(index).map(|chord| chord.root())?;
    (voice(loudest) > 0 && rivals == 1 && chords.len() > 1).then(|| Key::major(name(loudest, own)))
}

/// How strongly a chord belongs to a major key.
fn weight(chord: &Chord, tonic: PitchClass) -> usize {
    let degree = tonic.semitones_up_to(chord.root().pitch_class());
    let major = chord.names("3") && !chord.names("b7");
    match degree {
        0 if major => 3,
        7 if chord.is_dominant() => 3,
        2 if chord.is_minor() => 2,
        5 if major => 1,
        4 | 9 if chord.is_minor() => 1,
        11 if chord.is_half_diminished() => 1,
        _ => 0,
    }
}

/// A tonic's name: on the flat or sharp side on which the chord stands.
fn name(tonic: PitchClass, near: NoteName) -> NoteName {
    let mut names: Vec<NoteName> = NoteName::everyday(tonic).collect();
    if near.accidental() > 0 {
        names.reverse();
    }
    names.first().copied().unwrap_or(near)
}
