//! Passages and readings as text.

use std::fmt;

use fretloom_theory::{
    ChordSymbol, ExplainedBar, ExplainedGroup, GroupTiming, NamedPitch, Note, NoteName, Part,
    PitchClass, Quarters, Score, SpelledTriad, Timeline, Triad, TriadPair,
};

const BAR: Quarters = Quarters::whole(4);

/// What a teacher says of a chord.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Reading {
    pub(crate) pair: Option<TriadPair>,
    /// The names of their notes, and when they come.
    pub(crate) groups: Vec<(String, When)>,
    pub(crate) free: String,
}

/// When a group comes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum When {
    /// Within its chord.
    InTime,
    /// So many quarters before its chord.
    Early(Quarters),
    /// After the next chord has come.
    Late,
}

pub(crate) fn score(chords: &str, notes: &str) -> Score {
    let chords = chords.split('|').enumerate().flat_map(|(bar, text)| {
        evenly(bar, text).map(|(at, _, symbol)| (at, ChordSymbol::read(symbol)))
    });
    let parts = vec![Part::new(read_notes(notes))];
    Score { chords: Timeline::of(chords), parts, ..Score::default() }
}

const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

/// The chords so many semitones higher.
pub(crate) fn up(chords: &str, semitones: i32) -> String {
    let moved = |word: &str| {
        let natural = word.get(..1).and_then(|letter| "C D EF G A B".find(letter));
        let Some(natural) = natural else { return word.to_owned() };
        let quality = word[1..].trim_start_matches(['b', '#']);
        let accidental = match word[1..].chars().next() {
            Some('b') => -1,
            Some('#') => 1,
            _ => 0,
        };
        let root = (i32::try_from(natural).unwrap() + accidental + semitones).rem_euclid(12);
        format!("{}{quality}", ROOTS[usize::try_from(root).unwrap()])
    };
    chords.split_whitespace().map(moved).collect::<Vec<_>>().join(" ")
}

/// The words of a bar, each with when it begins and how long it lasts.
fn evenly(bar: usize, text: &str) -> impl Iterator<Item = (Quarters, Quarters, &str)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let each = BAR.divided_into(u32::try_from(words.len()).unwrap()).unwrap();
    let from = BAR.times(u32::try_from(bar).unwrap()).unwrap();
    words.into_iter().zip(0..).map(move |(word, index)| {
        (from.checked_add(each.times(index).unwrap()).unwrap(), each, word)
    })
}

fn read_notes(text: &str) -> Vec<Note> {
    let words = text.split('|').enumerate().flat_map(|(bar, text)| evenly(bar, text));
    let mut notes: Vec<(Quarters, Quarters, NamedPitch)> = Vec::new();
    for (at, length, word) in words {
        match (word, notes.last_mut()) {
            ("-", _) => {}
            ("_", Some(last)) => last.1 = last.1.checked_add(length).unwrap(),
            _ => notes.extend(word.split('+').map(|name| (at, length, name.parse().unwrap()))),
        }
    }
    let notes = notes.into_iter();
    notes.map(|(at, length, pitch)| Note::new(at, length, pitch).unwrap()).collect()
}

/// What was read, in the words of a teacher.
pub(crate) fn told(bar: &ExplainedBar, part: &Part) -> Reading {
    let names = |notes: &[usize]| {
        let names = notes.iter().map(|note| format!("{:#}", part.notes()[*note].pitch().name()));
        names.collect::<Vec<_>>().join(" ")
    };
    let when = |group: &ExplainedGroup| match group.early {
        GroupTiming::OnTime => When::InTime,
        GroupTiming::Early(by) => When::Early(by),
        GroupTiming::Late(_) => When::Late,
    };
    let groups = bar.groups.iter().map(|group| (names(&group.notes), when(group))).collect();
    Reading { pair: bar.pair, groups, free: names(&bar.free) }
}

/// The readings of a text, one for each chord.
pub(crate) fn readings(text: &str) -> Vec<Reading> {
    text.split('|').map(reading).collect()
}

fn reading(text: &str) -> Reading {
    let Some((pair, notes)) = text.split_once(':') else {
        assert_eq!(text.trim(), "none");
        return Reading { pair: None, groups: Vec::new(), free: String::new() };
    };
    let (groups, free) = notes.split_once(';').unwrap_or((notes, ""));
    let groups = groups.split(',').map(group).collect();
    Reading { pair: Some(self::pair(pair)), groups, free: free.trim().to_owned() }
}

pub(crate) fn pair(text: &str) -> TriadPair {
    let (first, second) = text.split_once('&').unwrap();
    let [first, second] =
        [first, second].map(|name| name.trim().parse::<SpelledTriad>().unwrap().triad());
    TriadPair::new(first, second, PitchClass::C).unwrap()
}

fn group(text: &str) -> (String, When) {
    let Some((notes, when)) = text.split_once('(') else {
        return (text.trim().to_owned(), When::InTime);
    };
    let words: Vec<&str> = when.trim_end().trim_end_matches(')').split(' ').collect();
    let when = match words[..] {
        ["late"] => When::Late,
        [number, "early"] => When::Early(beats(number)),
        _ => panic!("unclear when: {text}"),
    };
    (notes.trim().to_owned(), when)
}

fn beats(text: &str) -> Quarters {
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    Quarters::new(above.parse().unwrap(), below.parse().unwrap()).unwrap()
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(pair) = self.pair else { return f.write_str("none") };
        let groups = self.groups.iter().map(|(notes, when)| match when {
            When::InTime => notes.clone(),
            When::Early(by) => format!("{notes} ({by} early)"),
            When::Late => format!("{notes} (late)"),
        });
        let groups: Vec<String> = groups.collect();
        write!(f, "{}: {}; {}", named(pair), groups.join(", "), self.free)
    }
}

/// A pair by everyday names.
pub(crate) fn named(pair: TriadPair) -> String {
    let name = |triad: Triad| {
        let root = NoteName::everyday(triad.root()).next().unwrap();
        format!("{:#}", SpelledTriad::stacked(root, triad.quality()))
    };
    pair.triads().map(name).join(" & ")
}
