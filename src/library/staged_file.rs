//! Writing a file whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The content of a file, safe on the disk in the folder where the file is to be, under another name
/// until it is put in its place. What is not put there is removed.
pub(crate) struct StagedFile {
    unfinished: PathBuf,
}

/// How many names are tried that programs before have left behind.
const TRIES: u32 = 100;

impl StagedFile {
    /// Writes what `file` is to hold.
    ///
    /// # Errors
    ///
    /// Where the system refuses. Nothing is left then.
    pub(crate) fn write(file: &Path, content: &[u8]) -> io::Result<StagedFile> {
        StagedFile::write_through(file, |file| file.write_all(content))
    }

    /// Writes what `file` is to hold: what `write` puts into it.
    ///
    /// # Errors
    ///
    /// Where the system refuses, and where `write` fails. Nothing is left then.
    pub(crate) fn write_through(
        file: &Path,
        write: impl FnOnce(&mut File) -> io::Result<()>,
    ) -> io::Result<StagedFile> {
        let (unfinished, mut opened) = unfinished(file)?;
        let staged = StagedFile { unfinished };
        write(&mut opened)?;
        opened.sync_all()?;
        Ok(staged)
    }

    /// Gives it its name, unless a file has it. A second name never replaces a file; where the disk
    /// knows no second names, a look and a rename do, between which another program would have to
    /// write the same file.
    ///
    /// # Errors
    ///
    /// Where there is a file of that name, and where the system refuses.
    pub(crate) fn put_new(self, file: &Path) -> io::Result<()> {
        match fs::hard_link(&self.unfinished, file) {
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(error),
            Err(_) if file.exists() => Err(io::ErrorKind::AlreadyExists.into()),
            Err(_) => fs::rename(&self.unfinished, file),
            Ok(()) => Ok(()),
        }
    }

    /// Gives it its name, in place of the file that has it. Who may read that one may read this.
    ///
    /// # Errors
    ///
    /// Where the system refuses; the file is as it was then.
    pub(crate) fn put_over(self, file: &Path) -> io::Result<()> {
        // What a link leads to is replaced, and not the link.
        let file = fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
        if let Ok(about) = fs::metadata(&file) {
            fs::set_permissions(&self.unfinished, about.permissions())?;
        }
        fs::rename(&self.unfinished, file)
    }
}

impl Drop for StagedFile {
    fn drop(&mut self) {
        // Gone already where it has taken its name by that.
        let _ = fs::remove_file(&self.unfinished);
    }
}

/// A new file beside the one that is meant, by a name that nobody else has.
fn unfinished(file: &Path) -> io::Result<(PathBuf, File)> {
    let folder = match file.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
    for number in 0..TRIES {
        let name = folder.join(format!(".fretloom-{}-{number}.new", std::process::id()));
        match File::create_new(&name) {
            Ok(file) => return Ok((name, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Folder {
            let folder =
                std::env::temp_dir().join(format!("fretloom-{name}-{}", std::process::id()));
            let _ = fs::remove_dir_all(&folder);
            fs::create_dir_all(&folder).unwrap();
            Folder(folder)
        }

        fn names(&self) -> Vec<String> {
            let entries = fs::read_dir(&self.0).unwrap();
            let mut names: Vec<String> =
                entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
            names.sort();
            names
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    /// A disk that is full after so many bytes.
    fn written_until(file: &Path, content: &[u8], full_after: usize) -> io::Result<StagedFile> {
        StagedFile::write_through(file, |file| {
            file.write_all(&content[..full_after])?;
            Err(io::ErrorKind::StorageFull.into())
        })
    }

    #[test]
    fn a_disk_that_is_full_at_any_byte_leaves_nothing_and_keeps_what_was_there() {
        let folder = Folder::new("full");
        let (new, old) = (folder.0.join("new.mid"), folder.0.join("old.mid"));
        fs::write(&old, "as it was").unwrap();
        let content = [7; 300];
        for full_after in 0..=content.len() {
            for file in [&new, &old] {
                let said = written_until(file, &content, full_after).err().unwrap();
                assert_eq!(said.kind(), io::ErrorKind::StorageFull);
                assert_eq!(folder.names(), ["old.mid"], "after {full_after} bytes");
                assert_eq!(fs::read(&old).unwrap(), b"as it was");
            }
        }
    }

    #[test]
    fn a_new_file_never_replaces_one_and_another_does() {
        let folder = Folder::new("place");
        let file = folder.0.join("line.mid");
        StagedFile::write(&file, b"first").unwrap().put_new(&file).unwrap();
        let said = StagedFile::write(&file, b"second").unwrap().put_new(&file).unwrap_err();
        assert_eq!(said.kind(), io::ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&file).unwrap(), b"first");
        StagedFile::write(&file, b"third").unwrap().put_over(&file).unwrap();
        assert_eq!(fs::read(&file).unwrap(), b"third");
        assert_eq!(folder.names(), ["line.mid"]);
    }

    #[test]
    fn what_others_have_left_is_left() {
        let folder = Folder::new("left");
        let left = folder.0.join(format!(".fretloom-{}-0.new", std::process::id()));
        fs::write(&left, "of somebody").unwrap();
        let file = folder.0.join("line.mid");
        StagedFile::write(&file, b"ours").unwrap().put_new(&file).unwrap();
        assert_eq!(fs::read(&left).unwrap(), b"of somebody");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_followed_and_rights_are_kept() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = Folder::new("link");
        let (file, link) = (folder.0.join("real.mid"), folder.0.join("link.mid"));
        fs::write(&file, "old").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
        symlink(&file, &link).unwrap();
        StagedFile::write(&link, b"new").unwrap().put_over(&link).unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&file).unwrap(), b"new");
        assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
    }
}
