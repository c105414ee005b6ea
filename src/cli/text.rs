//! Answers as text for people.

mod changes;
mod chords;
mod comping;
mod explain;
mod finger;
mod keepers;
mod line;
mod neck;
mod own_files;
mod pairs;
mod patterns;
mod practice;
mod scales;
mod shapes;
mod sheet;
mod table;
mod tunings;
mod view;

pub(super) use changes::changes;
pub(super) use chords::{chord, chords};
pub(super) use comping::comped_changes;
pub(super) use explain::explain;
pub(super) use finger::finger;
pub(super) use keepers::{keeper_added, keeper_removed, keepers};
pub(super) use line::line;
pub(super) use neck::neck;
pub(super) use own_files::{check, settings};
pub(super) use pairs::{every_pair, one_pair, pairs};
pub(super) use patterns::patterns;
pub(super) use practice::practice;
pub(super) use scales::{scales, triads};
pub(super) use shapes::{CARE, arpeggios, ladder, shapes};
pub(super) use sheet::sheet;
pub(super) use tunings::{compare, tuning_line, tunings};
pub(super) use view::{View, view, view_picture};
