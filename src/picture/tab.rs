//! Tablature: which fret is played on which string, from left to right.

mod bar;
mod bars;
mod cell;
mod columns;
mod count;
mod event;
mod groups;
mod look;
mod moments;
mod of_strings;
mod piece;
mod rhythm;
mod row;
mod slurs;
mod system;
mod timed;

use fretloom_fretboard::{Neck, OpenString, Place, Shape, StringNumber, Tuning};
use fretloom_theory::{Bars, Meter, NoteName, Quarters, Tempo, TempoMap, Timeline};

pub use bar::{TabBar, TabColumn, TabHold, TabNote, TriadMark, Turn};
pub use count::Count;
pub use event::{Attack, TabEvent, TabMusic, TimesFrom};
pub use look::{TabBelow, TabLook};
pub use rhythm::TabRhythm;
pub use row::{TabRow, TabRowKind};
pub use system::{TabSpot, TabSystem};

/// Notes on the strings of an instrument, in bars, from left to right.
///
/// The order of the strings is that of their numbers, also on a re-entrant instrument; a player's
/// left hand changes nothing. Frets count from the capo. What a [`TabLook`] shows of it stands in
/// [systems](Tab::systems).
///
/// # Example
///
/// ```
/// use fretloom::picture::{Tab, TabEvent, TabLook, TabMusic, TabRowKind, TimesFrom};
/// use fretloom_fretboard::{Fret, StringNumber, Tuning};
/// use fretloom_theory::{Quarters, Score};
///
/// let tuning = Tuning::read("E A D G B E").unwrap();
/// let string = StringNumber::new(2).unwrap();
/// let eighth = |index, fret| {
///     let onset = Quarters::EIGHTH.times(index).unwrap();
///     TabEvent::new(onset, Quarters::EIGHTH, string, Fret::new(fret).unwrap())
/// };
/// let music = Score::default();
/// let events = [eighth(0, 5), eighth(1, 7), eighth(3, 10)];
/// let tab = Tab::new(&TabMusic::of(&music, TimesFrom::Writing), &tuning, &events);
/// let systems = tab.systems(&TabLook::default());
/// let row = |kind| systems[0].rows.iter().find(|row| row.kind == kind).unwrap().text.as_str();
/// assert_eq!(row(TabRowKind::Count),          "      1   &  (2)   &   (3   4)");
/// assert_eq!(row(TabRowKind::String(string)), "2 B |-5---7--------10----------|");
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Tab {
    /// The title.
    pub title: Option<String>,
    /// The tuning, with its capo.
    pub tuning: Tuning,
    /// String 1 first, as tablature is written.
    pub strings: Vec<TabString>,
    /// The meter of the first bar.
    pub meter: Meter,
    /// How fast it goes first, and whether that changes.
    pub tempo: Tempo,
    /// Does the tempo change?
    pub tempo_changes: bool,
    /// Where its moments come from.
    pub times: TimesFrom,
    /// What can be said of its rhythm.
    pub rhythm: TabRhythm,
    /// In order.
    pub bars: Vec<TabBar>,
}

/// One string.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TabString {
    /// Its number.
    pub number: StringNumber,
    /// What it is tuned to.
    pub name: NoteName,
}

impl Tab {
    /// The tab of these notes, which may come in any order.
    #[must_use]
    pub fn new(music: &TabMusic<'_>, tuning: &Tuning, events: &[TabEvent]) -> Tab {
        let mut notes = timed::in_order(events);
        let rhythm = rhythm::settle(&mut notes, music);
        timed::end_on_strings(&mut notes);
        let mut bars = bars::bars(&notes, music, rhythm);
        groups::put_brackets(&mut bars, events);
        let mut tempi = music.tempi.changes().map(|(_, tempo)| tempo);
        let tempo = tempi.next().unwrap_or(Tempo::USUAL);
        Tab {
            title: music.title.map(str::to_owned),
            tuning: tuning.clone(),
            strings: strings(tuning),
            meter: music.bars.bar(0).map_or(Meter::COMMON, |bar| bar.meter),
            tempo,
            tempo_changes: tempi.any(|other| other != tempo),
            times: music.times,
            rhythm,
            bars,
        }
    }

    /// The tab of a shape, whose notes sound at once; frets count from the capo, as tablature does.
    #[must_use]
    pub fn of_shape(neck: &Neck, shape: &Shape) -> Tab {
        let fingers = shape.fingers();
        let finger = |index| fingers.as_ref()?.get(index).copied();
        let event = |(index, place): (usize, Place)| TabEvent {
            finger: finger(index),
            position: Some(shape.position()),
            ..TabEvent::new(Quarters::ZERO, Quarters::ONE, place.string, neck.tab_number(place))
        };
        let events: Vec<TabEvent> = shape.places().into_iter().enumerate().map(event).collect();
        let music = TabMusic {
            title: None,
            bars: &Bars::of(Meter::COMMON),
            tempi: &TempoMap::default(),
            chords: &Timeline::default(),
            end: Quarters::ONE,
            times: TimesFrom::Writing,
        };
        Tab::new(&music, neck.tuning(), &events)
    }

    /// The lines of the tab.
    #[must_use]
    pub fn systems(&self, look: &TabLook) -> Vec<TabSystem> {
        let digits = self.strings.last().map_or(1, |last| last.number.to_string().len());
        let name = |string: &TabString| {
            let TabString { number, name } = string;
            (*number, format!("{number:>digits$} {name} "))
        };
        let names: Vec<(StringNumber, String)> = self.strings.iter().map(name).collect();
        let rhythm = look.rhythm && self.rhythm != TabRhythm::NotCounted;
        system::systems(&self.bars, &names, &TabLook { rhythm, ..*look })
    }

    /// Its columns, by time.
    pub fn columns(&self) -> impl Iterator<Item = &TabColumn> {
        self.bars.iter().flat_map(|bar| &bar.columns)
    }
}

fn strings(tuning: &Tuning) -> Vec<TabString> {
    let string =
        |(number, open): (StringNumber, OpenString)| TabString { number, name: open.note().name() };
    let mut strings: Vec<TabString> = tuning.strings().map(string).collect();
    strings.sort_by_key(|string| string.number);
    strings
}
