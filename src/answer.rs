//! Questions with their whole answer: what commands print and screens draw.
//!
//! A command and a screen that show the same facts ask the same question here. Each answer is a
//! plain value that serialises to the JSON of the command of its name (ASCII, strings from 1), so
//! the shapes of that JSON live here and nowhere else.

mod arpeggios;
mod ascii;
mod check;
mod chord;
mod compare;
mod finger;
mod neck;
mod pairs;
mod refusal;
mod request;
mod scales;
mod settings;
mod shapes;
mod tunings;
mod views;

pub use arpeggios::{ArpeggioAnswer, ArpeggiosAnswer};
pub use check::CheckAnswer;
pub use chord::{ChordAnswer, ChordLine, ChordListAnswer, OneChordAnswer, chord, chord_list};
pub use compare::{AloneAnswer, CompareAnswer, SetAnswer};
pub use finger::{FingerAnswer, FingerQuestion, FingeredAnswer, WayAnswer};
pub use neck::{LeftOutPlace, NeckAnswer, PlaceAnswer, places_left_out, places_of_pair};
pub use pairs::{
    LeftOut, PairAnswer, PairList, PairsAnswer, TriadAnswer, every_pair, one_pair, pair_over,
    pairs_over,
};
pub use refusal::Refusal;
pub use request::{Families, Moment, Wishes};
pub use scales::{
    Neighbours, ScaleAnswer, ScaleTriad, ScalesAnswer, TriadsAnswer, scales_among, scales_of,
    triads_of,
};
pub use settings::{SettingAnswer, SettingsAnswer};
pub use shapes::{BarreAnswer, LadderAnswer, ListedShape, ShapeAnswer, ShapesAnswer};
pub use tunings::{TuningAnswer, TuningsAnswer, behind_capo, find_tuning, put_capo};
pub use views::{AskedView, HiddenAnswer, SeenAnswer, ViewAnswer, ViewWish};

/// The number that stands first in every JSON answer; it grows when a field changes its meaning.
pub const FORMAT: u32 = 1;
