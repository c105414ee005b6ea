//! Chords: exactly the notes that a chord symbol names.
//!
//! A chord is read from a symbol (`read_chord.rs`) and prints in one house style
//! (`chord/print.rs`); reading the print gives the same chord. It holds no voicing and no scale.

mod print;
mod shell;

use crate::{Degree, Degrees, Interval, NoteName, PitchClass, PitchClassSet};

/// A root, the degrees that the symbol names over it, and a bass where a slash asks for one.
///
/// # Example
///
/// ```
/// use fretloom_theory::Chord;
/// let chord: Chord = "GΔ7(#11)".parse().unwrap();
/// assert_eq!(chord.to_string(), "Gmaj7♯11");
/// assert_eq!(format!("{chord:#}"), "Gmaj7#11");
/// let tones: Vec<String> = chord.tones().map(|note| note.to_string()).collect();
/// assert_eq!(tones.join(" "), "G B D F♯ C♯");
/// assert!("Gmaj7x".parse::<Chord>().is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chord {
    root: NoteName,
    bass: Option<NoteName>,
    degrees: Degrees,
    /// Was it written `alt`, which names a sound rather than each alteration?
    alt: bool,
}

impl Chord {
    /// The chord of these degrees, the root first; no bass, and not written `alt`.
    pub(crate) const fn new(root: NoteName, degrees: Degrees) -> Chord {
        Chord { root, bass: None, degrees, alt: false }
    }

    /// The same chord over a bass, where there is one.
    pub(crate) fn over(self, bass: Option<NoteName>) -> Chord {
        Chord { bass, ..self }
    }

    /// The chord that stands over `root` as this one, which has no bass, stands over its own.
    pub(crate) fn moved_to(&self, root: NoteName) -> Chord {
        Chord { root, bass: None, ..self.clone() }
    }

    /// The same chord an interval higher; `None` where a name would need three accidentals.
    ///
    /// ```
    /// use fretloom_theory::{Chord, Interval};
    /// let chord: Chord = "Dm7/C".parse()?;
    /// assert_eq!(chord.up(Interval::new(3, 5)).unwrap().to_string(), "Gm7/F");
    /// # Ok::<(), fretloom_theory::ReadError>(())
    /// ```
    #[must_use]
    pub fn up(&self, interval: Interval) -> Option<Chord> {
        let bass = match self.bass {
            Some(bass) => Some(bass.up(interval)?),
            None => None,
        };
        Some(Chord { root: self.root.up(interval)?, bass, ..self.clone() })
    }

    /// The same chord written `alt`.
    pub(crate) const fn written_alt(self) -> Chord {
        Chord { alt: true, ..self }
    }

    /// Its root.
    #[must_use]
    pub fn root(&self) -> NoteName {
        self.root
    }

    /// The note after the slash, where there is one.
    #[must_use]
    pub fn bass(&self) -> Option<NoteName> {
        self.bass
    }

    /// What the symbol names, the bass apart: root, third or suspension, fifth, sixth or seventh,
    /// then tensions.
    #[must_use]
    pub fn degrees(&self) -> &[Degree] {
        &self.degrees
    }

    /// Was it written `alt`?
    pub(crate) fn is_alt(&self) -> bool {
        self.alt
    }

    /// The names of the notes that the symbol names, as it names them, in the order of
    /// [`degrees`](Self::degrees).
    pub fn tones(&self) -> impl Iterator<Item = NoteName> {
        self.degrees.iter().map(|degree| self.tone(*degree))
    }

    /// Its notes as a set, the bass apart.
    #[must_use]
    pub const fn set(&self) -> PitchClassSet {
        self.degrees.set_over(self.root.pitch_class())
    }

    /// The degree that the symbol itself gives to a note; `None` where it does not name it.
    pub(crate) fn degree_of(&self, class: PitchClass) -> Option<Degree> {
        let semitones = self.root.pitch_class().semitones_up_to(class);
        self.degrees.iter().copied().find(|degree| degree.semitones() == semitones)
    }

    /// The name that the symbol itself gives to a note: as a chord tone, or as the bass.
    #[must_use]
    pub fn name_of(&self, class: PitchClass) -> Option<NoteName> {
        let tone = self.degree_of(class).map(|degree| self.tone(degree));
        tone.or_else(|| self.bass.filter(|bass| bass.pitch_class() == class))
    }

    /// Does the symbol name this degree, written like this?
    pub(crate) fn names(&self, degree: Degree) -> bool {
        self.degrees.contains(&degree)
    }

    /// Does it hold a major third and a minor seventh?
    pub(crate) fn is_dominant(&self) -> bool {
        self.names(Degree::MAJOR_THIRD) && self.names(Degree::MINOR_SEVENTH)
    }

    /// Is it minor: a minor third, and no flat fifth that would make it diminished?
    pub(crate) fn is_minor(&self) -> bool {
        self.names(Degree::MINOR_THIRD) && !self.names(Degree::FLAT_FIFTH)
    }

    /// Is it half-diminished: minor third, flat fifth and minor seventh?
    pub(crate) fn is_half_diminished(&self) -> bool {
        self.names(Degree::MINOR_THIRD)
            && self.names(Degree::FLAT_FIFTH)
            && self.names(Degree::MINOR_SEVENTH)
    }

    /// Is its third replaced by a fourth or a second?
    pub(crate) fn is_sus(&self) -> bool {
        self.names(Degree::FOURTH) || self.names(Degree::SECOND)
    }

    /// A chord tone's name: on its letter, or enharmonic where that would need three accidentals.
    /// The alterations of an `alt` chord are flats, as the altered scale writes them: C E G♭ A♭ B♭
    /// D♭ E♭.
    fn tone(&self, degree: Degree) -> NoteName {
        let written = match degree {
            Degree::SHARP_FIFTH if self.alt => Degree::FLAT_THIRTEENTH,
            Degree::SHARP_NINTH if self.alt => Degree::MINOR_THIRD,
            _ => degree,
        };
        let on_letter = self.root.up(written.interval());
        let plain = || NoteName::everyday(degree.over(self.root.pitch_class())).next();
        on_letter.or_else(plain).unwrap_or(self.root)
    }
}
