//! What the help page says of the line screen beside its keys.

/// Headings, each with its lines.
pub(in crate::tui) const NOTES: &[(&str, &[&str])] = &[
    (
        "Patterns",
        &[
            "1 2 3: the triad's notes from the lowest; 4 5 6 an octave up, 0 below",
            "- a rest, _ holds, (13) together, > accents, p the first note again",
            "a, A: a half step below, above what follows; s: the scale note between",
            "groups alternate between the triads; = before a group stays on its one",
            "linked: the next group begins as near as may be",
            "ladder: the next group is played on the next shape of its triad",
            "comes round: a bar begins with the pattern and the same triad again",
        ],
    ),
    (
        "Phrases of their own",
        &[
            "a line is made of phrases; each goes to what it lands on",
            "with the cursor in one of its own, pair, pattern, rhythm, travel, start and",
            "place are those of this phrase alone; elsewhere those of all the others",
            "above the neck stands whose place the keys change: that of a phrase alone,",
            "as the line (after the last view), or the whole line's",
            "an answer has the figures of another phrase, and an end of its own",
            "✓ it lands where it should; ✗ a changed note is another one",
        ],
    ),
    (
        "What is typed",
        &[
            "chords: bars between |, chords share their bar; % as before, N.C. none",
            "aim: 3@5.1 lands on the third of the chord on beat 1 of bar 5",
            "aim: 3@5.1& comes half a beat later; several stand side by side",
            "after an aim: :below :above by a half step, :enclosure, :any, :early, :late",
            "rhythm: 4 a quarter, 8 an eighth, 4. dotted, 8~2 tied, -8 a rest",
        ],
    ),
    (
        "On the neck and in the tab",
        &[
            "numbers on the neck: the notes of the bar in their order; 1,5: twice",
            "[ ] are notes of the first triad, ( ) of the second, the others are free",
            "dots: where the rest of the line lies; ═ marks the note at the cursor",
            "a change of a note stays at its moment when the phrase is made anew",
        ],
    ),
];
