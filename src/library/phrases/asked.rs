//! A phrase as a player asks for it.

use fretloom_theory::{AtChange, Direction, Link, Pattern, Rhythm, Travel, TriadPair};

use super::area::PhraseArea;

/// How a phrase goes from group to group, by its word.
pub(super) const TRAVELS: [(&str, Travel); 8] = [
    ("up", Travel::Ladder(Direction::Up)),
    ("down", Travel::Ladder(Direction::Down)),
    ("linked", Travel::Linked(Link::Nearest, Direction::Up)),
    ("linked-down", Travel::Linked(Link::Nearest, Direction::Down)),
    ("linked-above", Travel::Linked(Link::Above, Direction::Up)),
    ("linked-below", Travel::Linked(Link::Below, Direction::Down)),
    ("stay", Travel::Stay),
    ("arc", Travel::Arc),
];

/// What a phrase does where the chord changes, by its word.
pub(super) const AT_CHANGES: [(&str, AtChange); 3] =
    [("runs-on", AtChange::RunsOn), ("again", AtChange::BeginsAgain), ("cut", AtChange::CutShort)];

/// A phrase as a player asks for it, in a file or on the screen.
#[derive(Clone, PartialEq, Debug)]
pub struct AskedPhrase {
    /// What it is called.
    pub name: String,
    /// When it begins, as written: a bar and beat, or `[A]` for each time that section A comes.
    pub from: String,
    /// When it ends, as written.
    pub to: Option<String>,
    /// The name of the phrase before it that it answers.
    pub like: Option<String>,
    /// Is the middle note of each triad an octave higher?
    pub is_wide: bool,
    /// Do its pattern and rhythm go on where the phrase before was?
    pub runs_on: bool,
    /// What it does where the chord changes, and that it goes on through changes at all.
    pub at_change: Option<AtChange>,
    /// Its pair.
    pub pair: Option<TriadPair>,
    /// Its pattern.
    pub pattern: Option<Pattern>,
    /// Its rhythm.
    pub rhythm: Option<Rhythm>,
    /// How it goes from group to group.
    pub travel: Option<Travel>,
    /// Where it begins on the ladder, as written.
    pub start: Option<String>,
    /// What it aims at, as written.
    pub target: Option<String>,
    /// [Notes entered one by one](fretloom_theory::FreeNotes), as written.
    pub notes: Option<String>,
    /// Where on the neck it is played; where the line is, if it does not say.
    pub area: Option<PhraseArea>,
}

impl AskedPhrase {
    /// A phrase that begins then, all else as the line has it.
    ///
    /// ```
    /// use fretloom::library::AskedPhrase;
    /// let phrase = AskedPhrase::beginning("answer", "2.1&");
    /// assert_eq!(phrase.from, "2.1&");
    /// assert_eq!(phrase.pattern, None);
    /// ```
    #[must_use]
    pub fn beginning(name: &str, from: &str) -> AskedPhrase {
        AskedPhrase {
            name: name.to_owned(),
            from: from.to_owned(),
            to: None,
            like: None,
            is_wide: false,
            runs_on: false,
            at_change: None,
            pair: None,
            pattern: None,
            rhythm: None,
            travel: None,
            start: None,
            target: None,
            notes: None,
            area: None,
        }
    }

    /// The name of the section that it is for, where it is for one.
    ///
    /// ```
    /// use fretloom::library::AskedPhrase;
    /// assert_eq!(AskedPhrase::beginning("bridge", "[B]").section(), Some("B"));
    /// assert_eq!(AskedPhrase::beginning("answer", "2.1").section(), None);
    /// ```
    #[must_use]
    pub fn section(&self) -> Option<&str> {
        self.from.trim().strip_prefix('[')?.strip_suffix(']').map(str::trim)
    }

    /// The same with what it takes from the phrase that it answers, which is among those `above` it.
    #[must_use]
    pub fn in_full(&self, above: &[AskedPhrase]) -> AskedPhrase {
        let mut full = AskedPhrase { like: None, ..self.clone() };
        let like = |like: &String| above.iter().position(|phrase| phrase.name == *like);
        let Some(index) = self.like.as_ref().and_then(like) else { return full };
        let (before, from) = above.split_at(index);
        let Some(like) = from.first().map(|like| like.in_full(before)) else { return full };
        full.is_wide |= like.is_wide && self.pattern.is_none();
        full.at_change = full.at_change.or(like.at_change);
        full.pattern = full.pattern.or(like.pattern);
        full.rhythm = full.rhythm.or(like.rhythm);
        full.travel = full.travel.or(like.travel);
        full.notes = full.notes.or(like.notes);
        full.area = full.area.or(like.area);
        full
    }
}
