//! What is in hand, to be heard.

use fretloom_fretboard::{Place, Shape};
use fretloom_theory::{ClickBeats, Direction, Swing, WhichTriad};

use super::state::Explore;
use super::struck::LastStruck;
use crate::answer::struck_shapes;
use crate::sound::{CountIn, PlayStyle, Rounds, Strike};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::{Piece, What};

impl Explore {
    /// Plays the shape in hand.
    pub(super) fn play_shape(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.shape_in_hand() {
            Some(shape) => self.strike(vec![shape], shared),
            None => tell_empty_hand(shared),
        }
    }

    /// Plays the shape in hand and the next one of the other triad, above it if there is one.
    pub(super) fn play_pair(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(shape) = self.shape_in_hand() else { return tell_empty_hand(shared) };
        let Some(other) = self.next_of_other_triad() else {
            shared.tell("the other triad has no shape on these strings");
            return Vec::new();
        };
        self.strike(vec![shape, other], shared)
    }

    fn next_of_other_triad(&self) -> Option<Shape> {
        let ladder = &self.shown.ladder;
        let (rung, here) = (self.chosen.rung?, self.rung_in_hand()?);
        let other = match here.which {
            WhichTriad::First => WhichTriad::Second,
            WhichTriad::Second => WhichTriad::First,
        };
        let next = |way| ladder.next_of(rung, other, way);
        let next = next(Direction::Up).or_else(|| next(Direction::Down))?;
        ladder.rungs().get(next).map(|rung| rung.shape)
    }

    /// Has shapes struck together; the same once more, their notes one after another.
    fn strike(&mut self, shapes: Vec<Shape>, shared: &mut Shared) -> Vec<ScreenEffect> {
        let strike = match &self.struck {
            Some(last) if last.shapes == shapes && last.strike == Strike::Together => {
                Strike::InTurn
            }
            Some(_) | None => Strike::Together,
        };
        shared.tell(match strike {
            Strike::Together => "struck together; once more: one note after another",
            Strike::InTurn => "one note after another; once more: together",
        });
        let places: Vec<Vec<Place>> = shapes.iter().map(|shape| shape.places().into()).collect();
        self.struck = Some(LastStruck { shapes, strike });
        let neck = shared.neck().clone();
        let piece = Piece::new(What::Shapes, move |style| {
            Some(struck_shapes(&neck, &places, strike, &plain(style)))
        });
        vec![ScreenEffect::Play(piece)]
    }
}

/// Shapes have no meter: they are struck once, without a metronome.
fn plain(style: &PlayStyle) -> PlayStyle {
    let (click, count_in, rounds) = (ClickBeats::Off, CountIn::None, Rounds::Once);
    PlayStyle { click, count_in, rounds, swing: Swing::STRAIGHT, ..*style }
}

fn tell_empty_hand(shared: &mut Shared) -> Vec<ScreenEffect> {
    shared.tell("the hand holds no shape here");
    Vec::new()
}
