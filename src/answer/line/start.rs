//! Where a line begins, as it is typed.

use fretloom_theory::{Inversion, NamedPitch, ReadError, Start};

/// `root`, `first` or `second` for the lowest shape of that inversion; or its lowest note, as in F3.
///
/// # Errors
///
/// Where the text is none of these.
pub fn line_start(text: &str) -> Result<Start, ReadError> {
    let inversion = Inversion::ALL.into_iter().find(|inversion| inversion.word() == text.trim());
    if let Some(inversion) = inversion {
        return Ok(Start::Lowest(inversion));
    }
    let note = text.trim().parse::<NamedPitch>().map(|note| Start::Bass(note.pitch()));
    let expected = "root, first, second, or a note with its octave, as in F3";
    note.map_err(|_| ReadError::whole("start", text, expected))
}
