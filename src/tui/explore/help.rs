//! What the help page says of the explorer beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[
    (
        "The order of pairs",
        &[
            "for a pair: two majors, best a step apart; the chord's own triad;",
            "all its tones; 3rd and 7th; colour: three tensions without a rub; one major",
            "against it: a rub; a chord tone that it lacks; a diminished triad",
            "pairs that the scale spells in thirds stand first; none is hidden",
        ],
    ),
    (
        "Words of the screen",
        &[
            "pair: two triads that share no note, out of the scale of the moment",
            "says: what its six notes are over the chord; ! marks a note that rubs",
            "rub: a half step above a chord tone, and no accepted tension there",
            "leaves out: the notes of the scale that are in neither triad",
            "why: what counts for the pair and against it, the weightiest first",
            "all its tones: every note that the symbol names is in the pair",
            "3rd and 7th: the pair says major or minor and the seventh by itself",
            "colour: three tensions or more (9 11 13), none of which rubs",
            "by sound only: the scale spells one of the two in other letters",
            "alike: in a scale that repeats, the same pair some frets up",
            "also serves: other chords over which the same six notes are at home",
            "take turns: going up, a note of one triad and one of the other alternate",
            "ladder: the shapes of both triads on three strings, by height",
            "inversion: the lowest note; root position, 1st the third, 2nd the fifth",
            "any root: an augmented triad sounds alike from each of its three notes",
            "position: the fret of the first finger; V is the fifth",
            "view: the whole neck, a position, some strings, a chain across, two a string",
            "chain: shapes of the two in turn, climbing from strings to strings",
            "lock: the hand stays on three strings, the others are quiet",
            "flat finger, barre: one finger lies over several strings",
            "set class, interval vector: names of the six notes among music theorists",
        ],
    ),
    (
        "On the neck",
        &[
            "[G] is the first triad of the pair, (A) the second; ═ marks the shape in hand",
            "in a view dots are the pair's notes elsewhere; ~ beside a mark is a stretch",
            "a letter without a bracket is left out by the pair; what is underlined stays",
            "string 1, nearest the floor, is on top; › and ‹ say that the neck goes on",
            "║ is a capo, ┃ where a string begins",
            "fingers: 1 index to 4 little, 0 open; position: the fret of the first finger",
            "mm: from the lowest fretted fret to the highest",
            "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.",
        ],
    ),
];
