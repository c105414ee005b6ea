//! A sheet as plain text.

use super::CARE;
use super::explain::told;
use super::shapes::shape_row;
use super::table::table;
use crate::engraving::Answers;
use crate::export;
use crate::export::text::TabText;
use crate::picture::TabLook;
use crate::sheet::{Idea, IdeaLook};

/// `sheet`
pub(in crate::cli) fn sheet(idea: &Idea, look: &IdeaLook) -> String {
    let shows = look.line.answers == Answers::Shown;
    let reader = look.reader.as_ref().map(|reader| reader.name.as_str()).unwrap_or_default();
    let mut parts = vec![format!("name {reader:_<24}  date ____________  tempo ________\n")];
    parts.push(head(idea));
    if let Some(picture) = &idea.picture {
        let mut picture = picture.clone().for_hand(look.handed);
        if !shows {
            picture.marks.clear();
        }
        parts.push(export::text::neck(&picture));
    }
    if let Some(ladder) = idea.ladder.as_ref().filter(|_| shows) {
        let rows = ladder.rungs.iter().map(shape_row).map(|mut row| {
            if !look.line.fingers {
                row.retain(|cell| !cell.starts_with("fingers"));
            }
            row
        });
        parts.push(table(&rows.collect::<Vec<_>>()));
    }
    let words = idea.line_words().filter(|_| idea.picture.is_some());
    parts.extend(words.map(|words| words + "\n"));
    parts.extend(idea.remark().map(|remark| remark + "\n"));
    parts.extend(music(idea, look));
    if let Some(first) = idea.line.lines.first().filter(|_| look.line.sentences && shows) {
        parts.push(told(&first.answer.explanation(), look.spelling));
    }
    if idea.picture.is_some() {
        parts.push(keys(idea, shows));
    }
    parts.push(CARE.to_owned());
    parts.join("\n")
}

fn head(idea: &Idea) -> String {
    let heading = &idea.heading;
    let triads = heading.triads.iter().map(|triad| format!("{}   {}", triad.name, triad.notes));
    let lines = [heading.name()].into_iter().chain(triads);
    let lines = lines.chain(heading.says.iter().cloned()).chain(heading.tuning.iter().cloned());
    lines.map(|line| format!("{line}\n")).collect()
}

/// The line as tablature.
fn music(idea: &Idea, look: &IdeaLook) -> Option<String> {
    let answer = &idea.line.lines.first()?.answer;
    let way = answer.ways.first().filter(|_| look.line.answers == Answers::Shown)?;
    let fingers = look.line.fingers;
    let tab =
        TabText::new(&answer.tab(way), &TabLook { triads: true, fingers, ..TabLook::default() });
    Some(tab.systems.join("\n"))
}

/// The pair in the twelve keys.
fn keys(idea: &Idea, shows: bool) -> String {
    let row = |(chord, pair): (String, String)| {
        vec![chord, if shows { pair } else { "____________".to_owned() }]
    };
    table(&idea.in_every_key().into_iter().map(row).collect::<Vec<_>>())
}
