//! The signs that the program prints, and their replacements in ASCII.

/// Each sign with its replacement where text is not UTF-8. A replacement has one column, so that
/// columns stay aligned, except for signs that stand only in running text.
const REPLACEMENTS: &[(char, &str)] = &[
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

/// `text` with every sign of the table replaced.
///
/// ```
/// assert_eq!(fretloom::glyphs::to_ascii("Gmaj7♯11 · B♭"), "Gmaj7#11 : Bb");
/// ```
#[must_use]
pub fn to_ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for char in text.chars() {
        match REPLACEMENTS.iter().find(|(sign, _)| *sign == char) {
            Some((_, replacement)) => out.push_str(replacement),
            None => out.push(char),
        }
    }
    out
}

/// Does every character of a text take one column by itself? Only characters of which that is
/// certain count: printable ASCII and the signs of the table.
///
/// ```
/// assert!(fretloom::glyphs::is_plain("Gmaj7♯11 · B♭"));
/// assert!(!fretloom::glyphs::is_plain("音"));
/// ```
#[must_use]
pub fn is_plain(text: &str) -> bool {
    let is_sign = |char| REPLACEMENTS.iter().any(|(sign, _)| *sign == char);
    text.chars().all(|char| matches!(char, ' '..='~') || is_sign(char))
}

/// `text` with every control character except newlines written as its code, so that no text that
/// was typed or read can control the terminal.
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

/// Does the environment say that text is UTF-8? The first of `LC_ALL`, `LC_CTYPE` and `LANG` that
/// is set decides, as in the C library. Where none is set, the answer is yes.
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

/// Replaces the signs in a drawn screen by ASCII of one column.
pub fn make_ascii(buffer: &mut ratatui::buffer::Buffer) {
    for cell in &mut buffer.content {
        if !cell.symbol().is_ascii() {
            let plain = to_ascii(cell.symbol());
            // A longer replacement is cut, and a sign without one becomes `?`: the cells after it
            // must not move.
            let plain = plain.chars().next().filter(char::is_ascii).unwrap_or('?');
            cell.set_char(plain);
        }
    }
}
