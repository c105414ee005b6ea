//! The mouse: what it did, and whether the terminal or the program has it.

use ratatui::crossterm::event::{MouseButton, MouseEvent, MouseEventKind};
#[cfg(not(windows))]
use ratatui::crossterm::style::Print;

/// Who has the mouse.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub enum Mouse {
    /// The terminal's, which selects text with it.
    #[default]
    Free,
    /// The program's.
    Taken,
}

/// What the mouse did, and where.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pointer {
    /// The column of the screen, from 0.
    pub column: u16,
    /// The row of the screen, from 0.
    pub row: u16,
    /// What was done there.
    pub what: Pointed,
}

/// What a mouse does that a screen answers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Pointed {
    /// The first button went down.
    Click,
    /// The wheel turned away from the player.
    WheelUp,
    /// The wheel turned towards the player.
    WheelDown,
}

impl Pointer {
    /// Reads the terminal library's event; none for moves, releases and other buttons.
    pub(super) fn from_terminal(event: MouseEvent) -> Option<Pointer> {
        let what = match event.kind {
            MouseEventKind::Down(MouseButton::Left) => Pointed::Click,
            MouseEventKind::ScrollUp => Pointed::WheelUp,
            MouseEventKind::ScrollDown => Pointed::WheelDown,
            _ => return None,
        };
        Some(Pointer { column: event.column, row: event.row, what })
    }
}

impl Mouse {
    /// The bytes that take the mouse or free it: buttons and wheel, and not every move, which would
    /// wake an idle program.
    #[cfg(not(windows))]
    pub(super) fn ask(self) -> Print<&'static str> {
        Print(match self {
            Mouse::Taken => "\x1b[?1000h\x1b[?1006h",
            Mouse::Free => "\x1b[?1006l\x1b[?1000l",
        })
    }
}
