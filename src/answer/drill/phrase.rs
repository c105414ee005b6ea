//! The exercise of a pair, where it was kept.

use fretloom_fretboard::{FretRange, HandPosition, PositionView, Region, StringSet, View};
use fretloom_theory::{LineStyle, Meter};

use super::DrillQuestion;
use crate::answer::line::{AskedChords, LineAnswer, LineArea, LineChords, LineQuestion};
use crate::answer::opened::OpenedKeeper;
use crate::answer::refusal::Refusal;
use crate::answer::views::ViewQuestion;
use crate::store::Limit;

/// How many bars an exercise over one chord lasts.
const BARS: u32 = 2;

impl DrillQuestion<'_> {
    /// The chord of a pair, in its key, for two bars.
    pub(super) fn chords(&self) -> Result<LineChords, Refusal> {
        let kept = &self.keeper.kept;
        let first_of_pair = || Some(kept.pair.as_ref()?.split('&').next()?.trim().to_owned());
        let text = kept.chord.clone().or_else(first_of_pair).unwrap_or_default();
        let asked = AskedChords {
            text: &text,
            meter: Meter::COMMON,
            bars: Some(BARS),
            scales: kept.scale.as_deref(),
            pairs: kept.pair.as_deref(),
            spelling: self.opening.spelling,
            own: self.opening.own,
        };
        let by_notes = AskedChords { scales: kept.scale_notes.as_deref(), ..asked };
        // A name of the player's own may mean nothing any more; its notes do.
        let read = LineChords::read(&asked)
            .or_else(|error| LineChords::read(&by_notes).map_err(|_| error))?;
        Ok(read.up(self.unit.key.semitones()))
    }

    /// An exercise up and down the pair, where it was kept; where there is no room, anywhere.
    pub(super) fn exercise(&self, opened: &OpenedKeeper) -> Result<LineAnswer, Refusal> {
        let style = match self.unit.limit {
            Some(Limit::RestsCompulsory) => LineStyle::Music,
            Some(Limit::OnePosition | Limit::OneStringSet) | None => LineStyle::Exercise,
        };
        let asked = LineQuestion { style, ..LineQuestion::over(self.chords()?) };
        let on = |area: LineArea| {
            let asked = LineQuestion { area, ..asked.clone() };
            LineAnswer::new(&opened.neck, opened.tuning.clone(), &asked)
        };
        let whole = LineArea { hand: self.hand, ..LineArea::whole_neck() };
        let made = on(self.area(opened)).or_else(|_| on(whole))?;
        let first = made.ways.first().and_then(|way| way.way.notes.first()).map(|at| at.position);
        let in_one = match (self.unit.limit, first) {
            (Some(Limit::OnePosition), Some(position)) => on(self.in_position(position)).ok(),
            (Some(_) | None, _) => None,
        };
        Ok(in_one.unwrap_or(made))
    }

    /// Where it was kept: its strings or its position.
    fn area(&self, opened: &OpenedKeeper) -> LineArea {
        let kept = &self.keeper.kept;
        let count = opened.neck.tuning().string_count();
        let on_one_set = self.unit.limit == Some(Limit::OneStringSet);
        let usual = || "4-3-2".parse().ok().filter(|_| on_one_set);
        let strings: Option<StringSet> = self.unit.strings.or(kept.strings).or_else(usual);
        let strings = strings.filter(|set| set.is_on(count));
        let position = kept.view.as_deref().and_then(|view| view.strip_prefix("position "));
        match (strings, position.and_then(|position| position.parse().ok())) {
            // In another key the same position has other notes, and they are there.
            (None, Some(position)) => self.in_position(position),
            (strings, _) => {
                let region = Region::default().within(opened.frets);
                let region = strings.map_or(region, |set| region.on(set));
                LineArea { region, hand: self.hand, ..LineArea::whole_neck() }
            }
        }
    }

    fn in_position(&self, position: HandPosition) -> LineArea {
        let view = View::Position(PositionView::at(position));
        let view = ViewQuestion::new(view, self.hand, FretRange::WHOLE_NECK, 1);
        LineArea { view: Some(view), hand: self.hand, ..LineArea::whole_neck() }
    }
}
