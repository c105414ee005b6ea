//! Reads any TOML of an entry, by the parser of all of it.

use std::borrow::Cow;

use jiff::civil::Date;
use toml::de::{DeTable, DeValue, Error};

use super::item::{Entries, Item};

/// The entries of a text that may begin with `[[keeper]]`.
///
/// # Errors
///
/// Where the text is no TOML, and where it is one of no or several keepers: their keys are read, or
/// those that stand alone.
pub(super) fn entries(text: &str) -> Result<Entries<'_>, Error> {
    let table = DeTable::parse(text)?.into_inner();
    let mut entries = of_table(table);
    let is_list = |item: &Item<'_>| matches!(item, Item::List(_));
    if entries.len() == 1
        && let Some((_, Item::List(keepers))) =
            entries.pop_if(|(key, item)| key == "keeper" && is_list(item))
        && let Some(Item::Table(keeper)) = keepers.into_iter().next()
    {
        return Ok(keeper);
    }
    Ok(entries)
}

fn of_table(table: DeTable<'_>) -> Entries<'_> {
    let mut entries: Vec<(usize, Cow<'_, str>, Item<'_>)> = table
        .into_iter()
        .map(|(key, value)| (key.span().start, key.into_inner(), of_value(value.into_inner())))
        .collect();
    entries.sort_by_key(|(at, ..)| *at);
    entries.into_iter().map(|(_, key, item)| (key, item)).collect()
}

fn of_value(value: DeValue<'_>) -> Item<'_> {
    match value {
        DeValue::String(text) => Item::Text(text),
        DeValue::Integer(number) => {
            i64::from_str_radix(number.as_str(), number.radix()).map_or(Item::Other, Item::Whole)
        }
        DeValue::Float(number) => number.as_str().parse().map_or(Item::Other, Item::Decimal),
        DeValue::Boolean(truth) => Item::Truth(truth),
        DeValue::Datetime(moment) => match (moment.date, moment.time, moment.offset) {
            (Some(day), None, None) => day_of(day).map_or(Item::Other, Item::Day),
            _ => Item::Other,
        },
        DeValue::Array(items) => {
            Item::List(items.into_iter().map(|item| of_value(item.into_inner())).collect())
        }
        DeValue::Table(table) => Item::Table(of_table(table)),
    }
}

fn day_of(day: toml::value::Date) -> Option<Date> {
    let year = i16::try_from(day.year).ok()?;
    Date::new(year, i8::try_from(day.month).ok()?, i8::try_from(day.day).ok()?).ok()
}
