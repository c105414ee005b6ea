//! What the program says on standard output, and of wrong usage on standard error. Nothing that is
//! harmful leaves from here.

use std::io::{self, Write};
use std::process::ExitCode;

use super::complain::complain;
use crate::glyphs::printable;
use crate::words::in_plain_words;

/// Prints everything at once; a reader that has gone away is no error.
pub(super) fn print(text: &str) -> ExitCode {
    let mut out = io::stdout().lock();
    let written = out.write_all(printable(text).as_bytes()).and_then(|()| out.flush());
    status_of(written, ExitCode::SUCCESS)
}

/// Prints what clap says, which may be the help that was asked for.
pub(super) fn print_usage(error: &clap::Error) -> ExitCode {
    let status = ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2));
    let text = error.render().to_string();
    let harmless = printable(&text);
    let printed = if harmless == text {
        // With its styles, where the terminal shows any.
        error.print().and_then(|()| io::stdout().flush())
    } else {
        io::stderr().write_all(harmless.as_bytes())
    };
    status_of(printed, status)
}

/// The status where everything was written; a failure that is told where it was not.
fn status_of(written: io::Result<()>, status: ExitCode) -> ExitCode {
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            let why = in_plain_words(&error);
            complain(&format!("the answer cannot be written: {why}; expected room for it"));
            ExitCode::FAILURE
        }
        _ => status,
    }
}
