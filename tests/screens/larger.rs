//! A larger screen beside a smaller one: the same blocks in the same order with the same words in the
//! same styles, and what only the larger one has room for.

use std::iter::zip;

use fretloom::library::Library;
use fretloom::tui::command::{COMMANDS, Section};
use fretloom::tui::program::Program;
use fretloom::tui::text_of;
use fretloom_fretboard::{Ladder, ShapeQuery, StringSet};
use fretloom_theory::WhichTriad;
use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

use super::blocks::{Blocks, Field, fields, rows_of, text, words};
use super::necks::NECKS;
use super::themes::tracer;
use super::{SCREENS, SIZES, drawn, in_state, press};

/// Screens that are no explorer: what lies over it, and fills it.
const LISTS: [&str; 5] = ["help", "details", "scales", "tunings", "search"];

/// Every explorer of the matrix: its name, its instrument and its keys.
fn explorers() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    let screens = SCREENS.into_iter().map(|(name, keys)| (name, "guitar-standard", keys));
    screens.filter(|(name, ..)| !LISTS.contains(name)).chain(NECKS)
}

struct Drawn {
    told: String,
    program: Program,
    buffer: Buffer,
}

fn traced(name: &str, tuning: &str, keys: &str, (columns, rows): (u16, u16)) -> Drawn {
    let mut program = in_state(tuning, keys, (columns, rows));
    program.use_theme(tracer());
    let buffer = drawn(&mut program, columns, rows);
    Drawn { told: format!("{name} {columns}x{rows}\n{}", text_of(&buffer)), program, buffer }
}

impl Drawn {
    fn blocks(&self) -> Blocks<'_> {
        Blocks::of(&self.buffer, self.program.neck().tuning().string_count())
    }
}

/// Calls `check` with each explorer at 80×24 and at each larger size.
fn beside_the_smallest(check: impl Fn(&Drawn, &Drawn)) {
    for (name, tuning, keys) in explorers() {
        let small = traced(name, tuning, keys, SIZES[0]);
        for size in &SIZES[1..] {
            check(&small, &traced(name, tuning, keys, *size));
        }
    }
}

fn assert_continued(small: &[Field], large: &[Field], told: &str) {
    for (small, large) in zip(small, large) {
        assert!(small.is_or_begins(large), "{:?}: {}\n{told}", small.text(), large.text());
    }
}

/// The head says the same, wherever its lines are broken, and its right part ends as near the edge.
#[test]
fn the_head_is_that_of_the_smallest_screen() {
    beside_the_smallest(|small, large| {
        let [before, now] = [small, large].map(|screen| {
            let [first, others @ ..] = &screen.blocks().head[..] else { panic!("no head") };
            let mut parts = fields(first, 5).into_iter();
            let left = parts.next().unwrap();
            (left, parts.next(), words(others))
        });
        let (left, right, others) = now;
        assert_continued(&[before.0], &[left], &large.told);
        assert_continued(&before.2, &others, &large.told);
        assert_eq!(before.2.len(), others.len(), "{}", large.told);
        assert_eq!(before.1.is_some(), right.is_some(), "{}", large.told);
        if let (Some(before), Some(now)) = (before.1, right) {
            // Where there is room the instrument is named before its strings.
            assert!(now.cells.ends_with(&before.cells), "{}", large.told);
            let from_edge = |field: &Field, screen: &Drawn| {
                usize::from(screen.buffer.area.width) - field.column - field.cells.len()
            };
            assert_eq!(from_edge(&before, small), from_edge(&now, large), "{}", large.told);
        }
    });
}

/// The list begins with the rows of the smallest screen, in their order and styles, cuts none but at
/// its right end, has every pair that there is room for, and keeps its columns.
#[test]
fn the_list_begins_with_that_of_the_smallest_screen() {
    beside_the_smallest(|small, large| {
        let (before, now) = (small.blocks().list, large.blocks().list);
        assert!(before.len() <= now.len(), "{}", large.told);
        for (before, now) in zip(before, &now) {
            let counted = |field: &&Field| !field.text().contains(" of ");
            let before: Vec<Field> = fields(before, 2);
            let before: Vec<Field> = before.iter().filter(counted).cloned().collect();
            assert_continued(&before, &fields(now, 2), &large.told);
        }
        let pairs = large.program.explore().pairs();
        let all = pairs.classes.len();
        let counted = text(now[0]).contains(&format!(" of {all}"));
        assert_eq!(counted, now.len() - 1 < all, "{}", large.told);
        for (row, class) in zip(&now[1..], &pairs.classes) {
            let name = pairs.pairs.get(class.first).unwrap().name().to_string();
            let first = fields(row, 2).into_iter().find(|field| field.text() != "▸").unwrap();
            assert_eq!(first.text().trim_start_matches("▸ "), name, "{}", large.told);
        }
        assert_columns(&now, &large.told);
    });
}

/// Pair, says, leaves out and rubs begin under their headings in every row.
fn assert_columns(list: &[&[ratatui::buffer::Cell]], told: &str) {
    let headings = fields(list[0], 2);
    for heading in headings.iter().take(4) {
        for row in &list[1..] {
            let (here, before) = (&row[heading.column], &row[heading.column - 1]);
            assert!(here.symbol() != " " && before.symbol() == " ", "{}\n{told}", heading.text());
        }
    }
}

/// The chosen row alone has the marker, in the style of what is chosen.
#[test]
fn one_row_of_the_list_is_chosen() {
    for (name, tuning, keys) in explorers() {
        for size in SIZES {
            let screen = traced(name, tuning, keys, size);
            let list = screen.blocks().list;
            let marked: Vec<usize> =
                (1..list.len()).filter(|row| text(list[*row]).starts_with(" ▸ ")).collect();
            let wanted = if name == "stays" { 2 } else { 1 };
            assert_eq!(marked, [wanted], "{}", screen.told);
            assert_eq!(list[wanted][1].style().fg, tracer().chosen.fg, "{}", screen.told);
        }
    }
}

/// Instruments share the list of pairs, cell by cell as far as there is room.
#[test]
fn every_instrument_has_the_same_pairs() {
    for size in SIZES {
        let guitar = traced("guitar", "guitar-standard", "", size);
        for (name, tuning, keys) in NECKS {
            let screen = traced(name, tuning, keys, size);
            let (list, wanted) = (screen.blocks().list, guitar.blocks().list);
            for (row, wanted) in zip(&list[1..], &wanted[1..]) {
                assert_eq!(row, wanted, "{}", screen.told);
            }
        }
    }
}

/// Sentences and what is told of the shape go on as they begin on the smallest screen.
#[test]
fn sentences_are_those_of_the_smallest_screen() {
    beside_the_smallest(|small, large| {
        let (before, now) = (small.blocks(), large.blocks());
        assert_continued(&words(&before.sentences), &words(&now.sentences), &large.told);
        // Where there is room a position is called one, and the stretch is told in millimetres.
        let told = words(&before.told).into_iter().zip(without_stretch(&now.told));
        let told = told.filter(|(before, _)| before.text() != "pos.");
        let (told_before, told_now): (Vec<Field>, Vec<Field>) = told.unzip();
        assert_continued(&told_before, &told_now, &large.told);
        let count = |rows: &[&[_]]| words(rows).len();
        assert!(count(&before.sentences) <= count(&now.sentences), "{}", large.told);
        assert!(count(&before.told) <= count(&now.told), "{}", large.told);
    });
}

/// The words of what is told of the shape but for `· 59 mm`.
fn without_stretch(told: &[&[ratatui::buffer::Cell]]) -> Vec<Field> {
    let mut told = words(told);
    if let Some(at) = told.iter().position(|word| word.text() == "mm") {
        told.drain(at - 2..=at);
    }
    told
}

/// Only the reasons of a pair give way to the list beside them; elsewhere there is room.
#[test]
fn a_wide_screen_cuts_no_line_but_reasons_of_pairs() {
    for (name, tuning, keys) in explorers() {
        for size in &SIZES[1..] {
            let screen = traced(name, tuning, keys, *size);
            let cut = screen.told.matches('…').count();
            let usual = name == "chromatic" || (name == "position" && size.0 < 200);
            assert!(usual || cut == 0, "{}", screen.told);
        }
    }
}

/// The rule says the same but for how many frets there are, and goes to the edge.
#[test]
fn the_rule_is_that_of_the_smallest_screen() {
    beside_the_smallest(|small, large| {
        let parts = |screen: &Drawn| -> Vec<(String, Vec<_>)> {
            let rule = screen.blocks().rule;
            let words =
                fields(rule, 1).into_iter().filter(|word| !word.text().contains(['–', '─']));
            words.map(|word| (word.text(), word.cells)).collect()
        };
        assert_eq!(parts(small), parts(large), "{}", large.told);
        assert_eq!(large.blocks().rule.last().unwrap().symbol(), "─", "{}", large.told);
    });
}

/// The footer goes on as it begins on the smallest screen, as far as there is room.
#[test]
fn the_footer_begins_with_that_of_the_smallest_screen() {
    beside_the_smallest(|small, large| {
        let (before, now) = (fields(small.blocks().footer, 2), fields(large.blocks().footer, 2));
        assert!(before.len() <= now.len(), "{}", large.told);
        for (before, now) in zip(&before, &now) {
            assert_eq!((before.column, &before.cells), (now.column, &now.cells), "{}", large.told);
        }
        let longest = longest_footer(large);
        let next = longest.get(now.len()).map_or(usize::MAX, |next| next.cells.len());
        let used = now.last().map_or(0, |last| last.column + last.cells.len());
        assert!(used.saturating_add(2).saturating_add(next) > large.buffer.area.width.into());
    });
}

/// The footer with room for everything.
fn longest_footer(screen: &Drawn) -> Vec<Field> {
    let (columns, rows) = (500, screen.buffer.area.height);
    let mut buffer = Buffer::empty(ratatui::layout::Rect::new(0, 0, columns, rows));
    screen.program.draw(buffer.area, &mut buffer);
    fields(rows_of(&buffer).last().unwrap(), 2)
}

/// Beside the pairs of a wide screen stand the scales that the list of scales has, in its order.
#[test]
fn a_wide_screen_lists_the_scales_beside_the_pairs() {
    let list = traced("scales", "guitar-standard", "e", SIZES[2]);
    let wanted: Vec<Vec<String>> = rows_of(&list.buffer)
        .skip(1)
        .map(|row| fields(row, 2))
        .take_while(|fields| !fields.is_empty())
        .map(|fields| fields.iter().map(|f| f.text().trim_start_matches("▸ ").to_owned()).collect())
        .collect();
    let screen = traced("explorer", "guitar-standard", "", SIZES[2]);
    let rows = screen.blocks().list;
    let heading = fields(rows[0], 2).pop().unwrap();
    assert_eq!(heading.text(), "scales of Gmaj7♯11");
    assert_eq!(heading.style().fg, tracer().muted.fg);
    assert_eq!(wanted.len(), 5);
    for (index, (row, wanted)) in zip(&rows[1..], wanted).enumerate() {
        let marker = if index == 0 { "▸" } else { " " };
        assert_eq!(row[heading.column].symbol(), marker, "{}", screen.told);
        let row = fields(&row[heading.column + 2..], 2);
        // Root and kind, then the reason; the notes of the scale have no room.
        assert_eq!((row[0].text(), row[1].text()), (wanted[0].clone(), wanted[2].clone()));
    }
}

/// The ladders of a large screen have every close shape of each set of strings, from low to high,
/// the set in use first; each in the style of its triad, the one in hand marked and reversed.
#[test]
fn the_ladders_of_a_large_screen_are_those_of_the_pair() {
    for (name, tuning, keys) in explorers() {
        for size in &SIZES[1..] {
            let screen = traced(name, tuning, keys, *size);
            let rows = screen.blocks().ladders;
            let words: Vec<Field> =
                rows.iter().flat_map(|row| fields(row, 2)).filter(is_ladder_item).collect();
            let room = rows.len() > 8;
            if room && screen.program.neck().tuning().string_count() == 6 {
                assert_ladders(&screen, &words);
            }
        }
    }
}

fn is_ladder_item(field: &Field) -> bool {
    let text = field.text();
    text.starts_with(['[', '(', '▸']) || text.starts_with("strings ")
}

fn assert_ladders(screen: &Drawn, words: &[Field]) {
    let theme = tracer();
    let explore = screen.program.explore();
    let (neck, pair) = (screen.program.neck(), explore.pair().unwrap());
    let used = explore.strings().unwrap();
    let others = StringSet::neighbours(neck.tuning().string_count(), 3);
    let everywhere = Ladder::new(neck, pair.pair(), &ShapeQuery::default().without_fingers());
    let held = explore.shape(neck).map(|shape| shape.shape.pitches());
    let is_locked = screen.told.starts_with("climbing ");
    let mut words = words.iter();
    let sets = [used].into_iter().chain(others.filter(|set| *set != used));
    for set in sets {
        let head = words.next().unwrap();
        assert!(head.text().starts_with(&format!("strings {set}")), "{set}\n{}", screen.told);
        assert_eq!(head.style().fg, theme.muted.fg);
        for rung in everywhere.on(set).rungs() {
            let (name, role) = match rung.which {
                WhichTriad::First => (format!("[{}]", pair.first.name), theme.first),
                WhichTriad::Second => (format!("({})", pair.second.name), theme.second),
            };
            let frets =
                rung.shape.places().map(|place| neck.fret_number(place).to_string()).join("-");
            let word = words.next().unwrap();
            let in_hand = set == used && Some(rung.shape.pitches()) == held;
            let marker = if in_hand { "▸" } else { "" };
            assert_eq!(word.text(), format!("{marker}{name} {frets}"), "{}", screen.told);
            let role = if is_locked && set != used { theme.muted } else { role };
            let last = word.cells.last().unwrap().1;
            assert_eq!(last.fg, role.fg, "{} {}", word.text(), screen.told);
            assert_eq!(last.add_modifier.contains(Modifier::REVERSED), in_hand);
        }
    }
    assert!(words.next().is_none(), "{}", screen.told);
}

/// Whatever the size, scrolling through a list shows the same lines, each once and in one order.
#[test]
fn a_list_has_the_same_lines_at_every_size() {
    for keys in ["?", "g", "e"] {
        let [small, middle, large] = SIZES.map(|size| scrolled_through(keys, size));
        for other in [small, middle] {
            let is_cut = |line: &str, whole: &str| {
                line.strip_suffix('…').is_some_and(|cut| whole.starts_with(cut.trim_end()))
            };
            let differs = zip(&other, &large).find(|(one, all)| one != all && !is_cut(one, all));
            assert_eq!(differs, None, "{keys}");
            assert_eq!(other.len(), large.len(), "{keys}");
        }
    }
}

/// The lines of a list from the first to the last.
fn scrolled_through(keys: &str, size: (u16, u16)) -> Vec<String> {
    let mut program = in_state("guitar-standard", keys, size);
    let mut lines: Vec<String> = Vec::new();
    // Where in the list the first line stands that is shown: near to where it stood before.
    let mut top: usize = 0;
    for _ in 0..200 {
        let shown = text_of(&drawn(&mut program, size.0, size.1));
        let inner = shown.lines().skip(1).take(usize::from(size.1) - 2);
        let shown = inner.take_while(|line| !line.starts_with('─'));
        let shown = shown.map(|line| line.replacen('▸', " ", 1).trim_end().to_owned());
        let shown: Vec<String> = shown.collect();
        let fits = |top: &usize| zip(&lines[*top..], &shown).all(|(one, other)| one == other);
        let tops = (0..=lines.len()).filter(fits);
        top = tops.min_by_key(|one| one.abs_diff(top)).unwrap();
        lines.extend(shown.iter().skip(lines.len() - top).cloned());
        press(&mut program, "down");
    }
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    lines
}

/// The list of tunings has each tuning that there is, in the order in which the library has them.
#[test]
fn the_list_of_tunings_has_every_tuning() {
    let lines = scrolled_through("g", SIZES[2]);
    let library = Library::load(None);
    let names: Vec<&str> = library.tunings.iter().map(|(tuning, _)| tuning.name()).collect();
    assert_eq!(lines.len(), names.len());
    for (line, name) in zip(&lines, names) {
        assert!(line.starts_with(&format!("   {name}  ")), "{name}: {line}");
    }
}

/// The help lists every command in the order of the table.
#[test]
fn the_help_lists_every_command() {
    let lines = scrolled_through("?", SIZES[2]);
    let mut from = 0;
    let elsewhere =
        [Section::Line, Section::Changes, Section::Keepers, Section::Listen, Section::Practice];
    let sections = Section::ALL.into_iter().filter(|section| !elsewhere.contains(section));
    let rows =
        sections.flat_map(|section| COMMANDS.iter().filter(move |row| row.listed == section));
    for row in rows {
        let found = lines[from..].iter().position(|line| line.ends_with(row.help));
        let found = found.unwrap_or_else(|| panic!("{} is not after line {from}", row.help));
        from += found;
    }
}
