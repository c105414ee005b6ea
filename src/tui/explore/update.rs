//! What keys do to the explorer.

use fretloom_fretboard::{Neck, Side, Way};
use fretloom_theory::{ReadChord, ScaleChoice, Spelling};

use super::{Explore, Field, Instrument, Over};
use crate::answer::{Families, Labels, TuningAnswer, Wishes};
use crate::tui::command::{Command, Section};
use crate::tui::event::Event;
use crate::tui::key::Key;
use crate::tui::runtime::{App, Effect};

impl App for Explore {
    fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => self.press(key),
            Event::Paste(text) => {
                if let Over::Chord(field) | Over::Wish(field) = &mut self.over {
                    field.insert(&text);
                }
                Vec::new()
            }
            Event::Resize { columns, rows } => {
                (self.columns, self.rows) = (columns, rows);
                self.follow_hand();
                Vec::new()
            }
        }
    }

    fn view(&self, frame: &mut ratatui::Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }
}

impl Explore {
    fn press(&mut self, key: Key) -> Vec<Effect> {
        let everywhere = self.keys.command(Section::Everywhere, key);
        match everywhere {
            Some(Command::QuitAtOnce) => return vec![Effect::Quit],
            Some(Command::Suspend) => return vec![Effect::Suspend],
            _ => {}
        }
        match &self.over {
            Over::Chord(_) | Over::Wish(_) => self.press_in_field(key),
            Over::Help(_) | Over::Tunings(_) | Over::Scales(_) => self.press_in_list(key),
            Over::Nothing => match (self.keys.command(Section::Explore, key), everywhere) {
                (Some(command), _) => self.explore(command),
                (None, Some(Command::Help)) => self.over = Over::Help(0),
                (None, Some(Command::Quit)) => return vec![Effect::Quit],
                _ => {}
            },
        }
        Vec::new()
    }

    fn press_in_field(&mut self, key: Key) {
        let (Over::Chord(field) | Over::Wish(field)) = &mut self.over else { return };
        match self.keys.command(Section::Typing, key) {
            Some(Command::Cancel) => self.over = Over::Nothing,
            Some(Command::Accept) => self.accept_field(),
            _ => field.press(key),
        }
    }

    /// Takes what is typed. What cannot be read stays in the field, which says why.
    fn accept_field(&mut self) {
        match std::mem::replace(&mut self.over, Over::Nothing) {
            Over::Chord(field) => match field.text().parse::<ReadChord>() {
                Ok(read) => self.take_chord(field.text().trim(), read),
                Err(_) => self.over = Over::Chord(field),
            },
            Over::Wish(field) => match Wishes::read_line(&field.text()) {
                Ok(wishes) => self.take_wishes(wishes),
                Err(_) => self.over = Over::Wish(field),
            },
            other => self.over = other,
        }
    }

    fn press_in_list(&mut self, key: Key) {
        let page = usize::from(self.rows.saturating_sub(4)).max(1);
        let last = match &self.over {
            Over::Tunings(_) => self.tunings().len().saturating_sub(1),
            Over::Scales(_) => self.choices.len().saturating_sub(1),
            _ => self.last_help_top(),
        };
        let command = self.keys.command(Section::List, key);
        match (&mut self.over, command) {
            (_, Some(Command::Cancel)) => self.over = Over::Nothing,
            (Over::Help(_), Some(Command::Accept)) => self.over = Over::Nothing,
            (Over::Tunings(at), Some(Command::Accept)) => {
                let at = *at;
                self.over = Over::Nothing;
                self.take_tuning(at);
            }
            (Over::Scales(at), Some(Command::Accept)) => {
                let at = *at;
                self.over = Over::Nothing;
                self.take_scale(at);
            }
            (Over::Help(at) | Over::Tunings(at) | Over::Scales(at), Some(command)) => {
                // A window that has grown may show the end of a page that stood lower.
                let now = (*at).min(last);
                *at = match command {
                    Command::Down => now + 1,
                    Command::Up => now.saturating_sub(1),
                    Command::PageDown => now + page,
                    Command::PageUp => now.saturating_sub(page),
                    _ => now,
                }
                .min(last);
            }
            _ => {}
        }
    }

    /// The help line on top when the last one stands above the footer.
    fn last_help_top(&self) -> usize {
        self.help_lines().len().saturating_sub(usize::from(self.rows.saturating_sub(1)))
    }

    fn explore(&mut self, command: Command) {
        match command {
            Command::EditChord => self.over = Over::Chord(Field::holding(&self.symbol)),
            Command::EditWish => self.over = Over::Wish(Field::holding(&self.wishes.to_string())),
            Command::Families => self.change_families(),
            Command::ChooseScale => self.over = Over::Scales(self.scale),
            Command::MovePair => self.move_pair(),
            Command::NextPair => self.step_pair(1),
            Command::PreviousPair => self.step_pair(-1),
            Command::NextScale => self.step_scale(1),
            Command::PreviousScale => self.step_scale(-1),
            Command::Climb => self.climb(Way::Up),
            Command::Descend => self.climb(Way::Down),
            Command::FirstTriad => self.next_inversion(Side::First),
            Command::SecondTriad => self.next_inversion(Side::Second),
            Command::NextStrings => self.step_strings(1),
            Command::PreviousStrings => self.step_strings(-1),
            Command::LockStrings => self.locked = !self.locked,
            Command::Labels => self.labels = after(&Labels::ALL, self.labels),
            Command::Spelling => self.change_spelling(),
            Command::ChooseTuning => self.over = Over::Tunings(self.tuning_in_list()),
            Command::ScrollRight => self.scroll_to(self.first_fret.saturating_add(1)),
            Command::ScrollLeft => self.scroll_to(self.first_fret.saturating_sub(1)),
            Command::ToNut => self.scroll_to(1),
            Command::ToEnd => self.scroll_to(u8::MAX),
            _ => {}
        }
    }

    /// Takes a chord: its usual scale, its first pair, the hand where it is.
    pub(super) fn take_chord(&mut self, symbol: &str, read: ReadChord) {
        self.choices = ScaleChoice::for_chord_with(&read.chord, self.library.scales.kinds());
        symbol.clone_into(&mut self.symbol);
        self.read = read;
        self.take_scale(0);
    }

    /// Takes a scale, and its first pair.
    fn take_scale(&mut self, scale: usize) {
        (self.scale, self.row, self.copy) = (scale, 0, 0);
        self.ask_pairs();
    }

    fn take_wishes(&mut self, wishes: Wishes) {
        self.wishes = wishes;
        (self.row, self.copy) = (0, 0);
        self.ask_pairs();
    }

    fn change_families(&mut self) {
        self.families = wrapped(self.families, 1, Families::in_turn().len());
        (self.row, self.copy) = (0, 0);
        self.ask_pairs();
    }

    fn take_tuning(&mut self, at: usize) {
        let Some(tuning) = self.tunings().get(at).map(|tuning| (*tuning).clone()) else { return };
        // A capo that does not go on the new instrument is taken off.
        let capo = self.neck().tuning().capo();
        let tuning = tuning.clone().with_capo(capo).unwrap_or(tuning);
        let answer = TuningAnswer::of(&self.library.tunings, &tuning);
        self.instrument = Instrument { neck: Neck::new(tuning), tuning: answer };
        self.set = self.usual_set();
        self.first_fret = 1;
        self.lay_out();
    }

    fn tuning_in_list(&self) -> usize {
        let here = self.instrument.neck.tuning().id();
        self.tunings().iter().position(|tuning| tuning.id() == here).unwrap_or_default()
    }

    fn step_pair(&mut self, by: isize) {
        self.row = wrapped(self.row, by, self.pairs.folds.len());
        self.copy = 0;
        self.lay_out();
    }

    /// The next copy of the same pair in a symmetric scale, the first one after the last.
    fn move_pair(&mut self) {
        let copies = self.pairs.folds.get(self.row).map_or(0, |fold| fold.copies.len());
        self.copy = wrapped(self.copy, 1, copies + 1);
        self.lay_out();
    }

    fn step_scale(&mut self, by: isize) {
        self.take_scale(wrapped(self.scale, by, self.choices.len()));
    }

    fn step_strings(&mut self, by: isize) {
        self.set = wrapped(self.set, by, self.sets().len());
        self.lay_out();
    }

    fn change_spelling(&mut self) {
        self.spelling = match self.spelling {
            Spelling::Plain => Spelling::Strict,
            Spelling::Strict => Spelling::Plain,
        };
        self.ask_pairs();
    }

    /// The next rung; past the last one the ladder begins again.
    fn climb(&mut self, way: Way) {
        let count = self.ladder.rungs().len();
        let by = if way == Way::Up { 1 } else { -1 };
        self.rung = wrapped(self.rung, by, count);
        self.follow_hand();
    }

    /// The next shape of one triad going up; past the last one it begins again.
    fn next_inversion(&mut self, side: Side) {
        let rungs = self.ladder.rungs();
        let of_side = |index: &usize| rungs.get(*index).is_some_and(|rung| rung.side == side);
        let above = (self.rung + 1..rungs.len()).find(of_side);
        if let Some(index) = above.or_else(|| (0..rungs.len()).find(of_side)) {
            self.rung = index;
        }
        self.follow_hand();
    }

    fn scroll_to(&mut self, first_fret: u8) {
        self.first_fret = first_fret.clamp(1, self.furthest_scroll());
    }

    /// Scrolls just so far that the shape in hand is in view.
    pub(super) fn follow_hand(&mut self) {
        let furthest = self.furthest_scroll();
        let frets = self.rung_in_hand().map(|rung| rung.shape.fretted().map(|f| f.number()));
        let (lowest, highest) = match frets {
            Some(frets) => frets.fold((u8::MAX, 0), |(low, high), f| (low.min(f), high.max(f))),
            None => (u8::MAX, 0),
        };
        if highest > 0 {
            let shown = self.frets_shown();
            if lowest < self.first_fret {
                self.first_fret = lowest.saturating_sub(1).max(1);
            } else if highest >= self.first_fret.saturating_add(shown) {
                self.first_fret = (highest + 1).saturating_sub(shown).max(1);
            }
        }
        self.first_fret = self.first_fret.clamp(1, furthest);
    }

    /// The first fret shown when the last one is at the right edge.
    fn furthest_scroll(&self) -> u8 {
        let last = self.instrument.neck.tuning().last_fret().number();
        (last + 1).saturating_sub(self.frets_shown()).max(1)
    }

    /// How many frets the neck shows at its narrowest cells in the present width.
    fn frets_shown(&self) -> u8 {
        let picture = self.picture().between(1, u8::MAX);
        let geometry = picture.geometry(self.neck_width());
        geometry.last_shown().max(1)
    }
}

/// The element after `now`, the first one after the last.
fn after<T: Copy + PartialEq>(all: &[T], now: T) -> T {
    let next = all.iter().position(|one| *one == now).map_or(0, |at| (at + 1) % all.len().max(1));
    all.get(next).copied().unwrap_or(now)
}

/// `at` moved by one step in a circle of `count`.
fn wrapped(at: usize, by: isize, count: usize) -> usize {
    match isize::try_from(count) {
        Ok(count) if count > 0 => {
            let moved = (at as isize + by).rem_euclid(count);
            usize::try_from(moved).unwrap_or_default()
        }
        _ => 0,
    }
}
