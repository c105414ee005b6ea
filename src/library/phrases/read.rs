//! Values that stand in quotes, and what is said of those that cannot be read.

use std::str::FromStr;

use fretloom_theory::ReadError;
use toml::de::DeValue;

use crate::library::fields::text;

pub(super) fn in_quotes(value: &DeValue<'_>) -> Result<String, String> {
    text(value).ok_or_else(|| "a text in quotes".to_owned())
}

pub(super) fn read<T: FromStr<Err = ReadError>>(text: &str) -> Result<T, String> {
    text.parse()
        .map_err(|error: ReadError| format!("{} (character {})", error.advice(), error.at()))
}
