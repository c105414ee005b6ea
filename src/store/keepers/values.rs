//! Values as the file has them.

use std::fmt::Write;

/// A text in double quotes.
pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::with_capacity(text.len() + 2);
    quoted.push('"');
    for char in text.chars() {
        match char {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            '\n' => quoted.push_str("\\n"),
            '\r' => quoted.push_str("\\r"),
            '\t' => quoted.push_str("\\t"),
            char if char < ' ' || char == '\u{7f}' => {
                let _ = write!(quoted, "\\u{:04X}", u32::from(char));
            }
            char => quoted.push(char),
        }
    }
    quoted.push('"');
    quoted
}

/// Texts as a list on one line.
pub(super) fn quoted_list<T: AsRef<str>>(texts: &[T]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| quoted(text.as_ref())).collect();
    format!("[{}]", texts.join(", "))
}

/// Entries as a table on one line; there is at least one.
pub(super) fn table<'a>(entries: impl IntoIterator<Item = (&'a str, String)>) -> String {
    let entries: Vec<String> =
        entries.into_iter().map(|(key, value)| format!("{key} = {value}")).collect();
    format!("{{ {} }}", entries.join(", "))
}

/// Values as a list with a line for each.
pub(super) fn lines(values: impl Iterator<Item = String>) -> String {
    let mut text = String::from("[\n");
    for value in values {
        let _ = writeln!(text, "  {value},");
    }
    text + "]"
}
