//! What is wrong, on standard error.

use std::fmt::Display;
use std::io::{self, Write};

use crate::glyphs::printable_line;

/// Says in one line what was wrong. With standard error gone too, the status is all that is left.
pub(super) fn complain(message: &impl Display) {
    let message = printable_line(&message.to_string());
    let _ = writeln!(io::stderr(), "fretloom: {message}");
}
