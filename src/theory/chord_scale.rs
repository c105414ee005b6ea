//! A scale heard over a chord: what each of the twelve notes is there.
//!
//! Degrees count from the chord's root and are named as the chord hears them: three semitones are
//! ♭3 over Cm7 and ♯9 over C7, whatever letter the scale gives them. Without a chord, degrees are
//! the scale's own.

use crate::{
    Chord, Degree, Degrees, Interval, NoteName, PitchClass, PitchClassSet, Scale, Triad,
    TriadQuality,
};

/// A scale over a chord, or a scale by itself.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, PitchClass};
/// let over_g7 = ChordScale::over("G7alt".parse().unwrap(), "G altered".parse().unwrap());
/// assert_eq!(over_g7.degree(PitchClass::new(11)).to_string(), "3"); // the scale writes C♭
/// assert_eq!(over_g7.degree(PitchClass::new(10)).to_string(), "♯9");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChordScale {
    chord: Option<Chord>,
    scale: Scale,
    /// What each note is, by pitch class: worked out once, since every pair asks again.
    degrees: [Degree; 12],
    named: PitchClassSet,
    third: Option<PitchClass>,
    seventh: Option<PitchClass>,
    rubbing: PitchClassSet,
    colours: PitchClassSet,
    required_tones: PitchClassSet,
    own_triad: Option<PitchClassSet>,
}

/// What a chord's third can be, first choice first: a suspension stands in its place.
const THIRDS: Degrees = Degrees::table("3 b3 4 2");
/// What its seventh can be: the sixth of a sixth chord stands in its place.
const SEVENTHS: Degrees = Degrees::table("7 b7 bb7 6");

impl ChordScale {
    /// `scale` over `chord`.
    #[must_use]
    pub fn over(chord: Chord, scale: Scale) -> ChordScale {
        ChordScale::heard(Some(chord), scale)
    }

    /// `scale` by itself: degrees count from its own root.
    #[must_use]
    pub fn alone(scale: Scale) -> ChordScale {
        ChordScale::heard(None, scale)
    }

    fn heard(chord: Option<Chord>, scale: Scale) -> ChordScale {
        let named = chord.as_ref().map_or(PitchClassSet::EMPTY, Chord::set);
        let mut chord_scale = ChordScale {
            chord,
            scale,
            named,
            degrees: [Degree::ROOT; 12],
            third: None,
            seventh: None,
            rubbing: PitchClassSet::EMPTY,
            colours: PitchClassSet::EMPTY,
            required_tones: PitchClassSet::EMPTY,
            own_triad: None,
        };
        for class in PitchClass::all() {
            chord_scale.degrees[usize::from(class.number())] = chord_scale.hear(class);
        }
        chord_scale.third = chord_scale.guide_tone(&THIRDS, 3);
        chord_scale.seventh = chord_scale.guide_tone(&SEVENTHS, 7);
        chord_scale.rubbing =
            PitchClass::all().filter(|class| chord_scale.hears_a_rub(*class)).collect();
        chord_scale.colours =
            PitchClass::all().filter(|class| chord_scale.hears_a_colour(*class)).collect();
        chord_scale.required_tones =
            named.iter().filter(|class| chord_scale.is_required(*class)).collect();
        chord_scale.own_triad = chord_scale.hear_own_triad();
        chord_scale
    }

    /// The chord, if there is one.
    #[must_use]
    pub fn chord(&self) -> Option<&Chord> {
        self.chord.as_ref()
    }

    /// The scale.
    #[must_use]
    pub fn scale(&self) -> &Scale {
        &self.scale
    }

    /// What degrees count from: the chord's root, else the scale's.
    #[must_use]
    pub fn root(&self) -> NoteName {
        self.chord.as_ref().map_or(self.scale.root(), Chord::root)
    }

    /// What a note is over the root; outside the scale too.
    #[must_use]
    pub fn degree(&self, class: PitchClass) -> Degree {
        self.degrees[usize::from(class.number())]
    }

    fn hear(&self, class: PitchClass) -> Degree {
        let semitones = self.root().pitch_class().semitones_up_to(class);
        let Some(chord) = &self.chord else {
            let own = self.scale.degree_of(class);
            return own.unwrap_or_else(|| plain_degree(semitones));
        };
        if let Some(named) = chord.degree_of(class) {
            return named;
        }
        let minor = chord.names(Degree::MINOR_THIRD);
        let third = minor || chord.names(Degree::MAJOR_THIRD);
        let written = self.written_steps(class);
        match semitones {
            0 => Degree::ROOT,
            1 => Degree::FLAT_NINTH,
            2 => Degree::NINTH,
            3 if third || self.scale_holds(4) => Degree::SHARP_NINTH,
            3 => Degree::MINOR_THIRD,
            4 => Degree::MAJOR_THIRD,
            5 => Degree::ELEVENTH,
            6 if written == Some(4) => Degree::FLAT_FIFTH,
            6 => Degree::SHARP_ELEVENTH,
            7 => Degree::FIFTH,
            8 if written == Some(4) => Degree::SHARP_FIFTH,
            8 => Degree::FLAT_THIRTEENTH,
            9 if written == Some(6) => Degree::DIMINISHED_SEVENTH,
            9 => Degree::THIRTEENTH,
            10 => Degree::MINOR_SEVENTH,
            _ => Degree::MAJOR_SEVENTH,
        }
    }

    /// The degrees of a set of notes, going up from the root.
    pub fn degrees(&self, set: PitchClassSet) -> impl Iterator<Item = Degree> {
        set.going_up_from(self.root().pitch_class()).map(|class| self.degree(class))
    }

    /// The notes that the symbol names; none without a chord.
    pub(crate) fn named(&self) -> PitchClassSet {
        self.named
    }

    /// The third, or what stands in its place; without a chord, the scale's.
    #[must_use]
    pub fn third(&self) -> Option<PitchClass> {
        self.third
    }

    /// The seventh, or the sixth of a sixth chord; without either, the scale's seventh.
    #[must_use]
    pub fn seventh(&self) -> Option<PitchClass> {
        self.seventh
    }

    /// Does a note rub against the chord: not named by it, a half step above a tone that is, and
    /// not a tension that is accepted there? Nothing rubs where no chord sounds.
    ///
    /// Over a dominant seventh ♭9, ♯9 and ♭13 are accepted, the last also where the scale writes
    /// it ♯5. Under a major seventh a ♭7 rubs, as in a bebop dominant scale over maj7.
    #[must_use]
    pub fn rubs(&self, class: PitchClass) -> bool {
        self.rubbing.contains(class)
    }

    /// All notes that rub.
    pub(crate) fn rubbing(&self) -> PitchClassSet {
        self.rubbing
    }

    fn hears_a_rub(&self, class: PitchClass) -> bool {
        let Some(chord) = &self.chord else {
            return false;
        };
        let sounding = sounding(chord);
        if sounding.contains(class) {
            return false;
        }
        if self.is_the_other_seventh(class, chord) {
            return true;
        }
        if !sounding.contains(class.up(-1)) {
            return false;
        }
        let above_root = self.root().pitch_class().semitones_up_to(class);
        !(chord.is_dominant() && matches!(above_root, 1 | 3 | 8))
    }

    /// Is it the ♭7 of a chord whose seventh is major?
    fn is_the_other_seventh(&self, class: PitchClass, chord: &Chord) -> bool {
        chord.names(Degree::MAJOR_SEVENTH)
            && Degree::MINOR_SEVENTH.over(self.root().pitch_class()) == class
    }

    /// The notes that are tensions of the chord. On an `alt` chord the altered fifths are, too.
    pub(crate) fn colours(&self) -> PitchClassSet {
        self.colours
    }

    fn hears_a_colour(&self, class: PitchClass) -> bool {
        match self.degree(class).number() {
            9 | 11 | 13 => true,
            5 => self.is_alt(),
            _ => false,
        }
    }

    /// The notes of the symbol that count when a pair leaves them out: all but the root and, in an
    /// `alt` chord, the alterations, of which any will do.
    pub(crate) fn required_tones(&self) -> PitchClassSet {
        self.required_tones
    }

    /// The notes for which the symbol was written as it is: suspension, altered fifth, sixth and
    /// tensions. Third, fifth and seventh are what an accompaniment plays anyway, and any of the
    /// alterations of an `alt` chord will do.
    pub(crate) fn written_colours(&self) -> PitchClassSet {
        let is_colour = |class: &PitchClass| {
            let degree = self.degree(*class);
            !matches!((degree.number(), degree.alteration()), (3 | 7, _) | (5, 0))
        };
        self.required_tones.iter().filter(is_colour).collect()
    }

    fn is_required(&self, class: PitchClass) -> bool {
        let degree = self.degree(class);
        let any_alteration = degree.alteration() != 0 && self.hears_a_colour(class);
        degree != Degree::ROOT && !(self.is_alt() && any_alteration)
    }

    fn is_alt(&self) -> bool {
        self.chord.as_ref().is_some_and(Chord::is_alt)
    }

    /// The notes of the tertian triad at the bottom of the chord (without a chord, on the root of
    /// the scale); `None` where there is none, as in a sus or alt chord.
    pub(crate) fn own_triad(&self) -> Option<PitchClassSet> {
        self.own_triad
    }

    fn hear_own_triad(&self) -> Option<PitchClassSet> {
        let root = self.root();
        let holds = |interval: Interval| {
            let class = root.pitch_class().up(i32::from(interval.semitones()));
            let degree = match &self.chord {
                Some(chord) => chord.degree_of(class),
                None => self.scale.degree_of(class),
            };
            degree.is_some_and(|degree| degree.interval() == interval)
        };
        let alt = self.is_alt();
        let quality = TriadQuality::TERTIAN
            .iter()
            .find(|quality| !alt && quality.intervals().into_iter().all(holds))?;
        Some(Triad::new(root.pitch_class(), *quality).set())
    }

    fn guide_tone(&self, choices: &[Degree], number: u8) -> Option<PitchClass> {
        let root = self.root().pitch_class();
        let heard = |class: &PitchClass| self.degree(*class).number() == number;
        let in_scale = || self.scale.notes().map(NoteName::pitch_class).find(heard);
        match &self.chord {
            Some(chord) => {
                let named = choices.iter().find(|choice| chord.names(**choice));
                named.map(|degree| degree.over(root)).or_else(in_scale)
            }
            None => in_scale(),
        }
    }

    fn scale_holds(&self, semitones: i32) -> bool {
        self.scale.set().contains(self.root().pitch_class().up(semitones))
    }

    /// How many letters above the root the scale writes a note. Counted from the scale's own name
    /// for the root, which is not the chord's where the scale had to be respelled.
    fn written_steps(&self, class: PitchClass) -> Option<u8> {
        let name = self.scale.name_of(class)?;
        let root = self.scale.name_of(self.root().pitch_class()).unwrap_or(self.root());
        Some(root.interval_up_to(name).steps())
    }
}

/// The notes that sound in a chord, its bass with them.
pub(crate) fn sounding(chord: &Chord) -> PitchClassSet {
    match chord.bass() {
        Some(bass) => chord.set().with(bass.pitch_class()),
        None => chord.set(),
    }
}

/// What a note outside a scale is called where no chord sounds.
fn plain_degree(semitones: u8) -> Degree {
    match semitones {
        1 => Degree::FLAT_SECOND,
        2 => Degree::SECOND,
        3 => Degree::MINOR_THIRD,
        4 => Degree::MAJOR_THIRD,
        5 => Degree::FOURTH,
        6 => Degree::FLAT_FIFTH,
        7 => Degree::FIFTH,
        8 => Degree::FLAT_SIXTH,
        9 => Degree::SIXTH,
        10 => Degree::MINOR_SEVENTH,
        11 => Degree::MAJOR_SEVENTH,
        _ => Degree::ROOT,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn degrees(chord: &str, scale: &str) -> String {
        let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
        let degrees: Vec<String> = chord_scale
            .degrees(chord_scale.scale().set())
            .map(|degree| format!("{degree:#}"))
            .collect();
        degrees.join(" ")
    }

    /// common practice, no source
    #[test]
    fn degrees_are_named_as_the_chord_hears_them() {
        for (chord, scale, expected) in [
            ("Gmaj7#11", "G Lydian", "1 9 3 #11 5 13 7"),
            ("C7alt", "C altered", "1 b9 #9 3 b5 #5 b7"),
            ("C7", "C altered", "1 b9 #9 3 b5 b13 b7"),
            ("C7b9", "C half-whole", "1 b9 #9 3 #11 5 13 b7"),
            ("Cm7", "C Dorian", "1 9 b3 11 5 13 b7"),
            ("Cm6", "C melodic minor", "1 9 b3 11 5 6 7"),
            ("C7sus4", "C Mixolydian", "1 9 3 4 5 13 b7"),
            ("C7sus4", "C Dorian", "1 9 b3 4 5 13 b7"),
            ("Csus2", "C Ionian", "1 2 3 11 5 13 7"),
            ("Cm7b5", "C Locrian", "1 b9 b3 11 b5 b13 b7"),
            ("Cdim7", "C whole-half", "1 9 b3 11 b5 b13 bb7 7"),
            ("C7#5", "C whole tone", "1 9 3 #11 #5 b7"),
            ("C7", "C Mixolydian b6", "1 9 3 11 5 b13 b7"),
            ("C7", "C minor blues", "1 #9 11 b5 5 b7"),
            ("Dm7", "C Ionian", "1 9 b3 11 5 13 b7"),
        ] {
            assert_eq!(degrees(chord, scale), expected, "{chord} {scale}");
        }
    }

    #[test]
    fn without_a_chord_degrees_are_the_scales_own() {
        let alone = ChordScale::alone("C altered".parse().unwrap());
        let own: Vec<String> =
            alone.degrees(alone.scale().set()).map(|degree| format!("{degree:#}")).collect();
        assert_eq!(own.join(" "), "1 b2 b3 b4 b5 b6 b7");
    }

    /// Where the symbol names none: common practice, no source.
    #[test]
    fn third_and_seventh_of_a_scale_are_those_that_are_called_so_over_the_chord() {
        for (chord, scale, third, seventh) in [
            ("Dm", "C Ionian", 5, 0),
            ("C", "F Ionian", 4, 10),
            ("C5", "C altered", 4, 10),
            ("C5", "C Dorian", 3, 10),
        ] {
            let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
            assert_eq!(chord_scale.third(), Some(PitchClass::new(third)), "{chord} {scale}");
            assert_eq!(chord_scale.seventh(), Some(PitchClass::new(seventh)), "{chord} {scale}");
        }
    }
}
