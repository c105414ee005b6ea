//! Going back to choices that were made before.

use fretloom_theory::ScaleChoice;

use super::super::chosen::{Chosen, Page, TypedChord};
use super::super::state::Explore;
use crate::answer::NamedPair;
use crate::tui::line_place::ChordSeed;
use crate::tui::shared::Shared;

impl Explore {
    /// Chooses all this again. What all screens share has been restored before.
    pub(in crate::tui) fn restore(&mut self, chosen: Chosen, shared: &mut Shared) {
        self.comparing(shared, |explore, shared| {
            explore.chosen = chosen;
            explore.follow(shared);
            explore.settle();
        });
    }

    /// Turns to a chord that the player has been at, with the scale and the pair that it had; and
    /// with its shape, if the hand may hold that now.
    pub(in crate::tui) fn turn_to(&mut self, page: Page, shared: &mut Shared) {
        self.comparing(shared, |explore, shared| {
            explore.settle();
            (explore.chosen.chord, explore.chosen.scale) = (page.chord, page.scale);
            explore.lay_out(shared);
            if let Some(pair) = page.pair {
                explore.choose_pair(|name| name == pair, shared);
            }
            if let Some((home, held)) = page.hand {
                explore.view_near(Some(&home), shared);
                explore.hold_again(&home, held, shared);
            }
            explore.settle();
        });
    }

    /// Looks at a chord that the player has been at on another screen, with its scale and its pair,
    /// as far as the lists here have them.
    pub(in crate::tui) fn explore(&mut self, seed: &ChordSeed, shared: &mut Shared) {
        let Ok(chord) = TypedChord::read(&seed.symbol) else { return };
        self.comparing(shared, |explore, shared| {
            explore.settle();
            explore.take_chord(chord, shared);
            let is_it = |choice: &ScaleChoice| format!("{:#}", choice.scale()) == seed.scale;
            match explore.shown.scales.iter().position(is_it) {
                Some(scale) => explore.take_scale(scale, shared),
                None => shared.tell(format!("over the chord alone {} is not offered", seed.scale)),
            }
            explore.choose_pair(|name| format!("{name:#}") == seed.pair, shared);
            explore.settle();
        });
    }

    /// Chooses the pair whose name is the wanted one where the list has it, else the first one.
    pub(in crate::tui::explore) fn choose_pair(
        &mut self,
        wanted: impl Fn(NamedPair) -> bool,
        shared: &Shared,
    ) {
        let pairs = &self.shown.pairs;
        let is_it = |index: &usize| pairs.pairs.get(*index).is_some_and(|it| wanted(it.name()));
        let place = pairs.classes.iter().enumerate().find_map(|(row, class)| {
            let transpositions = class.transpositions.iter().map(|(index, _)| *index);
            let copy = std::iter::once(class.first)
                .chain(transpositions)
                .position(|index| is_it(&index))?;
            Some((row, copy))
        });
        (self.chosen.row, self.chosen.copy) = place.unwrap_or_default();
        self.lay_out(shared);
    }
}
