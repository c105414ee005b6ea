//! The list of tunes: those of the library, and the file whose name is typed.

use crate::library::KnownChart;
use crate::tui::shared::Shared;
use crate::tui::widget::{Search, TextField};

/// The list while it is open.
pub(super) struct ChartList {
    pub(super) search: Search,
}

/// A line of the list.
pub(super) enum Offer<'a> {
    /// A tune of the library.
    Known(&'a KnownChart),
    /// The file of the name that is typed.
    File(String),
}

impl ChartList {
    /// The longest name of a file that is typed.
    const LONGEST: usize = 400;

    pub(super) fn open() -> ChartList {
        let field = TextField::holding_up_to("", ChartList::LONGEST);
        ChartList { search: Search { field, at: 0 } }
    }

    /// What fits what is typed: the file of that name, before the tunes if it has the looks of one.
    pub(super) fn offers<'a>(&self, shared: &'a Shared) -> Vec<Offer<'a>> {
        let typed = self.search.field.text().trim().to_owned();
        let words = |known: &KnownChart| format!("{} {}", known.id.replace('-', " "), known.id);
        let known = shared.library.charts.iter().filter(|known| self.search.finds(&words(known)));
        let mut offers: Vec<Offer<'a>> = known.map(Offer::Known).collect();
        if !typed.is_empty() {
            let at = if typed.contains(['/', '\\', '.', '~']) { 0 } else { offers.len() };
            offers.insert(at, Offer::File(typed));
        }
        offers
    }
}
