//! Any text is read as a chord symbol or refused; what is read prints so that it reads back.

#![no_main]

use fretloom_theory::ReadChord;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match text.parse::<ReadChord>() {
        Ok(read) => {
            let printed = read.chord.to_string();
            let again: ReadChord = printed.parse().expect("a printed chord reads back");
            assert_eq!(again.chord, read.chord, "{printed}");
        }
        Err(error) => assert!(error.to_string().contains("expected")),
    }
});
