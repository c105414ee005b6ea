//! What happens to the program from outside: keys, pasted text, a new window size, the time of what is
//! heard.

use std::any::Any;
use std::io;
use std::sync::mpsc::SyncSender;

use jiff::ZonedDateTime;
use ratatui::crossterm::event::Event as TerminalEvent;

use super::job_control::Stop;
use super::key::Key;
use super::mouse::Pointer;
use crate::sound::{Frames, PlayerState};

/// Something an [`App`](super::runtime::App) is told.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Event {
    /// A key went down, or repeats because it is held. Releases are not reported, so that one press
    /// acts once on every system.
    Key(Key),
    /// Text was pasted (bracketed paste). It is text, whatever keys its characters are.
    Paste(String),
    /// The mouse was used while the program had it.
    Mouse(Pointer),
    /// The window has a new size; a redraw follows without being asked for.
    Resize {
        /// Width in cells.
        columns: u16,
        /// Height in cells.
        rows: u16,
    },
    /// What time it is where the player is: told before anything else to an app that wants to know, when
    /// something has come. It wakes nobody.
    Time(ZonedDateTime),
    /// How what sounds is going: some fifty times a second while something sounds, and once more when
    /// nothing does.
    Sound(SoundNews),
}

/// How what the app plays is going.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SoundNews {
    /// What the player of sound is doing.
    pub state: PlayerState,
    /// How much has been heard of what was asked for last.
    pub position: Frames,
    /// The way by which it is heard, in words, once that is known.
    pub way: Option<String>,
}

/// Every reason to wake up.
#[derive(Debug)]
pub(super) enum Wake {
    /// Something for the app.
    Event(Event),
    /// A signal asks the process to stop, as Ctrl-Z does.
    #[cfg_attr(not(unix), expect(dead_code, reason = "only Unix stops processes"))]
    Stop(Stop),
    /// The process was stopped and has been continued; the terminal may show anything.
    #[cfg_attr(not(unix), expect(dead_code, reason = "only Unix stops processes"))]
    Continued,
    /// The window may have another size.
    Resized,
    /// The terminal has read a frame and can be given the next, or cannot be written.
    Written(io::Result<()>),
    /// A job has found something out.
    Answered,
    /// Another thread has panicked: with this, after the hook for panics was called.
    Panicked(Box<dyn Any + Send>),
    /// A signal is about to end the process: what should outlast it is to be saved now, and a
    /// message sent here when that is done.
    #[cfg_attr(not(unix), expect(dead_code, reason = "only Unix signals end a process"))]
    Ending(SyncSender<()>),
    /// Keys cannot be read any more.
    InputFailed(io::Error),
}

impl Event {
    /// Reads the terminal library's event; `None` for what no screen uses (releases, moves, focus,
    /// keys without a name).
    pub(super) fn from_terminal(event: TerminalEvent) -> Option<Event> {
        match event {
            TerminalEvent::Key(key) if !key.is_release() => {
                Some(Event::Key(Key::from_terminal(key)?))
            }
            TerminalEvent::Paste(text) => Some(Event::Paste(text)),
            TerminalEvent::Mouse(event) => Some(Event::Mouse(Pointer::from_terminal(event)?)),
            TerminalEvent::Resize(columns, rows) => Some(Event::Resize { columns, rows }),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use ratatui::crossterm::event::{
        Event as TerminalEvent, KeyCode, KeyEvent, KeyEventKind, KeyModifiers,
    };

    use super::Event;

    fn x(kind: KeyEventKind) -> Option<Event> {
        let key = KeyEvent::new_with_kind(KeyCode::Char('x'), KeyModifiers::NONE, kind);
        Event::from_terminal(TerminalEvent::Key(key))
    }

    #[test]
    fn press_and_repeat_act_and_release_does_not() {
        let typed = "x".parse().unwrap();
        for kind in [KeyEventKind::Press, KeyEventKind::Repeat] {
            assert!(matches!(x(kind), Some(Event::Key(key)) if key == typed));
        }
        assert!(x(KeyEventKind::Release).is_none());
    }
}
