//! Triads: a root and a quality.
//!
//! A [`Triad`] is a matter of pitch classes; how it is written (A♭ C♭ E♭) is decided by a
//! [`Speller`](crate::Speller) or by whoever typed it, and kept in a [`SpelledTriad`].

use std::fmt;
use std::str::FromStr;

use crate::{Degree, Interval, NoteName, PitchClass, PitchClassSet, ReadError};

/// What kind of triad.
///
/// The first four are the tertian triads, stacked in thirds; the last two are three-note groups
/// that players also use in pairs, and are offered on request only.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum TriadQuality {
    /// Major third and perfect fifth.
    Major,
    /// Minor third and perfect fifth.
    Minor,
    /// Minor third and diminished fifth.
    Diminished,
    /// Major third and augmented fifth: three roots, one sound.
    Augmented,
    /// Perfect fourth and perfect fifth. A sus2 is the sus of the note a fifth higher.
    Sus,
    /// Major third and diminished fifth.
    FlatFive,
}

impl TriadQuality {
    /// Major, minor, diminished, augmented.
    pub const TERTIAN: &'static [TriadQuality] = &[
        TriadQuality::Major,
        TriadQuality::Minor,
        TriadQuality::Diminished,
        TriadQuality::Augmented,
    ];

    /// The tertian four, then sus and flat-five.
    pub const ALL: &'static [TriadQuality] = &[
        TriadQuality::Major,
        TriadQuality::Minor,
        TriadQuality::Diminished,
        TriadQuality::Augmented,
        TriadQuality::Sus,
        TriadQuality::FlatFive,
    ];

    /// From the root up to the second and to the third member.
    #[must_use]
    pub const fn intervals(self) -> [Interval; 2] {
        let [_, second, third] = self.degrees();
        [second.interval(), third.interval()]
    }

    /// Semitones of the three members above the root.
    #[must_use]
    pub const fn semitones(self) -> [i32; 3] {
        let [second, third] = self.intervals();
        [0, second.semitones() as i32, third.semitones() as i32]
    }

    const fn set_on_c(self) -> PitchClassSet {
        let [root, second, third] = self.semitones();
        PitchClassSet::from_bits(1 << root | 1 << second | 1 << third)
    }

    /// What the three members are over the triad's own root: 1 ♭3 5 for a minor triad.
    #[must_use]
    pub const fn degrees(self) -> [Degree; 3] {
        let [second, third] = match self {
            TriadQuality::Major => [Degree::MAJOR_THIRD, Degree::FIFTH],
            TriadQuality::Minor => [Degree::MINOR_THIRD, Degree::FIFTH],
            TriadQuality::Diminished => [Degree::MINOR_THIRD, Degree::FLAT_FIFTH],
            TriadQuality::Augmented => [Degree::MAJOR_THIRD, Degree::SHARP_FIFTH],
            TriadQuality::Sus => [Degree::FOURTH, Degree::FIFTH],
            TriadQuality::FlatFive => [Degree::MAJOR_THIRD, Degree::FLAT_FIFTH],
        };
        [Degree::ROOT, second, third]
    }

    /// The word for it: `major`, `minor`, `diminished`, `augmented`, `sus`, `flat-five`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            TriadQuality::Major => "major",
            TriadQuality::Minor => "minor",
            TriadQuality::Diminished => "diminished",
            TriadQuality::Augmented => "augmented",
            TriadQuality::Sus => "sus",
            TriadQuality::FlatFive => "flat-five",
        }
    }

    /// What follows the root in the triad's name; flats as `♭`.
    const fn suffix(self) -> &'static str {
        match self {
            TriadQuality::Major => "",
            TriadQuality::Minor => "m",
            TriadQuality::Diminished => "dim",
            TriadQuality::Augmented => "+",
            TriadQuality::Sus => "sus4",
            TriadQuality::FlatFive => "(♭5)",
        }
    }

    fn from_suffix(suffix: &str) -> Option<TriadQuality> {
        Some(match suffix {
            "" | "M" | "maj" | "ma" | "major" => TriadQuality::Major,
            "m" | "-" | "mi" | "min" | "minor" => TriadQuality::Minor,
            "dim" | "o" | "°" | "º" | "diminished" => TriadQuality::Diminished,
            "+" | "aug" | "augmented" => TriadQuality::Augmented,
            "sus" | "sus4" => TriadQuality::Sus,
            "(b5)" | "(♭5)" | "♭5" | "flat-five" => TriadQuality::FlatFive,
            _ => return None,
        })
    }
}

/// A triad by sound: root and quality.
///
/// Two augmented triads a major third apart are different values with one
/// [`set`](Triad::set): compare sets to ask whether two triads sound alike.
///
/// # Example
///
/// ```
/// use fretloom_theory::{PitchClass, Triad, TriadQuality};
/// let c_augmented = Triad::new(PitchClass::C, TriadQuality::Augmented);
/// let e_augmented = Triad::new(PitchClass::new(4), TriadQuality::Augmented);
/// assert_ne!(c_augmented, e_augmented);
/// assert_eq!(c_augmented.set(), e_augmented.set());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Triad {
    root: PitchClass,
    quality: TriadQuality,
}

impl Triad {
    /// The triad of `quality` on `root`.
    #[must_use]
    pub const fn new(root: PitchClass, quality: TriadQuality) -> Triad {
        Triad { root, quality }
    }

    /// Its root.
    #[must_use]
    pub const fn root(self) -> PitchClass {
        self.root
    }

    /// Its quality.
    #[must_use]
    pub const fn quality(self) -> TriadQuality {
        self.quality
    }

    /// Its three members, root first.
    #[must_use]
    pub fn members(self) -> [PitchClass; 3] {
        self.quality.semitones().map(|semitones| self.root.up(semitones))
    }

    /// Its three members as a set.
    #[must_use]
    pub const fn set(self) -> PitchClassSet {
        // Every search for pairs asks this first, so the six sets on C are worked out beforehand.
        const ON_C: [PitchClassSet; 6] = [
            TriadQuality::Major.set_on_c(),
            TriadQuality::Minor.set_on_c(),
            TriadQuality::Diminished.set_on_c(),
            TriadQuality::Augmented.set_on_c(),
            TriadQuality::Sus.set_on_c(),
            TriadQuality::FlatFive.set_on_c(),
        ];
        ON_C[self.quality as usize].transposed(self.root.number() as i32)
    }

    /// The same triad `semitones` higher.
    #[must_use]
    pub const fn up(self, semitones: i32) -> Triad {
        Triad { root: self.root.up(semitones), quality: self.quality }
    }

    /// Every triad of these qualities, each *sound* once: an augmented triad stands under the
    /// lowest of its three roots. Order: by quality as given, then going up from C.
    pub fn every(qualities: &[TriadQuality]) -> impl Iterator<Item = Triad> {
        qualities.iter().flat_map(|&quality| {
            let roots = if quality == TriadQuality::Augmented { 4 } else { 12 };
            (0..roots).map(move |root| Triad::new(PitchClass::new(root), quality))
        })
    }
}

/// A triad as it is written: its name and the names of its three members.
///
/// # Example
///
/// ```
/// use fretloom_theory::SpelledTriad;
/// let triad: SpelledTriad = "Abm".parse().unwrap();
/// assert_eq!(triad.to_string(), "A♭m");
/// assert_eq!(triad.notes().map(|note| note.to_string()), ["A♭", "C♭", "E♭"]);
/// assert!("Abq".parse::<SpelledTriad>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct SpelledTriad {
    quality: TriadQuality,
    notes: [NoteName; 3],
}

impl SpelledTriad {
    /// A triad with the names of its members, root first. The names must sound as the quality says;
    /// this is not checked.
    pub(crate) fn from_notes(quality: TriadQuality, notes: [NoteName; 3]) -> SpelledTriad {
        SpelledTriad { quality, notes }
    }

    /// The triad on `root` in stacked letters, as a triad is written: a member that would need a
    /// double accidental, and an augmented fifth that would be E♯ or B♯, takes its everyday name.
    #[must_use]
    pub fn stacked(root: NoteName, quality: TriadQuality) -> SpelledTriad {
        let [second, third] = quality.intervals();
        let member = |interval: Interval| {
            let class = root.pitch_class().up(i32::from(interval.semitones()));
            let unwelcome = |name: &NoteName| {
                name.accidental().abs() > 1
                    || (interval == Interval::AUGMENTED_FIFTH && !name.is_everyday())
            };
            root.up(interval)
                .filter(|name| !unwelcome(name))
                .or_else(|| NoteName::everyday(class).next())
                .unwrap_or(root)
        };
        SpelledTriad { quality, notes: [root, member(second), member(third)] }
    }

    /// The name of its root.
    #[must_use]
    pub const fn root(&self) -> NoteName {
        self.notes[0]
    }

    /// Its quality.
    #[must_use]
    pub const fn quality(&self) -> TriadQuality {
        self.quality
    }

    /// The names of its members, root first.
    #[must_use]
    pub const fn notes(&self) -> [NoteName; 3] {
        self.notes
    }

    /// What it sounds as.
    #[must_use]
    pub const fn triad(&self) -> Triad {
        Triad::new(self.notes[0].pitch_class(), self.quality)
    }

    /// Which member sounds as `class`, 0 for the root, and its name.
    #[must_use]
    pub fn member(&self, class: PitchClass) -> Option<(usize, NoteName)> {
        self.notes.into_iter().enumerate().find(|(_, name)| name.pitch_class() == class)
    }
}

impl fmt::Display for SpelledTriad {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.root().fmt(f)?;
        match (self.quality, f.alternate()) {
            (TriadQuality::FlatFive, true) => f.write_str("(b5)"),
            (quality, _) => f.write_str(quality.suffix()),
        }
    }
}

impl FromStr for SpelledTriad {
    type Err = ReadError;

    /// Reads `C`, `Abm`, `Bdim` and their like, in stacked letters.
    ///
    /// # Errors
    ///
    /// Where the text does not begin with a note, or goes on with anything else than the quality
    /// of a triad.
    fn from_str(text: &str) -> Result<SpelledTriad, ReadError> {
        let (root, suffix) =
            NoteName::read_prefix(text).map_err(|error| error.within("triad", text, 1))?;
        let quality = TriadQuality::from_suffix(suffix.trim()).ok_or_else(|| {
            let at = text.chars().count() - suffix.chars().count() + 1;
            let expected = "nothing (major), m, dim, +, sus4 or (b5)";
            ReadError::at_character("triad", text, at, expected)
        })?;
        Ok(SpelledTriad::stacked(root, quality))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spelled(text: &str) -> String {
        let notes = text.parse::<SpelledTriad>().unwrap().notes();
        notes.map(|note| note.to_string()).join(" ")
    }

    #[test]
    fn there_are_forty_tertian_triads_and_sixty_four_in_all_by_sound() {
        assert_eq!(Triad::every(TriadQuality::TERTIAN).count(), 40);
        let all: std::collections::HashSet<u16> =
            Triad::every(TriadQuality::ALL).map(|triad| triad.set().bits()).collect();
        assert_eq!(all.len(), 64);
    }

    #[test]
    fn a_triads_set_is_that_of_its_members() {
        for quality in TriadQuality::ALL {
            for root in PitchClass::all() {
                let triad = Triad::new(root, *quality);
                assert_eq!(triad.set(), triad.members().into_iter().collect(), "{triad:?}");
            }
        }
    }

    #[test]
    fn triads_are_written_in_stacked_letters() {
        for (name, notes) in [
            ("Abm", "A♭ C♭ E♭"),
            ("C#+", "C♯ E♯ A"),
            ("E+", "E G♯ C"),
            ("Dbm", "D♭ F♭ A♭"),
            ("Gbdim", "G♭ A C"),
            ("Gsus4", "G C D"),
            ("C(b5)", "C E G♭"),
        ] {
            assert_eq!(spelled(name), notes, "{name}");
        }
    }

    #[test]
    fn names_read_back_on_every_root() {
        for class in PitchClass::all() {
            for root in NoteName::everyday(class) {
                for &quality in TriadQuality::ALL {
                    let triad = SpelledTriad::stacked(root, quality);
                    assert_eq!(triad.to_string().parse(), Ok(triad));
                    assert_eq!(format!("{triad:#}").parse(), Ok(triad));
                    let sounding = triad.notes().map(NoteName::pitch_class);
                    assert_eq!(sounding, triad.triad().members());
                }
            }
        }
    }

    #[test]
    fn a_flat_directly_after_the_root_belongs_to_the_root() {
        assert_eq!("Cb5".parse::<SpelledTriad>().unwrap_err().at(), 3);
    }
}
