//! Where the player's own files are.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use directories::{BaseDirs, ProjectDirs};

/// The program's name as a folder.
const NAME: &str = "fretloom";

/// The player's folders for this program, whether they exist or not; `None` where the player has no
/// home folder.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Folders {
    /// Settings, keys, themes, tunings, scales and patterns: what the player writes.
    pub config: Option<PathBuf>,
    /// What the program remembers from one start to the next.
    pub state: Option<PathBuf>,
    /// What the player has made with the program: keepers.
    pub data: Option<PathBuf>,
}

/// The folders that the operating system provides for this program by its own convention.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct SystemFolders {
    /// The player's home folder.
    pub home: Option<PathBuf>,
    /// Where the system keeps a program's settings.
    pub config: Option<PathBuf>,
    /// Where the system keeps a program's state.
    pub state: Option<PathBuf>,
    /// Where the system keeps what is made with a program.
    pub data: Option<PathBuf>,
}

impl SystemFolders {
    /// Those of the system that the program runs on.
    #[must_use]
    pub fn of_this_system() -> SystemFolders {
        let home = BaseDirs::new().map(|dirs| dirs.home_dir().to_owned());
        let Some(dirs) = ProjectDirs::from("", "", NAME) else {
            return SystemFolders { home, ..SystemFolders::default() };
        };
        // Only Linux has a separate folder for state.
        let state = dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir());
        SystemFolders {
            home,
            config: Some(dirs.config_dir().to_owned()),
            state: Some(state.to_owned()),
            data: Some(dirs.data_dir().to_owned()),
        }
    }
}

impl Folders {
    /// The folders of this player on this system.
    #[must_use]
    pub fn from_environment() -> Folders {
        let value = |name: &str| std::env::var_os(name);
        Folders::find(&SystemFolders::of_this_system(), value, Path::is_dir)
    }

    /// The folders, worked out from those of the `system`. `value` gives the value of an
    /// environment variable, and `is_folder` says whether a folder exists.
    ///
    /// On every system the folder for settings is the first of: `$FRETLOOM_CONFIG`;
    /// `$XDG_CONFIG_HOME/fretloom`; `~/.config/fretloom`, if that exists; the system's own. The
    /// folder for state is `$XDG_STATE_HOME/fretloom`, else the system's own, and that for what is
    /// made likewise with `$XDG_DATA_HOME`. An XDG folder that is not absolute counts as unset, as the
    /// XDG Base Directory Specification says.
    ///
    /// # Example
    ///
    /// ```
    /// use std::path::{Path, PathBuf};
    /// use fretloom::library::{Folders, SystemFolders};
    ///
    /// let here = std::env::temp_dir();
    /// let value = |name: &str| (name == "XDG_CONFIG_HOME").then(|| here.clone().into_os_string());
    /// let folders = Folders::find(&SystemFolders::default(), value, |_| false);
    /// assert_eq!(folders.config, Some(here.join("fretloom")));
    /// assert_eq!(folders.state, None);
    /// ```
    pub fn find(
        system: &SystemFolders,
        value: impl Fn(&str) -> Option<OsString>,
        is_folder: impl Fn(&Path) -> bool,
    ) -> Folders {
        let xdg = |name: &str| {
            let folder = value(name).map(PathBuf::from).filter(|folder| folder.is_absolute());
            folder.map(|folder| folder.join(NAME))
        };
        let own = value("FRETLOOM_CONFIG").filter(|folder| !folder.is_empty()).map(PathBuf::from);
        let in_home = || {
            let folder = system.home.as_ref().map(|home| home.join(".config").join(NAME));
            folder.filter(|folder| is_folder(folder))
        };
        let config = own.or_else(|| xdg("XDG_CONFIG_HOME")).or_else(in_home);
        Folders {
            config: config.or_else(|| system.config.clone()),
            state: xdg("XDG_STATE_HOME").or_else(|| system.state.clone()),
            data: xdg("XDG_DATA_HOME").or_else(|| system.data.clone()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the documentation of the `directories` crate says of each system.
    fn systems() -> [SystemFolders; 3] {
        let folders = |home: &str, config: &str, state: &str, data: &str| SystemFolders {
            home: Some(home.into()),
            config: Some(config.into()),
            state: Some(state.into()),
            data: Some(data.into()),
        };
        let mac = "/Volumes/ana/Library/Application Support/fretloom";
        let windows = r"C:\Users\ana\AppData";
        [
            folders(
                "/ana",
                "/ana/.config/fretloom",
                "/ana/.local/state/fretloom",
                "/ana/.local/share/fretloom",
            ),
            folders("/Volumes/ana", mac, mac, mac),
            folders(
                r"C:\Users\ana",
                &format!(r"{windows}\Roaming\fretloom\config"),
                &format!(r"{windows}\Local\fretloom\data"),
                &format!(r"{windows}\Roaming\fretloom\data"),
            ),
        ]
    }

    fn found(system: &SystemFolders, variables: &[(&str, &Path)], existing: &[PathBuf]) -> Folders {
        let value = |name: &str| {
            let set = variables.iter().find(|(variable, _)| *variable == name);
            set.map(|(_, value)| value.as_os_str().to_owned())
        };
        Folders::find(system, value, |folder| existing.iter().any(|there| there == folder))
    }

    #[test]
    fn without_variables_each_system_has_its_own_folders() {
        for system in systems() {
            let folders = found(&system, &[], &[]);
            assert_eq!((folders.config, folders.state), (system.config, system.state));
            assert_eq!(folders.data, system.data);
        }
        assert_eq!(found(&SystemFolders::default(), &[], &[]), Folders::default());
    }

    #[test]
    fn the_variables_of_xdg_win_on_every_system() {
        let here = std::env::temp_dir();
        for system in systems() {
            let in_home = system.home.clone().unwrap().join(".config/fretloom");
            let (s, d) = (here.join("s"), here.join("d"));
            let variables =
                [("XDG_CONFIG_HOME", &*here), ("XDG_STATE_HOME", &*s), ("XDG_DATA_HOME", &*d)];
            let folders = found(&system, &variables, &[in_home]);
            assert_eq!(folders.config, Some(here.join("fretloom")));
            assert_eq!(folders.state, Some(here.join("s/fretloom")));
            assert_eq!(folders.data, Some(here.join("d/fretloom")));
        }
    }

    #[test]
    fn a_folder_that_is_not_absolute_counts_as_unset() {
        for system in systems() {
            for unset in ["", "some/where"].map(Path::new) {
                let variables = [("XDG_CONFIG_HOME", unset), ("XDG_STATE_HOME", unset)];
                assert_eq!(found(&system, &variables, &[]), found(&system, &[], &[]));
            }
        }
    }

    #[test]
    fn an_existing_dotted_folder_is_honoured_everywhere_and_a_missing_one_is_not() {
        for system in systems() {
            let in_home = system.home.clone().unwrap().join(".config").join("fretloom");
            let folders = found(&system, &[], std::slice::from_ref(&in_home));
            assert_eq!(folders.config, Some(in_home));
            assert_eq!(folders.state, system.state);
        }
    }

    #[test]
    fn a_folder_of_ones_own_wins_over_all_and_is_taken_as_it_is() {
        let [system, ..] = systems();
        let here = std::env::temp_dir();
        let own = Path::new("my settings");
        let variables = [("FRETLOOM_CONFIG", own), ("XDG_CONFIG_HOME", &*here)];
        assert_eq!(found(&system, &variables, &[]).config, Some(own.to_owned()));
        let variables = [("FRETLOOM_CONFIG", Path::new("")), ("XDG_CONFIG_HOME", &*here)];
        assert_eq!(found(&system, &variables, &[]).config, Some(here.join("fretloom")));
    }
}
