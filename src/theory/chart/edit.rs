//! Bars of a chart, typed anew one by one.
//!
//! Each bar stands on a line of its own; some lines are put in the place of others, and the whole is
//! read again. So whatever holds for a chart that is typed at once holds here too.

use std::collections::HashMap;
use std::ops::Range;

use super::{Chart, ChartBeat, ChartChoice};
use crate::{
    BarFault, BarSection, BarText, Chorus, Meter, OpeningMark, OptionalChords, Quarters, ReadError,
    WrittenBar,
};

/// A chart of which some bars were typed anew.
#[derive(Clone, PartialEq, Debug)]
pub struct RetypedChart {
    /// The chart.
    pub chart: Chart,
    /// Where the moments are that were asked for, in their order; none where their chord is no longer
    /// there.
    pub moments: Vec<Option<(u64, ChartBeat)>>,
}

impl Chart {
    /// A written bar as it is typed, with the bar lines of repeats: `|: Dm7 G7`, `Cmaj7 :|`. `None`
    /// where there is no such bar.
    #[must_use]
    pub fn typed_bar(&self, written: usize) -> Option<String> {
        let bar = self.bars.bars().get(written)?;
        match (written, self.bars.pick_up(), self.bars.meter()) {
            (0, Some(pick_up), meter) => {
                let lined = in_meter(bar, meter).on_its_line();
                let begins = if lined.starts_with('|') { "" } else { "| " };
                Some(format!("pickup={pick_up} {begins}{lined}"))
            }
            (0, None, meter) => Some(in_meter(bar, meter).on_its_line()),
            _ => Some(bar.on_its_line()),
        }
    }

    /// The chart with what is typed in the place of some written bars: one bar or several with `|`
    /// between them; of nothing the bars are taken away, and in the place of none it is added. What is
    /// settled stays with its chord, and is forgotten where another chord stands there now.
    ///
    /// # Errors
    ///
    /// Where what is typed cannot be read, with the character and what was expected there, and where
    /// the form does not fit together with it.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{BarText, Chart, Meter};
    /// let chart = Chart::of(BarText::read("| Dm7 | G7 | Cmaj7 |", Meter::COMMON)?);
    /// assert_eq!(chart.retyped(1..2, "Dm7b5 G7alt | G7")?.bars.bars().len(), 4);
    /// assert_eq!(chart.retyped(1..2, "")?.to_string(), "| Dm7 | Cmaj7 |");
    /// let error = chart.retyped(1..2, "Dm7 Gx").unwrap_err();
    /// assert_eq!(error.at(), 6);
    /// # Ok::<(), fretloom_theory::ReadError>(())
    /// ```
    pub fn retyped(&self, bars: Range<usize>, typed: &str) -> Result<Chart, ReadError> {
        self.retyped_with(bars, typed, &[]).map(|retyped| retyped.chart)
    }

    /// The same, and where moments are then to which something else belongs: bars and beats of chords.
    ///
    /// # Errors
    ///
    /// As for [`retyped`](Self::retyped).
    pub fn retyped_with(
        &self,
        bars: Range<usize>,
        typed: &str,
        moments: &[(u64, ChartBeat)],
    ) -> Result<RetypedChart, ReadError> {
        let count = self.bars.bars().len();
        let (first, end) = (bars.start.min(count), bars.end.clamp(bars.start.min(count), count));
        let typed = typed.replace(['\r', '\n'], " | ");
        let page = self.page(first..end, &typed);
        // What stood before the first bar stands with it; without it the meter goes on.
        let meter =
            if first == 0 && page.typed.is_none() { self.bars.meter() } else { Meter::COMMON };
        let text = page.lines.join("\n");
        let (read, faults) = BarText::read_marking(&[BarSection::unnamed(&text)], meter, None)
            .map_err(|fault| page.told(&fault))?;
        if let Some(fault) = faults.iter().find(|fault| Some(page.line_of(fault)) == page.typed) {
            return Err(page.told(fault));
        }
        let mut chart = Chart { bars: Chart::of(read).bars, choices: Vec::new(), ..self.clone() };
        let shift = chart.bars.bars().len() as isize - count as isize;
        let settled = self.choices.iter().map(|choice| (choice.bar, choice.beat));
        let mut moved = self.moved(&chart, (end, shift), settled.chain(moments.iter().copied()));
        let choices = self.choices.iter().zip(moved.by_ref());
        chart.choices = choices
            .filter_map(|(choice, bar)| Some(ChartChoice { bar: bar?, ..choice.clone() }))
            .collect();
        let moments = moments.iter().zip(moved);
        let moments = moments.map(|((_, beat), bar)| Some((bar?, *beat))).collect();
        Ok(RetypedChart { chart, moments })
    }

    /// The lines of all bars but some, and what is typed between them.
    fn page<'a>(&self, without: Range<usize>, typed: &'a str) -> Page<'a> {
        let mut page = Page { lines: Vec::new(), typed: None, begins: 0, text: typed };
        for written in 0..=self.bars.bars().len() {
            if written == without.start && !typed.trim().is_empty() {
                let begins = if typed.trim_start().starts_with(['|', ':']) || is_pick_up(typed) {
                    ""
                } else {
                    "| "
                };
                (page.typed, page.begins) = (Some(page.lines.len()), begins.len());
                page.lines.push(format!("{begins}{typed}"));
            }
            let Some(bar) = self.bars.bars().get(written) else { break };
            page.lines.extend(bar.comments.iter().map(|comment| format!("# {comment}")));
            if !without.contains(&written) {
                let lined = self.typed_bar(written).unwrap_or_default();
                let begins = if lined.starts_with('|') || is_pick_up(&lined) { "" } else { "| " };
                page.lines.push(format!("{begins}{lined}"));
            }
        }
        page
    }

    /// In which bars moments are in the chart that this one has become: the written bars from `end` on
    /// stand so many places later there. None where another chord stands there now.
    fn moved(
        &self,
        to: &Chart,
        (end, shift): (usize, isize),
        moments: impl IntoIterator<Item = (u64, ChartBeat)>,
    ) -> std::vec::IntoIter<Option<u64>> {
        let [before, after] = [self, to].map(|chart| chart.chorus(OptionalChords::Played));
        let (passes, places) = (passes(&before), places(&after));
        let moved = |(bar, beat): (u64, ChartBeat)| {
            let index = index_of(&before, bar)?;
            let (written, pass) = *passes.get(index)?;
            let written =
                if written < end { written } else { written.checked_add_signed(shift)? };
            let bar = number_of(&after, *places.get(&(written, pass))?)?;
            let there = |chorus: &Chorus, bar: u64| -> Option<_> {
                chorus.chords.at(beat.moment_in(bar, chorus)?).cloned()
            };
            let was = there(&before, number_of(&before, index)?);
            (was == there(&after, bar)).then_some(bar)
        };
        moments.into_iter().map(moved).collect::<Vec<_>>().into_iter()
    }
}

/// Bars as lines, and which of them is typed.
struct Page<'a> {
    lines: Vec<String>,
    typed: Option<usize>,
    /// How many signs stand before what is typed.
    begins: usize,
    text: &'a str,
}

impl Page<'_> {
    fn line_of(&self, fault: &BarFault) -> usize {
        fault.error.line().unwrap_or(1).saturating_sub(1)
    }

    /// What is wrong, told of what is typed, or of the bar in which it shows.
    fn told(&self, fault: &BarFault) -> ReadError {
        let (line, error) = (self.line_of(fault), &fault.error);
        let expected = error.expected().to_owned();
        let told = if self.typed == Some(line) {
            let at = error.at().saturating_sub(self.begins).max(1);
            ReadError::at_character("bar", self.text, at, expected)
        } else {
            let text = self.lines.get(line).map(String::as_str).unwrap_or_default();
            ReadError::at_character("bar", text, error.at(), expected)
        };
        match error.hint() {
            Some(hint) => told.with_hint(hint.to_owned()),
            None => told,
        }
    }
}

fn is_pick_up(text: &str) -> bool {
    text.trim_start().starts_with("pickup=")
}

/// The bar with the meter in which its text begins, where that is not the usual one.
fn in_meter(bar: &WrittenBar, meter: Meter) -> WrittenBar {
    let mut bar = bar.clone();
    if meter != Meter::COMMON {
        bar.opening.insert(0, OpeningMark::Meter(meter));
    }
    bar
}

/// For each bar that is heard, which written bar it is, and the how many-eth time that is heard.
fn passes(chorus: &Chorus) -> Vec<(usize, usize)> {
    let mut times: HashMap<usize, usize> = HashMap::new();
    let pass = |written: usize, times: &mut HashMap<usize, usize>| {
        let pass = times.entry(written).or_default();
        *pass += 1;
        (written, *pass)
    };
    chorus.heard.iter().map(|bar| pass(bar.written, &mut times)).collect()
}

/// Which heard bar each of them is.
fn places(chorus: &Chorus) -> HashMap<(usize, usize), usize> {
    passes(chorus).into_iter().enumerate().map(|(index, pass)| (pass, index)).collect()
}

/// The index of the heard bar with this number.
fn index_of(chorus: &Chorus, number: u64) -> Option<usize> {
    usize::try_from(number.checked_sub(chorus.first_number())?).ok()
}

fn number_of(chorus: &Chorus, index: usize) -> Option<u64> {
    chorus.first_number().checked_add(u64::try_from(index).ok()?)
}

impl Chorus {
    /// The number of its first bar: 1, or 0 where that is a pick-up.
    #[must_use]
    pub fn first_number(&self) -> u64 {
        let is_pick_up = self.bars.bar(0).is_some_and(|bar| bar.missing > Quarters::ZERO);
        u64::from(!is_pick_up)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ChartBeat;

    fn chart(text: &str) -> Chart {
        Chart::of(BarText::read(text, Meter::COMMON).unwrap())
    }

    /// What is typed in the place of bars, and the chart then.
    #[test]
    fn bars_are_typed_anew_added_and_taken_away() {
        for (text, bars, typed, then) in [
            ("Dm7 | G7 | C", 1..2, "Db7", "| Dm7 | Db7 | C |"),
            ("Dm7 | G7 | C", 1..2, "Am7 | D7 G7", "| Dm7 | Am7 | D7 G7 | C |"),
            ("Dm7 | G7 | C", 1..2, "", "| Dm7 | C |"),
            ("Dm7 | G7 | C", 3..3, "A7", "| Dm7 | G7 | C | A7 |"),
            ("Dm7 | G7 | C", 0..0, "A7", "| A7 | Dm7 | G7 | C |"),
            ("|: Dm7 | G7 :| C", 0..1, "|: Em7 A7", "|: Em7 A7 | G7 :| C |"),
            ("|: Dm7 | G7 :| C", 1..2, "G7 :|3", "|: Dm7 | G7 :|3 C |"),
            ("3/4 C | F", 1..2, "G", "| 3/4 C | G |"),
            ("3/4 C | F", 0..1, "C", "| C | F |"),
            ("3/4 C | F", 0..1, "", "| 3/4 F |"),
            ("pickup=1 | G7 | C | F", 2..3, "G", "pickup=1 | G7 | C | G |"),
            ("pickup=1 | G7 | C | F", 0..1, "pickup=2 | D7", "pickup=2 | D7 | C | F |"),
            ("[A] C | F | [B] G", 2..3, "[B] G7", "| [A] C | F |\n| [B] G7 |"),
            ("C | F |\n# turn\n G | C", 1..2, "Fm", "| C | Fm |\n# turn\n| G | C |"),
            ("C | F", 1..2, "%", "| C | % |"),
        ] {
            let then = chart(then);
            let typed = chart(text).retyped(bars, typed).unwrap();
            assert_eq!(typed, then, "{text}");
        }
    }

    #[test]
    fn what_a_bar_is_typed_as_leaves_the_chart_as_it_is() {
        let text = "pickup=1/2 | 3/4 G7 |: [A] Dm7 / G7 |1. C (A7) :|2. C | F | %% | % ToCoda | \
                    Dm7 D.C.alCoda | Coda C6 |";
        let chart = chart(text);
        for written in 0..chart.bars.bars().len() {
            let typed = chart.typed_bar(written).unwrap();
            assert_eq!(chart.retyped(written..written + 1, &typed).unwrap(), chart, "{typed}");
        }
        assert_eq!(chart.typed_bar(10), None);
    }

    /// The character is one of what was typed, wherever that stands.
    #[test]
    fn mistakes_are_told_of_what_is_typed() {
        let chart = chart("|: Dm7 | G7 :| C");
        for (typed, said) in [
            ("Dm7 Hm7", "cannot read the bar \"Dm7 Hm7\" at character 5: "),
            ("| Dm7 Hm7", "cannot read the bar \"| Dm7 Hm7\" at character 7: "),
            ("Dm7 / / / / /", "cannot read the bar \"Dm7 / / / / /\" at character 1: "),
        ] {
            let error = chart.retyped(2..3, typed).unwrap_err().to_string();
            assert!(error.starts_with(said), "{typed}: {error}");
        }
        let error = chart.retyped(1..2, "G7").unwrap_err().to_string();
        assert!(error.contains("expected") && error.contains("Dm7"), "{error}");
        assert!(chart.retyped(0..3, "").is_err());
        assert!(chart.retyped(7..9, "C | Hx").is_err());
    }

    #[test]
    fn what_is_settled_stays_with_its_chord() {
        let mut before = chart("|: Dm7 | G7 :| Cmaj7 A7 |");
        for (bar, beat) in [(2, "1"), (4, "1"), (5, "1"), (5, "3")] {
            let scale = Some("G altered".parse().unwrap());
            before.settle(ChartChoice {
                scale,
                ..ChartChoice::nothing(bar, beat.parse::<ChartBeat>().unwrap())
            });
        }
        let settled = |chart: &Chart| -> Vec<(u64, String)> {
            chart.choices.iter().map(|choice| (choice.bar, choice.beat.to_string())).collect()
        };
        let at = |bar, beat: &str| (bar, beat.to_owned());
        let longer = before.retyped(0..1, "Dm7 | Dm7").unwrap();
        assert_eq!(settled(&longer), [at(3, "1"), at(6, "1"), at(7, "1"), at(7, "3")]);
        let other = before.retyped(2..3, "Cmaj7 A7alt").unwrap();
        assert_eq!(settled(&other), [at(2, "1"), at(4, "1"), at(5, "1")]);
        let gone = before.retyped(1..2, "Db7 :|").unwrap();
        assert_eq!(settled(&gone), [at(5, "1"), at(5, "3")]);
    }
}
