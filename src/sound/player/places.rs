//! Where the ways out are looked for.

use std::env;
use std::path::PathBuf;

/// Where the ways out are looked for.
///
/// ```
/// use std::path::PathBuf;
/// use fretloom::sound::SoundPlaces;
///
/// let places = SoundPlaces { server: Err("is not wanted".into()), programs: vec!["/usr/bin".into()] };
/// assert_ne!(places.programs, [PathBuf::new()]);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SoundPlaces {
    /// The socket of the sound server, or in words why there is none.
    pub server: Result<PathBuf, String>,
    /// The folders in which programs lie.
    pub programs: Vec<PathBuf>,
}

impl SoundPlaces {
    /// Those that the environment names: PULSE_SERVER, PULSE_RUNTIME_PATH, XDG_RUNTIME_DIR and PATH.
    #[must_use]
    pub fn from_environment() -> SoundPlaces {
        let variable = |name: &str| env::var(name).ok().filter(|value| !value.is_empty());
        let path = env::var_os("PATH").unwrap_or_default();
        SoundPlaces {
            server: socket(
                variable("PULSE_SERVER"),
                variable("PULSE_RUNTIME_PATH"),
                variable("XDG_RUNTIME_DIR"),
            ),
            programs: env::split_paths(&path).collect(),
        }
    }
}

fn socket(
    server: Option<String>,
    runtime: Option<String>,
    folder: Option<String>,
) -> Result<PathBuf, String> {
    if let Some(server) = server {
        return local(&server)
            .ok_or(format!("PULSE_SERVER names {server}, which is no socket of this machine"));
    }
    let beside = runtime.map(|path| PathBuf::from(path).join("native"));
    let usual = folder.map(|path| PathBuf::from(path).join("pulse/native"));
    beside.or(usual).ok_or("neither XDG_RUNTIME_DIR nor PULSE_SERVER says where one is".to_owned())
}

/// The first address of a list, where it is a path. Each may begin with the machine for which it is meant,
/// in braces.
fn local(server: &str) -> Option<PathBuf> {
    let first = server.split_whitespace().next()?;
    let address =
        first.strip_prefix('{').map_or(Some(first), |rest| Some(rest.split_once('}')?.1))?;
    let path = address.strip_prefix("unix:").unwrap_or(address);
    path.starts_with('/').then(|| PathBuf::from(path))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_environment_says_where() {
        let find = |server: Option<&str>, runtime: Option<&str>, folder: Option<&str>| {
            let own = |text: Option<&str>| text.map(str::to_owned);
            socket(own(server), own(runtime), own(folder))
        };
        let path = |text: &str| Ok(PathBuf::from(text));
        assert_eq!(find(None, None, Some("/run/user/7")), path("/run/user/7/pulse/native"));
        assert_eq!(find(None, Some("/run/p"), Some("/run/user/7")), path("/run/p/native"));
        for server in ["unix:/s/native", "/s/native", "{4f}unix:/s/native tcp:there"] {
            assert_eq!(find(Some(server), None, Some("/run/7")), path("/s/native"), "{server}");
        }
        for server in ["tcp:there:4713", "there", "{4f", " ", "unix:native"] {
            let why = find(Some(server), None, Some("/run/7")).unwrap_err();
            let words = format!("PULSE_SERVER names {server}, which is no socket of this machine");
            assert_eq!(why, words);
        }
        assert!(find(None, None, None).unwrap_err().contains("XDG_RUNTIME_DIR"));
    }
}
