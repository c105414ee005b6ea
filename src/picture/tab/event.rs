//! Notes as a tab is asked for them.

use fretloom_fretboard::{Finger, Fret, HandPosition, StringNumber};
use fretloom_theory::{Bars, ChordSymbol, Degree, NoteName, Quarters, Score, Stroke, TempoMap};
use fretloom_theory::{Timeline, WhichTriad};

/// A note of a line: when and how long it sounds, where it is played, and what is known of it.
///
/// Only time and place are needed; [`TabEvent::new`] leaves the rest open.
#[derive(Clone, PartialEq, Debug)]
pub struct TabEvent {
    /// When it begins; for a grace note, when its main note does.
    pub onset: Quarters,
    /// How long it sounds; nothing for a grace note.
    pub duration: Quarters,
    /// On time, before, or after others of its onset.
    pub attack: Attack,
    /// Moments within it at which it is written anew with a tie.
    pub ties: Vec<Quarters>,
    /// The string.
    pub string: StringNumber,
    /// The fret as tablature writes it, counted from the capo.
    pub fret: Fret,
    /// The finger that takes it.
    pub finger: Option<Finger>,
    /// Where the hand stands, counted as the fret is.
    pub position: Option<HandPosition>,
    /// What it is over the chord.
    pub degree: Option<Degree>,
    /// What it is called.
    pub name: Option<NoteName>,
    /// The triad of the pair that it belongs to; none for a free note.
    pub triad: Option<WhichTriad>,
    /// Is it played louder?
    pub accent: bool,
    /// Is the next note sounded by the fretting hand alone?
    pub slurred_to_next: bool,
    /// Which way the pick goes.
    pub stroke: Option<Stroke>,
}

/// How a note stands to its onset.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Attack {
    /// A grace note so many steps before its main note, 1 for the last one.
    Before(u32),
    /// On its onset.
    #[default]
    OnTime,
    /// In the group that comes so many places after those on time, in a chord that no hand plays
    /// at once.
    After(u32),
}

impl Attack {
    /// Its place among those of one onset: below zero before it, above zero after it.
    pub(super) fn place(self) -> i64 {
        match self {
            Attack::Before(steps) => -i64::from(steps),
            Attack::OnTime => 0,
            Attack::After(places) => i64::from(places),
        }
    }
}

impl TabEvent {
    /// A note of which only time and place are known.
    #[must_use]
    pub fn new(onset: Quarters, duration: Quarters, string: StringNumber, fret: Fret) -> TabEvent {
        TabEvent {
            onset,
            duration,
            attack: Attack::OnTime,
            ties: Vec::new(),
            string,
            fret,
            finger: None,
            position: None,
            degree: None,
            name: None,
            triad: None,
            accent: false,
            slurred_to_next: false,
            stroke: None,
        }
    }
}

/// What stands around the notes of a tab.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TabMusic<'a> {
    /// The title.
    pub title: Option<&'a str>,
    /// Where the bars are.
    pub bars: &'a Bars,
    /// How fast it goes.
    pub tempi: &'a TempoMap,
    /// The chord symbols.
    pub chords: &'a Timeline<ChordSymbol>,
    /// When it ends; never before its notes do.
    pub end: Quarters,
    /// Where the moments come from.
    pub times: TimesFrom,
}

/// Where the moments of a tab come from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum TimesFrom {
    /// They were written down as beats: every length is meant.
    Writing,
    /// They are beats of what was played to a beat, as a track is: where notes end need not be meant.
    Playing,
    /// They were seconds, of which beats at some tempo have been made.
    Seconds,
}

impl<'a> TabMusic<'a> {
    /// What stands around the notes of a score.
    #[must_use]
    pub fn of(score: &'a Score, times: TimesFrom) -> TabMusic<'a> {
        TabMusic {
            title: score.title.as_deref(),
            bars: &score.bars,
            tempi: &score.tempi,
            chords: &score.chords,
            end: score.end(),
            times,
        }
    }
}
