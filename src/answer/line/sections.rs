//! Where the sections of a form lie in a line.

use fretloom_theory::{Bars, Chorus, HeardBar, Quarters};

/// A section of a form, as it is played once.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct LineSection {
    /// What it is called.
    pub(super) name: Box<str>,
    /// When it begins.
    pub(super) from: Quarters,
    /// When it ends.
    pub(super) until: Quarters,
}

/// The sections that have names, in order, over bars that go round and round: a pick-up comes once. A
/// section that is repeated comes as often as it is heard.
pub(super) fn sections(chorus: &Chorus, bars: &Bars, end: Quarters) -> Vec<LineSection> {
    let heard = &chorus.heard;
    let is_pick_up = chorus.bars.bar(0).is_some_and(|bar| !bar.missing.is_zero());
    let once = usize::from(is_pick_up && heard.len() > 1);
    let (first, round) = heard.split_at(once);
    let all = first.iter().chain(round.iter().cycle());
    let laid = (0..).map_while(|index| bars.bar(index)).take_while(|bar| bar.from < end);
    let mut sections: Vec<LineSection> = Vec::new();
    let mut before: Option<&HeardBar> = None;
    for (bar, heard) in laid.zip(all) {
        let until = bar.from.checked_add(bar.length).unwrap_or(end).min(end);
        let goes_on = before.is_some_and(|before| {
            before.section == heard.section && before.written < heard.written
        });
        match (&heard.section, sections.last_mut()) {
            (Some(_), Some(last)) if goes_on => last.until = until,
            (Some(name), _) => {
                sections.push(LineSection { name: name.clone(), from: bar.from, until });
            }
            (None, _) => {}
        }
        before = Some(heard);
    }
    sections
}
