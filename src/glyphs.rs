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
    ('✓', "ok"),
    ('✗', "no"),
    ('●', "o"),
    ('•', "*"),
    ('○', "."),
    ('»', "}"),
    ('«', "{"),
    ('›', ">"),
    ('‹', "<"),
    ('↑', "^"),
    ('↓', "v"),
    ('⊓', "n"),
    ('←', "<"),
    ('→', ">"),
    ('⊓', "n"),
    ('…', "~"),
    ('▁', "_"),
    ('▂', "."),
    ('▃', "-"),
    ('▄', "="),
    ('▅', "+"),
    ('▆', "*"),
    ('▇', "%"),
    ('█', "#"),
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

/// Can a character do something to a terminal or to the text around it, instead of being shown? So do
/// control characters of both sets and DEL, signs that turn the direction of text round, other ends
/// of lines than the newline, and characters that are never seen.
///
/// What comes from outside (an argument, a file, a file's name) may hold them, and nothing that the
/// program writes does.
///
/// ```
/// use fretloom::glyphs::is_harmful;
/// assert!(['\u{1b}', '\u{9b}', '\u{7f}', '\u{202e}'].into_iter().all(is_harmful));
/// assert!(!"G♭maj7 音 é\n".contains(is_harmful));
/// ```
#[must_use]
pub fn is_harmful(char: char) -> bool {
    let is_unseen = matches!(char,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
        | '\u{2028}' | '\u{2029}' | '\u{206a}'..='\u{206f}' | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}');
    (char.is_control() && char != '\n') || is_unseen
}

/// `text` with every harmful character written as its code, so that no text that was typed or read
/// can control the terminal.
///
/// ```
/// assert_eq!(fretloom::glyphs::printable("C\u{1b}[31m7\n"), "C\\u{1b}[31m7\n");
/// ```
#[must_use]
pub fn printable(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for char in text.chars() {
        if is_harmful(char) {
            out.extend(char.escape_default());
        } else {
            out.push(char);
        }
    }
    out
}

/// The same in one line, for what was typed or read and is told among other words.
///
/// ```
/// assert_eq!(fretloom::glyphs::printable_line("a\nb"), "a\\nb");
/// ```
#[must_use]
pub fn printable_line(text: &str) -> String {
    printable(text).replace('\n', "\\n")
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
