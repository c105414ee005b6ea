//! Flats and sharps: how they are read and written.

use std::fmt;

/// One accidental sign at the beginning of `text`, in semitones, with what follows.
pub(crate) fn read_accidental(text: &str) -> Option<(i8, &str)> {
    let sign = text.chars().next()?;
    let step = match sign {
        'b' | '♭' => -1,
        '#' | '♯' => 1,
        '𝄫' => -2,
        '𝄪' => 2,
        _ => return None,
    };
    Some((step, &text[sign.len_utf8()..]))
}

/// The signs for `semitones` of alteration: flats or sharps, or b and # in ASCII.
pub(crate) fn write_accidental(f: &mut fmt::Formatter<'_>, semitones: i8) -> fmt::Result {
    let sign = match (semitones < 0, f.alternate()) {
        (true, false) => '♭',
        (true, true) => 'b',
        (false, false) => '♯',
        (false, true) => '#',
    };
    (0..semitones.abs()).try_for_each(|_| write!(f, "{sign}"))
}
