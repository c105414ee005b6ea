//! Tunes that nobody wrote: their text, and what their bars hold, laid out here a second time.

use std::fmt;

use fretloom::answer::{
    ChangesAnswer, ChangesQuestion, LineChords, TuningAnswer, find_tuning, read_chart,
};
use fretloom::library::LoadedTunings;
use fretloom_fretboard::Neck;
use fretloom_theory::{Chord, ChordSymbol, Quarters, SpelledTriad, TriadPair};
use proptest::prelude::*;
use proptest::sample::select;

use crate::arithmetic::class_of;

/// A kind of chord with its third and its seventh, or what stands for them: common practice, no source.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kind {
    word: &'static str,
    pub(crate) third: &'static str,
    pub(crate) seventh: &'static str,
}

const fn kind(word: &'static str, third: &'static str, seventh: &'static str) -> Kind {
    Kind { word, third, seventh }
}

const KINDS: [Kind; 14] = [
    kind("maj7", "3", "7"),
    kind("maj7#11", "3", "7"),
    kind("maj9", "3", "7"),
    kind("6", "3", "6"),
    kind("m7", "b3", "b7"),
    kind("m9", "b3", "b7"),
    kind("m6", "b3", "6"),
    kind("m(maj7)", "b3", "7"),
    kind("7", "3", "b7"),
    kind("7#11", "3", "b7"),
    kind("7b9", "3", "b7"),
    kind("7alt", "3", "b7"),
    kind("7sus4", "4", "b7"),
    kind("m7b5", "b3", "b7"),
];

const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

/// A chord of a bar.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Symbol {
    pub(crate) root: &'static str,
    pub(crate) kind: Kind,
}

impl Symbol {
    pub(crate) fn written(self) -> String {
        format!("{}{}", self.root, self.kind.word)
    }
}

/// What is in a bar from one of its beats on.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Held {
    Chord(Symbol),
    /// `N.C.`
    Silence,
    /// What nobody can read.
    Riddle,
}

/// A bar as it is heard; beats are quarters.
#[derive(Clone, Debug)]
pub(crate) struct Bar {
    pub(crate) from: u32,
    pub(crate) beats: u32,
    pub(crate) section: char,
    /// Does its section begin with it?
    begins: bool,
    /// From which beat on, counted from 0.
    pub(crate) held: Vec<(u32, Held)>,
}

impl Bar {
    pub(crate) fn is_riddle(&self) -> bool {
        matches!(self.held[..], [(_, Held::Riddle)])
    }

    pub(crate) fn end(&self) -> u32 {
        self.from + self.beats
    }
}

/// A tune that nobody wrote.
#[derive(Clone)]
pub(crate) struct Tune {
    /// As it is typed.
    pub(crate) text: String,
    /// As it is heard.
    pub(crate) bars: Vec<Bar>,
}

impl fmt::Debug for Tune {
    /// What is typed says all of it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.text)
    }
}

/// What a bar is to be, if it can be that where it comes.
#[derive(Clone, Copy, Debug)]
enum Wanted {
    One,
    Two(Symbol),
    Again,
    Silence,
    Riddle,
}

#[derive(Clone, Copy, Debug)]
enum Repeated {
    Nothing,
    First,
    All,
}

fn symbol() -> impl Strategy<Value = Symbol> {
    (select(&ROOTS[..]), select(&KINDS[..])).prop_map(|(root, kind)| Symbol { root, kind })
}

fn bar() -> impl Strategy<Value = (Wanted, Symbol, u32)> {
    let wanted = prop_oneof![
        6 => Just(Wanted::One),
        3 => symbol().prop_map(Wanted::Two),
        1 => Just(Wanted::Again),
        1 => Just(Wanted::Silence),
        1 => Just(Wanted::Riddle),
    ];
    (wanted, symbol(), prop_oneof![5 => Just(4), 1 => Just(3)])
}

/// Two sections in 4/4 and 3/4 with one or two chords a bar, `%`, `N.C.` and bars that nobody can read,
/// one of them or both repeated.
pub(crate) fn tune() -> impl Strategy<Value = Tune> {
    let section = || prop::collection::vec(bar(), 1..5);
    let repeated = select(vec![Repeated::Nothing, Repeated::First, Repeated::All]);
    (section(), section(), repeated).prop_map(|(first, second, repeated)| {
        let mut first = written('A', &first);
        let mut second = written('B', &second);
        let has_chord = |bar: &Written| matches!(bar.held[0].1, Held::Chord(_));
        if !first.iter().chain(&second).any(has_chord) {
            let one = Written::of_one('B', second[0].beats, Symbol { root: "C", kind: KINDS[0] });
            second[0] = Written { begins: true, ..one };
        }
        let [a, b] = [&mut first, &mut second].map(|bars| text(bars));
        let text = match repeated {
            Repeated::Nothing => format!("| {a} | {b} |"),
            Repeated::First => format!("|: {a} :| {b} |"),
            Repeated::All => format!("|: {a} | {b} :|"),
        };
        let heard: Vec<&Written> = match repeated {
            Repeated::Nothing => first.iter().chain(&second).collect(),
            Repeated::First => first.iter().chain(&first).chain(&second).collect(),
            Repeated::All => first.iter().chain(&second).chain(&first).chain(&second).collect(),
        };
        Tune { text, bars: laid_out(&heard) }
    })
}

/// A bar as it is typed.
#[derive(Clone, Debug)]
struct Written {
    section: char,
    begins: bool,
    beats: u32,
    held: Vec<(u32, Held)>,
    text: String,
}

impl Written {
    fn of_one(section: char, beats: u32, symbol: Symbol) -> Written {
        let held = vec![(0, Held::Chord(symbol))];
        Written { section, begins: false, beats, held, text: symbol.written() }
    }
}

fn written(section: char, wanted: &[(Wanted, Symbol, u32)]) -> Vec<Written> {
    let mut bars: Vec<Written> = Vec::new();
    for (wanted, symbol, beats) in wanted.iter().copied() {
        let last = bars.last().filter(|last| {
            last.beats == beats && last.held.iter().all(|(_, held)| matches!(held, Held::Chord(_)))
        });
        let one = Written::of_one(section, beats, symbol);
        let bar = match (wanted, last) {
            (Wanted::One, _) | (Wanted::Again, None) => one,
            (Wanted::Again, Some(last)) => {
                Written { begins: false, text: "%".to_owned(), ..last.clone() }
            }
            (Wanted::Two(next), _) => {
                let held = vec![(0, Held::Chord(symbol)), (2, Held::Chord(next))];
                // Three beats are not shared evenly: the first chord takes two of them.
                let goes_on = if beats == 3 { " / " } else { " " };
                let text = format!("{}{goes_on}{}", symbol.written(), next.written());
                Written { held, text, ..one }
            }
            (Wanted::Silence, _) => {
                Written { held: vec![(0, Held::Silence)], text: "N.C.".to_owned(), ..one }
            }
            (Wanted::Riddle, _) => {
                Written { held: vec![(0, Held::Riddle)], text: "Xyz".to_owned(), ..one }
            }
        };
        bars.push(Written { begins: bars.is_empty(), ..bar });
    }
    bars
}

/// The bars of a section between their lines.
fn text(bars: &mut [Written]) -> String {
    let mut beats = 0;
    let texts = bars.iter().enumerate().map(|(index, bar)| {
        let section = if index == 0 { format!("[{}] ", bar.section) } else { String::new() };
        let meter = if bar.beats == beats { String::new() } else { format!("{}/4 ", bar.beats) };
        beats = bar.beats;
        format!("{section}{meter}{}", bar.text)
    });
    texts.collect::<Vec<_>>().join(" | ")
}

fn laid_out(heard: &[&Written]) -> Vec<Bar> {
    let mut from = 0;
    let bar = |written: &&Written| {
        let Written { section, begins, beats, held, .. } = (*written).clone();
        from += beats;
        Bar { from: from - beats, beats, section, begins, held }
    };
    heard.iter().map(bar).collect()
}

/// So many tunes for a law; `FRETLOOM_TUNES=5000` for a long run.
pub(crate) fn cases(count: u32) -> ProptestConfig {
    let count = std::env::var("FRETLOOM_TUNES").map_or(count, |count| count.parse().unwrap());
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(count) }
}

/// The instrument of the laws, six strings in standard tuning.
pub(crate) fn guitar() -> (Neck, TuningAnswer) {
    let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
    (Neck::new(tuning.tuning.clone()), tuning)
}

impl Tune {
    /// The chords of its plan, as a line is made over them.
    pub(crate) fn chords(&self, neck: &Neck) -> LineChords {
        let read = read_chart("tune", self.text.as_bytes(), &[]).unwrap();
        let changes = ChangesAnswer::new(neck, &ChangesQuestion::of(read.chart)).unwrap();
        LineChords::of_changes(&changes, changes.best())
    }

    /// When it ends.
    pub(crate) fn end(&self) -> u32 {
        self.bars.last().unwrap().end()
    }

    /// Does a moment, in eighths, lie in a bar that nobody can read?
    pub(crate) fn rests_at(&self, eighth: u32) -> bool {
        self.bars
            .iter()
            .any(|bar| bar.is_riddle() && (2 * bar.from..2 * bar.end()).contains(&eighth))
    }

    /// The stretches of a section, in eighths: each time that it comes.
    pub(crate) fn comings(&self, section: char) -> Vec<(u32, u32)> {
        let runs = self.bars.chunk_by(|_, next| !next.begins);
        let of_it = runs.filter(|run| run[0].section == section);
        of_it.map(|run| (2 * run[0].from, 2 * run[run.len() - 1].end())).collect()
    }
}

/// A moment in eighths.
pub(crate) fn eighths(moment: Quarters) -> u32 {
    let eighths = moment.to_f64() * 2.0;
    assert!(eighths.fract() == 0.0, "{moment}");
    eighths as u32
}

/// The notes of both triads of a pair, by their roots and qualities, 0 to 11.
pub(crate) fn triads(pair: TriadPair) -> [Vec<i32>; 2] {
    pair.triads().map(|triad| {
        let name = format!(
            "{:#}",
            SpelledTriad::stacked(
                fretloom_theory::NoteName::everyday(triad.root()).next().unwrap(),
                triad.quality(),
            )
        );
        let root = name.trim_end_matches("dim").trim_end_matches(['m', '+']);
        let above = match &name[root.len()..] {
            "" => [0, 4, 7],
            "m" => [0, 3, 7],
            "dim" => [0, 3, 6],
            "+" => [0, 4, 8],
            other => panic!("{other}"),
        };
        above.map(|above| (class_of(root) + above) % 12).to_vec()
    })
}

proptest! {
    #![proptest_config(cases(96))]

    /// Every bar that is heard has the chords that it has here, and where none can be read it is said.
    #[test]
    fn a_tune_is_heard_as_it_is_laid_out(tune in tune()) {
        let read = read_chart("tune", tune.text.as_bytes(), &[]).unwrap();
        prop_assert_eq!(read.problems.len(), tune.text.matches("Xyz").count());
        let chords = tune.chords(&guitar().0);
        prop_assert_eq!(eighths(chords.end()), 2 * tune.end());
        for bar in &tune.bars {
            for (beat, held) in &bar.held {
                let found = chords.symbols().at(Quarters::whole(bar.from + beat)).unwrap();
                match held {
                    Held::Chord(symbol) => {
                        let expected: Chord = symbol.written().parse().unwrap();
                        prop_assert_eq!(found.chord(), Some(&expected));
                    }
                    Held::Silence => prop_assert_eq!(found, &ChordSymbol::NoChord),
                    Held::Riddle => prop_assert!(matches!(found, ChordSymbol::Unread(_))),
                }
            }
        }
    }
}
