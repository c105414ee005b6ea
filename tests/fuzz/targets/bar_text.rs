//! Any text is read as bars of chords or refused; what is read prints so that it reads back, and is
//! heard in bounded time.

#![no_main]

use fretloom_theory::{BarText, Meter, OptionalChords};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match BarText::read(text, Meter::COMMON) {
        Ok(read) => {
            let printed = read.to_string();
            let again = BarText::read(&printed, Meter::COMMON).expect("printed bars read back");
            assert_eq!(again, read, "{printed}");
            let chorus = read.unfolded(OptionalChords::Played);
            assert!((1..=10_000).contains(&chorus.heard.len()));
        }
        Err(error) => assert!(error.to_string().contains("expected")),
    }
});
