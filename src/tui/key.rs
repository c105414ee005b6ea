//! A key as a player names it.
//!
//! [`Key`] is written `q`, `S`, `space`, `ctrl-c`, `shift-left`: one way for each key, which is
//! what the key files hold, what `Display` prints and what `parse` reads. It knows the terminal
//! library only to read its events.
//!
//! ```
//! use fretloom::tui::key::{Glyphs, Key};
//!
//! let key: Key = "shift-left".parse().unwrap();
//! assert_eq!(key.to_string(), "shift-left");
//! assert_eq!(key.label(Glyphs::Unicode), "Shift-←");
//! assert!("lefty".parse::<Key>().is_err());
//! ```

mod notation;

use ratatui::crossterm::event::{KeyCode as TerminalCode, KeyEvent, KeyModifiers};

/// A key with the modifiers held down.
///
/// A printable character already says whether shift was held, so it never carries shift; with
/// ctrl, a letter is always small, because terminals cannot tell the two apart. There is no order.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Key {
    code: KeyCode,
    modifiers: Modifiers,
}

/// The key itself.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "the keys say themselves")]
pub enum KeyCode {
    /// A printable character as typed, the space among them.
    Char(char),
    Enter,
    Esc,
    Tab,
    /// Tab with shift, a key of its own to terminals.
    BackTab,
    Backspace,
    Delete,
    Up,
    Down,
    Left,
    Right,
    Home,
    End,
    PageUp,
    PageDown,
    /// A function key, 1 to 12.
    F(u8),
}

/// Which modifiers are held down.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Default, Debug)]
#[allow(missing_docs, reason = "the modifiers say themselves")]
pub struct Modifiers {
    pub ctrl: bool,
    pub alt: bool,
    pub shift: bool,
}

/// Which signs a label may use.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Glyphs {
    /// Arrows are `← → ↑ ↓`.
    Unicode,
    /// Arrows are words.
    Ascii,
}

impl Key {
    /// The key, with its modifiers folded into the character where a character says them.
    #[must_use]
    pub fn new(code: KeyCode, modifiers: Modifiers) -> Key {
        let mut folded = Key { code, modifiers };
        match code {
            KeyCode::Char(c) => {
                folded.code = KeyCode::Char(match modifiers {
                    Modifiers { ctrl: true, .. } => c.to_ascii_lowercase(),
                    Modifiers { shift: true, .. } => upper_case(c),
                    _ => c,
                });
                folded.modifiers.shift = false;
            }
            KeyCode::Tab if modifiers.shift => {
                folded.code = KeyCode::BackTab;
                folded.modifiers.shift = false;
            }
            KeyCode::BackTab => folded.modifiers.shift = false,
            _ => {}
        }
        folded
    }

    /// The key without its modifiers.
    #[must_use]
    pub fn code(self) -> KeyCode {
        self.code
    }

    /// The modifiers that the key itself does not say.
    #[must_use]
    pub fn modifiers(self) -> Modifiers {
        self.modifiers
    }

    /// The character that this key types into a text field, if it types one.
    #[must_use]
    pub fn typed(self) -> Option<char> {
        match self.code {
            KeyCode::Char(c) if self.modifiers == Modifiers::default() => Some(c),
            _ => None,
        }
    }

    /// Reads the terminal library's key; `None` for a key or modifier without a name here.
    pub(super) fn from_terminal(event: KeyEvent) -> Option<Key> {
        let known = KeyModifiers::SHIFT | KeyModifiers::CONTROL | KeyModifiers::ALT;
        if !known.contains(event.modifiers) {
            return None;
        }
        let code = code_from_terminal(event.code)?;
        let mut modifiers = Modifiers {
            ctrl: event.modifiers.contains(KeyModifiers::CONTROL),
            alt: event.modifiers.contains(KeyModifiers::ALT),
            shift: event.modifiers.contains(KeyModifiers::SHIFT),
        };
        if typed_with_alt_gr(code, modifiers) {
            modifiers = Modifiers::default();
        }
        Some(Key::new(code, modifiers))
    }
}

/// Windows reports AltGr as ctrl and alt together, also where it only makes the character, as in
/// `@` or `€` on many keyboards.
fn typed_with_alt_gr(code: KeyCode, modifiers: Modifiers) -> bool {
    let plain = matches!(code, KeyCode::Char(c) if c.is_ascii_alphanumeric() || c == ' ');
    matches!(code, KeyCode::Char(_)) && !plain && modifiers.ctrl && modifiers.alt
}

/// The capital, where it is one character.
fn upper_case(c: char) -> char {
    let mut capital = c.to_uppercase();
    match (capital.next(), capital.next()) {
        (Some(only), None) => only,
        _ => c,
    }
}

fn code_from_terminal(code: TerminalCode) -> Option<KeyCode> {
    Some(match code {
        TerminalCode::Char(c) if !c.is_control() => KeyCode::Char(c),
        TerminalCode::Enter => KeyCode::Enter,
        TerminalCode::Esc => KeyCode::Esc,
        TerminalCode::Tab => KeyCode::Tab,
        TerminalCode::BackTab => KeyCode::BackTab,
        TerminalCode::Backspace => KeyCode::Backspace,
        TerminalCode::Delete => KeyCode::Delete,
        TerminalCode::Up => KeyCode::Up,
        TerminalCode::Down => KeyCode::Down,
        TerminalCode::Left => KeyCode::Left,
        TerminalCode::Right => KeyCode::Right,
        TerminalCode::Home => KeyCode::Home,
        TerminalCode::End => KeyCode::End,
        TerminalCode::PageUp => KeyCode::PageUp,
        TerminalCode::PageDown => KeyCode::PageDown,
        TerminalCode::F(n @ 1..=12) => KeyCode::F(n),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use ratatui::crossterm::event::{KeyCode as TerminalCode, KeyEvent, KeyModifiers};

    use super::Key;

    fn read(code: TerminalCode, modifiers: KeyModifiers) -> Option<String> {
        Key::from_terminal(KeyEvent::new(code, modifiers)).map(|key| key.to_string())
    }

    #[test]
    fn shift_folds_into_what_it_makes() {
        let shift = KeyModifiers::SHIFT;
        let cases = [
            (TerminalCode::Char('S'), "S"),
            (TerminalCode::Char('s'), "S"),
            (TerminalCode::Char('?'), "?"),
            (TerminalCode::Char(' '), "space"),
            (TerminalCode::Char('ß'), "ß"),
            (TerminalCode::BackTab, "backtab"),
            (TerminalCode::Tab, "backtab"),
            (TerminalCode::Left, "shift-left"),
        ];
        for (code, name) in cases {
            assert_eq!(read(code, shift).as_deref(), Some(name));
        }
    }

    #[test]
    fn ctrl_has_no_case_and_alt_gr_is_no_modifier() {
        let ctrl = KeyModifiers::CONTROL;
        let alt_gr = KeyModifiers::CONTROL | KeyModifiers::ALT;
        assert_eq!(read(TerminalCode::Char('C'), ctrl).as_deref(), Some("ctrl-c"));
        assert_eq!(read(TerminalCode::Char('@'), alt_gr).as_deref(), Some("@"));
        assert_eq!(read(TerminalCode::Char('a'), alt_gr).as_deref(), Some("ctrl-alt-a"));
    }

    #[test]
    fn keys_without_a_name_are_none() {
        assert_eq!(read(TerminalCode::F(13), KeyModifiers::NONE), None);
        assert_eq!(read(TerminalCode::CapsLock, KeyModifiers::NONE), None);
        assert_eq!(read(TerminalCode::Char('a'), KeyModifiers::SUPER), None);
    }
}
