//! Reads a tab again, from its text alone: where each note lies, when it begins and how long it is.
//!
//! It shares no code with what writes tabs, and knows only what the legend of a tab says.

use std::collections::BTreeMap;

/// A length in parts of a quarter note, exact for all that is counted in the tests.
pub(crate) type Parts = i64;

/// Parts of a quarter note: 64ths with tuplets of 3, 5 and 7, twice over.
pub(crate) const QUARTER: Parts = 64 * 9 * 25 * 49;

/// A note that was found.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct Found {
    /// How many bars stand before its bar.
    pub(crate) bar: u64,
    pub(crate) onset: Parts,
    pub(crate) string: u8,
    pub(crate) fret: u8,
    pub(crate) duration: Parts,
}

/// A moment with a sign above it.
struct Sign {
    at: Parts,
    kind: Kind,
    bar: u64,
    /// By string: a fret and whether it is tied, or that the string goes on.
    strings: BTreeMap<u8, OnString>,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Kind {
    Begins,
    GoesOn,
    Stops,
    Grace,
    Rolled,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum OnString {
    Struck(u8),
    GoesOn,
}

/// Where the reader is in the music.
struct Reader {
    units: Parts,
    kind: Parts,
    bar: u64,
    bar_from: Parts,
    /// Beats before the beginning of the bar that are not there.
    missing: Parts,
    beat: Parts,
    signs: Vec<Sign>,
}

/// The notes of a whole tab, in the order of time.
pub(crate) fn read(text: &str) -> Vec<Found> {
    let meter = text.lines().find_map(|line| meter(line.split(',').next()?)).expect("a meter");
    let mut reader = Reader {
        units: meter.0,
        kind: meter.1,
        bar: 0,
        bar_from: 0,
        missing: 0,
        beat: 0,
        signs: Vec::new(),
    };
    let mut pieces = Vec::new();
    for block in text.split("\n\n") {
        let rows: Vec<Vec<char>> = block.lines().map(|line| line.chars().collect()).collect();
        if let Some(first) = rows.iter().position(|row| label(row).is_some()) {
            pieces.extend(pieces_of(&rows, first));
        }
    }
    let mut rest = pieces.as_slice();
    while !rest.is_empty() {
        let whole = rest.iter().position(|piece| !piece.is_broken).expect("the end of a bar");
        reader.read_bar(&rest[..=whole]);
        rest = &rest[whole + 1..];
    }
    reader.finish()
}

/// `4/4`
fn meter(text: &str) -> Option<(Parts, Parts)> {
    let (units, kind) = text.trim().split_once('/')?;
    Some((units.parse().ok()?, kind.parse().ok()?))
}

/// The number of the string of a row, and where its first bar line stands.
fn label(row: &[char]) -> Option<(u8, usize)> {
    let text: String = row.iter().collect();
    let number = text.split_whitespace().next()?.parse().ok()?;
    let line = row.iter().position(|sign| ['|', ':'].contains(sign))?;
    // Only the name of the string stands before it.
    (text.chars().take(line).collect::<String>().split_whitespace().count() == 2)
        .then_some((number, line))
}

/// A bar, or what one line holds of it.
struct Piece {
    head: String,
    counts: String,
    /// By number, from the bar line on.
    strings: Vec<(u8, Vec<char>)>,
    is_broken: bool,
}

fn pieces_of(rows: &[Vec<char>], first: usize) -> Vec<Piece> {
    let strings = rows.iter().skip(first);
    let strings: Vec<(u8, &Vec<char>)> =
        strings.map_while(|row| label(row).map(|(number, _)| (number, row))).collect();
    let (_, from) = label(&rows[first]).unwrap();
    let is_line = |column: &usize| ['|', ':'].contains(&rows[first][*column]);
    let lines: Vec<usize> = (from..rows[first].len()).filter(is_line).collect();
    let piece = |ends: &[usize]| {
        let cut = |row: &Vec<char>| row[ends[0].min(row.len())..ends[1].min(row.len())].to_vec();
        Piece {
            head: cut(&rows[0]).iter().collect(),
            counts: cut(&rows[first - 1]).iter().collect(),
            strings: strings.iter().map(|(number, row)| (*number, cut(row))).collect(),
            is_broken: rows[first][ends[1]] == ':',
        }
    };
    lines.windows(2).map(piece).collect()
}

impl Reader {
    fn bar_length(&self) -> Parts {
        4 * QUARTER * self.units / self.kind
    }

    /// What a foot taps: three units in 6/8, 9/8 and 12/8.
    fn beat_length(&self) -> Parts {
        let units = if self.units > 3 && self.units % 3 == 0 && self.kind >= 8 { 3 } else { 1 };
        4 * QUARTER * units / self.kind
    }

    /// Reads a bar in its pieces.
    fn read_bar(&mut self, pieces: &[Piece]) {
        let mut odd_length = None;
        for word in pieces[0].head.split_whitespace().skip(1) {
            if let Some((units, kind)) = meter(word) {
                (self.units, self.kind) = (units, kind);
            } else {
                let inner = word.trim_matches(['(', ')']);
                odd_length = meter(inner).map(|(units, kind)| 4 * QUARTER * units / kind);
            }
        }
        let tokens: Vec<Vec<Token>> = pieces.iter().map(|piece| tokens(&piece.counts)).collect();
        if let Some([count, bars]) = tokens[0].get(..2)
            && bars.text == "bars"
        {
            let many: u64 = count.text.parse().unwrap();
            self.sign(count, self.bar_from, &pieces[0]);
            self.bar += many;
            self.bar_from += odd_length.unwrap_or(self.bar_length()) * many as Parts;
            return;
        }
        self.begin_bar(&tokens.concat());
        let mut waiting = Vec::new();
        for (piece, tokens) in pieces.iter().zip(&tokens) {
            for token in tokens {
                match token.text.as_str() {
                    ".." => {}
                    "g" => waiting.push((token, piece)),
                    "'" => self.sign(token, self.bar_from + self.beat - self.missing, piece),
                    _ => {
                        let at = self.bar_from + self.moment(&token.text) - self.missing;
                        waiting.drain(..).for_each(|(grace, piece)| self.sign(grace, at, piece));
                        self.sign(token, at, piece);
                    }
                }
            }
        }
        self.bar += 1;
        self.bar_from += odd_length.unwrap_or(self.bar_length() - self.missing);
        self.missing = 0;
    }

    /// How far into its bar the first moment is: 0 but for a pick-up.
    fn begin_bar(&mut self, tokens: &[Token]) {
        let beat = self.beat_length();
        self.beat = 0;
        let moments: Vec<&Token> = tokens.iter().filter(|token| token.text != "g").collect();
        let beats = moments.iter().position(|token| token.text.parse::<Parts>().is_ok());
        let is_first = self.signs.is_empty() && self.bar == 0;
        if !is_first {
            return;
        }
        match beats {
            Some(0) => self.missing = self.moment(&moments[0].text),
            Some(at) => {
                let next: Parts = moments[at].text.parse().unwrap();
                self.beat = (next - 2) * beat;
                self.missing = self.moment(&moments[0].text);
            }
            None => {
                self.beat = self.bar_length() - beat;
                self.missing = self.moment(&moments[0].text);
            }
        }
    }

    /// When a count is, from the beginning of a whole bar.
    fn moment(&mut self, text: &str) -> Parts {
        let beat = self.beat_length();
        let whole = self.beat.div_euclid(beat) * beat;
        let part = |parts: Parts, of: Parts| whole + beat * parts / of;
        self.beat = match text {
            "&" => part(1, 2),
            "e" => part(1, 4),
            "a" => part(3, 4),
            "la" => part(1, 3),
            "li" => part(2, 3),
            "ta" => part(1, 6),
            "ti" => part(5, 6),
            _ => match (text.parse::<Parts>(), meter(text)) {
                (Ok(number), _) => (number - 1) * beat,
                (Err(_), Some((parts, of))) => part(parts, of),
                (Err(_), None) => panic!("what is {text}?"),
            },
        };
        self.beat
    }

    fn sign(&mut self, token: &Token, at: Parts, piece: &Piece) {
        let mut found = BTreeMap::new();
        for (number, row) in &piece.strings {
            if let Some(on) = on_string(row, token.column) {
                found.insert(*number, on);
            }
        }
        let struck = found.values().any(|on| matches!(on, OnString::Struck(_)));
        let kind = match (token.text.as_str(), token.mark) {
            ("g", _) => Kind::Grace,
            ("'", _) => Kind::Rolled,
            (_, Mark::None) => Kind::Begins,
            (_, Mark::GoesOn) => Kind::GoesOn,
            (_, Mark::Silent) => Kind::Stops,
        };
        let begins = matches!(kind, Kind::Begins | Kind::Grace | Kind::Rolled);
        assert_eq!(struck, begins, "{} at {at}: {found:?}", token.text);
        self.signs.push(Sign { at, kind, bar: self.bar, strings: found });
    }

    fn finish(self) -> Vec<Found> {
        let end = self.bar_from;
        let mut notes = Vec::new();
        for (index, sign) in self.signs.iter().enumerate() {
            for (string, on) in &sign.strings {
                let OnString::Struck(fret) = *on else { continue };
                let later = &self.signs[index + 1..];
                let stop = later.iter().find(|next| {
                    let is_turn = matches!(next.kind, Kind::Begins | Kind::Stops)
                        || matches!(next.strings.get(string), Some(OnString::Struck(_)));
                    is_turn && next.strings.get(string) != Some(&OnString::GoesOn)
                });
                let until =
                    if sign.kind == Kind::Grace { sign.at } else { stop.map_or(end, |s| s.at) };
                let (string, duration) = (*string, until - sign.at);
                notes.push(Found { bar: sign.bar, onset: sign.at, string, fret, duration });
            }
        }
        notes.sort();
        notes
    }
}

/// What stands on a string below a count.
fn on_string(row: &[char], column: usize) -> Option<OnString> {
    let sign = *row.get(column)?;
    if sign == '=' {
        return Some(OnString::GoesOn);
    }
    let digits: String = row.iter().skip(column).take_while(|sign| sign.is_ascii_digit()).collect();
    let fret = digits.parse().ok()?;
    assert!(!row[column - 1].is_ascii_digit(), "a number begins before its count");
    let is_tied = row[column - 1] == '(';
    Some(if is_tied { OnString::GoesOn } else { OnString::Struck(fret) })
}

/// A count with what is said of it.
#[derive(Clone, Debug)]
struct Token {
    text: String,
    column: usize,
    mark: Mark,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Mark {
    None,
    GoesOn,
    Silent,
}

fn tokens(row: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let (mut silent, mut goes_on, mut in_word) = (false, false, false);
    for (column, sign) in row.chars().enumerate() {
        match sign {
            '(' => (silent, in_word) = (true, false),
            ')' => (silent, in_word) = (false, false),
            '~' => (goes_on, in_word) = (true, false),
            ' ' => in_word = false,
            _ if in_word => tokens.last_mut().unwrap().text.push(sign),
            _ => {
                let mark = match (silent, goes_on) {
                    (true, _) => Mark::Silent,
                    (false, true) => Mark::GoesOn,
                    (false, false) => Mark::None,
                };
                tokens.push(Token { text: sign.to_string(), column, mark });
                (goes_on, in_word) = (false, true);
            }
        }
    }
    tokens
}
