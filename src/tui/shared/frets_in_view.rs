//! Which part of a neck is in view where the marks on it decide.

use fretloom_fretboard::{Fret, FretRange};
use ratatui::layout::Rect;

use super::state::Shared;
use crate::picture::{Mark, NeckPicture};
use crate::tui::widget::indented;

impl Shared {
    /// The frets to draw of a neck across the window: from the first one, if all marks are in view
    /// from there; else from one before the lowest mark; else from one before the lowest that is
    /// looked at.
    pub(in crate::tui) fn frets_in_view(
        &self,
        picture: &NeckPicture,
        is_looked_at: impl Fn(&Mark) -> bool,
    ) -> FretRange {
        let of_all = frets_of(picture.marks.iter());
        let shown = picture.marks.iter().filter(|mark| is_looked_at(mark));
        let width = indented(Rect::new(0, 0, self.size.width, 1)).width;
        let in_view = picture.columns(width).last_shown().number();
        let before = |lowest: u8| lowest.saturating_sub(1).max(1);
        let first = match (of_all, frets_of(shown)) {
            (Some((_, highest)), _) if highest <= in_view => 1,
            (Some((lowest, highest)), _) if highest - before(lowest) < in_view => before(lowest),
            (_, Some((lowest, highest))) if highest > in_view => before(lowest),
            (Some(_) | None, Some(_) | None) => 1,
        };
        // Not so far that the neck ends before the window does.
        let last = self.neck().tuning().last_fret().number();
        let furthest = (last + 1).saturating_sub(in_view).max(1);
        let first = Fret::new(first.min(furthest)).unwrap_or(Fret::OPEN);
        FretRange::new(first, Fret::HIGHEST).unwrap_or(FretRange::WHOLE_NECK)
    }

    /// The frets to draw of a neck that is to move as little as may be: from the first one, if all that
    /// is looked at is in view from there; else from the lowest from which it is.
    pub(in crate::tui) fn frets_up_to(
        &self,
        picture: &NeckPicture,
        is_looked_at: impl Fn(&Mark) -> bool,
    ) -> FretRange {
        let width = indented(Rect::new(0, 0, self.size.width, 1)).width;
        let in_view = picture.columns(width).last_shown().number();
        let first = match frets_of(picture.marks.iter().filter(|mark| is_looked_at(mark))) {
            Some((lowest, highest)) => (highest + 1).saturating_sub(in_view).min(lowest).max(1),
            None => 1,
        };
        let first = Fret::new(first).unwrap_or(Fret::OPEN);
        FretRange::new(first, Fret::HIGHEST).unwrap_or(FretRange::WHOLE_NECK)
    }
}

/// The lowest and the highest fret of marks, open strings apart.
fn frets_of<'a>(marks: impl Iterator<Item = &'a Mark>) -> Option<(u8, u8)> {
    let frets: Vec<u8> =
        marks.map(|mark| mark.place.fret.number()).filter(|fret| *fret > 0).collect();
    frets.iter().copied().min().zip(frets.iter().copied().max())
}
