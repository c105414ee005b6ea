//! What has been read of a chord symbol, and how it becomes degrees.

use super::assumption::Assumption;
use super::problem::ChordProblem;
use super::word::Word;
use crate::{Chord, Degree, Degrees, NoteName};

/// Every degree that a symbol can name, in the order in which a chord lists them.
const ORDER: [Degrees; 2] =
    [Degrees::table("1 2 b3 3 4 b5 5 #5 6 bb7 b7 7"), Degrees::table("b9 9 #9 11 #11 b13 13")];

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Quality {
    Minor,
    Diminished,
    HalfDiminished,
}

/// What has been read of a symbol so far.
#[derive(Default)]
pub(super) struct ParsedSymbol {
    pub(super) quality: Option<Quality>,
    /// The chord is diminished, and was written `°` rather than `dim`.
    pub(super) circle: bool,
    /// `maj` or a triangle was read: a seventh, if there is one, is major.
    pub(super) major: Option<Word>,
    /// It came after the number, as in `m9(maj7)`, so a 7 may follow it.
    major_after_number: bool,
    /// The number that says how far the chord goes up: 5, 6, 7, 9, 11 or 13.
    pub(super) main: Option<u8>,
    flat_fifth: bool,
    sharp_fifth: bool,
    pub(super) sus2: bool,
    pub(super) sus4: bool,
    pub(super) alt: bool,
    pub(super) no_third: bool,
    pub(super) no_fifth: bool,
    /// A bracket, comma or space came last: a further number is a tension.
    pub(super) separated: bool,
    /// A slash came last, with nothing said of a seventh: a number is an added note.
    pub(super) after_slash: bool,
    /// An altered note was added by the word `add`, which asks for no seventh.
    pub(super) added_by_word: bool,
    /// `dom` was read.
    pub(super) dominant: bool,
    /// The implied tensions that are left out.
    omitted: Vec<u8>,
    added: Degrees,
    assumed: Vec<Assumption>,
}

impl ParsedSymbol {
    /// Does the number imply this tension?
    pub(super) fn implies(&self, number: u8) -> bool {
        self.main.is_some_and(|main| main >= number && main >= 9)
    }

    /// Leaves out a tension that the number implies.
    pub(super) fn omit(&mut self, number: u8) {
        self.omitted.push(number);
    }

    /// Is a triangle all that was said of the seventh?
    pub(super) fn is_lone_triangle(&self) -> bool {
        self.major == Some(Word::Triangle) && self.main.is_none()
    }

    /// The third beside a suspension: what was suspended is an added note then.
    pub(super) fn add_third(&mut self) -> Result<(), ChordProblem> {
        if !self.sus() || self.quality.is_some() {
            return Err(ChordProblem::Added);
        }
        self.assume(Assumption::SusWithThird);
        let (two, four) = (self.sus2, self.sus4);
        (self.sus2, self.sus4) = (false, false);
        if two {
            self.add(Degree::NINTH)?;
        }
        if four { self.add(Degree::ELEVENTH) } else { Ok(()) }
    }

    pub(super) fn assume(&mut self, assumption: Assumption) {
        if !self.assumed.contains(&assumption) {
            self.assumed.push(assumption);
        }
    }

    /// Has nothing been said of a seventh yet?
    pub(super) fn is_bare(&self) -> bool {
        self.main.is_none() && self.major.is_none() && !self.alt
    }

    pub(super) fn quality(&mut self, quality: Quality) -> Result<(), ChordProblem> {
        if self.quality.is_some() || self.main.is_some() {
            return Err(ChordProblem::SecondQuality);
        }
        self.quality = Some(quality);
        Ok(())
    }

    pub(super) fn major(&mut self, word: Word) -> Result<(), ChordProblem> {
        let diminished = self.quality == Some(Quality::Diminished);
        match self.main {
            _ if self.major.is_some() || self.quality == Some(Quality::HalfDiminished) => {
                return Err(ChordProblem::SecondQuality);
            }
            // A diminished seventh may carry the major seventh as a tension.
            Some(7 | 9 | 11 | 13) if diminished => return self.add(Degree::MAJOR_SEVENTH),
            Some(7 | 9 | 11 | 13) => {
                self.major_after_number = true;
                self.assume(Assumption::MajorAfterNumber);
            }
            None | Some(6) => {}
            Some(_) => return Err(ChordProblem::SecondQuality),
        }
        self.major = Some(word);
        Ok(())
    }

    pub(super) fn number(&mut self, number: u8) -> Result<(), ChordProblem> {
        if self.main.is_none() && (!self.alt || number == 7) {
            return self.main_number(number);
        }
        match number {
            // The 7 of a `maj7` that was just added to a diminished seventh.
            7 if self.added.last() == Some(&Degree::MAJOR_SEVENTH) => Ok(()),
            // The 7 of `m9(maj7)`.
            7 if self.major_after_number => Ok(()),
            7 if self.main == Some(6) && self.major.is_some() => self.further_number(7),
            _ if !self.separated => Err(ChordProblem::SecondNumber),
            _ => self.further_number(number),
        }
    }

    /// A number that stands for one more note. Beside a seventh, a 6 is a 13.
    pub(super) fn further_number(&mut self, number: u8) -> Result<(), ChordProblem> {
        let plain_seventh =
            matches!(self.main, Some(7 | 9 | 13)) && self.quality.is_none() && self.major.is_none();
        match number {
            7 if self.main == Some(6) => {
                self.main = Some(7);
                self.add(Degree::THIRTEENTH)
            }
            2 | 9 => self.add(Degree::NINTH),
            4 if plain_seventh => {
                self.assume(Assumption::FourIsSus);
                self.sus4 = true;
                Ok(())
            }
            4 | 11 => self.add(Degree::ELEVENTH),
            6 | 13 => self.add(Degree::THIRTEENTH),
            _ => Err(ChordProblem::SecondNumber),
        }
    }

    fn main_number(&mut self, number: u8) -> Result<(), ChordProblem> {
        let bare = self.quality.is_none() && self.major.is_none();
        match number {
            _ if self.main.is_some() => return Err(ChordProblem::SecondNumber),
            2 => {
                self.assume(Assumption::TwoIsAddedNine);
                return self.add(Degree::NINTH);
            }
            4 if bare => {
                self.assume(Assumption::FourIsSus);
                self.sus4 = true;
                return Ok(());
            }
            4 => return Err(ChordProblem::Number),
            5 if !bare || self.sharp_fifth || self.flat_fifth => {
                return Err(ChordProblem::FifthAfterQuality);
            }
            _ => self.main = Some(number),
        }
        Ok(())
    }

    /// Adds a natural 6, 9, 11 or 13.
    pub(super) fn add_natural(&mut self, number: u8) -> Result<(), ChordProblem> {
        self.add(Degree::new(number, 0).ok_or(ChordProblem::Number)?)
    }

    pub(super) fn add(&mut self, degree: Degree) -> Result<(), ChordProblem> {
        if self.added.contains(&degree) {
            return Ok(());
        }
        if let Some(&kept) = self.added.iter().find(|known| known.semitones() == degree.semitones())
        {
            self.assume(Assumption::SameNote { kept, dropped: degree });
            return Ok(());
        }
        if self.added.push(degree) { Ok(()) } else { Err(ChordProblem::Number) }
    }

    pub(super) fn alter(&mut self, sharps: i8, number: u8) -> Result<(), ChordProblem> {
        self.separated = false;
        match (sharps, number) {
            (-1 | 1, 5) => self.alter_fifth(sharps),
            (-1, 2 | 9) => self.add(Degree::FLAT_NINTH),
            (1, 2 | 9) | (-1, 10) => self.add(Degree::SHARP_NINTH),
            (1, 4 | 11) => self.add(Degree::SHARP_ELEVENTH),
            (-1, 6 | 13) => self.add(Degree::FLAT_THIRTEENTH),
            (-1, 7) if self.is_bare() => self.add(Degree::MINOR_SEVENTH),
            (1, 7) if self.is_bare() && self.quality == Some(Quality::Minor) => {
                self.assume(Assumption::SharpSevenIsMajor);
                self.major = Some(Word::Major);
                self.main_number(7)
            }
            (0, 9 | 11 | 13) if !self.is_bare() || self.quality.is_some() => {
                self.add_natural(number)
            }
            _ => Err(ChordProblem::Alteration),
        }
    }

    pub(super) fn alter_fifth(&mut self, sharps: i8) -> Result<(), ChordProblem> {
        let diminished =
            matches!(self.quality, Some(Quality::Diminished | Quality::HalfDiminished));
        if self.main == Some(5) || (diminished && sharps > 0) {
            return Err(ChordProblem::Fifth);
        }
        if sharps < 0 {
            self.flat_fifth = true;
        } else {
            self.sharp_fifth = true;
        }
        Ok(())
    }

    /// The chord that was read, and what was taken for granted.
    pub(super) fn finish(
        mut self,
        root: NoteName,
        bass: Option<NoteName>,
    ) -> Result<(Chord, Vec<Assumption>), ChordProblem> {
        self.settle()?;
        let mut named: Vec<Degree> = Vec::new();
        let third = self.third();
        let fifths = self.fifths();
        let sevenths = self.sevenths();
        // Over a seventh, which may have been added, a sixth is a thirteenth.
        let six = if sevenths.is_empty() { Degree::SIXTH } else { Degree::THIRTEENTH };
        let sixth = (self.main == Some(6)).then_some(six);
        named.push(Degree::ROOT);
        named.extend(third.into_iter().chain(fifths).chain(sixth));
        named.extend(&sevenths);
        for tension in self.tensions(!sevenths.is_empty()) {
            match named.iter().find(|known| known.semitones() == tension.semitones()) {
                Some(&kept) if kept == tension => {}
                Some(&kept) => self.assume(Assumption::SameNote { kept, dropped: tension }),
                None => named.push(tension),
            }
        }
        let in_order = ORDER.iter().flat_map(|degrees| degrees.iter().copied());
        let degrees = in_order.filter(|degree| named.contains(degree)).collect();
        let chord = Chord::new(root, degrees).over(bass.filter(|bass| *bass != root));
        Ok((if self.alt { chord.written_alt() } else { chord }, self.assumed))
    }

    /// Says what was left open, and refuses what contradicts itself.
    fn settle(&mut self) -> Result<(), ChordProblem> {
        if self.major.is_some() && self.added.contains(&Degree::MINOR_SEVENTH) {
            return Err(ChordProblem::SecondQuality);
        }
        if self.alt {
            let fits = self.main.is_none_or(|main| main == 7) && self.major.is_none();
            if !fits || self.quality.is_some() || self.sus() {
                return Err(ChordProblem::AltOfWhat);
            }
            self.main = Some(7);
            self.assume(Assumption::Alt);
        }
        let diminished =
            matches!(self.quality, Some(Quality::Diminished | Quality::HalfDiminished));
        let altered_fifth = diminished || self.flat_fifth || self.sharp_fifth || self.alt;
        if diminished && (self.sus() || self.sharp_fifth)
            || altered_fifth && self.no_fifth
            || self.main == Some(5) && self.sus()
        {
            return Err(ChordProblem::Fifth);
        }
        if self.no_third && self.quality.is_some() {
            return Err(ChordProblem::Third);
        }
        if self.sus() && self.quality == Some(Quality::Minor) {
            self.assume(Assumption::SusReplacesThird);
        }
        if self.main.is_none() {
            self.settle_number();
        }
        match (self.main, self.quality, self.major) {
            (Some(11), None, None) if !self.sus() => {
                self.assume(Assumption::ElevenIsSus);
                self.sus4 = true;
            }
            (Some(13), None, _) if !self.sus() => self.assume(Assumption::ThirteenWithoutEleven),
            _ => {}
        }
        Ok(())
    }

    /// What a symbol without a number means.
    fn settle_number(&mut self) {
        let tension = self.added.iter().any(|added| added.alteration() != 0);
        if self.quality == Some(Quality::HalfDiminished) {
            self.assume(Assumption::SlashedCircleHasSeventh);
            self.main = Some(7);
        } else if self.major == Some(Word::Triangle) {
            self.assume(Assumption::TriangleIsMajorSeventh);
            self.main = Some(7);
        } else if self.major.is_some() && (self.quality.is_some() || self.sharp_fifth) {
            self.main = Some(7);
        } else if self.circle {
            self.assume(Assumption::CircleIsTriad);
        } else if self.dominant {
            self.assume(Assumption::DominantHasSeventh);
            self.main = Some(7);
        } else if self.sus4 && !self.sus2 && tension && !self.added_by_word {
            self.assume(Assumption::SusTensionHasSeventh);
            self.main = Some(7);
        }
    }

    fn sus(&self) -> bool {
        self.sus2 || self.sus4
    }

    fn third(&self) -> Vec<Degree> {
        if self.sus() {
            let two = self.sus2.then_some(Degree::SECOND);
            return two.into_iter().chain(self.sus4.then_some(Degree::FOURTH)).collect();
        }
        match self.quality {
            _ if self.no_third || self.main == Some(5) => Vec::new(),
            None => vec![Degree::MAJOR_THIRD],
            Some(_) => vec![Degree::MINOR_THIRD],
        }
    }

    fn fifths(&self) -> Vec<Degree> {
        let diminished =
            matches!(self.quality, Some(Quality::Diminished | Quality::HalfDiminished));
        let flat = (self.flat_fifth || diminished || self.alt).then_some(Degree::FLAT_FIFTH);
        let sharp = (self.sharp_fifth || self.alt).then_some(Degree::SHARP_FIFTH);
        let altered: Vec<Degree> = flat.into_iter().chain(sharp).collect();
        match (altered.is_empty(), self.no_fifth) {
            (false, _) => altered,
            (true, true) => Vec::new(),
            (true, false) => vec![Degree::FIFTH],
        }
    }

    /// The seventh that the number asks for, then any that was added.
    fn sevenths(&self) -> Vec<Degree> {
        let from_number = self.main.filter(|main| *main >= 7).map(|_| match self.quality {
            Some(Quality::Diminished) if self.major.is_none() => Degree::DIMINISHED_SEVENTH,
            _ if self.major.is_some() => Degree::MAJOR_SEVENTH,
            _ => Degree::MINOR_SEVENTH,
        });
        let mut sevenths: Vec<Degree> = from_number.into_iter().collect();
        for added in self.added.iter().filter(|added| added.number() == 7) {
            if !sevenths.contains(added) {
                sevenths.push(*added);
            }
        }
        sevenths
    }

    /// Tensions: those that were added or altered, and those that the number implies. An altered
    /// note takes the place of the implied one.
    fn tensions(&self, seventh: bool) -> Vec<Degree> {
        let main = self.main.unwrap_or_default();
        let altered = |number: u8| {
            self.added.iter().any(|added| added.number() == number && added.alteration() != 0)
        };
        let minor = self.quality.is_some();
        let eleven = (main == 11 && !self.sus()) || (main == 13 && minor && !self.sus());
        let mut tensions: Vec<Degree> =
            self.added.iter().copied().filter(|added| added.number() != 7).collect();
        for tension in &mut tensions {
            // Over a seventh a sixth is a thirteenth.
            if seventh && *tension == Degree::SIXTH {
                *tension = Degree::THIRTEENTH;
            }
        }
        for (natural, implied) in [
            (Degree::NINTH, main >= 9),
            (Degree::ELEVENTH, eleven),
            (Degree::THIRTEENTH, main == 13),
        ] {
            let left_out = self.omitted.contains(&natural.number());
            if implied && !left_out && !altered(natural.number()) && !tensions.contains(&natural) {
                tensions.push(natural);
            }
        }
        if self.alt {
            tensions.extend([Degree::FLAT_NINTH, Degree::SHARP_NINTH]);
        }
        tensions
    }
}
