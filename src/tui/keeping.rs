//! What is kept, as all screens reach it: the list that was read last, and what is to be done with
//! the file.
//!
//! The file is read and written in jobs, one thing after another and each of them once, so that no key
//! waits for a disk or for another program. The list is never changed here: it is what the file held when
//! something was read or done last. What was done stands in a list of deeds, along which one goes back
//! and forward.

mod asked;
mod counter;
mod deed;
mod state;

pub(super) use state::{Keeping, News};
