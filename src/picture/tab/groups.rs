//! The brackets of triads.

use fretloom_theory::WhichTriad;

use super::bar::{TabBar, TabColumn, TabNote, TriadMark, Turn};
use super::event::TabEvent;

/// Puts notes that follow one another in one triad into a bracket: those that stand first in their
/// columns, those that stand second, and so on. A rest ends a bracket.
pub(super) fn put_brackets(bars: &mut [TabBar], events: &[TabEvent]) {
    let mut columns: Vec<&mut TabColumn> =
        bars.iter_mut().flat_map(|bar| &mut bar.columns).collect();
    columns.retain(|column| column.turn != Turn::GoesOn);
    let rows = columns.iter().map(|column| column.notes.len()).max().unwrap_or_default();
    for row in 0..rows {
        let which: Vec<Option<WhichTriad>> = columns
            .iter()
            .map(|column| column.notes.get(row).and_then(|note| triad_of(note, events)))
            .collect();
        for (index, column) in columns.iter_mut().enumerate() {
            let beside = |index: Option<usize>| index.and_then(|index| which.get(index)).copied();
            let (before, after) = (beside(index.checked_sub(1)), beside(index.checked_add(1)));
            if let (Some(note), Some(Some(own))) =
                (column.notes.get_mut(row), which.get(index).copied())
            {
                let (opens, closes) = (before.flatten() != Some(own), after.flatten() != Some(own));
                note.triad = Some(TriadMark { which: own, opens, closes });
            }
        }
    }
}

fn triad_of(note: &TabNote, events: &[TabEvent]) -> Option<WhichTriad> {
    events.get(note.event).and_then(|event| event.triad)
}
