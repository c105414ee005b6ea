//! What the mouse does to the explorer, by its table. Where things are is asked of what draws them.

use fretloom_fretboard::{Nearness, Place, Rung, StringNumber};
use ratatui::layout::{Position, Rect};

use super::super::in_hand::Held;
use super::super::{Explore, Over};
use crate::picture::NeckHit;
use crate::tui::command::Command;
use crate::tui::gesture::{Act, Gesture, Spot};
use crate::tui::key::Key;
use crate::tui::mouse::{Mouse, Pointer};
use crate::tui::runtime::Effect;
use crate::tui::widget::{ListLine, NeckWidget};

/// What lies under the mouse.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Hit {
    Pair(ListLine),
    /// The list of pairs beside its rows.
    Pairs,
    Scale(ListLine),
    /// The scales beside their rows.
    Scales,
    OnNeck(NeckHit),
    /// The neck beside its strings.
    Neck,
    Line(ListLine),
    /// A list laid over the screen, beside its lines.
    List,
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    fn spot(self) -> Spot {
        match self {
            Hit::Pair(_) => Spot::Pair,
            Hit::Pairs => Spot::Pairs,
            Hit::Scale(_) => Spot::Scale,
            Hit::Scales => Spot::Scales,
            Hit::OnNeck(NeckHit::Place(_)) => Spot::Note,
            Hit::OnNeck(NeckHit::Name(_)) => Spot::StringName,
            Hit::Neck => Spot::Neck,
            Hit::Line(_) => Spot::Line,
            Hit::List => Spot::List,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl Explore {
    /// Takes the mouse, or frees it so that the terminal selects text with it.
    pub(super) fn change_mouse(&mut self) {
        let (mouse, told) = match self.mouse {
            Mouse::Taken => (Mouse::Free, "the mouse selects text"),
            Mouse::Free => (Mouse::Taken, "the mouse chooses what it points at"),
        };
        self.mouse = mouse;
        self.notice = Some(told.to_owned());
    }

    pub(super) fn point(&mut self, pointer: Pointer) -> Vec<Effect> {
        let Some(hit) = self.hit((pointer.column, pointer.row).into()) else { return Vec::new() };
        match Gesture::at(hit.spot(), pointer.what).map(|row| row.act) {
            Some(Act::Do(command)) => self.comparing(|explore| explore.obey(command)),
            Some(Act::Choose) => self.comparing(|explore| explore.choose(hit)),
            None => Vec::new(),
        }
    }

    fn hit(&self, place: Position) -> Option<Hit> {
        let screen = self.whole_screen();
        if let Some(key) = self.key_at(screen, place) {
            return Some(Hit::Footer(key));
        }
        match &self.over {
            Over::Nothing => self.hit_explorer(screen, place),
            // What is typed is not to be lost by a slip of the mouse.
            Over::Chord(_) | Over::Wish(_) => None,
            _ => self.hit_list(screen, place),
        }
    }

    fn whole_screen(&self) -> Rect {
        Rect::new(0, 0, self.columns, self.rows)
    }

    fn hit_explorer(&self, screen: Rect, place: Position) -> Option<Hit> {
        let [pairs, scales, neck, _] = self.places_to_point_at(screen)?;
        if pairs.contains(place) {
            return Some(self.pair_lines(pairs).at(place).map_or(Hit::Pairs, Hit::Pair));
        }
        if scales.contains(place) {
            return Some(self.scale_lines(scales).at(place).map_or(Hit::Scales, Hit::Scale));
        }
        let hit = || NeckWidget::hit(&self.picture(), neck, place).map_or(Hit::Neck, Hit::OnNeck);
        neck.contains(place).then(hit)
    }

    /// All of a list is one spot down to its footer, in which only the keys are spots.
    fn hit_list(&self, screen: Rect, place: Position) -> Option<Hit> {
        let above_footer = Rect { height: screen.height.saturating_sub(1), ..screen };
        let line = || self.lines_over(screen)?.at(place);
        above_footer.contains(place).then(|| line().map_or(Hit::List, Hit::Line))
    }

    fn choose(&mut self, hit: Hit) -> Vec<Effect> {
        match hit {
            Hit::Footer(key) => {
                self.pointed_at = None;
                return self.answer_key(key);
            }
            Hit::Line(seen) => return self.choose_line(seen),
            Hit::Pair(seen) => self.choose_row(seen),
            Hit::Scale(seen) => self.choose_scale(seen),
            Hit::OnNeck(hit) => self.choose_on_neck(hit),
            Hit::Pairs | Hit::Scales | Hit::Neck | Hit::List => {}
        }
        Vec::new()
    }

    /// Marks the line; a second click takes it, as Enter does.
    fn choose_line(&mut self, seen: ListLine) -> Vec<Effect> {
        if self.pointed_at == Some((Spot::Line, seen)) {
            self.pointed_at = None;
            return self.obey(Command::Accept);
        }
        self.pointed_at = Some((Spot::Line, seen));
        self.mark_line(seen.line);
        Vec::new()
    }

    fn choose_row(&mut self, seen: ListLine) {
        self.notice = None;
        self.pointed_at = Some((Spot::Pair, seen));
        // The row in use may show a copy of its pair, which is what was pointed at.
        if seen.line != self.chosen.row {
            (self.chosen.row, self.chosen.copy) = (seen.line, 0);
            self.lay_out();
        }
    }

    fn choose_scale(&mut self, seen: ListLine) {
        self.notice = None;
        self.pointed_at = Some((Spot::Scale, seen));
        if seen.line != self.chosen.scale {
            self.take_scale(seen.line);
        }
    }

    fn choose_on_neck(&mut self, hit: NeckHit) {
        self.notice = None;
        match hit {
            NeckHit::Place(place) => self.take_note(place),
            NeckHit::Name(string) => self.go_to_string(string),
        }
    }

    /// Takes the shape with that note that is nearest in the ladder; on other strings, if these
    /// have none.
    fn take_note(&mut self, place: Place) {
        let holds = |rung: &Rung| rung.shape.places().contains(&place);
        let in_hand = self.rung_in_hand();
        let ladder = &self.shown.ladder;
        let nearest = in_hand.and_then(|r| ladder.nearest(&r.shape, Nearness::Rungs, holds));
        if nearest.is_some() {
            self.hold(nearest, Held::default());
            return;
        }
        let there = self.shown.everywhere.rungs().iter().filter(|rung| holds(rung));
        let far = |rung: &&Rung| self.set_of(rung).map(|set| set.abs_diff(self.chosen.set));
        match there.min_by_key(far).copied() {
            Some(rung) => self.take_rung(&rung),
            None => self.notice = Some("no close shape of the pair has this place".to_owned()),
        }
    }

    /// On a string of the set in use its lock; on any other one the nearest set that has it.
    fn go_to_string(&mut self, string: StringNumber) {
        let sets = self.sets();
        let has = |set: usize| {
            let set = sets.get(set);
            set.is_some_and(|set| set.iter().any(|one| one == string))
        };
        if has(self.chosen.set) {
            self.chosen.locked = !self.chosen.locked;
            return;
        }
        let there = (0..sets.len()).filter(|set| has(*set));
        if let Some(set) = there.min_by_key(|set| set.abs_diff(self.chosen.set)) {
            self.chosen.set = set;
            self.lay_out();
        }
    }
}
