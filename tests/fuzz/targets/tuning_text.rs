//! Any text is read as a tuning or refused; what is read prints so that it reads back.

#![no_main]

use fretloom_fretboard::Tuning;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match Tuning::read(text) {
        Ok(tuning) => {
            let printed = tuning.to_string();
            let again = Tuning::read(&printed).expect("a printed tuning reads back");
            assert_eq!(again.to_string(), printed);
        }
        Err(error) => assert!(error.to_string().contains("expected")),
    }
});
