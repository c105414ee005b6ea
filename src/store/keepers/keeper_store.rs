//! Keeps keepers in the data folder.
//!
//! Every change is made to the file as it is now: it is read again while no other program may write,
//! changed where the player has changed something, and replaced as a whole. What was on the screen before
//! is never written.

use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;

use jiff::civil::Date;

use super::change::KeeperChange;
use super::error::KeepersError;
use super::file::{FORMAT, KeeperFile, NoKeepers, highest_id};
use super::keeper::{Keeper, KeeperId, NewKeeper};
use super::outcome::{
    After, Changed, KeptKeepers, Moved, Remark, Removed, RemovedKeeper, Restored,
};
use super::rewrite::Rewrite;
use super::{edit, written};
use crate::library::files::read_bytes;
use crate::library::problem::line_and_column;
use crate::store::write_lock::{NoLock, WriteLock};

/// Keeps keepers in the data folder of a player.
///
/// # Example
///
/// ```
/// use fretloom::store::{KeeperStore, Kept, NewKeeper, Removed, Restored};
/// use jiff::civil::date;
///
/// # let folder = std::env::temp_dir().join(format!("fretloom-doc-keepers-{}", std::process::id()));
/// let store = KeeperStore::in_folder(&folder);
/// let pair = Kept { pair: Some("F & G".to_owned()), ..Kept::default() };
/// let new = NewKeeper { kept: pair, ..NewKeeper::default() };
/// let kept = store.add(new, date(2026, 5, 4)).unwrap();
/// assert_eq!(kept.done.number(), 1);
///
/// let seen = &kept.keepers.list[0];
/// let removed = store.remove(seen, date(2026, 5, 4)).unwrap();
/// assert!(removed.keepers.list.is_empty());
/// let Removed::Done(removed) = removed.done else { panic!() };
/// let undone = store.restore(&removed, date(2026, 5, 4)).unwrap();
/// assert_eq!(undone.done, Restored::Done);
/// assert_eq!(undone.keepers.list[0].id.number(), 1);
/// # std::fs::remove_dir_all(&folder).unwrap();
/// ```
#[derive(Clone, Debug)]
pub struct KeeperStore {
    folder: PathBuf,
}

/// The file that holds the keepers.
const FILE: &str = "keepers.toml";

/// What it held before the first change of a day.
const BACKUP: &str = "keepers.backup.toml";

/// The file that is locked while the keepers are written.
const LOCK: &str = "keepers.lock";

/// How long one waits for another program to be done.
const PATIENCE: Duration = Duration::from_secs(2);

/// In bytes; some fifty thousand keepers. A longer file is neither read nor written.
const LONGEST: u64 = 32 * 1024 * 1024;

/// What comes of an operation, and whether there is anything to write.
enum Step<T> {
    Write(T),
    Leave(T),
}

impl KeeperStore {
    /// The store in the player's data folder, which need not exist yet.
    #[must_use]
    pub fn in_folder(folder: &Path) -> KeeperStore {
        KeeperStore { folder: folder.to_owned() }
    }

    /// The file that holds the keepers.
    #[must_use]
    pub fn file(&self) -> PathBuf {
        self.folder.join(FILE)
    }

    /// All that is kept. Reading needs no lock: the file is always whole. One that cannot be parsed is
    /// moved aside, and the backup takes its place; the remarks say so.
    ///
    /// # Errors
    ///
    /// Where the file cannot be opened, or what cannot be parsed cannot be moved.
    pub fn load(&self) -> Result<KeptKeepers, KeepersError> {
        match self.read(FILE)? {
            None => Ok(kept(KeeperFile::empty(1), Vec::new())),
            Some(Ok(file)) => Ok(kept(file, Vec::new())),
            Some(Err(_)) => {
                let lock = self.lock()?;
                let (file, remarks) = self.read_locked(&lock)?;
                Ok(kept(file, remarks))
            }
        }
    }

    /// Keeps something on this day, behind all that was kept before. Gives its number.
    ///
    /// # Errors
    ///
    /// Where nothing could be written; all is as it was then.
    pub fn add(&self, new: NewKeeper, today: Date) -> Result<After<KeeperId>, KeepersError> {
        self.operate(today, |_, rewrite| {
            let id = rewrite.new_id()?;
            let mut keeper = Keeper::new(id, new);
            keeper.kept.on = Some(today);
            rewrite.add(id, written::keeper(&keeper));
            Ok(Step::Write(id))
        })
    }

    /// Changes one field of a keeper, whatever other programs have changed of the others.
    ///
    /// # Errors
    ///
    /// Where nothing could be written; all is as it was then.
    pub fn change(
        &self,
        id: KeeperId,
        change: &KeeperChange,
        today: Date,
    ) -> Result<After<Changed>, KeepersError> {
        self.operate(today, |file, rewrite| {
            let Some(keeper) = file.keeper(id) else { return Ok(Step::Leave(Changed::Gone)) };
            let changed = rewrite.change(id, |text| edit::changed(text, keeper, change));
            changed.ok_or(KeepersError::NotUnderstood { id })?;
            Ok(Step::Write(Changed::Done { before: Box::new(keeper.clone()) }))
        })
    }

    /// Removes a keeper, unless another program has changed it since it was `seen`.
    ///
    /// # Errors
    ///
    /// Where nothing could be written; all is as it was then.
    pub fn remove(&self, seen: &Keeper, today: Date) -> Result<After<Removed>, KeepersError> {
        self.operate(today, |file, rewrite| {
            let Some(keeper) = file.keeper(seen.id) else { return Ok(Step::Leave(Removed::Gone)) };
            if keeper != seen {
                let now = Box::new(keeper.clone());
                return Ok(Step::Leave(Removed::ChangedMeanwhile(now)));
            }
            Ok(match rewrite.remove(seen.id) {
                Some(removed) => Step::Write(Removed::Done(removed)),
                None => Step::Leave(Removed::Gone),
            })
        })
    }

    /// Brings back what was removed, word for word, by its number and where it stood.
    ///
    /// # Errors
    ///
    /// Where nothing could be written; all is as it was then.
    pub fn restore(
        &self,
        removed: &RemovedKeeper,
        today: Date,
    ) -> Result<After<Restored>, KeepersError> {
        self.operate(today, |file, rewrite| {
            if file.keeper(removed.id).is_some() {
                return Ok(Step::Leave(Restored::There));
            }
            rewrite.restore(removed);
            Ok(Step::Write(Restored::Done))
        })
    }

    /// Puts a keeper before another one in the player's order; `None`, or one that is gone, for the end.
    ///
    /// # Errors
    ///
    /// Where nothing could be written; all is as it was then.
    pub fn move_before(
        &self,
        id: KeeperId,
        before: Option<KeeperId>,
        today: Date,
    ) -> Result<After<Moved>, KeepersError> {
        self.operate(today, |_, rewrite| {
            Ok(match rewrite.move_before(id, before) {
                Some(()) => Step::Write(Moved::Done),
                None => Step::Leave(Moved::Gone),
            })
        })
    }

    /// Carries out an operation on the file as it is now, while nobody else writes.
    fn operate<T>(
        &self,
        today: Date,
        operation: impl FnOnce(&KeeperFile, &mut Rewrite<'_>) -> Result<Step<T>, KeepersError>,
    ) -> Result<After<T>, KeepersError> {
        let lock = self.lock()?;
        let (file, remarks) = self.read_locked(&lock)?;
        if file.format > FORMAT {
            return Err(KeepersError::Newer { format: file.format, known: FORMAT });
        }
        let mut rewrite = Rewrite::of(&file)?;
        match operation(&file, &mut rewrite)? {
            Step::Leave(done) => Ok(After { done, keepers: kept(file, remarks) }),
            Step::Write(done) => {
                let next = self.next(rewrite, Some(today))?;
                self.keep_what_was(&lock, &file, today)?;
                self.replace(&lock, FILE, &next.text)?;
                Ok(After { done, keepers: kept(next, remarks) })
            }
        }
    }

    /// The file as it is to be written. What could not be read again is never written.
    fn next(&self, rewrite: Rewrite<'_>, today: Option<Date>) -> Result<KeeperFile, KeepersError> {
        let unreadable = || {
            self.io(FILE)(io::Error::other("what would be written there could not be read again"))
        };
        let text = rewrite.finished(today).ok_or_else(unreadable)?;
        if text.len() as u64 > LONGEST {
            return Err(KeepersError::TooLong);
        }
        KeeperFile::read(&text).map_err(|_| unreadable())
    }

    /// Before the first change of a day the file becomes the backup; one of an older format stays
    /// beside it for good.
    fn keep_what_was(
        &self,
        lock: &WriteLock,
        file: &KeeperFile,
        today: Date,
    ) -> Result<(), KeepersError> {
        if file.text.is_empty() {
            return Ok(());
        }
        let older = format!("keepers.format-{}.toml", file.format);
        if file.format < FORMAT && !self.folder.join(&older).exists() {
            self.replace(lock, &older, &file.text)?;
        }
        if file.changed == Some(today) {
            return Ok(());
        }
        self.replace(lock, BACKUP, &file.text)
    }

    /// The file, read while nobody else writes. What cannot be parsed makes way for the backup.
    fn read_locked(&self, lock: &WriteLock) -> Result<(KeeperFile, Vec<Remark>), KeepersError> {
        match self.read(FILE)? {
            None => Ok((KeeperFile::empty(1), Vec::new())),
            Some(Ok(file)) => Ok((file, Vec::new())),
            Some(Err(broken)) => self.recover(lock, &broken),
        }
    }

    fn recover(
        &self,
        lock: &WriteLock,
        broken: &Broken,
    ) -> Result<(KeeperFile, Vec<Remark>), KeepersError> {
        let to = self.put_aside(lock, &broken.bytes)?;
        let mut remarks = vec![Remark::MovedAside { why: broken.why.clone(), to }];
        let backup = match self.read(BACKUP) {
            Ok(Some(Ok(backup))) => Some(backup),
            Ok(Some(Err(_)) | None) | Err(_) => None,
        };
        remarks.push(match &backup {
            Some(backup) => Remark::BackupLoaded {
                from: self.folder.join(BACKUP),
                keepers: backup.keepers.len(),
            },
            None => Remark::NoBackup,
        });
        let backup = backup.unwrap_or_else(|| KeeperFile::empty(1));
        let file = if backup.format > FORMAT {
            backup
        } else {
            let mut rewrite = Rewrite::of(&backup)?;
            rewrite.pass_ids(highest_id(&String::from_utf8_lossy(&broken.bytes)));
            self.next(rewrite, None)?
        };
        self.replace(lock, FILE, &file.text)?;
        Ok((file, remarks))
    }

    /// Writes what cannot be parsed to a file whose name nothing has.
    fn put_aside(&self, lock: &WriteLock, bytes: &[u8]) -> Result<PathBuf, KeepersError> {
        let names = (1..=MOST_ASIDE).map(|number| format!("keepers.unread-{number}.toml"));
        for name in names {
            match lock.write_new(&name, bytes) {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(self.io(&name)(error)),
                Ok(()) => return Ok(self.folder.join(name)),
            }
        }
        let full = format!("there are {MOST_ASIDE} files beside it already that could not be read");
        Err(self.io(FILE)(io::Error::other(full)))
    }

    /// A file of keepers, if it is there; what is wrong with it if it is none.
    fn read(&self, name: &str) -> Result<Option<Result<KeeperFile, Broken>>, KeepersError> {
        match read_bytes(&self.folder.join(name), LONGEST) {
            Ok(bytes) => Ok(Some(parse(bytes))),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(self.io(name)(error)),
        }
    }

    fn replace(&self, lock: &WriteLock, name: &str, text: &str) -> Result<(), KeepersError> {
        lock.replace_file(name, text).map_err(self.io(name))
    }

    fn lock(&self) -> Result<WriteLock, KeepersError> {
        let lock = WriteLock::acquire_within(&self.folder, LOCK, PATIENCE);
        lock.map_err(|why| match why {
            NoLock::Taken => KeepersError::Busy,
            NoLock::Io(error) => self.io(FILE)(error),
        })
    }

    fn io(&self, name: &str) -> impl Fn(io::Error) -> KeepersError {
        let file = self.folder.join(name);
        move |error| KeepersError::Io { file: file.clone(), error }
    }
}

/// How many files that could not be read are put aside at most.
const MOST_ASIDE: u32 = 1000;

/// A file that cannot be parsed.
struct Broken {
    bytes: Vec<u8>,
    why: String,
}

fn parse(bytes: Vec<u8>) -> Result<KeeperFile, Broken> {
    let text = match String::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let why = "it is not UTF-8 text".to_owned();
            return Err(Broken { bytes: error.into_bytes(), why });
        }
    };
    KeeperFile::read(&text).map_err(|NoKeepers { at, why }| {
        let (line, column) = line_and_column(&text, at);
        let why = format!("line {line}, column {column}: {}", why.replace('\n', ", "));
        Broken { bytes: text.clone().into_bytes(), why }
    })
}

fn kept(file: KeeperFile, mut remarks: Vec<Remark>) -> KeptKeepers {
    let may_change = file.format <= FORMAT;
    if !may_change {
        remarks.push(Remark::Newer { format: file.format, known: FORMAT });
    }
    if let entries @ 1.. = file.foreign() {
        remarks.push(Remark::NotUnderstood { entries });
    }
    KeptKeepers { list: file.keepers, may_change, remarks }
}
