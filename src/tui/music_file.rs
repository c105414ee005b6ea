//! Music as a file for other programs, under a name that is typed.

use std::path::{Path, PathBuf};

use super::found::{Found, MusicNotWritten, WrittenMusic};
use super::runtime::{Job, Subject};
use super::shared::Shared;
use crate::library::{FileNotWritten, FileThere, write_file};

/// What a file of music holds; its name says so.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum MusicFileKind {
    /// A Standard MIDI File.
    Midi,
    MusicXml,
    /// Tablature as text.
    Tab,
}

impl MusicFileKind {
    /// What a name means by its end.
    pub(super) fn of(name: &str) -> Option<MusicFileKind> {
        let ending = Path::new(name.trim()).extension()?.to_str()?.to_lowercase();
        match ending.as_str() {
            "mid" | "midi" => Some(MusicFileKind::Midi),
            "musicxml" | "xml" => Some(MusicFileKind::MusicXml),
            "txt" | "tab" => Some(MusicFileKind::Tab),
            _ => None,
        }
    }

    /// Why a name cannot be that of a file of music, if it cannot.
    pub(super) fn mistake(name: &str) -> Option<String> {
        let is_known = MusicFileKind::of(name).is_some();
        (!is_known).then(|| MusicFileKind::EXPECTED.to_owned())
    }

    /// What is said of a name that means none of them.
    pub(super) const EXPECTED: &str =
        "expected a name that ends in .mid, .musicxml, or .txt for tablature";
}

/// The files of music that a screen was asked for.
#[derive(Default)]
pub(super) struct MusicFiles {
    /// How often one was.
    count: u64,
    job: Option<Job<Found>>,
    /// The file of that name that is there, and was told of.
    there: Option<PathBuf>,
}

impl MusicFiles {
    /// What is being written is no longer asked about.
    pub(super) fn forget(&mut self) {
        self.count += 1;
        self.there = None;
    }

    /// What is to be written now, once.
    pub(super) fn take_job(&mut self) -> Option<Job<Found>> {
        self.job.take()
    }

    /// Has a file written: a new one, or over one that is there and was told of before. What it holds
    /// is worked out where no key waits for it; `found` says for whom.
    pub(super) fn write(
        &mut self,
        path: PathBuf,
        content: impl FnOnce() -> Result<Vec<u8>, String> + Send + 'static,
        found: fn(Box<WrittenMusic>) -> Found,
    ) {
        self.count += 1;
        let number = self.count;
        let may_replace = self.there.take().is_some_and(|there| there == path);
        let there = if may_replace { FileThere::Replaced } else { FileThere::Kept };
        let work = move |_: &_| {
            let content = content().map_err(MusicNotWritten::Music);
            let outcome = content.and_then(|content| {
                write_file(&path, &content, there).map_err(MusicNotWritten::File)
            });
            found(Box::new(WrittenMusic { number, path, outcome }))
        };
        self.job = Some(Job::new(work).about(Subject::File));
    }

    /// Hears what has become of a file and says so. Is it there, and was asked for last?
    pub(super) fn hear(&mut self, written: WrittenMusic, shared: &mut Shared) -> bool {
        if written.number != self.count {
            return false;
        }
        let is_written = written.outcome.is_ok();
        match written.outcome {
            Ok(()) => shared.tell(format!("written to {}", written.path.display())),
            Err(MusicNotWritten::File(FileNotWritten::Exists(path))) => {
                shared.tell(format!("{} is there already: once more replaces it", path.display()));
                self.there = Some(path);
            }
            Err(MusicNotWritten::File(why)) => shared.tell(why.to_string()),
            Err(MusicNotWritten::Music(why)) => shared.tell(why),
        }
        is_written
    }
}
