//! Changes the text of an entry, and leaves every sign of it that is not changed.

use fretloom_fretboard::StringSet;
use toml_edit::{Array, DocumentMut, InlineTable, Item, Table, Value};

use super::change::KeeperChange;
use super::keeper::{Keeper, KeeperId};
use super::practice_record::Limit;
use super::values::{quoted, quoted_list};
use super::written::one_try;

/// The text of a keeper's entry after a change; `None` where what stands there cannot be changed
/// without losing something that this version does not understand.
pub(super) fn changed(text: &str, keeper: &Keeper, change: &KeeperChange) -> Option<String> {
    let mut entry = Entry::read(text)?;
    match change {
        KeeperChange::Name(name) => entry.put("name", name.as_deref().map(quoted).as_deref())?,
        KeeperChange::Notes(notes) => {
            entry.put("notes", (!notes.is_empty()).then(|| quoted(notes)).as_deref())?;
        }
        KeeperChange::Tag(tag) => entry.tag(keeper, tag)?,
        KeeperChange::Untag(tag) => entry.untag(keeper, tag)?,
        KeeperChange::Start(start) => {
            entry.put("start", start.map(|start| start.to_string()).as_deref())?;
        }
        KeeperChange::Keys(keys) => entry.put("keys", keys.as_deref().map(quoted).as_deref())?,
        KeeperChange::Sets(sets) => {
            let words: Vec<String> = sets.iter().map(ToString::to_string).collect();
            entry.put_words("sets", &words, |word| word.parse::<StringSet>().is_ok())?;
        }
        KeeperChange::Limits(limits) => {
            let words: Vec<String> = limits.iter().map(|limit| limit.word().to_owned()).collect();
            entry.put_words("limits", &words, |word| Limit::of_word(word).is_some())?;
        }
        KeeperChange::Tried(tried) => entry.add_try(&one_try(tried))?,
        KeeperChange::Untried(tried) => entry.take_back(&one_try(tried))?,
    }
    Some(entry.0.to_string())
}

/// The text of an entry with its number.
pub(super) fn numbered(text: &str, id: KeeperId) -> Option<String> {
    let mut entry = Entry::read(text)?;
    entry.put("id", Some(&id.to_string()))?;
    Some(entry.0.to_string())
}

/// The head of the file with these keys; each value is as TOML has it.
pub(super) fn head(text: &str, values: &[(&str, String)]) -> Option<String> {
    let mut head: DocumentMut = text.parse().ok()?;
    if head.as_table().is_empty() {
        // Comments alone, which stay above.
        let lines = values.iter().map(|(key, value)| format!("{key} = {value}\n"));
        return Some(format!("{text}{}", lines.collect::<String>()));
    }
    for (key, value) in values {
        put(head.as_table_mut(), key, Some(value))?;
    }
    Some(head.to_string())
}

/// A text that is a `[[keeper]]` and nothing else.
struct Entry(DocumentMut);

impl Entry {
    fn read(text: &str) -> Option<Entry> {
        let mut entry = Entry(text.parse().ok()?);
        entry.table()?;
        Some(entry)
    }

    fn table(&mut self) -> Option<&mut Table> {
        self.0.get_mut("keeper")?.as_array_of_tables_mut()?.get_mut(0)
    }

    fn put(&mut self, key: &str, value: Option<&str>) -> Option<()> {
        put(self.table()?, key, value)
    }

    /// Puts words in place of those that are known; others stay behind them.
    fn put_words(
        &mut self,
        key: &str,
        words: &[String],
        is_known: impl Fn(&str) -> bool,
    ) -> Option<()> {
        let mut list: Array = quoted_list(words).parse::<Value>().ok()?.as_array()?.clone();
        if let Some(there) = self.table()?.get(key) {
            let unknown = |value: &&Value| !value.as_str().is_some_and(&is_known);
            there.as_array()?.iter().filter(unknown).for_each(|value| list.push(value.clone()));
        }
        let written = Value::Array(list).to_string();
        self.put(key, (written != "[]").then_some(written.as_str()))
    }

    fn tag(&mut self, keeper: &Keeper, tag: &str) -> Option<()> {
        if keeper.tags.iter().any(|known| known == tag) {
            return Some(());
        }
        match self.table()?.get_mut("tags") {
            Some(tags) => push(tags.as_array_mut()?, quoted(tag).parse().ok()?),
            None => self.put("tags", Some(&quoted_list(&[tag])))?,
        }
        Some(())
    }

    fn untag(&mut self, keeper: &Keeper, tag: &str) -> Option<()> {
        if keeper.tags.iter().all(|known| known != tag) {
            return Some(());
        }
        let table = self.table()?;
        let tags = table.get_mut("tags")?.as_array_mut()?;
        tags.retain(|value| value.as_str() != Some(tag));
        if tags.is_empty() {
            table.remove("tags");
        }
        Some(())
    }

    fn add_try(&mut self, written: &str) -> Option<()> {
        match self.table()?.get_mut("tries") {
            None => self.put("tries", Some(&format!("[\n  {written},\n]")))?,
            Some(Item::ArrayOfTables(tries)) => tries.push(inline(written)?.into_table()),
            Some(tries) => push(tries.as_array_mut()?, written.parse().ok()?),
        }
        Some(())
    }

    /// Takes back the last try that says the same; where there is none, nothing changes.
    fn take_back(&mut self, written: &str) -> Option<()> {
        let wanted = inline(written)?;
        let Some(tries) = self.table()?.get_mut("tries") else { return Some(()) };
        if let Item::ArrayOfTables(tries) = tries {
            let is_wanted = |table: &&Table| same(&(*table).clone().into_inline_table(), &wanted);
            let found = tries.iter().collect::<Vec<_>>().iter().rposition(is_wanted);
            found.into_iter().for_each(|index| {
                tries.remove(index);
            });
            return Some(());
        }
        let tries = tries.as_array_mut()?;
        let is_wanted =
            |value: &&Value| value.as_inline_table().is_some_and(|table| same(table, &wanted));
        let found = tries.iter().collect::<Vec<_>>().iter().rposition(is_wanted);
        found.into_iter().for_each(|index| {
            tries.remove(index);
        });
        if tries.is_empty() {
            self.table()?.remove("tries");
        }
        Some(())
    }
}

/// Do they say the same, whatever is between the words?
fn same(one: &InlineTable, other: &InlineTable) -> bool {
    let bare = |value: &Value| value.clone().decorated("", "").to_string();
    let is_there = |(key, value): (&str, &Value)| {
        other.get(key).is_some_and(|other| bare(other) == bare(value))
    };
    one.len() == other.len() && one.iter().all(is_there)
}

fn inline(written: &str) -> Option<InlineTable> {
    match written.parse().ok()? {
        Value::InlineTable(table) => Some(table),
        _ => None,
    }
}

/// Puts a value under a key, where it keeps what stands around the old one; or takes the key away. A
/// table is never replaced by a value.
fn put(table: &mut Table, key: &str, written: Option<&str>) -> Option<()> {
    let Some(written) = written else {
        table.remove(key);
        return Some(());
    };
    let mut value: Value = written.parse().ok()?;
    if let Some(old) = table.get(key) {
        *value.decor_mut() = old.as_value()?.decor().clone();
    }
    match table.get_mut(key) {
        Some(old) => *old = Item::Value(value),
        None => {
            table.insert(key, Item::Value(value));
        }
    }
    Some(())
}

/// Puts a value at the end of a list: on a line of its own, where the others have one.
fn push(list: &mut Array, value: Value) {
    let trailing = list.trailing().as_str().unwrap_or_default().to_owned();
    let begins =
        |value: &Value| value.decor().prefix().and_then(|it| it.as_str()).map(str::to_owned);
    let before = list.iter().last().and_then(begins).unwrap_or_default();
    let is_by_line = before.contains('\n') || trailing.contains('\n');
    if !is_by_line {
        list.push(value);
        return;
    }
    // What stands before the bracket stays before the new value: it may be a comment.
    let above = trailing.trim_end_matches([' ', '\n']);
    list.push_formatted(value.decorated(format!("{above}\n  "), ""));
    list.set_trailing("\n");
    list.set_trailing_comma(true);
}
