//! Files in the player's folder that the program does not read, mostly because of a mistyped name.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

use super::Problem;
use crate::words::nearest;

/// The files and folders that are read.
const READ: [&str; 7] =
    ["settings.toml", "keys.toml", "scales.toml", "patterns.toml", "themes", "tunings", "charts"];

/// A problem for each TOML file in the player's folder that is not read, and for each other entry
/// whose name is close to one that is read.
#[must_use]
pub fn unread_files(config_folder: &Path) -> Vec<Problem> {
    let entries = fs::read_dir(config_folder).into_iter().flatten();
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    paths.iter().filter_map(|path| unread_file(path)).collect()
}

fn unread_file(path: &Path) -> Option<Problem> {
    let name = path.file_name().and_then(OsStr::to_str)?;
    // Where a system has one folder for all, what is kept lies there too.
    if READ.contains(&name) || name.starts_with("keepers.") {
        return None;
    }
    // The ending is left out, since a common ending makes any two names alike.
    let stem = |name: &'static str| name.strip_suffix(".toml").unwrap_or(name);
    let written = name.strip_suffix(".toml").unwrap_or(name);
    let near = READ.into_iter().find(|read| Some(stem(read)) == nearest(written, READ.map(stem)));
    let is_toml = path.extension().is_some_and(|extension| extension == "toml");
    if near.is_none() && !is_toml {
        return None;
    }
    let near = near.map(|near| format!("; did you mean {near}?")).unwrap_or_default();
    let all = READ.join(", ");
    let expected = format!("one of {all}; nothing reads this{near}");
    Some(Problem::of_file(&path.display().to_string(), expected))
}
