//! How the neck was looked at when something was kept.

use fretloom_fretboard::{
    ChainQuery, Hand, HandPosition, Place, PositionView, SetView, StringNumber, StringSet,
    TwoAStringQuery, View,
};

use super::Opened;
use crate::answer::pairs::PairAnswer;
use crate::answer::views::{AskedView, ViewQuestion};

impl Opened<'_> {
    /// The view as it was: `position V`, `set 4-3-2`, `across 2`, `two 1`. `None` for the whole neck, and
    /// where this neck does not have it.
    pub(super) fn view(&self, pair: &PairAnswer) -> Option<AskedView> {
        let words = self.kept.view.as_deref()?;
        let (word, choice) = words.split_once(' ').unwrap_or((words, ""));
        let number = || choice.parse::<usize>().ok().filter(|number| *number > 0).unwrap_or(1);
        let (view, choice) = match word {
            "position" => {
                let position: HandPosition = choice.parse().ok()?;
                (View::Position(PositionView::at(position)), 1)
            }
            "set" => {
                let set = choice.parse::<StringSet>().ok().or(self.strings())?;
                (View::Set(SetView::on(set)), 1)
            }
            "across" => {
                let chain = self.session.chain.as_deref().and_then(places);
                let query = ChainQuery::default();
                let query = chain.map_or(query, |places| query.through(places));
                (View::Across(query), number())
            }
            "two" => {
                let query = TwoAStringQuery::default();
                let query = self.strings().map_or(query, |strings| query.on(strings));
                (View::Two(query), number())
            }
            _ => return None,
        };
        let asked = ViewQuestion::new(view, Hand::default(), self.frets(), choice);
        asked.ask(&self.neck, pair).ok().filter(|asked| asked.choices() > 0)
    }
}

/// The places of `5-4-3 on 4-3-2`.
fn places(words: &str) -> Option<[Place; 3]> {
    let (frets, strings) = words.split_once(" on ")?;
    let mut places = frets.split('-').zip(strings.split('-')).map(|(fret, string)| {
        let string = StringNumber::new(string.parse().ok()?)?;
        Some(Place::new(string, fretloom_fretboard::Fret::new(fret.parse().ok()?)?))
    });
    Some([places.next()??, places.next()??, places.next()??])
}
