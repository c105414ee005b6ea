//! Reading chord symbols.
//!
//! A symbol is read from left to right, word by word, into a [`Draft`]; at the end the draft is
//! turned into degrees. Some signs mean what their place says: `-` and `+` right after the root are
//! minor and augmented, before a later number they are a flat and a sharp. Nothing is guessed
//! silently: what a symbol leaves open is returned as [`Assumption`]s.

use std::fmt;
use std::str::FromStr;

use super::word::{Word, first_word};
use super::{Assumption, Chord, ORDER, TENSIONS};
use crate::{Degree, Degrees, NoteError, NoteName};

/// The longest symbol that is looked at, in characters.
const LONGEST: usize = 80;

/// A chord with what was taken for granted in reading it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadChord {
    /// The chord.
    pub chord: Chord,
    /// What the symbol left open, and how it was read.
    pub assumed: Vec<Assumption>,
}

impl FromStr for Chord {
    type Err = ChordError;

    fn from_str(symbol: &str) -> Result<Chord, ChordError> {
        Ok(symbol.parse::<ReadChord>()?.chord)
    }
}

impl FromStr for ReadChord {
    type Err = ChordError;

    /// Reads a chord symbol in any common dialect, in time linear in its length.
    fn from_str(symbol: &str) -> Result<ReadChord, ChordError> {
        if symbol.len() > 4 * LONGEST || symbol.chars().count() > LONGEST {
            return Err(ChordError::new(symbol, LONGEST + 1, ChordProblem::TooLong));
        }
        let body = symbol.trim();
        let (root, rest) = read_root(symbol, body)?;
        let mut draft = Draft::default();
        if root.accidental() == -1
            && !NoteName::is_everyday(root)
            && rest.starts_with(|next: char| next.is_ascii_digit())
        {
            draft.assume(Assumption::FlatBelongsToRoot);
        }
        let mut reader = Reader { symbol, rest, sign_is_quality: true, depth: 0 };
        let bass = reader.read_body(&mut draft)?;
        draft.finish(root, bass, &reader)
    }
}

/// The ways in which charts ask for no chord at all.
const NO_CHORD: [&str; 4] = ["N.C.", "NC", "N.C", "n.c."];

fn read_root<'a>(symbol: &str, body: &'a str) -> Result<(NoteName, &'a str), ChordError> {
    if NO_CHORD.contains(&body) {
        return Err(ChordError::new(symbol, 1, ChordProblem::NoChord));
    }
    let lead = symbol.chars().take_while(|char| char.is_whitespace()).count();
    let (root, rest) = NoteName::read_prefix(body)
        .map_err(|error| ChordError::new(symbol, lead + error.at(), ChordProblem::Root(error)))?;
    if root.accidental().abs() > 1 {
        return Err(ChordError::new(symbol, lead + 3, ChordProblem::DoubleAccidental));
    }
    Ok((root, rest))
}

/// Where in the symbol reading has come to.
struct Reader<'a> {
    symbol: &'a str,
    rest: &'a str,
    /// `-` and `+` still mean minor and augmented: nothing but the root has been read.
    sign_is_quality: bool,
    depth: usize,
}

impl<'a> Reader<'a> {
    /// The character that comes next, counted from 1.
    fn at(&self) -> usize {
        let left = self.rest.chars().count() + trailing_space(self.symbol);
        self.symbol.chars().count() - left + 1
    }

    fn error(&self, problem: ChordProblem) -> ChordError {
        ChordError::new(self.symbol, self.at(), problem)
    }

    fn skip(&mut self, bytes: usize) {
        self.rest = self.rest.get(bytes..).unwrap_or_default();
    }

    fn take(&mut self, text: &str) -> bool {
        let there = self.rest.starts_with(text);
        if there {
            self.skip(text.len());
        }
        there
    }

    /// A number of at most two digits, 0 where none stands here.
    fn number(&mut self) -> u8 {
        let digits = self.rest.bytes().take_while(u8::is_ascii_digit).count();
        match self.rest.get(..digits).and_then(|digits| digits.parse().ok()) {
            Some(number) if digits <= 2 => {
                self.skip(digits);
                number
            }
            _ => 0,
        }
    }

    /// Reads all that follows the root; gives the bass where there is one.
    fn read_body(&mut self, draft: &mut Draft) -> Result<Option<NoteName>, ChordError> {
        // Transcription corpora write `C:min7`.
        if self.rest.len() > 1 {
            self.take(":");
        }
        while !self.rest.is_empty() {
            if self.rest.starts_with('/') {
                if self.depth == 0 && !self.slash_separates() {
                    return self.read_bass().map(Some);
                }
                self.skip(1);
                draft.separated = true;
                continue;
            }
            let before = self.at();
            self.read_piece(draft).map_err(|problem| {
                let at = if problem.is_about_what_was_read() { before } else { self.at() };
                ChordError::new(self.symbol, at, problem)
            })?;
            self.sign_is_quality = false;
        }
        if self.depth > 0 { Err(self.error(ChordProblem::Unclosed)) } else { Ok(None) }
    }

    /// Does a slash stand before a number or a `maj`, as in `C7/b9` and `Cm/maj7`? No bass does.
    fn slash_separates(&self) -> bool {
        let after = self.rest.get(1..).unwrap_or_default();
        let number = after.trim_start_matches(['b', '#', '♭', '♯', '♮', '+', '-']);
        number.starts_with(|next: char| next.is_ascii_digit())
            || matches!(first_word(after), Some((Word::Major | Word::Triangle, _)))
    }

    fn read_bass(&mut self) -> Result<NoteName, ChordError> {
        self.skip(1);
        self.rest = self.rest.trim_start();
        let at = self.at();
        let problem = |error: NoteError| {
            ChordError::new(self.symbol, at + error.at() - 1, ChordProblem::Bass(error))
        };
        self.rest.parse().map_err(problem)
    }

    fn read_piece(&mut self, draft: &mut Draft) -> Result<(), ChordProblem> {
        if self.rest.starts_with(|next: char| next.is_ascii_digit()) {
            return self.read_number(draft);
        }
        let (word, length) = first_word(self.rest).ok_or(ChordProblem::Unknown)?;
        if let Word::Sign { sharps, letter } = word {
            return self.read_sign(draft, sharps, letter, length);
        }
        self.skip(length);
        draft.separated = matches!(word, Word::Open | Word::Close | Word::Separator);
        match word {
            Word::Open => self.depth += 1,
            Word::Close => {
                self.depth = self.depth.checked_sub(1).ok_or(ChordProblem::Unopened)?;
            }
            Word::Separator | Word::Dominant | Word::Sign { .. } => {}
            Word::Major | Word::Triangle => draft.major(word)?,
            Word::Minor => draft.quality(Quality::Minor)?,
            Word::Diminished => draft.quality(Quality::Diminished)?,
            Word::Circle => {
                draft.circle = true;
                draft.quality(Quality::Diminished)?;
            }
            Word::HalfDiminished => draft.quality(Quality::HalfDiminished)?,
            Word::Augmented => draft.alter_fifth(1)?,
            Word::Sus => self.read_sus(draft)?,
            Word::Alt => draft.alt = true,
            Word::Add => self.read_added(draft)?,
            Word::Omit => self.read_omitted(draft)?,
        }
        Ok(())
    }

    fn read_number(&mut self, draft: &mut Draft) -> Result<(), ChordProblem> {
        let six_nine = self.take("69") || self.take("6/9") || self.take("6add9");
        if six_nine && !self.rest.starts_with(|next: char| next.is_ascii_digit()) {
            draft.number(6)?;
            return draft.add(Degree::new(9, 0));
        }
        let digits = self.rest.bytes().take_while(u8::is_ascii_digit).count();
        if digits > 2 || digits == 2 && !["11", "13"].iter().any(|n| self.rest.starts_with(n)) {
            return self.read_row_of_numbers(draft, digits);
        }
        let number = self.number();
        if let Some(sharps) = self.sign_after(number, draft) {
            draft.assume(Assumption::SignAfterNumber);
            return draft.alter(sharps, number);
        }
        match number {
            2 | 9 | 11 | 13 if self.depth > 0 && draft.is_bare() => {
                draft.assume(Assumption::BracketsAdd);
                draft.add(Degree::new(if number == 2 { 9 } else { number }, 0))
            }
            2 | 4..=7 | 9 | 11 | 13 => draft.number(number),
            _ => Err(ChordProblem::Number),
        }
    }

    /// A sign that follows a bracketed or separated number and belongs to it, as in `C7(9+)` and
    /// `Cm7(5-)`. Before another number a sign belongs to that one.
    fn sign_after(&mut self, number: u8, draft: &Draft) -> Option<i8> {
        if !matches!(number, 5 | 9 | 11 | 13) || !(self.depth > 0 || draft.separated) {
            return None;
        }
        let Some((Word::Sign { sharps, .. }, length)) = first_word(self.rest) else { return None };
        let after = self.rest.get(length..).unwrap_or_default();
        let ends = after.is_empty() || after.starts_with([')', ']', ',', '/', ' ']);
        ends.then(|| self.skip(length)).map(|()| sharps)
    }

    /// Numbers in a row, as transcribers write them: `79` is a 7 with a 9, `7911#` has a ♯11. A
    /// sign after the last one belongs to it, since no number follows.
    fn read_row_of_numbers(
        &mut self,
        draft: &mut Draft,
        digits: usize,
    ) -> Result<(), ChordProblem> {
        let mut row = self.rest.get(..digits).unwrap_or_default();
        let mut numbers: Vec<u8> = Vec::new();
        while !row.is_empty() {
            let known = ["13", "11", "9", "7", "6"].into_iter().find(|n| row.starts_with(n));
            let number = known.ok_or(ChordProblem::Number)?;
            row = row.get(number.len()..).unwrap_or_default();
            numbers.push(number.parse().map_err(|_| ChordProblem::Number)?);
        }
        self.skip(digits);
        draft.assume(Assumption::NumbersInRow);
        let [first, middle @ .., last] = &numbers[..] else { return Err(ChordProblem::Number) };
        draft.number(*first)?;
        for number in middle {
            draft.further_number(*number)?;
        }
        match first_word(self.rest) {
            Some((Word::Sign { sharps, letter: true }, length)) => {
                self.skip(length);
                draft.alter(sharps, *last)
            }
            _ => draft.further_number(*last),
        }
    }

    /// A flat or sharp before a number; or `-` and `+` as qualities.
    fn read_sign(
        &mut self,
        draft: &mut Draft,
        sharps: i8,
        letter: bool,
        length: usize,
    ) -> Result<(), ChordProblem> {
        let before_number = self
            .rest
            .get(length..)
            .is_some_and(|rest| rest.starts_with(|next: char| next.is_ascii_digit()));
        if !letter && (self.sign_is_quality || (sharps > 0 && !before_number)) {
            self.skip(length);
            draft.separated = false;
            if sharps < 0 {
                return draft.quality(Quality::Minor);
            }
            if self.rest == "5" {
                self.skip(1);
            }
            return draft.alter_fifth(1);
        }
        if !before_number {
            self.skip(length);
            return Err(ChordProblem::SignWithoutNumber);
        }
        if !letter {
            draft.assume(Assumption::SignBeforeNumber);
        }
        self.skip(length);
        draft.alter(sharps, self.number())
    }

    fn read_sus(&mut self, draft: &mut Draft) -> Result<(), ChordProblem> {
        let both = ["24", "2/4", "4/2", "2sus4", "4sus2"];
        let [two, four] = if both.iter().any(|both| self.take(both)) {
            [true, true]
        } else if self.take("2") {
            [true, false]
        } else {
            if !self.take("4") {
                draft.assume(Assumption::SusIsFour);
            }
            [false, true]
        };
        draft.sus2 |= two;
        draft.sus4 |= four;
        // A number after it is a tension, as in `7sus13`.
        draft.separated = draft.main.is_some();
        Ok(())
    }

    fn read_added(&mut self, draft: &mut Draft) -> Result<(), ChordProblem> {
        while self.take(" ")
            || self.take("(") && {
                self.depth += 1;
                true
            }
        {}
        let sharps = match first_word(self.rest) {
            Some((Word::Sign { sharps, .. }, length)) => {
                self.skip(length);
                sharps
            }
            _ => 0,
        };
        match (sharps, self.number()) {
            (0, 2) => draft.add(Degree::new(9, 0)),
            (0, 4) => draft.add(Degree::new(11, 0)),
            (0, number @ (6 | 9 | 11 | 13)) => draft.add(Degree::new(number, 0)),
            (-1 | 0, 7) => draft.alter(-1, 7),
            (_, 0) | (0, _) => Err(ChordProblem::Added),
            (sharps, number) => draft.alter(sharps, number),
        }
    }

    fn read_omitted(&mut self, draft: &mut Draft) -> Result<(), ChordProblem> {
        while self.take(" ") {}
        match self.number() {
            3 => draft.no_third = true,
            5 => draft.no_fifth = true,
            _ => return Err(ChordProblem::Omitted),
        }
        let _ordinal = self.take("rd") || self.take("th");
        Ok(())
    }
}

fn trailing_space(symbol: &str) -> usize {
    symbol.chars().rev().take_while(|char| char.is_whitespace()).count()
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Quality {
    Minor,
    Diminished,
    HalfDiminished,
}

/// What has been read of a symbol so far.
#[derive(Default)]
struct Draft {
    quality: Option<Quality>,
    circle: bool,
    /// `maj` or a triangle was read: a seventh, if there is one, is major.
    major: Option<Word>,
    /// It came after the number, as in `m9(maj7)`, so a 7 may follow it.
    major_after_number: bool,
    /// The number that says how far the chord goes up: 5, 6, 7, 9, 11 or 13.
    main: Option<u8>,
    flat_fifth: bool,
    sharp_fifth: bool,
    sus2: bool,
    sus4: bool,
    alt: bool,
    no_third: bool,
    no_fifth: bool,
    /// A bracket, comma or space came last: a further number is a tension.
    separated: bool,
    added: Degrees,
    assumed: Vec<Assumption>,
}

impl Draft {
    fn assume(&mut self, assumption: Assumption) {
        if !self.assumed.contains(&assumption) {
            self.assumed.push(assumption);
        }
    }

    /// Has nothing been said of a seventh yet?
    fn is_bare(&self) -> bool {
        self.main.is_none() && self.major.is_none() && !self.alt
    }

    fn quality(&mut self, quality: Quality) -> Result<(), ChordProblem> {
        if self.quality.is_some() || self.main.is_some() {
            return Err(ChordProblem::SecondQuality);
        }
        self.quality = Some(quality);
        Ok(())
    }

    fn major(&mut self, word: Word) -> Result<(), ChordProblem> {
        let diminished = self.quality == Some(Quality::Diminished);
        match self.main {
            _ if self.major.is_some() || self.quality == Some(Quality::HalfDiminished) => {
                return Err(ChordProblem::SecondQuality);
            }
            // A diminished seventh may carry the major seventh as a tension.
            Some(7 | 9 | 11 | 13) if diminished => return self.add(Degree::new(7, 0)),
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

    fn number(&mut self, number: u8) -> Result<(), ChordProblem> {
        if self.main.is_none() && (!self.alt || number == 7) {
            return self.main_number(number);
        }
        let seventh = Degree::new(7, 0);
        match number {
            // The 7 of a `maj7` that was just added to a diminished seventh.
            7 if self.added.last().copied() == seventh && seventh.is_some() => Ok(()),
            // The 7 of `m9(maj7)`.
            7 if self.major_after_number => Ok(()),
            7 if self.main == Some(6) && self.major.is_some() => self.further_number(7),
            _ if !self.separated => Err(ChordProblem::SecondNumber),
            _ => self.further_number(number),
        }
    }

    /// A number that stands for one more note. Beside a seventh, a 6 is a 13.
    fn further_number(&mut self, number: u8) -> Result<(), ChordProblem> {
        let plain_seventh =
            matches!(self.main, Some(7 | 9 | 13)) && self.quality.is_none() && self.major.is_none();
        match number {
            7 if self.main == Some(6) => {
                self.main = Some(7);
                self.add(Degree::new(13, 0))
            }
            2 | 9 => self.add(Degree::new(9, 0)),
            4 if plain_seventh => {
                self.assume(Assumption::FourIsSus);
                self.sus4 = true;
                Ok(())
            }
            4 | 11 => self.add(Degree::new(11, 0)),
            6 | 13 => self.add(Degree::new(13, 0)),
            _ => Err(ChordProblem::SecondNumber),
        }
    }

    fn main_number(&mut self, number: u8) -> Result<(), ChordProblem> {
        let bare = self.quality.is_none() && self.major.is_none();
        match number {
            _ if self.main.is_some() => return Err(ChordProblem::SecondNumber),
            2 => {
                self.assume(Assumption::TwoIsAddedNine);
                return self.add(Degree::new(9, 0));
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

    fn add(&mut self, degree: Option<Degree>) -> Result<(), ChordProblem> {
        let degree = degree.ok_or(ChordProblem::Number)?;
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

    fn alter(&mut self, sharps: i8, number: u8) -> Result<(), ChordProblem> {
        self.separated = false;
        match (sharps, number) {
            (-1 | 1, 5) => self.alter_fifth(sharps),
            (-1, 2 | 9) => self.add(Degree::new(9, -1)),
            (1, 2 | 9) | (-1, 10) => self.add(Degree::new(9, 1)),
            (1, 4 | 11) => self.add(Degree::new(11, 1)),
            (-1, 6 | 13) => self.add(Degree::new(13, -1)),
            (-1, 7) if self.is_bare() => self.add(Degree::new(7, -1)),
            (1, 7) if self.is_bare() && self.quality == Some(Quality::Minor) => {
                self.assume(Assumption::SharpSevenIsMajor);
                self.major = Some(Word::Major);
                self.main_number(7)
            }
            (0, 9 | 11 | 13) if !self.is_bare() || self.quality.is_some() => {
                self.add(Degree::new(number, 0))
            }
            _ => Err(ChordProblem::Alteration),
        }
    }

    fn alter_fifth(&mut self, sharps: i8) -> Result<(), ChordProblem> {
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

    /// Turns what was read into degrees.
    fn finish(
        mut self,
        root: NoteName,
        bass: Option<NoteName>,
        reader: &Reader<'_>,
    ) -> Result<ReadChord, ChordError> {
        self.settle().map_err(|problem| reader.error(problem))?;
        let mut named: Vec<Degree> = Vec::new();
        let third = self.third();
        let fifths = self.fifths();
        let sevenths = self.sevenths();
        let sixth = (self.main == Some(6)).then(|| degree(6, 0));
        named.push(degree(1, 0));
        named.extend(third.into_iter().chain(fifths).chain(sixth));
        named.extend(&sevenths);
        for tension in self.tensions(!sevenths.is_empty()) {
            match named.iter().find(|known| known.semitones() == tension.semitones()) {
                Some(&kept) if kept == tension => {}
                Some(&kept) => self.assume(Assumption::SameNote { kept, dropped: tension }),
                None => named.push(tension),
            }
        }
        let mut degrees = Degrees::EMPTY;
        for degree in ORDER.iter().chain(TENSIONS.iter()) {
            if named.contains(degree) {
                degrees.push(*degree);
            }
        }
        let bass = bass.filter(|bass| *bass != root);
        Ok(ReadChord { chord: Chord { root, bass, degrees, alt: self.alt }, assumed: self.assumed })
    }

    /// Says what was left open, and refuses what contradicts itself.
    fn settle(&mut self) -> Result<(), ChordProblem> {
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
        } else if self.sus() && tension {
            self.assume(Assumption::SusTensionHasSeventh);
            self.main = Some(7);
        }
    }

    fn sus(&self) -> bool {
        self.sus2 || self.sus4
    }

    fn third(&self) -> Vec<Degree> {
        if self.sus() {
            let two = self.sus2.then(|| degree(2, 0));
            return two.into_iter().chain(self.sus4.then(|| degree(4, 0))).collect();
        }
        match self.quality {
            _ if self.no_third || self.main == Some(5) => Vec::new(),
            None => vec![degree(3, 0)],
            Some(_) => vec![degree(3, -1)],
        }
    }

    fn fifths(&self) -> Vec<Degree> {
        let diminished =
            matches!(self.quality, Some(Quality::Diminished | Quality::HalfDiminished));
        let flat = (self.flat_fifth || diminished || self.alt).then(|| degree(5, -1));
        let sharp = (self.sharp_fifth || self.alt).then(|| degree(5, 1));
        let altered: Vec<Degree> = flat.into_iter().chain(sharp).collect();
        match (altered.is_empty(), self.no_fifth) {
            (false, _) => altered,
            (true, true) => Vec::new(),
            (true, false) => vec![degree(5, 0)],
        }
    }

    /// The seventh that the number asks for, then any that was added.
    fn sevenths(&self) -> Vec<Degree> {
        let from_number = self.main.filter(|main| *main >= 7).map(|_| match self.quality {
            Some(Quality::Diminished) if self.major.is_none() => degree(7, -2),
            _ if self.major.is_some() => degree(7, 0),
            _ => degree(7, -1),
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
            if seventh && *tension == degree(6, 0) {
                *tension = degree(13, 0);
            }
        }
        for (number, implied) in [(9, main >= 9), (11, eleven), (13, main == 13)] {
            let natural = degree(number, 0);
            if implied && !altered(number) && !tensions.contains(&natural) {
                tensions.push(natural);
            }
        }
        if self.alt {
            tensions.extend([degree(9, -1), degree(9, 1)]);
        }
        tensions
    }
}

/// A degree that certainly exists.
fn degree(number: u8, sharps: i8) -> Degree {
    Degree::new(number, sharps).unwrap_or(Degree::ROOT)
}

/// Why a chord symbol could not be read, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChordError {
    symbol: String,
    at: usize,
    problem: ChordProblem,
}

/// What is wrong with a chord symbol.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum ChordProblem {
    /// It does not begin with a note name.
    Root(NoteError),
    /// `N.C.`: there is no chord to read.
    NoChord,
    /// The root carries two accidentals.
    DoubleAccidental,
    /// No word of any chord symbol begins here.
    Unknown,
    /// A number that chords do not use.
    Number,
    /// A second number that is neither bracketed nor altered.
    SecondNumber,
    /// A second quality, or one after the number.
    SecondQuality,
    /// A 5 after a quality: an altered fifth or a power chord?
    FifthAfterQuality,
    /// `no3` after a quality that names the third.
    Third,
    /// A fifth that contradicts the quality.
    Fifth,
    /// A flat or sharp that no number follows.
    SignWithoutNumber,
    /// An alteration that makes another chord tone.
    Alteration,
    /// `add` without a note to add.
    Added,
    /// `no` or `omit` without 3 or 5.
    Omitted,
    /// `alt` on anything but a dominant seventh.
    AltOfWhat,
    /// A bracket that is not closed.
    Unclosed,
    /// A closing bracket that nothing opened.
    Unopened,
    /// What follows the slash is no note.
    Bass(NoteError),
    /// The symbol is longer than any chord.
    TooLong,
}

impl ChordProblem {
    /// Is the mistake the piece just read, rather than what comes after it?
    fn is_about_what_was_read(&self) -> bool {
        !matches!(
            self,
            ChordProblem::Added | ChordProblem::Omitted | ChordProblem::SignWithoutNumber
        )
    }
}

impl ChordError {
    fn new(symbol: &str, at: usize, problem: ChordProblem) -> Self {
        ChordError { symbol: symbol.chars().take(LONGEST).collect(), at, problem }
    }

    /// Which character, counted from 1.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What is wrong.
    #[must_use]
    pub fn problem(&self) -> &ChordProblem {
        &self.problem
    }

    /// What could stand there instead.
    #[must_use]
    pub fn expected(&self) -> &'static str {
        match &self.problem {
            ChordProblem::Root(error) => match error.problem() {
                crate::NoteProblem::LowerCase => "a capital root, A to G (a small b is a flat)",
                _ => error.expected(),
            },
            ChordProblem::NoChord => "a chord; N.C. asks for none",
            ChordProblem::DoubleAccidental => "a root with at most one accidental",
            ChordProblem::Unknown => {
                "a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, no, \
                 alt, or /bass"
            }
            ChordProblem::Number => "one of 2, 4, 5, 6, 7, 9, 11, 13 or 6/9",
            ChordProblem::SecondNumber => "an alteration, or the number in brackets as in C7(13)",
            ChordProblem::SecondQuality => "one quality, before the number",
            ChordProblem::FifthAfterQuality => "b5 or #5, or 5 right after the root",
            ChordProblem::Third => "either no3 or a quality with a third",
            ChordProblem::Fifth => "a fifth that agrees with the quality",
            ChordProblem::SignWithoutNumber => "a number after the flat or sharp, as in b9",
            ChordProblem::Alteration => "one of b5, #5, b9, #9, #11, b13",
            ChordProblem::Added => "a note to add: 2, 4, 6, 9, 11, 13 or an altered one",
            ChordProblem::Omitted => "3 or 5",
            ChordProblem::AltOfWhat => "alt on a dominant seventh, as in C7alt",
            ChordProblem::Unclosed => "a closing bracket",
            ChordProblem::Unopened => "no closing bracket, as none was opened",
            ChordProblem::Bass(error) => match error.problem() {
                crate::NoteProblem::Trailing => "nothing more after the bass note",
                _ => "a bass note, A to G",
            },
            ChordProblem::TooLong => "a symbol of at most 80 characters",
        }
    }
}

impl fmt::Display for ChordError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ChordError { symbol, at, .. } = self;
        write!(f, "cannot read the chord \"{symbol}\" at character {at}: expected ")?;
        f.write_str(self.expected())
    }
}

impl std::error::Error for ChordError {}
