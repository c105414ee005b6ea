//! The instrument: its tuning, its capo, and how it lies before the player.

use fretloom_fretboard::{Capo, Fret, Nearness, Rung, Tuning};

use super::super::{Explore, Over};
use crate::answer;
use crate::picture::{FretWidths, Handed, Top};

/// No player puts a capo above the octave, where another one would make a new instrument.
const HIGHEST_CAPO: u8 = 12;

impl Explore {
    /// Takes a tuning; the hand goes to the shape that is nearest to the one it holds.
    pub(in crate::tui::explore) fn take_tuning(&mut self, tuning: Tuning) {
        self.over = Over::Nothing;
        if self.library.tunings.get(tuning.id()).is_none() {
            self.typed = Some(tuning.clone());
        }
        // A capo that does not go on the new instrument is taken off.
        let capo = self.neck().tuning().capo();
        self.chosen.tuning = tuning.clone().with_capo(capo).unwrap_or(tuning);
        self.chosen.first_fret = 1;
        let held = self.rung_in_hand().copied();
        self.let_go();
        let set = held.and_then(|held| self.set_like(&held));
        self.chosen.set = set.unwrap_or_else(|| self.usual_set());
        self.lay_out_near(held.map(|held| held.shape));
    }

    /// The strings on which the counterpart of a shape lies: of the same triad the one that sounds
    /// nearest, and of those the one whose frets are nearest.
    fn set_like(&self, held: &Rung) -> Option<usize> {
        let all = &self.shown.everywhere;
        let of_side = |rung: &Rung| rung.side == held.side;
        let nearest = all.nearest(&held.shape, Nearness::Voices, of_side)?;
        self.set_of(all.rungs().get(nearest)?)
    }

    /// Moves the capo by some frets, off the nut or back onto it.
    pub(super) fn move_capo(&mut self, by: i8) {
        let now = self.neck().tuning().capo();
        let highest = HIGHEST_CAPO.min(self.neck().tuning().last_fret().number());
        let fret = now.fret().number().saturating_add_signed(by).min(highest);
        let Some(fret) = Fret::new(fret) else { return };
        let strings =
            self.chosen.capo_strings.filter(|set| set.is_on(self.neck().tuning().string_count()));
        let capo = strings.map_or(Capo::full(fret), |set| Capo::partial(fret, set));
        let kept = self.chosen.capo_strings;
        // Only a pitch above all that there are could forbid it; the capo then stays.
        if let Err(refusal) = self.put_capo(capo) {
            self.notice = Some(refusal.to_string());
        }
        self.chosen.capo_strings = kept;
    }

    /// Turns the neck for the other hand.
    pub(super) fn turn_for_other_hand(&mut self) {
        self.chosen.handed = match self.chosen.handed {
            Handed::Right => Handed::Left,
            Handed::Left => Handed::Right,
        };
    }

    /// Turns the neck over: string 1 on top, or at the bottom.
    pub(super) fn turn_over(&mut self) {
        self.chosen.top = match self.chosen.top {
            Top::First => Top::Last,
            Top::Last => Top::First,
        };
    }

    /// Frets of even width, or true to scale; as many others may be in view then.
    pub(super) fn change_fret_widths(&mut self) {
        self.chosen.fret_widths = match self.chosen.fret_widths {
            FretWidths::Even => FretWidths::True,
            FretWidths::True => FretWidths::Even,
        };
        self.follow_hand();
    }

    /// The words for what the hand makes behind the capo; none without a capo.
    pub(in crate::tui::explore) fn capo_words(&self) -> Option<String> {
        let capo = self.neck().tuning().capo();
        let shapes = self
            .pair()
            .and_then(|pair| answer::behind_capo(capo, [pair.first.name, pair.second.name]));
        match (capo.strings(), shapes) {
            _ if capo.is_none() => None,
            (None, Some([first, second])) => {
                Some(format!("capo {} · shapes of {first} & {second}", capo.fret()))
            }
            (Some(strings), _) => Some(format!("capo {} on {strings}", capo.fret())),
            (None, None) => Some(format!("capo {}", capo.fret())),
        }
    }
}
