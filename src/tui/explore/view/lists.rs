//! The lists that can lie over the explorer: where their lines are, their footer, and the scales.

use std::borrow::Cow;

use fretloom_theory::Direction;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::neck_view::NeckView;
use super::super::overlay::Overlay;
use crate::tui::command::{
    COMMANDS, Command, ExploreCommand, ListCommand, ProgramCommand, Section, TypingCommand,
};
use crate::tui::gesture::Spot;
use crate::tui::widget::{Footer, ListView, list_footer, list_rows, write};
use crate::words::spaced;

impl Drawing<'_> {
    pub(super) fn draw_scale_list(&self, area: Rect, buffer: &mut Buffer) {
        let names = self
            .explore
            .shown
            .scales
            .iter()
            .map(|choice| choice.scale().to_string().chars().count());
        let width = names.max().unwrap_or_default();
        let line = |index: usize, style: Style| {
            let choice = self.explore.shown.scales.get(index)?;
            Some(vec![
                Span::styled(format!("{:<width$}", choice.scale().to_string()), style),
                Span::styled(format!("  {}", spaced(choice.scale().notes())), style),
                Span::styled(format!("  {}", choice.why()), self.shared.theme.muted),
            ])
        };
        let title = format!(" Scales that fit {}", self.explore.chosen.chord.read.chord);
        write(buffer, area, &Line::styled(title, self.shared.theme.title));
        if let Some(lines) = self.lines_over(area) {
            lines.draw(buffer, &self.shared.theme, line);
        }
        self.draw_list_footer(area, buffer);
    }

    /// The lines of the list that is laid over the explorer, if one is.
    pub(in crate::tui::explore) fn lines_over(&self, screen: Rect) -> Option<ListView> {
        let (area, marked, count) = match self.explore.overlay.as_ref()? {
            Overlay::Scales(marked) => {
                (list_rows(screen), *marked, self.explore.shown.scales.len())
            }
            Overlay::Tunings(tunings) => {
                let [_, list, ..] = self.tunings_areas(screen, tunings);
                (list, tunings.at, tunings.offers.len())
            }
            Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_) | Overlay::Details(_) => {
                return None;
            }
        };
        Some(ListView { area, marked, count, pointed_at: self.shared.clicked(Spot::Line) })
    }

    /// The keys that matter now. Only chords have suggestions, and on a page there is nothing to take.
    pub(in crate::tui::explore) fn footer(&self) -> Footer<'_> {
        let idle = match &self.explore.overlay {
            Some(Overlay::Wishes(_) | Overlay::Where(_)) => {
                Some(Command::Typing(TypingCommand::Suggestion))
            }
            Some(Overlay::Details(_)) => Some(Command::List(ListCommand::Accept)),
            Some(Overlay::Chord(_) | Overlay::Tunings(_) | Overlay::Scales(_)) | None => None,
        };
        if self.explore.overlay.is_none() {
            return self.shared.footer_of(self.keys_of_explorer());
        }
        self.shared.footer(self.explore.section(), idle)
    }

    /// The footer of a list: its keys at the left, where one is in it at the right.
    pub(super) fn draw_list_footer(&self, screen: Rect, buffer: &mut Buffer) {
        let place = self.place_in_list(screen);
        let [keys, right] = list_footer(screen, &place);
        self.footer().draw(keys, buffer);
        write(buffer, right, &Line::styled(place, self.shared.theme.muted));
    }

    /// Where the keys of the footer lie; no cell where none is drawn.
    pub(in crate::tui::explore) fn footer_area(&self, screen: Rect) -> Rect {
        if self.lines_over(screen).is_some() {
            let [keys, _] = list_footer(screen, &self.place_in_list(screen));
            return keys;
        }
        self.places_to_point_at(screen).map_or(Rect::ZERO, |[.., footer]| footer)
    }

    /// Where one is in the list that is laid over the explorer.
    fn place_in_list(&self, screen: Rect) -> String {
        self.lines_over(screen).as_ref().map(ListView::place_in_words).unwrap_or_default()
    }

    /// The keys of the explorer with their words: those that matter in the view first, then the
    /// others that have a word for the footer.
    fn keys_of_explorer(&self) -> Vec<(Command, Cow<'static, str>)> {
        let mut keys: Vec<(Command, Cow<'static, str>)> = self.keys_that_matter();
        for row in COMMANDS {
            let is_heard = row.section.is_heard_with(Section::Explore) && !row.label.is_empty();
            if is_heard && keys.iter().all(|(command, _)| *command != row.command) {
                keys.push((row.command, row.label.into()));
            }
        }
        keys
    }

    /// Those that are to be found at 80 columns: the keys of the two triads have their names.
    fn keys_that_matter(&self) -> Vec<(Command, Cow<'static, str>)> {
        use ExploreCommand as Own;
        use ProgramCommand::{Back, Help, Palette, Undo};
        let triads = self.explore.pair().map(|pair| [pair.first.name, pair.second.name]);
        let triads = triads.map(|triads| triads.map(|triad| Cow::from(triad.to_string())));
        let [first, second] = triads.unwrap_or(["1st triad".into(), "2nd triad".into()]);
        let climb = match self.explore.chosen.going {
            Direction::Up => "climb",
            Direction::Down => "down",
        };
        let choice = choice_of(self.explore.chosen.view);
        let mut keys = vec![
            (Command::Program(Help), "help".into()),
            (Command::Explore(Own::EditChord), "chord".into()),
        ];
        // In a view its choices are gone through rather than pairs.
        keys.extend(choice.is_none().then(|| (Command::Explore(Own::NextPair), "pair".into())));
        keys.extend([
            (Command::Explore(Own::Climb), climb.into()),
            (Command::Explore(Own::FirstTriad), first),
            (Command::Explore(Own::SecondTriad), second),
            (Command::Explore(Own::NextView), "view".into()),
        ]);
        let line = (Command::Explore(Own::MakeLine), "line".into());
        let back =
            [(Command::Program(Undo), "undo".into()), (Command::Program(Back), "back".into())];
        match choice {
            None => keys.extend([line].into_iter().chain(back)),
            // A view needs the room for its own key.
            Some(word) => {
                keys.push((Command::Explore(Own::NextChoice), word.into()));
                keys.extend(back.into_iter().chain([line]));
            }
        }
        keys.extend([
            (Command::Program(Palette), "all".into()),
            (Command::Explore(Own::NextScale), "scale".into()),
            (Command::Explore(Own::NextStrings), "strings".into()),
        ]);
        keys
    }
}

/// The word for the choices of a view; none for the whole neck.
const fn choice_of(view: NeckView) -> Option<&'static str> {
    match view {
        NeckView::Whole => None,
        NeckView::Position(_) => Some("position"),
        NeckView::Set(_) => Some("strings"),
        NeckView::Across(_) => Some("chain"),
        NeckView::Two(_) => Some("start"),
    }
}
