//! The phrases of the line, where they are written out.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::made::Made;
use super::super::phrases::name;
use super::super::targets::aims_of;
use crate::answer::LineTarget;
use crate::library::AskedPhrase;
use crate::tui::widget::{below, write};

impl Drawing<'_> {
    /// A row for each phrase, with the one in hand in sight; all of them in one row where there is
    /// but one.
    pub(super) fn draw_phrases(&self, area: Rect, buffer: &mut Buffer) {
        let Some(made) = self.screen.made() else { return };
        let (phrases, in_hand) = (&self.screen.chosen.phrases, self.screen.in_hand());
        let told = |index: usize| {
            let words = phrases.get(index).map(|phrase| self.told(made, index, phrase));
            let mark = if index == in_hand { "▸" } else { " " };
            let style =
                if index == in_hand { self.shared.theme.text } else { self.shared.theme.muted };
            Span::styled(format!("{mark}{}", words.unwrap_or_default()), style)
        };
        if area.height == 1 {
            write(buffer, area, &one_row(phrases.len(), in_hand, area.width, told));
            return;
        }
        let rows = usize::from(area.height);
        let first = in_hand.saturating_sub(rows / 2).min(phrases.len().saturating_sub(rows));
        for (row, index) in (0..area.height).zip(first..phrases.len()) {
            write(buffer, below(area, row), &Line::from(told(index)));
        }
    }

    /// `2 F & G answer of 1 in V → 3 of Cmaj7 ✓`
    fn told(&self, made: &Made, index: usize, phrase: &AskedPhrase) -> String {
        let is_wide = phrase.is_wide.then(|| "wide".to_owned());
        let like = phrase.like.as_ref().map(|like| format!("answer of {like}"));
        let pattern = phrase.pattern.as_ref().map(ToString::to_string);
        let notes = phrase.notes.as_ref().map(|_| "free notes".to_owned());
        let first = made.answer.parts_of(index).next();
        let told = first.and_then(|first| made.answer.phrases.get(first));
        let of_pair = told.and_then(|told| told.of_pair.as_ref());
        let pair = of_pair.map(|of_pair| {
            let [first, second] = of_pair.pair.names();
            format!("{first} & {second}")
        });
        let place = phrase
            .area
            .map(|_| self.screen.chosen.place_of(Some(index), self.shared.neck()).in_short());
        let words = [Some(name(index)), pair, like, pattern, notes, is_wide, place];
        let words = words.into_iter().flatten();
        words.chain(landings(made, index, phrase)).collect::<Vec<_>>().join(" ")
    }
}

/// What it goes through and where it lands, each as [`landing`] tells it.
fn landings(made: &Made, index: usize, phrase: &AskedPhrase) -> Vec<String> {
    let aims = aims_of(phrase, &made.answer.question.chords);
    let aimed =
        |part: &usize| made.answer.made_of().get(*part).is_some_and(|part| part.target.is_some());
    let parts: Vec<usize> = made.answer.parts_of(index).filter(aimed).collect();
    // Notes that are entered lead to the last alone.
    let aims = aims.iter().skip(aims.len().saturating_sub(parts.len()));
    aims.zip(parts).map(|(asked, part)| landing(made, part, *asked)).collect()
}

/// `→ 3 of G7 ✓` where it lands as it should; `→ 3@2.1 ✗` where a changed note is another one.
fn landing(made: &Made, part: usize, asked: LineTarget) -> String {
    let landed = made.answer.phrases.get(part).and_then(|told| told.target);
    let chords = &made.answer.question.chords;
    let chord = landed.and_then(|landed| chords.at(chords.moment(landed.moment())?));
    match (landed, chord.and_then(|chord| chord.over.chord())) {
        (Some(landed), Some(chord)) => format!("→ {} of {chord} ✓", landed.wanted),
        (Some(landed), None) => format!("→ {} ✓", landed.wanted),
        (None, _) => format!("→ {asked:#} ✗"),
    }
}

/// As many as there is room for in one row, from the first on that leaves room for the one in hand.
fn one_row<'a>(
    count: usize,
    in_hand: usize,
    width: u16,
    told: impl Fn(usize) -> Span<'a>,
) -> Line<'a> {
    let gap = || Span::raw("  ");
    let row = |first: usize, last: usize| {
        Line::from((first..=last).flat_map(|index| [told(index), gap()]).collect::<Vec<_>>())
    };
    let fits = |first: &usize| row(*first, in_hand).width() <= usize::from(width);
    let first = (0..=in_hand).find(fits).unwrap_or(in_hand);
    row(first, count.saturating_sub(1))
}
