//! What the help page says of the explorer beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[
    (
        "The order of pairs",
        &[
            "for a pair: two majors, best a step apart; the chord's triad; all its tones;",
            "3rd and 7th; colour, which is three tensions without a rub; one major",
            "against it: rubs; drops, a note that the symbol names; a diminished triad",
            "pairs that the scale spells in thirds stand first; none is hidden",
        ],
    ),
    (
        "On the neck",
        &[
            "[G] is the first triad of the pair, (A) the second; ═ marks the shape in hand",
            "in a view other places of the pair are dots; ~ beside a mark is a stretch",
            "a letter without a bracket is left out by the pair; what is underlined stays",
            "string 1, nearest the floor, is on top; › and ‹ say that the neck goes on",
            "║ is a capo, ┃ where a string begins",
            "fingers: 1 index to 4 little, 0 open; position: the fret of the first finger",
            "mm: from the lowest fretted fret to the highest",
            "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.",
        ],
    ),
];
