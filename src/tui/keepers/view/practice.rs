//! Drawing what is practised: what it is, its tab and its neck, how it goes, and what comes next.

use fretloom_fretboard::{Fret, FretRange};
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Widget;

use super::super::drawing::Drawing;
use super::super::practice::{InTurn, Practice, Stage};
use super::super::{day, signs};
use crate::answer::{Drill, DrillPart, TurnAnswer, tempo_curve};
use crate::glyphs::printable_line;
use crate::picture::{NeckPicture, TabBelow, TabLook, TabRowKind, TabSystem};
use crate::practice::Why;
use crate::store::KeptThing;
use crate::tui::sound::SoundRow;
use crate::tui::widget::{NeckWidget, below, broken, cut_to, indented, write};
use crate::words::counted;

/// What is said to everybody who practises.
const CARE: &str = "Warm up, rest, and stop when it hurts; then ask a teacher or a clinician.";

/// The fewest rows of tablature: its strings alone, of four strings.
const LEAST_TAB: u16 = 4;

/// Where everything lies.
struct Areas {
    head: Rect,
    tab: Rect,
    rule: Rect,
    neck: Rect,
    words: Rect,
    care: Rect,
}

impl Drawing<'_> {
    /// Draws what is practised; every size is a valid one. The footer is drawn by the screen.
    pub(super) fn draw_practice(&self, area: Rect, buffer: &mut Buffer, practice: &Practice) {
        let picture = practice.turn.as_ref().and_then(|turn| self.picture(turn));
        let areas = areas(area, picture.as_ref().map_or(0, NeckPicture::height));
        self.draw_day(below(areas.head, 0), buffer, practice);
        self.draw_item(below(areas.head, 1), buffer, practice);
        match (practice.stage, &practice.turn) {
            (Stage::Rest, _) => self.draw_lines(areas.tab, buffer, self.rest_in_words(practice)),
            (Stage::Over, _) | (_, None) => {
                self.draw_lines(areas.tab, buffer, self.end_in_words(practice));
            }
            (Stage::Ready | Stage::Trying(_), Some(turn)) => {
                self.draw_music(areas.tab, buffer, turn, practice);
                self.draw_stage(areas.rule, buffer, turn, practice);
                if let Some(picture) = picture.filter(|_| !areas.neck.is_empty()) {
                    NeckWidget::new(&picture, &self.shared.theme)
                        .render(indented(areas.neck), buffer);
                }
                self.draw_how_it_goes(areas.words, buffer, turn, practice);
            }
        }
        write(buffer, indented(areas.care), &Line::styled(CARE, self.shared.theme.muted));
    }

    /// `Today   turn 3 of 7   12 of 20 minutes`, and the tempo at the right.
    fn draw_day(&self, area: Rect, buffer: &mut Buffer, practice: &Practice) {
        let theme = &self.shared.theme;
        let (count, minutes) = (practice.turns.len(), practice.minutes(self.shared));
        let turn = match practice.stage {
            Stage::Over => String::new(),
            Stage::Ready | Stage::Trying(_) | Stage::Rest => {
                format!("   turn {} of {count}", practice.at + 1)
            }
        };
        let of_day = self.shared.practice.minutes;
        let mut line = Line::from(vec![Span::raw(" "), Span::styled("Practice", theme.title)]);
        line.push_span(Span::raw(turn));
        line.push_span(Span::styled(format!("   {minutes} of {of_day} min"), theme.muted));
        write(buffer, area, &line);
        if let Some(turn) = &practice.turn {
            let click = self.shared.sound.value_of(SoundRow::Click);
            let told = format!("♩={}  click: {click} ", turn.ladder.tempo());
            write_right(buffer, area, line.width(), &told, theme.key);
        }
    }

    /// The keeper in its key, and what comes next, shown from a bar before the end of a try on.
    fn draw_item(&self, area: Rect, buffer: &mut Buffer, practice: &Practice) {
        let theme = &self.shared.theme;
        let Some(here) = practice.here() else { return };
        let mut line = Line::from(vec![
            Span::raw(" "),
            Span::styled(title(here, practice.turn.as_ref()), theme.title),
        ]);
        let unit = &here.turn.unit;
        let strings = unit.strings.map(|set| format!("strings {set}"));
        let limit = unit.limit.map(|limit| limit.to_string());
        let words: Vec<String> = strings.into_iter().chain(limit).collect();
        line.push_span(Span::raw(format!("   {}", words.join(", "))));
        write(buffer, area, &line);
        if let Some(next) = self.next_in_words(practice) {
            write_right(buffer, area, line.width(), &format!("{next} "), theme.key);
        }
    }

    /// `next: E♭maj7♯11`, once the last bar of a try has begun; of a turn that goes on: `once more at 64`.
    fn next_in_words(&self, practice: &Practice) -> Option<String> {
        let turn = practice.turn.as_ref()?;
        let moment = practice.moment()?;
        turn.drill.as_ref().ok().filter(|drill| drill.is_near_its_end(moment))?;
        if !practice.is_turn_over(self.shared) {
            let next = turn.ladder.after(crate::store::Verdict::Got).tempo();
            return Some(format!("then once more at {next}"));
        }
        let next = practice.next()?;
        Some(format!("next: {}", title(next, None)))
    }

    /// The tablature; of a tune the chord that sounds, its pair, and the one after.
    fn draw_music(&self, area: Rect, buffer: &mut Buffer, turn: &InTurn, practice: &Practice) {
        match (&turn.drill, &turn.tab) {
            (Err(why), _) => {
                let lines = broken(why, area.width.saturating_sub(2));
                self.draw_lines(area, buffer, lines);
            }
            (Ok(drill), Some(_)) => self.draw_tab(area, buffer, turn, (drill, practice)),
            (Ok(drill), None) => self.draw_lines(area, buffer, chords_in_words(drill, practice)),
        }
    }

    fn draw_tab(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        turn: &InTurn,
        (drill, practice): (&Drill, &Practice),
    ) {
        let Some(tab) = &turn.tab else { return };
        let inside = indented(area);
        let width = usize::from(inside.width.saturating_sub(1));
        let fits = |systems: &Vec<TabSystem>| {
            let rows: usize = systems.iter().map(|system| system.rows.len()).sum();
            rows + systems.len().saturating_sub(1) <= usize::from(area.height)
        };
        let mut all = looks(width).map(|look| tab.systems(&look)).into_iter();
        let least = tab.systems(&looks(width)[3]);
        let systems = all.find(fits).unwrap_or(least);
        let played = practice.moment().and_then(|moment| drill.in_phrase(moment));
        let notes = drill.phrase.as_ref().map(|phrase| phrase.notes.as_slice()).unwrap_or_default();
        let here = played.and_then(|at| {
            let sounds =
                |index: &usize| notes.get(*index).is_some_and(|told| told.note.onset <= at);
            (0..notes.len()).take_while(sounds).last()
        });
        let mut row = 0;
        for (index, system) in systems.iter().enumerate() {
            row += u16::from(index > 0);
            for line in &system.rows {
                let at = below(inside, row);
                let style = self.style_of_row(line.kind);
                write(buffer, at, &Line::styled(line.text.clone(), style));
                self.mark_note(at, buffer, (system, line.kind), here);
                row += 1;
            }
        }
    }

    /// The note that is heard, or to be played now.
    fn mark_note(
        &self,
        row: Rect,
        buffer: &mut Buffer,
        (system, kind): (&TabSystem, TabRowKind),
        here: Option<usize>,
    ) {
        let is_here = |spot: &&crate::picture::TabSpot| {
            Some(spot.event) == here && kind == TabRowKind::String(spot.string)
        };
        for spot in system.spots.iter().filter(is_here) {
            let columns = spot.column..spot.column + spot.width;
            for column in columns.filter_map(|column| u16::try_from(column).ok()) {
                let at = (row.x.saturating_add(column), row.y);
                if column < row.width
                    && !row.is_empty()
                    && let Some(cell) = buffer.cell_mut(at)
                {
                    cell.set_style(self.shared.theme.held);
                }
            }
        }
    }

    fn style_of_row(&self, kind: TabRowKind) -> Style {
        let theme = &self.shared.theme;
        match kind {
            TabRowKind::Chords => theme.title,
            TabRowKind::String(_) => theme.string,
            TabRowKind::Below(_) => theme.text,
            TabRowKind::Bars
            | TabRowKind::Positions
            | TabRowKind::Accents
            | TabRowKind::Strokes
            | TabRowKind::Count
            | TabRowKind::Fingers(_) => theme.muted,
        }
    }

    /// The neck with the notes of the phrase.
    fn picture(&self, turn: &InTurn) -> Option<NeckPicture> {
        let drill = turn.drill.as_ref().ok()?;
        if turn.marks.is_empty() {
            return None;
        }
        let picture = NeckPicture::new(&drill.neck, turn.marks.clone())
            .with_fret_widths(self.shared.setup.fret_widths);
        let frets = turn.marks.iter().map(|mark| mark.place.fret.number()).filter(|fret| *fret > 0);
        let (lowest, highest) = (frets.clone().min().unwrap_or(1), frets.max().unwrap_or(1));
        let width = indented(Rect::new(0, 0, self.shared.size.width, 1)).width;
        let in_view = picture.columns(width).last_shown().number();
        let first = (highest + 1).saturating_sub(in_view).min(lowest).max(1);
        let first = Fret::new(first).unwrap_or(Fret::OPEN);
        let range = FretRange::new(first, Fret::HIGHEST).unwrap_or(FretRange::WHOLE_NECK);
        Some(self.shared.lying(picture.within(range)))
    }

    /// `─ listen ───`, `─ now you ───`, `─ got it? Space ───`
    fn draw_stage(&self, area: Rect, buffer: &mut Buffer, turn: &InTurn, practice: &Practice) {
        let theme = &self.shared.theme;
        let key = self.key_to_go_on();
        let (words, style) = match (practice.stage, &turn.drill) {
            (Stage::Trying(Some(moment)), Ok(drill)) => match drill.part_at(moment) {
                DrillPart::Heard => ("listen".to_owned(), theme.text),
                DrillPart::Answered => (format!("now you; {key} when you have got it"), theme.key),
                DrillPart::Judged => (format!("got it? {key}; else it comes again"), theme.key),
            },
            (Stage::Trying(_), _) => (format!("{key} when you have got it"), theme.key),
            (Stage::Ready | Stage::Rest | Stage::Over, _) => (format!("{key} begins"), theme.key),
        };
        let rest = usize::from(area.width).saturating_sub(words.chars().count() + 4);
        write(
            buffer,
            area,
            &Line::from(vec![
                Span::styled("─ ", theme.muted),
                Span::styled(words, style),
                Span::styled(format!(" {}", "─".repeat(rest + 1)), theme.muted),
            ]),
        );
    }

    fn key_to_go_on(&self) -> String {
        use crate::tui::command::{Command, PracticeCommand};
        self.shared.key_of(Command::Practice(PracticeCommand::GoOn))
    }

    /// How it goes now, how it went before, and why it is on the list.
    fn draw_how_it_goes(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        turn: &InTurn,
        practice: &Practice,
    ) {
        let Some(here) = practice.here() else { return };
        let now = format!(
            "got it {} of {}, {} in a row at this tempo",
            turn.got(),
            turn.tries.len(),
            turn.ladder.good_in_a_row()
        );
        let today = self.shared.today();
        let keeper = self.shared.keeping.keeper(here.keeper.id).unwrap_or(&here.keeper);
        let record = &keeper.practice;
        let before = match (record.last(), record.best()) {
            (Some(last), Some(best)) => {
                let curve = tempo_curve(record, 16);
                format!("last {}, best at {best}  {curve}", day::past(last, today))
            }
            (Some(last), None) => format!("last {}, not got yet", day::past(last, today)),
            (None, _) => "never practised before".to_owned(),
        };
        let why = match here.turn.why {
            Why::Due(since) if since == today => "due today".to_owned(),
            Why::Due(since) => format!("due since {}", day::past(since, today)),
            Why::Next => "comes next".to_owned(),
            Why::New => "new".to_owned(),
        };
        let notice = self.shared.notice.iter().cloned();
        let notes = keeper.notes.lines().map(printable_line);
        let lines = notice.chain([now, format!("{why}; {before}")]).chain(notes);
        self.draw_lines(area, buffer, lines.collect());
    }

    fn rest_in_words(&self, practice: &Practice) -> Vec<String> {
        let key = self.key_to_go_on();
        let next = practice.next().map(|next| format!("Then: {}.", title(next, None)));
        let rest = format!(
            "Rest a little: put the instrument down, and shake out both hands. {key} goes on when you \
             are ready."
        );
        std::iter::once(rest).chain(next).collect()
    }

    fn end_in_words(&self, practice: &Practice) -> Vec<String> {
        let (tried, got) = practice.tried;
        let all_done = practice.turns.iter().all(|turn| turn.turn.is_done);
        let done = match (tried, all_done) {
            (0, true) => "The list of today is done.".to_owned(),
            (0, false) => "This is the end of the list; nothing of it was tried.".to_owned(),
            (tried, _) => {
                let tries = counted(tried, "time");
                format!("That is all for today: tried {tries}, got {got} of them.")
            }
        };
        let lines = practice.turns.iter().map(|turn| {
            let mark = if turn.turn.is_done { "✓" } else { "·" };
            format!("{mark} {}", title(turn, None))
        });
        let back = format!("{} leads back to the list.", self.key_to_go_on());
        std::iter::once(done).chain(lines).chain([back]).collect()
    }

    fn draw_lines(&self, area: Rect, buffer: &mut Buffer, lines: Vec<String>) {
        let inside = indented(area);
        let width = inside.width.saturating_sub(1);
        let lines = lines.into_iter().flat_map(|line| broken(&line, width)).collect();
        let lines = cut_to(lines, inside.height.into());
        for (line, row) in lines.into_iter().zip(0..inside.height) {
            write(buffer, below(inside, row), &Line::styled(line, self.shared.theme.text));
        }
    }
}

/// The neck where there is room beside the tab; the words and the line of care below.
fn areas(area: Rect, neck_rows: u16) -> Areas {
    let room = area.height.saturating_sub(2 + 1 + 1 + 1 + 1);
    let neck = if room >= neck_rows + LEAST_TAB + 2 { neck_rows } else { 0 };
    let words = 2.min(room.saturating_sub(neck + LEAST_TAB));
    let [head, tab, rule, neck, words, care, _] = area.layout(&Layout::vertical([
        Constraint::Length(2),
        Constraint::Fill(1),
        Constraint::Length(1),
        Constraint::Length(neck),
        Constraint::Length(words + 1),
        Constraint::Length(1),
        Constraint::Length(1),
    ]));
    Areas { head, tab, rule, neck, words, care }
}

/// What is shown of a tab, the most first.
fn looks(width: usize) -> [TabLook; 4] {
    let all = TabLook { width, below: TabBelow::Degrees, triads: true, ..TabLook::default() };
    let plain = TabLook { positions: false, strokes: false, ..all };
    let no_fingers = TabLook { fingers: false, ..plain };
    let strings = TabLook { rhythm: false, below: TabBelow::Nothing, triads: false, ..no_fingers };
    [all, plain, no_fingers, strings]
}

/// What is practised, in its key: `C♭ & D♭ over A♭maj7♯11`.
fn title(turn: &TurnAnswer, in_hand: Option<&InTurn>) -> String {
    let drill = in_hand.and_then(|turn| turn.drill.as_ref().ok());
    let chord = drill.and_then(|drill| drill.chords.chords().first());
    let is_pair =
        matches!(turn.keeper.kept.what, KeptThing::Pair | KeptThing::Ladder | KeptThing::Shape(_));
    match (chord, turn.key) {
        (Some(chord), _) if is_pair => {
            let over = chord.over.chord().map(|symbol| format!(" over {symbol}"));
            format!("{}{}", chord.pair, over.unwrap_or_default())
        }
        (_, Some(key)) => format!("{} in {key}", name_of(turn)),
        (_, None) => name_of(turn),
    }
}

fn name_of(turn: &TurnAnswer) -> String {
    let kept = &turn.keeper.kept;
    if let Some(name) = &turn.keeper.name {
        return printable_line(name);
    }
    let pair = kept.pair.as_deref().map(signs::pair);
    pair.or_else(|| kept.chord.as_deref().map(signs::chords))
        .unwrap_or_else(|| printable_line(&turn.keeper.title()))
}

/// Of a tune: the chord that sounds with its pair, and the one after.
fn chords_in_words(drill: &Drill, practice: &Practice) -> Vec<String> {
    let chords = drill.chords.chords();
    let moment = practice.moment().and_then(|moment| drill.in_phrase(moment));
    let at = moment
        .map_or(0, |moment| chords.partition_point(|chord| chord.from <= moment).saturating_sub(1));
    let named = |index: usize| {
        let chord = chords.get(index)?;
        let symbol = chord.over.chord().map(ToString::to_string).unwrap_or_default();
        Some(format!("{symbol}   {}   {}", chord.pair, chord.over.scale()))
    };
    let bar = chords.get(at).and_then(|chord| drill.chords.bars().at(chord.from));
    let bar = bar.map_or(String::new(), |bar| format!("bar {}: ", bar.index + 1));
    let now = named(at).map(|words| format!("{bar}{words}"));
    let next = (1..=4).filter_map(|after| named(at + after));
    let next: Vec<String> = next.map(|words| format!("then   {words}")).collect();
    now.into_iter().chain(next).collect()
}

/// Writes at the right end of a row of which so many columns are used, where there is room.
fn write_right(buffer: &mut Buffer, row: Rect, used: usize, text: &str, style: Style) {
    let width = text.chars().count();
    if used + width < usize::from(row.width) {
        let width = width as u16;
        let right = Rect { x: row.right().saturating_sub(width), width, ..row };
        write(buffer, right, &Line::styled(text.to_owned(), style));
    }
}
