//! Drawing the explorer on any number of cells.

mod details;
mod head;
mod lists;
mod pairs;
mod shape;
mod tunings;

use fretloom_fretboard::{Fret, FretRange};
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::drawing::Drawing;
use super::neck_view::NeckView;
use super::overlay::Overlay;
use crate::answer::{marks, marks_in_view, marks_left_out};
use crate::picture::{Labels, Mark, NeckPicture};
use crate::tui::widget::{NeckWidget, indented, write};

/// How much there is room for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum SizeClass {
    /// Not even the whole neck: the chord, the pair and a word about it.
    TooSmall,
    /// 80×24 and about: everything of the main job.
    Full,
    /// Room beside the pairs for the scales.
    Wide,
}

impl SizeClass {
    const LEAST_COLUMNS: u16 = 40;
    const WIDE: u16 = 124;

    /// The class of an area for a neck of that height.
    fn of(area: Rect, neck_rows: u16) -> SizeClass {
        match area {
            _ if area.height < least_rows(neck_rows) => SizeClass::TooSmall,
            Rect { width, .. } if width < SizeClass::LEAST_COLUMNS => SizeClass::TooSmall,
            Rect { width, .. } if width >= SizeClass::WIDE => SizeClass::Wide,
            _ => SizeClass::Full,
        }
    }
}

/// Head (two rows), heading of the list, line above the neck, shape, footer.
const FRAME_ROWS: u16 = 2 + 1 + 1 + 1 + 1;

/// The rows that the explorer needs: its frame, the neck, and one pair.
fn least_rows(neck_rows: u16) -> u16 {
    FRAME_ROWS + neck_rows + 1
}

/// Rows for the list of pairs with what the chosen one says, and for the words below the neck, from
/// the rows that the frame and the neck leave.
struct Shares {
    list: u16,
    told: u16,
}

impl Shares {
    /// Rows under the list of pairs for what the chosen one says.
    const DETAIL: u16 = 3;
    /// So many pairs before anything else.
    const FIRST_PAIRS: u16 = 4;
    /// Every pair of a scale of seven notes.
    const SEVEN_PAIRS: u16 = 7;
    /// What the ladders of a guitar take at 80 columns, with a row before them.
    const LADDERS: u16 = 9;
    /// The longest list of scales beside the pairs.
    const SCALES: u16 = 16;

    /// What is shown has no say in it, so that the neck stays on its rows when chords change.
    fn of(room: u16) -> Shares {
        // Rather one line less about the shape than a list of one pair.
        let told =
            if room > Self::FIRST_PAIRS + Self::DETAIL + 1 { 2 } else { u16::from(room > 1) };
        let room = room.saturating_sub(told);
        let detail = room.saturating_sub(Self::FIRST_PAIRS).min(Self::DETAIL);
        let room = room - detail;
        let most = Self::SCALES.max(room / 2);
        let pairs = room.saturating_sub(Self::LADDERS).clamp(room.min(Self::SEVEN_PAIRS), most);
        Shares { list: (pairs + detail).max(1), told }
    }
}

impl Drawing<'_> {
    /// Draws the explorer, or the list that lies over it; every size is a valid one.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        match &self.explore.overlay {
            Some(Overlay::Tunings(tunings)) => self.draw_tunings(area, buffer, tunings),
            Some(Overlay::Scales(_)) => self.draw_scale_list(area, buffer),
            Some(Overlay::Details(top)) => self.draw_details(area, buffer, *top),
            Some(Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_)) | None => {
                self.draw_explorer(area, buffer);
            }
        }
    }

    fn draw_least(&self, area: Rect, buffer: &mut Buffer, neck_rows: u16) {
        if let Some((label, field)) = self.typed() {
            self.draw_field(area, buffer, label, field);
            return;
        }
        let (columns, rows) = (SizeClass::LEAST_COLUMNS, least_rows(neck_rows));
        let pair = self.explore.pair().map(|pair| pair.name().to_string());
        let lines = vec![
            Line::styled(self.explore.chosen.chord.read.chord.to_string(), self.shared.theme.title),
            Line::raw(pair.unwrap_or_default()),
            Line::styled(format!("more from {columns}×{rows} on"), self.shared.theme.muted),
        ];
        Paragraph::new(lines).wrap(Wrap { trim: true }).render(area, buffer);
    }

    /// Where everything lies: head, list, what the pair says, rule, neck, shape, ladder, footer.
    fn areas(&self, area: Rect, picture: &NeckPicture) -> [Rect; 8] {
        let shares = Shares::of(area.height.saturating_sub(FRAME_ROWS + picture.height()));
        let spare = shares.list.saturating_sub(Shares::FIRST_PAIRS + Shares::DETAIL);
        let head_rows = self.head_rows(area.width, spare);
        // What is typed and explained takes rows of the list, and none of the neck.
        let list = (shares.list + 2).saturating_sub(head_rows).max(1);
        let beside = if area.width < SizeClass::WIDE { 0 } else { self.explore.shown.scales.len() };
        let all = (self.explore.shown.pairs.classes.len().max(beside) as u16).max(1);
        let pairs = all.min(list.saturating_sub(Shares::DETAIL)).max(list.min(Shares::FIRST_PAIRS));
        let pairs = pairs.min(all);
        area.layout(&Layout::vertical([
            Constraint::Length(head_rows),
            Constraint::Length(1 + pairs),
            Constraint::Length(list - pairs.min(list)),
            Constraint::Length(1),
            Constraint::Length(picture.height()),
            Constraint::Length(1 + shares.told),
            Constraint::Fill(1),
            Constraint::Length(1),
        ]))
    }

    /// Where the pairs, the scales beside them, the neck and the footer are, for who points at them;
    /// none where they are not drawn.
    pub(super) fn places_to_point_at(&self, area: Rect) -> Option<[Rect; 4]> {
        let picture = self.picture();
        if SizeClass::of(area, picture.height()) == SizeClass::TooSmall {
            return None;
        }
        let [_, list, _, _, neck, _, _, footer] = self.areas(area, &picture);
        let [pairs, scales] = split(list);
        Some([pairs, scales, indented(neck), footer])
    }

    fn draw_explorer(&self, area: Rect, buffer: &mut Buffer) {
        let picture = &self.picture();
        if SizeClass::of(area, picture.height()) == SizeClass::TooSmall {
            self.draw_least(area, buffer, picture.height());
            return;
        }
        let [head, list, detail, rule, neck, shape, ladder, footer] = self.areas(area, picture);
        self.draw_head(head, buffer);
        self.draw_choices(list, buffer);
        self.draw_detail(detail, buffer);
        self.draw_rule(rule, buffer, picture);
        NeckWidget::new(picture, &self.shared.theme).render(indented(neck), buffer);
        self.draw_shape(shape, buffer);
        self.draw_ladder(ladder, buffer);
        self.footer().draw(footer, buffer);
    }

    /// The pairs and, where there is room, the scales beside them.
    fn draw_choices(&self, area: Rect, buffer: &mut Buffer) {
        if area.width < SizeClass::WIDE {
            self.draw_pairs(area, buffer);
            return;
        }
        let [pairs, scales] = split(area);
        self.draw_pairs(pairs, buffer);
        self.draw_scales(scales, buffer);
    }

    /// The neck as it is to be drawn now.
    pub(super) fn picture(&self) -> NeckPicture {
        let mut picture = NeckPicture::new(self.shared.neck(), self.marks())
            .within(self.frets_to_the_end())
            .with_fret_widths(self.shared.setup.fret_widths)
            .keeping(self.explore.kept_places().map(|place| place.place));
        if let Some(shape) = self.explore.shape_in_hand() {
            picture = picture.holding(&shape);
            if self.explore.chosen.labels == Labels::Finger {
                picture = picture.fingered(&shape);
            }
        }
        self.shared.lying(match self.explore.strings() {
            Some(set) if self.explore.chosen.locked => picture.locked_to(set),
            _ => picture,
        })
    }

    /// The notes on the neck. Those that the pair leaves out come first, so that its own hide them.
    fn marks(&self) -> Vec<Mark> {
        let left_out: &[_] =
            if self.explore.chosen.shows_left_out { &self.explore.shown.left_out } else { &[] };
        let of_pair = match self.explore.view_places() {
            Some(view) => {
                marks_in_view(&self.explore.shown.places, view, self.explore.chosen.labels)
            }
            None => marks(&self.explore.shown.places, self.explore.chosen.labels),
        };
        marks_left_out(left_out, self.explore.chosen.labels).into_iter().chain(of_pair).collect()
    }

    /// The frets from the first one in view on.
    fn frets_to_the_end(&self) -> FretRange {
        let first = Fret::new(self.explore.chosen.first_fret).unwrap_or(Fret::HIGHEST);
        FretRange::new(first, Fret::HIGHEST).unwrap_or(FretRange::WHOLE_NECK)
    }

    /// The columns that the neck has at the size last told of.
    pub(super) fn neck_width(&self) -> u16 {
        indented(Rect::new(0, 0, self.shared.size.width, 1)).width
    }

    /// What the neck shows: the view, or the strings that the ladder climbs.
    fn view_in_words(&self) -> String {
        let set = self.explore.strings().map(|set| set.to_string()).unwrap_or_default();
        let locked = self.explore.chosen.locked;
        match (&self.explore.shown.view, self.explore.chosen.view) {
            (Some(view), NeckView::Position(_) | NeckView::Across(_)) if locked => {
                format!("{}, locked to {set}", view.title)
            }
            (Some(view), _) => view.title.clone(),
            (None, _) if locked => format!("locked to {set}"),
            (None, _) => format!("strings {set}"),
        }
    }

    /// `─ frets 1–11 of 22 ─ [G] & (A) ─ strings 4-3-2 ─ shown: note ────`: as much of it as there is
    /// room for.
    fn draw_rule(&self, area: Rect, buffer: &mut Buffer, picture: &NeckPicture) {
        let columns = picture.columns(indented(area).width);
        let last = self.shared.neck().tuning().last_fret();
        let (first, shown) = (columns.first_shown(), columns.last_shown());
        let (labels, of_which) = (self.explore.chosen.labels.word(), self.labels_of());
        let (before, view) = (format!("frets {first}–{shown}"), self.view_in_words());
        let lines = [
            self.rule(&format!("{before} of {last}"), &format!("shown: {labels}{of_which}")),
            self.rule(&before, &format!("shown: {labels}{of_which}")),
            self.rule(&before, &format!("shown: {labels}")),
            self.rule(&before, labels),
            Line::styled(format!("─ {before} ─ {view} ─ {labels} "), self.shared.theme.muted),
        ];
        let fits = |line: &&Line<'_>| line.width() <= usize::from(area.width);
        let Some(mut line) = lines.iter().find(fits).or(lines.last()).cloned() else { return };
        let rest = usize::from(area.width).saturating_sub(line.width());
        line.push_span(Span::styled("─".repeat(rest), self.shared.theme.muted));
        write(buffer, area, &line);
    }

    /// Whose fingers the marks show.
    fn labels_of(&self) -> &'static str {
        let holds = self.explore.shape_in_hand().is_some();
        let gives_fingers = match self.explore.chosen.view {
            NeckView::Whole | NeckView::Set(_) => false,
            NeckView::Position(_) | NeckView::Across(_) | NeckView::Two(_) => true,
        };
        match (self.explore.chosen.labels, holds, gives_fingers) {
            (Labels::Finger, true, true) => ", ═ of the shape",
            (Labels::Finger, true, false) => " of the shape",
            (Labels::Finger, false, _)
            | (Labels::Note | Labels::Degree | Labels::Member | Labels::Order, ..) => "",
        }
    }

    /// The line above the neck with these words for its frets and for the labels.
    fn rule(&self, frets: &str, shown: &str) -> Line<'static> {
        let muted = self.shared.theme.muted;
        let mut line = Line::styled(format!("─ {frets} ─ "), muted);
        if let Some(pair) = self.explore.pair() {
            line.push_span(Span::styled(format!("[{}]", pair.first.name), self.shared.theme.first));
            line.push_span(Span::styled(" & ", muted));
            line.push_span(Span::styled(
                format!("({})", pair.second.name),
                self.shared.theme.second,
            ));
            line.push_span(Span::styled(" ─ ", muted));
        }
        line.push_span(Span::styled(format!("{} ─ {shown} ", self.view_in_words()), muted));
        line
    }
}

/// The pairs, and the scales beside them where there is room.
fn split(list: Rect) -> [Rect; 2] {
    if list.width < SizeClass::WIDE {
        return [list, Rect::ZERO];
    }
    let [pairs, _, scales] = list.layout(&Layout::horizontal([
        Constraint::Fill(3),
        Constraint::Length(2),
        Constraint::Fill(2),
    ]));
    [pairs, scales]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every share fits its room: the classic size leaves 10 rows beside frame and neck of a guitar.
    #[test]
    fn rooms_are_shared_out() {
        for room in 0..200 {
            let Shares { list, told } = Shares::of(room);
            assert!(list + told <= room.max(1), "{room}");
        }
        assert_eq!((Shares::of(10).list, Shares::of(10).told), (8, 2));
        assert_eq!((Shares::of(1).list, Shares::of(1).told), (1, 0));
    }

    #[test]
    fn sizes_fall_into_three_classes() {
        let class = |width, height| SizeClass::of(Rect::new(0, 0, width, height), 8);
        assert_eq!(class(0, 0), SizeClass::TooSmall);
        assert_eq!(class(39, 60), SizeClass::TooSmall);
        assert_eq!(class(200, 14), SizeClass::TooSmall);
        assert_eq!(class(40, 15), SizeClass::Full);
        assert_eq!(class(80, 24), SizeClass::Full);
        assert_eq!(class(123, 60), SizeClass::Full);
        assert_eq!(class(124, 24), SizeClass::Wide);
    }
}
