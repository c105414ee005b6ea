//! Where the player left off.

use std::io;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::changes::ChangesSession;
use super::error::StoreError;
use super::line::LineSession;
use super::sound::SoundSession;
use super::write_lock::WriteLock;
use crate::library::files::read_text;

/// Where the player left off.
///
/// Every value is kept as the text that its command or option takes, and read by the same reader.
/// A value that is no longer valid is dropped alone. Where a value is absent (`None`) the program
/// begins with its default.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Session {
    /// The chord's symbol: `Gmaj7#11`.
    pub chord: Option<String>,
    /// The scale's name: `G Lydian`.
    pub scale: Option<String>,
    /// The pair by its two triads: `G & A`.
    pub pair: Option<String>,
    /// The tuning's id, or its strings with octaves.
    pub tuning: Option<String>,
    /// The fret of the capo.
    pub capo: Option<u8>,
    /// The strings that a partial capo stops: `5-4-3`.
    pub capo_strings: Option<String>,
    /// The string set of the ladder: `4-3-2`.
    pub strings: Option<String>,
    /// Does the ladder stay on this string set?
    pub locked: Option<bool>,
    /// The chosen shape of the ladder, from 0.
    pub rung: Option<u32>,
    /// Which of the places where its notes can be played, from 0.
    pub place: Option<u32>,
    /// Which of the fingerings there, from 0.
    pub fingers: Option<u32>,
    /// What stands in the marks: `note`, `degree`, `member`, `finger` or `order`.
    pub labels: Option<String>,
    /// How triads are written: `plain` or `strict`.
    pub spelling: Option<String>,
    /// The view of the neck by its word, with its choice: `position V`, `across 2`.
    pub view: Option<String>,
    /// The shape that a chain across the strings was opened on: `5-4-3 on 4-3-2`.
    pub chain: Option<String>,
    /// The frets at which the hand stays: `1-12`; absent for all of them.
    pub frets: Option<String>,
    /// Which triads take part: `tertian,sus`.
    pub families: Option<String>,
    /// The notes wanted and not wanted, as typed on the screen: `7 #11 -13`.
    pub wishes: Option<String>,
    /// Is the neck drawn as its mirror image, with the nut at the right?
    pub left_handed: Option<bool>,
    /// Is string 1 drawn at the bottom?
    pub upside_down: Option<bool>,
    /// How wide the frets are drawn: `even` or `true`.
    pub fret_widths: Option<String>,
    /// Are the notes that the pair leaves out drawn?
    pub left_out: Option<bool>,
    /// The first fret in view.
    pub first_fret: Option<u8>,
    /// The line that was made last.
    pub line: Option<LineSession>,
    /// The tune that was looked at last.
    pub changes: Option<ChangesSession>,
    /// What was looked for among what is kept.
    pub keepers: Option<KeepersSession>,
    /// How music was heard.
    pub sound: Option<SoundSession>,
    /// The screen in front, if it is not the explorer: `line`, `changes`.
    pub screen: Option<String>,
}

impl Session {
    /// The format of the file. It grows only when an older fretloom would misread a newer file; a
    /// new value alone is no reason.
    pub const FORMAT: u64 = 1;

    /// The session as TOML, as a keeper has it; `None` where it cannot be written so.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::store::Session;
    /// let session = Session { chord: Some("Dm7".to_owned()), ..Session::default() };
    /// let text = session.to_toml().unwrap();
    /// assert_eq!(text.trim(), "chord = \"Dm7\"");
    /// assert_eq!(Session::of_toml(&text), Some(session));
    /// assert_eq!(Session::of_toml("chord = "), None);
    /// ```
    #[must_use]
    pub fn to_toml(&self) -> Option<String> {
        let mut table = toml::Table::try_from(self).ok()?;
        // What is empty says nothing.
        table.retain(|_, value| !is_empty(value));
        toml::to_string(&table).ok()
    }

    /// The session of such a text; `None` where it is none.
    #[must_use]
    pub fn of_toml(text: &str) -> Option<Session> {
        toml::from_str(text).ok()
    }

    /// The file's name in the state folder.
    const FILE: &'static str = "session.json";
}

fn is_empty(value: &toml::Value) -> bool {
    value.as_array().is_some_and(Vec::is_empty)
        || value.as_table().is_some_and(toml::Table::is_empty)
}

/// What was looked for on the keepers screen. As in the session, what is no longer valid is dropped alone.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeepersSession {
    /// Words that are looked for.
    pub words: Option<String>,
    /// The tag that is looked for.
    pub tag: Option<String>,
    /// The kind of chord that is to be served: `m7b5`.
    pub serves: Option<String>,
    /// Which of the orders, from 0: the player's own.
    pub order: Option<u32>,
    /// The number of the keeper that was marked.
    pub marked: Option<u32>,
}

/// The file that is locked while the session is written.
const LOCK: &str = "lock";

/// The file as it is written.
#[derive(Serialize, Deserialize)]
struct Stored {
    format: u64,
    #[serde(flatten)]
    session: Session,
}

/// The part of the file that every format has.
#[derive(Deserialize)]
struct Format {
    format: u64,
}

/// Keeps the session in the state folder.
///
/// # Example
///
/// ```
/// use fretloom::store::{Session, SessionStore};
///
/// let folder = std::env::temp_dir().join(format!("fretloom-doc-{}", std::process::id()));
/// let store = SessionStore::in_folder(&folder);
/// assert_eq!(store.load().unwrap(), None);
/// let session = Session { chord: Some("Dm7".to_owned()), ..Session::default() };
/// store.save(&session).unwrap();
/// assert_eq!(store.load().unwrap(), Some(session));
/// # std::fs::remove_dir_all(&folder).unwrap();
/// ```
#[derive(Clone, Debug)]
pub struct SessionStore {
    folder: PathBuf,
}

impl SessionStore {
    /// The store in the player's state folder, which need not exist yet.
    #[must_use]
    pub fn in_folder(folder: &Path) -> SessionStore {
        SessionStore { folder: folder.to_owned() }
    }

    /// The folder that holds the session's file.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The session, if one was ever saved. Reading needs no lock: the file is always whole.
    ///
    /// # Errors
    ///
    /// Where a newer fretloom wrote it, or it cannot be read.
    pub fn load(&self) -> Result<Option<Session>, StoreError> {
        let text = match read_text(&self.folder.join(Session::FILE)) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(error.into()),
        };
        let unreadable = |error: serde_json::Error| StoreError::Unreadable(error.to_string());
        let Format { format } = serde_json::from_str(&text).map_err(unreadable)?;
        if format > Session::FORMAT {
            return Err(StoreError::Newer { format, known: Session::FORMAT });
        }
        let stored: Stored = serde_json::from_str(&text).map_err(unreadable)?;
        Ok(Some(stored.session))
    }

    /// Saves the session in place of the one before. A crash at any moment leaves one of the two,
    /// whole. A file that cannot be read is replaced; one that a newer fretloom wrote is not.
    ///
    /// # Errors
    ///
    /// Where a newer fretloom wrote the session that is there, another program is writing it now,
    /// or the system refuses.
    pub fn save(&self, session: &Session) -> Result<(), StoreError> {
        let lock = WriteLock::acquire(&self.folder, LOCK)?;
        if let Err(newer @ StoreError::Newer { .. }) = self.load() {
            return Err(newer);
        }
        let stored = Stored { format: Session::FORMAT, session: session.clone() };
        let text = serde_json::to_string_pretty(&stored).map_err(io::Error::from)?;
        Ok(lock.replace_file(Session::FILE, &(text + "\n"))?)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicU32, Ordering};
    use std::{fs, thread};

    use super::*;

    /// A state folder, gone when the test is over.
    struct Folder(PathBuf);

    impl Folder {
        fn new() -> Folder {
            static NEXT: AtomicU32 = AtomicU32::new(0);
            let number = NEXT.fetch_add(1, Ordering::Relaxed);
            let name = format!("fretloom-state-{}-{number}", std::process::id());
            Folder(std::env::temp_dir().join(name).join("deeper"))
        }

        fn store(&self) -> SessionStore {
            SessionStore::in_folder(&self.0)
        }

        fn put(&self, name: &str, content: &str) {
            fs::create_dir_all(&self.0).unwrap();
            fs::write(self.0.join(name), content).unwrap();
        }

        fn content(&self) -> String {
            fs::read_to_string(self.0.join(Session::FILE)).unwrap()
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(self.0.parent().unwrap());
        }
    }

    fn on(chord: &str) -> Session {
        Session { chord: Some(chord.to_owned()), capo: Some(2), ..Session::default() }
    }

    #[test]
    fn what_is_saved_comes_back() {
        let folder = Folder::new();
        assert_eq!(folder.store().load().unwrap(), None);
        for chord in ["Dm7", "G7", "B♭maj7 \"x\"\n"] {
            folder.store().save(&on(chord)).unwrap();
            assert_eq!(folder.store().load().unwrap(), Some(on(chord)));
        }
        let names = fs::read_dir(&folder.0).unwrap().map(|entry| entry.unwrap().file_name());
        let mut names: Vec<_> = names.collect();
        names.sort();
        assert_eq!(names, ["lock", "session.json"]);
    }

    #[test]
    fn a_file_of_a_newer_version_is_left_alone() {
        let folder = Folder::new();
        let newer = "{\"format\":2,\"chord\":[\"Dm7\",\"G7\"]}";
        folder.put(Session::FILE, newer);
        for error in [folder.store().load().map(|_| ()), folder.store().save(&on("C"))] {
            let said = error.unwrap_err().to_string();
            assert!(said.starts_with("the session is of format 2, expected 1"), "{said}");
        }
        assert_eq!(folder.content(), newer);
    }

    #[test]
    fn values_that_are_missing_or_unknown_cost_nothing() {
        let folder = Folder::new();
        folder.put(Session::FILE, "{\"format\":1,\"chord\":\"Dm7\",\"colour_of_strap\":\"red\"}");
        let found = folder.store().load().unwrap().unwrap();
        assert_eq!(found, Session { capo: None, ..on("Dm7") });
    }

    #[test]
    fn what_cannot_be_read_is_told_and_can_be_replaced() {
        let folder = Folder::new();
        for broken in ["", "{", "[]", "{\"format\":-1}", "{\"format\":1,\"capo\":900}"] {
            folder.put(Session::FILE, broken);
            let said = folder.store().load().unwrap_err();
            assert!(matches!(said, StoreError::Unreadable(_)), "{broken}: {said}");
            folder.store().save(&on("C")).unwrap();
            assert_eq!(folder.store().load().unwrap(), Some(on("C")));
        }
    }

    /// A crash can leave half of the new file, and never half of the one that is read.
    #[test]
    fn what_a_crash_leaves_behind_does_no_harm() {
        let folder = Folder::new();
        folder.store().save(&on("Dm7")).unwrap();
        folder.put("session.json.new", "{\"format\":1,\"chor");
        assert_eq!(folder.store().load().unwrap(), Some(on("Dm7")));
        folder.store().save(&on("G7")).unwrap();
        assert_eq!(folder.store().load().unwrap(), Some(on("G7")));
    }

    #[test]
    fn one_program_writes_at_a_time() {
        let folder = Folder::new();
        let lock = WriteLock::acquire(&folder.0, LOCK).unwrap();
        assert!(matches!(folder.store().save(&on("C")), Err(StoreError::Busy)));
        drop(lock);
        folder.store().save(&on("C")).unwrap();
    }

    #[test]
    fn whoever_reads_while_others_write_reads_a_whole_session() {
        let folder = Folder::new();
        folder.store().save(&on("start")).unwrap();
        thread::scope(|scope| {
            for writer in 0..3 {
                let store = folder.store();
                scope.spawn(move || {
                    for round in 0..20 {
                        let long = "x".repeat(round * 400);
                        match store.save(&on(&format!("{writer} {long}"))) {
                            Ok(()) | Err(StoreError::Busy) => {}
                            Err(error) => panic!("{error}"),
                        }
                    }
                });
            }
            for _ in 0..100 {
                assert!(folder.store().load().unwrap().unwrap().chord.is_some());
            }
        });
    }
}
