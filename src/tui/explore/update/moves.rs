//! Through chords, scales, pairs and shapes.

use fretloom_fretboard::{Side, Way};
use fretloom_theory::{ReadChord, ScaleChoice, Spelling};

use super::super::Explore;
use super::super::in_hand::InHand;
use super::super::look::Look;
use super::wrapped;
use crate::answer::{Families, Wishes};
use crate::picture::Labels;

impl Explore {
    /// Takes a chord: its usual scale, its first pair, the hand where it is.
    pub(in crate::tui::explore) fn take_chord(&mut self, symbol: &str, read: ReadChord) {
        if read.chord != self.read.chord {
            self.pages.record(self.page());
        }
        self.choices = ScaleChoice::for_chord_with(&read.chord, self.library.scales.kinds());
        symbol.clone_into(&mut self.symbol);
        self.read = read;
        self.take_scale(0);
    }

    /// Takes a scale, and its first pair.
    pub(in crate::tui::explore) fn take_scale(&mut self, scale: usize) {
        (self.scale, self.row, self.copy) = (scale, 0, 0);
        self.ask_pairs();
    }

    pub(super) fn take_wishes(&mut self, wishes: Wishes) {
        self.wishes = wishes;
        (self.row, self.copy) = (0, 0);
        self.ask_pairs();
    }

    pub(super) fn change_families(&mut self) {
        self.families = wrapped(self.families, 1, Families::in_turn().len());
        (self.row, self.copy) = (0, 0);
        self.ask_pairs();
    }

    pub(super) fn step_pair(&mut self, by: isize) {
        self.row = wrapped(self.row, by, self.pairs.folds.len());
        self.copy = 0;
        self.lay_out();
    }

    /// The next copy of the same pair in a symmetric scale, the first one after the last.
    pub(super) fn move_pair(&mut self) {
        let copies = self.pairs.folds.get(self.row).map_or(0, |fold| fold.copies.len());
        self.copy = wrapped(self.copy, 1, copies + 1);
        self.lay_out();
    }

    pub(super) fn step_scale(&mut self, by: isize) {
        self.take_scale(wrapped(self.scale, by, self.choices.len()));
    }

    pub(super) fn step_strings(&mut self, by: isize) {
        self.set = wrapped(self.set, by, self.sets().len());
        if let (Look::Set(_), Some(set)) = (self.look, self.strings()) {
            self.look = Look::Set(set);
        }
        self.lay_out();
    }

    /// The next fingers for the shape in hand.
    pub(super) fn other_fingers(&mut self) {
        self.notice = self.hand.as_mut().map(InHand::next_fingers);
    }

    /// The next place of the notes in hand.
    pub(super) fn other_place(&mut self) {
        let neck = &self.instrument.neck;
        self.notice = self.hand.as_mut().map(|hand| hand.next_place(neck));
        self.follow_hand();
    }

    /// What stands in the marks next; an order only where the view has one.
    pub(super) fn next_labels(&mut self) {
        let all = Labels::ALL;
        let at = all.iter().position(|one| *one == self.labels).unwrap_or_default();
        let next = all
            .iter()
            .cycle()
            .skip(at + 1)
            .find(|labels| **labels != Labels::Order || self.looked.is_some());
        self.labels = next.copied().unwrap_or_default();
    }

    pub(super) fn change_spelling(&mut self) {
        self.spelling = match self.spelling {
            Spelling::Plain => Spelling::Strict,
            Spelling::Strict => Spelling::Plain,
        };
        self.ask_pairs();
    }

    /// The next rung. Where these strings end the ladder goes on over the next ones, and from the end
    /// of the neck it begins again; on locked strings it begins again at once. In a view the next
    /// shape is the next one that is seen.
    pub(super) fn climb(&mut self, way: Way) {
        if self.climb_in_view(way) {
            return;
        }
        match self.ladder.next(self.rung, way) {
            Some(rung) => self.rung = rung,
            None if self.locked => self.begin_again(way),
            None => self.climb_on(way),
        }
        self.take_hand();
    }

    /// From the other end of the same ladder.
    fn begin_again(&mut self, way: Way) {
        self.rung = self.ladder.beginning(way).unwrap_or_default();
        self.notice =
            self.strings().map(|set| format!("strings {set} end here: from their other end"));
    }

    /// Goes on where the ladder of these strings ends.
    fn climb_on(&mut self, way: Way) {
        let all = &self.everywhere;
        let here = self.rung_in_hand().and_then(|rung| all.find(&rung.shape));
        let on = here.and_then(|here| all.climb(here, way));
        let next = on.map(|step| step.rung).or(all.beginning(way));
        let next = next.and_then(|next| all.rungs().get(next)).copied();
        let (Some(next), Some(old)) = (next, self.strings()) else { return };
        self.take_rung(&next);
        let set = next.shape.string_set();
        self.notice = Some(match on {
            Some(_) => format!("strings {old} end here: on to {set}"),
            None => format!("the neck ends here: from its other end again, on {set}"),
        });
    }

    /// The next shape of one triad going up; past the last one it begins again.
    pub(super) fn next_inversion(&mut self, side: Side) {
        let above = self.ladder.next_of(self.rung, side, Way::Up);
        let lowest = || self.ladder.rungs().iter().position(|rung| rung.side == side);
        self.rung = above.or_else(lowest).unwrap_or(self.rung);
        self.take_hand();
    }
}
