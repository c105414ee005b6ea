//! What a pair says over a chord, and where that puts it among the others.
//!
//! The order is a short sum that can be told in a sentence. What players look for first (two major
//! triads, the chord's own triad) counts for a pair; notes that rub, notes of the symbol that it
//! leaves out and diminished triads count against it. No pair is left out, and a missing root does not
//! count: players like pairs without it.

use std::cmp::Reverse;

use crate::criterion::Criteria;
use crate::{ChordScale, Criterion, PitchClass, PitchClassSet, Triad, TriadPair, TriadQuality};

/// A pair heard over a chord and its scale.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, PairSound, TriadQuality};
/// let chord_scale = ChordScale::over("Gmaj7#11".parse().unwrap(), "G Lydian".parse().unwrap());
/// let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
/// assert_eq!(sounds.len(), 7);
/// let first = &sounds[0]; // G & A
/// let left_out: Vec<String> =
///     chord_scale.degrees(first.left_out()).map(|degree| degree.to_string()).collect();
/// assert_eq!(left_out, ["7"]);
/// assert!(first.states_third() && !first.states_seventh());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PairSound {
    pair: TriadPair,
    left_out: PitchClassSet,
    outside: PitchClassSet,
    drops_named: PitchClassSet,
    drops_colour: bool,
    rubs: PitchClassSet,
    states_root: bool,
    states_third: bool,
    states_seventh: bool,
    in_thirds: bool,
    criteria: Criteria,
}

impl PairSound {
    /// What `pair` says over `chord_scale`. Its notes may lie outside the scale.
    #[must_use]
    pub fn of(pair: TriadPair, chord_scale: &ChordScale) -> PairSound {
        let set = pair.set();
        let scale = chord_scale.scale();
        let states = |class: Option<PitchClass>| class.is_some_and(|class| set.contains(class));
        let mut sound = PairSound {
            pair,
            left_out: scale.set().difference(set),
            outside: set.difference(scale.set()),
            drops_named: chord_scale.named().difference(set),
            drops_colour: !chord_scale.written_colours().is_subset(set),
            rubs: chord_scale.rubbing().intersection(set),
            states_root: set.contains(chord_scale.root().pitch_class()),
            states_third: states(chord_scale.third()),
            states_seventh: states(chord_scale.seventh()),
            in_thirds: pair.triads().into_iter().all(|triad| scale.spells(triad)),
            criteria: Criteria::NONE,
        };
        sound.criteria = sound.weighed(chord_scale);
        sound
    }

    /// What counts for the pair and against it.
    fn weighed(&self, chord_scale: &ChordScale) -> Criteria {
        let (pair, set) = (self.pair, self.pair.set());
        let own = chord_scale.own_triad();
        let is_own = |triad: Triad| own == Some(triad.set());
        let of_quality = |quality: TriadQuality| {
            pair.triads().into_iter().filter(move |triad| triad.quality() == quality)
        };
        let majors = of_quality(TriadQuality::Major).count();
        let diminished = of_quality(TriadQuality::Diminished).filter(|t| !is_own(*t)).count() as u8;
        let apart = pair.first().root().semitones_up_to(pair.second().root());
        let whole_step = matches!(apart, 2 | 10);
        let colours = chord_scale.colours().intersection(set).len();
        let dropped = chord_scale.required_tones().difference(set).len() as u8;
        let rubs = self.rubs().len() as u8;
        Criteria::that_hold([
            (majors == 2 && whole_step, Criterion::MajorsAWholeStepApart),
            (majors == 2 && !whole_step, Criterion::Majors),
            (majors == 1, Criterion::OneMajor),
            (pair.triads().into_iter().any(is_own), Criterion::OwnTriad),
            (chord_scale.chord().is_some() && self.drops_named().is_empty(), Criterion::WholeChord),
            (self.states_third() && self.states_seventh(), Criterion::GuideTones),
            (colours >= 3 && rubs == 0, Criterion::Colour),
            (dropped > 0, Criterion::Drops(dropped)),
            (rubs > 0, Criterion::Rubs(rubs)),
            (diminished > 0, Criterion::Diminished(diminished)),
        ])
    }

    /// Every pair of these qualities in the scale, in the order in which a player would be shown
    /// them: pairs that the scale spells in thirds first, then by [`points`](Self::points), then by
    /// root going up. Whatever its points, a pair that leaves out a suspension, an altered fifth, a
    /// sixth or a tension that the symbol writes stands behind those that hold all of the symbol and
    /// rub no more.
    #[must_use]
    pub fn ranked(chord_scale: &ChordScale, qualities: &[TriadQuality]) -> Vec<PairSound> {
        let root = chord_scale.root().pitch_class();
        let triads = chord_scale.scale().triads(qualities);
        let mut sounds: Vec<PairSound> = TriadPair::of_triads(triads, root)
            .map(|pair| PairSound::of(pair, chord_scale))
            .collect();
        let lettered = chord_scale.scale().kind().has_a_letter_for_each_degree();
        let height = |triad: Triad| root.semitones_up_to(triad.root());
        let by_sound_only = |sound: &PairSound| lettered && !sound.in_thirds;
        let [spelled, heard] = [false, true].map(|group| {
            WholePairs::among(sounds.iter().filter(|sound| by_sound_only(sound) == group))
        });
        sounds.sort_by_cached_key(|sound| {
            let by_sound_only = by_sound_only(sound);
            let whole_pairs = if by_sound_only { &heard } else { &spelled };
            let [first, second] = sound.pair.triads().map(height);
            let points = whole_pairs.points_of(sound);
            (by_sound_only, Reverse(points), sound.drops_colour, first, second)
        });
        sounds
    }

    /// The pair.
    #[must_use]
    pub fn pair(&self) -> TriadPair {
        self.pair
    }

    /// The notes of the scale that the pair leaves out.
    #[must_use]
    pub fn left_out(&self) -> PitchClassSet {
        self.left_out
    }

    /// The notes of the pair that lie outside the scale.
    #[must_use]
    pub fn outside(&self) -> PitchClassSet {
        self.outside
    }

    /// The notes that the symbol names and the pair leaves out.
    #[must_use]
    pub fn drops_named(&self) -> PitchClassSet {
        self.drops_named
    }

    /// The notes of the pair that rub against the chord: see [`ChordScale::rubs`].
    #[must_use]
    pub fn rubs(&self) -> PitchClassSet {
        self.rubs
    }

    /// Does the pair hold the root?
    #[must_use]
    pub fn states_root(&self) -> bool {
        self.states_root
    }

    /// Does it hold the third, or what stands in its place?
    #[must_use]
    pub fn states_third(&self) -> bool {
        self.states_third
    }

    /// Does it hold the seventh (the sixth of a sixth chord)?
    #[must_use]
    pub fn states_seventh(&self) -> bool {
        self.states_seventh
    }

    /// Does the scale spell both triads in thirds? Otherwise at least one is heard only by sound.
    #[must_use]
    pub fn in_thirds(&self) -> bool {
        self.in_thirds
    }

    /// What counts for and against the pair, the weightiest first.
    #[must_use]
    pub fn criteria(&self) -> &[Criterion] {
        &self.criteria
    }

    /// The same, as a copy without a heap.
    pub(crate) fn merit_list(&self) -> Criteria {
        self.criteria
    }

    /// Does it leave out something that the symbol names, apart from the root and from what may be
    /// any alteration?
    fn drops(&self) -> bool {
        self.criteria.iter().any(|criterion| matches!(criterion, Criterion::Drops(_)))
    }

    /// The sum of what counts for and against it; only its order means something.
    #[must_use]
    pub fn points(&self) -> i32 {
        self.criteria.iter().map(|criterion| criterion.points()).sum()
    }
}

/// The fewest points with which a pair of a list holds all that the symbol names, the root aside: by
/// how many notes of it rub, 0 to 6.
struct WholePairs([i32; 7]);

impl WholePairs {
    fn among<'a>(sounds: impl Iterator<Item = &'a PairSound>) -> WholePairs {
        let mut fewest = [i32::MAX; 7];
        for sound in sounds.filter(|sound| !sound.drops()) {
            if let Some(points) = fewest.get_mut(sound.rubs.len()) {
                *points = sound.points().min(*points);
            }
        }
        WholePairs(fewest)
    }

    /// The points by which a pair stands where it does.
    fn points_of(&self, sound: &PairSound) -> i32 {
        let rub_no_more = self.0.iter().take(sound.rubs.len() + 1);
        let behind = rub_no_more.min().filter(|_| sound.drops_colour);
        behind.map_or(sound.points(), |fewest| sound.points().min(*fewest))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Speller, Spelling};

    /// Pairs that published lessons and books on the subject name for these chords, gathered as
    /// common practice; the pages differ in which scale they mean, so it is given.
    #[test]
    fn pairs_that_are_published_for_a_chord_stand_near_the_top() {
        let published = [
            ("Cmaj7", "C Ionian", "C&Dm F&G"),
            ("Cmaj7", "C Lydian", "C&D D&Em"),
            ("Cmaj7#11", "C Lydian", "C&D D&Em"),
            ("C7", "C Mixolydian", "C&Bb"),
            ("Cm7", "C Dorian", "Cm&Dm Eb&F Cm&Bb"),
            ("Cm7b5", "C Locrian natural 2", "Cdim&Bb"),
            ("Cm(maj7)", "C melodic minor", "Cm&Dm Eb+&F F&G"),
            ("Cm6", "C melodic minor", "Cm&Dm Eb+&F F&G"),
            ("D7susb9", "D Dorian b2", "Dm&Cm Eb+&F F&G"),
            ("C7#11", "C Lydian dominant", "C&D"),
            ("C7alt", "C altered", "E+&Gb Gb&Ab"),
            ("Cm(maj7)", "C harmonic minor", "G&Ab"),
            ("C7", "C half-whole", "C&Ebm"),
            ("C7b9", "C half-whole", "C&Gb Eb&A"),
            ("C13b9", "C half-whole", "Eb&A"),
            ("C+", "C augmented", "C&G#m"),
        ];
        let (mut in_three, mut all) = (0, 0);
        for (chord, scale, names) in published {
            let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
            let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
            let name = |sound: &PairSound| {
                let [a, b] = sound.pair().triads().map(|triad| speller.triad(triad));
                format!("{a:#}&{b:#}")
            };
            let list: Vec<String> =
                PairSound::ranked(&chord_scale, TriadQuality::TERTIAN).iter().map(name).collect();
            for wanted in names.split(' ') {
                let rank = list.iter().position(|name| name == wanted).unwrap_or(99) + 1;
                assert!(rank <= 4, "{wanted} over {chord} in {scale} stands {rank}: {list:?}");
                all += 1;
                in_three += usize::from(rank <= 3);
            }
        }
        assert!(in_three * 100 >= all * 80, "{in_three} of {all} in the first three");
    }
}
