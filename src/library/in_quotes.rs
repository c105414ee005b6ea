//! Values that stand in quotes, and what is said of those that cannot be read.

use std::str::FromStr;

use fretloom_theory::{ReadError, SpelledTriad, TriadPair};
use toml::de::DeValue;

use super::fields::text;

pub(super) fn in_quotes(value: &DeValue<'_>) -> Result<String, String> {
    text(value).ok_or_else(|| "a text in quotes".to_owned())
}

pub(super) fn read<T: FromStr<Err = ReadError>>(text: &str) -> Result<T, String> {
    text.parse().map_err(|error: ReadError| advice(&error))
}

/// What was expected, and at which character.
pub(super) fn advice(error: &ReadError) -> String {
    format!("{} (character {})", error.advice(), error.at())
}

/// Two triads without a common note, as they are written: `F & G`.
pub(super) fn read_pair(text: &str) -> Result<([SpelledTriad; 2], TriadPair), String> {
    let (first, second) = text.split_once('&').ok_or("two triads, as in \"F & G\"")?;
    let written = [read(first.trim())?, read(second.trim())?];
    let [first, second] = written.each_ref().map(SpelledTriad::triad);
    let pair = TriadPair::in_order(first, second);
    pair.map(|pair| (written, pair)).ok_or_else(|| "two triads without a common note".to_owned())
}

/// A text in quotes, as TOML has it.
pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for sign in text.chars() {
        match sign {
            '"' | '\\' => quoted.extend(['\\', sign]),
            sign if sign.is_control() => quoted.push_str(&format!("\\u{:04X}", u32::from(sign))),
            sign => quoted.push(sign),
        }
    }
    quoted.push('"');
    quoted
}
