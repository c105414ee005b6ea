//! Runs a command; an error becomes words and an exit status.

use std::process::ExitCode;

fn main() -> ExitCode {
    fretloom::cli::main()
}
