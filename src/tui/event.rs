//! What happens to the program from outside: keys, pasted text, a new window size.

use std::io;

use ratatui::crossterm::event::Event as TerminalEvent;

use super::key::Key;

/// Something an [`App`](super::runtime::App) is told.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Event {
    /// A key went down, or repeats because it is held. A release is never told: one press acts
    /// once on every system.
    Key(Key),
    /// Text came in one piece by bracketed paste: it is text, whatever keys it looks like.
    Paste(String),
    /// The window has a new size; a redraw follows without being asked for.
    Resize {
        /// Width in cells.
        columns: u16,
        /// Height in cells.
        rows: u16,
    },
}

impl Event {
    /// Reads the terminal library's event; `None` for what no screen uses (releases, mouse, focus,
    /// keys without a name).
    pub(super) fn from_terminal(event: TerminalEvent) -> Option<Event> {
        match event {
            TerminalEvent::Key(key) if !key.is_release() => Key::from_terminal(key).map(Event::Key),
            TerminalEvent::Paste(text) => Some(Event::Paste(text)),
            TerminalEvent::Resize(columns, rows) => Some(Event::Resize { columns, rows }),
            _ => None,
        }
    }
}

/// What the one channel of the runtime carries: every reason to wake up.
#[derive(Debug)]
pub(super) enum Wake {
    /// Something for the app.
    Event(Event),
    /// The process was stopped and goes on; what the terminal shows is anyone's guess.
    #[cfg_attr(not(unix), expect(dead_code, reason = "only Unix stops processes"))]
    Continued,
    /// No key will ever come again.
    InputFailed(io::Error),
}

#[cfg(test)]
mod tests {
    use ratatui::crossterm::event::{
        Event as TerminalEvent, KeyCode, KeyEvent, KeyEventKind, KeyModifiers,
    };

    use super::Event;

    fn x(kind: KeyEventKind) -> TerminalEvent {
        let key = KeyEvent::new_with_kind(KeyCode::Char('x'), KeyModifiers::NONE, kind);
        TerminalEvent::Key(key)
    }

    #[test]
    fn press_and_repeat_act_and_release_does_not() {
        let typed = Some(Event::Key("x".parse().unwrap()));
        assert_eq!(Event::from_terminal(x(KeyEventKind::Press)), typed);
        assert_eq!(Event::from_terminal(x(KeyEventKind::Repeat)), typed);
        assert_eq!(Event::from_terminal(x(KeyEventKind::Release)), None);
    }
}
