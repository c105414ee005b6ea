//! Where the player's own files live.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use directories::{BaseDirs, ProjectDirs};

/// The program's name as a folder.
const NAME: &str = "fretloom";

/// The player's folders, whether they exist or not; `None` where there is no home.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Folders {
    /// Settings, keys, themes, tunings and scales: what the player writes.
    pub config: Option<PathBuf>,
    /// What the program remembers from one start to the next.
    pub state: Option<PathBuf>,
}

/// The folders that a system's own custom gives to this program.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Custom {
    /// The player's home.
    pub home: Option<PathBuf>,
    /// Where this system keeps a program's settings.
    pub config: Option<PathBuf>,
    /// Where this system keeps a program's state.
    pub state: Option<PathBuf>,
}

impl Custom {
    /// That of the system the program runs on.
    #[must_use]
    pub fn of_this_system() -> Custom {
        let home = BaseDirs::new().map(|dirs| dirs.home_dir().to_owned());
        let Some(dirs) = ProjectDirs::from("", "", NAME) else {
            return Custom { home, ..Custom::default() };
        };
        // Only Linux has a folder of its own for state.
        let state = dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir());
        Custom { home, config: Some(dirs.config_dir().to_owned()), state: Some(state.to_owned()) }
    }
}

impl Folders {
    /// The folders of this player on this system.
    #[must_use]
    pub fn from_environment() -> Folders {
        let value = |name: &str| std::env::var_os(name);
        Folders::find(&Custom::of_this_system(), value, Path::is_dir)
    }

    /// The folders, from the system's `custom`, the environment's `value` of each variable, and
    /// which folders there are.
    ///
    /// For settings, the first of: `FRETLOOM_CONFIG`, which is the folder itself;
    /// `$XDG_CONFIG_HOME/fretloom`, on every system; an existing `~/.config/fretloom`, on every
    /// system; the custom. For state, `$XDG_STATE_HOME/fretloom`, else the custom. An XDG folder
    /// that is not absolute counts as unset, as the XDG Base Directory Specification says.
    ///
    /// # Example
    ///
    /// ```
    /// use std::path::{Path, PathBuf};
    /// use fretloom::library::{Custom, Folders};
    ///
    /// let here = std::env::temp_dir();
    /// let value = |name: &str| (name == "XDG_CONFIG_HOME").then(|| here.clone().into_os_string());
    /// let folders = Folders::find(&Custom::default(), value, |_| false);
    /// assert_eq!(folders.config, Some(here.join("fretloom")));
    /// assert_eq!(folders.state, None);
    /// ```
    pub fn find(
        custom: &Custom,
        value: impl Fn(&str) -> Option<OsString>,
        is_folder: impl Fn(&Path) -> bool,
    ) -> Folders {
        let xdg = |name: &str| {
            let folder = value(name).map(PathBuf::from).filter(|folder| folder.is_absolute());
            folder.map(|folder| folder.join(NAME))
        };
        let own = value("FRETLOOM_CONFIG").filter(|folder| !folder.is_empty()).map(PathBuf::from);
        let dotted = || {
            let folder = custom.home.as_ref().map(|home| home.join(".config").join(NAME));
            folder.filter(|folder| is_folder(folder))
        };
        let config = own.or_else(|| xdg("XDG_CONFIG_HOME")).or_else(dotted);
        Folders {
            config: config.or_else(|| custom.config.clone()),
            state: xdg("XDG_STATE_HOME").or_else(|| custom.state.clone()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the documentation of the `directories` crate says of each system.
    fn systems() -> [Custom; 3] {
        let custom = |home: &str, config: &str, state: &str| Custom {
            home: Some(home.into()),
            config: Some(config.into()),
            state: Some(state.into()),
        };
        let mac = "/Volumes/ana/Library/Application Support/fretloom";
        let windows = r"C:\Users\ana\AppData";
        [
            custom("/ana", "/ana/.config/fretloom", "/ana/.local/state/fretloom"),
            custom("/Volumes/ana", mac, mac),
            custom(
                r"C:\Users\ana",
                &format!(r"{windows}\Roaming\fretloom\config"),
                &format!(r"{windows}\Local\fretloom\data"),
            ),
        ]
    }

    fn found(custom: &Custom, variables: &[(&str, &Path)], existing: &[PathBuf]) -> Folders {
        let value = |name: &str| {
            let set = variables.iter().find(|(variable, _)| *variable == name);
            set.map(|(_, value)| value.as_os_str().to_owned())
        };
        Folders::find(custom, value, |folder| existing.iter().any(|there| there == folder))
    }

    #[test]
    fn without_variables_each_system_has_its_custom() {
        for custom in systems() {
            let folders = found(&custom, &[], &[]);
            assert_eq!((folders.config, folders.state), (custom.config, custom.state));
        }
        assert_eq!(found(&Custom::default(), &[], &[]), Folders::default());
    }

    #[test]
    fn the_variables_of_xdg_win_on_every_system() {
        let here = std::env::temp_dir();
        for custom in systems() {
            let dotted = custom.home.clone().unwrap().join(".config/fretloom");
            let variables = [("XDG_CONFIG_HOME", &*here), ("XDG_STATE_HOME", &*here.join("s"))];
            let folders = found(&custom, &variables, &[dotted]);
            assert_eq!(folders.config, Some(here.join("fretloom")));
            assert_eq!(folders.state, Some(here.join("s/fretloom")));
        }
    }

    #[test]
    fn a_folder_that_is_not_absolute_counts_as_unset() {
        for custom in systems() {
            for unset in ["", "some/where"].map(Path::new) {
                let variables = [("XDG_CONFIG_HOME", unset), ("XDG_STATE_HOME", unset)];
                assert_eq!(found(&custom, &variables, &[]), found(&custom, &[], &[]));
            }
        }
    }

    #[test]
    fn an_existing_dotted_folder_is_honoured_everywhere_and_a_missing_one_is_not() {
        for custom in systems() {
            let dotted = custom.home.clone().unwrap().join(".config").join("fretloom");
            let folders = found(&custom, &[], std::slice::from_ref(&dotted));
            assert_eq!(folders.config, Some(dotted));
            assert_eq!(folders.state, custom.state);
        }
    }

    #[test]
    fn a_folder_of_ones_own_wins_over_all_and_is_taken_as_it_is() {
        let [custom, ..] = systems();
        let here = std::env::temp_dir();
        let own = Path::new("my settings");
        let variables = [("FRETLOOM_CONFIG", own), ("XDG_CONFIG_HOME", &*here)];
        assert_eq!(found(&custom, &variables, &[]).config, Some(own.to_owned()));
        let variables = [("FRETLOOM_CONFIG", Path::new("")), ("XDG_CONFIG_HOME", &*here)];
        assert_eq!(found(&custom, &variables, &[]).config, Some(here.join("fretloom")));
    }
}
