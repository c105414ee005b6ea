//! What is kept: which of it is asked for, and in which order.

use std::str::FromStr;
use std::sync::Arc;

use fretloom_fretboard::Tuning;
use fretloom_theory::{
    Chord, Degree, OptionalChords, PitchClassSet, ReadChord, ReadError, ScaleChoice, SpelledTriad,
};

use super::harmony::Harmony;
use super::pairs::{NamedPair, PairAnswer};
use crate::glyphs::to_ascii;
use crate::library::ReadChart;
use crate::store::{Keeper, Kept, KeptThing};

/// The answer of `keepers`.
#[derive(Clone, PartialEq, Debug)]
pub struct KeepersAnswer {
    /// The keepers that are asked for, in the order that is asked for.
    pub keepers: Vec<Keeper>,
}

/// The answer of `keepers add` and `keepers remove`.
#[derive(Clone, PartialEq, Debug)]
pub struct KeeperAnswer {
    /// The keeper that was kept or removed.
    pub keeper: Keeper,
}

/// Which keepers are asked for.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct KeepersQuestion {
    /// Words that all stand somewhere in a keeper, whatever their case; `b` and `#` are signs too.
    pub words: String,
    /// A tag that it has.
    pub tag: Option<String>,
    /// A kind of chord that it serves.
    pub serves: Option<ChordKind>,
    /// In which order.
    pub order: KeeperOrder,
}

/// What is kept of a pair on an instrument: chord, scale and pair as they are read again.
#[must_use]
pub fn pair_to_keep(harmony: &Harmony, pair: &PairAnswer, tuning: Tuning) -> Kept {
    let scale = harmony.scale().scale();
    let notes: Vec<String> = scale.notes().map(|note| format!("{note:#}")).collect();
    Kept {
        chord: harmony.chord().map(|typed| format!("{:#}", typed.read.chord)),
        scale: Some(format!("{scale:#}")),
        scale_notes: Some(notes.join(" ")),
        pair: Some(format!("{:#}", pair.name())),
        tuning: Some(Arc::new(tuning)),
        ..Kept::default()
    }
}

/// The order of keepers.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum KeeperOrder {
    /// The player's own.
    #[default]
    Own,
    /// What was kept last first.
    Newest,
    /// By what they are called.
    Name,
    /// By their chords.
    Chord,
    /// What is due first first; what was never tried last.
    Due,
}

impl KeepersQuestion {
    /// Which of these are asked for, by their places in the list.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::KeepersQuestion;
    /// use fretloom::store::{Keeper, KeeperId, Kept, NewKeeper};
    /// let kept = Kept {
    ///     chord: Some("Dm7".to_owned()),
    ///     pair: Some("F & G".to_owned()),
    ///     ..Kept::default()
    /// };
    /// let new = NewKeeper { kept, ..NewKeeper::default() };
    /// let keepers = [Keeper::new(KeeperId::new(1).unwrap(), new)];
    /// let serves = |kind: &str| KeepersQuestion {
    ///     serves: Some(kind.parse().unwrap()),
    ///     ..KeepersQuestion::default()
    /// };
    /// assert_eq!(serves("m7").among(&keepers), [0]);
    /// // In C melodic minor, the scale of Am7b5.
    /// assert_eq!(serves("m7b5").among(&keepers), [0]);
    /// assert!(serves("dim7").among(&keepers).is_empty());
    /// ```
    #[must_use]
    pub fn among(&self, keepers: &[Keeper]) -> Vec<usize> {
        let words = folded(&self.words);
        let words: Vec<&str> = words.split_whitespace().collect();
        let mut text = String::new();
        let wanted = keepers.iter().enumerate().filter(|(_, keeper)| {
            self.tag.as_ref().is_none_or(|tag| keeper.tags.contains(tag))
                && holds(keeper, &words, &mut text)
                && self.serves.as_ref().is_none_or(|kind| kind.is_served_by(keeper))
        });
        let mut places: Vec<usize> = wanted.map(|(place, _)| place).collect();
        self.order.sort(keepers, &mut places);
        places
    }
}

impl KeeperOrder {
    fn sort(self, keepers: &[Keeper], places: &mut [usize]) {
        let of = |place: &usize| keepers.get(*place);
        match self {
            KeeperOrder::Own => {}
            KeeperOrder::Newest => places.sort_by_cached_key(|place| {
                std::cmp::Reverse(of(place).map(|keeper| (keeper.kept.on, keeper.id)))
            }),
            KeeperOrder::Name => {
                places.sort_by_cached_key(|place| of(place).map(|keeper| folded(&keeper.title())));
            }
            KeeperOrder::Chord => places.sort_by_cached_key(|place| {
                let chord = of(place).and_then(|keeper| keeper.kept.chord.as_deref());
                (chord.is_none(), chord.map(folded))
            }),
            KeeperOrder::Due => places.sort_by_cached_key(|place| {
                let next = of(place).and_then(|keeper| keeper.practice.next());
                (next.is_none(), next)
            }),
        }
    }
}

/// Do all words stand somewhere in it? `text` is room that is used again.
fn holds(keeper: &Keeper, words: &[&str], text: &mut String) -> bool {
    if words.is_empty() {
        return true;
    }
    text.clear();
    let kept = &keeper.kept;
    let tuning = kept.tuning.as_ref();
    let texts = [
        keeper.name.as_deref(),
        kept.chord.as_deref(),
        kept.scale.as_deref(),
        kept.pair.as_deref(),
        Some(kept.what.word()),
        kept.view.as_deref(),
        tuning.map(|tuning| tuning.id()),
        tuning.map(|tuning| tuning.name()),
        Some(keeper.notes.as_str()),
    ];
    let tags = keeper.tags.iter().map(String::as_str);
    for found in texts.into_iter().flatten().chain(tags) {
        fold(found, text);
        text.push('\n');
    }
    if let Some(strings) = kept.strings {
        text.push_str(&strings.to_string());
    }
    words.iter().all(|word| text.contains(word))
}

/// Small letters, with ASCII in place of signs.
fn folded(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    fold(text, &mut folded);
    folded
}

fn fold(text: &str, into: &mut String) {
    let mut units = [0; 4];
    for char in text.chars() {
        match char {
            ascii if ascii.is_ascii() => into.push(ascii.to_ascii_lowercase()),
            other => into.push_str(&to_ascii(other.encode_utf8(&mut units)).to_lowercase()),
        }
    }
}

/// A kind of chord, on whatever root: `m7b5`.
#[derive(Clone, PartialEq, Debug)]
pub struct ChordKind {
    degrees: Vec<Degree>,
    /// The scale that it usually calls for, on each of the twelve roots.
    scales: [PitchClassSet; 12],
}

impl FromStr for ChordKind {
    type Err = ReadError;

    /// Reads the ending of a chord symbol, as `m7b5` or `7alt`, or a whole one, whose root does not matter.
    ///
    /// # Errors
    ///
    /// Where it is neither.
    fn from_str(text: &str) -> Result<ChordKind, ReadError> {
        let whole = text.parse::<ReadChord>();
        let read = whole.or_else(|error| {
            let on_c = format!("C{text}").parse::<ReadChord>();
            on_c.map_err(|_| error)
        })?;
        Ok(ChordKind::of(&read.chord))
    }
}

impl ChordKind {
    fn of(chord: &Chord) -> ChordKind {
        let usual = ScaleChoice::for_chord(chord).into_iter().next();
        let scale = usual.map_or(chord.set(), |choice| choice.scale().set());
        ChordKind {
            degrees: chord.degrees().to_vec(),
            scales: std::array::from_fn(|up| scale.transposed(up as i32)),
        }
    }

    /// Was it kept over such a chord, or do the six notes of its pair lie in the scale that such a chord
    /// usually calls for, on some root?
    #[must_use]
    pub fn is_served_by(&self, keeper: &Keeper) -> bool {
        self.is_that_of(keeper) || pair_notes(keeper).is_some_and(|notes| self.takes(notes))
    }

    /// Was it kept over such a chord?
    fn is_that_of(&self, keeper: &Keeper) -> bool {
        let is_so = |chord: &Chord| chord.degrees() == self.degrees;
        match &keeper.kept.what {
            KeptThing::Plan(plan) => ReadChart::of_text("", &plan.chart, &[]).is_ok_and(|read| {
                let chorus = read.chart.chorus(OptionalChords::Played);
                chorus.chords.changes().iter().any(|(_, symbol)| symbol.chord().is_some_and(is_so))
            }),
            _ => {
                let chords = keeper.kept.chord.as_deref().unwrap_or_default();
                let symbols = chords.split(|sign: char| sign.is_whitespace() || sign == '|');
                symbols.filter_map(|symbol| symbol.parse().ok()).any(|chord: Chord| is_so(&chord))
            }
        }
    }

    fn takes(&self, notes: PitchClassSet) -> bool {
        self.scales.iter().any(|scale| notes.is_subset(*scale))
    }
}

fn pair_notes(keeper: &Keeper) -> Option<PitchClassSet> {
    Some(kept_pair(keeper)?.pair().set())
}

/// The pair of a keeper; `None` where it has none, and where what stands there cannot be read.
pub(super) fn kept_pair(keeper: &Keeper) -> Option<NamedPair> {
    let (one, other) = keeper.kept.pair.as_ref()?.split_once('&')?;
    let read = |name: &str| name.trim().parse::<SpelledTriad>().ok();
    NamedPair::new([read(one)?, read(other)?]).ok()
}
