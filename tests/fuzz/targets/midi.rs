//! Any bytes are read as a MIDI file or refused, whichever track is asked for.

#![no_main]

use fretloom::score_file::{self, Choice, LONGEST_PART_S};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for track in [None, Some("1"), Some("2"), Some("a")] {
        let choice = Choice { track: track.map(str::to_owned), ..Choice::default() };
        let file = [b"MThd", bytes.strip_prefix(b"MThd").unwrap_or(bytes)].concat();
        let Ok(score) = score_file::read(&file, &choice) else { continue };
        for note in score.notes() {
            let (onset, duration) = (note.time.onset_s(), note.time.duration_s());
            assert!(onset >= 0.0 && duration >= 0.0 && onset + duration <= LONGEST_PART_S);
            assert!(!note.source.origin.to_string().is_empty());
        }
    }
});
