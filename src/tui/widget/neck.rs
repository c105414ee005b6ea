//! The drawn neck in the cells of a screen.

use fretloom_theory::WhichTriad;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};
use ratatui::widgets::Widget;

use crate::picture::{Ink, NeckHit, NeckPicture, Weight};
use crate::tui::theme::Theme;

/// Draws as much of a neck as an area holds, in the styles of a theme.
#[derive(Clone, Copy, Debug)]
pub struct NeckWidget<'a> {
    picture: &'a NeckPicture,
    theme: &'a Theme,
}

impl<'a> NeckWidget<'a> {
    /// This neck in these styles.
    #[must_use]
    pub const fn new(picture: &'a NeckPicture, theme: &'a Theme) -> NeckWidget<'a> {
        NeckWidget { picture, theme }
    }

    /// What lies under a place of the screen where a neck is drawn in `area`; `None` beside it, beside
    /// its strings, on a wire and beyond the last fret shown.
    #[must_use]
    pub fn hit(picture: &NeckPicture, area: Rect, place: Position) -> Option<NeckHit> {
        let inside = area.contains(place);
        inside.then(|| picture.hit(area.width, place.x - area.x, place.y - area.y)).flatten()
    }

    fn style(self, ink: Ink) -> Style {
        let theme = self.theme;
        let (which, weight, stays) = match ink {
            Ink::Quiet => return theme.muted,
            Ink::String => return theme.string,
            Ink::Note { which, weight, stays } => (which, weight, stays),
        };
        let of_triad = match which {
            WhichTriad::First => theme.first,
            WhichTriad::Second => theme.second,
        };
        let style = match weight {
            Weight::Quiet => theme.muted,
            Weight::Plain => of_triad,
            Weight::Held => of_triad.patch(theme.held),
        };
        if stays { style.add_modifier(Modifier::UNDERLINED) } else { style }
    }
}

impl Widget for NeckWidget<'_> {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        let inside = area.intersection(buffer.area);
        for run in self.picture.runs(area.width) {
            let style = self.style(run.ink);
            for (sign, column) in run.text.chars().zip(run.column..inside.width) {
                let at = (inside.x + column, inside.y.saturating_add(run.row));
                if run.row < inside.height
                    && let Some(cell) = buffer.cell_mut(at)
                {
                    cell.set_char(sign).set_style(style);
                }
            }
        }
    }
}
