//! Pairs: two triads without a common note.
//!
//! Pairs are a matter of sound: “no common note” compares pitch classes, not letters, so C and D♭m
//! (which share E = F♭) are no pair.

use crate::{PitchClass, PitchClassSet, Triad, TriadQuality};

/// Two triads that share no note.
///
/// The type holds that promise: there is no way to make one of triads that meet. Which of the two
/// is called the first is decided by a reference root, usually the chord's: the triad whose root
/// comes first going up from it. A pair that a player names keeps the player's order.
///
/// # Example
///
/// ```
/// use fretloom_theory::{PitchClass, Triad, TriadPair, TriadQuality};
/// let major = |root| Triad::new(PitchClass::new(root), TriadQuality::Major);
/// let pair = TriadPair::new(major(9), major(7), PitchClass::new(7)).unwrap();
/// assert_eq!(pair.first(), major(7)); // G & A over G
/// assert!(TriadPair::new(major(0), major(3), PitchClass::C).is_none()); // C and E♭ share G
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct TriadPair {
    first: Triad,
    second: Triad,
}

impl TriadPair {
    /// The pair of two triads, in order going up from `reference`; `None` where they share a note.
    #[must_use]
    pub fn new(a: Triad, b: Triad, reference: PitchClass) -> Option<TriadPair> {
        // Few couples are a pair, so that is asked before the order.
        let pair = TriadPair::in_order(a, b)?;
        let height = |triad: Triad| reference.semitones_up_to(triad.root());
        Some(if height(a) <= height(b) { pair } else { TriadPair { first: b, second: a } })
    }

    /// The pair of two triads in the order in which they are named; `None` where they share a note.
    #[must_use]
    pub fn in_order(first: Triad, second: Triad) -> Option<TriadPair> {
        first.set().is_disjoint(second.set()).then_some(TriadPair { first, second })
    }

    /// The triad that is called the first.
    #[must_use]
    pub const fn first(self) -> Triad {
        self.first
    }

    /// The other.
    #[must_use]
    pub const fn second(self) -> Triad {
        self.second
    }

    /// Both, the first one first.
    #[must_use]
    pub const fn triads(self) -> [Triad; 2] {
        [self.first, self.second]
    }

    /// Are these the same two triads by sound, in either order?
    #[must_use]
    pub fn is_same_couple(self, other: TriadPair) -> bool {
        self.couple() == other.couple()
    }

    /// The notes of its triads, in the same order whichever comes first: alike for the same couple.
    pub(crate) fn couple(self) -> [PitchClassSet; 2] {
        let mut couple = self.triads().map(Triad::set);
        couple.sort_unstable_by_key(|notes| notes.bits());
        couple
    }

    /// The same pair so many semitones higher.
    #[must_use]
    pub const fn up(self, semitones: i32) -> TriadPair {
        TriadPair { first: self.first.up(semitones), second: self.second.up(semitones) }
    }

    /// The six notes.
    #[must_use]
    pub fn set(self) -> PitchClassSet {
        self.first.set().union(self.second.set())
    }

    /// Do the two alternate going up through the six notes: A B A B A B? Then the same inversion
    /// of the other triad is, voice by voice, the next of the six notes.
    #[must_use]
    pub fn interleaves(self) -> bool {
        let belongs_to_first: Vec<bool> =
            self.set().iter().map(|class| self.first.set().contains(class)).collect();
        belongs_to_first.windows(2).all(|neighbours| neighbours[0] != neighbours[1])
    }

    /// Its kind: two pairs are of one kind where one is a transposition of the other.
    #[must_use]
    pub fn kind(self) -> PairKind {
        let halves = |by: i32| {
            let (a, b) = (self.first.set().transposed(by), self.second.set().transposed(by));
            (a.bits().min(b.bits()), a.bits().max(b.bits()))
        };
        let (lower, higher) = (0..12).map(halves).min().unwrap_or_default();
        PairKind { halves: [lower, higher] }
    }

    /// Every pair of triads of these qualities whose notes all lie in `scale`: complete by sound,
    /// each couple once. An augmented triad counts once, under its lowest root; a scale that
    /// spells it otherwise is asked with [`Scale::triads`](crate::Scale::triads).
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{PitchClass, PitchClassSet, TriadPair, TriadQuality};
    /// let all = TriadPair::within(PitchClassSet::CHROMATIC, TriadQuality::TERTIAN, PitchClass::C);
    /// assert_eq!(all.count(), 366);
    /// ```
    pub fn within(
        scale: PitchClassSet,
        qualities: &[TriadQuality],
        reference: PitchClass,
    ) -> impl Iterator<Item = TriadPair> {
        let inside = Triad::every(qualities).filter(|triad| triad.set().is_subset(scale)).collect();
        TriadPair::of_triads(inside, reference)
    }

    /// Every pair among `triads`.
    pub(crate) fn of_triads(
        triads: Vec<Triad>,
        reference: PitchClass,
    ) -> impl Iterator<Item = TriadPair> {
        let count = triads.len();
        let couples = (0..count).flat_map(move |a| (a + 1..count).map(move |b| (a, b)));
        couples.filter_map(move |(a, b)| TriadPair::new(triads[a], triads[b], reference))
    }
}

/// What all transpositions of a pair have in common: 33 kinds of tertian pairs exist.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct PairKind {
    halves: [u16; 2],
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    fn tertian() -> Vec<TriadPair> {
        let all = PitchClassSet::CHROMATIC;
        TriadPair::within(all, TriadQuality::TERTIAN, PitchClass::C).collect()
    }

    /// Counts computed from first principles in two independent ways outside the project.
    #[test]
    fn there_are_366_pairs_of_33_kinds_26_of_which_interleave() {
        let pairs = tertian();
        assert_eq!(pairs.len(), 366);
        let kinds: HashSet<PairKind> = pairs.iter().map(|pair| pair.kind()).collect();
        assert_eq!(kinds.len(), 33);
        let interleaving: HashSet<PairKind> =
            pairs.iter().filter(|pair| pair.interleaves()).map(|pair| pair.kind()).collect();
        assert_eq!(interleaving.len(), 26);
        let sets: HashSet<u16> = pairs.iter().map(|pair| pair.set().bits()).collect();
        assert_eq!(sets.len(), 282);
    }

    /// common practice, no source: the root distances that leave no common note.
    #[test]
    fn two_major_triads_are_a_pair_a_half_step_a_whole_step_or_a_tritone_apart() {
        let major = |root| Triad::new(PitchClass::new(root), TriadQuality::Major);
        let apart: Vec<i32> = (0..12)
            .filter(|&n| TriadPair::new(major(0), major(n), PitchClass::C).is_some())
            .collect();
        assert_eq!(apart, [1, 2, 6, 10, 11]);
    }

    #[test]
    fn moving_a_pair_keeps_its_kind_and_whether_it_interleaves() {
        for pair in tertian() {
            for by in 1..12 {
                let [a, b] = pair.triads().map(|triad| triad.up(by));
                let moved = TriadPair::new(a, b, PitchClass::C).unwrap();
                assert_eq!(moved.kind(), pair.kind());
                assert_eq!(moved.interleaves(), pair.interleaves());
            }
        }
    }

    #[test]
    fn triads_that_share_a_note_under_another_letter_are_no_pair() {
        let c = Triad::new(PitchClass::C, TriadQuality::Major);
        let d_flat_minor = Triad::new(PitchClass::new(1), TriadQuality::Minor);
        assert_eq!(TriadPair::new(c, d_flat_minor, PitchClass::C), None);
        assert_eq!(TriadPair::in_order(c, d_flat_minor), None);
    }

    #[test]
    fn a_pair_keeps_the_order_in_which_it_is_named() {
        let [c, d] = [0, 2].map(|root| Triad::new(PitchClass::new(root), TriadQuality::Major));
        let order = |pair: Option<TriadPair>| pair.unwrap().triads();
        assert_eq!(order(TriadPair::in_order(d, c)), [d, c]);
        assert_eq!(order(TriadPair::new(d, c, PitchClass::C)), [c, d]);
        assert_eq!(order(TriadPair::new(d, c, d.root())), [d, c]);
    }
}
