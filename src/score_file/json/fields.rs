//! The fields of one object.

use serde_json::value::RawValue;
use serde_json::{Map, Value};

use crate::score_file::error::{At, ScoreFileError};

/// What a time in seconds must be.
pub(super) const SECONDS: &str = "seconds, 0 or more, as in 1.25";
/// What a time in beats must be.
pub(super) const BEATS: &str = "quarter notes, 0 or more, as in 1.5";

/// The fields of one object, and where it stands.
pub(super) struct Fields {
    at: At,
    fields: Map<String, Value>,
}

impl Fields {
    pub(super) fn read(
        raw: &RawValue,
        at: At,
        expected: &'static str,
    ) -> Result<Fields, ScoreFileError> {
        let fields: Map<String, Value> = serde_json::from_str(raw.get())
            .map_err(|_| ScoreFileError::found(at, raw.get(), expected))?;
        Ok(Fields { at, fields })
    }

    /// Refuses every field that is not among these.
    pub(super) fn only(&self, keys: &[&str]) -> Result<&Fields, ScoreFileError> {
        match self.fields.keys().find(|key| !keys.contains(&key.as_str())) {
            Some(key) => {
                let expected = format!("one of {}", keys.join(", "));
                Err(ScoreFileError::found(self.at, key, expected))
            }
            None => Ok(self),
        }
    }

    pub(super) fn fail(&self, key: &str, expected: &str) -> ScoreFileError {
        let expected = format!("{key}: {expected}");
        match self.fields.get(key) {
            Some(value) => ScoreFileError::found(self.at, &value.to_string(), expected),
            None => ScoreFileError::new(self.at, format!("{key} is missing"), expected),
        }
    }

    /// A number that is 0 or more.
    pub(super) fn amount(&self, key: &str, expected: &str) -> Result<f64, ScoreFileError> {
        let amount = self.fields.get(key).and_then(Value::as_f64);
        let amount = amount.filter(|amount| amount.is_finite() && *amount >= 0.0);
        amount.ok_or_else(|| self.fail(key, expected))
    }

    pub(super) fn text(&self, key: &str, expected: &str) -> Result<&str, ScoreFileError> {
        self.fields.get(key).and_then(Value::as_str).ok_or_else(|| self.fail(key, expected))
    }

    /// A text that need not be there.
    pub(super) fn text_if_there(&self, key: &str) -> Option<&str> {
        self.fields.get(key).and_then(Value::as_str)
    }

    pub(super) fn small<T>(
        &self,
        key: &str,
        expected: &str,
        checked: impl Fn(u8) -> Option<T>,
    ) -> Result<T, ScoreFileError> {
        let number = self.fields.get(key).and_then(Value::as_u64);
        let small = number.and_then(|number| u8::try_from(number).ok()).and_then(checked);
        small.ok_or_else(|| self.fail(key, expected))
    }

    pub(super) fn optional<T>(
        &self,
        key: &str,
        expected: &str,
        checked: impl Fn(u8) -> Option<T>,
    ) -> Result<Option<T>, ScoreFileError> {
        match self.fields.get(key) {
            None | Some(Value::Null) => Ok(None),
            Some(_) => self.small(key, expected, checked).map(Some),
        }
    }
}
