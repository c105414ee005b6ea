//! What sounds side by side.

/// One of the things that sound side by side, each with a level of its own.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Track {
    /// The plucked notes.
    Line,
    /// The chords that are held.
    Drone,
    /// The metronome.
    Click,
}

impl Track {
    /// All of them.
    pub const ALL: [Track; 3] = [Track::Line, Track::Drone, Track::Click];
}
