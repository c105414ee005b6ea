//! What the help page says of the changes screen beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[
    (
        "Bars and pairs",
        &[
            "under each chord stands its pair; = the pair of the chord before goes on",
            "where there is little room for it, as F°&E♭: ° is a diminished triad",
            "% the chord goes on; * scale or pair are settled, and the plan keeps them",
            "a plan weighs what each pair says over its chord, how many pairs there are,",
            "and, where the hand stays on strings or at frets, how far the fingers go",
            "the last chord leads to the first: the tune goes round and round",
            "a large window lists scales, pairs and plans, each behind its key",
        ],
    ),
    (
        "What is typed",
        &[
            "bars between |, chords share their bar evenly; G7 / / C7: one sign a beat",
            "% the bar before, %% the two before, N.C. no chord, (A7) may be left out",
            "before the chords: [A] a section, 3/4 a meter, 1. an ending, Segno, Coda",
            "|: and :| repeats, :|3 three times",
            "after the chords: ToCoda, Fine, D.C., D.S., D.S.alCoda and the like",
        ],
    ),
    (
        "What is wished",
        &[
            "major & minor, or major alone: every pair is of these triads",
            "thirds: each pair has the third; guide tones: third and seventh",
            "6 pairs: so many different pairs in the whole tune at most",
            "contrast: each section begins with another pair",
            "never B@5: no B over the chord of bar 5; never 11: no 11 over this chord",
            "brackets: chords in brackets are played; once: the end leads nowhere",
        ],
    ),
    (
        "On the neck",
        &[
            "═ beside a note: the shape in hand; underlined, it stays for the next chord",
            "→ and ←: where a finger goes next, by a half step; » and « farther",
            "* beside the shape: you hold it, and the plan goes round it",
            "while the tune is heard ═ is where its stabs lie",
            "[ ] notes of the first triad, ( ) of the second, quiet ones of the next pair",
        ],
    ),
];
