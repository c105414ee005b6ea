//! Text for the player's clipboard.
//!
//! The terminal is asked to copy by OSC 52, the one way that reaches the player's own machine over
//! any link. Whether it does is its owner's decision, and it gives no answer.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// A text that a terminal takes.
///
/// # Example
///
/// ```
/// use fretloom::tui::clipboard::Clip;
///
/// let clip = Clip::new("Dm7".to_owned()).unwrap();
/// assert_eq!(clip.sequence(), "\x1b]52;c;RG03\x07");
/// assert_eq!(Clip::new("-".repeat(100_000)), None);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Clip(String);

impl Clip {
    /// In bytes. Terminals cut longer sequences off, many from 100,000 bytes on, which are 75,000
    /// of text (from memory).
    pub const LONGEST: usize = 64 * 1024;

    /// A text to copy; none if it is longer than [`LONGEST`](Self::LONGEST).
    #[must_use]
    pub fn new(text: String) -> Option<Clip> {
        (text.len() <= Clip::LONGEST).then_some(Clip(text))
    }

    /// The text itself.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0
    }

    /// The bytes that ask a terminal to copy it.
    #[must_use]
    pub fn sequence(&self) -> String {
        format!("\x1b]52;c;{}\x07", STANDARD.encode(&self.0))
    }
}
