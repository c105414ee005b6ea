//! How much is measured: all of it, or once, to see that every benchmark still runs.

/// What a run is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Effort {
    /// `cargo bench`: figures to be read.
    Measured,
    /// `cargo test --benches`: everything runs once, and no figure means anything.
    Once,
}

impl Effort {
    /// As divan decides it too: `cargo bench` passes `--bench`, and nothing else does.
    pub(crate) fn of_this_run() -> Effort {
        if std::env::args().any(|argument| argument == "--bench") {
            Effort::Measured
        } else {
            Effort::Once
        }
    }

    /// What a measurement needs, or the least that still runs.
    pub(crate) fn choose<T>(self, measured: T, once: T) -> T {
        match self {
            Effort::Measured => measured,
            Effort::Once => once,
        }
    }
}
