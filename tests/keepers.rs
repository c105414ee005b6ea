//! Keepers on the disk: nothing is lost, whatever comes between.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "keepers/files.rs"]
mod files;
#[path = "keepers/folder.rs"]
mod folder;
#[path = "keepers/made_up.rs"]
mod made_up;
#[path = "keepers/operations.rs"]
mod operations;
#[path = "keepers/round_trip.rs"]
mod round_trip;
