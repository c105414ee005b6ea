//! Where a value of the library comes from.

use std::fmt;
use std::path::PathBuf;

/// Where a value of the library comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Source {
    /// It is part of the program.
    BuiltIn,
    /// The player's own file.
    File(PathBuf),
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Source::BuiltIn => f.write_str("built in"),
            Source::File(path) => path.display().fmt(f),
        }
    }
}
