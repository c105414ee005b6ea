//! Which files of a line are asked for.

use std::path::{Path, PathBuf};

use crate::tui::found::Found;
use crate::tui::runtime::Job;

/// What a file holds; its name says so.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum LineFileKind {
    /// A Standard MIDI File.
    Midi,
    MusicXml,
    /// Tablature as text.
    Tab,
}

/// The files that were asked for.
#[derive(Default)]
pub(super) struct Writing {
    /// How often one was.
    pub(super) count: u64,
    pub(super) job: Option<Job<Found>>,
    /// The file of that name that is there, and was told of.
    pub(super) there: Option<PathBuf>,
}

impl LineFileKind {
    /// What a name means by its end.
    pub(super) fn of(name: &str) -> Option<LineFileKind> {
        let ending = Path::new(name.trim()).extension()?.to_str()?.to_lowercase();
        match ending.as_str() {
            "mid" | "midi" => Some(LineFileKind::Midi),
            "musicxml" | "xml" => Some(LineFileKind::MusicXml),
            "txt" | "tab" => Some(LineFileKind::Tab),
            _ => None,
        }
    }

    /// What is said of a name that means none of them.
    pub(super) const EXPECTED: &str =
        "expected a name that ends in .mid, .musicxml, or .txt for tablature";
}

impl Writing {
    /// What is being written is no longer asked about.
    pub(super) fn forget(&mut self) {
        self.count += 1;
        self.there = None;
    }
}
