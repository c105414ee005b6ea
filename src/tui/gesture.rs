//! The one table of what the mouse does: help page, README and tests come from it.
//!
//! To add a gesture: a row here; for a new spot a variant, and a branch in the `hit` of its screen;
//! if it takes what it points at, a branch in the screen's `click`.

use super::command::{
    ChangesCommand, Command, ExploreCommand, KeepersCommand, LineCommand, ListCommand, Section,
};
use super::mouse::Pointed;

/// What on the screen the mouse can point at.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Spot {
    /// A row of the list of pairs.
    Pair,
    /// The list of pairs, its heading with it.
    Pairs,
    /// A row of the scales beside the pairs.
    Scale,
    /// The scales beside the pairs, their heading with them.
    Scales,
    /// A string at a fret, or open.
    Note,
    /// The number or the name of a string.
    StringName,
    /// The neck, the room around its strings with it.
    Neck,
    /// A note of a tablature.
    TabNote,
    /// A tablature, the room between its notes with it.
    Tab,
    /// A bar of a tune, or a part of it with a chord of its own.
    Bar,
    /// The bars, the room between them with it.
    Bars,
    /// A scale, a pair or a plan of those that a large window lists below a tune.
    Listed,
    /// A line of the list of keepers.
    Keeper,
    /// The list of keepers.
    Keepers,
    /// What may be answered to a question by ear.
    Choice,
    /// A line of a list laid over the screen.
    Line,
    /// A list or page laid over the screen, down to its footer.
    List,
    /// A key in the footer, with its word.
    Footer,
}

impl Spot {
    /// The spot that it lies in, which does what the spot itself has no row for.
    #[must_use]
    pub const fn around(self) -> Option<Spot> {
        match self {
            Spot::Pair => Some(Spot::Pairs),
            Spot::Scale => Some(Spot::Scales),
            Spot::Note | Spot::StringName => Some(Spot::Neck),
            Spot::TabNote => Some(Spot::Tab),
            Spot::Bar => Some(Spot::Bars),
            Spot::Keeper => Some(Spot::Keepers),
            Spot::Line => Some(Spot::List),
            Spot::Pairs
            | Spot::Scales
            | Spot::Neck
            | Spot::Tab
            | Spot::Bars
            | Spot::Listed
            | Spot::Keepers
            | Spot::Choice
            | Spot::List
            | Spot::Footer => None,
        }
    }

    /// The own section of the screen that has it; none where every screen may have it.
    #[must_use]
    pub const fn screen(self) -> Option<Section> {
        match self {
            Spot::Pair
            | Spot::Pairs
            | Spot::Scale
            | Spot::Scales
            | Spot::Note
            | Spot::StringName
            | Spot::Neck => Some(Section::Explore),
            Spot::TabNote | Spot::Tab => Some(Section::Line),
            Spot::Bar | Spot::Bars | Spot::Listed => Some(Section::Changes),
            Spot::Keeper | Spot::Keepers => Some(Section::Keepers),
            Spot::Choice => Some(Section::Listen),
            Spot::Line | Spot::List | Spot::Footer => None,
        }
    }

    /// What it is called on the help page.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Spot::Pair => "a pair",
            Spot::Pairs => "pairs",
            Spot::Scale => "a scale",
            Spot::Scales => "scales",
            Spot::Note => "a note",
            Spot::StringName => "a string",
            Spot::Neck => "neck",
            Spot::TabNote => "a number",
            Spot::Tab => "the tab",
            Spot::Bar => "a bar",
            Spot::Bars => "bars",
            Spot::Listed => "what is listed",
            Spot::Keeper => "a keeper",
            Spot::Keepers => "keepers",
            Spot::Choice => "a choice",
            Spot::Line => "a line",
            Spot::List => "list",
            Spot::Footer => "the footer",
        }
    }
}

/// What a gesture does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Act {
    /// What a key does that stands for the command, where the player is.
    Do(Command),
    /// Takes what is under the mouse.
    Choose,
}

/// One row of the table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Gesture {
    /// Where the mouse is.
    pub spot: Spot,
    /// What is done there.
    pub what: Pointed,
    /// What that does.
    pub act: Act,
    /// A line for the help page.
    pub help: &'static str,
}

impl Gesture {
    /// The heading over the rows of the table on the help page.
    pub const HEADING: &str = "With the mouse";

    /// The row for what is done at a spot: its own, or else that of the spot around it. None where
    /// nothing is to be done.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::tui::command::{Command, ExploreCommand};
    /// use fretloom::tui::gesture::{Act, Gesture, Spot};
    /// use fretloom::tui::mouse::Pointed;
    ///
    /// let wheel = Gesture::at(Spot::Pair, Pointed::WheelDown).unwrap();
    /// assert_eq!(wheel.act, Act::Do(Command::Explore(ExploreCommand::NextPair)));
    /// assert_eq!(Gesture::at(Spot::Neck, Pointed::Click), None);
    /// ```
    #[must_use]
    pub fn at(spot: Spot, what: Pointed) -> Option<&'static Gesture> {
        let of = |spot: Spot| GESTURES.iter().find(|row| (row.spot, row.what) == (spot, what));
        of(spot).or_else(|| of(spot.around()?))
    }

    /// What is done with the mouse, in a few words: `click a pair`, `wheel down: neck`.
    #[must_use]
    pub fn label(&self) -> String {
        let spot = self.spot.name();
        match self.what {
            Pointed::Click => format!("click {spot}"),
            Pointed::WheelUp => format!("wheel up: {spot}"),
            Pointed::WheelDown => format!("wheel down: {spot}"),
        }
    }
}

const fn row(spot: Spot, what: Pointed, act: Act, help: &'static str) -> Gesture {
    Gesture { spot, what, act, help }
}

const fn explore(command: ExploreCommand) -> Act {
    Act::Do(Command::Explore(command))
}

const fn of_line(command: LineCommand) -> Act {
    Act::Do(Command::Line(command))
}

const fn changes(command: ChangesCommand) -> Act {
    Act::Do(Command::Changes(command))
}

const fn keepers(command: KeepersCommand) -> Act {
    Act::Do(Command::Keepers(command))
}

const fn list(command: ListCommand) -> Act {
    Act::Do(Command::List(command))
}

/// Every gesture. The order is that of the help page.
#[rustfmt::skip]
pub const GESTURES: &[Gesture] = {
    use Act::Choose;
    use Pointed::{Click, WheelDown, WheelUp};
    &[
        row(Spot::Pair, Click, Choose, "take the pair"),
        row(Spot::Pairs, WheelDown, explore(ExploreCommand::NextPair), "the next pair of the scale"),
        row(Spot::Pairs, WheelUp, explore(ExploreCommand::PreviousPair), "the pair before"),
        row(Spot::Scale, Click, Choose, "take the scale, where the scales stand beside the pairs"),
        row(Spot::Scales, WheelDown, explore(ExploreCommand::NextScale), "the next scale that fits the chord"),
        row(Spot::Scales, WheelUp, explore(ExploreCommand::PreviousScale), "the scale before"),
        row(Spot::Note, Click, Choose, "take the nearest shape that has the note"),
        row(Spot::StringName, Click, Choose, "to a set with that string; lock or free the set in use"),
        row(Spot::Neck, WheelDown, explore(ExploreCommand::ScrollRight), "the neck a fret up"),
        row(Spot::Neck, WheelUp, explore(ExploreCommand::ScrollLeft), "the neck a fret down"),
        row(Spot::TabNote, Click, Choose, "to the note"),
        row(Spot::Tab, WheelDown, of_line(LineCommand::NextNote), "to the next note"),
        row(Spot::Tab, WheelUp, of_line(LineCommand::PreviousNote), "to the note before"),
        row(Spot::Bar, Click, Choose, "to the chord"),
        row(Spot::Bars, WheelDown, changes(ChangesCommand::NextChord), "to the next chord or bar"),
        row(Spot::Bars, WheelUp, changes(ChangesCommand::PreviousChord), "to the chord or bar before"),
        row(Spot::Listed, Click, Choose, "settle the scale or the pair, or take the plan"),
        row(Spot::Keeper, Click, Choose, "mark the keeper"),
        row(Spot::Keepers, WheelDown, keepers(KeepersCommand::NextKeeper), "the next keeper"),
        row(Spot::Keepers, WheelUp, keepers(KeepersCommand::PreviousKeeper), "the keeper before"),
        row(Spot::Choice, Click, Choose, "answer with it"),
        row(Spot::Line, Click, Choose, "mark the line of a list, or take the marked one"),
        row(Spot::List, WheelDown, list(ListCommand::Down), "one line down"),
        row(Spot::List, WheelUp, list(ListCommand::Up), "one line up"),
        row(Spot::Footer, Click, Choose, "press the key that is named there"),
    ]
};

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    /// Two rows for one gesture would leave the second without effect.
    #[test]
    fn every_gesture_stands_once_and_says_what_it_does() {
        let mut seen = HashSet::new();
        for row in GESTURES {
            assert!(seen.insert(row.label()), "{} stands twice", row.label());
            assert_eq!(Gesture::at(row.spot, row.what), Some(row));
            assert!(!row.help.is_empty(), "{}", row.label());
        }
    }

    #[test]
    fn what_a_spot_has_no_row_for_is_done_by_what_lies_around_it() {
        let act = |spot, what| Gesture::at(spot, what).map(|row| row.act);
        assert_eq!(act(Spot::Note, Pointed::WheelUp), Some(explore(ExploreCommand::ScrollLeft)));
        assert_eq!(act(Spot::Line, Pointed::WheelDown), Some(list(ListCommand::Down)));
        assert_eq!(act(Spot::List, Pointed::Click), None);
        assert_eq!(act(Spot::Footer, Pointed::WheelUp), None);
    }
}
