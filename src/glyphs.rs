//! The signs of the screen and their ASCII stand-ins: one table.

/// What each sign becomes where a terminal or a reader is not UTF-8. One column each, so that
/// nothing moves, except where a sign stands in words only.
const STAND_INS: &[(char, &str)] = &[
    ('♭', "b"),
    ('♯', "#"),
    ('°', "o"),
    ('ø', "0"),
    ('Δ', "maj7"),
    ('·', ":"),
    ('─', "-"),
    ('╌', "."),
    ('│', "|"),
    ('┃', "|"),
    ('┼', "+"),
    ('┤', "|"),
    ('├', "|"),
    ('║', "H"),
    ('═', "="),
    ('╪', "="),
    ('×', "x"),
    ('\u{a0}', " "),
    ('▸', ">"),
    ('●', "o"),
    ('○', "."),
    ('›', ">"),
    ('‹', "<"),
    ('↑', "^"),
    ('↓', "v"),
    ('←', "<"),
    ('→', ">"),
    ('…', "~"),
    ('–', "-"),
    ('“', "\""),
    ('”', "\""),
    ('’', "'"),
];

/// `text` with every sign that has a stand-in replaced by it.
///
/// ```
/// assert_eq!(fretloom::glyphs::to_ascii("Gmaj7♯11 · B♭"), "Gmaj7#11 : Bb");
/// ```
#[must_use]
pub fn to_ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for char in text.chars() {
        match STAND_INS.iter().find(|(sign, _)| *sign == char) {
            Some((_, stand_in)) => out.push_str(stand_in),
            None => out.push(char),
        }
    }
    out
}

/// Does every character of a text fill one column by itself? Only what is sure counts: printable
/// ASCII and our own signs.
///
/// ```
/// assert!(fretloom::glyphs::is_plain("Gmaj7♯11 · B♭"));
/// assert!(!fretloom::glyphs::is_plain("音"));
/// ```
#[must_use]
pub fn is_plain(text: &str) -> bool {
    let is_sign = |char| STAND_INS.iter().any(|(sign, _)| *sign == char);
    text.chars().all(|char| matches!(char, ' '..='~') || is_sign(char))
}

/// `text` with every control character but the end of a line shown as its code, so that nothing
/// that was typed or read commands the terminal.
///
/// ```
/// assert_eq!(fretloom::glyphs::printable("C\u{1b}[31m7\n"), "C\\u{1b}[31m7\n");
/// ```
#[must_use]
pub fn printable(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for char in text.chars() {
        if char.is_control() && char != '\n' {
            out.extend(char.escape_default());
        } else {
            out.push(char);
        }
    }
    out
}

/// Does the environment say that text is UTF-8? Asked of `LC_ALL`, `LC_CTYPE` and `LANG` in that
/// order, as the C library does; where none is set, a terminal of today is taken to be.
#[must_use]
pub fn locale_is_utf8() -> bool {
    let value = |name| std::env::var(name).ok().filter(|value| !value.is_empty());
    match ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(value) {
        Some(locale) => {
            let locale = locale.to_uppercase();
            locale.contains("UTF-8") || locale.contains("UTF8")
        }
        None => true,
    }
}

/// Replaces the signs in a drawn screen by one-column stand-ins.
pub fn make_ascii(buffer: &mut ratatui::buffer::Buffer) {
    for cell in &mut buffer.content {
        if !cell.symbol().is_ascii() {
            let plain = to_ascii(cell.symbol());
            // A sign whose stand-in is longer, or that has none, must not move its neighbours.
            let plain = plain.chars().next().filter(char::is_ascii).unwrap_or('?');
            cell.set_char(plain);
        }
    }
}
