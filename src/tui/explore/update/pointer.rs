//! What the mouse does to the explorer. Where things are is asked of what draws them.

use fretloom_fretboard::{Ladder, Rung, ShapeQuery};
use ratatui::layout::Rect;

use super::super::{Explore, Over};
use crate::tui::mouse::{Mouse, Pointed, Pointer};
use crate::tui::neck::NeckHit;

/// What lies under the mouse.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Hit {
    /// A row of the list of pairs; none below its last one.
    Pairs(Option<usize>),
    /// The neck; none beside its strings.
    Neck(Option<NeckHit>),
}

impl Explore {
    /// Takes the mouse, or frees it so that the terminal selects text with it.
    pub(super) fn change_mouse(&mut self) {
        let (mouse, told) = match self.mouse {
            Mouse::Taken => (Mouse::Free, "the mouse selects text"),
            Mouse::Free => (Mouse::Taken, "the mouse chooses pairs, notes and strings"),
        };
        self.mouse = mouse;
        self.notice = Some(told.to_owned());
    }

    pub(super) fn point(&mut self, pointer: Pointer) {
        if !matches!(self.over, Over::Nothing) {
            return;
        }
        let Some(hit) = self.hit(pointer) else { return };
        self.notice = None;
        match (hit, pointer.what) {
            (Hit::Pairs(Some(row)), Pointed::Click) => self.choose_row(row),
            (Hit::Pairs(_), Pointed::WheelDown) => self.step_pair(1),
            (Hit::Pairs(_), Pointed::WheelUp) => self.step_pair(-1),
            (Hit::Neck(Some(NeckHit::Place(string, fret))), Pointed::Click) => {
                self.take_note(string, fret);
            }
            (Hit::Neck(Some(NeckHit::Name(string))), Pointed::Click) => self.go_to_string(string),
            (Hit::Neck(_), Pointed::WheelDown) => self.scroll_to(self.first_fret.saturating_add(1)),
            (Hit::Neck(_), Pointed::WheelUp) => self.scroll_to(self.first_fret.saturating_sub(1)),
            _ => {}
        }
    }

    fn hit(&self, pointer: Pointer) -> Option<Hit> {
        let (pairs, neck) = self.places_to_point_at(Rect::new(0, 0, self.columns, self.rows))?;
        let at = (pointer.column, pointer.row).into();
        if pairs.contains(at) {
            return Some(Hit::Pairs(self.row_at(pairs, pointer.row)));
        }
        let (column, row) = (pointer.column.checked_sub(neck.x)?, pointer.row.checked_sub(neck.y)?);
        let hit = || self.picture().hit(neck.width, column, row);
        neck.contains(at).then(hit).map(Hit::Neck)
    }

    fn choose_row(&mut self, row: usize) {
        (self.row, self.copy) = (row, 0);
        self.lay_out();
    }

    /// Takes the shape with that note that is nearest in the ladder; on other strings, if these
    /// have none.
    fn take_note(&mut self, string: u8, fret: u8) {
        let holds = |rung: &Rung| {
            let mut places = rung.shape.places().into_iter();
            places.any(|place| (place.string.number(), place.fret.number()) == (string, fret))
        };
        let here = self.ladder.rungs().iter().enumerate().filter(|(_, rung)| holds(rung));
        if let Some((rung, _)) = here.min_by_key(|(rung, _)| rung.abs_diff(self.rung)) {
            self.rung = rung;
            self.take_hand();
            return;
        }
        let Some(pair) = self.pair() else { return };
        let all = Ladder::new(self.neck(), pair.pair.triads(), &ShapeQuery::default());
        let of_set =
            |rung: &Rung| self.sets().iter().position(|set| *set == rung.shape.string_set());
        let there = all.rungs().iter().filter(|rung| holds(rung));
        let there = there.filter_map(|rung| Some((of_set(rung)?, *rung)));
        match there.min_by_key(|(set, _)| set.abs_diff(self.set)) {
            Some((set, rung)) => self.take_shape(set, &rung),
            None => self.notice = Some("no close shape of the pair has this place".to_owned()),
        }
    }

    /// Goes to the ladder of a set, and there to one of its shapes.
    fn take_shape(&mut self, set: usize, wanted: &Rung) {
        self.set = set;
        self.lay_out();
        let is_it = |rung: &Rung| rung.shape.places() == wanted.shape.places();
        self.rung = self.ladder.rungs().iter().position(is_it).unwrap_or(self.rung);
        self.take_hand();
    }

    /// On a string of the set in use its lock; on any other one the nearest set that has it.
    fn go_to_string(&mut self, string: u8) {
        let sets = self.sets();
        let has = |set: usize| {
            let set = sets.get(set);
            set.is_some_and(|set| set.iter().any(|one| one.number() == string))
        };
        if has(self.set) {
            self.locked = !self.locked;
            return;
        }
        let there = (0..sets.len()).filter(|set| has(*set));
        if let Some(set) = there.min_by_key(|set| set.abs_diff(self.set)) {
            self.set = set;
            self.lay_out();
        }
    }
}
