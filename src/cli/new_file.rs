//! Writing a file that is not there yet, whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Writes a new file, with the folders above it; where one is there it is left as it is.
///
/// The content goes to a file beside it, which takes the name once it is on the disk: what is cut
/// short leaves nothing that stands in the way of the next try.
///
/// # Errors
///
/// Where there is a file of that name, and where the system refuses.
pub(super) fn create(file: &Path, content: &str) -> io::Result<()> {
    fs::create_dir_all(file.parent().unwrap_or(Path::new("")))?;
    let unfinished = unfinished(file);
    let written = write(&unfinished, content).and_then(|()| give_name(&unfinished, file));
    // Gone already where it has taken the name.
    let _ = fs::remove_file(&unfinished);
    written
}

/// `settings.toml.new` beside `settings.toml`.
fn unfinished(file: &Path) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(".new");
    name.into()
}

fn write(file: &Path, content: &str) -> io::Result<()> {
    // What a try before has left is in the way; whatever it is, nothing is written there.
    let _ = fs::remove_file(file);
    let mut file = File::create_new(file)?;
    file.write_all(content.as_bytes())?;
    file.sync_all()
}

/// A second name never replaces a file. Where the disk knows no second names, a look and a rename
/// do, between which another program would have to write the same file.
fn give_name(unfinished: &Path, file: &Path) -> io::Result<()> {
    match fs::hard_link(unfinished, file) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(error),
        Err(_) if file.exists() => Err(io::ErrorKind::AlreadyExists.into()),
        Err(_) => fs::rename(unfinished, file),
        Ok(()) => Ok(()),
    }
}
