//! The next text of a file: its blocks, some of them changed.

use std::borrow::Cow;

use jiff::civil::Date;

use super::edit;
use super::error::KeepersError;
use super::file::{FORMAT, Holds, KeeperFile};
use super::keeper::KeeperId;
use super::outcome::RemovedKeeper;

/// With what a file begins.
const HEAD: &str = "\
# What you have kept with fretloom, in your order. The program changes only what you change there;
# what you write here yourself stays as it is.

";

/// The blocks of a file on the way to its next text.
pub(super) struct Rewrite<'a> {
    parts: Vec<(Holds, Cow<'a, str>)>,
    next_id: u32,
}

impl<'a> Rewrite<'a> {
    /// A file as it is, but that every keeper has its number in it.
    pub(super) fn of(file: &'a KeeperFile) -> Result<Rewrite<'a>, KeepersError> {
        let mut parts = Vec::with_capacity(file.parts.len() + 1);
        for part in &file.parts {
            let text = file.text.get(part.text.clone()).unwrap_or_default();
            let text = match part.holds {
                Holds::Keeper { id, is_numbered: false } => {
                    let numbered = edit::numbered(text, id);
                    Cow::Owned(numbered.ok_or(KeepersError::NotUnderstood { id })?)
                }
                _ => Cow::Borrowed(text),
            };
            parts.push((part.holds, text));
        }
        Ok(Rewrite { parts, next_id: file.next_id })
    }

    /// The number of a keeper that is to be added.
    pub(super) fn new_id(&mut self) -> Result<KeeperId, KeepersError> {
        let id = KeeperId::new(self.next_id).ok_or(KeepersError::NoNumberLeft)?;
        self.next_id = self.next_id.checked_add(1).ok_or(KeepersError::NoNumberLeft)?;
        Ok(id)
    }

    /// Gives no number up to this one any more.
    pub(super) fn pass_ids(&mut self, highest: u32) {
        self.next_id = self.next_id.max(highest.saturating_add(1));
    }

    /// Puts an entry behind the last keeper.
    pub(super) fn add(&mut self, id: KeeperId, text: String) {
        self.insert(self.end(), id, text);
    }

    /// Changes the entry of a keeper; `None` where that cannot be done.
    pub(super) fn change(
        &mut self,
        id: KeeperId,
        change: impl FnOnce(&str) -> Option<String>,
    ) -> Option<()> {
        let index = self.index_of(id)?;
        let (_, text) = self.parts.get_mut(index)?;
        *text = Cow::Owned(change(text)?);
        Some(())
    }

    /// Takes the entry of a keeper out.
    pub(super) fn remove(&mut self, id: KeeperId) -> Option<RemovedKeeper> {
        let index = self.index_of(id)?;
        let before = self.parts.get(..index)?.iter().rev();
        let after = before.filter_map(|(holds, _)| holds.id()).next();
        let (_, text) = self.parts.remove(index);
        Some(RemovedKeeper { id, text: text.into_owned(), after })
    }

    /// Puts an entry back behind the keeper that was before it; where that one is gone, at the end.
    pub(super) fn restore(&mut self, removed: &RemovedKeeper) {
        let at = match removed.after {
            None => self.parts.iter().position(|(holds, _)| holds.id().is_some()),
            Some(before) => self.index_of(before).map(|index| index + 1),
        };
        self.insert(at.unwrap_or(self.end()), removed.id, removed.text.clone());
        self.pass_ids(removed.id.number());
    }

    /// Puts the entry of a keeper before that of another one, or at the end.
    pub(super) fn move_before(&mut self, id: KeeperId, before: Option<KeeperId>) -> Option<()> {
        if before == Some(id) {
            return Some(());
        }
        let part = self.parts.remove(self.index_of(id)?);
        let at = before.and_then(|before| self.index_of(before)).unwrap_or(self.end());
        self.parts.insert(at, part);
        Some(())
    }

    /// The text, changed on this day; `None` for the day where nothing of the player's has changed.
    pub(super) fn finished(mut self, today: Option<Date>) -> Option<String> {
        let mut values =
            vec![("format", FORMAT.to_string()), ("next_id", self.next_id.to_string())];
        values.extend(today.map(|today| ("changed", today.to_string())));
        let (_, head) = self.parts.first_mut()?;
        let begun: &str = if head.is_empty() { HEAD } else { head };
        let mut written = edit::head(begun, &values)?;
        if !written.ends_with("\n\n") {
            written.push('\n');
        }
        *head = Cow::Owned(written);
        Some(self.joined())
    }

    fn joined(&self) -> String {
        let length = self.parts.iter().map(|(_, text)| text.len() + 1).sum();
        let mut all = String::with_capacity(length);
        for (_, text) in &self.parts {
            if !all.is_empty() && !all.ends_with('\n') {
                all.push('\n');
            }
            all.push_str(text);
        }
        all
    }

    fn insert(&mut self, at: usize, id: KeeperId, text: String) {
        self.parts.insert(at, (Holds::Keeper { id, is_numbered: true }, Cow::Owned(text)));
    }

    fn index_of(&self, id: KeeperId) -> Option<usize> {
        self.parts.iter().position(|(holds, _)| holds.id() == Some(id))
    }

    /// Behind the last keeper; behind all where there is none.
    fn end(&self) -> usize {
        let last = self.parts.iter().rposition(|(holds, _)| holds.id().is_some());
        last.map_or(self.parts.len(), |last| last + 1)
    }
}
