//! Close, open and wide voicings.

use std::fmt;

use fretloom_theory::TriadQuality;

use fretloom_theory::Inversion;

/// How far the three notes lie apart.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Voicing {
    /// All within an octave.
    Close,
    /// Spread: the middle note of the close triad sounds an octave higher.
    Open,
    /// Any other: the upper two lie higher still, by one octave or more, in either order.
    Wide,
}

impl Voicing {
    /// The three, from the closest to the widest.
    pub const ALL: [Voicing; 3] = [Voicing::Close, Voicing::Open, Voicing::Wide];

    /// The word for it: `close`, `open`, `wide`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Voicing::Close => "close",
            Voicing::Open => "open",
            Voicing::Wide => "wide",
        }
    }

    /// Semitones of the three notes above the lowest, going up; the wide voicings are many.
    pub(crate) fn semitones(
        self,
        quality: TriadQuality,
        inversion: Inversion,
    ) -> impl Iterator<Item = [i32; 3]> {
        let [_, middle, top] = close(quality, inversion);
        let found: Vec<[i32; 3]> = match self {
            Voicing::Close => vec![[0, middle, top]],
            Voicing::Open => vec![[0, top, middle + 12]],
            Voicing::Wide => wide(middle, top),
        };
        found.into_iter()
    }
}

/// More octaves than lie between two strings that a hand reaches at once, on any instrument.
const OCTAVES: i32 = 5;

/// Both upper notes moved up by octaves, whichever comes out on top, but for close and open.
fn wide(middle: i32, top: i32) -> Vec<[i32; 3]> {
    let up = |note: i32| (0..=OCTAVES).map(move |octave| note + 12 * octave);
    let both = up(middle).flat_map(|middle| up(top).map(move |top| [middle, top]));
    let rising = both.map(|[one, other]| [0, one.min(other), one.max(other)]);
    let known = [[0, middle, top], [0, top, middle + 12]];
    let mut wide: Vec<[i32; 3]> = rising.filter(|notes| !known.contains(notes)).collect();
    wide.sort_unstable();
    wide
}

/// Semitones of the three notes within an octave above the lowest.
const fn close(quality: TriadQuality, inversion: Inversion) -> [i32; 3] {
    let [_, second, third] = quality.semitones();
    match inversion {
        Inversion::Root => [0, second, third],
        Inversion::First => [0, third - second, 12 - second],
        Inversion::Second => [0, 12 - third, 12 - third + second],
    }
}

impl fmt::Display for Voicing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_voicing_lifts_the_middle_note() {
        let all = |voicing: Voicing| {
            voicing.semitones(TriadQuality::Major, Inversion::First).collect::<Vec<_>>()
        };
        assert_eq!(all(Voicing::Close), [[0, 3, 8]]);
        assert_eq!(all(Voicing::Open), [[0, 8, 15]]);
        let wide = all(Voicing::Wide);
        assert_eq!(wide[..3], [[0, 3, 20], [0, 3, 32], [0, 3, 44]]);
        assert!(wide.contains(&[0, 15, 20]) && !wide.contains(&[0, 8, 15]));
    }
}
