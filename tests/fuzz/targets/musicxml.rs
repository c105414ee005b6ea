//! Any text is read as MusicXML or refused, whichever part is asked for, unfolded or not.

#![no_main]

use fretloom::score_file::{self, Choice, LONGEST_PART_S, Repeats};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let file = format!("<{}", text.strip_prefix('<').unwrap_or(text));
    for (part, repeats) in [
        (None, Repeats::AsWritten),
        (None, Repeats::Unfolded),
        (Some("2"), Repeats::AsWritten),
        (Some("a"), Repeats::Unfolded),
    ] {
        let choice = Choice { track: None, part: part.map(str::to_owned), repeats };
        match score_file::read(file.as_bytes(), &choice) {
            Ok(score) => {
                let mut before = 0.0;
                for note in score.notes() {
                    let (onset, duration) = (note.time.onset_s(), note.time.duration_s());
                    assert!(onset >= before && duration >= 0.0);
                    assert!(onset + duration <= LONGEST_PART_S);
                    before = onset;
                }
            }
            Err(error) => assert!(error.to_string().contains("expected")),
        }
    }
});
