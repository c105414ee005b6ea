//! Any bytes are read as an archive with a score in it, or refused; packed so that the score is
//! reached too, whatever its encoding.

#![no_main]

use fretloom::score_file::{self, Choice, LONGEST_PART_S};
use libfuzzer_sys::fuzz_target;

#[path = "../../support/archive.rs"]
mod zip;

fuzz_target!(|bytes: &[u8]| {
    let archive = [b"PK\x03\x04", bytes.strip_prefix(b"PK\x03\x04").unwrap_or(bytes)].concat();
    for file in [archive, zip::compressed(bytes)] {
        match score_file::read(&file, &Choice::default()) {
            Ok(score) => {
                for note in score.notes() {
                    assert!(note.time.onset_s() + note.time.duration_s() <= LONGEST_PART_S);
                }
            }
            Err(error) => assert!(error.to_string().contains("expected")),
        }
    }
});
