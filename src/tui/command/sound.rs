//! The commands of the page of sound.

/// What can be asked for on the page of sound.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum SoundCommand {
    Down,
    Up,
    More,
    Less,
    Silence,
    Play,
    Close,
}
