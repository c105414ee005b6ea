//! Strings and frets: from a tuning to every shape of a triad on its neck.
//!
//! The crate root is the vocabulary. A [`Tuning`] is made of [`OpenString`]s; a [`Neck`] knows
//! which [`Place`] sounds which pitch, and its millimetres; a [`Region`] is a part of it. A
//! [`ShapeQuery`] finds the [`Shape`]s of a triad there, on any [`StringSet`], with fingers for the
//! [`Hand`]; an [`ArpeggioQuery`] its [`Arpeggio`]s. A [`Ladder`] orders the shapes of a pair of
//! triads by height. A [`View`] chooses what a player sees of a pair. A [`FingeringQuery`] finds the
//! [`Fingering`]s of a line, a [`ShapePlaces`] tells a plan where pairs lie, and a
//! [`CompingQuery`] strikes them as chords.
//!
//! Invariants: strings are counted from 1, the one nearest the floor; pitches are sounding
//! pitches; order by string and order by pitch are never taken for one another; no grip is stored.
//! There is no input, no output and no screen here, and nothing panics.
//!
//! # Example
//!
//! ```
//! use fretloom_fretboard::{Ladder, Neck, ShapeQuery, Tuning};
//! use fretloom_theory::{SpelledTriad, TriadPair};
//!
//! let neck = Neck::new(Tuning::read("D A D G B E")?);
//! let g: SpelledTriad = "G".parse()?;
//! let a: SpelledTriad = "A".parse()?;
//! let query = ShapeQuery::default().on("6-5-4".parse()?);
//! let pair = TriadPair::in_order(g.triad(), a.triad()).ok_or("they share a note")?;
//! let ladder = Ladder::new(&neck, pair, &query);
//! let lowest = ladder.rungs()[0].shape;
//! assert_eq!(lowest.frets().map(|fret| fret.number()), [5, 2, 0]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod arpeggio;
mod arpeggio_query;
mod comping;
mod fingering;
mod fret;
mod hand;
mod hyphenated;
mod ladder;
mod movement;
mod neck;
mod passage;
mod picking;
mod place;
mod region;
mod runs;
mod same_pitches;
mod shape;
mod shape_places;
mod shape_query;
mod string_set;
mod strings_going_up;
mod tuning;
mod view;
mod voice_movement;

pub use arpeggio::{Arpeggio, PerString};
pub use arpeggio_query::ArpeggioQuery;
pub use comping::{CompedChord, Comping, CompingError, CompingQuery, CompingRelief, Stab};
pub use fingering::{
    Alternatives, BrokenBy, BrokenChord, FingeredNote, Fingering, FingeringCondition,
    FingeringError, FingeringQuery, LineNote, Misfit, NoteArea, Pin, Taste,
};
pub use fret::{Fret, FretRange};
pub use hand::{Barre, Ease, Finger, Grip, Hand, HandPosition};
pub use ladder::{Ladder, Nearness, Rung, Step};
pub use movement::{FingerMove, Movement};
pub use neck::{Inlay, Neck};
pub use picking::Picking;
pub use place::{Place, StringNumber};
pub use region::{Region, RegionError};
pub use same_pitches::SamePitches;
pub use shape::{Shape, Voicing};
pub use shape_places::ShapePlaces;
pub use shape_query::ShapeQuery;
pub use string_set::StringSet;
pub use tuning::{Capo, Instrument, OpenString, Tuning, TuningError};
pub use view::{
    Chain, ChainQuery, Hidden, Overlap, PositionView, SetStep, SetView, TwoAString,
    TwoAStringQuery, View, ViewChoices, ViewContents, ViewPlace,
};
pub use voice_movement::{VoiceMove, VoiceMovement};
