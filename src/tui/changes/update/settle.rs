//! Scale and pair of a chord as the player wants them, and other plans.

use fretloom_theory::{ChartChoice, Scale, SpelledTriad};

use super::super::state::ChangesScreen;
use super::{Way, other};
use crate::answer::{ChangesChord, NamedPair};
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// The next pair in the list of the chord.
    pub(super) fn step_pair(&mut self, way: Way, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let settled = before.pair.and_then(|names| NamedPair::new(names).ok());
        let now = settled.unwrap_or(chord.pair);
        let pairs = chord.pairs();
        let same = |pair: &&NamedPair| pair.pair().is_same_couple(now.pair());
        let Some(pair) = other(&pairs, pairs.iter().find(same), way) else {
            shared.tell("this scale holds no other pair");
            return;
        };
        if let Some(index) = pairs.iter().position(|one| *one == pair) {
            self.take_pair(index, shared);
        }
    }

    /// The pair at this place in the list of the chord.
    pub(super) fn take_pair(&mut self, index: usize, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let pairs = chord.pairs();
        let Some(pair) = pairs.get(index) else { return };
        shared.tell(format!("pair {} of {}: {pair}, settled", index + 1, pairs.len()));
        self.let_go(&before);
        self.settle(ChartChoice { pair: Some(pair.names()), ..before });
    }

    /// The next of the scales that the chord may have.
    pub(super) fn step_scale(&mut self, way: Way, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let scales = scales_of(chord, shared);
        let now = before.scale.clone().unwrap_or_else(|| chord.over().scale().clone());
        let Some(scale) = other(&scales, Some(&now), way) else {
            shared.tell("no other scale fits this chord here");
            return;
        };
        if let Some(index) = scales.iter().position(|one| *one == scale) {
            self.take_scale(index, shared);
        }
    }

    /// The scale at this place of those that the chord may have. A pair that is settled stays, if the
    /// scale has its notes.
    pub(super) fn take_scale(&mut self, index: usize, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let scales = scales_of(chord, shared);
        let Some(scale) = scales.get(index).cloned() else { return };
        shared.tell(format!("scale {} of {}: {scale}, settled", index + 1, scales.len()));
        let holds = |names: &[SpelledTriad; 2]| {
            names.iter().all(|name| name.triad().set().is_subset(scale.set()))
        };
        let pair = before.pair.filter(holds);
        self.settle(ChartChoice { scale: Some(scale), pair, ..before });
    }

    /// Scale and pair stay what they are, whatever else changes.
    pub(super) fn pin(&mut self, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let (scale, pair) = (chord.over().scale().clone(), chord.pair);
        shared.tell(format!("{scale} and {pair} are settled"));
        self.settle(ChartChoice { scale: Some(scale), pair: Some(pair.names()), ..before });
    }

    /// Nothing is settled any more, and the plan decides.
    pub(super) fn release(&mut self, shared: &mut Shared) {
        let Some((_, before)) = self.in_hand(shared) else { return };
        self.let_go(&before);
        if before.settles_nothing() {
            shared.tell("nothing is settled for this chord");
            return;
        }
        shared.tell("the plan decides again");
        self.settle(ChartChoice::nothing(before.bar, before.beat));
    }

    /// Another of the plans.
    pub(super) fn step_plan(&mut self, way: Way, shared: &mut Shared) {
        if self.plan().is_none() {
            shared.tell("there is no plan yet");
            return;
        }
        // Until others were looked for nobody knows how many there are.
        let count = self.plans.number();
        if way == Way::Next && count > 1 && self.chosen.plan + 1 >= count {
            shared.tell("the first plan again");
        }
        self.chosen.plan = match (way, self.chosen.plan) {
            (Way::Next, 0) if count < 2 => 1,
            (Way::Next, now) if now + 1 < count => now + 1,
            (Way::Next, _) => 0,
            (Way::Before, 0) => count.max(2) - 1,
            (Way::Before, now) => now - 1,
        };
    }

    /// The chord in hand, and what is settled where it begins.
    pub(super) fn in_hand(&self, shared: &mut Shared) -> Option<(&ChangesChord, ChartChoice)> {
        let Some(chord) = self.chord() else {
            shared.tell(if self.plans.is_waiting() {
                "the plan is being made"
            } else {
                "no chord sounds here"
            });
            return None;
        };
        let begins = self.sheet.at(chord.from)?;
        let (cell, bar) = (self.sheet.cells.get(begins)?, self.sheet.bar_of(begins)?);
        let settled = self.chosen.chart()?.choice_at(bar.number, cell.beat).cloned();
        let nothing = || ChartChoice::nothing(bar.number, cell.beat);
        Some((chord, settled.unwrap_or_else(nothing)))
    }

    pub(super) fn settle(&mut self, choice: ChartChoice) {
        let Some(chart) = self.chosen.chart() else { return };
        let mut chart = chart.clone();
        chart.settle(choice);
        self.chosen.plan = 0;
        self.take_chart(chart);
    }
}

/// The scales that a chord may have, the usual one first.
fn scales_of(chord: &ChangesChord, shared: &Shared) -> Vec<Scale> {
    let choices = chord.scales(shared.library.scales.kinds());
    choices.iter().map(|choice| choice.scale().clone()).collect()
}
