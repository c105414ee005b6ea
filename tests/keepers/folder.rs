//! A data folder of a test.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use fretloom::store::{KeeperStore, Kept, KeptKeepers, NewKeeper};
use jiff::civil::{Date, date};

/// The day of a test.
pub(crate) const TODAY: Date = date(2026, 11, 28);

/// A data folder, gone when the test is over.
pub(crate) struct Folder(PathBuf);

impl Folder {
    pub(crate) fn new() -> Folder {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("fretloom-keepers-{}-{number}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        Folder(folder)
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    /// A folder whose file has this text.
    pub(crate) fn holding(text: &str) -> Folder {
        let folder = Folder::new();
        folder.put("keepers.toml", text);
        folder
    }

    pub(crate) fn put(&self, name: &str, content: impl AsRef<[u8]>) {
        fs::write(self.0.join(name), content).unwrap();
    }

    pub(crate) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.0.join(name)).unwrap()
    }

    pub(crate) fn keepers(&self) -> String {
        self.text("keepers.toml")
    }

    /// The files there, but for the lock.
    pub(crate) fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(&self.0).unwrap();
        let names = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap());
        let mut names: Vec<String> = names.filter(|name| name != "keepers.lock").collect();
        names.sort();
        names
    }

    pub(crate) fn store(&self) -> KeeperStore {
        KeeperStore::in_folder(&self.0)
    }

    pub(crate) fn load(&self) -> KeptKeepers {
        self.store().load().unwrap()
    }

    /// What is said of the file when it is loaded, with the folder's name left out.
    pub(crate) fn said(&self) -> Vec<String> {
        self.in_words(&self.load())
    }

    pub(crate) fn in_words(&self, keepers: &KeptKeepers) -> Vec<String> {
        let folder = format!("{}/", self.0.display());
        keepers.remarks.iter().map(|remark| remark.to_string().replace(&folder, "")).collect()
    }

    /// The numbers of the keepers, in their order.
    pub(crate) fn ids(&self) -> Vec<u32> {
        ids(&self.load())
    }
}

pub(crate) fn ids(keepers: &KeptKeepers) -> Vec<u32> {
    keepers.list.iter().map(|keeper| keeper.id.number()).collect()
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// A pair over a chord.
pub(crate) fn pair(chord: &str) -> NewKeeper {
    let kept =
        Kept { chord: Some(chord.to_owned()), pair: Some("F & G".to_owned()), ..Kept::default() };
    NewKeeper { kept, ..NewKeeper::default() }
}
