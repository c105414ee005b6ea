//! Any bytes are read as a MIDI file or refused, whichever track is asked for.

#![no_main]

use fretloom::line_file::{self, Choice, LONGEST_LINE_S};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for track in [None, Some(1), Some(2)] {
        let choice = Choice { track, part: None };
        let file = [b"MThd", bytes.strip_prefix(b"MThd").unwrap_or(bytes)].concat();
        let Ok(line) = line_file::read(&file, &choice) else { continue };
        for written in line.notes() {
            let (onset, duration) = (written.onset_s, written.duration_s);
            assert!(onset >= 0.0 && duration >= 0.0 && onset + duration <= LONGEST_LINE_S);
            assert!(!written.stands.to_string().is_empty());
        }
    }
});
