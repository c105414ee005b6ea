//! The mistakes of `tests/bad/` that stand in a player's own files.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::fs;
use std::path::{Path, PathBuf};

/// One file with one mistake.
pub(crate) struct Mistake {
    /// For failing tests: `settings/unknown-name`.
    pub(crate) name: String,
    /// Where it would lie in the player's folder.
    pub(crate) place: String,
    pub(crate) content: String,
    /// Where it stands what is said of it.
    pub(crate) message: PathBuf,
}

/// Where a file of a folder of `tests/bad/` would lie in a player's folder.
fn place(folder: &str, file: &str) -> String {
    match folder {
        "charts" | "tunings" | "themes" => format!("{folder}/{file}"),
        _ => format!("{folder}.toml"),
    }
}

/// Every mistake, by folder and name.
pub(crate) fn mistakes() -> Vec<Mistake> {
    let bad = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    let mut mistakes = Vec::new();
    for folder in ["charts", "keys", "patterns", "scales", "settings", "themes", "tunings"] {
        let paths = fs::read_dir(bad.join(folder)).unwrap().map(|entry| entry.unwrap().path());
        let toml = |path: &PathBuf| path.extension().is_some_and(|found| found == "toml");
        for path in paths.filter(toml) {
            let file = path.file_name().unwrap().to_str().unwrap();
            mistakes.push(Mistake {
                name: format!("{folder}/{file}"),
                place: place(folder, file),
                content: fs::read_to_string(&path).unwrap(),
                message: path.with_extension("txt"),
            });
        }
    }
    mistakes.sort_by(|one, other| one.name.cmp(&other.name));
    assert!(mistakes.len() > 50);
    mistakes
}
