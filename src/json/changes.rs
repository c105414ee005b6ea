//! `changes`

use fretloom_fretboard::{StringNumber, StringSet};
use fretloom_theory::{Chord, Degree, Key, Meter, NoteName, Reading, Scale, Tempo, UnreadBar};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii, Words};
use super::shapes::Shape;
use crate::answer::{
    BarChord, ChangesAnswer, ChangesBar, ChangesChord, ChangesPlan, NamedPair, ShapeInHand,
    VoiceWay,
};

#[derive(Serialize)]
struct Changes<'a> {
    title: Option<&'a str>,
    key: Option<Ascii<Key>>,
    meter: Ascii<Meter>,
    /// Quarter notes a minute; null where none is written.
    tempo: Option<f64>,
    feel: Option<&'a str>,
    /// Strings and frets to which the hand is locked; null where it is not.
    strings: Option<Vec<u8>>,
    frets: Option<[u8; 2]>,
    bars: Vec<Bar<'a>>,
    distinct_pairs: usize,
    cost: f64,
    /// Absent where one plan is asked for; the first is that of the bars.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    plans: Vec<Plan<'a>>,
}

#[derive(Serialize)]
struct Bar<'a> {
    bar: u64,
    section: Option<&'a str>,
    /// In quarter notes from the beginning.
    onset: f64,
    meter: Ascii<Meter>,
    chords: Vec<Sounding<'a>>,
    /// What is wrong with a bar that cannot be read; absent where it can.
    #[serde(skip_serializing_if = "Option::is_none")]
    error: Option<String>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Sounding<'a> {
    Chord(Box<Planned<'a>>),
    Unread(Unread<'a>),
}

/// A chord in a bar; of `N.C.` most is null.
#[derive(Serialize)]
struct Planned<'a> {
    /// Beats are those of the meter, counted from 1.
    beat: f64,
    beats: f64,
    onset: f64,
    symbol: Symbol<'a>,
    scale: Option<Ascii<&'a Scale>>,
    function: Option<Ascii<&'a Reading>>,
    pair: Option<Ascii<NamedPair>>,
    left_out: Vec<Ascii<NoteName>>,
    rubs: Vec<Ascii<Degree>>,
    drops_named: Vec<Ascii<Degree>>,
    /// Is it the pair of the chord before? That of the first is the last one.
    kept: bool,
    /// Has the chord begun in a bar before, so that nothing changes here?
    goes_on: bool,
    /// Has the player settled its scale or its pair?
    settled: bool,
    moved_mm: Option<f64>,
    /// The shape in hand, and how each voice comes to it; null and empty where the hand is not locked.
    shape: Option<Shape>,
    voices: Vec<Voice>,
    /// How many shapes of the pair lie there.
    shapes: Option<usize>,
    /// The scales that it may have, and the pairs of its scale, the usual ones first.
    scales: Vec<Ascii<Scale>>,
    pairs: Vec<Ascii<NamedPair>>,
    why: String,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Symbol<'a> {
    Chord(Ascii<&'a Chord>),
    NoChord(&'static str),
}

/// A bar that cannot be read, as it is written.
#[derive(Serialize)]
struct Unread<'a> {
    beat: f64,
    beats: f64,
    symbol: Words<'a>,
    error: String,
    at: usize,
}

/// How a voice comes to its string.
#[derive(Serialize)]
struct Voice {
    string: u8,
    from_string: u8,
    from: u8,
    to: u8,
    /// Up the neck; towards the nut negative.
    frets: i8,
    mm: f64,
}

/// One of several plans.
#[derive(Serialize)]
struct Plan<'a> {
    cost: f64,
    distinct_pairs: usize,
    chords: Vec<Choice<'a>>,
}

#[derive(Serialize)]
struct Choice<'a> {
    onset: f64,
    symbol: Ascii<&'a Chord>,
    scale: Ascii<&'a Scale>,
    pair: Ascii<NamedPair>,
}

impl<'a> Bar<'a> {
    fn new(bar: &'a ChangesBar, answer: &'a ChangesAnswer) -> Bar<'a> {
        let chords = bar.chords.iter().map(|chord| {
            let planned = chord.sounding.chord();
            let planned = planned.and_then(|index| answer.best().chords.get(index));
            Sounding::Chord(Box::new(match planned {
                Some(planned) => Planned::new(chord, bar.meter, planned, answer),
                None => Planned::no_chord(chord, bar.meter),
            }))
        });
        let unread = bar.unread.iter().map(|unread| Sounding::Unread(Unread::new(unread, bar)));
        Bar {
            bar: bar.number,
            section: bar.section.as_deref(),
            onset: bar.from.to_f64(),
            meter: Ascii(bar.meter),
            chords: chords.chain(unread).collect(),
            error: bar.unread.as_ref().map(|unread| format!("{:#}", unread.error())),
        }
    }
}

impl<'a> Planned<'a> {
    fn no_chord(chord: &BarChord, meter: Meter) -> Planned<'a> {
        Planned {
            beat: chord.beat.to_f64(),
            beats: chord.beats(meter),
            onset: chord.from.to_f64(),
            symbol: Symbol::NoChord("N.C."),
            scale: None,
            function: None,
            pair: None,
            left_out: Vec::new(),
            rubs: Vec::new(),
            drops_named: Vec::new(),
            kept: false,
            goes_on: false,
            settled: false,
            moved_mm: None,
            shape: None,
            voices: Vec::new(),
            shapes: None,
            scales: Vec::new(),
            pairs: Vec::new(),
            why: "no chord sounds here".to_owned(),
        }
    }

    fn new(
        chord: &BarChord,
        meter: Meter,
        planned: &'a ChangesChord,
        answer: &ChangesAnswer,
    ) -> Planned<'a> {
        let goes_on = chord.goes_on();
        let hand = planned.hand.as_ref();
        let moved = || hand.and_then(ShapeInHand::moved_mm);
        let ways = hand.filter(|_| !goes_on).map(ShapeInHand::ways).unwrap_or_default();
        let scales = planned.scales(&answer.own).into_iter();
        Planned {
            symbol: Symbol::Chord(Ascii(planned.chord())),
            scale: Some(Ascii(planned.over().scale())),
            function: Some(Ascii(&planned.reading)),
            pair: Some(Ascii(planned.pair)),
            left_out: ascii::list(planned.left_out().into_iter().map(|left_out| left_out.note)),
            rubs: ascii::list(planned.rubs()),
            drops_named: ascii::list(planned.drops_named()),
            kept: goes_on || planned.is_kept(),
            goes_on,
            settled: planned.settled.is_some(),
            moved_mm: if goes_on { hand.map(|_| 0.0) } else { moved() },
            shape: hand.map(|hand| Shape::new(&hand.shape)),
            voices: ways.iter().map(Voice::new).collect(),
            shapes: hand.map(|hand| hand.choices),
            scales: ascii::list(scales.map(|choice| choice.scale().clone())),
            pairs: ascii::list(planned.pairs()),
            why: match goes_on {
                true => format!("goes on with {:#}", planned.pair),
                false => format!("{:#}", planned.why()),
            },
            ..Planned::no_chord(chord, meter)
        }
    }
}

impl<'a> Unread<'a> {
    fn new(unread: &'a UnreadBar, bar: &ChangesBar) -> Unread<'a> {
        Unread {
            beat: bar.first_beat().to_f64(),
            beats: bar.beats(),
            symbol: Words(unread.text()),
            error: format!("{:#}", unread.error()),
            at: unread.error().at(),
        }
    }
}

impl Voice {
    fn new(way: &VoiceWay) -> Voice {
        Voice {
            string: way.to.0.number(),
            from_string: way.from.0.number(),
            from: way.from.1.number(),
            to: way.to.1.number(),
            frets: way.frets,
            mm: way.mm,
        }
    }
}

impl<'a> Plan<'a> {
    fn new(plan: &'a ChangesPlan) -> Plan<'a> {
        let choice = |chord: &'a ChangesChord| Choice {
            onset: chord.from.to_f64(),
            symbol: Ascii(chord.chord()),
            scale: Ascii(chord.over().scale()),
            pair: Ascii(chord.pair),
        };
        Plan {
            cost: plan.cost.changes(),
            distinct_pairs: plan.pairs.len(),
            chords: plan.chords.iter().map(choice).collect(),
        }
    }
}

fn numbers(set: StringSet) -> Vec<u8> {
    set.iter().map(StringNumber::number).collect()
}

impl AsJson for ChangesAnswer {
    fn as_json(&self) -> impl Serialize {
        let (chart, best) = (&self.chart, self.best());
        let several = self.plans().nth(1).is_some();
        Changes {
            title: chart.title.as_deref(),
            key: self.key.map(Ascii),
            meter: Ascii(chart.bars.meter()),
            tempo: chart.tempo.map(Tempo::a_minute),
            feel: chart.feel.as_deref(),
            strings: self.region.and_then(|region| region.strings()).map(numbers),
            frets: self.region.map(|region| {
                let frets = region.frets();
                [frets.first().number(), frets.last().number()]
            }),
            bars: self.bars.iter().map(|bar| Bar::new(bar, self)).collect(),
            distinct_pairs: best.pairs.len(),
            cost: best.cost.changes(),
            plans: if several { self.plans().map(Plan::new).collect() } else { Vec::new() },
        }
    }
}
