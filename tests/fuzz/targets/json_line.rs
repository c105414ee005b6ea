//! Any text is read as a line in JSON or refused.

#![no_main]

use fretloom::line_file::{self, Choice, LONGEST_LINE_S};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let file = format!("{{{}", text.strip_prefix('{').unwrap_or(text));
    match line_file::read(file.as_bytes(), &Choice::default()) {
        Ok(line) => {
            for written in line.notes() {
                let (onset, duration) = (written.onset_s, written.duration_s);
                assert!(onset >= 0.0 && duration >= 0.0 && onset + duration <= LONGEST_LINE_S);
            }
        }
        Err(error) => assert!(error.to_string().contains("expected")),
    }
});
