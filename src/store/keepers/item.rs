//! A value of the file of keepers, and a table of them.

use std::borrow::Cow;

use jiff::civil::Date;

/// A value as the file has it.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Item<'a> {
    Text(Cow<'a, str>),
    Whole(i64),
    Decimal(f64),
    Truth(bool),
    Day(Date),
    List(Vec<Item<'a>>),
    Table(Entries<'a>),
    /// A value of another kind, as a time of day.
    Other,
}

/// Keys with their values, in the order of the file.
pub(super) type Entries<'a> = Vec<(Cow<'a, str>, Item<'a>)>;

impl<'a> Item<'a> {
    pub(super) fn text(&self) -> Option<&str> {
        match self {
            Item::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(super) fn whole<T: TryFrom<i64>>(&self) -> Option<T> {
        match self {
            Item::Whole(number) => T::try_from(*number).ok(),
            _ => None,
        }
    }

    pub(super) fn decimal(&self) -> Option<f64> {
        match self {
            Item::Decimal(number) => Some(*number),
            Item::Whole(number) => Some(*number as f64),
            _ => None,
        }
    }

    pub(super) fn day(&self) -> Option<Date> {
        match self {
            Item::Day(day) => Some(*day),
            _ => None,
        }
    }

    pub(super) fn list(&self) -> Option<&[Item<'a>]> {
        match self {
            Item::List(items) => Some(items),
            _ => None,
        }
    }

    pub(super) fn table(&self) -> Option<&[(Cow<'a, str>, Item<'a>)]> {
        match self {
            Item::Table(entries) => Some(entries),
            _ => None,
        }
    }

    /// The value under a key of a table.
    pub(super) fn get(&self, key: &str) -> Option<&Item<'a>> {
        let found = self.table()?.iter().find(|(name, _)| name == key);
        found.map(|(_, item)| item)
    }
}
