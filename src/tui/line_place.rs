//! Where on the neck a line is played, as a player chooses it; and what a line is made of first.

use std::fmt;

use fretloom_fretboard::{
    ChainQuery, FretRange, Hand, HandPosition, Neck, Place, PositionView, Region, StringSet,
    TwoAStringQuery, View,
};
use fretloom_theory::Pitch;

use crate::answer::{HandArea, LineArea, ViewQuestion};
use crate::library::{PhraseArea, PhraseView};

/// What a line is made of first: chords with their pairs, and where the player looked at them.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct LineSeed {
    /// The chords as they are typed, in ASCII.
    pub(super) chords: String,
    /// What is chosen for each of them, in order.
    pub(super) each: Vec<ChordSeed>,
    pub(super) place: LinePlace,
    /// The lowest note of the shape in hand, near which the line begins.
    pub(super) near: Option<Pitch>,
}

/// A chord with what is chosen for it, all in ASCII.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct ChordSeed {
    pub(super) symbol: String,
    /// The scale's name.
    pub(super) scale: String,
    /// The pair's name.
    pub(super) pair: String,
}

impl LineSeed {
    /// A pair over one chord.
    pub(super) fn of(chord: ChordSeed, place: LinePlace, near: Option<Pitch>) -> LineSeed {
        LineSeed { chords: chord.symbol.clone(), each: vec![chord], place, near }
    }
}

impl fmt::Display for LineSeed {
    /// What it is; where the hand was makes no other line of it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let [_, _, ..] = self.each.as_slice() {
            write!(f, "{}: ", self.chords)?;
        }
        for ChordSeed { symbol, scale, pair } in &self.each {
            write!(f, "{symbol}; {scale}; {pair}; ")?;
        }
        f.write_str(&self.place.words())
    }
}

/// Where on the neck a line is played.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct LinePlace {
    pub(super) view: LineView,
    /// The strings that it stays on; none where it may be on any.
    pub(super) strings: Option<StringSet>,
    pub(super) frets: FretRange,
}

/// How the hand goes over the neck.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum LineView {
    /// As it likes.
    Anywhere,
    /// It stays in a position.
    Position(HandPosition),
    /// Along a chain across the strings: over this shape, or any; which one of them, from 0.
    Across(Option<[Place; 3]>, usize),
    /// With two notes on each of the strings; which run of them, from 0.
    Two(usize),
}

impl LinePlace {
    /// The whole neck.
    pub(super) const WHOLE_NECK: LinePlace =
        LinePlace { view: LineView::Anywhere, strings: None, frets: FretRange::WHOLE_NECK };

    /// The same place as lines are asked for it.
    pub(super) fn area(self, hand: Hand) -> LineArea {
        let region = Region::default().within(self.frets);
        let region = self.strings.map_or(region, |set| region.on(set));
        let view = match self.view {
            LineView::Anywhere => None,
            LineView::Position(position) => Some((View::Position(PositionView::at(position)), 0)),
            LineView::Across(through, way) => {
                let query = ChainQuery::default();
                let query = through.map_or(query, |places| query.through(places));
                Some((View::Across(query), way))
            }
            LineView::Two(way) => {
                let query = TwoAStringQuery::default();
                Some((View::Two(self.strings.map_or(query, |set| query.on(set))), way))
            }
        };
        let view = view.map(|(view, way)| ViewQuestion::new(view, hand, self.frets, way + 1));
        LineArea { view, region, hand }
    }

    /// What is typed and shown where a position, frets and strings are typed.
    pub(super) fn hand_area(self) -> HandArea {
        let position = match self.view {
            LineView::Position(position) => Some(position),
            LineView::Anywhere | LineView::Across(..) | LineView::Two(_) => None,
        };
        HandArea { position, frets: self.frets, strings: self.strings }
    }

    /// What was typed.
    pub(super) fn of_hand_area(area: HandArea) -> LinePlace {
        let view = area.position.map_or(LineView::Anywhere, LineView::Position);
        LinePlace { view, strings: area.strings, frets: area.frets }
    }

    /// The same place on another neck, without strings and positions that this one does not have.
    pub(super) fn on(self, neck: &Neck) -> LinePlace {
        let count = neck.tuning().string_count();
        let strings = self.strings.filter(|set| set.is_on(count));
        let lost = strings != self.strings;
        let is_there = |place: &Place| neck.pitch_at(*place).is_some();
        let view = match self.view {
            LineView::Two(_) if lost => LineView::Anywhere,
            LineView::Across(Some(places), way) if !places.iter().all(is_there) => {
                LineView::Across(None, way)
            }
            view => view,
        };
        LinePlace { view, strings, ..self }
    }

    /// Where a phrase is played that says this of itself, while its line is here.
    pub(super) fn of_phrase(self, own: PhraseArea, neck: &Neck) -> LinePlace {
        let frets = own.frets.unwrap_or(self.frets);
        let usual = || "3-2-1".parse().ok();
        let (view, strings) = match (own.view, own.strings) {
            (None, None) => (self.view, self.strings),
            (None, strings) => (LineView::Anywhere, strings),
            (Some(PhraseView::Set), strings) => (LineView::Anywhere, strings.or_else(usual)),
            (Some(PhraseView::Position(position)), strings) => {
                let lowest = HandPosition::lowest_on(neck);
                let in_frets = HandPosition::new(frets.first().number()).unwrap_or(lowest);
                (LineView::Position(position.unwrap_or(in_frets.max(lowest))), strings)
            }
            (Some(PhraseView::Across(choice)), _) => {
                (LineView::Across(None, choice.saturating_sub(1)), None)
            }
            (Some(PhraseView::Two(_, choice)), strings) => {
                (LineView::Two(choice.saturating_sub(1)), strings)
            }
        };
        let count = neck.tuning().string_count();
        LinePlace { view, strings: strings.filter(|set| set.len() < count), frets }
    }

    /// What a phrase says of itself that is played here, while its line is there. It says all of it
    /// but frets that are those of the line.
    pub(super) fn as_own(self, line: LinePlace, neck: &Neck) -> PhraseArea {
        let view = match self.view {
            LineView::Anywhere => None,
            LineView::Position(position) => Some(PhraseView::Position(Some(position))),
            LineView::Across(_, way) => Some(PhraseView::Across(way + 1)),
            LineView::Two(way) => Some(PhraseView::Two(None, way + 1)),
        };
        let strings = match self.view {
            LineView::Anywhere => self.strings.or_else(|| all_strings(neck)),
            LineView::Position(_) | LineView::Across(..) | LineView::Two(_) => self.strings,
        };
        let frets = Some(self.frets).filter(|frets| *frets != line.frets);
        PhraseArea { view, strings, frets }
    }

    /// The view by its word, as a keeper has it; none for the whole neck.
    pub(super) fn view_word(self) -> Option<String> {
        match self.view {
            LineView::Anywhere => self.strings.map(|_| "set".to_owned()),
            LineView::Position(position) => Some(format!("position {position}")),
            LineView::Across(_, way) => Some(format!("across {}", way + 1)),
            LineView::Two(way) => Some(format!("two {}", way + 1)),
        }
    }

    /// As it is said above the neck: `position V, strings 4-3-2`.
    pub(super) fn in_words(self) -> String {
        let view = match self.view {
            LineView::Anywhere => None,
            LineView::Position(position) => Some(format!("position {position}")),
            LineView::Across(_, way) => Some(format!("across, chain {}", way + 1)),
            LineView::Two(way) => Some(format!("two a string, run {}", way + 1)),
        };
        let strings = self.strings.map(|set| format!("strings {set}"));
        let everywhere = (view.is_none() && strings.is_none()).then(|| "all strings".to_owned());
        let words = [everywhere, view, strings, self.frets_in_words("frets")];
        words.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// As it is said of a phrase among others: `in V on 4-3-2`.
    pub(super) fn in_short(self) -> String {
        let view = match self.view {
            LineView::Anywhere => None,
            LineView::Position(position) => Some(format!("in {position}")),
            LineView::Across(_, way) => Some(format!("across {}", way + 1)),
            LineView::Two(way) => Some(format!("two a string {}", way + 1)),
        };
        let strings = self.strings.map(|set| format!("on {set}"));
        let everywhere = (view.is_none() && strings.is_none()).then(|| "on all strings".to_owned());
        let words = [everywhere, view, strings, self.frets_in_words("at")];
        words.into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    fn frets_in_words(self, noun: &str) -> Option<String> {
        (self.frets != FretRange::WHOLE_NECK).then(|| format!("{noun} {}", self.frets))
    }

    /// As the session has it: `position V; 4-3-2; 1-12`, with nothing where nothing is chosen.
    pub(super) fn words(self) -> String {
        let view = match self.view {
            LineView::Anywhere => "neck".to_owned(),
            LineView::Position(position) => format!("position {position}"),
            LineView::Across(_, way) => format!("across {}", way + 1),
            LineView::Two(way) => format!("two {}", way + 1),
        };
        let strings = self.strings.map(|set| set.to_string()).unwrap_or_default();
        let all = self.frets == FretRange::WHOLE_NECK;
        let frets = if all { String::new() } else { self.frets.to_string() };
        format!("{view}; {strings}; {frets}")
    }

    /// Reads what a session has; what means nothing is left open.
    pub(super) fn read(words: &str) -> LinePlace {
        let mut parts = words.split(';').map(str::trim);
        let view = parts.next().and_then(LineView::read).unwrap_or(LineView::Anywhere);
        let strings = parts.next().and_then(|strings| strings.parse().ok());
        let frets = parts.next().and_then(|frets| frets.parse().ok());
        LinePlace { view, strings, frets: frets.unwrap_or(FretRange::WHOLE_NECK) }
    }
}

/// All strings of a neck, as a set of them.
fn all_strings(neck: &Neck) -> Option<StringSet> {
    StringSet::of(neck.places().map(|(place, _)| place.string))
}

/// The same on another neck, without strings, frets and a position that this one does not have; none
/// where nothing is left of it.
pub(super) fn phrase_area_on(own: PhraseArea, neck: &Neck) -> Option<PhraseArea> {
    let is_there = |area: HandArea| area.check(neck).is_ok();
    let whole = HandArea::WHOLE_NECK;
    let count = neck.tuning().string_count();
    let strings = own.strings.filter(|set| set.is_on(count));
    let frets = own.frets.filter(|frets| is_there(HandArea { frets: *frets, ..whole }));
    let has = |position: &HandPosition| is_there(HandArea { position: Some(*position), ..whole });
    let view = own.view.filter(|view| match view {
        PhraseView::Position(position) | PhraseView::Two(position, _) => {
            position.as_ref().is_none_or(has)
        }
        PhraseView::Set | PhraseView::Across(_) => true,
    });
    let is_said = view.is_some() || strings.is_some() || frets.is_some();
    is_said.then_some(PhraseArea { view, strings, frets })
}

impl LineView {
    fn read(words: &str) -> Option<LineView> {
        let (view, choice) = words.split_once(' ').unwrap_or((words, ""));
        let index = || choice.parse::<usize>().ok()?.checked_sub(1);
        match view {
            "neck" => Some(LineView::Anywhere),
            "position" => choice.parse().ok().map(LineView::Position),
            "across" => index().map(|way| LineView::Across(None, way)),
            "two" => index().map(LineView::Two),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_read_as_it_is_written() {
        for words in ["neck; ; ", "position V; 4-3-2; 1-12", "across 3; ; ", "two 2; 3-2-1; "] {
            assert_eq!(LinePlace::read(words).words(), words);
        }
        assert_eq!(LinePlace::read("sideways; 0; x"), LinePlace::WHOLE_NECK);
        assert_eq!(LinePlace::read("two 0; 4-3-2; ").in_words(), "strings 4-3-2");
    }
}
