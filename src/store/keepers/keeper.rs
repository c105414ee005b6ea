//! What was kept, with all that is needed to open it as it was.

use std::fmt;
use std::num::NonZeroU32;
use std::sync::Arc;

use fretloom_fretboard::{Finger, Place, StringSet, Tuning};
use fretloom_theory::{Pitch, Quarters};
use jiff::civil::Date;

use super::practice_record::PracticeRecord;

/// The number of a keeper, which no other one ever gets.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct KeeperId(NonZeroU32);

impl KeeperId {
    /// The first there ever is.
    pub(super) const FIRST: KeeperId = KeeperId(NonZeroU32::MIN);

    /// The id of that number; `None` for 0.
    #[must_use]
    pub const fn new(number: u32) -> Option<KeeperId> {
        match NonZeroU32::new(number) {
            Some(number) => Some(KeeperId(number)),
            None => None,
        }
    }

    /// Its number, from 1.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.0.get()
    }
}

impl fmt::Display for KeeperId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// Something that the player has kept.
#[derive(Clone, PartialEq, Debug)]
pub struct Keeper {
    /// Its number.
    pub id: KeeperId,
    /// What it holds.
    pub kept: Kept,
    /// What the player calls it; `None` for the words that its chord and pair give.
    pub name: Option<String>,
    /// What the player has noted beside it.
    pub notes: String,
    /// Words by which the player finds it again, each once.
    pub tags: Vec<String>,
    /// How it is practised, and how that went.
    pub practice: PracticeRecord,
}

/// Something that is to be kept, and gets its number and its day then.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct NewKeeper {
    /// What it holds.
    pub kept: Kept,
    /// What the player calls it.
    pub name: Option<String>,
    /// What the player notes beside it.
    pub notes: String,
    /// Words by which the player finds it again.
    pub tags: Vec<String>,
    /// How it is to be practised, and how that went so far.
    pub practice: PracticeRecord,
}

/// What a keeper holds. It does not change; what the player says of it, and how it is practised, does.
///
/// Every text is as it would be typed, and read by the same reader.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Kept {
    /// The day; `None` where a player wrote the file by hand without it.
    pub on: Option<Date>,
    /// Pair, shape, ladder, line or plan.
    pub what: KeptThing,
    /// The chord's symbol: `Gmaj7#11`; `None` for a scale by itself, and for a plan.
    pub chord: Option<String>,
    /// The scale's name: `G Lydian`.
    pub scale: Option<String>,
    /// The scale's notes, or its root with degrees, so that it can be opened where a name of the
    /// player's own means something else by then.
    pub scale_notes: Option<String>,
    /// The pair by its two triads: `G & A`.
    pub pair: Option<String>,
    /// The tuning with its capo, whole; `None` for whatever tuning is in use.
    pub tuning: Option<Arc<Tuning>>,
    /// The view of the neck by its word, with its choice: `position V`.
    pub view: Option<String>,
    /// The strings in use.
    pub strings: Option<StringSet>,
    /// How the screens stood, as TOML of a [`Session`](crate::store::Session); `None` where it was kept
    /// without a screen.
    pub screen: Option<String>,
}

/// What it is that was kept.
#[derive(Clone, PartialEq, Debug, Default)]
pub enum KeptThing {
    /// Both triads, wherever they lie.
    #[default]
    Pair,
    /// One shape of a triad.
    Shape(KeptShape),
    /// The shapes of both triads up a set of strings.
    Ladder,
    /// A line, note by note.
    Line(Vec<KeptNote>),
    /// A chart with the scale and the pair of each chord.
    Plan(KeptPlan),
}

impl KeptThing {
    /// `pair`, `shape`, `ladder`, `line` or `plan`.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            KeptThing::Pair => "pair",
            KeptThing::Shape(_) => "shape",
            KeptThing::Ladder => "ladder",
            KeptThing::Line(_) => "line",
            KeptThing::Plan(_) => "plan",
        }
    }
}

/// A shape as the hand held it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct KeptShape {
    triad: String,
    /// From the highest string number to the lowest, each string once.
    places: Vec<Place>,
    /// As many as places, or none.
    fingers: Vec<Finger>,
}

impl KeptShape {
    /// A triad at these places, from the highest string number to the lowest, with a finger for each; no
    /// fingers at all where no hand holds it. `None` where the strings do not go down or the fingers are
    /// not as many.
    #[must_use]
    pub fn new(triad: &str, places: Vec<Place>, fingers: Vec<Finger>) -> Option<KeptShape> {
        let go_down = places.windows(2).all(|two| two[0].string > two[1].string);
        let is_shape = !places.is_empty() && go_down;
        let are_fingers = fingers.is_empty() || fingers.len() == places.len();
        (is_shape && are_fingers).then(|| KeptShape { triad: triad.to_owned(), places, fingers })
    }

    /// The triad: `G`.
    #[must_use]
    pub fn triad(&self) -> &str {
        &self.triad
    }

    /// Its places, from the highest string number to the lowest.
    #[must_use]
    pub fn places(&self) -> &[Place] {
        &self.places
    }

    /// A finger for each place; empty where no hand holds it.
    #[must_use]
    pub fn fingers(&self) -> &[Finger] {
        &self.fingers
    }
}

/// A note of a line, with its place on the neck.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct KeptNote {
    /// When it begins, in quarter notes.
    pub onset: Quarters,
    /// How long it lasts, in quarter notes.
    pub length: Quarters,
    /// What sounds.
    pub pitch: Pitch,
    /// Where it is played.
    pub place: Place,
    /// With which finger; `None` where none was found.
    pub finger: Option<Finger>,
}

/// A chart with what was chosen for it.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct KeptPlan {
    /// The chart as a file has it, choices included.
    pub chart: String,
    /// The key in which it was planned, if not the chart's own.
    pub key: Option<String>,
    /// The frets between which the hand stays: `6-11`.
    pub frets: Option<String>,
}

impl Keeper {
    /// What to call it: its name, else its pair and its chord.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::store::{Keeper, KeeperId, Kept, NewKeeper};
    /// let kept = Kept {
    ///     chord: Some("Dm7".to_owned()),
    ///     pair: Some("F & G".to_owned()),
    ///     ..Kept::default()
    /// };
    /// let new = NewKeeper { kept, ..NewKeeper::default() };
    /// let keeper = Keeper::new(KeeperId::new(1).unwrap(), new);
    /// assert_eq!(keeper.title(), "F & G over Dm7");
    /// ```
    #[must_use]
    pub fn title(&self) -> String {
        let kept = &self.kept;
        let over = kept.chord.as_ref().or(kept.scale.as_ref());
        match (&self.name, &kept.pair, over) {
            (Some(name), ..) => name.clone(),
            (None, Some(pair), Some(over)) => format!("{pair} over {over}"),
            (None, one, other) => {
                let known = one.as_ref().or(other);
                known.cloned().unwrap_or_else(|| format!("{} {}", kept.what.word(), self.id))
            }
        }
    }

    /// Something new by this number.
    #[must_use]
    pub fn new(id: KeeperId, new: NewKeeper) -> Keeper {
        let NewKeeper { kept, name, notes, tags, practice } = new;
        Keeper { id, kept, name, notes, tags, practice }
    }
}

/// The finger of that number, 0 for an open string.
pub(super) fn finger(number: u8) -> Option<Finger> {
    [Finger::Open, Finger::First, Finger::Second, Finger::Third, Finger::Fourth]
        .into_iter()
        .find(|finger| finger.number() == number)
}
