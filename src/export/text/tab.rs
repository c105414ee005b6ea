//! Tablature as text.

mod head;
mod legend;

use std::fmt;

use crate::picture::{Tab, TabLook, TabString, TabSystem};

pub use head::TabHead;
pub use legend::Legend;

/// A tab as text: what stands at its head, its lines, and what its signs mean.
///
/// Prints as all of it, with a blank line between the parts. The parts are there for those who
/// print several tabs under one head.
///
/// # Example
///
/// ```
/// use fretloom::export::text::TabText;
/// use fretloom::picture::{Tab, TabEvent, TabLook, TabMusic, TimesFrom};
/// use fretloom_fretboard::{Fret, StringNumber, Tuning};
/// use fretloom_theory::{Quarters, Score};
///
/// let tuning = Tuning::read("G C E A").unwrap();
/// let string = StringNumber::new(3).unwrap();
/// let note = TabEvent::new(Quarters::ZERO, Quarters::ONE, string, Fret::new(2).unwrap());
/// let music = Score::default();
/// let tab = Tab::new(&TabMusic::of(&music, TimesFrom::Writing), &tuning, &[note]);
/// let text = TabText::new(&tab, &TabLook::default()).to_string();
/// assert!(text.contains("3 C |-2-"), "{text}");
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct TabText {
    /// Title, tuning, capo, meter and tempo.
    pub head: TabHead,
    /// The lines of tablature.
    pub systems: Vec<String>,
    /// What the signs mean that stand in it.
    pub legend: Legend,
}

impl TabText {
    /// What a look shows of a tab.
    #[must_use]
    pub fn new(tab: &Tab, look: &TabLook) -> TabText {
        let systems = tab.systems(look);
        TabText {
            head: TabHead::of(tab),
            systems: systems.iter().map(text).collect(),
            legend: Legend::of(tab, look, &systems),
        }
    }
}

impl fmt::Display for TabText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.head.fmt(f)?;
        self.systems.iter().try_for_each(|system| write!(f, "\n{system}"))?;
        let legend = self.legend.to_string();
        if legend.is_empty() { Ok(()) } else { write!(f, "\n{legend}") }
    }
}

/// A line of tablature with all its rows.
fn text(system: &TabSystem) -> String {
    system.rows.iter().map(|row| format!("{}\n", row.text)).collect()
}

/// One column of tablature without the hand: the strings alone.
///
/// Frets are set from the left and names have two columns, which is how a single shape is written
/// by hand.
#[must_use]
pub fn shape_tab(tab: &Tab) -> String {
    let on = |string: &TabString| {
        let note = tab.columns().find_map(|column| column.on(string.number));
        note.map(|note| note.fret.to_string()).unwrap_or_default()
    };
    let width = tab.strings.iter().map(|string| on(string).len()).max().unwrap_or_default().max(1);
    let line = |string: &TabString| {
        let name = format!("{:>2} {}", string.number.number(), string.name);
        format!("{name:<5}|-{:-<width$}-|\n", on(string))
    };
    tab.strings.iter().map(line).collect()
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Neck, ShapeQuery, Tuning};
    use fretloom_theory::SpelledTriad;

    use super::*;

    #[test]
    fn a_shape_is_set_from_the_left() {
        let neck = Neck::new(Tuning::read("Eb A D G B E").unwrap());
        let f: SpelledTriad = "F".parse().unwrap();
        let query = ShapeQuery::default().on("3-2-1".parse().unwrap());
        let shapes = query.shapes(&neck, f.triad());
        let shape = shapes.iter().find(|shape| shape.frets()[0].number() == 10).unwrap();
        let expected =
            " 1 E |-8--|\n 2 B |-10-|\n 3 G |-10-|\n 4 D |----|\n 5 A |----|\n 6 E♭|----|\n";
        assert_eq!(shape_tab(&Tab::of_shape(&neck, shape)), expected);
    }
}
