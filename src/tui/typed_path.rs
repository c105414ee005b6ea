//! Names of files as they are typed.

use std::path::PathBuf;

/// A name as it is typed: `~/` is the player's home.
pub(super) fn path_of(typed: &str) -> Option<PathBuf> {
    let typed = typed.trim();
    let home = || std::env::var_os("HOME").map(PathBuf::from);
    match typed.strip_prefix("~/") {
        Some(rest) => home().map(|home| home.join(rest)),
        None => (!typed.is_empty()).then(|| PathBuf::from(typed)),
    }
}
