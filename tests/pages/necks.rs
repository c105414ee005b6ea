//! Necks, boxes and ladders on pages.

use fretloom::answer::{self, Harmony, LadderAnswer, NamedPair, NeckAnswer, PairAnswer, Wishes};
use fretloom::library::LoadedTunings;
use fretloom::picture::page::{Pages, Paper};
use fretloom::picture::{FretWidths, Handed, Labels, NeckPicture};
use fretloom::sheet::{self, Heading, PageLook};
use fretloom_fretboard::{FretRange, Neck, ShapeQuery};
use fretloom_theory::{Families, Spelling};

use crate::overlap::overlaps;
use crate::program::Home;
use crate::xml::{Drawn, drawn};

fn pair_of(chord: &str) -> (Harmony, PairAnswer) {
    let harmony = Harmony::of_chord(chord).unwrap();
    let pairs =
        answer::pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::Plain);
    let pair = pairs.pairs.iter().next().unwrap().clone();
    (harmony, pair)
}

/// Every mark by its title.
fn marks(svg: &str) -> Vec<Drawn> {
    let all = drawn(svg);
    let is_label = |drawn: &Drawn| drawn.name == "text" && !drawn.titles.is_empty();
    all.into_iter()
        .filter(|drawn| is_label(drawn) && drawn.titles.last().unwrap().contains("string"))
        .collect()
}

/// `3` of `B: string 3, fret 4, first triad`.
fn told(drawn: &Drawn, what: &str) -> usize {
    let title = drawn.titles.last().unwrap();
    let rest = title.split(&format!("{what} ")).nth(1).unwrap();
    rest.chars().take_while(char::is_ascii_digit).collect::<String>().parse().unwrap()
}

/// The middle of a mark's label lies where the rule of the twelfth root of two puts the middle of its
/// fret, scaled to the page.
#[test]
fn marks_lie_where_the_frets_of_the_neck_are() {
    let home = Home::new();
    for widths in ["even", "true"] {
        let file = format!("{widths}.svg");
        let call = ["neck", "Gmaj7#11", "--fret-widths", widths, "--svg", &file, "--frets", "1-15"];
        let printed = home.run(&call).printed();
        assert!(printed.ends_with(&format!("written: {file}\n")));
        let svg = std::fs::read_to_string(home.folder().join(&file)).unwrap();
        let middle = |drawn: &Drawn| drawn.number("x") + drawn.number("textLength") / 2.0;
        let fretted: Vec<(usize, f64)> = marks(&svg)
            .iter()
            .map(|mark| (told(mark, "fret"), middle(mark)))
            .filter(|(fret, _)| *fret > 0)
            .collect();
        // Counted one by one: G A B C♯ D E on six strings in fifteen frets.
        assert_eq!(fretted.len(), 43);
        let wire = |fret: usize| match widths {
            "even" => fret as f64,
            _ => 1.0 - 2f64.powf(-(fret as f64) / 12.0),
        };
        let model = |fret: usize| (wire(fret - 1) + wire(fret)) / 2.0;
        let at = |fret: usize| fretted.iter().find(|(other, _)| *other == fret).unwrap().1;
        let frets = || fretted.iter().map(|(fret, _)| *fret);
        let (low, high) = (frets().min().unwrap(), frets().max().unwrap());
        let scale = (at(high) - at(low)) / (model(high) - model(low));
        for (fret, x) in &fretted {
            let expected = at(low) + (model(*fret) - model(low)) * scale;
            assert!((x - expected).abs() < 0.1, "{widths} {fret}: {x} for {expected}");
        }
    }
}

/// Strings are evenly apart, string 1 on top.
#[test]
fn marks_lie_on_their_strings() {
    let home = Home::new();
    for tuning in ["guitar-standard", "bass-5-string"] {
        let file = format!("{tuning}.svg");
        home.run(&["neck", "Dm7", "--tuning", tuning, "--svg", &file]).printed();
        let svg = std::fs::read_to_string(home.folder().join(&file)).unwrap();
        let marks: Vec<(usize, f64)> =
            marks(&svg).iter().map(|mark| (told(mark, "string"), mark.number("y"))).collect();
        let at = |string| marks.iter().find(|(other, _)| *other == string).unwrap().1;
        let gap = at(2) - at(1);
        assert!(gap > 3.0, "{tuning}: {gap}");
        let last = marks.iter().map(|(string, _)| *string).max().unwrap();
        assert_eq!(last, if tuning == "bass-5-string" { 5 } else { 6 });
        for (string, y) in &marks {
            let expected = at(1) + gap * (*string - 1) as f64;
            assert!((y - expected).abs() < 0.1, "{tuning} {string}: {y} for {expected}");
        }
    }
}

/// In every upright box strings go from left to right by their number downwards, frets from top to
/// bottom, and both are as far apart in one box as in another.
#[test]
fn notes_of_a_box_lie_at_their_strings_and_frets() {
    let home = Home::new();
    home.run(&["shapes", "F", "--strings", "4-3-2", "--svg", "boxes.svg"]).printed();
    let svg = std::fs::read_to_string(home.folder().join("boxes.svg")).unwrap();
    let notes: Vec<[f64; 4]> = marks(&svg)
        .iter()
        .map(|mark| {
            let middle = mark.number("x") + mark.number("textLength") / 2.0;
            let [string, fret] = ["string", "fret"].map(|what| told(mark, what) as f64);
            [string, fret, middle, mark.number("y")]
        })
        .collect();
    // F A C on three strings, from the first fret to the last.
    assert!(notes.len() >= 12 && notes.len().is_multiple_of(3), "{}", notes.len());
    let mut gaps: Option<[f64; 2]> = None;
    for notes in notes.chunks(3) {
        for two in [[0, 1], [1, 2], [0, 2]].map(|[one, other]| [notes[one], notes[other]]) {
            let [[string, fret, x, y], [to_string, to_fret, to_x, to_y]] = two;
            let across = (to_x - x) / (string - to_string);
            let [gap, row] = *gaps.get_or_insert_with(|| [across, (to_y - y) / (to_fret - fret)]);
            assert!(gap > 2.0 && row > 2.0, "{gap} {row}");
            assert!((to_x - x - gap * (string - to_string)).abs() < 0.1, "{two:?}");
            assert!((to_y - y - row * (to_fret - fret)).abs() < 0.1, "{two:?}");
        }
    }
}

/// For a left hand only left and right change.
#[test]
fn a_left_hand_sees_the_mirror_image() {
    let home = Home::new();
    home.run(&["neck", "Dm7", "--svg", "right.svg"]).printed();
    home.run(&["neck", "Dm7", "--svg", "left.svg", "--left-handed"]).printed();
    let read = |name: &str| marks(&std::fs::read_to_string(home.folder().join(name)).unwrap());
    let (right, left) = (read("right.svg"), read("left.svg"));
    assert_eq!(right.len(), left.len());
    let middle = |drawn: &Drawn| drawn.number("x") + drawn.number("textLength") / 2.0;
    let sum = middle(&right[0]) + middle(&left[0]);
    for (one, other) in right.iter().zip(&left) {
        assert_eq!((one.titles.last(), &one.text), (other.titles.last(), &other.text));
        assert!((one.number("y") - other.number("y")).abs() < 0.01);
        assert!((middle(one) + middle(other) - sum).abs() < 0.01);
    }
    let row = |string| right.iter().find(|mark| told(mark, "string") == string).unwrap();
    assert!(row(1).number("y") < row(6).number("y"));
}

/// Boxes are mirrored too: what lies at the left of a box lies at the right of it then, at the same frets.
#[test]
fn a_left_hand_sees_shapes_and_ladders_in_the_mirror() {
    let home = Home::new();
    for call in [
        &["shapes", "G", "--strings", "4-3-2"][..],
        &["shapes", "G", "--arpeggio", "2"],
        &["ladder", "F", "G"],
    ] {
        let right: Vec<&str> =
            call.iter().copied().chain(["--svg", "r.svg", "--overwrite"]).collect();
        let left: Vec<&str> = call
            .iter()
            .copied()
            .chain(["--left-handed", "--svg", "l.svg", "--overwrite"])
            .collect();
        home.run(&right).printed();
        home.run(&left).printed();
        let read = |name: &str| {
            let all = drawn(&std::fs::read_to_string(home.folder().join(name)).unwrap());
            all.into_iter()
                .filter(|it| it.titles.last().is_some_and(|says| says.contains(": string ")))
                .collect::<Vec<_>>()
        };
        let (right, left) = (read("r.svg"), read("l.svg"));
        assert_eq!(right.len(), left.len());
        let (mut same, mut moved) = (0, 0);
        for (one, other) in right.iter().zip(&left).filter(|(one, _)| one.name == "text") {
            assert_eq!(one.titles.last(), other.titles.last());
            assert!((one.number("y") - other.number("y")).abs() < 0.01);
            if (one.number("x") - other.number("x")).abs() < 0.1 { same += 1 } else { moved += 1 }
        }
        assert!(moved > 5 * same, "{call:?}: {moved} moved, {same} not");
        let alone: Vec<&str> = call.iter().copied().chain(["--left-handed"]).collect();
        let said = home.run(&alone);
        assert_eq!((said.status, said.out.as_str()), (Some(2), ""));
        let told = format!(
            "--left-handed says nothing to {} without pages: expected --pdf or --svg too",
            call[0]
        );
        assert!(said.err.contains(&told), "{}", said.err);
    }
}

/// In black and white, without a grey: a square of the first triad is black, a circle of the second white.
#[test]
fn the_triads_differ_by_shape() {
    let home = Home::new();
    home.run(&["neck", "Gmaj7#11", "--svg", "neck.svg"]).printed();
    let all = drawn(&std::fs::read_to_string(home.folder().join("neck.svg")).unwrap());
    let shapes = |of: &str| -> Vec<(bool, bool)> {
        let is_of = |drawn: &&Drawn| drawn.titles.last().is_some_and(|title| title.ends_with(of));
        // The last shape of a mark lies on top of the second line of a root.
        let mut shapes: Vec<(String, bool, bool)> = Vec::new();
        for path in all.iter().filter(is_of).filter(|drawn| drawn.name == "path") {
            let is_round = path.attributes["d"].contains('C');
            shapes.push((
                path.titles.last().unwrap().clone(),
                is_round,
                path.attributes["fill"] == "#000000",
            ));
        }
        shapes.into_iter().map(|(_, is_round, is_black)| (is_round, is_black)).collect()
    };
    let (first, second) = (shapes("first triad"), shapes("second triad"));
    assert!(first.iter().all(|(is_round, _)| !is_round) && first.contains(&(false, true)));
    assert!(second.iter().all(|(is_round, is_black)| *is_round && !is_black));
}

fn assert_apart(pages: &Pages, told: &str) {
    for (page, number) in pages.pages.iter().zip(1..) {
        let found = overlaps(page);
        assert!(found.is_empty(), "{told}, page {number}: {}", found.join("\n"));
    }
}

/// Every built-in tuning, on both papers, with either width of frets, for either hand.
#[test]
fn nothing_on_a_page_of_necks_lies_on_something_else() {
    let tunings = LoadedTunings::load(None);
    let (harmony, pair) = pair_of("Eb7alt");
    for (found, _) in tunings.iter() {
        let tuning = answer::find_tuning(&tunings, found.id()).unwrap();
        let neck = Neck::new(tuning.tuning.clone());
        let heading = Heading::of_pair(&harmony, &pair, &tuning);
        for (paper, widths, handed) in [
            (Paper::A4, FretWidths::Even, Handed::Right),
            (Paper::Letter, FretWidths::True, Handed::Left),
        ] {
            for labels in [Labels::Note, Labels::Degree] {
                let whole = FretRange::WHOLE_NECK;
                let answer = NeckAnswer::new(&neck, tuning.clone(), &pair, whole);
                let marks = answer::marks(&answer.places, labels);
                let picture = NeckPicture::new(&neck, marks).with_fret_widths(widths);
                let picture = picture.for_hand(handed);
                let pages = sheet::neck(&heading, &neck, &picture, labels, &[], paper);
                assert_apart(&pages, &format!("{} {paper:?}", found.id()));
            }
            let named = NamedPair::new(["F", "G"].map(|name| name.parse().unwrap())).unwrap();
            let query = ShapeQuery::default();
            let ladder = LadderAnswer::across_sets(&neck, tuning.clone(), named, None, &query);
            let pages = sheet::ladder(&ladder.unwrap(), &neck, PageLook { paper, handed });
            assert_apart(&pages, &format!("ladder on {} {paper:?}", found.id()));
        }
    }
}

#[test]
fn the_check_for_overlaps_finds_them() {
    use fretloom::picture::page::{Face, Item, Page, Point, Text};
    let text = |x| Item::Text(Text::new(Point::new(x, 50.0), "A", Face::Bold, 5.0));
    let page = |items| Page { paper: Paper::A4, items };
    assert_eq!(overlaps(&page(vec![text(20.0), text(30.0)])), Vec::<String>::new());
    assert_eq!(overlaps(&page(vec![text(20.0), text(22.0)])).len(), 1);
    assert_eq!(overlaps(&page(vec![text(-20.0)])).len(), 1);
}
