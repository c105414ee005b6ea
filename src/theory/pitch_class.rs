//! The twelve pitch classes and sets of them.
//!
//! A pitch class forgets octave and spelling: C♯ and D♭ in any register are one class. Everything
//! that asks “do these share a note?” is answered here, on twelve bits. What a note is *called* is
//! the business of [`NoteName`](crate::NoteName); where it sounds, of [`Pitch`](crate::Pitch).

use std::fmt;

/// One of the twelve pitch classes, counted in semitones above C.
///
/// Pitch classes lie on a circle, so there is `Eq` but no `Ord`: neither of C and B is the lower.
/// A class can be moved ([`up`](Self::up)) and the way from one to another measured
/// ([`semitones_up_to`](Self::semitones_up_to)); adding two of them has no meaning and does not
/// exist.
///
/// # Example
///
/// ```
/// use fretloom_theory::PitchClass;
/// let b = PitchClass::new(11);
/// assert_eq!(b.up(1), PitchClass::C);
/// assert_eq!(b.semitones_up_to(PitchClass::C), 1);
/// assert_eq!(PitchClass::C.semitones_up_to(b), 11);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct PitchClass(u8);

impl PitchClass {
    /// The class of every C, B♯ and D♭♭.
    pub const C: PitchClass = PitchClass(0);

    /// The class that lies `semitones_above_c` above C; any number, folded into one octave.
    #[must_use]
    pub const fn new(semitones_above_c: i32) -> Self {
        PitchClass(semitones_above_c.rem_euclid(12) as u8)
    }

    /// Semitones above C, 0 to 11.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// The class `semitones` higher (lower where negative).
    #[must_use]
    pub const fn up(self, semitones: i32) -> Self {
        PitchClass::new(self.0 as i32 + semitones)
    }

    /// How many semitones to go up, 0 to 11, to meet `other`.
    #[must_use]
    pub const fn semitones_up_to(self, other: PitchClass) -> u8 {
        (other.0 + 12 - self.0) % 12
    }

    /// All twelve, going up from C.
    pub fn all() -> impl Iterator<Item = PitchClass> {
        (0..12).map(PitchClass)
    }
}

impl fmt::Debug for PitchClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "pc{}", self.0)
    }
}

/// A set of pitch classes: twelve bits, bit 0 = C.
///
/// # Example
///
/// ```
/// use fretloom_theory::{PitchClass, PitchClassSet};
/// let c_major: PitchClassSet = [0, 4, 7].into_iter().map(PitchClass::new).collect();
/// let d_major = c_major.transposed(2);
/// assert!(c_major.is_disjoint(d_major));
/// assert_eq!(c_major.union(d_major).len(), 6);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct PitchClassSet(u16);

impl PitchClassSet {
    /// No note at all.
    pub const EMPTY: PitchClassSet = PitchClassSet(0);
    /// All twelve.
    pub const CHROMATIC: PitchClassSet = PitchClassSet(0xFFF);

    /// The set whose bit *n* says whether the class *n* semitones above C is in it; bits above the
    /// twelfth are ignored.
    #[must_use]
    pub const fn from_bits(bits: u16) -> Self {
        PitchClassSet(bits & 0xFFF)
    }

    /// The twelve bits.
    #[must_use]
    pub const fn bits(self) -> u16 {
        self.0
    }

    /// This set and `class`.
    #[must_use]
    pub const fn with(self, class: PitchClass) -> Self {
        PitchClassSet(self.0 | 1 << class.0)
    }

    /// Is `class` in the set?
    #[must_use]
    pub const fn contains(self, class: PitchClass) -> bool {
        self.0 >> class.0 & 1 == 1
    }

    /// How many classes it holds.
    #[must_use]
    pub const fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// Is it [`EMPTY`](Self::EMPTY)?
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Is every class of this set also in `other`?
    #[must_use]
    pub const fn is_subset(self, other: PitchClassSet) -> bool {
        self.0 & !other.0 == 0
    }

    /// Do the two have no class in common?
    #[must_use]
    pub const fn is_disjoint(self, other: PitchClassSet) -> bool {
        self.0 & other.0 == 0
    }

    /// What is in either.
    #[must_use]
    pub const fn union(self, other: PitchClassSet) -> Self {
        PitchClassSet(self.0 | other.0)
    }

    /// What is in both.
    #[must_use]
    pub const fn intersection(self, other: PitchClassSet) -> Self {
        PitchClassSet(self.0 & other.0)
    }

    /// What is in this set and not in `other`.
    #[must_use]
    pub const fn difference(self, other: PitchClassSet) -> Self {
        PitchClassSet(self.0 & !other.0)
    }

    /// The classes that are not in it.
    #[must_use]
    pub const fn complement(self) -> Self {
        PitchClassSet(!self.0 & 0xFFF)
    }

    /// Every class moved up by `semitones` (down where negative).
    #[must_use]
    pub const fn transposed(self, semitones: i32) -> Self {
        let by = semitones.rem_euclid(12) as u16;
        PitchClassSet((self.0 << by | self.0 >> (12 - by)) & 0xFFF)
    }

    /// Every class mirrored around C: what lay *n* above lies *n* below.
    #[must_use]
    pub const fn inverted(self) -> Self {
        let mut mirrored = 0;
        let mut class = 0;
        while class < 12 {
            if self.0 >> class & 1 == 1 {
                mirrored |= 1 << ((12 - class) % 12);
            }
            class += 1;
        }
        PitchClassSet(mirrored)
    }

    /// Its classes, going up from `start` (itself first, if it is in the set).
    pub fn going_up_from(self, start: PitchClass) -> impl Iterator<Item = PitchClass> {
        (0..12).map(move |n| start.up(n)).filter(move |class| self.contains(*class))
    }

    /// Its classes, going up from C.
    pub fn iter(self) -> impl Iterator<Item = PitchClass> {
        self.going_up_from(PitchClass::C)
    }
}

impl FromIterator<PitchClass> for PitchClassSet {
    fn from_iter<I: IntoIterator<Item = PitchClass>>(classes: I) -> Self {
        classes.into_iter().fold(PitchClassSet::EMPTY, PitchClassSet::with)
    }
}

impl fmt::Debug for PitchClassSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter().map(PitchClass::number)).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn transposing_by_an_octave_changes_nothing_and_inverting_twice_neither() {
        for bits in 0..=0xFFF {
            let set = PitchClassSet::from_bits(bits);
            assert_eq!(set.transposed(12), set);
            assert_eq!(set.transposed(5).transposed(-5), set);
            assert_eq!(set.inverted().inverted(), set);
            assert_eq!(set.complement().len(), 12 - set.len());
        }
    }

    #[test]
    fn going_up_starts_where_it_is_told_and_visits_each_once() {
        let set = PitchClassSet::from_bits(0b1000_1001_0001);
        let from_four: Vec<u8> =
            set.going_up_from(PitchClass::new(4)).map(PitchClass::number).collect();
        assert_eq!(from_four, [4, 7, 11, 0]);
    }
}
