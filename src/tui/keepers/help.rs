//! What the help page says of the keepers screen beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[
    (
        "In the list",
        &[
            "tempo: where it begins, or the fastest at which it was got",
            "last: the day on which it was practised; due: when it comes again",
            "what another fretloom or the shell keeps meanwhile is there with the next key",
        ],
    ),
    (
        "By ear",
        &[
            "a bar of the chord's drone, each triad broken upwards, then both struck one after the other",
            "what sounds is the pair that was kept, or another one of the same chord, in a key that was got",
            "a question that is missed comes again after two others, three times at most",
            "what was named comes back after gaps that grow, on days of its own; what was not, tomorrow",
        ],
    ),
];
