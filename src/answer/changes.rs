//! A chart with its plan: the scale and the pair of every chord, bar by bar.
//!
//! A [`ChangesQuestion`] is a chart and what is wanted of its plans; a [`ChangesAnswer`] is its bars as
//! they are heard, and the plans for them. How charts are read is told by theory and library.

mod answer;
mod bar;
mod chord;
mod hand;
mod held;
mod moment;
mod question;
mod settle;
mod stretch;
mod tune_wishes;
mod wishes;

pub use answer::{ChangesAnswer, ChangesPlan};
pub use bar::{BarChord, ChangesBar, Sounding};
pub use chord::ChangesChord;
pub use hand::{ShapeInHand, VoiceWay, shapes_in_region};
pub use held::HeldHere;
pub use moment::ChartMoment;
pub use question::ChangesQuestion;
pub use tune_wishes::TuneWishes;
pub use wishes::{NeverHere, PlanWishes};

#[cfg(test)]
mod tests;
