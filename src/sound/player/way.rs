//! The ways by which sound can leave.

use std::fmt;
use std::path::PathBuf;

/// A way by which sound leaves the program.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Way {
    /// A sound server, spoken to through its socket.
    Server(PathBuf),
    /// A program that plays what it is given.
    Program(PathBuf),
    /// The system's own output, by its name.
    Device(String),
}

impl Way {
    /// Its kind in a word, as other programs are told.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Way::Server(_) => "server",
            Way::Program(_) => "program",
            Way::Device(_) => "device",
        }
    }

    /// The socket, the program or the output by itself.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Way::Server(path) | Way::Program(path) => path.display().to_string(),
            Way::Device(name) => name.clone(),
        }
    }
}

impl fmt::Display for Way {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Way::Server(_) => write!(f, "the sound server at {}", self.name()),
            Way::Program(_) => write!(f, "the program {}", self.name()),
            Way::Device(_) => write!(f, "the output {}", self.name()),
        }
    }
}

/// A way that is not taken, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Untaken {
    /// What was tried: a sound server, or a program's name.
    pub what: String,
    /// Why it cannot be used, or is not needed.
    pub why: String,
}

impl Untaken {
    pub(super) fn new(what: impl Into<String>, why: impl Into<String>) -> Untaken {
        Untaken { what: what.into(), why: why.into() }
    }
}

impl fmt::Display for Untaken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.what, self.why)
    }
}
