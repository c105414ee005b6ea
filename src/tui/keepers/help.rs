//! What the help page says of the keepers screen beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[(
    "In the list",
    &[
        "tempo: where it begins, or the fastest at which it was got",
        "last: the day on which it was practised; due: when it comes again",
        "what another fretloom or the shell keeps meanwhile is there with the next key",
    ],
)];
