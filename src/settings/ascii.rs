//! When output is plain ASCII.

/// When signs such as ♭ and ♯ are replaced by ASCII, as b and #.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Ascii {
    /// Where the locale is not UTF-8
    #[default]
    Auto,
    /// Wherever
    Always,
    /// Nowhere
    Never,
}
