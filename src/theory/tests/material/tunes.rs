//! Tunes that are made up for tests, with what each chord does in them, and progressions.

#![allow(dead_code, reason = "each test program uses its own part of this")]

/// Bars, each chord with its function after a colon. The last bar goes back to the first.
pub(crate) const TUNES: &[&str] = &[
    // 32 bars, AABA, with a bridge that goes to IV and comes home by the back door.
    "Cmaj7:T | A7:V- | Dm7:ii | G7:V | Em7:iii A7:V- | Dm7:ii G7:V | Cmaj7:T Am7:vi | Dm7:ii G7:V |
     Cmaj7:T | A7:V- | Dm7:ii | G7:V | Em7:iii A7:V- | Dm7:ii G7:V | Cmaj7:T | % |
     Gm7:ii | C7:V | Fmaj7:TS | % | Fm7:iv | Bb7:bd | Cmaj7:T D7:II7 | Dm7:ii G7:V |
     Cmaj7:T | A7:V- | Dm7:ii | G7:V | Em7:iii A7:V- | Dm7:ii G7:V | Cmaj7:T | Dm7:ii G7:V",
    // The same roots again and again, with a cycle of dominants for a bridge.
    "Bb6:T G7:V- | Cm7:ii F7:V | Dm7:iii G7:V- | Cm7:ii F7:V | Bb7:V | Ebmaj7:TS Edim7:o | Bb6:T G7:V- | Cm7:ii F7:V |
     Bb6:T G7:V- | Cm7:ii F7:V | Dm7:iii G7:V- | Cm7:ii F7:V | Fm7:ii Bb7:V | Eb6:TS Ebm6:iv | Bb6:T F7:V | Bb6:T |
     D7:V | % | G7:V | % | C7:V | % | F7:V | % |
     Bb6:T G7:V- | Cm7:ii F7:V | Dm7:iii G7:V- | Cm7:ii F7:V | Bb7:V | Eb6:TS Ab7:bd | Bb6:T F7:V | Bb6:T",
    // A blues, plain.
    "F7:T | Bb7:IV7 | F7:T | % | Bb7:IV7 | % | F7:T | % | C7:V | Bb7:IV7 | F7:T | C7:V",
    // A blues with its ii–Vs.
    "Bb7:T | Eb7:IV7 | Bb7:T | Fm7:ii Bb7 | Eb7:IV7 | Edim7:o | Bb7:T | Dm7b5:ii- G7:V- | Cm7:ii | F7:V | Bb7:T G7:V- | Cm7:ii F7:V",
    "G7:T | C7:IV7 C#dim7:o | G7:T | Dm7:ii G7 | C7:IV7 | C#dim7:o | G7:T | Bm7:iii E7:V- | Am7:ii | D7:V | G7:T E7:V- | Am7:ii D7:V",
    "C7:T | % | % | % | F7:IV7 | % | C7:T | A7:V | D7:V | G7:V | C7:T A7:V | D7:V G7:V",
    // A blues that begins on a major seventh.
    "Fmaj7:T | Em7b5:ii- A7:V- | Dm7 G7 | Cm7:ii F7:V | Bb7:IV7 | Bbm7:iv Eb7:bd | Am7:iii D7 | Abm7 Db7:ts | Gm7:ii | C7:V | Fmaj7:T D7:V- | Gm7:ii C7:V",
    // Minor blues.
    "Cm7:T | % | % | % | Fm7:S | % | Cm7:T | % | Ab7:ts | G7:V- | Cm7:T | Dm7b5:ii- G7:V-",
    "Am6:T | Dm7:S | Am6:T | Em7b5:ii- A7:V- | Dm7:S | % | Am6:T | % | Bm7b5:ii- | E7alt:V- | Am6:T F7:ts | Bm7b5:ii- E7:V-",
    // Minor and its relative major, by fifths.
    "Am7:ii | D7:V | Gmaj7:T | Cmaj7:S | F#m7b5:ii- | B7:V- | Em6:T | % |
     Am7:ii | D7:V | Gmaj7:T | Cmaj7:S | F#m7b5:ii- | B7:V- | Em6:T | % |
     F#m7b5:ii- | B7b9:V- | Em6:T | % | Am7:ii | D7:V | Gmaj7:T | % |
     F#m7b5:ii- | B7alt:V- | Em7:- A7 | Dm7 G7 | Cmaj7:- | F#m7b5:ii- B7:V- | Em6:T | %",
    // Minor, AABA, with a bridge in major.
    "Cm6:T | Am7b5 | Dm7b5:ii- | G7b9:V- | Cm6:T | Am7b5 | Dm7b5:ii- G7b9:V- | Cm6:T |
     Fm7:ii | Bb7:V | Ebmaj7:T | Abmaj7:- | Fm7:ii | Bb7:V | Ebmaj7:T | Dm7b5:ii- G7:V- |
     Cm6:T | Am7b5 | Dm7b5:ii- | G7b9:V- | Cm6:T | Ab7:ts G7:V- | Cm6:T | Dm7b5:ii- G7:V-",
    "Dm6:T | Em7b5:ii- A7:V- | Dm6:T | % | Gm7:S | % | Dm6:T | Em7b5:ii- A7b9:V- |
     Dm7 | Bb7:ts | A7:V- | Dm6:T | Gm6:S | A7:V- | Dm6:T Bb7:ts | Em7b5:ii- A7:V-",
    // Tonics a whole step apart, going down; turning back by half steps.
    "Gmaj7:T | % | Gm7:ii | C7:V | Fmaj7:T | % | Fm7:ii | Bb7:V | Ebmaj7:T | Am7b5:ii- D7:V- | Gm6:T | Am7b5:ii- D7:V- | Gmaj7 | Bb7 | Ebmaj7:b | Ab7:ts",
    // Half steps above, all the way home.
    "Cmaj7:T | Eb7:ts | Dm7:ii | Db7:ts | Cmaj7:T | F#m7b5:ii- F7:ts | Em7:iii Eb7:ts | Dm7:ii Db7:ts",
    "Fmaj7:T | Am7:iii Ab7:ts | Gm7:ii Gb7:ts | Fmaj7:T | Cm7:ii B7:ts | Bbmaj7:TS Eb7:bd | Am7:iii Ab7:ts | Gm7:ii Gb7:ts",
    // The back door, several times.
    "Ebmaj7:T | Abm7:iv Db7:bd | Ebmaj7:T | Bbm7:ii Eb7:V | Abmaj7:TS | Abm7:iv Db7:bd | Gm7:iii C7:V- | Fm7:ii Bb7:V |
     Ebmaj7:T | Abm7:iv Db7:bd | Ebmaj7:T | Am7b5:ii- D7:V- | Gm7:- C7:V- | Fm7:ii | Bb7:V | Ebmaj7:T",
    // ABAC in the manner of a ballad.
    "Fmaj7:T | Fm7:ii Bb7:V | Ebmaj7:T | Ebm7:ii Ab7:V | Dbmaj7:T | Gm7b5:ii- C7:V- | Fmaj7:T | Gm7:ii C7:V |
     Fmaj7:T | Am7b5:ii- D7:V- | Gm7:ii | Bbm7:iv Eb7:bd | Fmaj7:T D7:V | G7:II7 | Gm7:ii | C7:V |
     Fmaj7:T | Fm7:ii Bb7:V | Ebmaj7:T | Ebm7:ii Ab7:V | Dbmaj7:T | Gm7b5:ii- C7:V- | Fmaj7:T | Cm7:ii F7:V |
     Bbmaj7:TS | Bbm7:iv Eb7:bd | Am7:iii | D7:V- | Gm7:ii | C7:V | Fmaj7:T | Gm7:ii C7:V",
    // The bridge goes up by thirds.
    "Abmaj7:T | Fm7:vi | Bbm7:ii | Eb7:V | Abmaj7:T | Dbmaj7:S | Dm7:ii G7:V | Cmaj7:T |
     Am7:ii | D7:V | Gmaj7:T | % | F#m7b5:ii- | B7:V- | Emaj7:T | C7:- |
     Fm7:vi | Bbm7:ii | Eb7:V | Abmaj7:T | Dbmaj7:S | Dbm7:iv Gb7:bd | Cm7:iii Bdim7:o | Bbm7:ii Eb7:V",
    // Passing diminished chords.
    "C6:T C#dim7:o | Dm7:ii D#dim7:o | C6:T | A7:V- | Dm7:ii | Fm6:iv | C6:T Ebdim7:o | Dm7:ii G7:V |
     C7:V | F6:TS | F#dim7:o | C6:T A7:V | D7:V | % | G7:V | Dm7:ii G7:V",
    // Modal.
    "Dm7:st | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % |
     Ebm7:st | % | % | % | % | % | % | % | Dm7:st | % | % | % | % | % | % | %",
    "Dm7:st | % | % | % | Fm7:st | % | % | % | Am7:st | % | % | % | Ebmaj7:st | % | % | %",
    "Gmaj7:st | % | % | % | % | % | % | % | Ebmaj7:st | % | % | % | % | % | % | %",
    // Sus and plain, and altered tonics.
    "Dm9:ii | G9sus4:V G13:V | Cmaj9:T | % | Fm9:iv | Bb13:bd | Cmaj9:T | A7alt:V- |
     Dm9:ii | G7sus4:V G7b9:V | Em7:iii | A7b9:V- | Dm7:ii | G13:V | C6/9:T | %",
    // ii–Vs a half step apart.
    "Ebmaj7:T | E7:ts | Ebmaj7:T | Bm7 E7:ts | Ebmaj7:T | Bbm7:ii Eb7:V | Abmaj7:TS | Abm7:iv Db7:bd |
     Gm7:iii C7:V- | Fm7:ii Bb7:V | Ebmaj7:T Gb7 | Bmaj7 E7:ts",
    // Minor with a moving voice.
    "Cm:T | Cm(maj7):T | Cm7:T | Cm6:T | Fm7:S | Dm7b5:ii- G7:V- | Cm6:T | Dm7b5:ii- G7:V- |
     Abmaj7:b | Dm7b5:ii- G7b9:V- | Cm6:T | C7:V- | Fm7 | Bb7:V | Ebmaj7:T | Dm7b5:ii- G7:V-",
    "Cmaj7:T | E7:V- | Am7:vi | Am7 | Dm:ii Dm(maj7):ii | Dm7:ii G7:V | Em7:iii A7:V- | Dm7:ii G7:V |
     Cmaj7:T | E7b9:V- | Am7:vi | D7:II7 | Dm7:ii | G7:V | Fm6:iv C6:T | Dm7:ii Db7:ts",
    // Triads, as songs have them.
    "C:T | Am:vi | Dm:ii | G7:V | C:T | F:S | C:T G7:V | C:T | F:S | Fm:iv | C:T | A7:V- | Dm:ii | G7:V | C:T | G7:V",
    "Am:T | E7:V- | Am:T | Dm:S | Am:T | Bm7b5:ii- E7:V- | Am:T | E7:V- | Am:T | Dm6:S | Am:T | F7:ts | E7:V- | % | Am:T | E7:V-",
    // Lowered degrees at the end.
    "Cmaj7:T | Dm7:ii G7:V | Cmaj7:T | Fmaj7:S Bb7:bd | Cmaj7:T A7:V- | Dm7:ii G7:V | Cmaj7:T Ebmaj7:b | Abmaj7:b Dbmaj7:b",
    // In a 16-bar form, the V of V held back by its ii.
    "Dbmaj7:T | % | Eb7:II7 | % | Ebm7:ii | Ab7:V | Dbmaj7:T | Ebm7:ii Ab7:V | Dbmaj7:T | Db7:V | Gbmaj7:S | Gbm7:iv B7:bd | Dbmaj7:T Bb7:V- | Ebm7:ii Ab7:V | Db6:T | Ebm7:ii Ab7:V",
    // Eb7 in place of A7 with its ii, and a ii–V of the iii.
    "Cmaj7:T | F#m7b5:ii- B7b9:V- | Em7:iii | Bbm7 Eb7:ts | Dm7:ii | Fm7:iv Bb7:bd | Em7:iii A7:V- | Dm7:ii G7:V",
];

/// Common practice, no source.
pub(crate) const PROGRESSIONS: [&str; 4] = [
    "| Dm7 | G7 | Cmaj7 | % | Cm7 | F7 | Bbmaj7 | % | Bbm7 | Eb7 | Abmaj7 | % | Dm7b5 | G7 | Cm6 | % |",
    "| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7 | Gm7 | C7 | F7 D7 | Gm7 C7 |",
    "| Bbmaj7 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Fm7 Bb7 | Ebmaj7 Ab7 | Dm7 G7 | Cm7 F7 | D7 | % | G7 | % | C7 | % | F7 | % |",
    "| Em7 Eb7 | Dm7 Db7 | Cmaj7 | Fm7 Bb7 | Cmaj7 A7 | Abmaj7 G7sus4 | Em7b5 A7b9 | Dm7 G7b9 |",
];

/// The bars of a tune without what its chords do.
pub(crate) fn without_functions(tune: &str) -> String {
    let bare = |word: &str| word.split(':').next().unwrap_or(word).to_owned();
    let words: Vec<String> = tune.split_whitespace().map(bare).collect();
    format!("| {} |", words.join(" "))
}
