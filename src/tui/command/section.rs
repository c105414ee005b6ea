//! The places where keys are pressed.

/// Where keys are pressed: each place has its own section in the key file.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Section {
    /// Heard before anything else, whatever lies over the screen, and while text is typed.
    Always,
    /// Heard on every screen, while nothing lies over it.
    Everywhere,
    /// The explorer itself.
    Explore,
    /// The line screen itself.
    Line,
    /// The changes screen itself.
    Changes,
    /// The keepers screen itself.
    Keepers,
    /// The keepers screen while it asks what is heard.
    Listen,
    /// The keepers screen while something is practised there.
    Practice,
    /// While a line of text is being typed.
    Typing,
    /// In a list laid over the screen: scales.
    List,
    /// In the help page and the lists of commands and tunings, where letters search.
    Picking,
    /// On the page of sound.
    Sound,
}

impl Section {
    /// All of them, in the order of the help page.
    pub const ALL: [Section; 12] = [
        Section::Explore,
        Section::Line,
        Section::Changes,
        Section::Keepers,
        Section::Listen,
        Section::Practice,
        Section::Typing,
        Section::List,
        Section::Picking,
        Section::Sound,
        Section::Everywhere,
        Section::Always,
    ];

    /// Is it the own section of a screen, heard while nothing lies over that?
    #[must_use]
    pub const fn is_of_screen(self) -> bool {
        match self {
            Section::Explore
            | Section::Line
            | Section::Changes
            | Section::Keepers
            | Section::Listen
            | Section::Practice => true,
            Section::Always
            | Section::Everywhere
            | Section::Typing
            | Section::List
            | Section::Picking
            | Section::Sound => false,
        }
    }

    /// Can a key be meant for either of the two?
    #[must_use]
    pub fn is_heard_with(self, other: Section) -> bool {
        use Section::{Always, Everywhere};
        match (self, other) {
            (Always, _) | (_, Always) => true,
            (Everywhere, screen) | (screen, Everywhere) if screen.is_of_screen() => true,
            _ => self == other,
        }
    }

    /// Its name in the key file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Section::Always => "always",
            Section::Everywhere => "everywhere",
            Section::Explore => "explore",
            Section::Line => "line",
            Section::Changes => "changes",
            Section::Keepers => "keepers",
            Section::Listen => "listen",
            Section::Practice => "practice",
            Section::Typing => "typing",
            Section::List => "list",
            Section::Picking => "picking",
            Section::Sound => "sound",
        }
    }

    /// Its heading on the help page.
    #[must_use]
    pub const fn heading(self) -> &'static str {
        match self {
            Section::Always => "Always, even while typing",
            Section::Everywhere => "On every screen",
            Section::Explore => "Chord, pairs and neck",
            Section::Line => "A line of a pair",
            Section::Changes => "The changes of a tune",
            Section::Keepers => "What is kept",
            Section::Listen => "What is named by ear",
            Section::Practice => "While something kept is practised",
            Section::Typing => "While typing",
            Section::List => "In a list",
            Section::Sound => "How it sounds",
            Section::Picking => "In help, commands and tunings, where letters search",
        }
    }
}
