//! When signs are replaced.

/// When b and # stand in the place of signs.
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
