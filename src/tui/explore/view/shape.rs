//! The shape in hand in words, and the rungs of its ladder.

use fretloom_fretboard::{Ease, Finger, Fret, Rung, Shape};
use fretloom_theory::WhichTriad;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::in_hand::InHand;
use super::super::neck_view::NeckView;
use crate::answer::NamedShape;
use crate::tui::command::{Command, ExploreCommand};
use crate::tui::widget::{below, broken, cut_to, indented, write};
use crate::words::{dashed, inversion};

impl Drawing<'_> {
    /// The shape in hand; below it what the last key has to tell, what the view hides, or why these
    /// fingers.
    pub(super) fn draw_shape(&self, area: Rect, buffer: &mut Buffer) {
        let fits = |brevity: &Brevity| self.shape_line(*brevity).width() <= usize::from(area.width);
        let brevity = Brevity::ALL.into_iter().find(fits).unwrap_or(Brevity::Inversion);
        write(buffer, below(area, 0), &self.shape_line(brevity));
        let rows = indented(Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area });
        let told = self.told_of_shape(rows.width, rows.height);
        for (line, row) in told.into_iter().zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(line, self.shared.theme.muted));
        }
    }

    /// What there is to tell under the shape: the news of the last key first, then as far as there are
    /// rows what the view hides, or why these fingers.
    fn told_of_shape(&self, width: u16, rows: u16) -> Vec<String> {
        let notice = self.shared.notice.clone();
        let moved = self.explore.moved.as_ref().map(ToString::to_string);
        let news: Vec<String> =
            [notice, self.hand_out_of_sight(), moved].into_iter().flatten().collect();
        let apart: Vec<String> = news.iter().flat_map(|text| broken(text, width)).collect();
        let mut lines = if apart.len() <= usize::from(rows) {
            apart
        } else {
            broken(&news.join(" · "), width)
        };
        let view = self.explore.shown.view.as_ref().map(|view| view.told.clone());
        let hand = self.explore.shown.hand.as_ref().map(InHand::told);
        let rest = usize::from(rows).saturating_sub(lines.len());
        let why = view.or(hand).iter().flat_map(|text| broken(text, width)).collect();
        lines.extend(cut_to(why, rest));
        cut_to(lines, usize::from(rows))
    }

    /// Where the hand is, if the neck is scrolled away from it, and the key that goes there.
    fn hand_out_of_sight(&self) -> Option<String> {
        let frets = self.explore.shape_in_hand()?.frets();
        let columns = self.picture().columns(self.neck_width());
        let shown = columns.first_shown()..=columns.last_shown();
        let is_seen = |fret: &Fret| fret.is_open() || shown.contains(fret);
        let key = self.shared.key_of(Command::Explore(ExploreCommand::ToHand));
        let words = || format!("the hand is out of sight: {key} goes there");
        (!frets.iter().all(is_seen)).then(words)
    }

    /// The shape in hand in words, all of them.
    pub(in crate::tui::explore) fn shape_in_words(&self) -> String {
        self.shape_line(Brevity::Nothing).to_string()
    }

    /// The shape in hand in words, some of them shorter.
    fn shape_line(&self, brevity: Brevity) -> Line<'static> {
        let (Some(named), Some(which)) = (
            self.explore.shape(self.shared.neck()),
            self.explore.shown.hand.as_ref().map(InHand::which),
        ) else {
            let none = match (self.explore.pair(), self.run_line()) {
                (None, _) => " no pair, no shape".to_owned(),
                (Some(_), Some(run)) => run,
                (Some(_), None) => {
                    format!(" no shape of this pair {}", self.explore.area_in_words())
                }
            };
            return Line::styled(none, self.shared.theme.muted);
        };
        let at = self.explore.shape_in_hand().map(|held| held.position().to_string());
        let [on, position] = brevity.words_for_strings_and_position();
        let words = [
            brevity.inversion(&named.shape),
            format!("frets {} {on} {}", dashed(named.frets), named.shape.string_set()),
            format!("{position} {}", at.unwrap_or_default()),
            fingers(&named.shape),
            brevity.stretch(&named),
        ];
        let words: Vec<String> = words.into_iter().filter(|words| !words.is_empty()).collect();
        Line::from(vec![
            Span::raw(" "),
            Span::styled(format!("{} ", self.name_of(which)), self.style_of(which)),
            Span::raw(words.join(" · ")),
        ])
    }

    /// A run of single notes in words: ` G 5 · A 7 · B 4 …  position III then IV`.
    fn run_line(&self) -> Option<String> {
        let NeckView::Two(_) = self.explore.chosen.view else { return None };
        let mut places = self.explore.view_places()?.to_vec();
        places.sort_by_key(|place| place.in_view.map(|seen| seen.order));
        let notes = places.iter().map(|place| format!("{} {}", place.note, place.fret));
        let fingers = places.iter().filter_map(|place| place.in_view?.finger);
        let fingers: Vec<String> = fingers.map(|finger| finger.number().to_string()).collect();
        let mut words = vec![notes.collect::<Vec<_>>().join("  ")];
        words.extend((!fingers.is_empty()).then(|| format!("fingers {}", fingers.join(" "))));
        (!places.is_empty()).then(|| format!(" {}", words.join(" · ")))
    }

    /// Every rung of the ladder, and below it those of the other strings, each as far as there is
    /// room for all of it.
    pub(super) fn draw_ladder(&self, area: Rect, buffer: &mut Buffer) {
        let area = indented(area);
        let others =
            (0..self.explore.shown.sets.len()).filter(|set| *set != self.explore.chosen.set);
        let mut row = 1;
        for set in std::iter::once(self.explore.chosen.set).chain(others) {
            let lines = self.ladder_lines(set, area.width);
            if row + lines.len() as u16 > area.height {
                return;
            }
            for line in &lines {
                write(buffer, below(area, row), line);
                row += 1;
            }
        }
    }

    /// `strings 4-3-2, going up:  [G] 5-4-3  (A) 7-6-5 …`
    fn ladder_lines(&self, set: usize, width: u16) -> Vec<Line<'static>> {
        let (Some(strings), Some(_)) =
            (self.explore.shown.sets.get(set).copied(), self.explore.pair())
        else {
            return Vec::new();
        };
        let going_up = if set == self.explore.chosen.set { ", going up" } else { "" };
        let heading = format!("strings {strings}{going_up}:");
        let mut used = heading.chars().count();
        let mut lines = vec![Line::from(Span::styled(heading, self.shared.theme.muted))];
        let rungs = self.explore.shown.everywhere.rungs().iter();
        for rung in rungs.filter(|rung| rung.shape.string_set() == strings) {
            let span = self.rung_span(rung);
            let columns = span.content.chars().count();
            let Some(line) = lines.last_mut() else { continue };
            if used + 2 + columns > usize::from(width) {
                lines.push(Line::from(span));
                used = columns;
            } else {
                line.push_span(Span::raw("  "));
                line.push_span(span);
                used += 2 + columns;
            }
        }
        lines
    }

    /// `▸[G] 5-4-3`
    fn rung_span(&self, rung: &Rung) -> Span<'static> {
        let of_triad = self.style_of(rung.which);
        let in_hand = self.explore.rung_in_hand().map(|held| held.shape.places());
        let held = Some(rung.shape.places()) == in_hand;
        let quiet =
            self.explore.chosen.locked && Some(rung.shape.string_set()) != self.explore.strings();
        let style = match (held, quiet) {
            (true, _) => of_triad.patch(self.shared.theme.held),
            (false, true) => self.shared.theme.muted,
            (false, false) => of_triad,
        };
        let frets = rung.shape.places().map(|place| self.shared.neck().fret_number(place).number());
        let mark = if held { "▸" } else { "" };
        Span::styled(format!("{mark}{} {}", self.name_of(rung.which), dashed(frets)), style)
    }

    fn style_of(&self, which: WhichTriad) -> Style {
        match which {
            WhichTriad::First => self.shared.theme.first,
            WhichTriad::Second => self.shared.theme.second,
        }
    }

    /// `[G]` or `(A)`, as on the neck.
    fn name_of(&self, which: WhichTriad) -> String {
        match (which, self.explore.pair()) {
            (WhichTriad::First, Some(pair)) => format!("[{}]", pair.first.name),
            (WhichTriad::Second, Some(pair)) => format!("({})", pair.second.name),
            (_, None) => String::new(),
        }
    }
}

/// What is said more shortly of the shape in hand, with all that stands before it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Brevity {
    /// Nothing.
    Nothing,
    /// `pos. III`
    Position,
    /// No millimetres, but whether it is wide.
    Stretch,
    /// `on 4-3-2`
    Strings,
    /// `1st inv.`
    Inversion,
}

impl Brevity {
    const ALL: [Brevity; 5] = [
        Brevity::Nothing,
        Brevity::Position,
        Brevity::Stretch,
        Brevity::Strings,
        Brevity::Inversion,
    ];

    fn words_for_strings_and_position(self) -> [&'static str; 2] {
        let on = if self >= Brevity::Strings { "on" } else { "on strings" };
        [on, if self >= Brevity::Position { "pos." } else { "position" }]
    }

    fn inversion(self, shape: &Shape) -> String {
        let words = inversion(shape.inversion(), shape.by_name_only());
        if self < Brevity::Inversion {
            return words;
        }
        words.replace("inversion", "inv.").replace("root position", "root")
    }

    /// How far apart the outer fingers are, and whether that is wide for a hand.
    fn stretch(self, named: &NamedShape) -> String {
        match (named.shape.ease(), named.stretch_mm(), self >= Brevity::Stretch) {
            (_, mm, _) if mm <= 0.0 => String::new(),
            (Ease::Wide, _, true) => "wide".to_owned(),
            (Ease::Wide, mm, false) => format!("{mm:.0} mm, wide"),
            (Ease::Easy | Ease::Beyond, _, true) => String::new(),
            (Ease::Easy | Ease::Beyond, mm, false) => format!("{mm:.0} mm"),
        }
    }
}

/// The fingers, and whether one of them, which then stands twice, lies flat.
fn fingers(shape: &Shape) -> String {
    let Some(fingers) = shape.fingers() else { return "beyond one hand".to_owned() };
    let flat = if shape.barre().is_some() { " barre" } else { "" };
    format!("fingers {}{flat}", dashed(fingers.map(Finger::number)))
}
