//! Drawing a neck into cells.

use fretloom_fretboard::Inlay;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::{Handed, Mark, NeckGeometry, NeckPicture, Presence, StringLine};
use crate::tui::theme::Theme;

impl NeckPicture {
    /// Draws as much of the neck as `area` holds.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: &Theme) {
        let mut pen = Pen { area: area.intersection(buffer.area), buffer, hand: self.hand };
        let geometry = self.geometry(area.width);
        self.draw_numbers(&mut pen, geometry, theme);
        for (string, row) in self.strings.iter().zip(1..) {
            self.draw_string(&mut pen, geometry, theme, string, row);
        }
        self.draw_inlays(&mut pen, geometry, theme);
    }

    fn draw_numbers(&self, pen: &mut Pen<'_>, geometry: NeckGeometry, theme: &Theme) {
        for fret in geometry.first_shown()..=geometry.last_shown() {
            let text = fret.to_string();
            let Some(cell) = geometry.cell(fret) else { continue };
            let x = NeckGeometry::centred(cell, text.len() as u16);
            pen.write(x, 0, &text, theme.muted);
        }
    }

    fn draw_inlays(&self, pen: &mut Pen<'_>, geometry: NeckGeometry, theme: &Theme) {
        let row = self.strings.len() as u16 + 1;
        for fret in geometry.first_shown()..=geometry.last_shown() {
            let text = match self.inlays.get(usize::from(fret)) {
                Some(Inlay::Single) => "●",
                Some(Inlay::Double) => "● ●",
                _ => continue,
            };
            let Some(cell) = geometry.cell(fret) else { continue };
            let x = NeckGeometry::centred(cell, text.chars().count() as u16);
            pen.write(x, row, text, theme.muted);
        }
    }

    fn draw_string(
        &self,
        pen: &mut Pen<'_>,
        geometry: NeckGeometry,
        theme: &Theme,
        string: &StringLine,
        row: u16,
    ) {
        let line = if string.quiet { theme.muted } else { theme.string };
        pen.write(0, row, &format!("{:>2}", string.number), theme.muted);
        pen.write(geometry.name(), row, &string.name, theme.string);
        draw_wood(pen, geometry, string, row, self.end, line);
        for ghost in self.left_out.iter().filter(|ghost| ghost.string == string.number) {
            if let Some(cell) = cell_of(geometry, ghost.fret) {
                let x = NeckGeometry::centred(cell, ghost.label.chars().count() as u16);
                pen.write(x, row, &ghost.label, theme.muted);
            }
        }
        let marks = self.marks.iter().filter(|mark| mark.string == string.number);
        for mark in marks {
            if let Some(cell) = cell_of(geometry, mark.fret) {
                draw_mark(pen, cell, row, mark, string.quiet, theme);
            }
        }
    }
}

/// Where a mark goes; `None` where its fret is not shown.
fn cell_of(geometry: NeckGeometry, fret: u8) -> Option<(u16, u16)> {
    match fret {
        0 => Some((geometry.open_mark(), geometry.mark_width())),
        fret => geometry.cell(fret),
    }
}

/// The string itself: nut, cells, wires, capo, and signs for what lies beyond the edges. Behind a
/// capo nothing is drawn, as before the start of a short string.
fn draw_wood(
    pen: &mut Pen<'_>,
    geometry: NeckGeometry,
    string: &StringLine,
    row: u16,
    end: u8,
    style: Style,
) {
    let at_edge = match (geometry.first_shown() > 1, string.starts_at) {
        (true, _) => "‹",
        (false, 0) => "┃",
        (false, _) => " ",
    };
    pen.write(geometry.nut(), row, at_edge, style);
    let exists = |fret: u8| fret > string.sounds_from();
    for fret in geometry.first_shown()..=geometry.last_shown() {
        let Some((start, width)) = geometry.cell(fret) else { continue };
        if exists(fret) {
            let wood = if string.quiet { "╌" } else { "─" };
            pen.write(start, row, &wood.repeat(usize::from(width)), style);
        }
        let wire = match fret {
            _ if fret == string.capo => "║",
            _ if fret == string.sounds_from() => "┃",
            _ if !exists(fret) => " ",
            _ if fret == end => "┤",
            _ if fret == geometry.last_shown() => "›",
            _ => "┼",
        };
        pen.write(start + width, row, wire, style);
    }
}

fn draw_mark(
    pen: &mut Pen<'_>,
    cell: (u16, u16),
    row: u16,
    mark: &Mark,
    quiet: bool,
    theme: &Theme,
) {
    let text = match (mark.presence, mark.first_triad) {
        (Presence::Aside, _) => "·".to_owned(),
        (_, true) => format!("[{}]", mark.label),
        (_, false) => format!("({})", mark.label),
    };
    let of_triad = if mark.first_triad { theme.first } else { theme.second };
    let style = match (mark.held, quiet || mark.presence == Presence::Aside) {
        (true, _) => of_triad.patch(theme.held),
        (false, true) => theme.muted,
        (false, false) => of_triad,
    };
    let style = if mark.stays { style.add_modifier(Modifier::UNDERLINED) } else { style };
    let width = text.chars().count() as u16;
    let x = NeckGeometry::centred(cell, width);
    // For eyes and printers without colour the string swells on both sides of a note in hand, and
    // bends beside a stretch; where the mark fills its cell, at the wire.
    if mark.fret > 0 && (mark.held || mark.presence == Presence::Stretched) {
        let sign = if mark.held { held_wood } else { bent_wood };
        for beside in [x.saturating_sub(1), x + width] {
            pen.replace(beside, row, sign);
        }
    }
    pen.write(x, row, &text, style);
}

/// The string beside a note in hand; other signs stay what they are.
fn held_wood(char: char) -> char {
    match char {
        '─' | '╌' => '═',
        '┼' => '╪',
        _ => char,
    }
}

/// The string beside a stretch.
fn bent_wood(char: char) -> char {
    match char {
        '─' | '╌' | '┼' => '~',
        _ => char,
    }
}

/// Writes single cells inside an area, never outside it.
struct Pen<'a> {
    area: Rect,
    buffer: &'a mut Buffer,
    hand: Handed,
}

impl Pen<'_> {
    /// Writes from column `x` of a right-handed picture on. In its mirror image the text takes the
    /// mirrored columns, and reads from left to right all the same.
    fn write(&mut self, x: u16, y: u16, text: &str, style: Style) {
        let length = text.chars().count() as i32;
        let from = match self.hand {
            Handed::Right => i32::from(x),
            Handed::Left => i32::from(self.area.width) - i32::from(x) - length,
        };
        for (char, column) in text.chars().zip(from..) {
            let Ok(column) = u16::try_from(column) else { continue };
            if column >= self.area.width || y >= self.area.height {
                return;
            }
            if let Some(cell) = self.buffer.cell_mut((self.area.x + column, self.area.y + y)) {
                cell.set_char(self.hand.sign(char)).set_style(style);
            }
        }
    }
}

impl Pen<'_> {
    /// Changes the sign in column `x` of a right-handed picture, and leaves its style.
    fn replace(&mut self, x: u16, y: u16, sign: impl Fn(char) -> char) {
        let column = match self.hand {
            Handed::Right => Some(x),
            Handed::Left => self.area.width.checked_sub(x + 1),
        };
        let Some(column) = column.filter(|column| *column < self.area.width) else { return };
        if y >= self.area.height {
            return;
        }
        if let Some(cell) = self.buffer.cell_mut((self.area.x + column, self.area.y + y)) {
            let now = cell.symbol().chars().next().unwrap_or(' ');
            cell.set_char(sign(now));
        }
    }
}

impl Handed {
    /// A sign that points along the neck, turned to where the neck goes.
    fn sign(self, char: char) -> char {
        match (self, char) {
            (Handed::Left, '‹') => '›',
            (Handed::Left, '›') => '‹',
            (Handed::Left, '┤') => '├',
            _ => char,
        }
    }
}
