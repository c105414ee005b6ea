//! What a pair says over a chord, and where that puts it among the others.
//!
//! The order is a short sum that can be told in a sentence: what players look for first (two major
//! triads, the chord's own triad) counts for a pair; rubs, notes of the symbol that it leaves out
//! and diminished triads count against it. Nothing is hidden, and a missing third or root is no
//! fault by itself: rootless pairs are favourites.

use std::cmp::Reverse;
use std::fmt::{self, Display as _};

use crate::{ChordScale, Degree, PitchClass, PitchClassSet, Triad, TriadPair, TriadQuality};

/// A pair heard over a chord and its scale.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, Sound, TriadQuality};
/// let ground = ChordScale::over("Gmaj7#11".parse().unwrap(), "G Lydian".parse().unwrap());
/// let sounds = Sound::ranked(&ground, TriadQuality::TERTIAN);
/// assert_eq!(sounds.len(), 7);
/// let first = &sounds[0]; // G & A
/// let left_out: Vec<String> =
///     ground.degrees(first.left_out()).map(|degree| degree.to_string()).collect();
/// assert_eq!(left_out, ["7"]);
/// assert!(first.states_third() && !first.states_seventh());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sound {
    pair: TriadPair,
    left_out: PitchClassSet,
    outside: PitchClassSet,
    drops_named: PitchClassSet,
    rubs: PitchClassSet,
    states_root: bool,
    states_third: bool,
    states_seventh: bool,
    in_thirds: bool,
    merits: Vec<Merit>,
}

impl Sound {
    /// What `pair` says over `ground`. Its notes may lie outside the scale.
    #[must_use]
    pub fn of(pair: TriadPair, ground: &ChordScale) -> Sound {
        let set = pair.set();
        let scale = ground.scale();
        let states = |class: Option<PitchClass>| class.is_some_and(|class| set.contains(class));
        let mut sound = Sound {
            pair,
            left_out: scale.set().difference(set),
            outside: set.difference(scale.set()),
            drops_named: ground.named().difference(set),
            rubs: ground.rubbing().intersection(set),
            states_root: set.contains(ground.root().pitch_class()),
            states_third: states(ground.third()),
            states_seventh: states(ground.seventh()),
            in_thirds: pair.triads().into_iter().all(|triad| scale.spells(triad)),
            merits: Vec::new(),
        };
        sound.merits = Merit::of(&sound, ground);
        sound
    }

    /// Every pair of these qualities in the scale, in the order in which a player would be shown
    /// them: pairs that the scale spells in thirds first, then by [`points`](Self::points), then by
    /// root going up.
    #[must_use]
    pub fn ranked(ground: &ChordScale, qualities: &[TriadQuality]) -> Vec<Sound> {
        let root = ground.root().pitch_class();
        let triads = ground.scale().triads(qualities);
        let mut sounds: Vec<Sound> =
            TriadPair::of_triads(triads, root).map(|pair| Sound::of(pair, ground)).collect();
        let lettered = ground.scale().kind().has_a_letter_for_each_degree();
        let height = |triad: Triad| root.semitones_up_to(triad.root());
        sounds.sort_by_cached_key(|sound| {
            let by_sound_only = lettered && !sound.in_thirds;
            let [first, second] = sound.pair.triads().map(height);
            (by_sound_only, Reverse(sound.points()), first, second)
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
    pub fn merits(&self) -> &[Merit] {
        &self.merits
    }

    /// The sum of what counts for and against it; only its order means something.
    #[must_use]
    pub fn points(&self) -> i32 {
        self.merits.iter().map(|merit| merit.points()).sum()
    }

    /// One sentence that says why the pair stands where it stands. No two pairs of a list share
    /// theirs: it names both triads by their degrees.
    #[must_use]
    pub fn reason(&self, ground: &ChordScale) -> Reason {
        let named = |triad: Triad| (ground.degree(triad.root()), triad.quality());
        Reason {
            triads: self.pair.triads().map(named),
            apart: self.pair.first().root().semitones_up_to(self.pair.second().root()),
            merits: self.merits.clone(),
            home: if ground.chord().is_some() { "the chord itself" } else { "the home triad" },
            guide_tones: [ground.third(), ground.seventh()]
                .into_iter()
                .flatten()
                .map(|class| ground.degree(class))
                .collect(),
            colours: ground.degrees(self.pair.set()).filter(|d| is_colour(*d, ground)).collect(),
            left_out: ground.degrees(self.left_out).collect(),
            rubs: ground.degrees(self.rubs).collect(),
            outside: ground.degrees(self.outside).collect(),
        }
    }
}

/// Is a degree one that colours the chord rather than names it? On an `alt` chord the altered
/// fifths colour too.
fn is_colour(degree: Degree, ground: &ChordScale) -> bool {
    let alt = ground.chord().is_some_and(crate::Chord::is_alt);
    match degree.number() {
        9 | 11 | 13 => true,
        5 => alt,
        _ => false,
    }
}

/// Something that counts for or against a pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Merit {
    /// Two major triads a whole step apart: IV and V of some major key, the all-purpose pair.
    MajorsAWholeStepApart,
    /// Two major triads a half step or a tritone apart.
    Majors,
    /// One of the two is major.
    OneMajor,
    /// One of the triads is the bottom of the chord itself, with a colour beside it.
    OwnTriad,
    /// Every note that the symbol names, in two handfuls.
    WholeChord,
    /// Third and seventh, so that the line tells the chord by itself.
    GuideTones,
    /// Three tensions or more, none of which rubs.
    Colour,
    /// Notes other than the root that the symbol names and the pair leaves out; how many.
    Drops(u8),
    /// Notes that rub; how many.
    Rubs(u8),
    /// Diminished triads that are not the chord's own: they say less; how many.
    Diminished(u8),
}

impl Merit {
    fn of(sound: &Sound, ground: &ChordScale) -> Vec<Merit> {
        let pair = sound.pair;
        let own = ground.own_triad();
        let is_own = |triad: Triad| own == Some(triad.set());
        let of_quality = |quality: TriadQuality| {
            pair.triads().into_iter().filter(move |triad| triad.quality() == quality)
        };
        let majors = of_quality(TriadQuality::Major).count();
        let diminished = of_quality(TriadQuality::Diminished).filter(|t| !is_own(*t)).count() as u8;
        let apart = pair.first().root().semitones_up_to(pair.second().root());
        let whole_step = matches!(apart, 2 | 10);
        let colours = ground.degrees(pair.set()).filter(|d| is_colour(*d, ground)).count();
        let dropped = Merit::dropped(sound, ground);
        let rubs = sound.rubs.len() as u8;
        let counted = [
            (majors == 2 && whole_step, Merit::MajorsAWholeStepApart),
            (majors == 2 && !whole_step, Merit::Majors),
            (majors == 1, Merit::OneMajor),
            (pair.triads().into_iter().any(is_own), Merit::OwnTriad),
            (ground.chord().is_some() && sound.drops_named.is_empty(), Merit::WholeChord),
            (sound.states_third() && sound.states_seventh(), Merit::GuideTones),
            (colours >= 3 && rubs == 0, Merit::Colour),
            (dropped > 0, Merit::Drops(dropped)),
            (rubs > 0, Merit::Rubs(rubs)),
            (diminished > 0, Merit::Diminished(diminished)),
        ];
        let mut merits: Vec<Merit> =
            counted.into_iter().filter(|(holds, _)| *holds).map(|(_, merit)| merit).collect();
        merits.sort_by_key(|merit| Reverse(merit.points().abs()));
        merits
    }

    /// How many named notes are missing that a player would miss: the root is not, and of an `alt`
    /// chord no single alteration is.
    fn dropped(sound: &Sound, ground: &ChordScale) -> u8 {
        let missed = |degree: &Degree| {
            let any_alteration = degree.alteration() != 0 && is_colour(*degree, ground);
            let alt = ground.chord().is_some_and(crate::Chord::is_alt);
            *degree != Degree::ROOT && !(alt && any_alteration)
        };
        ground.degrees(sound.drops_named).filter(missed).count() as u8
    }

    /// A word or two for it, as it stands in a list.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Merit::MajorsAWholeStepApart => "majors a step apart",
            Merit::Majors => "majors",
            Merit::OneMajor => "a major",
            Merit::OwnTriad => "chord's triad",
            Merit::WholeChord => "all tones",
            Merit::GuideTones => "3rd+7th",
            Merit::Colour => "colour",
            Merit::Drops(_) => "drops",
            Merit::Rubs(_) => "rubs",
            Merit::Diminished(_) => "diminished",
        }
    }

    /// How much it counts; negative against the pair.
    #[must_use]
    pub fn points(self) -> i32 {
        match self {
            Merit::MajorsAWholeStepApart => 8,
            Merit::Majors => 6,
            Merit::OwnTriad => 5,
            Merit::WholeChord | Merit::GuideTones | Merit::Colour => 2,
            Merit::OneMajor => 1,
            Merit::Drops(count) => -i32::from(count),
            Merit::Rubs(count) => -2 * i32::from(count),
            Merit::Diminished(count) => -5 * i32::from(count),
        }
    }
}

/// The sentence of a pair; prints with signs (`{}`) or in ASCII (`{:#}`).
///
/// It names both triads by quality and degree, then what counts for the pair, what it leaves out,
/// and what counts against it.
///
/// ```
/// use fretloom_theory::{ChordScale, Sound, TriadQuality};
/// let ground = ChordScale::over("Gmaj7#11".parse().unwrap(), "G Lydian".parse().unwrap());
/// let sounds = Sound::ranked(&ground, TriadQuality::TERTIAN);
/// assert_eq!(
///     sounds[0].reason(&ground).to_string(),
///     "majors on 1 and 9, a step apart, one of them the chord itself; colours 9 ♯11 13; \
///      leaves out 7; no rub"
/// );
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reason {
    triads: [(Degree, TriadQuality); 2],
    apart: u8,
    merits: Vec<Merit>,
    home: &'static str,
    guide_tones: Vec<Degree>,
    colours: Vec<Degree>,
    left_out: Vec<Degree>,
    rubs: Vec<Degree>,
    outside: Vec<Degree>,
}

impl Reason {
    fn has(&self, merit: Merit) -> bool {
        self.merits.contains(&merit)
    }

    /// `majors on 1 and 9`, or `major on 5 and minor on 13`.
    fn write_triads(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [(first, quality), (second, other)] = self.triads;
        if quality == other {
            write!(f, "{} on ", plural(quality))?;
            first.fmt(f)?;
            f.write_str(" and ")?;
        } else {
            write!(f, "{} on ", quality.word())?;
            first.fmt(f)?;
            write!(f, " and {} on ", other.word())?;
        }
        second.fmt(f)
    }

    fn write_relation(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let apart = match self.apart {
            2 | 10 => "a step",
            6 => "a tritone",
            _ => "a half step",
        };
        if self.has(Merit::MajorsAWholeStepApart) || self.has(Merit::Majors) {
            write!(f, ", {apart} apart")?;
        }
        if self.has(Merit::OwnTriad) {
            write!(f, ", one of them {}", self.home)?;
        }
        Ok(())
    }
}

fn plural(quality: TriadQuality) -> &'static str {
    match quality {
        TriadQuality::Major => "majors",
        TriadQuality::Minor => "minors",
        TriadQuality::Diminished => "diminished triads",
        TriadQuality::Augmented => "augmented triads",
        TriadQuality::Sus => "sus triads",
        TriadQuality::FlatFive => "flat-five triads",
    }
}

fn write_list(f: &mut fmt::Formatter<'_>, before: &str, degrees: &[Degree]) -> fmt::Result {
    if degrees.is_empty() {
        return Ok(());
    }
    f.write_str(before)?;
    degrees.iter().try_for_each(|degree| {
        f.write_str(" ")?;
        degree.fmt(f)
    })
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_triads(f)?;
        self.write_relation(f)?;
        if self.has(Merit::WholeChord) {
            f.write_str("; every chord tone")?;
        } else if self.has(Merit::GuideTones) {
            write_list(f, "; states", &self.guide_tones)?;
        }
        if self.has(Merit::Colour) {
            write_list(f, "; colours", &self.colours)?;
        }
        write_list(f, "; outside the scale", &self.outside)?;
        write_list(f, "; leaves out", &self.left_out)?;
        if self.rubs.is_empty() {
            f.write_str("; no rub")
        } else {
            write_list(f, "; rubs", &self.rubs)
        }
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
            ("C7b9", "C half-whole", "C&Gb Eb&A C&Ebm"),
            ("C13b9", "C half-whole", "C&Gb Eb&A"),
            ("C+", "C augmented", "C&G#m"),
        ];
        let (mut in_three, mut all) = (0, 0);
        for (chord, scale, names) in published {
            let ground = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
            let speller = Speller::new(&ground, Spelling::Plain);
            let name = |sound: &Sound| {
                let [a, b] = sound.pair().triads().map(|triad| speller.triad(triad));
                format!("{a:#}&{b:#}")
            };
            let list: Vec<String> =
                Sound::ranked(&ground, TriadQuality::TERTIAN).iter().map(name).collect();
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
