//! The names of a pair: one spelling for both triads.
//!
//! Two triads whose roots are a half or a whole step apart stand on neighbouring letters, since
//! “majors a step apart” that look like a diminished third are read wrongly. Of the names that do,
//! the pair takes those that cost a reader least.

use super::{Speller, Spelling, has_single_accidental};
use crate::{Interval, Letter, NoteName, SpelledTriad, Triad, TriadPair};

/// A pair under two names, and how hard they are to read.
struct Candidate {
    names: [SpelledTriad; 2],
    cost: u32,
    /// How many notes are white keys in disguise, then how many roots have an accidental: settles
    /// what costs the same.
    signs: (usize, usize),
}

impl Speller {
    /// The triads of a pair with the names of their members, the first one first.
    ///
    /// Neighbours stand on neighbouring letters. Where one of them is the chord's own triad and the
    /// other would then need a double accidental, both keep their everyday names: A♭ & A over A♭7♭9.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{
    ///     ChordScale, PitchClass, Speller, Spelling, Triad, TriadPair, TriadQuality,
    /// };
    /// let over = ChordScale::over("F7alt".parse().unwrap(), "F altered".parse().unwrap());
    /// let major = |class| Triad::new(PitchClass::new(class), TriadQuality::Major);
    /// let pair = TriadPair::new(major(11), major(1), PitchClass::new(5)).unwrap();
    /// let names = Speller::new(over, Spelling::Plain).pair(pair).map(|triad| triad.to_string());
    /// assert_eq!(names, ["C♭", "D♭"]);
    /// ```
    #[must_use]
    pub fn pair(&self, pair: TriadPair) -> [SpelledTriad; 2] {
        let alone = pair.triads().map(|triad| self.triad(triad));
        if self.policy == Spelling::Strict || !is_a_step(pair) || self.keeps_own_name(pair) {
            return alone;
        }
        let [first, second] = pair.triads().map(|triad| self.candidates(triad));
        let couples = first.iter().flat_map(|one| second.iter().map(move |other| [*one, *other]));
        couples
            .filter(|names| are_neighbours(*names))
            .map(|names| self.weigh(names))
            .min_by_key(|candidate| (candidate.cost, candidate.signs))
            .map_or(alone, |candidate| candidate.names)
    }

    /// The triad on every name of its root that leaves its third on its letter.
    fn candidates(&self, triad: Triad) -> Vec<SpelledTriad> {
        let [second, third] = triad.quality().intervals();
        let fits = |root: &NoteName| {
            has_single_accidental(*root, second)
                && (third != Interval::PERFECT_FIFTH || has_single_accidental(*root, third))
        };
        let roots = NoteName::with_single_accidental(triad.root());
        roots.filter(fits).map(|root| self.stacked(root, triad.quality())).collect()
    }

    /// Is one of the two the chord's own triad, which the neighbouring letter would have the other
    /// leave for a double accidental?
    fn keeps_own_name(&self, pair: TriadPair) -> bool {
        let [first, second] = pair.triads();
        [(first, second), (second, first)].into_iter().any(|(own, other)| {
            let Some(root) = self.own_root(own) else { return false };
            let named = self.stacked(root, own.quality());
            self.candidates(other).iter().all(|other| !are_neighbours([named, *other]))
        })
    }

    fn weigh(&self, names: [SpelledTriad; 2]) -> Candidate {
        let notes = names.iter().flat_map(SpelledTriad::notes);
        let disguised = notes.filter(|note| !note.is_everyday()).count();
        let altered = names.iter().filter(|name| name.root().accidental() != 0).count();
        let cost = names.iter().map(|name| self.cost(name)).sum();
        Candidate { names, cost, signs: (disguised, altered) }
    }

    /// What a reader stumbles over in the name of one triad.
    fn cost(&self, name: &SpelledTriad) -> u32 {
        let root = name.root();
        let disguise = match (root.is_everyday(), root.accidental()) {
            (true, _) => 0,
            // C♭ is the IV of G♭, which is written so.
            (false, -1) if root.letter() == Letter::C => 1,
            (false, _) => 5,
        };
        let [_, _, fifth] = name.notes();
        let [_, third] = name.quality().intervals();
        let moved = third == Interval::DIMINISHED_FIFTH && root.up(third) != Some(fifth);
        disguise + u32::from(moved) * 2 + self.strangeness(root)
    }

    /// Is a note named otherwise than in the lines of chord and scale above? The root of the chord
    /// is known best.
    fn strangeness(&self, name: NoteName) -> u32 {
        let class = name.pitch_class();
        let known: Vec<NoteName> = self.written_names(class).collect();
        match known.is_empty() || known.contains(&name) {
            true => 0,
            false if class == self.chord_scale.root().pitch_class() => 2,
            false => 1,
        }
    }
}

/// Are the roots a half or a whole step apart?
fn is_a_step(pair: TriadPair) -> bool {
    let apart = pair.first().root().semitones_up_to(pair.second().root());
    matches!(apart, 1 | 2 | 10 | 11)
}

/// Do two roots that are a step apart stand on neighbouring letters?
fn are_neighbours([one, other]: [SpelledTriad; 2]) -> bool {
    let steps = one.root().letter().steps_up_to(other.root().letter());
    matches!(steps, 1 | 6)
}
