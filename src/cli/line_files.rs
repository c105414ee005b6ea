//! The files that a line is written to.
//!
//! All are looked at before anything is made, and all are written in full under other names before
//! the first is put in its place: what cannot be written leaves everything as it was.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::args::LineFilesArgs;
use crate::answer::{Refusal, performed};
use crate::library::staged_file::StagedFile;
use crate::score_file::{ScoreWriteError, WrittenScore};
use crate::sound::{Mix, Performance, Rounds, SoundChoices, TooLongForWav};
use crate::words::in_plain_words;

/// The files that a line is to be written to, which have been looked at.
pub(super) struct LineFiles<'a> {
    files: Vec<LineFile<'a>>,
    existing: Existing,
}

/// A file, and what it is to hold.
#[derive(Clone, Copy)]
struct LineFile<'a> {
    path: &'a Path,
    kind: LineFileKind,
}

/// What a file holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum LineFileKind {
    /// A Standard MIDI File.
    Midi,
    /// MusicXML.
    MusicXml,
    /// What is heard, as a WAV file.
    Wav,
}

/// What becomes of a file that is there already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Existing {
    /// It stays, and nothing is written.
    Kept,
    /// It is replaced.
    Replaced,
}

impl<'a> LineFiles<'a> {
    /// The files that are asked for.
    ///
    /// # Errors
    ///
    /// Where one is no name for a file, is there already and may not be replaced, or is asked for
    /// twice, and where its folder is not there.
    pub(super) fn of(wanted: &'a LineFilesArgs) -> Result<LineFiles<'a>, Refusal> {
        let named = [
            (wanted.midi.as_deref(), LineFileKind::Midi),
            (wanted.musicxml.as_deref(), LineFileKind::MusicXml),
            (wanted.wav.as_deref(), LineFileKind::Wav),
        ];
        let files =
            named.into_iter().filter_map(|(path, kind)| Some(LineFile { path: path?, kind }));
        let existing = if wanted.overwrite { Existing::Replaced } else { Existing::Kept };
        let files = LineFiles { files: files.collect(), existing };
        files.check()?;
        Ok(files)
    }

    /// Is nothing to be written?
    pub(super) fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Writes all of them, each whole, or none.
    ///
    /// # Errors
    ///
    /// Where a file of a kind cannot hold the line, and where the system refuses.
    pub(super) fn write(
        &self,
        written: &WrittenScore,
        sound: &SoundChoices,
    ) -> Result<(), Refusal> {
        let mut made = Vec::with_capacity(self.files.len());
        for file in &self.files {
            made.push((file, file.content(written, sound)?));
        }
        let mut staged = Vec::with_capacity(made.len());
        for (file, content) in &made {
            staged.push((*file, file.staged(content)?));
        }
        // A device may still refuse; what is staged only takes its name.
        staged.sort_by_key(|(_, ready)| matches!(ready, Ready::Staged(_)));
        staged.into_iter().try_for_each(|(file, ready)| file.put(ready, self.existing))
    }

    /// What was written, a line each.
    pub(super) fn told(&self) -> String {
        let told = |file: &LineFile<'_>| format!("written: {}\n", file.path.display());
        self.files.iter().map(told).collect()
    }

    fn check(&self) -> Result<(), Refusal> {
        for (index, file) in self.files.iter().enumerate() {
            let others = self.files.iter().take(index);
            if others.clone().any(|other| is_same(other.path, file.path)) {
                return Err(file.refused("it is named twice", "another name for each file"));
            }
            file.check(self.existing)?;
        }
        Ok(())
    }
}

/// Do two names mean one file, which need not be there?
fn is_same(one: &Path, other: &Path) -> bool {
    one == other || real(one).is_some_and(|one| Some(one) == real(other))
}

/// Where a file is, or will be.
fn real(file: &Path) -> Option<PathBuf> {
    let folder = file.parent().filter(|folder| *folder != Path::new(""));
    let new = || {
        let folder = fs::canonicalize(folder.unwrap_or(Path::new("."))).ok()?;
        Some(folder.join(file.file_name()?))
    };
    fs::canonicalize(file).ok().or_else(new)
}

impl LineFile<'_> {
    fn refused(&self, reason: impl Into<String>, expected: &'static str) -> Refusal {
        let name = self.path.display().to_string();
        Refusal::Unwritten { name, reason: reason.into(), expected }
    }

    fn check(&self, existing: Existing) -> Result<(), Refusal> {
        const NAME: &str = "the name of a file";
        if self.path == Path::new("-") {
            return Err(self.refused("standard output is for the line itself", NAME));
        }
        if self.path.file_name().is_none() {
            return Err(self.refused("that is no name of a file", NAME));
        }
        match fs::metadata(self.path) {
            Ok(about) if about.is_dir() => Err(self.refused("it is a folder", NAME)),
            Ok(_) if existing == Existing::Kept => Err(self.there_already()),
            Ok(_) => Ok(()),
            Err(_) => self.check_folder(),
        }
    }

    fn check_folder(&self) -> Result<(), Refusal> {
        let folder = self.path.parent().filter(|folder| *folder != Path::new(""));
        match folder {
            Some(folder) if !folder.is_dir() => {
                let reason = format!("there is no folder {}", folder.display());
                Err(self.refused(reason, "a folder that is there"))
            }
            Some(_) | None => Ok(()),
        }
    }

    fn there_already(&self) -> Refusal {
        self.refused("it is there already", "a name that is free, or --overwrite")
    }

    fn content(&self, written: &WrittenScore, sound: &SoundChoices) -> Result<Content, Refusal> {
        let made: Result<Vec<u8>, ScoreWriteError> = match self.kind {
            LineFileKind::Midi => written.midi(),
            LineFileKind::Wav => return self.heard(written, sound),
            LineFileKind::MusicXml => written.music_xml(),
        };
        let made = made.map(Content::Bytes);
        made.map_err(|error| Refusal::Unwritable { name: self.path.display().to_string(), error })
    }

    fn heard(&self, written: &WrittenScore, sound: &SoundChoices) -> Result<Content, Refusal> {
        let performance = performed(written, &sound.style(&written.tuning, Rounds::Once));
        match performance.wav_frames() {
            Ok(_) => Ok(Content::Sound(performance, Arc::new(sound.mix()))),
            Err(TooLongForWav) => {
                let hours = Performance::LONGEST_WAV.duration().as_secs() / 3600;
                let reason = format!("the line lasts longer than {hours} hours");
                Err(self.refused(reason, "fewer bars, or a higher tempo"))
            }
        }
    }

    fn staged<'a>(&self, content: &'a Content) -> Result<Ready<'a>, Refusal> {
        let ready = if self.is_device() {
            Ok(Ready::Device(content))
        } else {
            StagedFile::write_through(self.path, |file| content.write(file)).map(Ready::Staged)
        };
        ready.map_err(|error| self.failed(&error))
    }

    /// Is it there, and something else than a file, which another file may not take the place of?
    fn is_device(&self) -> bool {
        fs::metadata(self.path).is_ok_and(|about| !about.is_file())
    }

    fn put(&self, ready: Ready<'_>, existing: Existing) -> Result<(), Refusal> {
        let put = match (ready, existing) {
            (Ready::Device(content), _) => File::options()
                .write(true)
                .open(self.path)
                .and_then(|mut device| content.write(&mut device)),
            (Ready::Staged(staged), Existing::Replaced) => staged.put_over(self.path),
            (Ready::Staged(staged), Existing::Kept) => staged.put_new(self.path),
        };
        put.map_err(|error| self.failed(&error))
    }

    fn failed(&self, error: &io::Error) -> Refusal {
        match error.kind() {
            io::ErrorKind::AlreadyExists => self.there_already(),
            _ => self.refused(in_plain_words(error), "a place where files may be written"),
        }
    }
}

/// What a file is to hold.
enum Content {
    Bytes(Vec<u8>),
    /// Made while it is written: a long line would take gigabytes.
    Sound(Performance, Arc<Mix>),
}

impl Content {
    fn write(&self, to: &mut impl Write) -> io::Result<()> {
        match self {
            Content::Bytes(bytes) => to.write_all(bytes),
            Content::Sound(performance, mix) => performance.write_wav(mix, to),
        }
    }
}

/// What is ready to be put in its place.
enum Ready<'a> {
    Staged(StagedFile),
    /// For a device, which is written to as it is.
    Device(&'a Content),
}
