//! The commands that are not of one screen.

/// What the program does itself, whichever screen is in front.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum ProgramCommand {
    Help,
    Palette,
    Undo,
    Redo,
    Back,
    Forward,
    FreeMouse,
    Keep,
    Keepers,
    Sound,
    SilenceLine,
    SilenceDrone,
    SilenceClick,
    Quit,
    QuitAtOnce,
    Suspend,
}

/// What can be asked for while a line of text is typed.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum TypingCommand {
    Suggestion,
    Accept,
    Cancel,
}

/// What can be asked for in a list.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum ListCommand {
    Accept,
    Cancel,
    Down,
    Up,
    PageDown,
    PageUp,
}
