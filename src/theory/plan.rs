//! Plans: the scale and the pair for every chord of a form.
//!
//! What may be played over a chord is listed first (`choices.rs`), with what each choice costs there
//! (`weights.rs`). What it costs to go from one pair to the next is a [`PairStep`]. The search
//! (`form.rs`) then finds the cheapest way round the form, exactly, and others that really differ.

mod choices;
mod chord;
mod chorus;
mod error;
mod form;
mod made;
mod places;
mod query;
mod step;
mod ways;
mod weights;
mod why;
mod wishes;

pub use chord::{PlanChord, StretchBegins};
pub use error::PlanError;
pub use made::{Plan, PlannedChord};
pub use places::PairPlaces;
pub use query::PlanQuery;
pub use step::PairStep;
pub use weights::PlanCost;
pub use why::PlanReason;
pub use wishes::{GuideTones, PairKinds};
