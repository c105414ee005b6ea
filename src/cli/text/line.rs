//! A line for the music stand: what it is made of, its tab, and what it does bar by bar.

use fretloom_theory::{ComesRound, Spelling};

use super::CARE;
use super::explain::told;
use super::table::table;
use crate::answer::{InKey, KeyLine, LineAnswer, LineChord, LineWay, LinesAnswer};
use crate::export::text::{Legend, TabHead, TabText};
use crate::picture::TabLook;

/// `line`
pub(in crate::cli) fn line(answer: &LinesAnswer, look: &TabLook, spelling: Spelling) -> String {
    let mut page = Page { look, text: String::new(), legend: None };
    for (index, key) in answer.lines.iter().enumerate() {
        if index == 0 {
            page.first(&key.answer);
        } else {
            page.other(key);
        }
    }
    let first = answer.lines.first().map(|key| &key.answer);
    let told = first.map(|first| told(&first.explanation(), spelling)).unwrap_or_default();
    let lines = || answer.lines.iter().flat_map(|key| &key.answer.ways);
    let care = if lines().any(|way| way.way.is_wide) { format!("\n{CARE}") } else { String::new() };
    let Page { text, legend, .. } = page;
    let legend = legend.map(|legend| legend.to_string()).unwrap_or_default();
    format!("{text}\n{legend}\n{told}{care}")
}

/// What is written so far.
struct Page<'a> {
    look: &'a TabLook,
    text: String,
    legend: Option<Legend>,
}

impl Page<'_> {
    /// The line in the first key, with its ways.
    fn first(&mut self, answer: &LineAnswer) {
        let title = answer.question.chords.title();
        self.text += &title.map(|title| format!("{title}\n\n")).unwrap_or_default();
        self.text += &table(&chord_rows(answer));
        self.text += &pattern(answer);
        for (index, way) in answer.ways.iter().enumerate() {
            let tab = TabText::new(&answer.tab(way), self.look);
            if index == 0 {
                self.text += &format!("\n{}", head(&tab.head));
            }
            let number =
                if answer.ways.len() > 1 { format!("{}  ", index + 1) } else { String::new() };
            self.text += &format!("\n{number}{}\n", way.way.fingering);
            self.systems(&tab);
            self.text += &broken(way);
        }
    }

    /// The line in another key.
    fn other(&mut self, key: &KeyLine) {
        let symbols = key.answer.question.chords.symbols();
        let symbols: Vec<String> =
            symbols.changes().iter().map(|(_, symbol)| symbol.to_string()).collect();
        self.text += &format!("\nin {}: {}{}\n", key.key, symbols.join(" "), remark(key.how));
        if let Some(way) = key.answer.ways.first() {
            let tab = TabText::new(&key.answer.tab(way), self.look);
            self.systems(&tab);
            self.text += &broken(way);
        }
    }

    fn systems(&mut self, tab: &TabText) {
        tab.systems.iter().for_each(|system| self.text += &format!("\n{system}"));
        self.legend = Some(match self.legend.take() {
            Some(legend) => legend.and(&tab.legend),
            None => tab.legend.clone(),
        });
    }
}

/// Each chord with its scale and its pair, once.
fn chord_rows(answer: &LineAnswer) -> Vec<Vec<String>> {
    let row = |chord: &LineChord| {
        let symbol = chord.over.chord().map(ToString::to_string).unwrap_or_default();
        vec![symbol, chord.over.scale().to_string(), chord.pair.to_string()]
    };
    let mut rows: Vec<Vec<String>> = Vec::new();
    for row in answer.question.chords.chords().iter().map(row) {
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    rows
}

/// `1232 321 in the rhythm 8: comes round after 7 bars, played 8 times`
fn pattern(answer: &LineAnswer) -> String {
    let of_pair = answer.phrases.iter().find_map(|phrase| phrase.of_pair.as_ref());
    let Some(phrase) = of_pair else { return String::new() };
    let round = answer.comes_round().map(|ComesRound { bars, times }| {
        let [bars, times] = [(bars, "bar"), (times, "time")].map(counted);
        format!(": comes round after {bars}, played {times}")
    });
    format!("{} in the rhythm {}{}\n", phrase.pattern, phrase.rhythm, round.unwrap_or_default())
}

fn counted((count, what): (u64, &str)) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

pub(super) fn head(head: &TabHead) -> String {
    let lines = [Some(&head.tuning), head.capo.as_ref(), Some(&head.time), head.remark.as_ref()];
    lines.into_iter().flatten().map(|line| format!("{line}\n")).collect()
}

/// What a player should know of how a line came into its key.
fn remark(how: InKey) -> String {
    let far = |octaves: i8| match octaves.unsigned_abs() {
        1 => "an octave".to_owned(),
        octaves => format!("{octaves} octaves"),
    };
    match how {
        InKey::Here | InKey::Moved => String::new(),
        InKey::Octaves(octaves) if octaves > 0 => {
            format!("   {} higher, where it fits", far(octaves))
        }
        InKey::Octaves(octaves) => format!("   {} lower, where it fits", far(octaves)),
        InKey::MadeAnew => "   made anew, since the same line does not fit there".to_owned(),
    }
}

fn broken(way: &LineWay) -> String {
    match way.way.fingering.broken_chords().len() {
        0 => String::new(),
        1 => "one chord is played note after note, since no hand holds it\n".to_owned(),
        count => format!("{count} chords are played note after note, since no hand holds them\n"),
    }
}
