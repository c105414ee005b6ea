//! Any text is a tuning file that is read, or whose problem is told.

#![no_main]

use fretloom::library::LoadedTunings;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let loaded = LoadedTunings::of_text("typed", text);
    assert!(loaded.iter().count() == 1 || !loaded.problems().is_empty());
    for problem in loaded.problems() {
        assert!(problem.to_string().contains("expected"));
    }
});
