//! Numbers written with hyphens between them: string sets and fret ranges.

/// The parts of `4-3-2`, each with the character it begins at, counted from 1. Spaces around a
/// part belong to nobody.
pub(crate) fn hyphenated(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut next = 1;
    text.split('-').map(move |part| {
        let blanks = part.chars().take_while(|c| c.is_whitespace()).count();
        let at = next + blanks;
        next += part.chars().count() + 1;
        (at, part.trim())
    })
}

/// The number written at character `at`; else the character that is at fault.
pub(crate) fn number((at, part): (usize, &str)) -> Result<u8, usize> {
    if let Some(before) = part.chars().position(|c| !c.is_ascii_digit()) {
        return Err(at + before);
    }
    part.parse().map_err(|_| at)
}
