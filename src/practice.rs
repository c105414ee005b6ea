//! What is to be practised today, how fast, and when again: plain functions over days.
//!
//! Nothing here asks the clock, writes, or sounds. A day is a day of the calendar where the player is, so
//! neither a journey nor a night of summer time loses one. What is practised is a [`Unit`](crate::store::Unit) of a keeper:
//! in one key, on one string set, perhaps under a limit.
//!
//! The rules are few. A unit that was got comes back after a gap of days, which doubles each time; one that
//! was not comes back tomorrow, and its gap begins anew ([`Spacing`]). A tempo rises after some good tries in a
//! row and falls back after one that was not ([`TempoLadder`]). The list of a day ends ([`Today`]).
//!
//! What is practised is also listened to: the questions of a day ([`Listening`]) come back by the same rule
//! on days of their own, and one that is missed comes again in the same walk through them ([`EarRound`]).

mod chance;
mod day;
mod ear_round;
mod ladder;
mod listening;
mod rules;
mod spacing;
mod today;
mod units;

pub use chance::Chance;
pub use day::day_at;
pub use ear_round::EarRound;
pub use ladder::{LadderRules, TempoLadder};
pub use listening::{Asking, Listening};
pub use rules::PracticeRules;
pub use spacing::Spacing;
pub use today::{Today, Turn, Why};
pub use units::units;
