//! What is wrong, on standard error.

use std::fmt::Display;
use std::io::{self, Write};

/// Says in one line what was wrong. With standard error gone too, the status is all that is left.
pub(super) fn complain(message: &impl Display) {
    let message = crate::glyphs::printable(&message.to_string()).replace('\n', "\\n");
    let _ = writeln!(io::stderr(), "fretloom: {message}");
}
