//! The reader of chord symbols: from left to right, word by word.

use super::assumption::Assumption;
use super::parsed_symbol::{ParsedSymbol, Quality};
use super::problem::ChordProblem;
use super::word::{Word, first_word};
use crate::{Chord, Degree, NoteName, ReadError};

/// The longest symbol that is looked at, in characters.
pub(super) const LONGEST: usize = 80;

/// Where in the symbol reading has come to.
pub(super) struct Reader<'a> {
    symbol: &'a str,
    rest: &'a str,
    /// `-` and `+` still mean minor and augmented: nothing but the root has been read.
    sign_is_quality: bool,
    depth: usize,
    /// How many characters after the symbol are not looked at.
    trailing: usize,
}

impl<'a> Reader<'a> {
    /// Reads the root, and stands after it.
    pub(super) fn after_root(
        symbol: &'a str,
        parsed: &mut ParsedSymbol,
    ) -> Result<(NoteName, Reader<'a>), ReadError> {
        if symbol.len() > 4 * LONGEST || symbol.chars().count() > LONGEST {
            return Err(wrong(symbol, LONGEST + 1, "a symbol of at most 80 characters"));
        }
        let body = framed(symbol);
        let (root, rest) = read_root(symbol, body, parsed)?;
        let lead = body.as_ptr() as usize - symbol.as_ptr() as usize;
        let trailing = symbol.get(lead + body.len()..).unwrap_or_default().chars().count();
        let reader = Reader { symbol, rest, sign_is_quality: true, depth: 0, trailing };
        reader.refuse_a_lone_flat_seven()?;
        Ok((root, reader))
    }

    /// `B b7`: is the flat the root's, or the seventh's? Nobody can tell.
    fn refuse_a_lone_flat_seven(&self) -> Result<(), ReadError> {
        let after = self.rest.trim_start();
        let apart = after.len() < self.rest.len();
        let lone = ["b7", "♭7", "b 7", "♭ 7"].iter().any(|flat| after.starts_with(flat));
        if apart && lone {
            let at = self.at() + self.rest.chars().count() - after.chars().count();
            return Err(wrong(self.symbol, at, "the flat next to the root, or none before a 7"));
        }
        Ok(())
    }

    pub(super) fn stands_before_a_number(&self) -> bool {
        self.rest.starts_with(|next: char| next.is_ascii_digit())
    }

    /// The character that comes next, counted from 1.
    fn at(&self) -> usize {
        let left = self.rest.chars().count() + self.trailing;
        self.symbol.chars().count() - left + 1
    }

    /// What is wrong with the symbol at the character that comes next.
    pub(super) fn wrong_here(&self, expected: &'static str) -> ReadError {
        wrong(self.symbol, self.at(), expected)
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
    pub(super) fn read_body(
        &mut self,
        parsed: &mut ParsedSymbol,
    ) -> Result<Option<NoteName>, ReadError> {
        // Transcription corpora write `C:min7`.
        if self.rest.len() > 1 {
            self.take(":");
        }
        while !self.rest.is_empty() {
            if self.rest.starts_with('/') {
                if self.depth == 0 && !self.slash_separates() {
                    return self.read_bass(parsed).map(Some);
                }
                self.skip(1);
                parsed.separated = true;
                parsed.after_slash = parsed.is_bare() && self.stands_before_a_number();
                continue;
            }
            let before = self.at();
            self.read_piece(parsed).map_err(|problem| {
                let at = if problem.is_about_what_was_read() { before } else { self.at() };
                wrong(self.symbol, at, problem.expected())
            })?;
            self.sign_is_quality = false;
            parsed.after_slash = false;
        }
        if self.depth > 0 {
            return Err(self.wrong_here("a closing bracket"));
        }
        Ok(None)
    }

    /// Does a slash stand before a number or a `maj`, as in `C7/b9` and `Cm/maj7`? No bass does.
    fn slash_separates(&self) -> bool {
        let after = self.rest.get(1..).unwrap_or_default();
        let number = after.trim_start_matches(['b', '#', '♭', '♯', '♮', '+', '-']);
        number.starts_with(|next: char| next.is_ascii_digit())
            || matches!(first_word(after), Some((Word::Major | Word::Triangle, _)))
    }

    fn read_bass(&mut self, parsed: &mut ParsedSymbol) -> Result<NoteName, ReadError> {
        self.skip(1);
        self.rest = self.rest.trim_start();
        let at = self.at();
        let (bass, more) = read_note(self.rest, parsed)
            .map_err(|error| wrong(self.symbol, at + error.at() - 1, "a bass note, A to G"))?;
        if more.is_empty() {
            return Ok(bass);
        }
        self.rest = more;
        Err(self.wrong_here("nothing more after the bass note"))
    }

    fn read_piece(&mut self, parsed: &mut ParsedSymbol) -> Result<(), ChordProblem> {
        if self.stands_before_a_number() {
            return self.read_number(parsed);
        }
        let (word, length) = first_word(self.rest).ok_or(ChordProblem::Unknown)?;
        if let Word::Sign { sharps, letter } = word {
            return self.read_sign(parsed, sharps, letter, length);
        }
        self.skip(length);
        parsed.separated = matches!(word, Word::Open | Word::Close | Word::Separator);
        match word {
            Word::Open => self.depth += 1,
            Word::Close => {
                self.depth = self.depth.checked_sub(1).ok_or(ChordProblem::Unopened)?;
            }
            Word::Separator | Word::Sign { .. } => {}
            Word::Dominant => parsed.dominant = true,
            Word::Major | Word::Triangle => parsed.major(word)?,
            Word::Minor => parsed.quality(Quality::Minor)?,
            Word::Diminished => parsed.quality(Quality::Diminished)?,
            Word::Circle => {
                parsed.circle = true;
                parsed.quality(Quality::Diminished)?;
            }
            Word::HalfDiminished => parsed.quality(Quality::HalfDiminished)?,
            Word::Augmented => parsed.alter_fifth(1)?,
            Word::Sus => self.read_sus(parsed)?,
            Word::Alt if parsed.quality.is_some() || parsed.major.is_some() => {
                return Err(ChordProblem::AltOfWhat);
            }
            Word::Alt => parsed.alt = true,
            Word::Add => self.read_added(parsed)?,
            Word::Omit => self.read_omitted(parsed)?,
        }
        Ok(())
    }

    fn read_number(&mut self, parsed: &mut ParsedSymbol) -> Result<(), ChordProblem> {
        let six_nine = self.take("69") || self.take("6/9") || self.take("6add9");
        if six_nine && !self.stands_before_a_number() {
            parsed.number(6)?;
            return parsed.add(Degree::NINTH);
        }
        let digits = self.rest.bytes().take_while(u8::is_ascii_digit).count();
        if digits > 2 || digits == 2 && !["11", "13"].iter().any(|n| self.rest.starts_with(n)) {
            return self.read_row_of_numbers(parsed, digits);
        }
        let number = self.number();
        if let Some(sharps) = self.sign_after(number, parsed) {
            parsed.assume(Assumption::SignAfterNumber);
            return parsed.alter(sharps, number);
        }
        match number {
            9 | 11 | 13 if parsed.after_slash => {
                parsed.assume(Assumption::SlashAdds);
                parsed.add_natural(number)
            }
            9 | 11 | 13 if self.depth > 0 && parsed.is_lone_triangle() => {
                parsed.number(7)?;
                parsed.separated = true;
                parsed.number(number)
            }
            2 | 9 | 11 | 13 if self.depth > 0 && parsed.is_bare() => {
                parsed.assume(Assumption::BracketsAdd);
                parsed.add_natural(if number == 2 { 9 } else { number })
            }
            2 | 4..=7 | 9 | 11 | 13 => parsed.number(number),
            _ => Err(ChordProblem::Number),
        }
    }

    /// A sign that follows a bracketed or separated number and belongs to it, as in `C7(9+)` and
    /// `Cm7(5-)`. Before another number a sign belongs to that one.
    fn sign_after(&mut self, number: u8, parsed: &ParsedSymbol) -> Option<i8> {
        if !matches!(number, 5 | 9 | 11 | 13) || !(self.depth > 0 || parsed.separated) {
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
        parsed: &mut ParsedSymbol,
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
        parsed.assume(Assumption::NumbersInRow);
        let [first, middle @ .., last] = &numbers[..] else { return Err(ChordProblem::Number) };
        parsed.number(*first)?;
        for number in middle {
            parsed.further_number(*number)?;
        }
        match first_word(self.rest) {
            Some((Word::Sign { sharps, letter: true }, length)) => {
                self.skip(length);
                parsed.alter(sharps, *last)
            }
            _ => parsed.further_number(*last),
        }
    }

    /// A flat or sharp before a number; or `-` and `+` as qualities.
    fn read_sign(
        &mut self,
        parsed: &mut ParsedSymbol,
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
            parsed.separated = false;
            if sharps < 0 {
                return parsed.quality(Quality::Minor);
            }
            let mut after = self.rest.chars();
            if after.next() == Some('5') && !after.next().is_some_and(|next| next.is_ascii_digit())
            {
                self.skip(1);
            }
            return parsed.alter_fifth(1);
        }
        if !before_number {
            self.skip(length);
            return Err(ChordProblem::SignWithoutNumber);
        }
        if !letter {
            parsed.assume(Assumption::SignBeforeNumber);
        }
        self.skip(length);
        parsed.alter(sharps, self.number())
    }

    fn read_sus(&mut self, parsed: &mut ParsedSymbol) -> Result<(), ChordProblem> {
        if [" 2", " 4"].iter().any(|number| self.rest.starts_with(number)) {
            self.skip(1);
        }
        let both = ["24", "2/4", "4/2", "2sus4", "4sus2"];
        let [two, four] = if both.iter().any(|both| self.take(both)) {
            [true, true]
        } else if self.take("2") {
            [true, false]
        } else {
            if !self.take("4") {
                parsed.assume(Assumption::SusIsFour);
            }
            [false, true]
        };
        parsed.sus2 |= two;
        parsed.sus4 |= four;
        // A number after it is a tension, as in `7sus13`.
        parsed.separated = parsed.main.is_some();
        Ok(())
    }

    fn read_added(&mut self, parsed: &mut ParsedSymbol) -> Result<(), ChordProblem> {
        while self.take(" ")
            || self.take("(") && {
                self.depth += 1;
                true
            }
        {}
        let here = self.rest;
        let sharps = match first_word(self.rest) {
            // `add maj7` is read as `maj7` is by itself.
            Some((Word::Major | Word::Triangle, _)) => return Ok(()),
            Some((Word::Sign { sharps, .. }, length)) => {
                self.skip(length);
                sharps
            }
            _ => 0,
        };
        let number = self.number();
        if sharps != 0 {
            parsed.added_by_word = true;
        }
        let added = match (sharps, number) {
            (0, 3) => parsed.add_third(),
            (0, 2) => parsed.add(Degree::NINTH),
            (0, 4) => parsed.add(Degree::ELEVENTH),
            (0, number @ (6 | 9 | 11 | 13)) => parsed.add_natural(number),
            (-1 | 0, 7) => parsed.alter(-1, 7),
            (_, 0) | (0, _) => Err(ChordProblem::Added),
            (sharps, number) => parsed.alter(sharps, number),
        };
        // What cannot be added is pointed at, not what comes after it.
        added.inspect_err(|_| self.rest = here)
    }

    fn read_omitted(&mut self, parsed: &mut ParsedSymbol) -> Result<(), ChordProblem> {
        loop {
            while self.take(" ") {}
            let here = self.rest;
            match self.number() {
                3 => parsed.no_third = true,
                5 => parsed.no_fifth = true,
                number @ (9 | 11 | 13) if parsed.implies(number) => parsed.omit(number),
                _ => {
                    self.rest = here;
                    return Err(ChordProblem::Omitted);
                }
            }
            let _ordinal = self.take("rd") || self.take("th");
            // `no3,5` leaves out both.
            let more = self.rest.trim_start_matches([',', ' ']);
            let goes_on = more.len() < self.rest.len() && self.rest.starts_with(',');
            if !goes_on || !more.starts_with(|next: char| next.is_ascii_digit()) {
                return Ok(());
            }
            self.rest = more;
        }
    }
}

/// The symbol without what surrounds it: space, a full stop, brackets around all of it.
fn framed(symbol: &str) -> &str {
    let body = symbol.trim();
    let body = if Chord::is_no_chord(body) { body } else { body.trim_end_matches(['.', ',', ';']) };
    let inner = [('(', ')'), ('[', ']')].into_iter().find_map(|(open, close)| {
        let inner = body.strip_prefix(open)?.strip_suffix(close)?;
        (!inner.contains([open, close])).then_some(inner)
    });
    inner.unwrap_or(body).trim()
}

/// A note at the beginning of `text`, whose letter may be small; that is said.
fn read_note<'a>(
    text: &'a str,
    parsed: &mut ParsedSymbol,
) -> Result<(NoteName, &'a str), ReadError> {
    let Some(letter) = text.chars().next().filter(|first| matches!(first, 'a'..='g')) else {
        return NoteName::read_prefix(text);
    };
    // Two signs more than the letter are all that a name can have.
    let head: String = text.chars().skip(1).take(3).collect();
    let capital = format!("{}{head}", letter.to_ascii_uppercase());
    let (note, left) = NoteName::read_prefix(&capital)?;
    parsed.assume(Assumption::SmallLetter);
    Ok((note, text.get(capital.len() - left.len()..).unwrap_or_default()))
}

/// The ways in which charts ask for no chord at all.
const NO_CHORD: [&str; 4] = ["N.C.", "NC", "N.C", "n.c."];

impl Chord {
    /// Does a text ask for no chord at all, as `N.C.` does?
    #[must_use]
    pub fn is_no_chord(text: &str) -> bool {
        NO_CHORD.contains(&text.trim())
    }
}

fn read_root<'a>(
    symbol: &str,
    body: &'a str,
    parsed: &mut ParsedSymbol,
) -> Result<(NoteName, &'a str), ReadError> {
    if Chord::is_no_chord(body) {
        return Err(wrong(symbol, 1, "a chord; N.C. asks for none"));
    }
    let before = body.as_ptr() as usize - symbol.as_ptr() as usize;
    let lead = symbol.get(..before).unwrap_or_default().chars().count();
    if let Some((at, hint)) = foreign_name(body) {
        return Err(wrong(symbol, lead + at, hint));
    }
    let (root, rest) = read_note(body, parsed)
        .map_err(|error| error.within("chord", symbol, lead + 1).quoting(symbol, LONGEST))?;
    if root.accidental().abs() > 1 {
        // The sign that is one too many is the last one read.
        let at = lead + body.chars().count() - rest.chars().count();
        return Err(wrong(symbol, at, "a root with at most one accidental"));
    }
    Ok((root, rest))
}

/// Names of other languages, and two signs of which nobody can tell to what the second belongs: where
/// they go wrong, and how they are written here.
fn foreign_name(body: &str) -> Option<(usize, &'static str)> {
    let mut signs = body.chars();
    let letter = signs.next()?.to_ascii_uppercase();
    let rest = signs.as_str();
    let is_name = |ending: &str| {
        let after = rest.strip_prefix(ending);
        // `Esus` and `Asus4` go on with a suspension.
        after.is_some_and(|after| !after.starts_with(['u', 's']))
    };
    if matches!(letter, 'A'..='G') && is_name("is") {
        return Some((2, "# for -is, as in F#7 for Fis7"));
    }
    let flat = match letter {
        'A' | 'E' => is_name("s") || is_name("es"),
        'B' | 'C' | 'D' | 'F' | 'G' => is_name("es"),
        _ => false,
    };
    if flat {
        return Some((2, "b for -es and -s, as in Bb7 for Bes7 and Eb7 for Es7"));
    }
    let both = ["b#", "♭♯", "#b", "♯♭"].iter().any(|both| rest.starts_with(both));
    let number = rest.chars().nth(2).is_some_and(|next| next.is_ascii_digit());
    (both && number).then_some((3, "the second sign in brackets, as in Db(#5)"))
}

/// A symbol that is wrong from a character on.
fn wrong(symbol: &str, at: usize, expected: &'static str) -> ReadError {
    ReadError::at_character("chord", symbol, at, expected).quoting(symbol, LONGEST)
}
