//! Where sound leaves on this system: one function that plays, and one that looks how it would.

#[cfg(any(target_os = "macos", target_os = "windows"))]
pub(super) use super::device::{look, play};
#[cfg(all(unix, not(target_os = "macos")))]
pub(super) use super::served::{look, play};
