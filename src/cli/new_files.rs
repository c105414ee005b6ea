//! Files that a command writes beside what it prints.
//!
//! All are looked at before anything is made, and all are written in full under other names before
//! the first is put in its place: what cannot be written leaves everything as it was.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::answer::Refusal;
use crate::library::staged_file::StagedFile;
use crate::sound::{Mix, Performance};
use crate::words::in_plain_words;

/// The files that are to be written, which have been looked at. Each has a kind, which says what it is
/// to hold.
pub(super) struct NewFiles<K> {
    files: Vec<NewFile<K>>,
    existing: Existing,
}

/// A file, and what it is to hold.
pub(super) struct NewFile<K> {
    path: PathBuf,
    kind: K,
}

/// What becomes of a file that is there already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Existing {
    /// It stays, and nothing is written.
    Kept,
    /// It is replaced.
    Replaced,
}

impl<K: Copy> NewFiles<K> {
    /// The files that are asked for; with `overwrite` those that are there already are replaced.
    ///
    /// # Errors
    ///
    /// Where one is no name for a file, is there already and may not be replaced, or is asked for
    /// twice, and where its folder is not there.
    pub(super) fn of(
        named: impl IntoIterator<Item = (PathBuf, K)>,
        overwrite: bool,
    ) -> Result<NewFiles<K>, Refusal> {
        let files = named.into_iter().map(|(path, kind)| NewFile { path, kind }).collect();
        let existing = if overwrite { Existing::Replaced } else { Existing::Kept };
        let files = NewFiles { files, existing };
        files.check()?;
        Ok(files)
    }

    /// Is nothing to be written?
    pub(super) fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Writes all of them, each whole, or none; `content` makes what each is to hold.
    ///
    /// # Errors
    ///
    /// Where the content of one cannot be made, and where the system refuses.
    pub(super) fn write(
        &self,
        content: impl Fn(&NewFile<K>) -> Result<Content, Refusal>,
    ) -> Result<(), Refusal> {
        let mut made = Vec::with_capacity(self.files.len());
        for file in &self.files {
            made.push((file, content(file)?));
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
        let told = |file: &NewFile<K>| format!("written: {}\n", file.path.display());
        self.files.iter().map(told).collect()
    }

    fn check(&self) -> Result<(), Refusal> {
        for (index, file) in self.files.iter().enumerate() {
            let mut others = self.files.iter().take(index);
            if others.any(|other| is_same(&other.path, &file.path)) {
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

impl<K: Copy> NewFile<K> {
    /// What it is to hold.
    pub(super) fn kind(&self) -> K {
        self.kind
    }

    /// Its name, as it was typed.
    pub(super) fn name(&self) -> String {
        self.path.display().to_string()
    }

    /// Why it cannot be written, and what was expected.
    pub(super) fn refused(&self, reason: impl Into<String>, expected: &'static str) -> Refusal {
        Refusal::Unwritten { name: self.name(), reason: reason.into(), expected }
    }

    fn check(&self, existing: Existing) -> Result<(), Refusal> {
        const NAME: &str = "the name of a file";
        if self.path == Path::new("-") {
            return Err(self.refused("standard output is for the answer itself", NAME));
        }
        if self.path.file_name().is_none() {
            return Err(self.refused("that is no name of a file", NAME));
        }
        match fs::metadata(&self.path) {
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

    fn staged<'a>(&self, content: &'a Content) -> Result<Ready<'a>, Refusal> {
        let ready = if self.is_device() {
            Ok(Ready::Device(content))
        } else {
            StagedFile::write_through(&self.path, |file| content.write(file)).map(Ready::Staged)
        };
        ready.map_err(|error| self.failed(&error))
    }

    /// Is it there, and something else than a file, which another file may not take the place of?
    fn is_device(&self) -> bool {
        fs::metadata(&self.path).is_ok_and(|about| !about.is_file())
    }

    fn put(&self, ready: Ready<'_>, existing: Existing) -> Result<(), Refusal> {
        let put = match (ready, existing) {
            (Ready::Device(content), _) => File::options()
                .write(true)
                .open(&self.path)
                .and_then(|mut device| content.write(&mut device)),
            (Ready::Staged(staged), Existing::Replaced) => staged.put_over(&self.path),
            (Ready::Staged(staged), Existing::Kept) => staged.put_new(&self.path),
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
pub(super) enum Content {
    /// These bytes.
    Bytes(Vec<u8>),
    /// Made while it is written: a long line would take gigabytes.
    Sound(Box<Performance>, Arc<Mix>),
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
