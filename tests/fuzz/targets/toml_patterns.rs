//! Any text is a file of patterns that are read, or whose problems are told.

#![no_main]

use fretloom::library::LoadedPatterns;
use fretloom_theory::Pattern;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let loaded = LoadedPatterns::of_text("typed", text);
    for pattern in loaded.patterns() {
        let printed = pattern.figures.to_string();
        assert_eq!(printed.parse::<Pattern>().as_ref(), Ok(&pattern.figures), "{printed}");
    }
    for problem in loaded.problems() {
        assert!(problem.to_string().contains("expected"));
    }
});
