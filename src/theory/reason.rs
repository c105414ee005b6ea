//! Why a pair has its rank, in one sentence.

use std::fmt::{self, Display as _};

use crate::criterion::Criteria;
use crate::degrees::write_degrees;
use crate::{ChordScale, Criterion, Degree, Degrees, PairSound, PitchClassSet, TriadQuality};

/// The sentence of a pair; prints with signs (`{}`) or in ASCII (`{:#}`).
///
/// It names both triads by quality and degree, then what counts for the pair, what it leaves out,
/// and what counts against it.
///
/// ```
/// use fretloom_theory::{ChordScale, PairSound, TriadQuality};
/// let chord_scale = ChordScale::over("Gmaj7#11".parse().unwrap(), "G Lydian".parse().unwrap());
/// let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
/// assert_eq!(
///     sounds[0].reason(&chord_scale).to_string(),
///     "majors on 1 and 9, a step apart, one of them the chord itself; colours 9 ♯11 13; \
///      leaves out 7; no rub"
/// );
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reason {
    triads: [(Degree, TriadQuality); 2],
    apart: u8,
    criteria: Criteria,
    home: &'static str,
    guide_tones: Degrees,
    colours: Degrees,
    left_out: Degrees,
    rubs: Degrees,
    outside: Degrees,
}

impl PairSound {
    /// One sentence that says why the pair stands where it stands. No two pairs of a list share
    /// theirs: it names both triads by their degrees.
    #[must_use]
    pub fn reason(&self, chord_scale: &ChordScale) -> Reason {
        Reason::of(self, chord_scale)
    }
}

impl Reason {
    fn of(sound: &PairSound, chord_scale: &ChordScale) -> Reason {
        let pair = sound.pair();
        let degrees = |set: PitchClassSet| chord_scale.degrees(set).collect();
        Reason {
            triads: pair.triads().map(|triad| (chord_scale.degree(triad.root()), triad.quality())),
            apart: pair.first().root().semitones_up_to(pair.second().root()),
            criteria: sound.merit_list(),
            home: if chord_scale.chord().is_some() { "the chord itself" } else { "the home triad" },
            guide_tones: [chord_scale.third(), chord_scale.seventh()]
                .into_iter()
                .flatten()
                .map(|class| chord_scale.degree(class))
                .collect(),
            colours: degrees(chord_scale.colours().intersection(pair.set())),
            left_out: degrees(sound.left_out()),
            rubs: degrees(sound.rubs()),
            outside: degrees(sound.outside()),
        }
    }

    fn has(&self, criterion: Criterion) -> bool {
        self.criteria.contains(&criterion)
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
        if self.has(Criterion::MajorsAWholeStepApart) || self.has(Criterion::Majors) {
            write!(f, ", {apart} apart")?;
        }
        if self.has(Criterion::OwnTriad) {
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

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_triads(f)?;
        self.write_relation(f)?;
        if self.has(Criterion::WholeChord) {
            f.write_str("; every chord tone")?;
        } else if self.has(Criterion::GuideTones) {
            write_degrees(f, "; states", &self.guide_tones)?;
        }
        if self.has(Criterion::Colour) {
            write_degrees(f, "; colours", &self.colours)?;
        }
        write_degrees(f, "; outside the scale", &self.outside)?;
        write_degrees(f, "; leaves out", &self.left_out)?;
        if self.rubs.is_empty() {
            f.write_str("; no rub")
        } else {
            write_degrees(f, "; rubs", &self.rubs)
        }
    }
}
