//! Where the player's own files live.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use directories::{BaseDirs, ProjectDirs};

/// The player's folder for settings and data files, whether it exists or not.
///
/// `xdg_config_home` is the value of `XDG_CONFIG_HOME`: an absolute path there wins on every
/// system (a relative one counts as unset, as the XDG specification says). Else an existing
/// `~/.config/fretloom` is honoured everywhere, and then the system's own custom. `None` where
/// there is no home.
#[must_use]
pub fn config_folder(xdg_config_home: Option<&OsStr>) -> Option<PathBuf> {
    let xdg = xdg_config_home.map(Path::new);
    if let Some(folder) = xdg.filter(|folder| folder.is_absolute()) {
        return Some(folder.join("fretloom"));
    }
    let dot_config = BaseDirs::new().map(|dirs| dirs.home_dir().join(".config/fretloom"));
    dot_config.filter(|folder| folder.is_dir()).or_else(|| {
        let dirs = ProjectDirs::from("", "", "fretloom");
        dirs.map(|dirs| dirs.config_dir().to_owned())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_absolute_folder_of_the_environment_wins() {
        let here = std::env::temp_dir();
        let found = config_folder(Some(here.as_os_str()));
        assert_eq!(found, Some(here.join("fretloom")));
        for unset in ["", "some/where"] {
            assert_eq!(config_folder(Some(OsStr::new(unset))), config_folder(None));
        }
    }
}
