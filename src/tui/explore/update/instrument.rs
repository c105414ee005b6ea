//! Changes of the instrument. The hand stays as near as it can to where it was.

use fretloom_fretboard::{Capo, FretRange, Nearness, Rung, Tuning};

use super::super::state::Explore;
use crate::answer::Refusal;
use crate::picture::{FretWidths, Handed, Top};
use crate::tui::shared::Shared;

impl Explore {
    /// Takes a tuning; the hand goes to the shape that is nearest to the one it holds.
    pub(in crate::tui::explore) fn take_tuning(&mut self, tuning: Tuning, shared: &mut Shared) {
        self.overlay = None;
        shared.take_tuning(tuning);
        self.chosen.first_fret = 1;
        let held = self.rung_in_hand().copied();
        self.chosen.frets = self.frets_on(shared);
        self.let_go(shared);
        let set = held.and_then(|held| self.set_like(&held));
        self.chosen.set = set.unwrap_or_else(|| self.usual_set());
        self.lay_out_near(held.map(|held| held.shape), shared);
        self.settle();
    }

    /// The wanted frets, if this neck has any of them; else all.
    fn frets_on(&self, shared: &Shared) -> FretRange {
        let has = self.chosen.frets.first() <= shared.neck().tuning().last_fret();
        if has { self.chosen.frets } else { FretRange::WHOLE_NECK }
    }

    /// The strings on which the counterpart of a shape lies: of the same triad the one that sounds
    /// nearest, and of those the one whose frets are nearest.
    fn set_like(&self, held: &Rung) -> Option<usize> {
        let all = &self.shown.everywhere;
        let of_side = |rung: &Rung| rung.which == held.which;
        let nearest = all.nearest(&held.shape, Nearness::Voices, of_side)?;
        self.set_of(all.rungs().get(nearest)?)
    }

    /// Puts a capo on the instrument; it stays there when another tuning is chosen.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    pub(in crate::tui) fn put_capo(
        &mut self,
        capo: Capo,
        shared: &mut Shared,
    ) -> Result<(), Refusal> {
        shared.put_capo(capo)?;
        self.lay_out(shared);
        Ok(())
    }

    /// Moves the capo by some frets, off the nut or back onto it.
    pub(super) fn move_capo(&mut self, by: i8, shared: &mut Shared) {
        if by < 0 && shared.neck().tuning().capo().is_none() {
            shared.tell("there is no capo to take down");
        }
        match shared.move_capo(by) {
            Ok(()) => self.lay_out(shared),
            // The capo stays.
            Err(refusal) => shared.tell(refusal.to_string()),
        }
    }

    /// Turns the neck for the other hand.
    pub(super) fn turn_for_other_hand(shared: &mut Shared) {
        shared.setup.handed = match shared.setup.handed {
            Handed::Right => Handed::Left,
            Handed::Left => Handed::Right,
        };
    }

    /// Turns the neck over: string 1 on top, or at the bottom.
    pub(super) fn turn_over(shared: &mut Shared) {
        shared.setup.top = match shared.setup.top {
            Top::First => Top::Last,
            Top::Last => Top::First,
        };
    }

    /// Frets of even width, or true to scale; as many others may be in view then.
    pub(super) fn change_fret_widths(&mut self, shared: &mut Shared) {
        shared.setup.fret_widths = match shared.setup.fret_widths {
            FretWidths::Even => FretWidths::True,
            FretWidths::True => FretWidths::Even,
        };
        self.follow_hand(shared);
    }
}
