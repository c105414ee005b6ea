//! Note values.

use fretloom_theory::Quarters;

/// A note value: what a note looks like, with its dot.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Value {
    name: &'static str,
    /// How many times a whole note is halved to get it, its dot apart.
    halvings: u8,
    is_dotted: bool,
}

/// The values from a whole note down, each half as long as the one before.
const NAMES: [&str; 11] = [
    "whole", "half", "quarter", "eighth", "16th", "32nd", "64th", "128th", "256th", "512th",
    "1024th",
];

/// The shortest value is this part of a quarter note.
pub(crate) const SHORTEST: u32 = 256;

impl Value {
    /// The value of that length, with a dot or without; `None` where no single one has it.
    pub(crate) fn of(length: Quarters) -> Option<Value> {
        let plain = |length: Quarters| all().find(|(found, _)| *found == length);
        let undotted = plain(length).map(|(_, value)| value);
        let dotted = || {
            let (_, value) = plain(length.in_tuplet(3, 2)?)?;
            Some(Value { is_dotted: true, ..value })
        };
        undotted.or_else(dotted)
    }

    pub(crate) const fn name(self) -> &'static str {
        self.name
    }

    /// How many flags it has: whole, half and quarter notes have none.
    pub(crate) const fn flags(self) -> u8 {
        self.halvings.saturating_sub(2)
    }

    pub(crate) const fn halvings(self) -> u8 {
        self.halvings
    }

    pub(crate) const fn is_dotted(self) -> bool {
        self.is_dotted
    }
}

/// Every value without a dot, the longest first.
fn all() -> impl Iterator<Item = (Quarters, Value)> {
    let lengths = (0..).map_while(|halved: u32| Quarters::whole(4).divided_into(1 << halved));
    let value = |((length, name), halvings)| (length, Value { name, halvings, is_dotted: false });
    lengths.zip(NAMES).zip(0u8..).map(value)
}

/// Lengths of single values that make up a length, the longest first. What is shorter than the
/// shortest value is left as it is.
pub(crate) fn values_of(length: Quarters) -> Vec<Quarters> {
    let mut lengths = Vec::new();
    let mut left = length;
    while !left.is_zero() {
        let fits = if Value::of(left).is_some() { Some(left) } else { longest_within(left) };
        let part = fits.unwrap_or(left);
        lengths.push(part);
        left = left.checked_sub(part).unwrap_or_default();
    }
    lengths
}

/// The longest value without a dot that is not longer.
pub(crate) fn longest_within(length: Quarters) -> Option<Quarters> {
    all().map(|(value, _)| value).find(|value| *value <= length)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarters(above: u64, below: u32) -> Quarters {
        Quarters::new(above, below).unwrap()
    }

    #[test]
    fn values_have_their_names() {
        let told = |above, below| {
            let value = Value::of(quarters(above, below));
            value.map(|value| (value.name(), value.is_dotted(), value.flags()))
        };
        assert_eq!(told(4, 1), Some(("whole", false, 0)));
        assert_eq!(told(6, 1), Some(("whole", true, 0)));
        assert_eq!(told(1, 1), Some(("quarter", false, 0)));
        assert_eq!(told(3, 4), Some(("eighth", true, 1)));
        assert_eq!(told(1, 16), Some(("64th", false, 4)));
        assert_eq!(told(1, 256), Some(("1024th", false, 8)));
        assert_eq!((told(5, 2), told(1, 3), told(1, 512), told(8, 1)), (None, None, None, None));
    }

    #[test]
    fn other_lengths_are_several_values() {
        assert_eq!(values_of(quarters(5, 4)), [quarters(1, 1), quarters(1, 4)]);
        assert_eq!(values_of(quarters(11, 1)), [quarters(4, 1), quarters(4, 1), quarters(3, 1)]);
        assert_eq!(values_of(quarters(1, 512)), [quarters(1, 512)]);
    }
}
