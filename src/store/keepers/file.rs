//! The text of the file with what it holds.

use std::collections::HashSet;
use std::ops::Range;

use jiff::civil::Date;
use toml::de::Error;

use super::blocks::{Block, BlockKind, blocks};
use super::item::{Entries, Item};
use super::keeper::{Keeper, KeeperId};
use super::read::{Entry, EntryReader};
use super::{all_toml, plain};

/// The format of the file. It grows only when an older fretloom would misread a newer file; a new key
/// alone is no reason.
pub(super) const FORMAT: u32 = 1;

/// The format of a file without one: a player wrote it by hand, with or without the numbers of
/// keepers.
pub(super) const BY_HAND: u32 = 0;

/// A file that has been read whole.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct KeeperFile {
    pub(super) text: String,
    pub(super) format: u32,
    /// The day of the last change.
    pub(super) changed: Option<Date>,
    /// The number of the next keeper; no number below it is ever given again.
    pub(super) next_id: u32,
    /// In the order of the file.
    pub(super) keepers: Vec<Keeper>,
    /// The blocks of the text, the head first.
    pub(super) parts: Vec<Part>,
}

/// A block of the text.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Part {
    pub(super) text: Range<usize>,
    pub(super) holds: Holds,
}

/// What a block holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Holds {
    /// The keys of the file itself.
    Head,
    /// A keeper.
    Keeper {
        id: KeeperId,
        /// Does its number stand in the text?
        is_numbered: bool,
    },
    /// What this version does not understand.
    Foreign,
}

impl Holds {
    /// The number of the keeper, if it is one.
    pub(super) fn id(self) -> Option<KeeperId> {
        match self {
            Holds::Keeper { id, .. } => Some(id),
            Holds::Head | Holds::Foreign => None,
        }
    }
}

/// Why a text is no file of keepers, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct NoKeepers {
    /// The byte.
    pub(super) at: usize,
    pub(super) why: String,
}

impl KeeperFile {
    /// The file of that text; an empty one holds nothing. What a newer fretloom wrote is always one,
    /// of which as much is read as can be.
    pub(super) fn read(text: &str) -> Result<KeeperFile, NoKeepers> {
        let mut reading = Reading::default();
        for block in blocks(text) {
            let written = text.get(block.text.clone()).unwrap_or_default();
            match reading.take(&block, written) {
                Err(_) if reading.format > FORMAT => {
                    reading.entries.push((block.text, Some(Entry::NotUnderstood)));
                }
                taken => taken.map_err(|error| error.after(block.text.start))?,
            }
        }
        Ok(reading.finished(text.to_owned()))
    }

    /// A file that holds nothing, and gives this number next.
    pub(super) fn empty(next_id: u32) -> KeeperFile {
        let parts = vec![Part { text: 0..0, holds: Holds::Head }];
        let (text, changed, keepers) = (String::new(), None, Vec::new());
        KeeperFile { text, format: FORMAT, changed, next_id: next_id.max(1), keepers, parts }
    }

    /// The keeper of that number.
    pub(super) fn keeper(&self, id: KeeperId) -> Option<&Keeper> {
        self.keepers.iter().find(|keeper| keeper.id == id)
    }

    /// How many entries are carried along that this version does not understand.
    pub(super) fn foreign(&self) -> usize {
        self.parts.iter().filter(|part| part.holds == Holds::Foreign).count()
    }
}

impl NoKeepers {
    fn of(error: &Error) -> NoKeepers {
        let at = error.span().map_or(0, |span| span.start);
        NoKeepers { at, why: error.message().to_owned() }
    }

    fn after(self, begun: usize) -> NoKeepers {
        NoKeepers { at: self.at + begun, ..self }
    }
}

#[derive(Default)]
struct Reading {
    format: u32,
    changed: Option<Date>,
    next_id: u32,
    entries: Vec<(Range<usize>, Option<Entry>)>,
    reader: EntryReader,
}

impl Reading {
    fn take(&mut self, block: &Block, written: &str) -> Result<(), NoKeepers> {
        let entries = match plain::entries(written) {
            Some(entries) => entries,
            None => all_toml::entries(written).map_err(|error| NoKeepers::of(&error))?,
        };
        let entry = match block.kind {
            BlockKind::Head => {
                self.take_head(&entries)?;
                None
            }
            BlockKind::Keeper => Some(self.reader.read(&entries)),
            BlockKind::Foreign => Some(Entry::NotUnderstood),
        };
        self.entries.push((block.text.clone(), entry));
        Ok(())
    }

    fn take_head(&mut self, head: &Entries<'_>) -> Result<(), NoKeepers> {
        let value = |key: &str| head.iter().find(|(name, _)| name == key).map(|(_, item)| item);
        self.format = match value("format") {
            None => BY_HAND,
            Some(format) => format.whole().ok_or_else(|| NoKeepers {
                at: 0,
                why: format!("expected a version for `format`, as in {FORMAT}"),
            })?,
        };
        if value("keeper").is_some() {
            let why = "expected each keeper as a table of its own, [[keeper]]".to_owned();
            return Err(NoKeepers { at: 0, why });
        }
        self.changed = value("changed").and_then(Item::day);
        self.next_id = value("next_id").and_then(Item::whole).unwrap_or(1);
        Ok(())
    }

    /// Gives numbers to those that have none, in the order of the file.
    fn finished(self, text: String) -> KeeperFile {
        let mut file = KeeperFile { text, ..KeeperFile::empty(self.next_id) };
        (file.format, file.changed) = (self.format, self.changed);
        file.parts.clear();
        let highest = self.entries.iter().filter_map(|(_, entry)| match entry {
            Some(Entry::Keeper(keeper)) => Some(keeper.id.number()),
            _ => None,
        });
        file.next_id = file.next_id.max(highest.max().unwrap_or(0).saturating_add(1));
        let mut taken = HashSet::new();
        for (text, entry) in self.entries {
            let holds = match entry {
                None => Holds::Head,
                Some(entry) => file.hold(entry, &mut taken),
            };
            file.parts.push(Part { text, holds });
        }
        file
    }
}

impl KeeperFile {
    fn hold(&mut self, entry: Entry, taken: &mut HashSet<KeeperId>) -> Holds {
        let (mut keeper, is_numbered) = match entry {
            Entry::NotUnderstood => return Holds::Foreign,
            Entry::Unnumbered(keeper) => (keeper, false),
            Entry::Keeper(keeper) => {
                let is_first = taken.insert(keeper.id);
                (keeper, is_first)
            }
        };
        if !is_numbered {
            match self.new_id() {
                Some(id) => keeper.id = id,
                None => return Holds::Foreign,
            }
        }
        let id = keeper.id;
        self.keepers.push(*keeper);
        Holds::Keeper { id, is_numbered }
    }

    /// The next number, which is then given; `None` where all have been.
    pub(super) fn new_id(&mut self) -> Option<KeeperId> {
        let after = self.next_id.checked_add(1)?;
        let id = KeeperId::new(self.next_id)?;
        self.next_id = after;
        Some(id)
    }
}

/// The highest number that a text seems to have given, where it cannot be read: of a file that is
/// broken, so that no number of it is given again.
pub(super) fn highest_id(text: &str) -> u32 {
    let number = |line: &str| -> Option<u32> {
        let (key, value) = line.split_once('=')?;
        let number: u32 = value.trim().parse().ok()?;
        match key.trim() {
            "id" => Some(number),
            "next_id" => Some(number.saturating_sub(1)),
            _ => None,
        }
    };
    text.lines().filter_map(number).max().unwrap_or(0)
}
