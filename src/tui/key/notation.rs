//! How keys are written: in key files, and on the screen.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use super::{Glyphs, Key, KeyCode, Modifiers};
use crate::words::nearest;

/// A key with a name: how files write it, how a footer shows it, and the footer's sign for it.
struct Named {
    name: &'static str,
    code: KeyCode,
    label: &'static str,
    sign: &'static str,
}

const fn named(
    name: &'static str,
    code: KeyCode,
    label: &'static str,
    sign: &'static str,
) -> Named {
    Named { name, code, label, sign }
}

/// Every key that is not written as the character it types. Reading, printing, labels and
/// suggestions all come from these rows.
const NAMED: [Named; 27] = [
    named("space", KeyCode::Char(' '), "Space", "Space"),
    named("enter", KeyCode::Enter, "Enter", "Enter"),
    named("esc", KeyCode::Esc, "Esc", "Esc"),
    named("tab", KeyCode::Tab, "Tab", "Tab"),
    named("backtab", KeyCode::BackTab, "Shift-Tab", "Shift-Tab"),
    named("backspace", KeyCode::Backspace, "Backspace", "Backspace"),
    named("delete", KeyCode::Delete, "Del", "Del"),
    named("up", KeyCode::Up, "Up", "↑"),
    named("down", KeyCode::Down, "Down", "↓"),
    named("left", KeyCode::Left, "Left", "←"),
    named("right", KeyCode::Right, "Right", "→"),
    named("home", KeyCode::Home, "Home", "Home"),
    named("end", KeyCode::End, "End", "End"),
    named("pageup", KeyCode::PageUp, "PgUp", "PgUp"),
    named("pagedown", KeyCode::PageDown, "PgDn", "PgDn"),
    named("f1", KeyCode::F(1), "F1", "F1"),
    named("f2", KeyCode::F(2), "F2", "F2"),
    named("f3", KeyCode::F(3), "F3", "F3"),
    named("f4", KeyCode::F(4), "F4", "F4"),
    named("f5", KeyCode::F(5), "F5", "F5"),
    named("f6", KeyCode::F(6), "F6", "F6"),
    named("f7", KeyCode::F(7), "F7", "F7"),
    named("f8", KeyCode::F(8), "F8", "F8"),
    named("f9", KeyCode::F(9), "F9", "F9"),
    named("f10", KeyCode::F(10), "F10", "F10"),
    named("f11", KeyCode::F(11), "F11", "F11"),
    named("f12", KeyCode::F(12), "F12", "F12"),
];

const PREFIXES: [&str; 3] = ["ctrl-", "alt-", "shift-"];

impl Key {
    /// What a footer calls this key: short, and in the words printed on keyboards.
    #[must_use]
    pub fn label(self, glyphs: Glyphs) -> String {
        let mut label = String::new();
        for (held, prefix) in self.held().into_iter().zip(["Ctrl-", "Alt-", "Shift-"]) {
            if held {
                label.push_str(prefix);
            }
        }
        match (row_of(self.code), self.code, glyphs) {
            (Some(row), _, Glyphs::Unicode) => label.push_str(row.sign),
            (Some(row), _, Glyphs::Ascii) => label.push_str(row.label),
            // After a modifier a letter stands as on its key cap; alone, its case is what to type.
            (None, KeyCode::Char(c), _) if self.modifiers.ctrl => {
                label.push(c.to_ascii_uppercase());
            }
            (None, KeyCode::Char(c), _) => label.push(c),
            (None, _, _) => {}
        }
        label
    }

    /// In the order in which prefixes are written.
    fn held(self) -> [bool; 3] {
        let Modifiers { ctrl, alt, shift } = self.modifiers;
        [ctrl, alt, shift]
    }
}

fn row_of(code: KeyCode) -> Option<&'static Named> {
    NAMED.iter().find(|row| row.code == code)
}

impl fmt::Display for Key {
    /// As the key files write it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (held, prefix) in self.held().into_iter().zip(PREFIXES) {
            if held {
                f.write_str(prefix)?;
            }
        }
        match (row_of(self.code), self.code) {
            (Some(row), _) => f.write_str(row.name),
            (None, KeyCode::Char(c)) => write!(f, "{c}"),
            // Only reached by a function key beyond 12, which no terminal event becomes.
            (None, other) => write!(f, "{other:?}"),
        }
    }
}

impl FromStr for Key {
    type Err = ReadError;

    /// Reads the notation of the key files. Modifiers may stand in any order; otherwise there is
    /// one way to write a key, so that two entries that look different are different.
    fn from_str(text: &str) -> Result<Key, ReadError> {
        let Some((code, modifiers)) = read(text) else {
            return Err(wrong(text, suggestion(text)));
        };
        let key = Key::new(code, modifiers);
        if key.code == code && key.modifiers == modifiers {
            Ok(key)
        } else {
            Err(wrong(text, Some(key.to_string())))
        }
    }
}

/// What is wrong with a key, and which one was probably meant.
fn wrong(text: &str, meant: Option<String>) -> ReadError {
    let expected =
        "a character or the name of a key, as in `q`, `S`, `pageup`, `f1`, `ctrl-c`, `shift-left`";
    let error = ReadError::whole("key", text, expected);
    match meant {
        Some(meant) => error.with_hint(format!("did you mean `{meant}`?")),
        None => error,
    }
}

/// The parts as written, not yet folded.
fn read(text: &str) -> Option<(KeyCode, Modifiers)> {
    let mut modifiers = Modifiers::default();
    let mut rest = text;
    loop {
        if let Some(after) = rest.strip_prefix("ctrl-") {
            modifiers.ctrl = true;
            rest = after;
        } else if let Some(after) = rest.strip_prefix("alt-") {
            modifiers.alt = true;
            rest = after;
        } else if let Some(after) = rest.strip_prefix("shift-") {
            modifiers.shift = true;
            rest = after;
        } else {
            return Some((read_code(rest)?, modifiers));
        }
    }
}

fn read_code(name: &str) -> Option<KeyCode> {
    let mut characters = name.chars();
    match (characters.next(), characters.next()) {
        // A space is written `space`, so that no file holds a key that cannot be seen.
        (Some(c), None) if !c.is_control() && !c.is_whitespace() => Some(KeyCode::Char(c)),
        _ => Some(NAMED.iter().find(|row| row.name == name)?.code),
    }
}

/// The key that was probably meant.
fn suggestion(text: &str) -> Option<String> {
    if text == " " {
        return Some("space".into());
    }
    let text = text.to_lowercase();
    if let Some((code, modifiers)) = read(&text) {
        return Some(Key::new(code, modifiers).to_string());
    }
    let (prefix, name) = match text.rfind('-') {
        Some(dash) => text.split_at(dash + 1),
        None => ("", text.as_str()),
    };
    let prefix = match prefix {
        "" => "",
        one if read(&format!("{one}x")).is_some() => one,
        one => nearest(one, PREFIXES)?,
    };
    let name = match read_code(name) {
        Some(_) => name,
        None => nearest(name, NAMED.iter().map(|row| row.name))?,
    };
    Some(format!("{prefix}{name}"))
}

#[cfg(test)]
mod tests {
    use super::{Glyphs, Key, KeyCode, Modifiers, NAMED};

    fn every_code() -> impl Iterator<Item = KeyCode> {
        let printable = ('!'..='~').chain(['é', 'ß', '€']).map(KeyCode::Char);
        NAMED.iter().map(|row| row.code).chain(printable)
    }

    fn every_modifiers() -> impl Iterator<Item = Modifiers> {
        (0..8).map(|bits| Modifiers {
            ctrl: bits & 1 != 0,
            alt: bits & 2 != 0,
            shift: bits & 4 != 0,
        })
    }

    #[test]
    fn what_is_printed_is_read_back() {
        for code in every_code() {
            for modifiers in every_modifiers() {
                let key = Key::new(code, modifiers);
                assert_eq!(key.to_string().parse(), Ok(key));
            }
        }
    }

    #[test]
    fn labels_are_short_and_have_words_for_arrows() {
        let cases = [
            ("left", "←", "Left"),
            ("shift-up", "Shift-↑", "Shift-Up"),
            ("ctrl-c", "Ctrl-C", "Ctrl-C"),
            ("S", "S", "S"),
            ("pagedown", "PgDn", "PgDn"),
            ("backtab", "Shift-Tab", "Shift-Tab"),
            ("f12", "F12", "F12"),
        ];
        for (key, unicode, ascii) in cases {
            let key: Key = key.parse().unwrap();
            assert_eq!(key.label(Glyphs::Unicode), unicode);
            assert_eq!(key.label(Glyphs::Ascii), ascii);
        }
    }

    #[test]
    fn a_minus_is_a_key_too() {
        for text in ["-", "ctrl--", "alt--"] {
            assert_eq!(text.parse::<Key>().unwrap().to_string(), text);
        }
    }

    #[test]
    fn a_wrong_key_names_the_right_one() {
        let cases = [
            ("dwon", Some("down")),
            ("pgdown", Some("pagedown")),
            ("Enter", Some("enter")),
            ("Ctrl-C", Some("ctrl-c")),
            ("crtl-c", Some("ctrl-c")),
            ("ctrl-lfet", Some("ctrl-left")),
            ("shift-s", Some("S")),
            ("ctrl-S", Some("ctrl-s")),
            ("shift-tab", Some("backtab")),
            (" ", Some("space")),
            ("", None),
            ("ctrl-", None),
            ("qqqq", None),
        ];
        for (text, nearest) in cases {
            let error = text.parse::<Key>().unwrap_err();
            let hint = nearest.map(|nearest| format!("did you mean `{nearest}`?"));
            assert_eq!(error.hint(), hint.as_deref(), "{text:?}");
        }
    }

    #[test]
    fn the_message_quotes_and_says_what_was_expected() {
        let error = "dwon".parse::<Key>().unwrap_err();
        assert_eq!(
            error.to_string(),
            "cannot read the key \"dwon\": expected a character or the name of a key, as in `q`, \
             `S`, `pageup`, `f1`, `ctrl-c`, `shift-left`; did you mean `down`?"
        );
    }
}
