//! Practising what is kept, in place: turn by turn, try by try.
//!
//! A try is heard, answered and judged, as a [`Drill`](crate::answer::Drill) lays it out in musical time.
//! One key says that it was got and goes on; where it is not pressed before the try ends, it is tried again, slower. Every
//! verdict is recorded at once. Nothing ticks here but what sounds: without sound the keys alone lead on.

mod stage;
mod state;
mod turn;
mod update;

pub(super) use stage::Stage;
pub(super) use state::Practice;
pub(super) use turn::InTurn;
