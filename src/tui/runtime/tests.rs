//! The loop with a small app, on a terminal without a device.

mod jobs;
mod playing;
mod small;
