//! Text for the player's clipboard.
//!
//! The escape sequence OSC 52 asks the terminal to copy. It is the one way that also works over a
//! remote connection. A terminal can be set up to refuse, and does not answer.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// A text that is short enough for terminals to copy.
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
    /// The longest text, in bytes. Terminals cut long sequences off, many of them after 100,000
    /// bytes, which are 75,000 bytes of text (from memory).
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
