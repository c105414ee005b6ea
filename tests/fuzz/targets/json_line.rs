//! Any text is read as a line in JSON or refused.

#![no_main]

use fretloom::score_file::{self, Choice, LONGEST_PART_S};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let file = format!("{{{}", text.strip_prefix('{').unwrap_or(text));
    match score_file::read(file.as_bytes(), &Choice::default()) {
        Ok(score) => {
            for note in score.notes() {
                let (onset, duration) = (note.time.onset_s(), note.time.duration_s());
                assert!(onset >= 0.0 && duration >= 0.0 && onset + duration <= LONGEST_PART_S);
            }
        }
        Err(error) => assert!(error.to_string().contains("expected")),
    }
});
