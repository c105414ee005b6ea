//! A sheet as plain text.

use super::CARE;
use super::changes::changes;
use super::explain::told;
use super::shapes::shape_row;
use super::table::table;
use crate::engraving::Answers;
use crate::export;
use crate::export::text::TabText;
use crate::picture::TabLook;
use crate::sheet::{Idea, IdeaLook, IdeaShapes, OnSheet};
use crate::words::dashed;

/// Room for a few letters.
const TO_FILL_IN: &str = "____________";

/// `sheet`
pub(in crate::cli) fn sheet(sheet: &OnSheet, look: &IdeaLook) -> String {
    match sheet {
        OnSheet::Idea(idea) => of_idea(idea, look),
        OnSheet::Plan(plan) => {
            let noted = plan.notes.iter().map(|note| format!("{note}\n"));
            let parts = [assignment(look)].into_iter().chain(noted);
            parts.chain([changes(&plan.answer, &plan.tuning)]).collect::<Vec<_>>().join("\n")
        }
    }
}

fn assignment(look: &IdeaLook) -> String {
    let reader = look.reader.as_ref().map(|reader| reader.name.as_str()).unwrap_or_default();
    format!("name {reader:_<24}  date ____________  tempo ________\n")
}

fn of_idea(idea: &Idea, look: &IdeaLook) -> String {
    let shows = look.line.answers == Answers::Shown;
    let mut parts = vec![assignment(look), head(idea, shows)];
    parts.extend(idea.notes.iter().map(|note| format!("{note}\n")));
    if let Some(picture) = &idea.picture {
        let mut picture = picture.clone().for_hand(look.handed);
        if !shows {
            picture.marks.clear();
        }
        parts.push(export::text::neck(&picture));
    }
    if let Some(hand) = &idea.position {
        let mut picture = hand.picture(&idea.neck, look.line.fingers).for_hand(look.handed);
        if !shows {
            picture.marks.clear();
        }
        let picture = export::text::neck(&picture);
        parts.push(format!("position {}\n{picture}", hand.position));
    }
    if shows {
        parts.extend(shapes(idea, look));
    }
    let words = idea.line_words().filter(|_| idea.picture.is_some());
    parts.extend(words.map(|words| words + "\n"));
    parts.extend(idea.remark().map(|remark| remark + "\n"));
    parts.extend(music(idea, look));
    let first = idea.line.as_ref().and_then(|line| line.lines.first());
    if let Some(first) = first.filter(|_| look.line.sentences && shows) {
        parts.push(told(&first.answer.explanation(), look.spelling));
    }
    if idea.keys.is_some() {
        parts.push(keys(idea, shows));
    }
    parts.push(CARE.to_owned());
    parts.join("\n")
}

fn head(idea: &Idea, shows: bool) -> String {
    let heading = &idea.heading;
    let triads = heading.triads.iter().map(|triad| {
        let notes = if shows { &triad.notes } else { TO_FILL_IN };
        format!("{}   {notes}", triad.name)
    });
    let lines = [heading.name()].into_iter().chain(triads);
    let says = heading.says.iter().filter(|_| shows || heading.triads.is_empty());
    let lines = lines.chain(says.cloned()).chain(heading.tuning.iter().cloned());
    lines.map(|line| format!("{line}\n")).collect()
}

/// Shapes, each with its frets and fingers.
fn shapes(idea: &Idea, look: &IdeaLook) -> Option<String> {
    match &idea.shapes {
        IdeaShapes::Nothing => None,
        IdeaShapes::Lowest(ladder) | IdeaShapes::Whole(ladder) => {
            let rows = ladder.rungs.iter().map(shape_row).map(|mut row| {
                if !look.line.fingers {
                    row.retain(|cell| !cell.starts_with("fingers"));
                }
                row
            });
            Some(table(&rows.collect::<Vec<_>>()))
        }
        IdeaShapes::Held(held) => {
            let frets = dashed(held.notes.iter().map(|note| note.place.fret));
            let strings = dashed(held.notes.iter().map(|note| note.place.string));
            let fingers: Option<Vec<u8>> =
                held.notes.iter().map(|note| Some(note.finger?.number())).collect();
            let fingers = fingers.filter(|_| look.line.fingers);
            let fingers = fingers.map(|fingers| format!("   fingers {}", dashed(fingers)));
            let fingers = fingers.unwrap_or_default();
            Some(format!("{}   {frets} on {strings}{fingers}\n", held.triad))
        }
    }
}

/// The line as tablature.
fn music(idea: &Idea, look: &IdeaLook) -> Option<String> {
    let answer = &idea.line.as_ref()?.lines.first()?.answer;
    let way = answer.ways.first().filter(|_| look.line.answers == Answers::Shown)?;
    let fingers = look.line.fingers;
    let tab =
        TabText::new(&answer.tab(way), &TabLook { triads: true, fingers, ..TabLook::default() });
    Some(tab.systems.join("\n"))
}

/// The pair in the twelve keys.
fn keys(idea: &Idea, shows: bool) -> String {
    let row = |(chord, pair): (String, String)| {
        vec![chord, if shows { pair } else { TO_FILL_IN.to_owned() }]
    };
    table(&idea.in_every_key().into_iter().map(row).collect::<Vec<_>>())
}
