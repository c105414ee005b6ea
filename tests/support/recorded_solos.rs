//! Recorded solos, where they are kept.
//!
//! Source: `GuitarSet` v1.1.0 (Q. Xi, R. Bittner, J. Pauwels, X. Ye, J. P. Bello, ISMIR 2018; Zenodo
//! record 3371780), CC BY 4.0, converted to JSON, string 1 the high E. The data is not in this
//! repository: the tests read the file that `FRETLOOM_SOLOS` names, or the one kept beside the
//! repository, and say aloud where there is none.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::io::Write;
use std::path::PathBuf;

use serde::Deserialize;

#[derive(Deserialize)]
pub(crate) struct Solos {
    pub(crate) takes: Vec<Take>,
}

#[derive(Deserialize)]
pub(crate) struct Take {
    pub(crate) style: String,
    pub(crate) notes: Vec<Played>,
}

/// A note as it was played.
#[derive(Deserialize)]
pub(crate) struct Played {
    pub(crate) onset_s: f64,
    pub(crate) duration_s: f64,
    pub(crate) midi: u8,
    pub(crate) string: u8,
    pub(crate) fret: u8,
}

/// The recorded solos, where they are kept. What is not checked is said past the harness, which
/// would keep it to itself.
pub(crate) fn recorded_solos() -> Option<Solos> {
    let beside = concat!(env!("CARGO_MANIFEST_DIR"), "/../shared/data/guitarset_dev.json");
    let file = std::env::var_os("FRETLOOM_SOLOS").map_or_else(|| beside.into(), PathBuf::from);
    let Ok(text) = std::fs::read_to_string(&file) else {
        let said = format!("NOT CHECKED: there are no recorded solos in {}\n", file.display());
        std::io::stderr().write_all(said.as_bytes()).unwrap();
        return None;
    };
    Some(serde_json::from_str(&text).unwrap())
}
