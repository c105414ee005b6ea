//! Why nothing is heard.

use std::fmt;

use super::way::Untaken;

/// Why nothing is heard, in one line for the player.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum SoundError {
    /// There is no way out on this machine; what was tried.
    NoWay(Vec<Untaken>),
    /// The sound server ended while it played.
    ServerEnded,
    /// The sound server did not answer any more.
    ServerSilent,
    /// The sound server gave the playing up; why.
    ServerRefused(String),
    /// A program that played ended before its time; its name, and what is known of its end.
    ProgramEnded(String, String),
    /// A program that played took nothing any more; its name.
    ProgramStuck(String),
    /// The system's own output failed; why.
    Device(String),
    /// A file of sound cannot be written; why.
    Writing(String),
}

impl fmt::Display for SoundError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SoundError::NoWay(tried) => {
                let tried: Vec<String> = tried.iter().map(Untaken::to_string).collect();
                write!(f, "no sound can be played here ({})", tried.join("; "))
            }
            SoundError::ServerEnded => {
                f.write_str("the sound server has ended; play again to try again")
            }
            SoundError::ServerSilent => {
                f.write_str("the sound server does not answer any more; play again to try again")
            }
            SoundError::ServerRefused(why) => write!(f, "the sound server plays no more: {why}"),
            SoundError::ProgramEnded(program, how) => {
                write!(f, "{program}, which played, ended: {how}")
            }
            SoundError::ProgramStuck(program) => write!(f, "{program} takes no sound any more"),
            SoundError::Device(why) => write!(f, "the sound output failed: {why}"),
            SoundError::Writing(why) => write!(f, "cannot write the sound: {why}"),
        }
    }
}

impl std::error::Error for SoundError {}
