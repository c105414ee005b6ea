//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use super::field::kind;
use crate::answer::{KeeperOrder, KeepersQuestion};

/// Every choice of the player on the keepers screen.
#[derive(Clone, PartialEq, Debug, Default)]
pub(in crate::tui) struct Chosen {
    /// Words that are looked for.
    pub(super) words: String,
    /// The tag that is looked for.
    pub(super) tag: Option<String>,
    /// The kind of chord that is to be served, as it was typed; empty for any.
    pub(super) serves: String,
    pub(super) order: KeeperOrder,
}

/// The orders, by their words.
pub(super) const ORDERS: [(KeeperOrder, &str); 5] = [
    (KeeperOrder::Own, "in your own order"),
    (KeeperOrder::Due, "what is due first"),
    (KeeperOrder::Newest, "the newest first"),
    (KeeperOrder::Name, "by name"),
    (KeeperOrder::Chord, "by chord"),
];

impl Chosen {
    /// Which keepers are listed, and in which order.
    pub(super) fn question(&self) -> KeepersQuestion {
        KeepersQuestion {
            words: self.words.clone(),
            tag: self.tag.clone(),
            serves: kind(&self.serves).unwrap_or_default(),
            order: self.order,
        }
    }

    /// What is looked for, in words: `lydian, #slow, serves m7b5`.
    pub(super) fn in_words(&self) -> String {
        let words = Some(self.words.trim()).filter(|words| !words.is_empty());
        let words = words.map(|words| format!("with {words}"));
        let tag = self.tag.as_ref().map(|tag| format!("tag {tag}"));
        let serves = Some(self.serves.trim()).filter(|kind| !kind.is_empty());
        let serves = serves.map(|kind| format!("serves {kind}"));
        let order = (self.order != KeeperOrder::Own).then(|| self.order_in_words().to_owned());
        [words, tag, serves, order].into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    pub(super) fn order_in_words(&self) -> &'static str {
        let known = ORDERS.iter().find(|(order, _)| *order == self.order);
        known.map_or("", |(_, words)| words)
    }
}

/// What the screen was turned to: the list, of which there is one.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Page {
    pub(super) chosen: Chosen,
}

impl Page {
    /// Is it the same to someone who turns pages?
    pub(in crate::tui) fn is_like(&self, _other: &Page) -> bool {
        true
    }
}
