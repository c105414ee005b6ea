//! The chords of a line, each with its scale and its pair.

use fretloom_theory::{
    BarText, Bars, Chord, ChordScale, ChordStretch, ChordSymbol, Chorus, Interval, Key,
    KeySignature, Meter, NoteName, OptionalChords, PairSound, Part, Quarters, Reading, Rest, Scale,
    ScaleChoice, ScaleKind, Score, SpelledTriad, Speller, Spelling, Tempo, TempoMap, Timeline,
    TriadPair, TriadQuality,
};

use super::sections::{LineSection, sections};
use crate::answer::changes::{ChangesAnswer, ChangesChord, ChangesPlan};
use crate::answer::pairs::NamedPair;
use crate::answer::plan_refusal::PlanRefusal;
use crate::answer::refusal::Refusal;
use crate::answer::rounds::Rounds;

/// Chords as they are asked for: bar text, and what is wanted of each chord.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AskedChords<'a> {
    /// A symbol, or bars of them.
    pub text: &'a str,
    /// The meter in which they begin.
    pub meter: Meter,
    /// How many bars; without it as many as are written, and four of a chord alone. The text goes
    /// round until then, or is cut.
    pub bars: Option<u32>,
    /// One scale for all chords, or one for each, separated by commas; an empty one is the usual.
    pub scales: Option<&'a str>,
    /// One pair for all chords, or one for each, separated by commas or `|`: two triads, or a
    /// number in the list of the chord's pairs. An empty one is the first in that list.
    pub pairs: Option<&'a str>,
    /// How triads are written.
    pub spelling: Spelling,
    /// Scales of the player's own.
    pub own: &'a [ScaleKind],
}

impl<'a> AskedChords<'a> {
    /// Bars alone: every chord with its usual scale and the first pair of that.
    #[must_use]
    pub const fn plain(text: &'a str, meter: Meter) -> AskedChords<'a> {
        AskedChords {
            text,
            meter,
            bars: None,
            scales: None,
            pairs: None,
            spelling: Spelling::Plain,
            own: &[],
        }
    }
}

/// Bars of chords, each chord with its scale and its pair.
#[derive(Clone, PartialEq, Debug)]
pub struct LineChords {
    bars: Bars,
    end: Quarters,
    symbols: Timeline<ChordSymbol>,
    /// In order of time, at least one.
    chords: Vec<LineChord>,
    sections: Vec<LineSection>,
    tune: Tune,
}

/// What a chart says of its chords besides.
#[derive(Clone, PartialEq, Debug, Default)]
struct Tune {
    title: Option<String>,
    key: Option<Key>,
}

/// A chord with its scale and its pair, until the next one begins.
#[derive(Clone, PartialEq, Debug)]
pub struct LineChord {
    /// When it begins.
    pub from: Quarters,
    /// Which chord of the text it is, counted from 0: the same in every round.
    pub written: usize,
    /// The chord and its scale.
    pub over: ChordScale,
    /// The pair.
    pub pair: NamedPair,
    spelling: Spelling,
}

/// How many bars a chord alone lasts.
const BARS_OF_ONE_CHORD: u32 = 4;

impl LineChords {
    /// The most bars that a line is made over.
    pub const MOST_BARS: u32 = 1000;

    /// Reads chords, and chooses the scale and the pair of each where that is left open: the scale
    /// as the chord's neighbours ask for it, and the first pair in its list.
    ///
    /// # Errors
    ///
    /// Where the text, a scale or a pair cannot be read, where there are more or fewer of them than
    /// chords, and where a scale holds no pair.
    pub fn read(asked: &AskedChords<'_>) -> Result<LineChords, Refusal> {
        let text = BarText::read(asked.text, asked.meter)?;
        let chorus = text.unfolded(OptionalChords::LeftOut);
        let rounds = Rounds::of(&chorus);
        let usual = match rounds.written() {
            1 => BARS_OF_ONE_CHORD,
            written => written,
        };
        let laid = rounds.lasting(asked.bars.unwrap_or(usual).min(LineChords::MOST_BARS));
        let sounding: Vec<(Quarters, &Chord)> = laid
            .chords
            .iter()
            .filter_map(|(from, _, symbol)| Some((*from, symbol.chord()?)))
            .collect();
        if sounding.is_empty() {
            return Err(Refusal::NoChords { text: asked.text.to_owned() });
        }
        // Which chord of the text each one is: what is asked for one holds in every round.
        let of_text = laid.chords.iter().filter(|(.., symbol)| symbol.chord().is_some());
        let written: Vec<usize> =
            of_text.map(|(_, change, _)| chords_before(&chorus, *change)).collect();
        let count = chords_before(&chorus, usize::MAX);
        let scales = Each::of("scales", asked.scales, &[','], count)?;
        let pairs = Each::of("pairs", asked.pairs, &[',', '|'], count)?;
        let usual = usual_scales(&sounding, asked.own);
        let mut chords = Vec::with_capacity(sounding.len());
        for (((from, chord), written), usual) in sounding.into_iter().zip(written).zip(usual) {
            let scale = match scales.at(written) {
                Some(text) => scale_of(chord, text, asked.own)?,
                None => usual,
            };
            let over = ChordScale::over(chord.clone(), scale);
            let chord = LineChord::new(from, over, pairs.at(written), asked.spelling)?;
            chords.push(LineChord { written, ..chord });
        }
        let symbols = Timeline::of(laid.chords.into_iter().map(|(from, _, symbol)| (from, symbol)));
        let (bars, end, tune) = (laid.bars, laid.end, Tune::default());
        let sections = sections(&chorus, &bars, end);
        Ok(LineChords { bars, end, symbols, chords, sections, tune })
    }

    /// The chords of a chart as it is heard, with the scales and pairs of a plan for it.
    #[must_use]
    pub fn of_changes(changes: &ChangesAnswer, plan: &ChangesPlan) -> LineChords {
        let chord = |(written, chord): (usize, &ChangesChord)| LineChord {
            from: chord.from,
            written,
            over: chord.over().clone(),
            pair: chord.pair,
            spelling: changes.spelling,
        };
        LineChords {
            bars: changes.chorus.bars.clone(),
            end: changes.chorus.end,
            symbols: changes.chorus.chords.clone(),
            chords: plan.chords.iter().enumerate().map(chord).collect(),
            sections: sections(&changes.chorus, &changes.chorus.bars, changes.chorus.end),
            tune: Tune { title: changes.chart.title.clone(), key: changes.key },
        }
    }

    /// The same chords, where they are no more than a line is [made over](Self::MOST_BARS).
    ///
    /// # Errors
    ///
    /// Where they have more bars.
    pub fn short_enough(self) -> Result<LineChords, Refusal> {
        let (bars, most) = (self.bar_count(), LineChords::MOST_BARS);
        if bars > u64::from(most) {
            return Err(PlanRefusal::TooManyBars { bars, most }.into());
        }
        Ok(self)
    }

    /// What the tune is called, where they are those of a tune.
    #[must_use]
    pub fn title(&self) -> Option<&str> {
        self.tune.title.as_deref()
    }

    /// Where the bars are.
    #[must_use]
    pub fn bars(&self) -> &Bars {
        &self.bars
    }

    /// When the last bar ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.end
    }

    /// What stands over the bars.
    #[must_use]
    pub fn symbols(&self) -> &Timeline<ChordSymbol> {
        &self.symbols
    }

    /// What one player plays over these chords, as a score.
    #[must_use]
    pub fn score(&self, part: Part, tempo: Tempo) -> Score {
        Score {
            bars: self.bars.clone(),
            tempi: TempoMap::steady(tempo),
            chords: self.symbols.clone(),
            parts: vec![part],
            ..Score::default()
        }
    }

    /// The sections that have names, in order of time.
    pub(super) fn sections(&self) -> &[LineSection] {
        &self.sections
    }

    /// Where nothing can be played, since nobody can read what stands there.
    #[must_use]
    pub fn rests(&self) -> Vec<Rest> {
        let changes = self.symbols.changes();
        let ends = changes.iter().skip(1).map(|(from, _)| *from).chain([self.end]);
        let spans = changes.iter().zip(ends).filter_map(|((from, symbol), to)| match symbol {
            ChordSymbol::Unread(_) => Some(Rest { from: *from, to }),
            ChordSymbol::Chord(_) | ChordSymbol::NoChord => None,
        });
        spans.filter(|rest| rest.from < rest.to).collect()
    }

    /// The chords in order, at least one. Where no chord is to sound, the one before goes on.
    #[must_use]
    pub fn chords(&self) -> &[LineChord] {
        &self.chords
    }

    /// The chord that a line plays over at a moment: before the first one that one.
    #[must_use]
    pub fn at(&self, moment: Quarters) -> Option<&LineChord> {
        let after = self.chords.partition_point(|chord| chord.from <= moment);
        self.chords.get(after.saturating_sub(1))
    }

    /// The same with another pair for the chord with this index.
    #[must_use]
    pub fn with_pair(mut self, index: usize, pair: NamedPair) -> LineChords {
        if let Some(chord) = self.chords.get_mut(index) {
            chord.pair = pair;
        }
        self
    }

    /// What a line over them is asked to be.
    pub(super) fn stretches(&self) -> Vec<ChordStretch> {
        let stretch = |chord: &LineChord| ChordStretch {
            from: chord.from,
            over: chord.over.clone(),
            pair: chord.pair.pair(),
        };
        self.chords.iter().map(stretch).collect()
    }

    /// The same chords so many semitones higher, in the names with the fewest accidentals.
    #[must_use]
    pub fn up(&self, semitones: u8) -> LineChords {
        let ways = (0..7).map(|steps| Interval::new(steps, semitones as i8));
        let moved = ways.filter_map(|interval| self.up_by(interval));
        moved.min_by_key(LineChords::accidentals).unwrap_or_else(|| self.clone())
    }

    fn up_by(&self, interval: Interval) -> Option<LineChords> {
        let chords = self.chords.iter().map(|chord| chord.up_by(interval));
        let symbols = self.symbols.changes().iter().map(|(from, symbol)| {
            let symbol = match symbol {
                ChordSymbol::Chord(chord) => ChordSymbol::Chord(chord.up(interval)?),
                ChordSymbol::NoChord | ChordSymbol::Unread(_) => symbol.clone(),
            };
            Some((*from, symbol))
        });
        Some(LineChords {
            symbols: Timeline::of(symbols.collect::<Option<Vec<_>>>()?),
            chords: chords.collect::<Option<_>>()?,
            bars: self.bars.clone(),
            end: self.end,
            sections: self.sections.clone(),
            // A key is found anew from the chords.
            tune: Tune { key: None, ..self.tune.clone() },
        })
    }

    /// How hard its names are to read: names that nobody uses first, then signs, flats before
    /// sharps.
    fn accidentals(&self) -> (usize, u32, u32) {
        let roots = || {
            let roots = self.chords.iter().filter_map(|chord| chord.over.chord());
            roots.flat_map(|chord| [Some(chord.root()), chord.bass()]).flatten()
        };
        let odd = roots().filter(|root| !root.is_everyday()).count();
        let signs = roots().map(|root| u32::from(root.accidental().unsigned_abs())).sum();
        let sharps = roots().filter(|root| root.accidental() > 0).count();
        (odd, signs, u32::try_from(sharps).unwrap_or(u32::MAX))
    }

    /// The signature of the key in which they come home: that of the chart, where it says one. `None`
    /// where neither it nor the chords say any.
    pub(in crate::answer) fn signature(&self) -> Option<KeySignature> {
        let chords = || self.chords.iter().filter_map(|chord| chord.over.chord()).cloned();
        let home = || Reading::home(&chords().collect::<Vec<Chord>>());
        self.tune.key.or_else(home).and_then(KeySignature::of_key)
    }

    /// The note that the key is called by: the root of the last chord.
    #[must_use]
    pub fn key(&self) -> Option<NoteName> {
        self.chords.last().map(|chord| chord.over.root())
    }
}

impl LineChord {
    fn new(
        from: Quarters,
        over: ChordScale,
        pair: Option<&str>,
        spelling: Spelling,
    ) -> Result<LineChord, Refusal> {
        let speller = Speller::new(over.clone(), spelling);
        let pair = match pair.map(|text| (text, text.split_once('&'))) {
            Some((_, Some((one, other)))) => {
                NamedPair::new([one.trim().parse::<SpelledTriad>()?, other.trim().parse()?])?
            }
            Some((number, None)) => numbered_pair(&speller, Some(number))?,
            None => numbered_pair(&speller, None)?,
        };
        Ok(LineChord { from, written: 0, over, pair, spelling })
    }

    /// The pairs of its scale in the order in which they are listed.
    #[must_use]
    pub fn pairs(&self) -> Vec<NamedPair> {
        pairs_of(&self.speller())
    }

    /// A pair as it is called over this chord: its own as it was asked for.
    pub(super) fn named(&self, pair: TriadPair) -> NamedPair {
        if self.pair.pair() == pair {
            return self.pair;
        }
        NamedPair::of(pair, self.speller().pair(pair))
    }

    /// Names its notes and triads.
    #[must_use]
    pub fn speller(&self) -> Speller {
        Speller::new(self.over.clone(), self.spelling)
    }

    fn up_by(&self, interval: Interval) -> Option<LineChord> {
        let scale = self.over.scale();
        let scale = Scale::new(scale.root().up(interval)?, scale.kind().clone());
        let over = match self.over.chord() {
            Some(chord) => ChordScale::over(chord.up(interval)?, scale),
            None => ChordScale::alone(scale),
        };
        let semitones = i32::from(interval.semitones());
        let [first, second] = self.pair.pair().triads().map(|triad| triad.up(semitones));
        let pair = TriadPair::in_order(first, second)?;
        let names = Speller::new(over.clone(), self.spelling).pair(pair);
        Some(LineChord { over, pair: NamedPair::of(pair, names), ..self.clone() })
    }
}

/// How many chords stand in a text before the change with this index.
fn chords_before(chorus: &Chorus, change: usize) -> usize {
    let changes = chorus.chords.changes().iter().take(change);
    changes.filter(|(_, symbol)| symbol.chord().is_some()).count()
}

fn pairs_of(speller: &Speller) -> Vec<NamedPair> {
    let sounds = PairSound::ranked(speller.chord_scale(), TriadQuality::TERTIAN);
    sounds.iter().map(|sound| NamedPair::of(sound.pair(), speller.pair(sound.pair()))).collect()
}

/// The pair with this number in the list of the chord's pairs; unasked the first.
fn numbered_pair(speller: &Speller, number: Option<&str>) -> Result<NamedPair, Refusal> {
    let pairs = pairs_of(speller);
    let count = pairs.len();
    let text = number.unwrap_or("1");
    if count == 0 {
        return Err(Refusal::NoPairIn { scale: speller.chord_scale().scale().to_string() });
    }
    let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
    let pair = index.and_then(|index| pairs.get(index)).copied();
    pair.ok_or_else(|| Refusal::UnknownPair { text: text.to_owned(), count })
}

/// The usual scale of each chord: by itself for a chord alone, else as its neighbours ask for it.
fn usual_scales(chords: &[(Quarters, &Chord)], own: &[ScaleKind]) -> Vec<Scale> {
    let list: Vec<Chord> = chords.iter().map(|(_, chord)| (*chord).clone()).collect();
    let choices: Vec<Vec<ScaleChoice>> = match list.as_slice() {
        [alone] => vec![ScaleChoice::for_chord_with(alone, own)],
        _ => Reading::tune(&list, None).iter().map(|reading| reading.scales_with(own)).collect(),
    };
    let first = |(choices, chord): (Vec<ScaleChoice>, &Chord)| {
        // The chromatic scale fits every chord, so there is always a first choice.
        let chromatic = || Scale::new(chord.root(), ScaleKind::CHROMATIC);
        choices.first().map_or_else(chromatic, |choice| choice.scale().clone())
    };
    choices.into_iter().zip(&list).map(first).collect()
}

/// A scale with its root, or a kind alone on the chord's root.
fn scale_of(chord: &Chord, text: &str, own: &[ScaleKind]) -> Result<Scale, Refusal> {
    let of_own = own.iter().find(|kind| kind.is_called(text));
    match of_own.or_else(|| ScaleKind::named(text)) {
        Some(kind) => Ok(Scale::new(chord.root(), kind.clone())),
        None => Ok(Scale::read_with(text, own)?),
    }
}

/// What is asked for each chord.
struct Each<'a> {
    texts: Vec<&'a str>,
}

impl<'a> Each<'a> {
    /// Texts between separators: none, one for all, or as many as there are chords.
    fn of(
        what: &'static str,
        text: Option<&'a str>,
        separators: &[char],
        count: usize,
    ) -> Result<Each<'a>, Refusal> {
        let Some(text) = text else { return Ok(Each { texts: Vec::new() }) };
        let texts: Vec<&str> = text.split(separators).map(str::trim).collect();
        if texts.len() != 1 && texts.len() != count {
            return Err(Refusal::OneForEach { what, given: texts.len(), chords: count });
        }
        Ok(Each { texts })
    }

    fn at(&self, index: usize) -> Option<&'a str> {
        let text = match self.texts.as_slice() {
            [one] => Some(*one),
            texts => texts.get(index).copied(),
        };
        text.filter(|text| !text.is_empty())
    }
}
